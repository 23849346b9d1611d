/* progress.c - see progress.h. */
#include "core/rehearse/progress.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

void record_of(const RehearseSetup *setup, const Rehearsal *block, const Judgement *judgement,
               RehearsalRecord *record)
{
    *record = (RehearsalRecord){.length_ft = setup->pattern->length_ft,
                                .seed = (double)setup->seed,
                                .bowlers_on_pair = setup->bowlers_on_pair,
                                .practice = setup->practice,
                                .steady = setup->steady,
                                .games = judgement->games};
    text_copy(record->bowler, sizeof record->bowler, setup->bag->bowler.name);
    text_copy(record->pattern, sizeof record->pattern, setup->pattern->name);
    text_copy(record->world, sizeof record->world, setup->world->name);
    for (int i = 0; i < judgement->games; i++) {
        const JudgedGame *game = &judgement->game[i];
        record->game[i] =
            (RecordGame){block->score[i], game->mean[JUDGE_LANE], game->best[JUDGE_LANE],
                         game->mean[JUDGE_BELIEF], game->best[JUDGE_BELIEF]};
    }
}

double record_cost(const RecordGame *game, JudgeKind kind)
{
    return kind == JUDGE_LANE ? game->best - game->expected
                              : game->best_as_known - game->expected_as_known;
}

double progress_t95(int freedom)
{
    /* exact for 1 and 2; then the expansion of Cornish and Fisher about the normal's 1.959964
     * (Abramowitz and Stegun 26.7.5, from memory) */
    const double z = 1.959963985, n = freedom;
    const double z3 = z * z * z, z5 = z3 * z * z, z7 = z5 * z * z, z9 = z7 * z * z;
    if (freedom <= 1)
        return 12.706205;
    if (freedom == 2)
        return 4.302653;
    return z + (z3 + z) / (4.0 * n) + (5.0 * z5 + 16.0 * z3 + 3.0 * z) / (96.0 * n * n) +
           (3.0 * z7 + 19.0 * z5 + 17.0 * z3 - 15.0 * z) / (384.0 * n * n * n) +
           (79.0 * z9 + 776.0 * z7 + 1482.0 * z5 - 1920.0 * z3 - 945.0 * z) /
               (92160.0 * n * n * n * n);
}

/* Counts, sums and squares, taken up one by one (Welford). */
typedef struct Sum {
    int count;
    double mean, squares;
} Sum;

static void sum_add(Sum *sum, double value)
{
    double by = value - sum->mean;
    sum->mean += by / ++sum->count;
    sum->squares += by * (value - sum->mean);
}

static CostMean mean_of(const Sum *sum)
{
    if (sum->count < 2)
        return (CostMean){sum->count ? sum->mean : NAN, NAN, NAN};
    double half = progress_t95(sum->count - 1) * sqrt(sum->squares / (sum->count - 1) / sum->count);
    return (CostMean){sum->mean, sum->mean - half, sum->mean + half};
}

/* Of two samples that scatter alike. */
static CostMean change_of(const Sum *earlier, const Sum *later)
{
    int freedom = earlier->count + later->count - 2;
    if (earlier->count < 2 || later->count < 2)
        return (CostMean){NAN, NAN, NAN};
    double variance = (earlier->squares + later->squares) / freedom,
           by = later->mean - earlier->mean;
    double half = progress_t95(freedom) * sqrt(variance / earlier->count + variance / later->count);
    return (CostMean){by, by - half, by + half};
}

static bool belongs(const RehearsalRecord *record, const ProgressRow *row)
{
    return strcmp(record->bowler, row->bowler) == 0 && strcmp(record->player, row->player) == 0 &&
           strcmp(record->pattern, row->pattern) == 0 && record->length_ft == row->length_ft;
}

static void sum_up(const RehearsalRecord *records, int count, ProgressRow *row)
{
    Sum cost[JUDGE_KINDS] = {{0}}, half[2] = {{0}};
    int at = 0;
    for (int i = 0; i < count; i++) {
        if (!belongs(&records[i], row))
            continue;
        for (int k = 0; k < records[i].games; k++, at++) {
            const RecordGame *game = &records[i].game[k];
            row->score += (double)game->score / row->games;
            for (int kind = 0; kind < JUDGE_KINDS; kind++)
                sum_add(&cost[kind], record_cost(game, (JudgeKind)kind));
            sum_add(&half[at >= row->games / 2], record_cost(game, JUDGE_BELIEF));
        }
    }
    for (int kind = 0; kind < JUDGE_KINDS; kind++)
        row->cost[kind] = mean_of(&cost[kind]);
    row->change = change_of(&half[0], &half[1]);
}

int progress_rows(const RehearsalRecord *records, int count, ProgressRow *rows, int max)
{
    int row_count = 0;
    for (int i = 0; i < count; i++) {
        int at = 0;
        while (at < row_count && !belongs(&records[i], &rows[at]))
            at++;
        if (at == max || records[i].games == 0)
            continue;
        if (at == row_count) {
            ProgressRow *row = &rows[row_count++];
            *row = (ProgressRow){.length_ft = records[i].length_ft};
            text_copy(row->bowler, sizeof row->bowler, records[i].bowler);
            text_copy(row->player, sizeof row->player, records[i].player);
            text_copy(row->pattern, sizeof row->pattern, records[i].pattern);
        }
        rows[at].blocks++;
        rows[at].games += records[i].games;
    }
    for (int i = 0; i < row_count; i++)
        sum_up(records, count, &rows[i]);
    return row_count;
}
