/* ui_rehearse.h - a rehearsal on the screen. Knows nothing about files: main hands in names, and
 * callbacks for what must be loaded and kept. */
#ifndef SETTEE_UI_UI_REHEARSE_H
#define SETTEE_UI_UI_REHEARSE_H

#include "base/bindings.h"
#include "core/advice/rules.h"
#include "core/rehearse/progress.h"
#include "ui/stage.h"

typedef struct UiName {
    char name[256];
    bool home; /* the bowler's own; else built in */
} UiName;

typedef struct UiRehearsal {
    StageLook *look;
    const RuleSet *rules;
    const Bindings *keys;          /* own keys, NULL: none */
    const UiName *bags, *patterns; /* at least one of each */
    int bag_count, pattern_count;
    /* What the page begins with. */
    int bag, pattern; /* numbers of those names; pattern -1: "surprise me" */
    int games, bowlers;
    bool still;           /* the ball is not shown rolling */
    uint64_t seed, clock; /* seed 0: any block, drawn from the clock */
    /* Loads both; at least one ball must be in a slot. False, with error. */
    bool (*load)(void *context, const char *bag, const char *pattern, Bag *into_bag,
                 Pattern *into_pattern, Error *error);
    /* Keeps what it came to; false, with error, if it can't. NULL: not kept. */
    bool (*keep)(void *context, const RehearsalRecord *record, Error *error);
    void *context; /* of both */
} UiRehearsal;

/* Until the bowler leaves it; the terminal is open (stage.h). */
StageEnd ui_rehearse(UiRehearsal *host, Error *error);

/* The stage itself, for tests; heap, owned by the caller. NULL: there is no memory for it. */
Stage *rehearse_stage_new(UiRehearsal *host);
void rehearse_stage_free(Stage *stage);

#endif
