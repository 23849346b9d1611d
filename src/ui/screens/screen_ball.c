/* screen_ball.c - the list of the bag's balls, and the fields of the one being changed. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "ui/form/ball_form.h"
#include "ui/screens/screens.h"

/* Columns of the list and of a form's row. */
enum { NAME_AT = 4, LB_AT = 30, COVER_AT = 36, SURFACE_AT = 47, GAMES_AT = 58, RG_AT = 66 };
enum { FORM_HIGH = BALL_ROWS + 6, FORM_WIDE = 100 };

static const Bag *bag_of(const Model *model) { return &model->session->bag; }

static void mark(const Model *model, Canvas *canvas, int row, int column)
{
    canvas_put(canvas, row, column, model->glyphs->breaks_right, ROLE_ACCENT);
}

/* Where the bag is saved, or that it isn't. */
static void draw_saved(const Model *model, Canvas *canvas, int row, int column, int columns)
{
    if (!model->bag_saved[0])
        return;
    if (model->bag_unsaved)
        canvas_put(canvas, row, column, model->glyphs->caution, ROLE_WARN);
    canvas_print(canvas, row, column + 2, columns - 2, model->bag_unsaved ? ROLE_WARN : ROLE_DIM,
                 "%s %s", model->bag_unsaved ? "Not saved:" : "Saved in", model->bag_saved);
}

/* Whether any ball's surface is only its cover's usual one. */
static bool any_usual(const Bag *bag)
{
    for (int i = 0; i < bag->count; i++)
        if (bag->balls[i].surface_usual)
            return true;
    return false;
}

/* Titles, the balls, their order, what a mark means, where they are saved. */
int screen_ball_list_rows(const Model *model, int columns)
{
    (void)columns;
    return 3 + bag_of(model)->count + any_usual(bag_of(model));
}

static const char *order_sign(const Bag *bag, const Strength *strength, int before, int slot)
{
    bool spare = bag_slot(bag, slot)->cover == COVER_POLYESTER;
    if (spare && (before == 0 || bag_slot(bag, before)->cover != COVER_POLYESTER))
        return "; for spares";
    if (spare || before == 0)
        return "";
    return strength[before - 1].score - strength[slot - 1].score > STRENGTH_ALIKE ? " >" : " =";
}

void screen_ball_order(const Model *model, Canvas *canvas, int row, int column, int columns)
{
    const Bag *bag = bag_of(model);
    const Arsenal *arsenal = model_arsenal(model);
    static const char LONG[] = "Strong to weak:";
    Strength strength[BAG_SLOTS] = {0};
    int slots[BAG_SLOTS];
    char text[96] = "", brief[96] = "Order:";
    for (int i = 0; arsenal && i < bag->count; i++)
        if (bag->balls[i].slot > 0)
            strength[bag->balls[i].slot - 1] = arsenal->ball[i].strength;
    int count = strength_rank(bag, strength, slots);
    if (!arsenal || count < 2 || !arsenal->ball[0].at[0].ready)
        return;
    for (int i = 0; i < count; i++)
        text_append(text, sizeof text, "%s %d",
                    order_sign(bag, strength, i > 0 ? slots[i - 1] : 0, slots[i]), slots[i]);
    text_append(brief, sizeof brief, "%s", text);
    if (canvas_width(text) + (int)strlen(LONG) > columns)
        canvas_text(canvas, row, column, columns, ROLE_PLAIN, brief);
    else
        canvas_print(canvas, row, column, columns, ROLE_PLAIN, "%s%s", LONG, text);
}

static void draw_listed(const Model *model, Canvas *canvas, int row, int column, int i)
{
    const Ball *ball = &bag_of(model)->balls[i];
    char surface[32];
    Role role = ball->slot ? ROLE_PLAIN : ROLE_DIM;
    if (i == model->ball)
        mark(model, canvas, row, column);
    canvas_print(canvas, row, column + 2, 1, ROLE_KEY, "%c", screen_bag_letter(bag_of(model), i));
    canvas_text(canvas, row, column + NAME_AT, LB_AT - NAME_AT - 1,
                i == model->ball ? ROLE_ACCENT : role, ball->name);
    canvas_print(canvas, row, column + LB_AT, 5, role, "%4.4g", ball->pounds);
    canvas_text(canvas, row, column + COVER_AT, 10, role, COVER_NAMES[ball->cover]);
    ball_surface_words(&ball->surface, surface, sizeof surface);
    text_append(surface, sizeof surface, "%s", ball->surface_usual ? "*" : "");
    canvas_text(canvas, row, column + SURFACE_AT, 10, role, surface);
    canvas_print(canvas, row, column + GAMES_AT, 6, role, "%5.4g", ball->surface.games_since);
    canvas_print(canvas, row, column + RG_AT, 12, role, "%.2f  %.3f", ball->rg_in,
                 ball->differential_in);
}

void screen_ball_list(const Model *model, Canvas *canvas, Area area)
{
    int order[BAG_BALLS_MAX], count = model_bag_order(model, order), at = 0, slots = 0;
    bool usual = any_usual(bag_of(model));
    int room = area.rows - 3 - usual, row = area.row, column = area.column;
    for (int i = 0; i < count; i++) {
        at = order[i] == model->ball ? i : at;
        slots += bag_of(model)->balls[i].slot > 0;
    }
    int top = at - room / 2 < count - room ? at - room / 2 : count - room;
    top = top < 0 ? 0 : top;
    if (room < count)
        canvas_print(canvas, row, column, 28, ROLE_TITLE, "Ball %d of %d", at + 1, count);
    else
        canvas_print(canvas, row, column, 28, ROLE_TITLE, "%d in slots, %d in the locker", slots,
                     count - slots);
    canvas_text(canvas, row++, column + LB_AT, area.columns - LB_AT, ROLE_DIM,
                "  lb  cover      surface    games   RG    diff");
    for (int i = top; i < count && i < top + room; i++)
        draw_listed(model, canvas, row++, column, order[i]);
    screen_ball_order(model, canvas, row++, column + 2, area.columns - 2);
    if (usual)
        canvas_text(canvas, row, column + 2, area.columns - 2, ROLE_DIM,
                    "* usual for its cover: the bag doesn't say. Enter to put in yours.");
    draw_saved(model, canvas, area.row + area.rows - 1, column, area.columns);
}

/* What the ball does as it is now, once the arsenal has computed it. */
static void draw_doing(const Model *model, Canvas *canvas, int row, int column, int columns)
{
    const Arsenal *arsenal = model_arsenal(model);
    const Showing *show = arsenal ? &arsenal->ball[model->ball].at[0] : NULL;
    const Line *line = show ? &show->line : NULL;
    char text[160] = "On fresh oil: ";
    if (!show || !show->ready)
        text_append(text, sizeof text, "calculating");
    else if (!show->found)
        text_append(text, sizeof text, "no line to the pocket");
    else if (isnan(line->hook_ft))
        text_append(text, sizeof text, "it never moves, pocket %.0f%%", 100.0 * line->pocket);
    else
        text_append(text, sizeof text, "hooks at %.0f ft, entry %.1f deg, pocket %.0f%%",
                    line->hook_ft, line->entry_deg, 100.0 * line->pocket);
    canvas_text(canvas, row, column, columns, ROLE_PLAIN, text);
}

static bool surface_closed(const Model *model)
{
    return BALL_FORM.rows[model->form.row].caution == CAUTION_SURFACE &&
           !model_surfaces_free(model);
}

static void draw_form(const Model *model, Canvas *canvas, Area area)
{
    const Ball *ball = &bag_of(model)->balls[model->ball];
    int row = area.row, column = area.column;
    int wide = canvas_text(canvas, row, column, area.columns - 16, ROLE_TITLE, ball->name);
    canvas_print(canvas, row, column + wide + 2, 14, ROLE_DIM,
                 ball->slot ? "slot %d" : "in the locker", ball->slot);
    form_draw(&model->form, ball, model->glyphs, canvas,
              (Area){row + 1, column, BALL_ROWS, area.columns});
    row += BALL_ROWS + 2;
    draw_doing(model, canvas, row, column + 2, area.columns - 2);
    form_caution(&model->form, surface_closed(model) ? SESSION_SURFACES_CLOSED : NULL,
                 model->glyphs, canvas, (Area){row + 2, column, 2, area.columns});
}

/* Its name, the fields around the current one, what to take care of; the hint is on the rule. */
static void ball_compact(const Model *model, Canvas *canvas)
{
    const Ball *ball = &bag_of(model)->balls[model->ball];
    const char *closed = surface_closed(model) ? SESSION_SURFACES_CLOSED : NULL;
    int columns = canvas->columns - 2, room = canvas->rows - 4;
    int care =
        closed ? canvas_lines(columns - 2, closed) : form_caution_rows(&model->form, columns);
    int rows = BALL_ROWS < room - care ? BALL_ROWS : room - care;
    char hint[128];
    form_hint(&model->form, ball, hint, sizeof hint);
    screen_frame_top(canvas, model->bag_unsaved ? "Not saved" : "Ball", "");
    int wide = canvas_text(canvas, 1, 1, columns - 16, ROLE_TITLE, ball->name);
    canvas_print(canvas, 1, wide + 3, 14, ROLE_DIM, ball->slot ? "slot %d" : "in the locker",
                 ball->slot);
    form_draw(&model->form, ball, model->glyphs, canvas, (Area){2, 1, rows, columns});
    form_caution(&model->form, closed, model->glyphs, canvas, (Area){2 + rows, 1, care, columns});
    screen_frame_bottom(model, canvas, 0, columns, ROLE_PLAIN, hint);
}

void screen_ball(const Model *model, Canvas *canvas)
{
    if (model_compact(model)) {
        ball_compact(model, canvas);
        return;
    }
    int rows = canvas->rows - 4, columns = canvas->columns - 2, top = 2;
    int list = screen_ball_list_rows(model, columns);
    list = list < rows - FORM_HIGH - 1 ? list : rows - FORM_HIGH - 1;
    screen_bag_frame(model, canvas, "");
    if (list >= 8) { /* where there is room the others stay in sight */
        screen_ball_list(model, canvas, (Area){1, 1, list, columns});
        top = list + 2;
    }
    draw_form(model, canvas, (Area){top, 1, FORM_HIGH, columns < FORM_WIDE ? columns : FORM_WIDE});
    if (top == 2)
        draw_saved(model, canvas, top + FORM_HIGH + 1, 1, columns);
}
