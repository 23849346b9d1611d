/* main.c - composition only: a command, or the screen on an event. */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "cli/cli.h"
#include "core/line.h"
#include "core/session.h"
#include "store/builtin.h"
#include "store/files.h"
#include "store/journal.h"
#include "ui/ui.h"

enum { THEMES_MAX = 16 };

static int fault(const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    fprintf(stderr, "settee: %s\n", line);
    return 1;
}

static bool keep(void *context, const Entry *entry, Error *error)
{
    return journal_append(context, entry, error);
}

/* Where a bowler would start: the first ball on its own best line near the second arrow. */
static Plan first_plan(const Bag *bag, const Pattern *pattern)
{
    Plan plan = {.slot = 1, .stance = 20.0, .aim = 12.0};
    for (int slot = BAG_SLOTS; slot >= 1; slot--)
        if (bag_slot(bag, slot))
            plan.slot = slot;
    const Ball *ball = bag_slot(bag, plan.slot);
    if (!ball)
        return plan;
    Oil sheet, oil;
    oil_lay(pattern, &sheet);
    oil_for_hand(&sheet, bag->bowler.hand, &oil);
    MotionBody body;
    motion_body(ball, &body);
    Delivery usual = delivery_of(&bag->bowler, 20.0, 12.0);
    Line line = line_best(&body, &oil, &bag->bowler, &usual, 14.0, 26.0);
    plan.stance = line.stance;
    plan.aim = (double)(int)(2.0 * line.aim + 0.5) / 2.0;
    return plan;
}

static bool load(const char *event_name, Session *session, RuleSet *rules, Error *error)
{
    EventInfo event;
    Bag *bag = calloc(1, sizeof *bag);
    Pattern *pattern = calloc(1, sizeof *pattern);
    bool ok = bag && pattern;
    if (!ok)
        error_set(error, "out of memory");
    ok = ok && files_event(event_name, &event, error) && files_bag(event.bag, bag, error) &&
         files_pattern(event.pattern, pattern, error) && files_rules("coach", rules, error);
    if (ok) {
        Plan plan = first_plan(bag, pattern);
        if (bag_slot(bag, plan.slot))
            session_begin(session, &event, bag, pattern, &plan);
        else
            ok = error_set(error, "no ball of this bag is in a slot: give one ball \"slot\": 1");
    }
    free(bag);
    free(pattern);
    return ok;
}

static int load_themes(Theme *themes)
{
    int count = 0;
    Error ignored = {0};
    if (files_theme("dark", &themes[0], &ignored))
        count = 1;
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind && count < THEMES_MAX; file++)
        if (strcmp(file->kind, "themes") == 0 && strcmp(file->id, "dark") != 0 &&
            files_theme(file->id, &themes[count], &ignored))
            count++;
    return count;
}

static int run_screen(const char *event_name)
{
    Error error = {0};
    char notice[256] = "";
    int status = 1;
    Theme themes[THEMES_MAX];
    Session *session = calloc(1, sizeof *session);
    RuleSet *rules = calloc(1, sizeof *rules);
    Journal *journal = NULL;
    if (!session || !rules) {
        fputs("settee: out of memory\n", stderr);
    } else if (!load(event_name, session, rules, &error) ||
               !(journal = journal_open(session, notice, sizeof notice, &error))) {
        status = fault(&error);
    } else {
        UiHost host = {.session = session,
                       .rules = rules,
                       .themes = themes,
                       .theme_count = load_themes(themes),
                       .notice = notice,
                       .keep = keep,
                       .context = journal};
        status = ui_run(&host);
    }
    if (journal)
        journal_close(journal);
    free(rules);
    free(session);
    return status;
}

int main(int argc, char **argv)
{
    setlocale(LC_CTYPE, ""); /* numbers stay in the C locale */
    if (argc > 1 && (cli_knows(argv[1]) || argv[1][0] == '-'))
        return cli_run(argc, argv);
    if (argc > 2) {
        fputs("settee: one event at most; see settee help\n", stderr);
        return 2;
    }
    return run_screen(argc > 1 ? argv[1] : "demo");
}
