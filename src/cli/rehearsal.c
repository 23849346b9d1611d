/* rehearsal.c - see rehearsal.h. */
#include "cli/rehearsal.h"

#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/rehearse/seed.h"

static void json_plan(JsonOut *json, const char *key, const Plan *plan, const Outlook *outlook)
{
    json_out_object(json, key);
    json_out_integer(json, "slot", plan->slot);
    json_out_rounded(json, "stance", plan->stance, 2);
    json_out_rounded(json, "aim", plan->aim, 2);
    json_out_rounded(json, "mph_change", plan->mph_change, 2);
    json_out_rounded(json, "strike", outlook->strike, 4);
    json_out_rounded(json, "hit_board", outlook->board, 2);
    json_out_end(json);
}

/* Members of a decision's object. */
static void json_decision(JsonOut *json, const Decision *decision)
{
    const Judged *lane = &decision->by[JUDGE_LANE], *belief = &decision->by[JUDGE_BELIEF];
    json_out_rounded(json, "cost", lane->cost, 3);
    json_out_rounded(json, "cost_as_known", belief->cost, 3);
    json_plan(json, "better", &lane->better, &lane->as_better);
    json_plan(json, "better_as_known", &belief->better, &belief->as_better);
}

static void json_dearest(JsonOut *json, const RehearsalReport *report)
{
    char why[240];
    json_out_array(json, "dearest");
    for (int k = 0; k < report->dearest_count; k++) {
        int i = report->dearest[k];
        const Decision *decision = &report->judgement->decisions[i];
        judge_why(decision, why, sizeof why);
        json_out_object(json, NULL);
        json_out_integer(json, "decision", i + 1);
        json_out_string(json, "why", why);
        json_out_rounded(json, "film_of_sheet", decision->film, 3);
        json_out_array(json, "film");
        for (int b = 0; b < LANE_BOARDS; b++)
            json_out_rounded(json, NULL, report->film[k][b], 2);
        json_out_end(json);
        json_out_end(json);
    }
    json_out_end(json);
}

static void json_costs(JsonOut *json, const RehearsalReport *report)
{
    const Judgement *judgement = report->judgement;
    json_out_rounded(json, "cost", judge_cost(judgement, JUDGE_LANE), 3);
    json_out_rounded(json, "cost_as_known", judge_cost(judgement, JUDGE_BELIEF), 3);
    json_out_array(json, "expected");
    for (int i = 0; i < judgement->games; i++) {
        const JudgedGame *game = &judgement->game[i];
        json_out_object(json, NULL);
        json_out_rounded(json, "chosen", game->mean[JUDGE_LANE], 3);
        json_out_rounded(json, "best", game->best[JUDGE_LANE], 3);
        json_out_rounded(json, "chosen_as_known", game->mean[JUDGE_BELIEF], 3);
        json_out_rounded(json, "best_as_known", game->best[JUDGE_BELIEF], 3);
        json_out_end(json);
    }
    json_out_end(json);
    json_dearest(json, report);
    json_out_array(json, "same_block");
    for (int i = 0; i < report->same_count; i++) {
        json_out_object(json, NULL);
        json_out_string(json, "player", report->same[i].player->name);
        json_out_rounded(json, "mean_pins", report->same[i].mean_pins, 2);
        json_out_end(json);
    }
    json_out_end(json);
}

static void json_shot(JsonOut *json, const RehearseShot *s, const Decision *decision)
{
    json_out_object(json, NULL);
    json_out_integer(json, "game", s->game);
    json_out_integer(json, "frame", s->frame);
    json_out_string(json, "lane", SIDE_NAMES[s->shot.lane]);
    json_out_string(json, "action", ADJUST_NAMES[s->kind]);
    json_out_integer(json, "slot", s->shot.slot);
    json_out_rounded(json, "stance", s->shot.stance, 2);
    json_out_rounded(json, "aim", s->shot.aim, 2);
    json_out_rounded(json, "stated_pocket", s->stated, 4);
    json_out_rounded(json, "worth", s->value, 4);
    json_out_string(json, "hit", HIT_NAMES[s->shot.hit]);
    json_out_string(json, "read", READ_NAMES[s->shot.read]);
    json_out_string(json, "release", RELEASE_NAMES[s->shot.release]);
    json_out_rounded(json, "board", s->board, 2);
    json_out_bool(json, "strike", s->strike);
    if (decision)
        json_decision(json, decision);
    json_out_end(json);
}

int rehearsal_json(const RehearsalReport *report)
{
    const Rehearsal *block = report->block;
    char words[SEED_TEXT_MAX];
    JsonOut json = json_out_start();
    json_out_object(&json, NULL);
    json_out_string(&json, "player", report->setup->player->name);
    if (report->world_said)
        json_out_string(&json, "world", report->setup->world->name);
    json_out_integer(&json, "seed", (long)report->setup->seed);
    seed_text(report->setup->seed, words);
    json_out_string(&json, "seed_words", words);
    json_out_integer(&json, "practice", report->setup->practice);
    json_out_rounded(&json, "mean_pins", block->mean_pins, 2);
    json_out_array(&json, "games");
    for (int i = 0; i < block->games; i++)
        json_out_integer(&json, NULL, block->score[i]);
    json_out_end(&json);
    json_out_rounded(&json, "strikes", (double)block->strikes / block->shot_count, 4);
    json_out_rounded(&json, "pocket", (double)block->pockets / block->shot_count, 4);
    json_out_rounded(&json, "worth", block->value, 4);
    if (report->judgement)
        json_costs(&json, report);
    json_out_array(&json, "decisions");
    for (int i = 0; i < block->shot_count; i++)
        json_shot(&json, &block->shots[i],
                  report->judgement ? &report->judgement->decisions[i] : NULL);
    json_out_end(&json);
    json_out_end(&json);
    return cmd_json(&json);
}

static void print_shots(const RehearsalReport *report)
{
    const Rehearsal *out = report->block;
    printf("game frame lane   ball  feet   aim  what was done    hit      read     worth%s\n",
           report->judgement ? "     cost" : "");
    for (int i = 0; i < out->shot_count; i++) {
        const RehearseShot *s = &out->shots[i];
        const char *strike = s->strike ? "  X" : "";
        printf("%4d %5d %-5s %5d %5.1f %5.1f  %-15s  %-7s  %-7s  %3.0f %%", s->game, s->frame,
               SIDE_NAMES[s->shot.lane], s->shot.slot, s->shot.stance, s->shot.aim,
               ADJUST_WORDS[s->kind], HIT_NAMES[s->shot.hit], READ_NAMES[s->shot.read],
               100.0 * s->value);
        if (report->judgement)
            printf("%-3s %5.1f\n", strike, report->judgement->decisions[i].by[JUDGE_LANE].cost);
        else
            printf("%s\n", strike);
    }
}

/* "3 Cobble Tenor, feet 27, eyes 14.5" */
static void say_line(const Bag *bag, const Plan *plan, char *out, size_t size)
{
    const Ball *ball = bag_slot(bag, plan->slot);
    out[0] = '\0';
    text_append(out, size, "%d %s, feet %.1f, aim %.1f", plan->slot, ball ? ball->name : "",
                plan->stance, plan->aim);
    if (plan->mph_change != 0.0)
        text_append(out, size, ", %+.1f mph", plan->mph_change);
}

/* Mean oil of five boards at a time, as a share of the sheet's. */
static void print_film(const RehearsalReport *report, int k)
{
    fputs("   oil, 15 to 35 ft, against the sheet:", stdout);
    for (int low = 0; low < 20; low += 5) {
        double lane = 0.0, sheet = 0.0;
        for (int b = low; b < low + 5; b++) {
            lane += report->film[k][b];
            sheet += report->sheet[b];
        }
        printf("  %d-%d %.0f %%", low + 1, low + 5, sheet > 0.0 ? 100.0 * lane / sheet : 0.0);
    }
    putchar('\n');
}

static void print_dearest(const RehearsalReport *report)
{
    char line[160], why[240];
    if (report->dearest_count > 0)
        puts("\nThe dearest decisions");
    for (int k = 0; k < report->dearest_count; k++) {
        const Decision *decision = &report->judgement->decisions[report->dearest[k]];
        const RehearseShot *s = &report->block->shots[report->dearest[k]];
        Plan own = shot_plan(&s->shot);
        printf("%d. Game %d, frame %d, %s lane: %.1f pins, %.1f by what you knew\n", k + 1, s->game,
               s->frame, SIDE_NAMES[s->shot.lane], decision->by[JUDGE_LANE].cost,
               decision->by[JUDGE_BELIEF].cost);
        say_line(report->setup->bag, &own, line, sizeof line);
        printf("   yours:  %s\n", line);
        say_line(report->setup->bag, &decision->by[JUDGE_LANE].better, line, sizeof line);
        printf("   better: %s\n", line);
        print_film(report, k);
        judge_why(decision, why, sizeof why);
        print_wrapped(why, 3);
    }
}

static void print_costs(const RehearsalReport *report)
{
    const Judgement *judgement = report->judgement;
    double mean = 0.0, best = 0.0;
    for (int i = 0; i < judgement->games; i++) {
        mean += judgement->game[i].mean[JUDGE_LANE] / judgement->games;
        best += judgement->game[i].best[JUDGE_LANE] / judgement->games;
    }
    printf("\nPins a game\n"
           "  %6.1f  the best ball and line each time, on average\n"
           "  %6.1f  what your decisions cost\n"
           "  %6.1f  your decisions, on average\n"
           "  %+6.1f  your releases, the racks and the spares\n"
           "  %6.1f  what you bowled\n",
           best, mean - best, mean, report->block->mean_pins - mean, report->block->mean_pins);
    printf("Against the best you could know at the time they cost %.1f.\n",
           judge_cost(judgement, JUDGE_BELIEF));
    for (int i = 0; i < report->same_count; i++)
        printf("%s %s bowled %.1f", i == 0 ? "On the same block" : " and",
               report->same[i].player->name, report->same[i].mean_pins);
    puts(report->same_count > 0 ? "." : "");
    print_dearest(report);
}

void print_rehearsal(const RehearsalReport *report)
{
    const Rehearsal *out = report->block;
    const RehearseSetup *plan = report->setup;
    char words[SEED_TEXT_MAX];
    seed_text(plan->seed, words);
    printf("%s on %s, %g ft: player %s", plan->bag->bowler.name, plan->pattern->name,
           plan->pattern->length_ft, plan->player->name);
    if (report->world_said)
        printf(", world %s", plan->world->name);
    puts("\n");
    print_shots(report);
    printf("\nGames  ");
    for (int i = 0; i < out->games; i++)
        printf(" %d", out->score[i]);
    printf("\nMean    %.1f; pocket %.0f %%, strikes %.0f %%\n", out->mean_pins,
           100.0 * out->pockets / out->shot_count, 100.0 * out->strikes / out->shot_count);
    printf("Worth   %.0f %%: chance of a strike with the chosen throws, on the hidden lane\n",
           100.0 * out->value);
    printf("Block   %s: --seed %s is the same lane and the same luck\n", words, words);
    if (report->judgement)
        print_costs(report);
}
