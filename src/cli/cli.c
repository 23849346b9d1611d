/* cli.c - the commands, one row each, and finding the row for a command line. */
#include "cli/cli.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "store/files.h"

typedef struct Subcommand {
    const char *name;
    const char *words; /* plain words it takes, for the usage line; "" none */
    int words_max;
    OptionSet options;
    const char *help; /* one line */
    int (*run)(const Options *options);
} Subcommand;

static int cmd_help(const Options *options);
static int cmd_version(const Options *options);

#define BIT(id) OPTION_BIT(OPTION_##id)
#define RELEASE (BIT(MPH) | BIT(RPM) | BIT(ROTATION) | BIT(TILT) | BIT(LOFT))
#define BALL (BIT(PATTERN) | BIT(BAG) | BIT(SLOT) | BIT(BALL) | BIT(JSON))
static const Subcommand SUBCOMMANDS[] = {
    {"roll", "", 0, BALL | RELEASE | BIT(STANCE) | BIT(AIM) | BIT(LAYDOWN) | BIT(LAUNCH),
     "roll one ball down one line and show its path", cmd_roll},
    {"line", "", 0, BALL | RELEASE | BIT(LAYDOWN),
     "stance and aim for the pocket, for one ball or all", cmd_line},
    {"oil", "", 0, BIT(PATTERN) | BIT(AT) | BIT(JSON),
     "a pattern: volume, cross-sections, a view from above", cmd_oil},
    {"rack", "", 0, BIT(BOARD) | BIT(DEGREES) | BIT(PINS_MPH) | BIT(POUNDS) | BIT(JSON),
     "what a hit does: strike, pinfall and leaves", cmd_rack},
    {"advise", "", 0,
     BIT(EVENT) | BIT(PATTERN) | BIT(BAG) | BIT(SHOTS) | BIT(SLOT) | BIT(STANCE) | BIT(AIM) |
         BIT(CERTIFIED) | BIT(LANE) | BIT(GAME) | BIT(FRAME) | BIT(NEED) | BIT(BOWLERS) | BIT(JSON),
     "what to change next, from the shots so far", cmd_advise},
    {"spare", "PINS...", 10, BALL | RELEASE | BIT(STANCE) | BIT(AIM),
     "ball, stance, aim and chance for what was left: 3 6 10", cmd_spare},
    {"score", "BALLS...", OPTIONS_WORDS_MAX, BIT(TARGET) | BIT(JSON),
     "a game's score: X X 7 2 8 / F 9", cmd_score},
    {"bag", "", 0,
     BIT(PATTERN) | BIT(BAG) | RELEASE | BIT(GAMES) | BIT(BOWLERS) | BIT(PICK) | BIT(WEIGHTS) |
         BIT(SURFACES) | BIT(NO_SPARE) | BIT(SAVE) | BIT(CERTIFIED) | BIT(JSON),
     "what each ball of a bag is for; the best six", cmd_bag},
    {"block", "", 0, BIT(PATTERN) | BIT(BAG) | RELEASE | BIT(GAMES) | BIT(BOWLERS) | BIT(JSON),
     "the games ahead: which ball and line for each", cmd_block},
    {"card", "[EVENT]", 1, BIT(BAG) | BIT(SVG) | BIT(HTML) | BIT(JSON),
     "one page for an event: bag, pattern, block and spares", cmd_card},
    {"rehearse", "[EVENT]", 1,
     BIT(PATTERN) | BIT(BAG) | RELEASE | BIT(GAMES) | BIT(BOWLERS) | BIT(PLAYER) | BIT(WORLD) |
         BIT(PRACTICE) | BIT(SIGHTS) | BIT(STEADY) | BIT(SEED) | BIT(COSTS) | BIT(KEEP) |
         BIT(DATE) | BIT(HISTORY) | BIT(EVENT) | BIT(FROM) | BIT(DRAWS) | BIT(SLOT) | BIT(STANCE) |
         BIT(AIM) | BIT(LIST) | BIT(JSON),
     "bowl on a hidden lane; with EVENT on the screen", cmd_rehearse},
    {"teach", "[WHAT...]", OPTIONS_WORDS_MAX, BIT(BAG) | BIT(JSON),
     "lessons for juniors: list, show, check, report", cmd_teach},
    {"review", "", 0, BIT(MONTH) | BIT(BAG) | BIT(JSON),
     "how your shots turned out, by month, ball and pattern", cmd_review},
    {"learn", "BAG [WHAT...]", 3, BIT(JSON), "what your events say of a bag's numbers", cmd_learn},
    {"log", "[WHAT...]", 2, BIT(BAG) | BIT(CSV) | BIT(JSON),
     "what you entered: list, show, export, verify, repair", cmd_log},
    {"home", "[WHAT...]", 4, BIT(JSON), "your own files: list, copy bag|event|pattern FROM NAME",
     cmd_home},
    {"new", "WHAT NAME [STROKE...]", 2 + PATTERN_STROKES_MAX,
     BIT(BOWLER) | BIT(HAND) | BIT(LEVEL) | BIT(STYLE) | RELEASE | BIT(BALLS) | BIT(POUNDS) |
         BIT(PATTERN) | BIT(BAG) | BIT(PAIR) | BIT(GAMES) | BIT(BOWLERS) | BIT(CERTIFIED) |
         BIT(MOVE) | BIT(HOUSE) | BIT(WARM_UP) | BIT(DATE) | BIT(LENGTH) | BIT(JSON),
     "make your own: bowler, bag, event, pattern", cmd_new},
    {"words", "[WORD]", 3, BIT(JSON), "what the words of the trade mean, all or one", cmd_words},
    {"check", "FILE...", OPTIONS_WORDS_MAX, BIT(JSON),
     "check files, and say what is wrong with them", cmd_check},
    {"help", "[COMMAND]", 1, BIT(JSON), "list the commands, or one command's options", cmd_help},
    {"version", "", 0, BIT(JSON), "print the version", cmd_version},
};
/* What main runs if no command is named. */
static const Subcommand SCREEN = {
    "screen", "[EVENT]", 1, BIT(BAG), "the screen: an event (demo: an example), or Home", NULL};
#undef BALL
#undef RELEASE
#undef BIT
enum { SUBCOMMAND_COUNT = sizeof SUBCOMMANDS / sizeof *SUBCOMMANDS };

bool cli_command(int number, CliCommand *command)
{
    if (number < 0 || number > SUBCOMMAND_COUNT)
        return false;
    const Subcommand *row = number == 0 ? &SCREEN : &SUBCOMMANDS[number - 1];
    *command = (CliCommand){row->name, row->words, row->help, row->options};
    return true;
}

static const Subcommand *subcommand_find(const char *word)
{
    for (int i = 0; i < SUBCOMMAND_COUNT; i++)
        if (strcmp(SUBCOMMANDS[i].name, word) == 0)
            return &SUBCOMMANDS[i];
    if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0)
        return subcommand_find("help");
    if (strcmp(word, "--version") == 0 || strcmp(word, "-V") == 0)
        return subcommand_find("version");
    return NULL;
}

/* The command or event that was probably meant, in `out`; false: none is close. */
static bool word_near(const char *word, char *out, size_t size)
{
    enum { EVENTS_MAX = 128 };
    FileName events[EVENTS_MAX];
    const char *names[SUBCOMMAND_COUNT + EVENTS_MAX + 1] = {0};
    int count = 0, event_count = files_names("events", events, EVENTS_MAX);
    for (int i = 0; i < SUBCOMMAND_COUNT; i++)
        names[count++] = SUBCOMMANDS[i].name;
    for (int i = 0; i < event_count; i++)
        names[count++] = events[i].name;
    const char *near = text_nearest(word, names);
    return near && text_copy(out, size, near);
}

/* Says that there is no such command, and which was probably meant. */
static int unknown_word(const char *word)
{
    const char *what = word[0] == '-' ? "option" : "command, event or file";
    char near[64];
    if (word[0] != '-' && word_near(word, near, sizeof near))
        return cmd_say(CMD_USAGE, "no %s '%.60s'; did you mean '%s'?", what, word, near);
    return cmd_say(CMD_USAGE, "no %s '%.60s'; 'settee help' lists the commands", what, word);
}

static void help_one_json(JsonOut *out, const Subcommand *row)
{
    json_out_object(out, NULL);
    json_out_string(out, "name", row->name);
    json_out_string(out, "words", row->words);
    json_out_string(out, "help", row->help);
    json_out_array(out, "options");
    for (OptionId id = 0; id < OPTION_COUNT; id++) {
        if (!(row->options & OPTION_BIT(id)))
            continue;
        char form[48];
        option_form(id, form, sizeof form);
        json_out_object(out, NULL);
        json_out_string(out, "form", form);
        json_out_string(out, "help", option_help(id));
        json_out_end(out);
    }
    json_out_end(out);
    json_out_end(out);
}

static void help_one(const Subcommand *row)
{
    printf("settee%s%s%s%s%s\n  %s\n", row->run ? " " : "", row->run ? row->name : "",
           row->words[0] ? " " : "", row->words, row->options ? " [OPTION...]" : "", row->help);
    puts("\nOptions");
    for (OptionId id = 0; id < OPTION_COUNT; id++) {
        if (!(row->options & OPTION_BIT(id)))
            continue;
        char form[48];
        option_form(id, form, sizeof form);
        printf("  %-21s  %s\n", form, option_help(id));
    }
}

static void help_all(void)
{
    puts("settee helps a bowler decide, between shots, what to change next.\n");
    printf("  %-21s  %s\n", "settee [EVENT]", SCREEN.help);
    for (int i = 0; i < SUBCOMMAND_COUNT; i++) {
        char form[48];
        snprintf(form, sizeof form, "settee %s %s", SUBCOMMANDS[i].name, SUBCOMMANDS[i].words);
        printf("  %-21s  %s\n", form, SUBCOMMANDS[i].help);
    }
    putchar('\n');
    print_wrapped(
        "'settee help COMMAND' lists its options. A FILE is a path, - for standard input, "
        "or a name that 'settee home' lists. Boards count from the bowler's own side, in a "
        "pattern from the right edge. Exit status: 0 done, 1 a fault in the data or no "
        "answer, 2 wrong usage.",
        0);
}

static int cmd_help(const Options *options)
{
    const Subcommand *one = NULL;
    if (options->word_count > 0) {
        one = strcmp(options->words[0], SCREEN.name) == 0 ? &SCREEN
                                                          : subcommand_find(options->words[0]);
        if (!one)
            return unknown_word(options->words[0]);
    }
    if (options->json) {
        JsonOut out = json_out_start();
        json_out_object(&out, NULL);
        json_out_array(&out, "commands");
        if (one == &SCREEN)
            help_one_json(&out, &SCREEN);
        for (int i = 0; i < SUBCOMMAND_COUNT; i++)
            if (!one || one == &SUBCOMMANDS[i])
                help_one_json(&out, &SUBCOMMANDS[i]);
        json_out_end(&out);
        json_out_end(&out);
        return cmd_json(&out);
    }
    if (one)
        help_one(one);
    else
        help_all();
    return CMD_DONE;
}

static int cmd_version(const Options *options)
{
    if (options->json) {
        JsonOut out = json_out_start();
        json_out_object(&out, NULL);
        json_out_string(&out, "version", SETTEE_VERSION);
        json_out_end(&out);
        return cmd_json(&out);
    }
    puts("settee " SETTEE_VERSION);
    return CMD_DONE;
}

bool cli_knows(const char *word)
{
    if (strcmp(word, "--bag") == 0 || strncmp(word, "--bag=", 6) == 0)
        return false; /* of the screen */
    if (subcommand_find(word) || (word[0] == '-' && word[1]))
        return true;
    /* A word that is neither event nor file is a typing mistake: cli_run suggests another. */
    char place[1024];
    return strcmp(word, "-") != 0 && !strpbrk(word, "/.") &&
           !files_place("events", word, place, sizeof place, NULL);
}

bool cli_screen(int argc, char **argv, const char **event, const char **bag)
{
    Options options;
    Error error = {0};
    if (!options_read(SCREEN.name, SCREEN.options, SCREEN.words_max, argc - 1, argv + 1, &options,
                      &error)) {
        cmd_fault(CMD_USAGE, &error);
        return false;
    }
    *event = options.word_count > 0 ? options.words[0] : options.bag ? "demo" : NULL;
    *bag = options.bag;
    return true;
}

bool cli_rehearses(int argc, char **argv, const char **event, unsigned long *seed)
{
    const Subcommand *row = subcommand_find("rehearse");
    Options options;
    Error unheard = {0};
    if (argc < 3 || strcmp(argv[1], row->name) != 0 ||
        !options_read(row->name, row->options, row->words_max, argc - 2, argv + 2, &options,
                      &unheard) ||
        options.word_count == 0)
        return false;
    *event = options.words[0];
    *seed = (unsigned long)options.seed;
    return true;
}

bool cli_teach_screen(int argc, char **argv, const char **bag)
{
    Options options;
    Error error = {0};
    if (argc < 2 || strcmp(argv[1], "teach") != 0 ||
        !options_read("teach", OPTION_BIT(OPTION_BAG), 0, argc - 2, argv + 2, &options, &error))
        return false;
    *bag = options.bag;
    return true;
}

int cli_run(int argc, char **argv)
{
    const Subcommand *row = argc > 1 ? subcommand_find(argv[1]) : subcommand_find("help");
    if (!row)
        return unknown_word(argv[1]);
    /* settee COMMAND --help is what most people try first */
    for (int i = 2; i < argc; i++)
        if (strcmp(argv[i], "--help") == 0 || strcmp(argv[i], "-h") == 0) {
            help_one(row);
            return CMD_DONE;
        }
    Options options;
    Error error = {0};
    if (!options_read(row->name, row->options, row->words_max, argc > 2 ? argc - 2 : 0, argv + 2,
                      &options, &error))
        return cmd_fault(CMD_USAGE, &error);
    int status = row->run(&options);
    if ((fflush(stdout) != 0 || ferror(stdout)) && status == CMD_DONE)
        status = cmd_say(CMD_FAULT, "standard output can't be written to");
    return status;
}
