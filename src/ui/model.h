/* model.h - everything the screens show, and the messages that may change it.
 *
 * model_* functions only read. update() (update.c) is the only place where a model changes; what it
 * can't do itself (save an entry, quit, start a computation) it asks for as effects. Knows nothing
 * about curses, files or the clock. */
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
#include "ui/form/form.h"
#include "ui/input/keys.h"
#include "ui/input/keytable.h"
#include "ui/search.h"

/* What every screen needs; and below that the compact view, on a phone for instance. */
enum { SCREEN_COLUMNS_MIN = 80, SCREEN_ROWS_MIN = 24 };
enum { COMPACT_COLUMNS_MIN = 40, COMPACT_ROWS_MIN = 12 };

typedef enum Mode {
    MODE_LANE,
    MODE_ENTRY,
    MODE_PICK,
    MODE_SPARES,
    MODE_HELP,
    MODE_WORDS,  /* the help's other page: what the words mean */
    MODE_SEARCH, /* from there: the actions that match what is typed */
    MODE_ASK,
    MODE_BAG,
    MODE_KINDS, /* what ball to add to it */
    MODE_BALL,  /* the fields of a ball of the bag */
    MODE_BLOCK,
    MODE_OIL,
    MODE_LOG,
    MODE_TOLD,   /* in the log: typing a frame that is known only by its pins */
    MODE_TARGET, /* in the log: typing the score to aim for */
    MODE_ROLL,   /* the lane's screen while the planned ball rolls; any key ends it, and works */
    MODE_THROW,  /* a rehearsal: the ball that was thrown is on its way */
    MODE_SUPPOSE /* the lane's screen, with the answers to a shot that was never thrown */
} Mode;

/* Numbers of a shot that the bowler may have seen; 0: not given. */
typedef enum Seen { SEEN_SPEED, SEEN_ARROWS, SEEN_BREAKPOINT, SEEN_COUNT } Seen;
typedef struct SeenRow {
    const char *label, *before, *after; /* at the field; around the figure in a sentence */
    double low, high;
    const char *refusal;
} SeenRow;
extern const SeenRow SEEN_ROWS[SEEN_COUNT];
double *model_seen(Shot *shot, Seen seen); /* its place in the shot */

/* Parts of a shot being typed, in order; slot and what was seen are asked for on request. */
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
    PROMPT_REMOVE_BALL,
    PROMPT_AGAIN,      /* the demo */
    PROMPT_CLOSED_GAME /* a finished game would change: see LogChange */
} Prompt;

/* What the bowler asked for in the log, done at once or after PROMPT_CLOSED_GAME. */
typedef enum LogChange { LOG_EDIT_SHOT, LOG_EDIT_FRAME, LOG_ADD_FRAME, LOG_REMOVE_FRAME } LogChange;

/* A shot being typed. */
typedef struct Typing {
    Shot shot;
    int index; /* of the shot being edited, -1: a new one */
    Field field;
    Field back_to;    /* where FIELD_SLOT and FIELD_SEEN return to */
    bool pins_typed;  /* pins were typed: the default leave no longer applies */
    bool spare_typed; /* the same for what the spare ball left */
    Seen seen;        /* what FIELD_SEEN asks for */
    char figures[8];  /* of FIELD_SEEN */
    bool doubtful;    /* a key was refused: the shot may not be what was meant */
    bool supposed;    /* what if: the shot is not to be kept */
    Mode back;        /* where it goes on from */
} Typing;

/* After a refusal, the bowler's next keys may assume something that didn't happen: so no shot
 * begins until a key works; and if a shot was refused, the keys that would have continued it are
 * not taken to mean anything else. */
typedef enum Deaf { DEAF_TO_NOTHING, DEAF_TO_HITS, DEAF_TO_SHOTS } Deaf;

/* What a slot's ball would do now, and the question it answers. */
typedef struct SlotShown {
    SlotNow now;
    long revision;
} SlotShown;

/* A rehearsal: shots are thrown on a hidden lane (MSG_ROLL, MSG_SEEN), not typed. */
typedef struct Rehearsing {
    bool on;
    bool answers; /* asked for before this throw, and shown; until then they are hidden */
    int help;     /* throws before which they were asked for */
    double ft;    /* of MODE_THROW: how far the ball of `roll` has come */
    Roll roll;
    bool fell; /* the deck shows `left`: what the last ball left */
    Pins left;
} Rehearsing;

/* A shot that is only supposed, after those of the session; and what was shown before it. */
typedef struct Supposed {
    Shot shots[SESSION_SHOTS_MAX];
    int count;
    Advice before;
    SlotShown slot_before[BAG_SLOTS];
} Supposed;

/* For each thing computed elsewhere: the revision of the model at which its question last changed.
 */
typedef struct Asked {
    long advice, slots, paths, spare, arsenal, block;
} Asked;

typedef struct Model {
    Session *session; /* changed only by update(), through session_apply */
    const RuleSet *rules;
    const Theme *themes;
    int theme_count, theme;
    const Glyphs *glyphs;
    const KeyTable *keys; /* of CommandRows: the usual ones, or the bowler's */
    int columns, rows;

    Mode mode, mode_before; /* mode_before: where help and prompts return to */
    Prompt prompt;
    Side lane;     /* lane shown: the next shot's unless the bowler chose the other */
    bool draft_on; /* feet, aim, speed or loft were changed and not yet entered */
    Plan draft;
    Typing typing;
    int pick; /* shot chosen in MODE_PICK */
    int help_top;
    Search search; /* of MODE_SEARCH */

    Deaf deaf;           /* of MODE_LANE */
    uint32_t key_before; /* the last key that was pressed */
    int capitals;        /* that meant nothing here, since the last small letter */
    char message[320];   /* shown until the next key */
    Role message_role;
    bool read_only; /* another settee has the event open: nothing is entered here */
    bool unsaved;   /* the disk refused; stays set until saving works again */
    char unsaved_text[160];

    /* Each answer carries the revision it was asked for at, and is current as long as its question
     * has not changed since. An outdated one may still be shown, marked as such, but not used. */
    long revision; /* goes up whenever what is asked changes */
    Asked asked;

    Advice shown;              /* the last complete advice; its slots are in `slot` */
    SlotShown slot[BAG_SLOTS]; /* these come one by one */
    long paths_revision;
    bool path_on, path2_on;
    Roll path, path2; /* the current plan, and the first answer */
    double roll_s;    /* of MODE_ROLL: how long the ball has rolled */
    bool still;       /* nothing may move by itself, */
    bool still_fixed; /* and M can't change that */

    Rehearsing rehearsing;
    Supposed supposed; /* of MODE_SUPPOSE; count 0: nothing is supposed */

    Pins spare_pins; /* of MODE_SPARES, as numbered on the deck; 0: none typed yet */
    int spare_slot;  /* the ball asked for; 0: the best */
    long spare_revision;
    Spare spare; /* its balls are the session's */
    Roll spare_path;

    const Arsenal *arsenal; /* the engine's result so far: read by model_arsenal */
    const Block *block;     /* the same */
    bool arsenal_surfaces;  /* other surfaces were asked for too */
    int bag_page, block_game;
    int log_game, log_row; /* of MODE_LOG: the game, and the row chosen */
    LogChange change;
    char typed[64]; /* in the log, so far: a frame's balls, or the target */
    int oil_ft;     /* where MODE_OIL cuts the film across */

    int ball;            /* chosen in MODE_BAG, index in the bag */
    int kind;            /* row of MODE_KINDS: 0 a copy of the chosen ball, then BALL_PRESETS */
    Form form;           /* of MODE_BALL */
    bool bag_unsaved;    /* the disk refused the bag; stays set until saving works */
    char bag_saved[200]; /* where the bag was saved, or why not; "": not edited yet */
} Model;

typedef enum MsgKind {
    MSG_KEY,     /* key */
    MSG_FIRST,   /* plan: the one to start the event with */
    MSG_SIZE,    /* columns, rows */
    MSG_ADVICE,  /* advice so far, copied; done or not */
    MSG_PATHS,   /* roll, first_roll of the question `revision`; NULL: there is none */
    MSG_SPARE,   /* spare, and roll of its line (NULL: none), of the question `revision` */
    MSG_ARSENAL, /* arsenal: its result so far */
    MSG_BLOCK,   /* block */
    MSG_TICK,    /* milliseconds have passed, in MODE_ROLL */
    MSG_KEPT,    /* ok: entries are on disk; else text says why not */
    MSG_SAVED,   /* ok: the bag is on disk, text says where; else why not */
    MSG_ROLL,    /* roll, ft: the ball of a rehearsal has come so far */
    MSG_SEEN,   /* shot: what was seen of it, its spare ball too; ok: it was the last of practice */
    MSG_FOLLOW, /* session: the event as another program has it now; copied */
    MSG_NOTICE  /* text: one line to show */
} MsgKind;

typedef struct Msg {
    MsgKind kind;
    uint32_t key;
    int columns, rows;
    int milliseconds;
    const Plan *plan;
    const Advice *advice;
    const Roll *roll, *first_roll; /* paths: of the plan or line, and of the first answer */
    const Spare *spare;
    long revision;
    const Arsenal *arsenal;
    const Block *block;
    const Shot *shot;
    const Session *session;
    double ft;
    bool ok;
    const char *text;
} Msg;

/* What update() asks the outside to do. */
typedef struct Effects {
    bool draw;     /* something visible has changed */
    bool redraw;   /* draw every cell again */
    bool keep;     /* entries were added to the session: keep them */
    bool advise;   /* start computing for model_advice_input() */
    bool arsenal;  /* start computing for model_arsenal_input() */
    bool block;    /* the same for model_block_input() */
    bool save_bag; /* the session's bag was edited: save it */
    bool bowl;     /* a rehearsal: throw the lane's plan */
    bool land;     /* and don't wait for the ball */
    bool theme;    /* another theme was chosen */
    bool motion;   /* `still` has changed */
    bool bell;
    bool quit;
    bool again; /* with quit: the demo begins again, without its log */
} Effects;

/* A model of a session that has begun; `session`, `rules`, `themes` must outlive it. */
void model_init(Model *model, Session *session, const RuleSet *rules, const Theme *themes,
                int theme_count, const Glyphs *glyphs);

Effects update(Model *model, Msg msg);

/* The state in which keys are read: one IN_* bit. */
unsigned model_where(const Model *model);

/* What would be thrown next on the lane shown, including moves not yet entered; slot 0 while the
 * event's first line is being computed. */
Plan model_plan(const Model *model);

AdviceInput model_advice_input(const Model *model);
SpareInput model_spare_input(const Model *model);
ArsenalInput model_arsenal_input(const Model *model);
BlockInput model_block_input(const Model *model);

/* Whether the advice shown is current; if not, it is being computed. */
bool model_advice_current(const Model *model);
bool model_slot_current(const Model *model, int slot);
bool model_paths_current(const Model *model);
bool model_spare_current(const Model *model);

/* What the bag's and the block's screens show, so far; NULL: nothing current. */
const Arsenal *model_arsenal(const Model *model);
const Block *model_block(const Model *model);

/* The path of a plan on the estimated film (the sheet until something is known), thrown as today,
 * by advice_roll; and the path of a spare ball. False: no ball in the plan's slot. */
bool model_roll(const Model *model, const Plan *plan, double surface_grit, Roll *roll);
void model_roll_spare(const Model *model, const SpareLine *line, Roll *roll);

/* The balls in the order they are listed: slots first, then the locker; returns how many. */
int model_bag_order(const Model *model, int out[BAG_BALLS_MAX]);

/* Whether MSG_FOLLOW may come: nothing is being typed, chosen or supposed that counts on the event
 * as it is. */
bool model_may_follow(const Model *model);

/* Whether the bag or one of its balls is shown. */
bool model_at_bag(const Model *model);

/* Whether a surface may still be changed: until scored play has begun. */
bool model_surfaces_free(const Model *model);

/* What to throw at the pins of MODE_SPARES: at all of them, or at the sure ones; NULL: unknown, or
 * not yet computed. */
const SpareLine *model_spare_line(const Model *model);

/* Whether it is a rehearsal whose answers were not asked for. */
bool model_hides(const Model *model);

/* The answers that may be shown, best first; NULL: no more. */
const Adjustment *model_adjustment(const Model *model, int index);

/* How sure the first answer is: 0 a guess .. 2 sure, -1 none. A guess unless rules and forecast
 * agree; then one step for a well-known lane and one for a clear lead. */
int model_sureness(const Model *model);

bool model_compact(const Model *model); /* the compact view is shown */
bool model_small(const Model *model);   /* not even that fits */

#endif
