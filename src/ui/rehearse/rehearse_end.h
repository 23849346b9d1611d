/* rehearse_end.h - the last page of a rehearsal: score, costs, the dearest decisions, the hidden
 * lane. Pure. */
#ifndef SETTEE_UI_REHEARSE_REHEARSE_END_H
#define SETTEE_UI_REHEARSE_REHEARSE_END_H

#include "core/rehearse/judge.h"
#include "ui/draw/canvas.h"
#include "ui/draw/glyphs.h"

enum { END_DEAREST = 3, END_OTHERS = 2 };

typedef struct EndPage {
    const RehearseSetup *setup;
    const Rehearsal *block;
    const Judgement *judgement;
    int help;
    int others; /* of END_OTHERS, how many have played it */
    const Player *other[END_OTHERS];
    double other_pins[END_OTHERS];
    int dearest_count, dearest[END_DEAREST];
    /* Mean film from 15 to 35 ft by board, units: of the sheet, of the lane before each of the
     * dearest, and before each game on the left lane. */
    double sheet[LANE_BOARDS], dear_film[END_DEAREST][LANE_BOARDS];
    double game_film[SESSION_GAMES_MAX][LANE_BOARDS];
    bool done; /* all of it is there; else `work` says what is being computed */
    char work[80];
    int top;
} EndPage;

/* How many lines it has at that width. */
int end_lines(const EndPage *page, int columns);
int end_room(int rows); /* and how many show at once */
void end_draw(const EndPage *page, const Glyphs *glyphs, Canvas *canvas, const char *message);

#endif
