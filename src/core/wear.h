/* wear.h - what the deliveries do to the oil, and what the shots say is left of it. */
#ifndef SETTEE_CORE_WEAR_H
#define SETTEE_CORE_WEAR_H

#include "core/motion.h"
#include "core/shot.h"

/* Takes oil up along a delivery's path and carries some of it on (docs/model.md, "Oil"). */
void wear_delivery(Oil *oil, const Roll *roll, Cover cover);

/* One lane of the pair as it is thought to be now. */
typedef struct LaneState {
    Oil oil;                 /* bowler's frame: sheet, worn by the shots, scaled by what they showed */
    double scale;            /* estimated film against the worn sheet: mean, 1 = as worn */
    double scale_sd;         /* how sure */
    int deliveries;          /* thrown on it so far, all bowlers */
} LaneState;

#endif
