/* stage.h - something that has the whole screen for a while (an event, the welcome and Home, a
 * lesson), and the one loop that runs it on the terminal.
 *
 * A stage holds a Stage as its first member and casts back to itself. The loop owns the terminal:
 * signals, sizes, what a terminal answers, pastes, colours. Between keys it sleeps, unless the
 * stage is busy. */
#ifndef SETTEE_UI_STAGE_H
#define SETTEE_UI_STAGE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/error.h"
#include "base/theme.h"
#include "ui/draw/canvas.h"
#include "ui/draw/glyphs.h"

/* How all stages look; lives as long as the program. */
typedef struct StageLook {
    const Theme *themes;
    int theme_count;
    int theme;            /* the one in use: a stage may set it, the loop shows and saves it */
    const Glyphs *glyphs; /* set by stage_open */
    bool still;           /* nothing may move by itself: a stage may set it, the loop saves it */
    bool still_fixed;     /* set by stage_open: SETTEE_MOTION=off, and no stage may change it */
    /* Saves the theme in use; false, with error, if it can't. NULL: not saved. Not called while the
     * terminal shows no colours. */
    bool (*keep_theme)(void *context, const Theme *theme, Error *error);
    /* The same for whether things may move. */
    bool (*keep_motion)(void *context, bool still, Error *error);
    void *context; /* of both */
} StageLook;

typedef struct Stage Stage;

typedef struct StageKind {
    /* The size to draw at: before anything else, and whenever it changes. */
    void (*size)(Stage *stage, int columns, int rows);
    /* A key (keys.h); PRESS_REDRAW asks for `all`. */
    void (*key)(Stage *stage, uint32_t key);
    /* One line to show until the next key: that pasted text was ignored, for instance. */
    void (*notice)(Stage *stage, const char *line);
    /* While `busy`: computes for a moment, some hundredths of a second at most. NULL: never busy.
     */
    void (*step)(Stage *stage);
    /* While `tick_ms`: that many milliseconds have passed, or more. NULL: never asks for ticks. */
    void (*tick)(Stage *stage, int milliseconds);
    /* Draws everything; the canvas has the stage's size and is empty. */
    void (*draw)(Stage *stage, Canvas *canvas);
} StageKind;

struct Stage {
    const StageKind *kind;
    StageLook *look;
    /* What it asks for; the loop does it and clears it. */
    bool draw; /* something visible has changed */
    bool all;  /* with draw: every cell again */
    bool bell;
    /* How it stands. */
    bool busy;   /* step has something to do */
    bool deaf;   /* keys wait until it is no longer deaf; only while busy */
    bool end;    /* it is over */
    int tick_ms; /* about how often it wants a tick, 0: no clock */
};

typedef enum StageEnd {
    STAGE_OVER,    /* it ended by itself */
    STAGE_STOPPED, /* a signal, or the terminal has gone: the program must end */
    STAGE_FAILED   /* no memory; error says so */
} StageEnd;

/* Runs the stage on the open terminal until it ends. */
StageEnd stage_run(Stage *stage, Error *error);

/* Whether there is a terminal to run on; false, with error, says why not. */
bool stage_ready(Error *error);

/* Takes the terminal, once for all stages, and finds the look's glyphs; false with error. */
bool stage_open(StageLook *look, Error *error);

/* Restores the terminal. Signals that end a program (^C, SIGTERM, SIGHUP) stay blocked: save what
 * is left to save, then call stage_release, which restores their default actions, starting with one
 * that came since stage_open. */
void stage_close(void);
void stage_release(void);

#endif
