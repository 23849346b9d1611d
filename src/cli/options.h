/* options.h - the one table of command-line options, and reading a command line with it.
 *
 * Options are long only: --name value or --name=value. Numbers are held to the same limits as in
 * files. Must not know what a command does with them. */
#ifndef SETTEE_CLI_OPTIONS_H
#define SETTEE_CLI_OPTIONS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/error.h"
#include "core/event/shot.h"

enum { OPTIONS_AT_MAX = 24, OPTIONS_WORDS_MAX = 256 };

typedef enum OptionId {
    OPTION_PATTERN,
    OPTION_BAG,
    OPTION_SLOT,
    OPTION_BALL,
    OPTION_STANCE,
    OPTION_AIM,
    OPTION_LAYDOWN,
    OPTION_LAUNCH,
    OPTION_MPH,
    OPTION_RPM,
    OPTION_ROTATION,
    OPTION_TILT,
    OPTION_LOFT,
    OPTION_AT,
    OPTION_SHOTS,
    OPTION_CERTIFIED,
    OPTION_LANE,
    OPTION_GAME,
    OPTION_FRAME,
    OPTION_NEED,
    OPTION_BOWLERS,
    OPTION_TARGET,
    OPTION_BOARD,
    OPTION_DEGREES,
    OPTION_PINS_MPH, /* --mph of a command that asks for the speed at the pins */
    OPTION_POUNDS,
    OPTION_GAMES,
    OPTION_PICK,
    OPTION_WEIGHTS,
    OPTION_SURFACES,
    OPTION_NO_SPARE,
    OPTION_PLAYER,
    OPTION_WORLD,
    OPTION_LIST,
    OPTION_PRACTICE,
    OPTION_SIGHTS,
    OPTION_SEED,
    OPTION_COSTS,
    OPTION_STEADY,
    OPTION_KEEP,
    OPTION_HISTORY,
    OPTION_EVENT,
    OPTION_FROM,
    OPTION_DRAWS,
    OPTION_SAVE,
    OPTION_MONTH,
    OPTION_CSV,
    OPTION_BOWLER,
    OPTION_HAND,
    OPTION_LEVEL,
    OPTION_STYLE,
    OPTION_BALLS,
    OPTION_PAIR,
    OPTION_DATE,
    OPTION_LENGTH,
    OPTION_MOVE,
    OPTION_HOUSE,
    OPTION_WARM_UP,
    OPTION_SVG,
    OPTION_HTML,
    OPTION_JSON,
    OPTION_COUNT
} OptionId;
/* A set of options: a bit each. */
typedef uint64_t OptionSet;
#define OPTION_BIT(id) (UINT64_C(1) << (id))
_Static_assert(OPTION_COUNT <= 64, "a set has room for all options");

/* The options given. Those not given: numbers NAN, counts 0, texts NULL. Texts point into argv. */
typedef struct Options {
    const char *pattern, *bag, *ball, *shots, *player, *world, *weights, *save, *month, *need;
    const char *bowler, *hand, *level, *style, *balls, *pair, *date, *event, *from;
    int slot, game, frame, bowlers, seed, target, games, pick, practice, move, house, draws;
    double stance, aim, laydown, launch_deg;
    double mph, rpm, rotation_deg, tilt_deg, loft_ft;
    double board, degrees, pounds, length_ft;
    bool warm_up, certified, json, csv, svg, html, surfaces, no_spare, sights, list, costs, steady;
    bool keep, history;
    bool lane_said;
    Side lane;
    int at_count;
    double at_ft[OPTIONS_AT_MAX];
    int word_count;
    const char *words[OPTIONS_WORDS_MAX]; /* everything that is not an option */
} Options;

/* Reads words[0..count-1]; `accepted` is the set that `command` takes, and `words_max` how many
 * plain words. False, with one line in `error`, if they can't be understood. */
bool options_read(const char *command, OptionSet accepted, int words_max, int count, char **words,
                  Options *options, Error *error);

/* "--slot N" into out, and what it is for (static text). */
void option_form(OptionId id, char *out, unsigned long size);
const char *option_help(OptionId id);
const char *option_name(OptionId id);  /* without the dashes */
const char *option_value(OptionId id); /* the word for its value: "FILE"; NULL: it takes none */

#endif
