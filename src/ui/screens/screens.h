/* screens.h - the screens and the parts they share: pure functions of a const model. */
#ifndef SETTEE_UI_SCREENS_SCREENS_H
#define SETTEE_UI_SCREENS_SCREENS_H

#include "ui/draw/widgets.h"
#include "ui/model.h"

void screen_lane(const Model *model, Canvas *canvas);
void screen_spares(const Model *model, Canvas *canvas);
void screen_help(const Model *model, Canvas *canvas);
void screen_search(const Model *model, Canvas *canvas);
void screen_bag(const Model *model, Canvas *canvas);
void screen_ball(const Model *model, Canvas *canvas);
void screen_block(const Model *model, Canvas *canvas);
void screen_oil(const Model *model, Canvas *canvas);
void screen_log(const Model *model, Canvas *canvas);

/* ---- the frame around each ---- */

/* The first line. */
void screen_frame_top(Canvas *canvas, const char *title, const char *right);
void screen_frame_event(const Model *model, Canvas *canvas); /* the event, game, frame and lane */

/* The keys on the last line, and the rule `between` lines above it. The rule shows, in at most
 * `width` columns, that something is not saved, else the message, else `hint` ("": nothing).
 * Returns the columns used. */
int screen_frame_bottom(const Model *model, Canvas *canvas, int between, int width, Role role,
                        const char *hint);

/* In MODE_ASK: the question, as text and on the line above the footer. */
void screen_prompt(const Model *model, char *out, size_t size);
void screen_frame_prompt(const Model *model, Canvas *canvas);

/* ---- parts ---- */

/* What to throw next, why, and the other answers. */
void screen_throw(const Model *model, Canvas *canvas, Area area);
/* The same in a few lines; leaves at least two of the area free if it can. Returns those it took.
 */
int screen_throw_compact(const Model *model, Canvas *canvas, Area area);
/* A shot in a line, marked if it is picked; and the lines where one is typed, below the screen. */
void screen_shot_row(const Model *model, Canvas *canvas, Area area, int index, bool picked);
void screen_lane_bottom(const Model *model, Canvas *canvas);
/* The score so far and the best possible or what the target takes, if everything was entered; else
 * what is known of the game; "" before the first ball. At most 14 or 28 columns. */
typedef enum ScoreLength { SCORE_SHORT, SCORE_LONG } ScoreLength;
void screen_score(const Model *model, ScoreLength length, char *out, size_t size);
/* A pocket chance: "39%", or "77/39%" where it would be 77 if the lane were just as estimated. */
void screen_pocket(double believed, double known, char *out, size_t size);
/* The changes to the release: "+0.5 mph, loft +2, axis -10°", or "". */
void screen_release_changes(const Plan *from, const Plan *to, char *out, size_t size);

void screen_kinds(const Model *model, Canvas *canvas);

int screen_bag_pages(const Model *model); /* at the model's size */
/* Top and bottom of the bag's screens; `page` is shown at the top right once all is computed. */
void screen_bag_frame(const Model *model, Canvas *canvas, const char *page);
char screen_bag_letter(const Bag *bag, int ball); /* its slot, or a letter in the locker */
/* The letter and the name; "" for -1. */
void screen_bag_name(const Model *model, int ball, char *out, size_t size);
/* A change of surface in a sentence; `named`: its ball too. */
void screen_bag_advice(const Model *model, const SurfaceAdvice *advice, bool named, char *out,
                       size_t size);
/* The same pages in the compact view. */
int screen_bag_compact_pages(const Model *model);
void screen_bag_compact(const Model *model, Canvas *canvas, int page);

/* The list of the bag's balls with their numbers: the rows it needs, and the list itself. */
int screen_ball_list_rows(const Model *model, int columns);
void screen_ball_list(const Model *model, Canvas *canvas, Area area);
/* "Strong to weak: 1 > 2 = 4 > 3; for spares 6", once that is known. */
void screen_ball_order(const Model *model, Canvas *canvas, int row, int column, int columns);

int screen_help_lines(const Model *model, bool words); /* how long the page of keys or words is */
int screen_help_room(int rows);                        /* how many of its lines show at once */
int screen_help_top(const Model *model,
                    unsigned where); /* line where the keys of that state begin */

#endif
