/* rolling.h - a ball on its way down the lane in real time, at the speeds of its path. */
#ifndef SETTEE_UI_DRAW_ROLLING_H
#define SETTEE_UI_DRAW_ROLLING_H

#include "core/motion/motion.h"
#include "ui/draw/canvas.h"

enum { ROLLING_FRAME_MS = 50 }; /* between two pictures */

#define ROLLING_HINT "Rolling in real time; any key ends it"

/* How long it takes to the pins, or to the gutter. */
double rolling_seconds(const Roll *roll);
/* How far down the lane it is. */
double rolling_ft(const Roll *roll, double seconds);
/* At the pins the ball stays in sight for a moment: whether that is over too. */
bool rolling_over(const Roll *roll, double seconds);

/* The path behind the ball; its last point is where the ball is. No breakpoint is marked, since it
 * may be still to come. */
void rolling_behind(const Roll *roll, double seconds, Roll *behind);

/* Two rows: time, distance and speed; and whether it skids, hooks or rolls. */
void rolling_words(const Roll *roll, double seconds, Canvas *canvas, int row, int column,
                   int width);

/* What a key that turns motion off or on does, and the line to show: it says so, or, where `fixed`,
 * why it stays off. */
const char *rolling_turn(bool *still, bool fixed);

#endif
