/* score.h - a game's score from the balls thrown so far: frames, running totals, the best still
 * possible, and what a target needs.
 *
 * Source: USBC rules 2a to 2g, IBF Universal Playing Rules 2.1.x. A foul is a ball with no pins:
 * the pins it knocked down are set up again. Pure; a Score is built ball by ball. */
#ifndef SETTEE_CORE_EVENT_SCORE_H
#define SETTEE_CORE_EVENT_SCORE_H

#include <stdbool.h>
#include <stddef.h>

#include "core/lane/lane.h"

enum { SCORE_FRAMES = 10, SCORE_BALLS_MAX = 21, SCORE_UNKNOWN = -1, SCORE_PERFECT = 300 };

typedef struct ScoreBall {
    int pins; /* knocked down, 0..10; 0 with a foul */
    bool foul;
    bool split;     /* left a split: stated, or seen from the pins it left */
    bool left_said; /* whether `left` is known */
    Pins left;      /* pins left standing, as numbered on the deck */
} ScoreBall;

/* The ball that turned `before` into `left`. */
ScoreBall score_ball_of(Pins before, Pins left);

typedef struct ScoreFrame {
    int first, balls;   /* index of its first ball, and how many were thrown so far */
    bool done;          /* no ball left to throw */
    bool strike, spare; /* with its first balls */
    bool split;         /* of any ball at a full rack */
    int score, total;   /* its own and the running total; SCORE_UNKNOWN until later balls decide */
} ScoreFrame;

typedef struct Score {
    int ball_count;
    ScoreBall balls[SCORE_BALLS_MAX];
    int frame_count; /* frames begun */
    ScoreFrame frames[SCORE_FRAMES];
    bool over;
    int frame, ball; /* of the next ball: 1..10 and 1..3 */
    int standing;    /* pins the next ball is thrown at */
    int total;       /* of the decided frames */
    int pins_so_far; /* final score if no more pins fall */
    int best;        /* final score if every ball from here takes all */
} Score;

/* An empty game: total 0, best 300. */
Score score_begin(void);

/* Adds one ball. False, with the reason in `why` ("frame 3, ball 2: 7 pins, but only 6 stand"), if
 * the rules don't allow it: then nothing has changed. */
bool score_add(Score *score, ScoreBall ball, char *why, size_t size);

/* Adds the balls of a line as written on a score sheet: X / - F (or lower case) and 0 to 9, with or
 * without spaces; an s after a ball: it left a split; a colon and pins (8:7-10, 0 for the ten):
 * what it left. False with `why`: the balls before the fault have been added. */
bool score_read(Score *score, const char *text, char *why, size_t size);

/* Ball `index` as a score sheet shows it: "X", "7", "/", "-", "F", followed by an s for a split. */
void score_ball_words(const Score *score, int index, char *out, size_t size);

/* The fewest marks (strikes and spares) that still reach `target` with every other frame nine and a
 * miss; among those ways, the fewest strikes. */
typedef struct ScoreNeed {
    bool possible;
    int marks, strikes, spares;
    char way[80];    /* one such way: "X X 9/ 9-" from the next ball on */
    char words[160]; /* "180: two marks from here, one of them a strike, the rest nines" */
} ScoreNeed;
ScoreNeed score_need(const Score *score, int target);

#endif
