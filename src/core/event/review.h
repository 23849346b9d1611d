/* review.h - results of past sessions, counted by month, ball and pattern.
 *
 * Every scored first ball at a full rack counts once, fill balls of the tenth too; warm-up does
 * not. A rate is over the
 * shots for which it is known: a pocket rate over those with a hit, a strike rate over those with a
 * leave. Pure. */
#ifndef SETTEE_CORE_EVENT_REVIEW_H
#define SETTEE_CORE_EVENT_REVIEW_H

#include "core/event/session.h"

enum { REVIEW_MONTHS_MAX = 240, REVIEW_BALLS_MAX = 64, REVIEW_PATTERNS_MAX = 64 };

typedef struct ReviewTally {
    int shots;           /* first balls */
    int hits, pockets;   /* shots with a hit; those light or flush */
    int leaves, strikes; /* shots with a leave; those that were strikes */
    int pins;            /* knocked down by shots with a leave */
} ReviewTally;

typedef struct ReviewMonth {
    char month[8];           /* "2026-05"; "": events without a date */
    int events, games;       /* with at least one shot */
    int complete, score_sum; /* games scored to the end, and the sum of their scores */
    ReviewTally tally;
} ReviewMonth;

typedef struct ReviewBall {
    char id[32], name[48];
    int slot;                       /* in the bag seen last; 0: in the locker */
    ReviewTally tally;              /* no shots: never thrown */
    int in_game[SESSION_GAMES_MAX]; /* shots in the first, second, ... game of an event */
} ReviewBall;

typedef struct ReviewPattern {
    char name[64];
    double length_ft;
    ReviewTally tally;
    int of_ball[REVIEW_BALLS_MAX]; /* shots of balls[i] */
} ReviewPattern;

typedef struct Review {
    ReviewMonth total; /* all months; its `month` is "" */
    int month_count, ball_count, pattern_count;
    ReviewMonth months[REVIEW_MONTHS_MAX]; /* by date, the one without first */
    ReviewBall balls[REVIEW_BALLS_MAX];    /* of the bags' slots, and any other that was thrown */
    ReviewPattern patterns[REVIEW_PATTERNS_MAX]; /* in the order they came */
} Review;

void review_begin(Review *review);

/* Counts one event, unless it has no scored shots. False: there is no room for its month, balls or
 * pattern; then none of it was counted. */
bool review_add(Review *review, const Session *session);

/* "2026-05" of a date, "" of none. */
void review_month(const char *date, char month[8]);

/* The 95 % confidence interval of a rate, from `hits` of `of`; 0 to 1 if `of` is 0. E. B. Wilson,
 * J. Am. Stat. Assoc. 22 (1927) 209, the score interval (from memory). */
void review_interval(int hits, int of, double *low, double *high);

/* Whether a rate from this few shots says next to nothing: its interval is wider than 0.30
 * (assumed; for example 50 to 80 %). */
bool review_says_little(int hits, int of);

#endif
