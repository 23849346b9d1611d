/* review.c - sessions folded into counts. */
#include "core/event/review.h"

#include <math.h>
#include <string.h>

static const double Z95 = 1.959963984540054; /* 0.975 quantile of the normal distribution */
static const double WIDE = 0.30;             /* review_says_little */

void review_begin(Review *review) { *review = (Review){0}; }

void review_month(const char *date, char month[8])
{
    memset(month, 0, 8);
    if (strlen(date) == 10)
        memcpy(month, date, 7);
}

static void count_shot(ReviewTally *tally, const Shot *shot)
{
    tally->shots++;
    if (shot->hit != HIT_UNSAID) {
        tally->hits++;
        tally->pockets += shot_pocket(shot);
    }
    if (shot->left_said) {
        tally->leaves++;
        tally->strikes += shot_strike(shot);
        tally->pins += 10 - lane_pin_count(shot->left);
    }
}

/* The place of a ball, made when there is none; -1: no room. */
static int ball_place(Review *review, const Ball *ball)
{
    for (int i = 0; i < review->ball_count; i++)
        if (strcmp(review->balls[i].id, ball->id) == 0)
            return i;
    if (review->ball_count == REVIEW_BALLS_MAX)
        return -1;
    ReviewBall *row = &review->balls[review->ball_count];
    *row = (ReviewBall){0};
    memcpy(row->id, ball->id, sizeof row->id);
    return review->ball_count++;
}

static int pattern_place(Review *review, const Pattern *pattern)
{
    for (int i = 0; i < review->pattern_count; i++)
        if (strcmp(review->patterns[i].name, pattern->name) == 0 &&
            review->patterns[i].length_ft == pattern->length_ft)
            return i;
    if (review->pattern_count == REVIEW_PATTERNS_MAX)
        return -1;
    ReviewPattern *row = &review->patterns[review->pattern_count];
    *row = (ReviewPattern){.length_ft = pattern->length_ft};
    memcpy(row->name, pattern->name, sizeof row->name);
    return review->pattern_count++;
}

/* Months stay sorted. */
static int month_place(Review *review, const char *month)
{
    int at = 0;
    while (at < review->month_count && strcmp(review->months[at].month, month) < 0)
        at++;
    if (at < review->month_count && strcmp(review->months[at].month, month) == 0)
        return at;
    if (review->month_count == REVIEW_MONTHS_MAX)
        return -1;
    memmove(&review->months[at + 1], &review->months[at],
            (size_t)(review->month_count - at) * sizeof *review->months);
    review->months[at] = (ReviewMonth){0};
    memcpy(review->months[at].month, month, sizeof review->months[at].month);
    review->month_count++;
    return at;
}

/* Whether all that an event brings has room, before any of it is counted. */
static bool has_room(const Review *review)
{
    return review->month_count < REVIEW_MONTHS_MAX && review->pattern_count < REVIEW_PATTERNS_MAX &&
           review->ball_count + BAG_SLOTS <= REVIEW_BALLS_MAX;
}

/* The bag as it was for this event; balls that went to the locker since keep their counts. */
static void see_bag(Review *review, const Bag *bag)
{
    for (int i = 0; i < review->ball_count; i++)
        if (bag_find(bag, review->balls[i].id))
            review->balls[i].slot = 0;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(bag, slot);
        int at = ball ? ball_place(review, ball) : -1;
        if (at < 0)
            continue;
        review->balls[at].slot = slot;
        memcpy(review->balls[at].name, ball->name, sizeof review->balls[at].name);
    }
}

static void count_games(ReviewMonth *month, const Session *session)
{
    Score score;
    month->events++;
    for (int game = 1; game <= SESSION_GAMES_MAX; game++) {
        bool any = false;
        for (int i = 0; i < session->shot_count && !any; i++)
            any = session->shot_game[i] == game;
        if (!any)
            continue;
        month->games++;
        if (session_score(session, game, &score) && score.over) {
            month->complete++;
            month->score_sum += score.total;
        }
    }
}

bool review_add(Review *review, const Session *session)
{
    char name[8];
    if (session->shot_count == 0)
        return true;
    if (!has_room(review))
        return false;
    see_bag(review, &session->bag);
    review_month(session->event.date, name);
    ReviewMonth *month = &review->months[month_place(review, name)];
    ReviewPattern *pattern = &review->patterns[pattern_place(review, &session->pattern)];
    count_games(month, session);
    count_games(&review->total, session);
    for (int i = 0; i < session->shot_count; i++) {
        const Shot *shot = &session->shots[i];
        count_shot(&month->tally, shot);
        count_shot(&review->total.tally, shot);
        count_shot(&pattern->tally, shot);
        const Ball *ball = session_ball(session, shot);
        if (!ball)
            continue;
        int at = ball_place(review, ball);
        count_shot(&review->balls[at].tally, shot);
        review->balls[at].in_game[session->shot_game[i] - 1]++;
        pattern->of_ball[at]++;
    }
    return true;
}

void review_interval(int hits, int of, double *low, double *high)
{
    *low = 0.0;
    *high = 1.0;
    if (of <= 0)
        return;
    double n = of, share = hits / n, z2 = Z95 * Z95;
    double middle = (share + z2 / (2.0 * n)) / (1.0 + z2 / n);
    double half = Z95 / (1.0 + z2 / n) * sqrt(share * (1.0 - share) / n + z2 / (4.0 * n * n));
    if (hits > 0)
        *low = middle - half;
    if (hits < of)
        *high = middle + half;
}

bool review_says_little(int hits, int of)
{
    double low, high;
    review_interval(hits, of, &low, &high);
    return high - low > WIDE;
}
