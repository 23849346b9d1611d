/* model.h - everything the screens show, and the messages that may change it.
 *
 * model_* functions only read. update() (update.c) is the one place where a model changes; what
 * it can't do itself (keep an entry, quit, begin to compute) it asks for as effects. Knows
 * nothing of curses, files or the clock. */
#ifndef SETTEE_UI_MODEL_H
#define SETTEE_UI_MODEL_H

#include <stdbool.h>
#include <stdint.h>

#include "base/theme.h"
#include "core/advice/advice.h"
#include "core/arsenal/arsenal.h"
#include "core/arsenal/block.h"
#include "core/event/session.h"
#include "core/spare/spare.h"
#include "ui/draw/glyphs.h"
#include "ui/input/keys.h"

enum { SCREEN_COLUMNS_MIN = 80, SCREEN_ROWS_MIN = 24 };

typedef enum Mode {
    MODE_LANE,
    MODE_ENTRY,
    MODE_PICK,
    MODE_SPARES,
    MODE_HELP,
    MODE_WORDS, /* the help's other page: what the words mean */
    MODE_ASK,
    MODE_BAG,
    MODE_BALL, /* the fields of a ball of the bag */
    MODE_BLOCK
} Mode;

/* Numbers of a shot that the bowler may have seen; 0 where nothing was said. */
typedef enum Seen { SEEN_SPEED, SEEN_ARROWS, SEEN_BREAKPOINT, SEEN_COUNT } Seen;
typedef struct SeenRow {
    const char *label, *before, *after; /* at the field; around the figure in a sentence */
    double low, high;
    const char *refusal;
} SeenRow;
extern const SeenRow SEEN_ROWS[SEEN_COUNT];
double *model_seen(Shot *shot, Seen seen); /* where it stands in the shot */

/* Parts of a shot that is being typed, in their order; slot and what was seen are asked for inside
 * it. */
typedef enum Field {
    FIELD_HIT,
    FIELD_READ,
    FIELD_RELEASE,
    FIELD_LEAVE,
    FIELD_SPARE,
    FIELD_SLOT,
    FIELD_SEEN
} Field;

typedef enum Prompt {
    PROMPT_NEXT_GAME,
    PROMPT_QUIT_TYPING,
    PROMPT_QUIT_UNSAVED,
    PROMPT_REMOVE_BALL
} Prompt;

/* A shot that is being typed. */
typedef struct Typing {
    Shot shot;
    int index; /* of the shot being edited, -1: a new one */
    Field field;
    Field back_to;    /* where FIELD_SLOT and FIELD_SEEN return to */
    bool pins_typed;  /* pins were typed: what stands by default no longer does */
    bool spare_typed; /* the same of what the spare ball left */
    Seen seen;        /* what FIELD_SEEN asks for */
    char figures[8];  /* of FIELD_SEEN */
} Typing;

/* After a refusal, what the bowler types next may rest on something that is not so: until a key
 * works, no shot begins; and where what was refused is itself the beginning of something typed,
 * none of the keys that would have gone on with it is taken for anything else. */
typedef enum Deaf { DEAF_TO_NOTHING, DEAF_TO_HITS, DEAF_TO_SHOTS } Deaf;

/* Revision of the model at which what is asked last changed, for each thing that is computed
 * elsewhere. */
typedef struct Asked {
    long advice, slots, paths, spare, arsenal, block;
} Asked;

/* What a slot's ball would do now, and the question that it answers. */
typedef struct SlotShown {
    SlotNow now;
    long revision;
} SlotShown;

typedef struct Model {
    Session *session; /* changed only by update(), through session_apply */
    const RuleSet *rules;
    const Theme *themes;
    int theme_count, theme;
    const Glyphs *glyphs;
    int columns, rows;

    Mode mode, mode_before; /* mode_before: where help and prompts return to */
    Prompt prompt;
    Side lane;     /* lane looked at: the next shot's unless the bowler turned away */
    bool draft_on; /* feet, aim, speed or loft were moved and not yet entered */
    Plan draft;
    Typing typing;
    int pick; /* shot chosen in MODE_PICK */
    int help_top;

    Deaf deaf;         /* of MODE_LANE */
    char message[160]; /* gone with the next key */
    Role message_role;
    bool unsaved; /* the disk refused; stays until it takes again */
    char unsaved_text[160];

    /* Answers have a date: each carries the revision that it was asked for at, and is current as
     * long as what it answers has not changed since. One that is not may stay in sight, marked as
     * such, but nothing is done by it. */
    long revision; /* goes up whenever what is asked changes */
    Asked asked;

    Advice shown;              /* the last that was done, whole; its slots are in `slot` */
    SlotShown slot[BAG_SLOTS]; /* these come one by one */
    long paths_revision;
    bool path_on, path2_on;
    Roll path, path2; /* the plan as it stands, and the first answer */

    Pins spare_pins; /* of MODE_SPARES, as numbered on the deck; 0: none typed yet */
    int spare_slot;  /* ball that was asked for, 0: the best */
    long spare_revision;
    Spare spare; /* its balls are the session's */
    Roll spare_path;

    const Arsenal *arsenal; /* the engine's own, as far as it has come: read by model_arsenal */
    const Block *block;     /* the same */
    bool arsenal_surfaces;  /* other surfaces were asked for too */
    int bag_page, block_game;

    int ball;      /* chosen in MODE_BAG, index in the bag */
    int form_row;  /* of MODE_BALL: which field */
    bool typed_on; /* something was typed for it: `typed` */
    char typed[64];
    bool bag_unsaved;    /* the disk refused the bag; stays until it takes it */
    char bag_saved[200]; /* where the bag was saved, or why not; "": not edited yet */
} Model;

typedef enum MsgKind {
    MSG_KEY,     /* key */
    MSG_FIRST,   /* plan: the one to begin the event with */
    MSG_SIZE,    /* columns, rows */
    MSG_ADVICE,  /* advice so far, copied; done or not */
    MSG_PATHS,   /* roll, first_roll of the question `revision`; NULL: there is none */
    MSG_SPARE,   /* spare, and roll of its line (NULL: none), of the question `revision` */
    MSG_ARSENAL, /* arsenal: how far it is */
    MSG_BLOCK,   /* block */
    MSG_KEPT,    /* ok: entries are on disk; else text says why not */
    MSG_SAVED,   /* ok: the bag is on disk, text says where; else why not */
    MSG_NOTICE   /* text: one line to show */
} MsgKind;

typedef struct Msg {
    MsgKind kind;
    uint32_t key;
    int columns, rows;
    const Plan *plan;
    const Advice *advice;
    const Roll *roll, *first_roll; /* paths: of the plan or line, and of the first answer */
    const Spare *spare;
    long revision;
    const Arsenal *arsenal;
    const Block *block;
    bool ok;
    const char *text;
} Msg;

/* What the outside is asked to do. */
typedef struct Effects {
    bool draw;     /* something that shows has changed */
    bool redraw;   /* draw every cell again */
    bool keep;     /* entries were added to the session: keep them */
    bool advise;   /* begin to compute for model_advice_input() */
    bool arsenal;  /* begin to compute for model_arsenal_input() */
    bool block;    /* the same for model_block_input() */
    bool save_bag; /* the session's bag was edited: save it */
    bool theme;    /* another theme was chosen */
    bool bell;
    bool quit;
} Effects;

/* A model on a session that has begun; `session`, `rules`, `themes` must outlive it. */
void model_init(Model *model, Session *session, const RuleSet *rules, const Theme *themes,
                int theme_count, const Glyphs *glyphs);

Effects update(Model *model, Msg msg);

/* State that keys are read in: one IN_* bit. */
unsigned model_where(const Model *model);

/* What would be thrown next on the lane looked at, moves not yet entered included; slot 0 as long
 * as the event's first line is being looked for. */
Plan model_plan(const Model *model);

AdviceInput model_advice_input(const Model *model);
SpareInput model_spare_input(const Model *model);
ArsenalInput model_arsenal_input(const Model *model);
BlockInput model_block_input(const Model *model);

/* Whether what is shown answers what is asked now; else it is of before, and being computed. */
bool model_advice_current(const Model *model);
bool model_slot_current(const Model *model, int slot);
bool model_paths_current(const Model *model);
bool model_spare_current(const Model *model);

/* What the bag's and the block's screens show, as far as it has come; NULL: nothing that would
 * answer what is asked now. */
const Arsenal *model_arsenal(const Model *model);
const Block *model_block(const Model *model);

/* The path of a plan on the film as estimated (as long as nothing is known: the sheet), thrown as
 * today; and of what is thrown at a spare. False: no ball lies in the plan's slot. */
bool model_roll(const Model *model, const Plan *plan, Roll *roll);
void model_roll_spare(const Model *model, const SpareLine *line, Roll *roll);

/* The balls in the order they are listed in: slots first, then the locker; returns how many. */
int model_bag_order(const Model *model, int out[BAG_BALLS_MAX]);

/* Whether the bag or one of its balls is looked at. */
bool model_at_bag(const Model *model);

/* Whether a surface may still be changed: until scored play has begun. */
bool model_surfaces_free(const Model *model);

/* What to throw at the pins of MODE_SPARES: all of them, or those that are sure; NULL: not known,
 * or not yet. */
const SpareLine *model_spare_line(const Model *model);

/* The answers that may be shown, best first; NULL: no more. */
const Adjustment *model_adjustment(const Model *model, int index);

/* How sure the first answer is, 0 a guess .. 2 sure, -1 there is none. A guess unless rule and
 * forecast agree; a step for a lane that is well known, a step for a clear lead. */
int model_sureness(const Model *model);

bool model_small(const Model *model);

#endif
