/* complete.c - completions for bash, zsh and fish: commands, their options, and what may follow an
 * option. Names of files are asked of settee itself. */
#include <stdbool.h>
#include <string.h>

#include "cli/cli.h"
#include "tools/manual/manual.h"

const char *manual_first_words(const char *command)
{
    static const char *const WORDS[][2] = {{"home", "list copy"},
                                           {"log", "list show export verify repair"},
                                           {"new", "bowler bag event pattern"}};
    for (size_t i = 0; i < sizeof WORDS / sizeof *WORDS; i++)
        if (strcmp(WORDS[i][0], command) == 0)
            return WORDS[i][1];
    return "";
}

/* The heading under which `settee home` lists what the option takes; NULL: nothing of the kind. */
static const char *heading_of(OptionId id)
{
    return id == OPTION_BAG ? "Bags" : id == OPTION_PATTERN ? "Patterns" : NULL;
}

/* An option takes a file, one of a few words, or something that can't be completed. */
static bool takes_file(OptionId id)
{
    return option_value(id) && strcmp(option_value(id), "FILE") == 0;
}

static bool takes_word(OptionId id) { return option_value(id) && strchr(option_value(id), '|'); }

/* "left|right" as "left right". */
static void put_words(FILE *out, OptionId id)
{
    for (const char *c = option_value(id); *c; c++)
        fputc(*c == '|' ? ' ' : *c, out);
}

static void put_commands(FILE *out)
{
    CliCommand command;
    for (int i = 1; cli_command(i, &command); i++)
        fprintf(out, "%s%s", i > 1 ? " " : "", command.name);
}

/* Inside single quotes; besides, a backslash before any character of `special`. */
static void put_quoted(FILE *out, const char *text, const char *special)
{
    for (; *text; text++)
        if (*text == '\'')
            fputs("'\\''", out);
        else
            fprintf(out, "%s%c", strchr(special, *text) ? "\\" : "", *text);
}

/* Prints the names of one kind; $1 is the heading. */
static const char NAMES[] =
    "    settee home 2>/dev/null | awk -v heading=\"$1\" \\\n"
    "        '$1 == heading { on = 1; next } /^$/ { on = 0 } on { print $1 }'\n";

/* ---- bash ---- */

static void bash_value(FILE *out, OptionId id)
{
    fprintf(out, "    --%s)\n", option_name(id));
    if (takes_word(id)) {
        fputs("        words='", out);
        put_words(out, id);
        fputs("' ;;\n", out);
    } else if (heading_of(id)) {
        fprintf(out, "        words=$(_settee_names %s) files=yes ;;\n", heading_of(id));
    } else {
        fputs(takes_file(id) ? "        files=yes ;;\n" : "        return ;;\n", out);
    }
}

static void bash_command(FILE *out, const CliCommand *command, bool screen)
{
    const char *first = manual_first_words(command->name);
    fprintf(out, "        %s)\n            words='", screen ? "*" : command->name);
    for (OptionId id = 0; id < OPTION_COUNT; id++)
        if (command->options & OPTION_BIT(id))
            fprintf(out, "--%s ", option_name(id));
    fputs("--help'", out);
    if (first[0])
        fprintf(out, "\n            [ \"$COMP_CWORD\" != 2 ] || words=\"$words %s\"", first);
    if (strcmp(command->name, "help") == 0)
        fputs("\n            words=\"$words $commands\"", out);
    fputs(" ;;\n", out);
}

void manual_bash(FILE *out)
{
    CliCommand command;
    fputs("# bash completion for settee; made by settee_manual\n_settee_names()\n{\n", out);
    fputs(NAMES, out);
    fputs("}\n\n_settee()\n{\n"
          "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}\n"
          "    local words='' files='' commands='",
          out);
    put_commands(out);
    fputs("'\n    COMPREPLY=()\n"
          "    if [ \"$word\" = = ]; then # --name=\n"
          "        word=''\n"
          "    elif [ \"$before\" = = ]; then # --name=value\n"
          "        before=${COMP_WORDS[COMP_CWORD - 2]}\n"
          "    fi\n"
          "    case $before in\n",
          out);
    /* two options of one name take the same kind of value */
    for (OptionId id = 0; id < OPTION_COUNT; id++)
        if (option_value(id) && id != OPTION_PINS_MPH)
            bash_value(out, id);
    fputs("    *)\n        files=yes\n        case ${COMP_WORDS[1]} in\n", out);
    for (int i = 1; cli_command(i, &command); i++)
        bash_command(out, &command, false);
    cli_command(0, &command);
    bash_command(out, &command, true);
    fputs("        esac\n"
          "        [ \"$COMP_CWORD\" != 1 ] || words=\"$commands $(_settee_names Events) --bag "
          "--help "
          "--version\" ;;\n"
          "    esac\n"
          "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
          "    # no names of files fit: bash itself then offers the files (-o default)\n"
          "    [ -n \"$files\" ] || [ ${#COMPREPLY[@]} -gt 0 ] || compopt +o default 2>/dev/null\n"
          "}\n"
          "complete -o default -F _settee settee\n",
          out);
}

/* ---- zsh ---- */

static void zsh_option(FILE *out, OptionId id)
{
    const char *value = option_value(id);
    fprintf(out, "        '--%s%s[", option_name(id), value ? "=" : "");
    put_quoted(out, option_help(id), "[]:\\");
    fputc(']', out);
    if (value) {
        fputc(':', out);
        put_quoted(out, value, ":\\");
        fputc(':', out);
    }
    if (takes_word(id)) {
        fputc('(', out);
        put_words(out, id);
        fputc(')', out);
    } else if (heading_of(id)) {
        fprintf(out, "_settee_file %s", heading_of(id));
    } else if (takes_file(id)) {
        fputs("_files", out);
    } else if (value) {
        fputc(' ', out);
    }
    fputs("' \\\n", out);
}

static void zsh_command(FILE *out, const CliCommand *command, bool screen)
{
    const char *first = manual_first_words(command->name);
    fprintf(out, "    %s)\n        _arguments \\\n", screen ? "*" : command->name);
    for (OptionId id = 0; id < OPTION_COUNT; id++)
        if (command->options & OPTION_BIT(id))
            zsh_option(out, id);
    fputs("        '--help[list the options]'", out);
    if (first[0])
        fprintf(out, " \\\n        '1:word:(%s)'", first);
    if (strcmp(command->name, "help") == 0) {
        fputs(" \\\n        '1:command:(", out);
        put_commands(out);
        fputs(")'", out);
    } else if (command->words[0]) {
        fputs(" \\\n        '*:", out);
        put_quoted(out, command->words, "[]:\\");
        fputs(":_files'", out);
    }
    fputs(" ;;\n", out);
}

void manual_zsh(FILE *out)
{
    CliCommand command;
    fputs(
        "#compdef settee\n# zsh completion for settee; made by settee_manual\n_settee_names()\n{\n",
        out);
    fputs(NAMES, out);
    fputs("}\n\n_settee_file()\n{\n"
          "    local -a names\n"
          "    names=(${(f)\"$(_settee_names $1)\"})\n"
          "    compadd -a names\n"
          "    _files\n"
          "}\n\n_settee()\n{\n    local -a commands\n    commands=(\n",
          out);
    for (int i = 1; cli_command(i, &command); i++) {
        fprintf(out, "        '%s:", command.name);
        put_quoted(out, command.help, ":\\");
        fputs("'\n", out);
    }
    fputs("    )\n"
          "    if ((CURRENT == 2)); then\n"
          "        _describe -t commands command commands\n"
          "        _settee_file Events\n"
          "        return\n"
          "    fi\n"
          "    local command=$words[2]\n"
          "    shift words\n"
          "    ((CURRENT--))\n"
          "    case $command in\n",
          out);
    for (int i = 1; cli_command(i, &command); i++)
        zsh_command(out, &command, false);
    cli_command(0, &command);
    zsh_command(out, &command, true);
    fputs("    esac\n}\n\n_settee \"$@\"\n", out);
}

/* ---- fish ---- */

static void fish_option(FILE *out, const CliCommand *command, OptionId id, bool screen)
{
    if (screen)
        fputs("complete -c settee -n 'not __fish_seen_subcommand_from $__settee_commands'", out);
    else
        fprintf(out, "complete -c settee -n '__fish_seen_subcommand_from %s'", command->name);
    fprintf(out, " -l %s", option_name(id));
    if (takes_word(id)) {
        fputs(" -x -a '", out);
        put_words(out, id);
        fputc('\'', out);
    } else if (heading_of(id)) {
        fprintf(out, " -r -a '(__settee_names %s)'", heading_of(id));
    } else if (option_value(id)) {
        fputs(takes_file(id) ? " -r" : " -x", out);
    }
    fputs(" -d '", out);
    for (const char *c = option_help(id); *c; c++)
        fprintf(out, "%s%c", *c == '\'' || *c == '\\' ? "\\" : "", *c);
    fputs("'\n", out);
}

static void fish_command(FILE *out, const CliCommand *command)
{
    const char *first = manual_first_words(command->name);
    fprintf(out, "complete -c settee -n __fish_use_subcommand -a %s -d '", command->name);
    for (const char *c = command->help; *c; c++)
        fprintf(out, "%s%c", *c == '\'' || *c == '\\' ? "\\" : "", *c);
    fputs("'\n", out);
    for (OptionId id = 0; id < OPTION_COUNT; id++)
        if (command->options & OPTION_BIT(id))
            fish_option(out, command, id, false);
    if (first[0])
        fprintf(out, "complete -c settee -n '__fish_seen_subcommand_from %s' -a '%s'\n",
                command->name, first);
    if (strcmp(command->name, "help") == 0) {
        fputs("complete -c settee -f -n '__fish_seen_subcommand_from help' -a '", out);
        put_commands(out);
        fputs("'\n", out);
    }
}

void manual_fish(FILE *out)
{
    CliCommand command;
    fputs("# fish completion for settee; made by settee_manual\n"
          "function __settee_names\n"
          "    settee home 2>/dev/null | awk -v heading=$argv[1] \\\n"
          "        '$1 == heading { on = 1; next } /^$/ { on = 0 } on { print $1 }'\n"
          "end\n"
          "complete -c settee -n __fish_use_subcommand -a '(__settee_names Events)' -d event\n"
          "set -g __settee_commands ",
          out);
    put_commands(out);
    fputc('\n', out);
    for (int i = 1; cli_command(i, &command); i++)
        fish_command(out, &command);
    cli_command(0, &command);
    for (OptionId id = 0; id < OPTION_COUNT; id++)
        if (command.options & OPTION_BIT(id))
            fish_option(out, &command, id, true);
    fputs("complete -c settee -l help -d 'list the options'\n", out);
}
