/* home_view_fill.c - draws forms, a bag, and the kinds of ball. */
#include "base/text.h"
#include "core/bag/preset.h"
#include "core/motion/measure.h"
#include "ui/form/kinds.h"
#include "ui/home/home_view.h"

static const Glyphs *glyphs_of(const Home *home) { return home->host->look->glyphs; }

/* ---- a bag ---- */

enum { NAME_AT = 6, LB_AT = 32, COVER_AT = 38, SURFACE_AT = 49, RG_AT = 61 };

static void draw_ball(Canvas *canvas, int row, int column, int columns, const Ball *ball, bool here)
{
    char surface[32];
    Role role = ball->slot ? ROLE_PLAIN : ROLE_DIM;
    ball_surface_words(&ball->surface, surface, sizeof surface);
    if (ball->slot)
        canvas_print(canvas, row, column + NAME_AT - 2, 1, ROLE_KEY, "%d", ball->slot);
    canvas_text(canvas, row, column + NAME_AT, LB_AT - NAME_AT - 1, here ? ROLE_ACCENT : role,
                ball->name);
    if (columns < RG_AT + 12)
        return;
    canvas_print(canvas, row, column + LB_AT, 5, role, "%4.4g", ball->pounds);
    canvas_text(canvas, row, column + COVER_AT, 10, role, COVER_NAMES[ball->cover]);
    text_append(surface, sizeof surface, "%s", ball->surface_usual ? "*" : "");
    canvas_text(canvas, row, column + SURFACE_AT, 11, role, surface);
    canvas_print(canvas, row, column + RG_AT, 14, role, "%.2f  %.3f", ball->rg_in,
                 ball->differential_in);
}

/* Who throws them, in two lines; in one in the compact view. */
static void draw_bowler(const Home *home, Canvas *canvas, int row)
{
    const Bowler *bowler = &home->bag.bowler;
    char line[200] = "";
    text_append(line, sizeof line, "%s, %s-handed, %s", bowler->name, HAND_NAMES[bowler->hand],
                bowler->from.style ? PLAY_NAMES[bowler->from.style] : STYLE_NAMES[bowler->style]);
    canvas_text(canvas, row, 3, canvas->columns - 4, ROLE_PLAIN, line);
    if (home_compact(home))
        return;
    line[0] = '\0';
    text_append(line, sizeof line,
                "%.4g mph, %.0f rpm, rotation %.0f, tilt %.0f deg, scatter %.1f boards",
                bowler->mph, bowler->rpm, bowler->rotation_deg, bowler->tilt_deg,
                measure_scatter_at_arrows(&bowler->scatter));
    canvas_text(canvas, row + 1, 3, canvas->columns - 4, ROLE_DIM, line);
}

void home_draw_bag(const Home *home, Canvas *canvas)
{
    int order[BAG_BALLS_MAX], count = bag_order(&home->bag, order), at = 0;
    bool usual = false, compact = home_compact(home);
    int row = compact ? 2 : 6, room = canvas->rows - row - (compact ? 2 : 4);
    char title[96] = "";
    text_append(title, sizeof title, "Bag %s", home->bag_name[0] ? home->bag_name : "(new)");
    home_frame(home, canvas, title, "saved as you go", "");
    draw_bowler(home, canvas, compact ? 1 : 2);
    if (!compact)
        canvas_text(canvas, row - 1, 1 + LB_AT, canvas->columns - LB_AT - 2, ROLE_DIM,
                    "  lb  cover      surface     RG    diff");
    for (int i = 0; i < count; i++)
        at = order[i] == home->ball ? i : at;
    int top = home_top(at, count, room);
    for (int i = top; i < count && i < top + room; i++, row++) {
        bool here = order[i] == home->ball;
        const Ball *ball = &home->bag.balls[order[i]];
        if (here)
            canvas_put(canvas, row, 3, glyphs_of(home)->breaks_right, ROLE_ACCENT);
        draw_ball(canvas, row, 1, canvas->columns - 2, ball, here);
        usual = usual || ball->surface_usual;
    }
    if (usual && !compact)
        canvas_text(canvas, row + 1, 5, canvas->columns - 6, ROLE_DIM,
                    "* usual for its cover: Enter to put in yours.");
}

/* ---- kinds of ball ---- */

/* The balls last added, as many as fit. */
static void draw_added(const Home *home, Canvas *canvas, int row)
{
    int room = canvas->rows - 2 - row, count = home->bag.count;
    for (int i = count > room ? count - room : 0; i < count; i++, row++)
        draw_ball(canvas, row, 1, canvas->columns - 2, &home->bag.balls[i], false);
}

void home_draw_kinds(const Home *home, Canvas *canvas)
{
    int row = home_compact(home) ? 2 : 4;
    char right[48] = "";
    text_append(right, sizeof right, "%d ball%s in the bag", home->bag.count,
                home->bag.count == 1 ? "" : "s");
    home_frame(home, canvas,
               home_compact(home) ? "Balls by kind" : "Balls by what they are sold as", right,
               BALL_PRESETS[home->kind].means);
    int room = home_compact(home) ? canvas->rows - 4 : kinds_count();
    kinds_draw(NULL, home->kind, !home_compact(home), glyphs_of(home), canvas,
               (Area){row, 1, room, canvas->columns - 2});
    row += room;
    if (home_compact(home))
        return;
    canvas_text(canvas, 2, 3, canvas->columns - 4, ROLE_DIM,
                "One for each ball you bring; numbers are usual ones, to change later.");
    draw_added(home, canvas, row + 1);
}

/* ---- forms ---- */

static const char *const TITLES[] = {[FORM_BOWLER] = "Bowler",
                                     [FORM_BALL] = "Ball",
                                     [FORM_EVENT] = "New event",
                                     [FORM_MEASURE] = "Measure"};

/* What comes out, and how to measure it; in the compact view as much as fits. */
static void draw_result(const Home *home, Canvas *canvas, int row)
{
    const Measure *measure = &home->measure;
    const FormRow *field = &BOWLER_FORM.rows[measure->row];
    int columns = canvas->columns - 6, words = home_compact(home) ? canvas->rows - 3 - row : 6;
    canvas_print(canvas, row, 3, columns, ROLE_ACCENT, "%s: %.3g %s", field->name,
                 measure_result(measure), field->unit);
    if (!home_compact(home))
        canvas_text(canvas, ++row, 3, columns, ROLE_DIM,
                    "Tab takes it over, marked as measured; Esc goes back without it.");
    canvas_wrap(canvas, row + (home_compact(home) ? 1 : 2), 3, columns, words, ROLE_PLAIN,
                measure_words(measure->row));
}

/* What the whole of a form is for, above its fields. */
static const char *purpose(const Home *home)
{
    switch (home->filling) {
    case FORM_BOWLER:
        return "Who throws? What you don't know stays as is usual. Tab: all is right.";
    case FORM_EVENT:
        return "What, where, with whom? Tab: all is right, begin.";
    default:
        return "";
    }
}

void home_draw_form(const Home *home, Canvas *canvas)
{
    const Form *form = &home->form;
    bool compact = home_compact(home), measuring = home->filling == FORM_MEASURE;
    int row = compact ? 1 : 4, columns = canvas->columns - 2, rows = form->kind->count;
    int room = canvas->rows - 2 - row - home_long_message(home);
    char right[64] = "", hint[128];
    if (home->starting && !measuring)
        text_append(right, sizeof right, "step %d of 3", home->filling == FORM_BOWLER ? 1 : 3);
    form_hint(form, home_filled(home), hint, sizeof hint);
    home_frame(home, canvas,
               home->filling == FORM_BALL ? home->ball_draft.name : TITLES[home->filling], right,
               hint);
    if (!compact)
        canvas_text(canvas, 2, 3, columns - 4, ROLE_DIM, purpose(home));
    int care = compact && !measuring ? form_caution_rows(form, columns) : 0;
    rows = rows < room - care ? rows : room - care;
    form_draw(form, home_filled(home), glyphs_of(home), canvas,
              (Area){row, 1, rows, columns < 100 ? columns : 100});
    row += rows + !compact;
    if (measuring)
        draw_result(home, canvas, row);
    else
        form_caution(form, NULL, glyphs_of(home), canvas,
                     (Area){row, 1, compact ? care : 2, columns});
    home_draw_message(home, canvas);
}
