/* review.h - what came of the shots: sessions folded into counts by month, ball and pattern.
 *
 * Every first ball at a full rack counts once, fill balls of the tenth too. A rate is over the
 * shots of which it was said: a pocket rate over those with a hit, a strike rate over those with
 * a leave. Pure. */
#ifndef SETTEE_CORE_EVENT_REVIEW_H
#define SETTEE_CORE_EVENT_REVIEW_H

#include "core/event/session.h"

enum { REVIEW_MONTHS_MAX = 240, REVIEW_BALLS_MAX = 64, REVIEW_PATTERNS_MAX = 64 };

typedef struct ReviewTally {
    int shots;           /* first balls */
    int hits, pockets;   /* with a hit said; of them light or flush */
    int leaves, strikes; /* with a leave said; of them strikes */
    int pins;            /* knocked down by those with a leave said */
} ReviewTally;

typedef struct ReviewMonth {
    char month[8];           /* "2026-05"; "" of events without a date */
    int events, games;       /* with at least one shot */
    int complete, score_sum; /* games scored to their end, and their scores added up */
    ReviewTally tally;
} ReviewMonth;

typedef struct ReviewBall {
    char id[32], name[48];
    int slot;                       /* in the bag seen last; 0: in the locker */
    ReviewTally tally;              /* no shots: it never left the bag */
    int in_game[SESSION_GAMES_MAX]; /* shots in the first, second, ... game of an event */
} ReviewBall;

typedef struct ReviewPattern {
    char name[64];
    double length_ft;
    ReviewTally tally;
    int of_ball[REVIEW_BALLS_MAX]; /* shots of balls[i] */
} ReviewPattern;

typedef struct Review {
    ReviewMonth total; /* of all months; its `month` is "" */
    int month_count, ball_count, pattern_count;
    ReviewMonth months[REVIEW_MONTHS_MAX]; /* by date, the one without first */
    ReviewBall balls[REVIEW_BALLS_MAX];    /* of the bags' slots, and any other that was thrown */
    ReviewPattern patterns[REVIEW_PATTERNS_MAX]; /* in the order they came */
} Review;

void review_begin(Review *review);

/* Counts one event; one without a shot not at all. False: it has more months, balls or patterns
 * than there is room for; then nothing of it was counted. */
bool review_add(Review *review, const Session *session);

/* "2026-05" of a date, "" of none. */
void review_month(const char *date, char month[8]);

/* The interval that holds the true rate in 95 of 100 cases, from `hits` of `of`; 0 to 1 when `of`
 * is 0. E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209, the score interval (from memory). */
void review_interval(int hits, int of, double *low, double *high);

/* Whether a rate from so few says next to nothing: its interval is wider than 0.30 (assumed: as
 * good as 50 to 80 per cent). */
bool review_says_little(int hits, int of);

#endif
