/* home_view_sheet.c - draws a pattern from above, and a sheet as it is typed beside its picture. */
#include <math.h>

#include "base/text.h"
#include "ui/draw/laneview.h"
#include "ui/home/home_view.h"

static const Glyphs *glyphs_of(const Home *home) { return home->host->look->glyphs; }

static const Role FILM_ROLES[GLYPH_FILMS] = {ROLE_BOARD, ROLE_OIL1, ROLE_OIL2,
                                             ROLE_OIL3,  ROLE_OIL4, ROLE_OIL5};

void home_draw_picture(const Home *home, Canvas *canvas, Area area)
{
    const Glyphs *glyphs = glyphs_of(home);
    int boards = (LANE_BOARDS + area.columns - 1) / area.columns;
    int columns = (LANE_BOARDS + boards - 1) / boards;
    for (int r = 0; r < area.rows; r++) {
        double share = (area.rows - 1 - r) / (area.rows - 1.0);
        int station = (int)lround(share * LANE_LENGTH_FT / OIL_STATION_FT);
        canvas_put(canvas, area.row + r, area.column - 1, glyphs->gutter, ROLE_DIM);
        canvas_put(canvas, area.row + r, area.column + columns, glyphs->gutter, ROLE_DIM);
        for (int c = 0; c < columns; c++) {
            int level = laneview_shade(home->oil.units[station][LANE_BOARDS - 1 - c * boards]);
            canvas_put(canvas, area.row + r, area.column + c, glyphs->film[level],
                       FILM_ROLES[level]);
        }
    }
    for (int ft = 0; ft <= 60; ft += 15) {
        int up = (int)lround(ft / LANE_LENGTH_FT * (area.rows - 1));
        canvas_print(canvas, area.row + area.rows - 1 - up, area.column - 4, 3, ROLE_DIM, "%2d",
                     ft);
    }
}

void home_oil_words(double length_ft, double volume_ml, double ratio, char *out, size_t size)
{
    text_copy(out, size, "");
    text_append(out, size, "%.4g ft, %.1f mL, ", length_ft, volume_ml);
    if (volume_ml > 0.0 && isfinite(ratio))
        text_append(out, size, "%.1f:1", ratio);
    else
        text_append(out, size, "%s", volume_ml > 0.0 ? "none outside" : "no oil yet");
}

/* How a row is typed; two lines at most. */
static const char *how_to(const Home *home)
{
    if (home->filling == FORM_READING)
        return "Units on each board, board 1 at the right edge. With both sides alike, boards 21 "
               "to 39 follow 19 to 1.";
    if (home->form.row < SHEET_FIRST)
        return "";
    return home->sheet.way == SHEET_READINGS
               ? "A reading for each distance of the tape; between them the oil changes evenly."
               : "2L-2R 0-8 2.5-0.7: boards, feet, units at start and end. 36-8 3x50: on the "
                 "way back, 3 loads of 50 microlitres a board.";
}

/* Beside the form in a wide window, half as wide in a narrower one; totals under it. */
static void draw_beside(const Home *home, Canvas *canvas, int at, int columns)
{
    char totals[64];
    int rows = canvas->rows - 8;
    home_draw_picture(home, canvas, (Area){3, at, rows, columns});
    home_oil_words(home->sheet.pattern.length_ft, home->sheet_ml, home->sheet_ratio, totals,
                   sizeof totals);
    canvas_text(canvas, 3 + rows, at - 4, canvas->columns - at + 4, ROLE_ACCENT, totals);
}

void home_draw_sheet(const Home *home, Canvas *canvas)
{
    const Form *form = &home->form;
    bool compact = home_compact(home), wide = canvas->columns >= 120;
    int picture = wide ? LANE_BOARDS : (LANE_BOARDS + 1) / 2;
    int at = canvas->columns - picture - 3, row = compact ? 1 : 4;
    int columns = compact ? canvas->columns - 2 : at - 6,
        room = canvas->rows - row - (compact ? 2 + home_long_message(home) : 6);
    char right[64] = "", hint[128];
    if (compact)
        home_oil_words(home->sheet.pattern.length_ft, home->sheet_ml, home->sheet_ratio, right,
                       sizeof right);
    form_hint(form, home_filled(home), hint, sizeof hint);
    if (compact && form->row >= SHEET_FIRST && home->filling == FORM_SHEET && !form->typed_on &&
        home->sheet.way == SHEET_STROKES)
        text_copy(hint, sizeof hint, "2L-2R 0-8 2.5-0.7, or 2L-2R 0-8 3x50");
    home_frame(home, canvas, home->filling == FORM_READING ? "Reading" : "Sheet", right, hint);
    form_draw(form, home_filled(home), glyphs_of(home), canvas,
              (Area){row, 1, form->kind->count < room ? form->kind->count : room, columns});
    if (compact) {
        home_draw_message(home, canvas);
        return;
    }
    canvas_text(canvas, 2, 3, columns - 4, ROLE_DIM,
                home->filling == FORM_READING ? "One reading of the tape. Tab: it is right."
                                              : "As on the sheet. Tab: all is right, keep it.");
    draw_beside(home, canvas, at, picture);
    canvas_wrap(canvas, canvas->rows - 5, 3, columns - 2, 3, ROLE_DIM,
                how_to(home)[0] ? how_to(home) : hint);
}
