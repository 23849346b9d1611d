/* cmd_rehearse.c - a block against a hidden lane, shot by shot. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "cli/rehearsal.h"
#include "store/files.h"
#include "store/rehearsals.h"

enum { USUAL_GAMES = 3, USUAL_BOWLERS = 4, DEAREST = 3 };
#define LEAST_DEAR 0.05 /* pins; what costs less is not told */

static void add_named(JsonOut *json, const char *name, const char *sentence)
{
    json_out_object(json, NULL);
    json_out_string(json, "name", name);
    json_out_string(json, "sentence", sentence);
    json_out_end(json);
}

/* Worlds and players by name, each with its sentence. */
static int list_all(bool as_json)
{
    if (!as_json) {
        puts("Worlds");
        for (const World *const *world = WORLDS; *world; world++)
            printf("  %-15s %s\n", (*world)->name, (*world)->sentence);
        puts("\nPlayers");
        for (const Player *const *player = PLAYERS; *player; player++)
            printf("  %-15s %s\n", (*player)->name, (*player)->sentence);
        return CMD_DONE;
    }
    JsonOut json = json_out_start();
    json_out_object(&json, NULL);
    json_out_array(&json, "worlds");
    for (const World *const *world = WORLDS; *world; world++)
        add_named(&json, (*world)->name, (*world)->sentence);
    json_out_end(&json);
    json_out_array(&json, "players");
    for (const Player *const *player = PLAYERS; *player; player++)
        add_named(&json, (*player)->name, (*player)->sentence);
    json_out_end(&json);
    json_out_end(&json);
    return cmd_json(&json);
}

/* "hold, rules or advisor" of the names seen so far, one more. */
static void add_name(char *out, size_t size, const char *name, bool last)
{
    text_append(out, size, "%s%s", !out[0] ? "" : last ? " or " : ", ", name);
}

/* The player and the world that were asked for; false, said, when there is none of that name. */
static bool read_names(const Options *options, RehearseSetup *plan)
{
    char names[256] = "";
    plan->player = options->player ? player_find(options->player) : &PLAYER_ADVISOR;
    plan->world = options->world ? world_find(options->world) : &WORLD_KIN;
    if (!plan->player) {
        for (const Player *const *player = PLAYERS; *player; player++)
            add_name(names, sizeof names, (*player)->name, !player[1]);
        cmd_say(CMD_USAGE, "--player is %s, not \"%s\"", names, options->player);
    } else if (!plan->world) {
        for (const World *const *world = WORLDS; *world; world++)
            add_name(names, sizeof names, (*world)->name, !world[1]);
        cmd_say(CMD_USAGE, "--world is %s, not \"%s\"", names, options->world);
    }
    return plan->player && plan->world;
}

/* What a judge has to say of it, and how others did on the same block. */
static bool judge(RehearsalReport *report, Judgement *judgement, RehearseJob *others)
{
    static const Player *const OTHERS[SAME_BLOCK_MAX] = {&PLAYER_HOLD, &PLAYER_ADVISOR};
    JudgeJob *job = judge_new();
    Rehearsal *block = malloc(sizeof *block);
    Oil *lane = malloc(sizeof *lane);
    bool done = job && block && lane;
    if (done) {
        judge_begin(job, report->setup, report->block, judgement);
        while (!judge_step(job))
            ;
        report->judgement = judgement;
        report->dearest_count = judge_dearest(judgement, LEAST_DEAR, report->dearest, DEAREST);
        for (int k = 0; k < report->dearest_count; k++) {
            judge_lane(job, report->setup, report->block, report->dearest[k], lane);
            for (int b = 0; b < LANE_BOARDS; b++)
                report->film[k][b] = rehearse_film(lane, b + 1, b + 1);
        }
        for (int i = 0; i < SAME_BLOCK_MAX; i++) {
            if (OTHERS[i] == report->setup->player)
                continue;
            RehearseSetup setup = *report->setup;
            setup.player = OTHERS[i];
            rehearse_play(others, &setup, block);
            report->same[report->same_count++] = (SameBlock){OTHERS[i], block->mean_pins};
        }
    }
    judge_free(job);
    free(block);
    free(lane);
    return done;
}

/* Keeps a judged block for the history. */
static int keep(const RehearsalReport *report, const char *date)
{
    RehearsalRecord record;
    Error error = {0};
    char path[1200];
    record_of(report->setup, report->block, report->judgement, &record);
    text_copy(record.player, sizeof record.player, report->setup->player->name);
    if (date)
        text_copy(record.date, sizeof record.date, date);
    else
        cmd_today(record.date, sizeof record.date);
    if (!rehearsals_keep(&record, path, sizeof path, &error))
        return cmd_fault(CMD_FAULT, &error);
    return CMD_DONE;
}

static int play(const RehearseSetup *plan, const Options *options, const Oil *sheet)
{
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    Judgement *judgement = malloc(sizeof *judgement);
    RehearsalReport report = {.setup = plan, .block = out, .world_said = options->world != NULL};
    int status = CMD_DONE;
    for (int b = 0; b < LANE_BOARDS; b++)
        report.sheet[b] = rehearse_film(sheet, b + 1, b + 1);
    if (job && out)
        rehearse_play(job, plan, out);
    if (!job || !out ||
        ((options->costs || options->keep) && (!judgement || !judge(&report, judgement, job))))
        status = cmd_say(CMD_FAULT, "out of memory");
    else if (options->json)
        status = rehearsal_json(&report);
    else
        print_rehearsal(&report);
    if (status == CMD_DONE && options->keep)
        status = keep(&report, options->date);
    rehearse_free(job);
    free(out);
    free(judgement);
    return status;
}

int cmd_rehearse(const Options *options)
{
    static Setup setup;
    static RuleSet rules;
    Error error = {0};
    RehearseSetup plan = {.bag = &setup.bag,
                          .pattern = &setup.pattern,
                          .rules = &rules,
                          .games = options->games ? options->games : USUAL_GAMES,
                          .bowlers_on_pair = options->bowlers ? options->bowlers : USUAL_BOWLERS,
                          .practice = options->practice,
                          .sights = options->sights,
                          .steady = options->steady,
                          .seed = options->seed > 0 ? (uint64_t)options->seed : 1};
    if (options->list)
        return list_all(options->json);
    if (options->history)
        return cmd_rehearse_history(options);
    if (options->event)
        return cmd_rehearse_event(options);
    if (options->date && !files_date(options->date))
        return cmd_say(CMD_USAGE, "--date: found '%.40s'; allowed is a day as 2026-05-17",
                       options->date);
    if (options->from || options->draws || options->slot || !isnan(options->stance) ||
        !isnan(options->aim))
        return cmd_say(CMD_USAGE, "--from, --draws, --slot, --stance and --aim go with --event");
    if (!read_names(options, &plan))
        return CMD_USAGE;
    int read = setup_read(options, &setup);
    if (read != CMD_DONE)
        return read;
    if (!files_rules("coach", &rules, &error))
        return cmd_fault(CMD_FAULT, &error);
    if (!bag_filled(&setup.bag))
        return cmd_say(CMD_FAULT, "no ball of this bag is in a slot");
    return play(&plan, options, &setup.oil);
}
