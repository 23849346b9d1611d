/* rehearsal.h - what a rehearsal came to, as text and as JSON: for the commands that play one. */
#ifndef SETTEE_CLI_REHEARSAL_H
#define SETTEE_CLI_REHEARSAL_H

#include "base/json_out.h"
#include "core/rehearse/judge.h"

/* How other players did on the same block. */
typedef struct SameBlock {
    const Player *player;
    double mean_pins;
} SameBlock;
enum { SAME_BLOCK_MAX = 2 };

/* All that is shown; `judgement` and what follows it only where the costs were asked for. */
typedef struct RehearsalReport {
    const RehearseSetup *setup;
    const Rehearsal *block;
    bool world_said;
    const Judgement *judgement; /* NULL: not asked for */
    int dearest_count, dearest[3];
    double film[3][LANE_BOARDS], sheet[LANE_BOARDS]; /* mean film from 15 to 35 ft, units: before
                                                      * each of the dearest, and by the sheet */
    int same_count;
    SameBlock same[SAME_BLOCK_MAX];
} RehearsalReport;

void print_rehearsal(const RehearsalReport *report);
int rehearsal_json(const RehearsalReport *report); /* exit status */

#endif
