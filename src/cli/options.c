/* options.c - the one table of command-line options. */
#include "cli/options.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/motion/delivery.h"
#include "core/rehearse/again.h"
#include "core/rehearse/seed.h"

typedef enum OptionKind {
    KIND_FLAG,
    KIND_TEXT,
    KIND_COUNT,
    KIND_NUMBER,
    KIND_LIST,
    KIND_SIDE,
    KIND_SEED
} OptionKind;

typedef struct OptionRow {
    const char *name;
    OptionKind kind;
    size_t offset;     /* of its place in Options */
    const char *value; /* word for the value in a usage line */
    double low, high;  /* both allowed */
    const char *unit;  /* follows a number in a fault: " mph" */
    const char *help;
} OptionRow;

#define AT(member) offsetof(Options, member)
static const OptionRow TABLE[OPTION_COUNT] = {
    [OPTION_PATTERN] = {"pattern", KIND_TEXT, AT(pattern), "FILE", 0, 0, "",
                        "oil pattern: a file, - or a name (apron)"},
    [OPTION_BAG] = {"bag", KIND_TEXT, AT(bag), "FILE", 0, 0, "",
                    "bowler and balls: a file, - or a name (demo)"},
    [OPTION_SLOT] = {"slot", KIND_COUNT, AT(slot), "N", 1, BAG_SLOTS, "",
                     "ball in that slot of the bag"},
    [OPTION_BALL] = {"ball", KIND_TEXT, AT(ball), "ID", 0, 0, "", "ball of that id, locker too"},
    [OPTION_STANCE] = {"stance", KIND_NUMBER, AT(stance), "B", PLAN_BOARD_LOW, PLAN_BOARD_HIGH,
                       " boards", "board to stand on, from the bowler's own side"},
    [OPTION_AIM] = {"aim", KIND_NUMBER, AT(aim), "B", PLAN_BOARD_LOW, PLAN_BOARD_HIGH, " boards",
                    "board to roll over at the arrows, 15 ft"},
    [OPTION_LAYDOWN] = {"laydown", KIND_NUMBER, AT(laydown), "B", DELIVERY_LAYDOWN_LOW,
                        DELIVERY_LAYDOWN_HIGH, " boards",
                        "board of the ball's centre at the foul line"},
    [OPTION_LAUNCH] = {"launch", KIND_NUMBER, AT(launch_deg), "DEG", -10, 10, " degrees",
                       "direction at release, + toward the bowler's own gutter"},
    [OPTION_MPH] = {"mph", KIND_NUMBER, AT(mph), "V", BOWLER_MPH_LOW, BOWLER_MPH_HIGH, " mph",
                    "speed at release"},
    [OPTION_RPM] = {"rpm", KIND_NUMBER, AT(rpm), "W", BOWLER_RPM_LOW, BOWLER_RPM_HIGH, " rpm",
                    "turns a minute, for the bowler's usual"},
    [OPTION_ROTATION] = {"rotation", KIND_NUMBER, AT(rotation_deg), "DEG", 0,
                         BOWLER_ROTATION_HIGH_DEG, " degrees",
                         "axis rotation, 0 end over end to 90 side roll"},
    [OPTION_TILT] = {"tilt", KIND_NUMBER, AT(tilt_deg), "DEG", 0, BOWLER_TILT_HIGH_DEG, " degrees",
                     "axis tilt"},
    [OPTION_LOFT] = {"loft", KIND_NUMBER, AT(loft_ft), "FT", 0, BOWLER_LOFT_HIGH_FT, " ft",
                     "where it touches down, from the foul line"},
    [OPTION_AT] = {"at", KIND_LIST, AT(at_ft), "FT,FT..", 0, LANE_LENGTH_FT, " ft",
                   "distances to read the oil at"},
    [OPTION_SHOTS] = {"shots", KIND_TEXT, AT(shots), "FILE", 0, 0, "",
                      "what was thrown and seen, oldest first: a file or -"},
    [OPTION_CERTIFIED] = {"certified", KIND_FLAG, AT(certified), NULL, 0, 0, "",
                          "scored play: no ball's surface may change"},
    [OPTION_LANE] = {"lane", KIND_SIDE, AT(lane), "left|right", 0, 0, "",
                     "lane of the next shot (else the one whose turn it is)"},
    [OPTION_GAME] = {"game", KIND_COUNT, AT(game), "N", 1, 24, "",
                     "game of the next shot (else counted from the shots)"},
    [OPTION_FRAME] = {"frame", KIND_COUNT, AT(frame), "N", 1, 10, "",
                      "frame of the next shot (else counted from the shots)"},
    [OPTION_NEED] = {"need", KIND_TEXT, AT(need), "strike|clean", 0, 0, "",
                     "what the frame has to be: a strike, or a strike or spare"},
    [OPTION_BOWLERS] = {"bowlers", KIND_COUNT, AT(bowlers), "N", 1, 10, "",
                        "bowlers on the pair (4)"},
    [OPTION_TARGET] = {"target", KIND_COUNT, AT(target), "N", 1, 300, "",
                       "a score to reach: say what it still needs"},
    [OPTION_BOARD] = {"board", KIND_NUMBER, AT(board), "B", 1, LANE_BOARDS, " boards",
                      "board of the ball's centre at the head pin"},
    [OPTION_DEGREES] = {"degrees", KIND_NUMBER, AT(degrees), "D", -15, 15, " degrees",
                        "heading at the pins, + toward the other side"},
    [OPTION_PINS_MPH] = {"mph", KIND_NUMBER, AT(mph), "V", 6, BOWLER_MPH_HIGH, " mph",
                         "speed at the pins (16.5)"},
    [OPTION_POUNDS] = {"pounds", KIND_NUMBER, AT(pounds), "W", BALL_POUNDS_MIN, BALL_POUNDS_MAX,
                       " lb", "weight of the ball (15)"},
    [OPTION_GAMES] = {"games", KIND_COUNT, AT(games), "N", 1, 24, "",
                      "games of the block (6; rehearse 3)"},
    [OPTION_PICK] = {"pick", KIND_COUNT, AT(pick), "N", 1, 12, "",
                     "choose that many of all the balls, the locker's too"},
    [OPTION_WEIGHTS] = {"weights", KIND_TEXT, AT(weights), "LANES", 0, 0, "",
                        "how much each lane counts: fresh=3,burnt=1; the others count 0"},
    [OPTION_SURFACES] = {"surfaces", KIND_FLAG, AT(surfaces), NULL, 0, 0, "",
                         "let the pick choose each ball's surface too"},
    [OPTION_NO_SPARE] = {"no-spare", KIND_FLAG, AT(no_spare), NULL, 0, 0, "",
                         "don't reserve a place of the pick for a spare ball"},
    [OPTION_PLAYER] = {"player", KIND_TEXT, AT(player), "NAME", 0, 0, "",
                       "who chooses the throws (advisor)"},
    [OPTION_WORLD] = {"world", KIND_TEXT, AT(world), "NAME", 0, 0, "",
                      "what kind of hidden lane (kin)"},
    [OPTION_LIST] = {"list", KIND_FLAG, AT(list), NULL, 0, 0, "",
                     "name the worlds and the players, a sentence each"},
    [OPTION_PRACTICE] = {"practice", KIND_COUNT, AT(practice), "N", 1, 40, "",
                         "first balls before the first game, not counted"},
    [OPTION_SIGHTS] = {"sights", KIND_FLAG, AT(sights), NULL, 0, 0, "",
                       "the bowler also reports the boards at the arrows and the breakpoint"},
    [OPTION_SEED] = {"seed", KIND_SEED, AT(seed), "N|WORDS", 1, 1000000000, "",
                     "which hidden lane: a number (1) or two words (amber-otter)"},
    [OPTION_COSTS] = {"costs", KIND_FLAG, AT(costs), NULL, 0, 0, "",
                      "what each decision cost, and the better line of the three dearest"},
    [OPTION_STEADY] = {"steady", KIND_FLAG, AT(steady), NULL, 0, 0, "",
                       "every throw goes as it was meant: to see the decisions alone"},
    [OPTION_KEEP] = {"keep", KIND_FLAG, AT(keep), NULL, 0, 0, "",
                     "keep what it came to, for --history"},
    [OPTION_HISTORY] = {"history", KIND_FLAG, AT(history), NULL, 0, 0, "",
                        "what decisions cost a game in the rehearsals kept, by pattern"},
    [OPTION_EVENT] = {"event", KIND_TEXT, AT(event), "NAME", 0, 0, "",
                      "an event you log, by its name or journal"},
    [OPTION_FROM] = {"from", KIND_TEXT, AT(from), "GAME.FRAME", 0, 0, "",
                     "where it is played another way (with --event; 1.1)"},
    [OPTION_DRAWS] = {"draws", KIND_COUNT, AT(draws), "N", AGAIN_DRAWS_LEAST, AGAIN_DRAWS_MAX, "",
                      "how many lanes of that day are drawn (with --event; 100)"},
    [OPTION_SAVE] = {"save", KIND_TEXT, AT(save), "FILE", 0, 0, "",
                     "write the bag with the pick in its slots to FILE"},
    [OPTION_MONTH] = {"month", KIND_TEXT, AT(month), "YYYY-MM", 0, 0, "",
                      "only the events of that month"},
    [OPTION_CSV] = {"csv", KIND_FLAG, AT(csv), NULL, 0, 0, "",
                    "comma-separated values, one row per first ball"},
    [OPTION_BOWLER] = {"bowler", KIND_TEXT, AT(bowler), "NAME", 0, 0, "",
                       "the bowler's name (You)"},
    [OPTION_HAND] = {"hand", KIND_TEXT, AT(hand), "right|left", 0, 0, "",
                     "the bowling hand (right)"},
    [OPTION_LEVEL] = {"level", KIND_TEXT, AT(level), "LEVEL", 0, 0, "",
                      "junior, senior, league or tournament (league)"},
    [OPTION_STYLE] = {"style", KIND_TEXT, AT(style), "STYLE", 0, 0, "",
                      "straight, stroker, tweener, cranker, two-handed, no-thumb"},
    [OPTION_BALLS] = {"balls", KIND_TEXT, AT(balls), "KIND,KIND..", 0, 0, "",
                      "kinds of ball, first slot first: strong-solid,spare"},
    [OPTION_PAIR] = {"pair", KIND_TEXT, AT(pair), "N,N", 0, 0, "", "the two lanes (1,2)"},
    [OPTION_DATE] = {"date", KIND_TEXT, AT(date), "YYYY-MM-DD", 0, 0, "", "its date (today)"},
    [OPTION_LENGTH] = {"length", KIND_NUMBER, AT(length_ft), "FT", PATTERN_LENGTH_MIN_FT,
                       PATTERN_LENGTH_MAX_FT, " ft", "the pattern's length (40)"},
    [OPTION_MOVE] = {"move", KIND_COUNT, AT(move), "N", -98, 98, "",
                     "lanes you move right after each game; -N: left"},
    [OPTION_HOUSE] = {"house", KIND_COUNT, AT(house), "N", 2, 99, "",
                      "lanes in the house, round which you move"},
    [OPTION_WARM_UP] = {"warm-up", KIND_FLAG, AT(warm_up), NULL, 0, 0, "",
                        "unscored balls come before game 1"},
    [OPTION_SVG] = {"svg", KIND_FLAG, AT(svg), NULL, 0, 0, "", "a drawing, one sheet of A4"},
    [OPTION_HTML] = {"html", KIND_FLAG, AT(html), NULL, 0, 0, "", "a page for a browser"},
    [OPTION_JSON] = {"json", KIND_FLAG, AT(json), NULL, 0, 0, "",
                     "one JSON object instead of a table"},
};
#undef AT

const char *option_name(OptionId id) { return TABLE[id].name; }
const char *option_value(OptionId id) { return TABLE[id].value; }
const char *option_help(OptionId id) { return TABLE[id].help; }

void option_form(OptionId id, char *out, unsigned long size)
{
    const OptionRow *row = &TABLE[id];
    snprintf(out, size, row->value ? "--%s %s" : "--%s", row->name, row->value);
}

/* The accepted option called `name` (of that length), or OPTION_COUNT. */
static OptionId option_find(const char *name, size_t length, OptionSet accepted)
{
    OptionId id = 0;
    while (id < OPTION_COUNT && (!(accepted & OPTION_BIT(id)) || strlen(TABLE[id].name) != length ||
                                 strncmp(TABLE[id].name, name, length) != 0))
        id++;
    return id;
}

static bool unknown_option(const char *command, OptionSet accepted, const char *name, size_t length,
                           Error *error)
{
    const char *names[OPTION_COUNT + 1];
    int count = 0;
    for (int id = 0; id < OPTION_COUNT; id++)
        if (accepted & OPTION_BIT(id))
            names[count++] = TABLE[id].name;
    names[count] = NULL;
    char word[64];
    snprintf(word, sizeof word, "%.*s", length < 60 ? (int)length : 60, name);
    const char *near = text_nearest(word, names);
    if (near)
        return error_set(error, "%s has no option --%s; did you mean --%s?", command, word, near);
    return error_set(error, "%s has no option --%s; 'settee help %s' lists what it takes", command,
                     word, command);
}

/* Reads a number up to `end` (one character or the end of the text); false when it is none. */
static bool number_until(const char *text, const char **end, double *value)
{
    /* strtod takes hexadecimal, "inf" and "nan" as well, which nobody means here */
    if (text[strspn(text, "+-.0123456789eE,")] != '\0')
        return false;
    char *stop;
    *value = strtod(text, &stop);
    *end = stop;
    return stop != text && isfinite(*value);
}

static bool outside(const OptionRow *row, const char *text, Error *error)
{
    if (row->kind == KIND_SEED)
        return error_set(error,
                         "--%s: found '%.40s'; allowed is a whole number from %g to %g or a "
                         "block's two words (amber-otter)",
                         row->name, text, row->low, row->high);
    if (row->kind == KIND_COUNT)
        return error_set(error, "--%s: found '%.40s'; allowed is a whole number from %g to %g",
                         row->name, text, row->low, row->high);
    return error_set(error, "--%s: found '%.40s'; allowed is a number from %g to %g%s", row->name,
                     text, row->low, row->high, row->unit);
}

static bool read_list(const OptionRow *row, const char *text, Options *options, Error *error)
{
    options->at_count = 0;
    for (const char *rest = text;; rest++) {
        double value;
        if (!number_until(rest, &rest, &value) || value < row->low || value > row->high ||
            (*rest && *rest != ','))
            return outside(row, text, error);
        if (options->at_count == OPTIONS_AT_MAX)
            return error_set(error, "--%s: more than %d distances", row->name, OPTIONS_AT_MAX);
        options->at_ft[options->at_count++] = value;
        if (!*rest)
            return true;
    }
}

static bool read_number(const OptionRow *row, const char *text, void *place, Error *error)
{
    const char *end;
    double value;
    if (!number_until(text, &end, &value) || *end || value < row->low || value > row->high ||
        (row->kind != KIND_NUMBER && value != floor(value)))
        return outside(row, text, error);
    if (row->kind == KIND_NUMBER)
        *(double *)place = value;
    else
        *(int *)place = (int)value;
    return true;
}

/* A number, or the pair of words that stands for one (seed.h). */
static bool read_seed(const OptionRow *row, const char *text, int *seed, Error *error)
{
    uint64_t found;
    char near[SEED_TEXT_MAX];
    if (seed_of_text(text, &found, near)) {
        *seed = (int)found;
        return true;
    }
    if (near[0])
        return error_set(error, "--%s: no block is called '%.40s'; did you mean '%s'?", row->name,
                         text, near);
    return read_number(row, text, seed, error);
}

static bool read_value(OptionId id, const char *text, Options *options, Error *error)
{
    const OptionRow *row = &TABLE[id];
    char *place = (char *)options + row->offset;
    switch (row->kind) {
    case KIND_FLAG:
        *(bool *)(void *)place = true;
        return true;
    case KIND_TEXT:
        if (!text[0])
            return error_set(error, "--%s: found nothing; it takes %s", row->name, row->value);
        *(const char **)(void *)place = text;
        return true;
    case KIND_COUNT:
    case KIND_NUMBER:
        return read_number(row, text, place, error);
    case KIND_SEED:
        return read_seed(row, text, (int *)(void *)place, error);
    case KIND_LIST:
        return read_list(row, text, options, error);
    case KIND_SIDE:
        for (int side = 0; side < SIDE_COUNT; side++)
            if (strcmp(text, SIDE_NAMES[side]) == 0) {
                options->lane = (Side)side;
                options->lane_said = true;
                return true;
            }
        return error_set(error, "--%s: found '%.40s'; allowed is left or right", row->name, text);
    }
    return false;
}

/* A command line being read. */
typedef struct Reader {
    const char *command;
    OptionSet accepted;
    int words_max;
    char **words;
    int count, at; /* at: the word that is next */
    Options *options;
    Error *error;
} Reader;

static bool read_word(Reader *r, const char *word)
{
    Options *options = r->options;
    if (r->words_max == 0)
        return error_set(r->error,
                         "%s takes options only, found '%.60s'; 'settee help %s' lists them",
                         r->command, word, r->command);
    if (options->word_count == r->words_max)
        return error_set(r->error, "%s takes at most %d word%s, found '%.60s' too", r->command,
                         r->words_max, r->words_max == 1 ? "" : "s", word);
    options->words[options->word_count++] = word;
    return true;
}

/* The value of an option: after its =, or the next word. NULL: `error` says why. */
static const char *value_of(Reader *r, const OptionRow *row, const char *behind)
{
    if (behind)
        return behind;
    /* a number may begin with a minus; another option may not be a value */
    if (r->at == r->count || strncmp(r->words[r->at], "--", 2) == 0) {
        error_set(r->error, "--%s needs a value: --%s %s", row->name, row->name, row->value);
        return NULL;
    }
    return r->words[r->at++];
}

static bool read_option(Reader *r, const char *word)
{
    const char *name = word[1] == '-' ? word + 2 : word + 1;
    size_t length = strcspn(name, "=");
    OptionId id = option_find(name, length, r->accepted);
    if (word[1] != '-' || id == OPTION_COUNT)
        return unknown_option(r->command, r->accepted, name, length, r->error);
    const OptionRow *row = &TABLE[id];
    const char *value = name[length] ? name + length + 1 : NULL;
    if (row->kind == KIND_FLAG && value)
        return error_set(r->error, "--%s takes no value, found '%.60s'", row->name, value);
    if (row->kind != KIND_FLAG && !(value = value_of(r, row, value)))
        return false;
    return read_value(id, value, r->options, r->error);
}

bool options_read(const char *command, OptionSet accepted, int words_max, int count, char **words,
                  Options *options, Error *error)
{
    Reader reader = {command, accepted, words_max, words, count, 0, options, error};
    bool only_words = false; /* past a lone -- */
    *options = (Options){.stance = NAN,
                         .aim = NAN,
                         .laydown = NAN,
                         .launch_deg = NAN,
                         .mph = NAN,
                         .rpm = NAN,
                         .rotation_deg = NAN,
                         .tilt_deg = NAN,
                         .loft_ft = NAN,
                         .board = NAN,
                         .length_ft = NAN,
                         .degrees = NAN,
                         .pounds = NAN};
    while (reader.at < count) {
        const char *word = words[reader.at++];
        bool plain = only_words || word[0] != '-' || !word[1];
        if (!plain && strcmp(word, "--") == 0)
            only_words = true;
        else if (!(plain ? read_word(&reader, word) : read_option(&reader, word)))
            return false;
    }
    return true;
}
