/* judge.h - what each decision of a block cost, in pins of the mean score.
 *
 * Two judges, since a bowler can't know the lane. One knows it and searches every ball and line;
 * the other knows what had been seen until then, as the advice does, so that bad luck is no mistake
 * to it. Each puts a number on what was chosen and on the best there was (odds.h); a game's costs
 * add up to the difference between its mean score as chosen and with the best of each. The block is
 * played again from its throws, so nothing is computed while it is bowled. A job in slices; pure.
 */
#ifndef SETTEE_CORE_REHEARSE_JUDGE_H
#define SETTEE_CORE_REHEARSE_JUDGE_H

#include "core/rehearse/odds.h"
#include "core/rehearse/rehearse.h"

typedef enum JudgeKind { JUDGE_LANE, JUDGE_BELIEF, JUDGE_KINDS } JudgeKind;

/* A decision before one judge. */
typedef struct Judged {
    Plan better; /* the best it found, or what was chosen */
    Outlook as_chosen, as_better;
    Odds chosen, best;
    double cost; /* pins; NAN until its game is judged to the end, and where it was left out */
} Judged;

typedef struct Decision {
    Judged by[JUDGE_KINDS];
    double film; /* where the ball went, from 15 to 35 ft: film against the sheet's, 1: as much */
    bool same_line; /* the lane's last plan was thrown again */
} Decision;

typedef struct JudgedGame {
    double mean[JUDGE_KINDS], best[JUDGE_KINDS]; /* mean score as chosen, and at best */
} JudgedGame;

typedef struct Judgement {
    int count;                              /* decisions judged so far, from the first */
    Decision decisions[REHEARSE_SHOTS_MAX]; /* one for each of the rehearsal's shots */
    int games;                              /* judged to the end */
    JudgedGame game[SESSION_GAMES_MAX];
} Judgement;

typedef struct JudgeJob JudgeJob;
JudgeJob *judge_new(void); /* heap, owned by the caller; NULL when out of memory */
void judge_free(JudgeJob *job);

/* `setup`, `played` and `out` must outlive the job's steps; the setup's known_off_boards must be 0.
 * `played` may still grow. */
void judge_begin(JudgeJob *job, const RehearseSetup *setup, const Rehearsal *played,
                 Judgement *out);

/* Leaves out what had been seen, which takes most of the time: only the judge that knows the lane
 * then says anything. Right after judge_begin. */
void judge_lane_alone(JudgeJob *job);

/* One slice, a few milliseconds; true when all that was played so far is judged. */
bool judge_step(JudgeJob *job);

/* Pins a game that the decisions of the judged games cost. */
double judge_cost(const Judgement *judgement, JudgeKind kind);

/* The dearest decisions before the judge that knows the lane: indices, dearest first, those that
 * cost `least` pins or more. Returns how many, at most `max`. */
int judge_dearest(const Judgement *judgement, double least, int *indices, int max);

/* Why the better line was better, in a sentence or two. */
void judge_why(const Decision *decision, char *out, size_t size);

/* The hidden lane just before that shot of the block, in the bowler's frame. Ends what the job was
 * judging. */
void judge_lane(JudgeJob *job, const RehearseSetup *setup, const Rehearsal *played, int shot,
                Oil *lane);

#endif
