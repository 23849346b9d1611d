/* cmd_new.c - settee new: a bowler, a bag, an event or a pattern of one's own, from options or by
 * asking. */
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/bag/preset.h"
#include "core/event/stays.h"
#include "core/lane/sheet.h"
#include "store/files.h"

enum { ANSWER_MAX = 256 };

/* What was answered, or "" where Enter took what is usual. */
typedef struct Asking {
    bool aloud; /* somebody is there to be asked */
    bool ended; /* they have gone: nothing is written */
    char answer[ANSWER_MAX];
} Asking;

/* Asks until `fits` takes the answer. Where nobody can be asked the usual is taken. */
static const char *ask(Asking *asking, const char *question, const char *usual,
                       bool (*fits)(const char *, Error *))
{
    text_copy(asking->answer, sizeof asking->answer, usual);
    while (asking->aloud && !asking->ended) {
        char typed[ANSWER_MAX];
        Error error = {0};
        bool wide = strlen(question) + strlen(usual) > 60; /* leave room to type */
        printf("%s%s[%s] ", question, wide ? "\n  " : " ", usual);
        fflush(stdout);
        if (!fgets(typed, sizeof typed, stdin)) {
            asking->ended = true;
            putchar('\n');
            break;
        }
        char *start = typed + strspn(typed, " \t");
        size_t length = strcspn(start, "\r\n");
        while (length > 0 && (start[length - 1] == ' ' || start[length - 1] == '\t'))
            length--;
        start[length] = '\0';
        text_clean(asking->answer, sizeof asking->answer, length > 0 ? start : usual);
        if (!fits || fits(asking->answer, &error))
            break;
        printf("  %s\n", error.text);
    }
    return asking->answer;
}

static bool fits_hand(const char *word, Error *error)
{
    return strcmp(word, "right") == 0 || strcmp(word, "left") == 0 ||
           error_set(error, "found '%.40s'; allowed: right, left", word);
}

static bool fits_level(const char *word, Error *error)
{
    char names[128] = "";
    for (const LevelPreset *row = LEVEL_PRESETS; row->name; row++)
        text_append(names, sizeof names, "%s%s", names[0] ? ", " : "", row->name);
    return preset_level(word) || error_set(error, "found '%.40s'; allowed: %s", word, names);
}

static bool fits_style(const char *word, Error *error)
{
    char names[128] = "";
    for (const StylePreset *row = STYLE_PRESETS; row->name; row++)
        text_append(names, sizeof names, "%s%s", names[0] ? ", " : "", row->name);
    return preset_style(word) || error_set(error, "found '%.40s'; allowed: %s", word, names);
}

static bool fits_balls(const char *kinds, Error *error)
{
    Bag bag;
    return preset_balls(kinds, 15.0, &bag, error);
}

static bool in_range(const char *word, double low, double high, const char *unit, Error *error)
{
    char *end;
    double value = strtod(word, &end);
    return (end > word && !*end && value >= low && value <= high) ||
           error_set(error, "found '%.40s'; allowed: %g to %g%s", word, low, high, unit);
}
static bool fits_mph(const char *word, Error *error)
{
    return in_range(word, BOWLER_MPH_LOW, BOWLER_MPH_HIGH, " mph", error);
}
static bool fits_rpm(const char *word, Error *error)
{
    return in_range(word, BOWLER_RPM_LOW, BOWLER_RPM_HIGH, " rpm", error);
}
static bool fits_pounds(const char *word, Error *error)
{
    return in_range(word, BALL_POUNDS_MIN, BALL_POUNDS_MAX, " lb", error);
}
static bool whole(const char *word, double low, double high, Error *error)
{
    return word[strspn(word, "0123456789")] == '\0'
               ? in_range(word, low, high, "", error)
               : error_set(error, "found '%.40s'; allowed: a whole number from %g to %g", word, low,
                           high);
}
static bool fits_games(const char *word, Error *error) { return whole(word, 1, 24, error); }
static bool fits_bowlers(const char *word, Error *error) { return whole(word, 1, 10, error); }

static bool fits_move(const char *word, Error *error)
{
    const char *digits = word + (word[0] == '-');
    return whole(digits, 0, EVENT_LANE_MAX - 1, error);
}

static bool fits_pair(const char *word, Error *error)
{
    int left, right, used = 0;
    return (sscanf(word, "%2d,%2d%n", &left, &right, &used) == 2 && !word[used] && left >= 1 &&
            right >= 1 && left != right) ||
           error_set(error, "found '%.40s'; allowed: two lanes from 1 to 99, such as 17,18", word);
}

static bool fits_pattern(const char *name, Error *error)
{
    Pattern pattern;
    return files_pattern(name, &pattern, error);
}
static bool fits_bag(const char *name, Error *error)
{
    Bag bag;
    return files_bag(name, &bag, error);
}
static bool fits_yes(const char *word, Error *error)
{
    return strcmp(word, "yes") == 0 || strcmp(word, "no") == 0 ||
           error_set(error, "found '%.40s'; allowed: yes, no", word);
}

static bool fits_date(const char *date, Error *error)
{
    return files_date(date) ||
           error_set(error, "found '%.40s'; allowed: a day such as 2026-05-17", date);
}

/* What can be made. A bowler is kept in a bag, as everywhere: with the usual balls of the level, or
 * those of another bag. */
typedef enum What { NEW_BOWLER, NEW_BAG, NEW_EVENT, NEW_PATTERN, NEW_COUNT } What;
static const char *const WHAT_NAMES[NEW_COUNT] = {"bowler", "bag", "event", "pattern"};
#define OF(what) (1u << (what))

/* What options say in words, and of what. */
static const struct {
    const char *name;
    size_t offset; /* in Options */
    unsigned of;
    bool (*fits)(const char *, Error *);
} SAID[] = {
    {"bowler", offsetof(Options, bowler), OF(NEW_BOWLER) | OF(NEW_BAG), NULL},
    {"hand", offsetof(Options, hand), OF(NEW_BOWLER) | OF(NEW_BAG), fits_hand},
    {"level", offsetof(Options, level), OF(NEW_BOWLER) | OF(NEW_BAG), fits_level},
    {"style", offsetof(Options, style), OF(NEW_BOWLER) | OF(NEW_BAG), fits_style},
    {"balls", offsetof(Options, balls), OF(NEW_BAG), fits_balls},
    {"date", offsetof(Options, date), OF(NEW_EVENT), fits_date},
    {"pattern", offsetof(Options, pattern), OF(NEW_EVENT), fits_pattern},
    {"bag", offsetof(Options, bag), OF(NEW_BOWLER) | OF(NEW_EVENT), fits_bag},
    {"pair", offsetof(Options, pair), OF(NEW_EVENT), fits_pair},
};

/* "--balls is of new bag, not of new event"; one of those that it is of. */
static bool not_of(const char *option, unsigned of, What what, Error *error)
{
    int first = NEW_COUNT - 1;
    while (!(of & OF(first)))
        first--;
    return error_set(error, "--%s is of new %s, not of new %s", option, WHAT_NAMES[first],
                     WHAT_NAMES[what]);
}

/* Whether they say what can be, of what is made; nothing is asked before. */
static bool options_fit(const Options *options, What what, Error *error)
{
    for (size_t i = 0; i < sizeof SAID / sizeof SAID[0]; i++) {
        const char *said =
            *(const char *const *)(const void *)((const char *)options + SAID[i].offset);
        Error fault = {0};
        if (said && !(SAID[i].of & OF(what)))
            return not_of(SAID[i].name, SAID[i].of, what, error);
        if (said && SAID[i].fits && !SAID[i].fits(said, &fault)) {
            *error = fault;
            return fault.file[0] ? false : error_set(error, "--%s: %s", SAID[i].name, fault.text);
        }
    }
    bool release = !isnan(options->mph) || !isnan(options->rpm) || !isnan(options->rotation_deg) ||
                   !isnan(options->tilt_deg) || !isnan(options->loft_ft) || !isnan(options->pounds);
    if (what >= NEW_EVENT && release)
        return error_set(error, "how the bowler throws belongs to new bag, not to new %s",
                         WHAT_NAMES[what]);
    if (what != NEW_PATTERN && !isnan(options->length_ft))
        return error_set(error, "--length is of new pattern, not of new %s", WHAT_NAMES[what]);
    if (what != NEW_EVENT && (options->games || options->bowlers || options->certified))
        return error_set(error,
                         "--games, --bowlers and --certified are of new event, not of new %s",
                         WHAT_NAMES[what]);
    if (what != NEW_EVENT && (options->move || options->house || options->warm_up))
        return error_set(error, "--move, --house and --warm-up are of new event, not of new %s",
                         WHAT_NAMES[what]);
    if (options->house && !options->move)
        return error_set(error, "--house goes with --move");
    return true;
}

/* What an option said, else what is answered. */
static const char *text_of(Asking *asking, const char *said, const char *question,
                           const char *usual, bool (*fits)(const char *, Error *))
{
    if (!said)
        return ask(asking, question, usual, fits);
    text_clean(asking->answer, sizeof asking->answer, said);
    return asking->answer;
}

static double number_of(Asking *asking, double said, const char *question, double usual,
                        bool (*fits)(const char *, Error *))
{
    char text[32];
    if (!isnan(said))
        return said;
    snprintf(text, sizeof text, "%g", usual);
    return strtod(ask(asking, question, text, fits), NULL);
}

/* ---- a bag ---- */

static void tell_choices(bool balls)
{
    puts("Press Enter for what stands in brackets. All of it can be changed later.\n\nLevels");
    for (const LevelPreset *row = LEVEL_PRESETS; row->name; row++)
        printf("  %-18s %s\n", row->name, row->means);
    puts("Styles");
    for (const StylePreset *row = STYLE_PRESETS; row->name; row++)
        printf("  %-18s %s\n", row->name, row->means);
    if (balls)
        puts("Kinds of ball");
    for (const BallPreset *row = BALL_PRESETS; balls && row->name; row++)
        printf("  %-18s %s\n", row->name, row->means);
    putchar('\n');
}

static void ask_bowler(Asking *asking, const Options *options, Bag *bag, const char **balls,
                       double *pounds)
{
    char name[sizeof bag->bowler.name];
    text_copy(name, sizeof name, text_of(asking, options->bowler, "Your name?", "You", NULL));
    const char *hand = text_of(asking, options->hand, "Right or left hand?", "right", fits_hand);
    bool left = strcmp(hand, "left") == 0;
    const LevelPreset *level =
        preset_level(text_of(asking, options->level, "Level?", "league", fits_level));
    level = level ? level : LEVEL_PRESETS; /* they went away in the middle of a question */
    const StylePreset *style =
        preset_style(text_of(asking, options->style, "Style?", level->style, fits_style));
    style = style ? style : STYLE_PRESETS;
    bag->bowler = preset_bowler(level, style, left ? HAND_LEFT : HAND_RIGHT);
    text_copy(bag->bowler.name, sizeof bag->bowler.name, name);
    Bowler *bowler = &bag->bowler;
    bowler->mph = number_of(asking, options->mph, "Speed as it leaves your hand, mph?", bowler->mph,
                            fits_mph);
    bowler->rpm = number_of(asking, options->rpm, "Revs, turns a minute?", bowler->rpm, fits_rpm);
    if (!isnan(options->rotation_deg))
        bowler->rotation_deg = options->rotation_deg;
    if (!isnan(options->tilt_deg))
        bowler->tilt_deg = options->tilt_deg;
    if (!isnan(options->loft_ft))
        bowler->loft_ft = options->loft_ft;
    preset_check(bowler);
    if (options->bag) /* its balls have theirs */
        return;
    *pounds =
        number_of(asking, options->pounds, "Weight of your balls, lb?", level->pounds, fits_pounds);
    *balls = level->balls;
}

static void tell_bag(const char *name, const Bag *bag, const char *path)
{
    printf("Bag %s: %s, %s-handed, ", name, bag->bowler.name, HAND_NAMES[bag->bowler.hand]);
    print_release(&bag->bowler);
    putchar('\n');
    for (int i = 0; i < bag->count; i++) {
        printf("  ");
        print_ball(&bag->balls[i]);
        putchar('\n');
    }
    printf("Kept as %s\n", path);
    print_wrapped("What you did not say is what is usual, not yours: measure your speed and revs "
                  "when you can, and change the balls on the Bag screen.",
                  0);
    if (bag->bowler.mph < 15.0)
        print_wrapped("A ball must be light enough to swing freely and fit the hand; a certified "
                      "coach or pro shop can tell.",
                      0);
    printf("Next: settee new event NAME --bag %s\n", name);
}

/* The balls of another bag, at their own weight. */
static bool take_balls(const char *from, Bag *bag, Error *error)
{
    Bowler bowler = bag->bowler;
    bool done = files_bag(from, bag, error);
    bag->bowler = bowler;
    return done;
}

static int new_bag(Asking *asking, const Options *options, What what, const char *name)
{
    Error error = {0};
    char path[1024];
    Bag *bag = calloc(1, sizeof *bag);
    if (!bag)
        return cmd_say(CMD_FAULT, "out of memory");
    const char *usual_balls = "";
    double pounds = 15.0;
    if (asking->aloud)
        tell_choices(what == NEW_BAG);
    ask_bowler(asking, options, bag, &usual_balls, &pounds);
    const char *kinds = what == NEW_BOWLER
                            ? usual_balls
                            : text_of(asking, options->balls, "Balls by kind, first slot first?",
                                      usual_balls, fits_balls);
    int status = CMD_DONE;
    if (asking->ended)
        status = cmd_say(CMD_FAULT, "nothing was written: the questions were not answered");
    else if (!(options->bag ? take_balls(options->bag, bag, &error)
                            : preset_balls(kinds, pounds, bag, &error)) ||
             !files_new_bag(name, bag, path, sizeof path, &error))
        status = cmd_fault(CMD_FAULT, &error);
    else if (!options->json)
        tell_bag(name, bag, path);
    if (status == CMD_DONE && options->json) {
        JsonOut out = json_out_start();
        json_out_object(&out, NULL);
        json_out_string(&out, "kind", "bag");
        json_out_string(&out, "name", name);
        json_out_string(&out, "file", path);
        json_out_integer(&out, "balls", bag->count);
        json_out_end(&out);
        status = cmd_json(&out);
    }
    free(bag);
    return status;
}

/* ---- an event ---- */

static void tell_names(const char *title, const char *kind)
{
    enum { NAMES_MAX = 128, WIDTH = 72 };
    static FileName names[NAMES_MAX];
    int count = files_names(kind, names, NAMES_MAX);
    char line[512] = "";
    for (int i = 0; i < count && strlen(line) < sizeof line - 80; i++)
        text_append(line, sizeof line, "%s%s", i ? ", " : "", names[i].name);
    print_entry(title, line, 10);
}

/* The home's first bag, else the demo. */
static void usual_bag(char *out, size_t size)
{
    FileName first;
    bool own = files_names("bags", &first, 1) == 1 && first.home;
    text_copy(out, size, own ? first.name : CMD_BAG_DEFAULT);
}

static int new_event(Asking *asking, const Options *options, const char *name)
{
    EventInfo event = {.games = 3, .bowlers_on_pair = 4};
    Error error = {0};
    char usual[64], path[1024], date[16];
    if (asking->aloud) {
        puts("Press Enter for what stands in brackets.\n");
        tell_names("Patterns", "patterns");
        tell_names("Bags", "bags");
        putchar('\n');
    }
    text_copy(event.name, sizeof event.name, name);
    cmd_today(date, sizeof date);
    text_copy(event.date, sizeof event.date,
              text_of(asking, options->date, "Date?", date, fits_date));
    char pattern[ANSWER_MAX], bag[ANSWER_MAX];
    text_copy(pattern, sizeof pattern,
              text_of(asking, options->pattern,
                      "Oil pattern? Without a sheet about:house, about:41ft, about:nothing",
                      "parlour", fits_pattern));
    usual_bag(usual, sizeof usual);
    text_copy(bag, sizeof bag, text_of(asking, options->bag, "Bag?", usual, fits_bag));
    const char *pair = text_of(asking, options->pair, "The two lanes?", "1,2", fits_pair);
    if (sscanf(pair, "%2d,%2d", &event.pair[0], &event.pair[1]) != 2)
        event.pair[0] = event.pair[1] = 1; /* they went away; nothing is written */
    event.games =
        options->games ? options->games : (int)number_of(asking, NAN, "Games?", 3.0, fits_games);
    int move = options->move;
    if (!move && event.games > 1)
        move = (int)number_of(
            asking, NAN, "Lanes you move to the right after each game (-2: left)?", 0.0, fits_move);
    event.bowlers_on_pair =
        options->bowlers
            ? options->bowlers
            : (int)number_of(asking, NAN, "Bowlers on the pair, with you?", 4.0, fits_bowlers);
    event.certified = options->certified;
    if (!options->certified)
        event.certified =
            strcmp(ask(asking, "Do the scores count? Then no ball's surface may change", "yes",
                       fits_yes),
                   "yes") == 0;
    event.warm_up = options->warm_up;
    if (!options->warm_up && asking->aloud)
        event.warm_up =
            strcmp(ask(asking, "Balls to warm up before game 1?", "yes", fits_yes), "yes") == 0;
    if (asking->ended)
        return cmd_say(CMD_FAULT, "nothing was written: the questions were not answered");
    if (move && !event_move(&event, move, options->house, &error))
        return cmd_fault(CMD_FAULT, &error);
    if (!files_place("patterns", pattern, event.pattern, sizeof event.pattern, &error) ||
        !files_place("bags", bag, event.bag, sizeof event.bag, &error) ||
        !files_new_event(name, &event, path, sizeof path, &error))
        return cmd_fault(CMD_FAULT, &error);
    if (options->json) {
        JsonOut out = json_out_start();
        json_out_object(&out, NULL);
        json_out_string(&out, "kind", "event");
        json_out_string(&out, "name", name);
        json_out_string(&out, "file", path);
        json_out_end(&out);
        return cmd_json(&out);
    }
    printf("Event %s: %s, bag %s, lanes %d and %d, %d games, %d on the pair, %s%s\nKept as %s\n",
           name, pattern, bag, event.pair[0], event.pair[1], event.games, event.bowlers_on_pair,
           event.certified ? "scored" : "practice", event.warm_up ? ", warm-up first" : "", path);
    printf("Start it: settee %s\n", name);
    return CMD_DONE;
}

/* ---- a pattern ---- */

static bool fits_length(const char *word, Error *error)
{
    return in_range(word, PATTERN_LENGTH_MIN_FT, PATTERN_LENGTH_MAX_FT, " ft", error);
}

#define NO_MORE "no more"

static bool fits_stroke(const char *word, Error *error)
{
    Stroke stroke;
    return strcmp(word, NO_MORE) == 0 ||
           sheet_stroke_read(word, PATTERN_LENGTH_MAX_FT, &stroke, error);
}

/* Asks until there are no more; one that goes past the length is asked again. */
static void ask_strokes(Asking *asking, Pattern *pattern)
{
    print_wrapped(
        "Strokes: boards, feet, oil, as 2L-2R 0-8 2.5-0.7 in units, or 2L-2R 0-8 3x50 for "
        "3 loads of 50 microlitres a board. The farther distance first on the way back.",
        0);
    while (pattern->stroke_count < PATTERN_STROKES_MAX) {
        char question[32];
        Error error = {0};
        snprintf(question, sizeof question, "Stroke %d?", pattern->stroke_count + 1);
        const char *said = ask(asking, question, NO_MORE, fits_stroke);
        if (asking->ended || strcmp(said, NO_MORE) == 0)
            return;
        if (sheet_stroke_read(said, pattern->length_ft, &pattern->strokes[pattern->stroke_count],
                              &error))
            pattern->stroke_count++;
        else
            printf("  %s\n", error.text);
    }
}

/* The words after the name are strokes. */
static bool read_strokes(const Options *options, Pattern *pattern, Error *error)
{
    for (int i = 2; i < options->word_count; i++) {
        Error why = {0};
        if (!sheet_stroke_read(options->words[i], pattern->length_ft,
                               &pattern->strokes[pattern->stroke_count], &why))
            return error_set(error, "stroke %d: %s", i - 1, why.text);
        pattern->stroke_count++;
    }
    return true;
}

static int tell_pattern(const char *name, const Pattern *pattern, const char *path, bool json)
{
    Oil oil;
    oil_lay(pattern, &oil);
    double ratio = oil_ratio(&oil), volume = oil_volume_ml(&oil);
    if (json) {
        JsonOut out = json_out_start();
        json_out_object(&out, NULL);
        json_out_string(&out, "kind", "pattern");
        json_out_string(&out, "name", name);
        json_out_string(&out, "file", path);
        json_out_integer(&out, "strokes", pattern->stroke_count);
        json_out_number(&out, "length_ft", pattern->length_ft);
        json_out_rounded(&out, "volume_ml", volume, 2);
        json_out_rounded(&out, "ratio", ratio, 2); /* null: no oil outside */
        json_out_end(&out);
        return cmd_json(&out);
    }
    printf("Pattern %s: %g ft, %d stroke%s, %.1f mL, inside to outside ", name, pattern->length_ft,
           pattern->stroke_count, pattern->stroke_count == 1 ? "" : "s", volume);
    if (isfinite(ratio))
        printf("%.1f:1", ratio);
    else
        printf("none outside");
    printf("\nKept as %s\nLook at it: settee oil --pattern %s\n", path, name);
    return CMD_DONE;
}

static int new_pattern(Asking *asking, const Options *options, const char *name)
{
    Pattern pattern = {0};
    Error error = {0};
    char path[1024];
    text_copy(pattern.name, sizeof pattern.name, name);
    pattern.length_ft = number_of(asking, options->length_ft, "Length, ft?", 40.0, fits_length);
    if (!read_strokes(options, &pattern, &error))
        return cmd_fault(CMD_USAGE, &error);
    if (pattern.stroke_count == 0 && asking->aloud)
        ask_strokes(asking, &pattern);
    if (asking->ended)
        return cmd_say(CMD_FAULT, "nothing was written: the questions were not answered");
    if (pattern.stroke_count == 0)
        return cmd_say(CMD_USAGE,
                       "new pattern needs strokes, such as: settee new pattern %s "
                       "2L-2R,0-8,2.5 10L-10R,8-36,3x50",
                       name);
    if (!files_new_pattern(name, &pattern, path, sizeof path, &error))
        return cmd_fault(CMD_FAULT, &error);
    return tell_pattern(name, &pattern, path, options->json);
}

int cmd_new(const Options *options)
{
    static const char *const FOLDERS[NEW_COUNT] = {"bags", "bags", "events", "patterns"};
    const char *word = options->word_count > 0 ? options->words[0] : "";
    What what = NEW_BOWLER;
    Asking asking = {.aloud = isatty(STDIN_FILENO) && isatty(STDOUT_FILENO) && !options->json};
    Error error = {0};
    while (what < NEW_COUNT && strcmp(word, WHAT_NAMES[what]) != 0)
        what++;
    if (what == NEW_COUNT)
        return cmd_say(CMD_USAGE,
                       "new: found '%.40s'; allowed is bowler NAME, bag NAME, event NAME, or "
                       "pattern NAME",
                       word);
    if (options->word_count > 2 && what != NEW_PATTERN)
        return cmd_say(CMD_USAGE, "new %s takes one name; found '%.40s' after it", word,
                       options->words[2]);
    if (options->word_count < 2)
        return cmd_say(CMD_USAGE, "new %s needs a name, such as: settee new %s mine", word, word);
    if (!options_fit(options, what, &error))
        return cmd_fault(CMD_USAGE, &error);
    if (!files_new_free(FOLDERS[what], options->words[1], &error))
        return cmd_fault(CMD_FAULT, &error);
    return what == NEW_EVENT     ? new_event(&asking, options, options->words[1])
           : what == NEW_PATTERN ? new_pattern(&asking, options, options->words[1])
                                 : new_bag(&asking, options, what, options->words[1]);
}
