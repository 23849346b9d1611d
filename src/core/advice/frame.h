/* frame.h - what a first ball comes to by the end of its frame, spares included: for who strikes
 * seldom, and where the scoreboard asks for no more than a mark. */
#ifndef SETTEE_CORE_ADVICE_FRAME_H
#define SETTEE_CORE_ADVICE_FRAME_H

#include "core/advice/forecast.h"

/* What is asked of the frame. */
typedef enum Need { NEED_SCORE, NEED_STRIKE, NEED_CLEAN, NEED_COUNT } Need;
extern const char *const NEED_NAMES[NEED_COUNT + 1]; /* "score", "strike", "clean"; NULL ends */

typedef struct FrameOutlook {
    double clean; /* chance of a strike or a spare, 0..1 */
    double score; /* expected pins of the frame with its bonus, if the balls after it are alike */
} FrameOutlook;

/* `ball` is the one that is thrown first; the spare ball scatters by spare_miss. */
FrameOutlook frame_of(const Outlook *outlook, const Bowler *bowler, const Ball *ball);

/* Chance of a strike if the mean hit were the best one and the rest as in the outlook. */
double frame_best_strike(const Outlook *outlook, const Bowler *bowler, const Ball *ball);

/* The outlook with its mean hit where that line was seen to hit, NAN: in the gutter; no better than
 * it was. */
Outlook frame_as_seen(const Outlook *outlook, double seen_board, const Bowler *bowler,
                      const Ball *ball);

#endif
