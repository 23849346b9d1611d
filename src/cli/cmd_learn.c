/* cmd_learn.c - settee learn: what the events of a bag say of its numbers; taking one over, and
 * back. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/motion/measure.h"
#include "store/files.h"
#include "store/learn.h"

/* A number as the command calls it: speed, scatter, or the ball's id. */
static const char *called(const Bag *bag, const LearntValue *value)
{
    return value->kind == LEARNT_MPH       ? "speed"
           : value->kind == LEARNT_SCATTER ? "scatter"
                                           : bag->balls[value->ball].id;
}

/* The number of that name as the bag has it. False: it is not one of those that can be learnt. */
static bool find(const Bag *bag, const char *what, LearntKind *kind, int *ball)
{
    *kind = strcmp(what, "speed") == 0     ? LEARNT_MPH
            : strcmp(what, "scatter") == 0 ? LEARNT_SCATTER
                                           : LEARNT_BALL;
    for (*ball = 0; *kind == LEARNT_BALL && *ball < bag->count; ++*ball)
        if (strcmp(bag->balls[*ball].id, what) == 0)
            return true;
    return *kind != LEARNT_BALL;
}

/* What stood in the bag before it was learnt. */
static double before(const Bag *bag, LearntKind kind, int ball)
{
    return kind == LEARNT_MPH       ? bag->bowler.before.mph
           : kind == LEARNT_SCATTER ? measure_scatter_at_arrows(&bag->bowler.before.scatter)
                                    : bag->balls[ball].strength_before;
}

static double now(const Bag *bag, LearntKind kind, int ball)
{
    return kind == LEARNT_MPH       ? bag->bowler.mph
           : kind == LEARNT_SCATTER ? measure_scatter_at_arrows(&bag->bowler.scatter)
                                    : bag->balls[ball].cover_strength;
}

/* ---- for people ---- */

static void print_offered(const Bag *bag, const LearntValue *value)
{
    char words[200], line[300] = "";
    learnt_words(value, bag, words, sizeof words);
    text_append(line, sizeof line, "%s 95 %% confidence interval: %.1f to %.1f %s.", words,
                value->low, value->high, value->kind == LEARNT_MPH ? "mph" : "boards");
    print_entry(called(bag, value), line, 12);
}

static void print_taken(const Bag *bag, LearntKind kind, int ball)
{
    char line[160] = "";
    if (!taken_is(bag, kind, ball))
        return;
    text_append(line, sizeof line, "%s %.4g is learnt; before, it was %.4g.",
                kind == LEARNT_MPH       ? "Speed"
                : kind == LEARNT_SCATTER ? "Scatter"
                                         : "Cover strength",
                now(bag, kind, ball), before(bag, kind, ball));
    print_entry(kind == LEARNT_MPH       ? "speed"
                : kind == LEARNT_SCATTER ? "scatter"
                                         : bag->balls[ball].id,
                line, 12);
}

static void print_all(const char *name, const Learn *learn)
{
    LearntValue values[LEARNT_MAX];
    const Bag *bag = learn_bag(learn);
    int count = learn_values(learn, values), offered = 0, taken = 0;
    char same[512] = "", line[600] = "";
    if (learn_events(learn) < LEARNT_EVENTS_LEAST)
        text_append(
            line, sizeof line,
            "%d event%s with scored shots %s bowled with this bag; %d are needed before they "
            "say anything of its numbers.",
            learn_events(learn), learn_events(learn) == 1 ? "" : "s",
            learn_events(learn) == 1 ? "was" : "were", LEARNT_EVENTS_LEAST);
    else
        text_append(line, sizeof line,
                    "What the last %d events say of the numbers in bag %s:", learn_events(learn),
                    name);
    print_wrapped(line, 0);
    for (int i = 0; i < count; i++) {
        offered += values[i].offered;
        if (values[i].offered)
            print_offered(bag, &values[i]);
        else
            text_append(same, sizeof same, "%s%s", same[0] ? ", " : "", called(bag, &values[i]));
    }
    print_taken(bag, LEARNT_MPH, 0);
    print_taken(bag, LEARNT_SCATTER, 0);
    for (int i = 0; i < bag->count; i++)
        print_taken(bag, LEARNT_BALL, i);
    taken = taken_is(bag, LEARNT_MPH, 0) + taken_is(bag, LEARNT_SCATTER, 0);
    for (int i = 0; i < bag->count; i++)
        taken += taken_is(bag, LEARNT_BALL, i);
    line[0] = '\0';
    text_append(line, sizeof line, "No clear difference: %s.", same);
    if (same[0])
        print_wrapped(line, 0);
    if (offered > 0)
        printf("Take one over: settee learn %s take WHAT. Nothing changes unless you do.\n", name);
    if (taken > 0)
        printf("Put back what was there before: settee learn %s back WHAT.\n", name);
}

/* ---- JSON ---- */

static void value_json(JsonOut *out, const Bag *bag, const LearntValue *value)
{
    bool ball = value->kind == LEARNT_BALL;
    json_out_object(out, NULL);
    json_out_string(out, "what", called(bag, value));
    json_out_string(out, "kind",
                    value->kind == LEARNT_MPH       ? "speed"
                    : value->kind == LEARNT_SCATTER ? "scatter"
                                                    : "ball");
    json_out_string(out, "unit",
                    value->kind == LEARNT_MPH       ? "mph"
                    : value->kind == LEARNT_SCATTER ? "boards"
                                                    : "cover_strength");
    json_out_rounded(out, "now", value->now, 4);
    json_out_rounded(out, "learnt", value->to, 4);
    if (ball)
        json_out_rounded(out, "hits_higher_boards", value->boards, 3);
    json_out_rounded(out, "low", value->low, 3);
    json_out_rounded(out, "high", value->high, 3);
    json_out_integer(out, "shots", value->shots);
    json_out_integer(out, "events", value->events);
    json_out_bool(out, "offered", value->offered);
    json_out_end(out);
}

static void taken_json(JsonOut *out, const Bag *bag, LearntKind kind, int ball)
{
    const LearntValue value = {.kind = kind, .ball = ball};
    if (!taken_is(bag, kind, ball))
        return;
    json_out_object(out, NULL);
    json_out_string(out, "what", called(bag, &value));
    json_out_rounded(out, "now", now(bag, kind, ball), 4);
    json_out_rounded(out, "before", before(bag, kind, ball), 4);
    json_out_end(out);
}

static int print_json(const char *name, const Learn *learn)
{
    LearntValue values[LEARNT_MAX];
    const Bag *bag = learn_bag(learn);
    int count = learn_values(learn, values);
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "bag", name);
    json_out_string(&out, "bowler", bag->bowler.name);
    json_out_integer(&out, "events", learn_events(learn));
    json_out_array(&out, "values");
    for (int i = 0; i < count; i++)
        value_json(&out, bag, &values[i]);
    json_out_end(&out);
    json_out_array(&out, "taken_over");
    taken_json(&out, bag, LEARNT_MPH, 0);
    taken_json(&out, bag, LEARNT_SCATTER, 0);
    for (int i = 0; i < bag->count; i++)
        taken_json(&out, bag, LEARNT_BALL, i);
    json_out_end(&out);
    json_out_end(&out);
    return cmd_json(&out);
}

/* ---- the command ---- */

static void all_of_it(Learn *learn)
{
    while (learn_step(learn))
        ;
}

/* Puts the learnt number into the bag, if it is offered. */
static bool take(Learn *learn, Bag *bag, LearntKind kind, int ball, Error *error)
{
    LearntValue values[LEARNT_MAX];
    all_of_it(learn);
    if (learn_events(learn) < LEARNT_EVENTS_LEAST)
        return error_set(
            error, "there is nothing to take over: %d event%s with this bag, %d needed",
            learn_events(learn), learn_events(learn) == 1 ? "" : "s", LEARNT_EVENTS_LEAST);
    int count = learn_values(learn, values);
    for (int i = 0; i < count; i++)
        if (values[i].kind == kind && (kind != LEARNT_BALL || values[i].ball == ball) &&
            values[i].offered) {
            learnt_take(&values[i], bag);
            return true;
        }
    return error_set(error, "there is nothing to take over: the events show no clear difference");
}

static int change(const Options *options, Learn *learn, bool over)
{
    const char *name = options->words[0], *what = options->words[2];
    LearntKind kind;
    Bag bag;
    BagFile file;
    Error error = {0};
    int ball;
    if (!files_bag_open(name, &bag, &file, &error))
        return cmd_fault(CMD_FAULT, &error);
    if (!find(&bag, what, &kind, &ball))
        return cmd_say(CMD_USAGE, "found '%.40s'; allowed: speed, scatter or the id of a ball",
                       what);
    bool done = over ? take(learn, &bag, kind, ball, &error)
                     : taken_back(&bag, kind, ball) ||
                           error_set(&error, "there is nothing to put back: it was not taken over");
    if (!done || !files_bag_keep(&file, &bag, &error))
        return cmd_fault(CMD_FAULT, &error);
    printf(over ? "%s: taken over, now %.4g; settee learn %s back %s puts back %.4g\n"
                : "%s: put back, now %.4g\n",
           what, now(&bag, kind, ball), name, what, before(&bag, kind, ball));
    return CMD_DONE;
}

int cmd_learn(const Options *options)
{
    const char *verb = options->word_count > 1 ? options->words[1] : "";
    bool over = strcmp(verb, "take") == 0, back = strcmp(verb, "back") == 0;
    Error error = {0};
    if (options->word_count == 0)
        return cmd_say(CMD_USAGE, "learn: name a bag: settee learn BAG");
    if (options->word_count > 1 && !(options->word_count == 3 && (over || back)))
        return cmd_say(CMD_USAGE, "learn: found '%.40s'; allowed: take WHAT or back WHAT", verb);
    Learn *learn = learn_new(options->words[0], &error);
    if (!learn)
        return cmd_fault(CMD_FAULT, &error);
    int status = CMD_DONE;
    if (over || back) {
        status = change(options, learn, over);
    } else {
        all_of_it(learn);
        if (options->json)
            status = print_json(options->words[0], learn);
        else
            print_all(options->words[0], learn);
    }
    learn_free(learn);
    return status;
}
