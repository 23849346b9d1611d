/* progress.h - what rehearsals came to, and by pattern whether decisions get cheaper. Pure. */
#ifndef SETTEE_CORE_REHEARSE_PROGRESS_H
#define SETTEE_CORE_REHEARSE_PROGRESS_H

#include "core/event/session.h"
#include "core/rehearse/judge.h"

typedef struct RecordGame {
    int score;
    /* Mean scores as chosen and with the best decisions (judge.h): on that lane, and by what had
     * been seen. */
    double expected, best, expected_as_known, best_as_known;
} RecordGame;

/* One rehearsal, as it is kept. */
typedef struct RehearsalRecord {
    char date[16]; /* 2026-05-17, or "" */
    char bowler[48];
    char player[32]; /* who chose; "you": the bowler */
    char pattern[64];
    double length_ft;
    char world[32];
    double seed; /* a whole number */
    int bowlers_on_pair, practice;
    bool steady;
    int help; /* answers that were looked at */
    int games;
    RecordGame game[SESSION_GAMES_MAX];
} RehearsalRecord;

#define RECORD_YOU "you"

/* Of a block that was played and judged to its end; date, player and help are the caller's. */
void record_of(const RehearseSetup *setup, const Rehearsal *block, const Judgement *judgement,
               RehearsalRecord *record);

/* Pins of the mean score that decisions cost in a game. */
double record_cost(const RecordGame *game, JudgeKind kind);

/* A mean with its 95 % confidence interval; NAN where one game says nothing of it. */
typedef struct CostMean {
    double mean, low, high;
} CostMean;

/* What one player did on one pattern. */
typedef struct ProgressRow {
    char bowler[48], player[32], pattern[64];
    double length_ft;
    int blocks, games;
    double score; /* mean */
    CostMean cost[JUDGE_KINDS];
    CostMean change; /* by what was known: of the later half of the games less the earlier half;
                      * lower than 0: decisions got cheaper. NAN under four games */
} ProgressRow;

/* A row for each bowler, player and pattern, in the order they first came; `records` oldest first.
 * Returns how many, at most `max`. */
int progress_rows(const RehearsalRecord *records, int count, ProgressRow *rows, int max);

/* The factor of a mean's standard error for its 95 % confidence interval, from a sample with that
 * many degrees of freedom, 1 or more: Student's t (to within 0.005). */
double progress_t95(int freedom);

#endif
