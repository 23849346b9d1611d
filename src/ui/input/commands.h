/* commands.h - everything a key can do, from commands.def: keys, the function each calls, names,
 * help. */
#ifndef SETTEE_UI_INPUT_COMMANDS_H
#define SETTEE_UI_INPUT_COMMANDS_H

#include <stdint.h>

#include "ui/input/keytable.h"
#include "ui/model.h"

/* States in which keys are read; one bit each. */
enum {
    IN_LANE = 1 << 0, /* nothing is being typed */
    IN_HIT = 1 << 1,  /* a shot is being typed: its parts */
    IN_READ = 1 << 2,
    IN_RELEASE = 1 << 3,
    IN_LEAVE = 1 << 4,
    IN_NUMBER = 1 << 5, /* figures inside a shot: slot, or what was seen */
    IN_PICK = 1 << 6,   /* choosing an earlier shot */
    IN_ASK = 1 << 7,    /* yes or no */
    IN_HELP = 1 << 8,   /* reading the keys */
    IN_SMALL = 1 << 9,  /* the terminal is too small to show anything */
    IN_SPARE = 1 << 10, /* inside a shot: what the spare ball left */
    IN_BAG = 1 << 11,   /* looking at the bag */
    IN_BLOCK = 1 << 12, /* looking at the games ahead */
    IN_PARTS = IN_HIT | IN_READ | IN_RELEASE | IN_LEAVE | IN_SPARE,
    IN_ENTRY = IN_PARTS | IN_NUMBER,
    IN_SPARES = 1 << 13,      /* the spares view */
    IN_FORM_FIGURE = 1 << 14, /* a ball's fields: one with a number, */
    IN_FORM_WORD = 1 << 15,   /* one of a closed set of words, */
    IN_FORM_NAME = 1 << 16,   /* or the name */
    IN_FORM = IN_FORM_FIGURE | IN_FORM_WORD | IN_FORM_NAME,
    IN_WORDS = 1 << 17,   /* reading what the words mean */
    IN_OIL = 1 << 18,     /* looking at the oil */
    IN_SUPPOSE = 1 << 19, /* what if: the answers to a shot that is only supposed */
    IN_LOG = 1 << 20,     /* looking at the score sheet and all shots */
    IN_TOLD = 1 << 21,    /* there: a frame known only by its pins */
    IN_TARGET = 1 << 22,  /* there: the score to aim for */
    IN_SEARCH = 1 << 23,  /* typing what action to look for */
    IN_BOWL = 1 << 24,    /* a rehearsal: what to throw next */
    IN_ROLL = 1 << 25,    /* and the ball is on its way */
    IN_KINDS = 1 << 26,   /* what ball to add to the bag */
    IN_ANY = (1 << 27) - 1
};

/* Groups of the help screen, in its order. */
typedef enum CommandGroup {
    GROUP_HIT,
    GROUP_READ,
    GROUP_RELEASE,
    GROUP_LEAVE,
    GROUP_SHOT,
    GROUP_PLAN,
    GROUP_EVENT,
    GROUP_SUPPOSE,
    GROUP_BOWL,
    GROUP_SPARES,
    GROUP_PICK,
    GROUP_LOOK,
    GROUP_OIL,
    GROUP_LOG,
    GROUP_BAG,
    GROUP_FORM,
    GROUP_ASK,
    GROUP_SCREEN,
    GROUP_COUNT
} CommandGroup;
extern const char *const GROUP_TITLES[GROUP_COUNT];

/* What a key does to the model; `argument` is its row's, `key` the one pressed. */
typedef void CommandRun(Model *model, Effects *effects, int argument, uint32_t key);
#define COMMAND(id, group, where, from, to, also, run, argument, foot, shown, name, help)          \
    CommandRun run;
#include "ui/input/commands.def"
#undef COMMAND

typedef struct CommandRow {
    KeyRow key;
    const char *id;
    CommandRun *run;
    int argument;
    uint32_t usual; /* a bound key stands for this one; 0: as it is */
} CommandRow;

enum {
    COMMAND_COUNT = 0
#define COMMAND(id, group, where, from, to, also, run, argument, foot, shown, name, help) +1
#include "ui/input/commands.def"
#undef COMMAND
};
extern const CommandRow COMMAND_ROWS[COMMAND_COUNT];
extern const KeyTable COMMAND_TABLE; /* of these rows: the usual keys */

/* What a key does in a state; NULL: nothing. */
const CommandRow *command_find(const KeyTable *table, unsigned where, uint32_t key);

/* The first row of those states that does just that. */
const CommandRow *command_of(const KeyTable *table, unsigned where, CommandRun *run, int argument);

#endif
