/* cmd_rehearse_history.c - settee rehearse --history: what decisions cost, by pattern. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "cli/cmd.h"
#include "store/rehearsals.h"

enum { ROWS_MAX = 256 };

static int faults;
static void say_fault(const Error *error) { faults += cmd_fault(1, error); }

static void json_mean(JsonOut *json, const char *key, const CostMean *mean)
{
    json_out_object(json, key);
    json_out_rounded(json, "mean", mean->mean, 3);
    json_out_rounded(json, "low", mean->low, 3);
    json_out_rounded(json, "high", mean->high, 3);
    json_out_end(json);
}

static int history_json(const ProgressRow *rows, int count)
{
    JsonOut json = json_out_start();
    json_out_object(&json, NULL);
    json_out_array(&json, "patterns");
    for (int i = 0; i < count; i++) {
        const ProgressRow *row = &rows[i];
        json_out_object(&json, NULL);
        json_out_string(&json, "bowler", row->bowler);
        json_out_string(&json, "player", row->player);
        json_out_string(&json, "pattern", row->pattern);
        json_out_rounded(&json, "length_ft", row->length_ft, 3);
        json_out_integer(&json, "rehearsals", row->blocks);
        json_out_integer(&json, "games", row->games);
        json_out_rounded(&json, "average", row->score, 2);
        json_mean(&json, "cost", &row->cost[JUDGE_LANE]);
        json_mean(&json, "cost_as_known", &row->cost[JUDGE_BELIEF]);
        json_mean(&json, "change_as_known", &row->change);
        json_out_end(&json);
    }
    json_out_end(&json);
    json_out_end(&json);
    return cmd_json(&json);
}

static void print_mean(const CostMean *mean, int width)
{
    char range[48] = "-";
    if (!isnan(mean->low))
        snprintf(range, sizeof range, "%.1f to %.1f", mean->low, mean->high);
    print_number(mean->mean, 6, 1);
    printf("  %-*s", width, range);
}

static void print_history(const ProgressRow *rows, int count)
{
    puts("bowler         player       pattern        games  average   cost  95 %           change "
         " 95 %");
    for (int i = 0; i < count; i++) {
        const ProgressRow *row = &rows[i];
        print_cell(row->bowler, 13);
        fputs("  ", stdout);
        print_cell(row->player, 11);
        fputs("  ", stdout);
        print_cell(row->pattern, 13);
        printf("  %5d  %7.1f ", row->games, row->score);
        print_mean(&row->cost[JUDGE_BELIEF], 13);
        printf("  ");
        print_mean(&row->change, 0);
        putchar('\n');
    }
    putchar('\n');
    print_wrapped(
        "Cost: pins a game that decisions cost against the best by what had been seen, with "
        "its 95 % confidence interval. Change: the later half of the games less the "
        "earlier half; under 0 decisions got cheaper, and where its interval holds 0 "
        "these games can't tell.",
        0);
}

int cmd_rehearse_history(const Options *options)
{
    static ProgressRow rows[ROWS_MAX];
    Error error = {0};
    int count, row_count, status;
    faults = 0;
    RehearsalRecord *records = rehearsals_read(&count, say_fault, &error);
    if (count < 0)
        return cmd_fault(CMD_FAULT, &error);
    row_count = progress_rows(records, count, rows, ROWS_MAX);
    free(records);
    if (options->json)
        status = history_json(rows, row_count);
    else if (row_count == 0)
        status = faults ? CMD_FAULT : cmd_say(CMD_FAULT, "no rehearsal was kept yet");
    else {
        print_history(rows, row_count);
        status = CMD_DONE;
    }
    return faults ? CMD_FAULT : status;
}
