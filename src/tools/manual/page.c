/* page.c - settee(1) in man's own macros. Commands and options come from their tables; the rest is
 * written here. */
#include "cli/cli.h"
#include "tools/manual/manual.h"

/* Text as roff takes it: hyphens that may be copied, no escapes, no line that is a request. */
static void put(FILE *out, const char *text)
{
    if (*text == '.' || *text == '\'')
        fputs("\\&", out);
    for (; *text; text++)
        if (*text == '-')
            fputs("\\-", out);
        else if (*text == '\\')
            fputs("\\e", out);
        else
            fputc(*text, out);
}

/* A line of help as a sentence. */
static void put_sentence(FILE *out, const char *help)
{
    fputc(*help >= 'a' && *help <= 'z' ? *help - 'a' + 'A' : *help, out);
    put(out, help + 1);
    fputs(".\n", out);
}

/* An option's name in bold, the word for its value in italics. */
static void put_option(FILE *out, OptionId id)
{
    const char *value = option_value(id);
    fputs(".TP\n.BR \\-\\-", out);
    put(out, option_name(id));
    if (value) {
        fputs(" \" \\fI", out);
        put(out, value);
        fputs("\\fR\"", out);
    }
    fputc('\n', out);
    put_sentence(out, option_help(id));
}

static void put_options(FILE *out, OptionSet set)
{
    if (!set)
        return;
    fputs(".RS\n", out);
    for (OptionId id = 0; id < OPTION_COUNT; id++)
        if (set & OPTION_BIT(id))
            put_option(out, id);
    fputs(".RE\n", out);
}

static void put_command(FILE *out, const CliCommand *command, bool screen)
{
    fputs(".SS \"settee", out);
    if (!screen) {
        fputc(' ', out);
        put(out, command->name);
    }
    if (command->words[0]) {
        fputc(' ', out);
        put(out, command->words);
    }
    fputs(command->options ? " [OPTION...]\"\n" : "\"\n", out);
    put_sentence(out, command->help);
    put_options(out, command->options);
}

static const char BEFORE[] =
    ".SH NAME\n"
    "settee \\- helps a bowler decide, between shots, what to change next\n"
    ".SH SYNOPSIS\n"
    ".B settee\n"
    ".RI [ EVENT ]\n"
    ".RB [ \\-\\-bag\n"
    ".IR BAG ]\n"
    ".br\n"
    ".B settee\n"
    ".I COMMAND\n"
    ".RI [ WORD ...]\n"
    ".RI [ OPTION ...]\n"
    ".SH DESCRIPTION\n"
    "Without a command,\n"
    ".B settee\n"
    "runs full\\-screen in a terminal of 80 by 24 or larger.\n"
    "After each shot you type what you saw: where the ball hit, whether it read early or late, how "
    "it left your hand.\n"
    "It answers with the three things it thinks best to do next: which ball to throw, how far to "
    "move your feet and your target, your chance of the pocket, how much you can miss by, and "
    "why.\n"
    "Press\n"
    ".B ?\n"
    "for the keys.\n"
    ".PP\n"
    "The commands use the same engine without the screen.\n"
    "An option is written\n"
    ".BI \\-\\-name \" value\"\n"
    "or\n"
    ".BI \\-\\-name= value\\fR.\n"
    "A\n"
    ".I FILE\n"
    "is a path,\n"
    ".B \\-\n"
    "for standard input, or a name that\n"
    ".B settee home\n"
    "lists.\n"
    "Boards count from the bowler's own side, in a pattern from the right edge.\n"
    "With\n"
    ".B \\-\\-json\n"
    "an answer is one JSON object on one line.\n"
    ".SH COMMANDS\n";

static const char AFTER[] =
    ".SH FILES\n"
    ".TP\n"
    ".I ~/.config/settee/KIND/NAME.json\n"
    "Your own bags, events, patterns, themes and rules; KIND is the folder of that name.\n"
    "A file of yours comes before a built\\-in one of the same name.\n"
    ".TP\n"
    ".I ~/.config/settee/settings.json\n"
    "What the screen remembers.\n"
    ".TP\n"
    ".I ~/.config/settee/keys.json\n"
    "Keys of your own.\n"
    ".TP\n"
    ".I ~/.local/share/settee/events/NAME.journal\n"
    "What you entered in an event, a line each, on the disk before the screen says so.\n"
    ".SH ENVIRONMENT\n"
    ".TP\n"
    ".BR XDG_CONFIG_HOME \", \" XDG_DATA_HOME\n"
    "Folders to use in place of\n"
    ".I ~/.config\n"
    "and\n"
    ".IR ~/.local/share .\n"
    ".TP\n"
    ".B NO_COLOR\n"
    "If it is set, the screen uses bold, underline and reverse only.\n"
    ".TP\n"
    ".B SETTEE_MOTION\n"
    "If it is\n"
    ".BR off ,\n"
    "nothing on the screen moves by itself; the key M does the same, and is remembered.\n"
    ".TP\n"
    ".BR TERM \", \" LC_ALL \", \" LC_CTYPE \", \" LANG\n"
    "The terminal, and whether it takes UTF\\-8; without it the screen is drawn in ASCII.\n"
    ".SH \"EXIT STATUS\"\n"
    ".TP\n"
    ".B 0\n"
    "Done.\n"
    ".TP\n"
    ".B 1\n"
    "A fault in the data, or no answer; one line on standard error says which.\n"
    ".TP\n"
    ".B 2\n"
    "Wrong usage.\n"
    ".SH EXAMPLES\n"
    ".TP\n"
    ".B settee demo\n"
    "The screen, on the demo event.\n"
    ".TP\n"
    ".B settee line \\-\\-bag demo \\-\\-pattern apron\n"
    "Where to stand and what to aim at with each ball of the bag.\n"
    ".TP\n"
    ".B settee log export \\-\\-csv > shots.csv\n"
    "Every shot you entered, for a spreadsheet.\n"
    ".SH NOTES\n"
    "The event's rules, and a coach, pro shop or physician, come before anything settee says.\n";

void manual_page(FILE *out, const char *version)
{
    CliCommand command;
    fprintf(out,
            ".\\\" made by settee_manual from the tables of commands and options\n"
            ".TH SETTEE 1 \"\" \"settee %s\" \"User Commands\"\n",
            version);
    fputs(BEFORE, out);
    for (int i = 0; cli_command(i, &command); i++)
        put_command(out, &command, i == 0);
    fputs(AFTER, out);
}
