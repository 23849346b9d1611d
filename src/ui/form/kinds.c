/* kinds.c - the kinds of ball as a list. */
#include "ui/form/kinds.h"

enum { NAME_AT = 4, MEANS_AT = 23 };

int kinds_count(void)
{
    int count = 0;
    while (BALL_PRESETS[count].name)
        count++;
    return count;
}

Ball kinds_ball(const Bag *bag, int kind)
{
    const LevelPreset *level = preset_level(LEVEL_NAMES[bag->bowler.from.level]);
    double pounds = bag->count > 0 ? bag->balls[bag->count - 1].pounds
                    : level        ? level->pounds
                                   : 15.0;
    return preset_ball_for(bag, &BALL_PRESETS[kind], pounds);
}

void kinds_draw(const char *first, int at, bool wide, const Glyphs *glyphs, Canvas *canvas,
                Area area)
{
    int count = kinds_count() + (first != NULL);
    int top = at - area.rows / 2 < count - area.rows ? at - area.rows / 2 : count - area.rows;
    top = top > 0 ? top : 0;
    for (int i = top; i < count && i < top + area.rows; i++) {
        int row = area.row + i - top, column = area.column;
        const BallPreset *kind = first && i == 0 ? NULL : &BALL_PRESETS[i - (first != NULL)];
        bool here = i == at;
        if (here)
            canvas_put(canvas, row, column + NAME_AT - 2, glyphs->breaks_right, ROLE_ACCENT);
        canvas_text(canvas, row, column + NAME_AT,
                    kind && wide ? MEANS_AT - NAME_AT - 1 : area.columns - NAME_AT,
                    here ? ROLE_ACCENT : ROLE_PLAIN, kind ? kind->name : first);
        if (kind && wide)
            canvas_text(canvas, row, column + MEANS_AT, area.columns - MEANS_AT, ROLE_DIM,
                        kind->means);
    }
}
