/* review.c - counts over sessions. */
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
        tally->pins += 10 - lane_pin_count(shot_standing(shot));
    }
}

/* Index of a ball, or `ball_count`. */
static int ball_place(const Review *review, const Ball *ball)
{
    int at = 0;
    while (at < review->ball_count && strcmp(review->balls[at].id, ball->id) != 0)
        at++;
    return at;
}

/* Index of a pattern, or `pattern_count`. */
static int pattern_place(const Review *review, const Pattern *pattern)
{
    int at = 0;
    while (at < review->pattern_count && (strcmp(review->patterns[at].name, pattern->name) != 0 ||
                                          review->patterns[at].length_ft != pattern->length_ft))
        at++;
    return at;
}

/* Index of a month, or where it belongs: they are sorted. */
static int month_place(const Review *review, const char *month)
{
    int at = 0;
    while (at < review->month_count && strcmp(review->months[at].month, month) < 0)
        at++;
    return at;
}

static bool has_month(const Review *review, const char *month)
{
    int at = month_place(review, month);
    return at < review->month_count && strcmp(review->months[at].month, month) == 0;
}

/* Whether a ball of the event's bag has a row: it is in a slot or was thrown. */
static bool has_row(const Session *session, const Ball *ball)
{
    bool has = ball->slot > 0;
    for (int i = 0; i < session->shot_count && !has; i++)
        has = session_ball(session, &session->shots[i]) == ball;
    return has;
}

/* Whether there is room for everything an event adds, checked before any of it is counted. */
static bool has_room(const Review *review, const Session *session, const char *month)
{
    int balls = review->ball_count;
    for (int i = 0; i < session->bag.count; i++) {
        const Ball *ball = &session->bag.balls[i];
        balls += has_row(session, ball) && ball_place(review, ball) == review->ball_count;
    }
    return balls <= REVIEW_BALLS_MAX &&
           (review->month_count < REVIEW_MONTHS_MAX || has_month(review, month)) &&
           (review->pattern_count < REVIEW_PATTERNS_MAX ||
            pattern_place(review, &session->pattern) < review->pattern_count);
}

static ReviewMonth *month_row(Review *review, const char *month)
{
    int at = month_place(review, month);
    ReviewMonth *row = &review->months[at];
    if (has_month(review, month))
        return row;
    memmove(row + 1, row, (size_t)(review->month_count - at) * sizeof *row);
    *row = (ReviewMonth){0};
    memcpy(row->month, month, sizeof row->month);
    review->month_count++;
    return row;
}

static ReviewPattern *pattern_row(Review *review, const Pattern *pattern)
{
    int at = pattern_place(review, pattern);
    ReviewPattern *row = &review->patterns[at];
    if (at == review->pattern_count) {
        *row = (ReviewPattern){.length_ft = pattern->length_ft};
        memcpy(row->name, pattern->name, sizeof row->name);
        review->pattern_count++;
    }
    return row;
}

static void see_ball(Review *review, const Ball *ball)
{
    int at = ball_place(review, ball);
    ReviewBall *row = &review->balls[at];
    if (at == review->ball_count) {
        *row = (ReviewBall){0};
        memcpy(row->id, ball->id, sizeof row->id);
        review->ball_count++;
    }
    row->slot = ball->slot;
    memcpy(row->name, ball->name, sizeof row->name);
}

/* The bag at this event: its slots, then other balls thrown. Balls moved to the locker since keep
 * their counts. */
static void see_bag(Review *review, const Session *session)
{
    const Bag *bag = &session->bag;
    for (int i = 0; i < review->ball_count; i++)
        if (bag_find(bag, review->balls[i].id))
            review->balls[i].slot = 0;
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        if (bag_slot(bag, slot))
            see_ball(review, bag_slot(bag, slot));
    for (int i = 0; i < bag->count; i++)
        if (bag->balls[i].slot == 0 && has_row(session, &bag->balls[i]))
            see_ball(review, &bag->balls[i]);
}

static void count_games(ReviewMonth *month, const Session *session)
{
    Score score;
    month->events++;
    for (int game = 1; game <= SESSION_GAMES_MAX; game++) {
        if (session_frames(session, game) == 0)
            continue;
        month->games++;
        if (session_score(session, game, &score) && score.over) {
            month->complete++;
            month->score_sum += score.total;
        }
    }
}

static void count_ball(Review *review, ReviewPattern *pattern, const Session *session, int shot)
{
    const Ball *ball = session_ball(session, &session->shots[shot]);
    if (!ball)
        return; /* no longer in the bag */
    int at = ball_place(review, ball);
    count_shot(&review->balls[at].tally, &session->shots[shot]);
    review->balls[at].in_game[session->shot_game[shot] - 1]++;
    pattern->of_ball[at]++;
}

bool review_add(Review *review, const Session *session)
{
    char name[8];
    if (session->shot_count == session->warm_up_count && session->told_count == 0)
        return true;
    review_month(session->event.date, name);
    if (!has_room(review, session, name))
        return false;
    see_bag(review, session);
    ReviewMonth *month = month_row(review, name);
    ReviewPattern *pattern = pattern_row(review, &session->pattern);
    count_games(month, session);
    count_games(&review->total, session);
    for (int i = session->warm_up_count; i < session->shot_count; i++) {
        const Shot *shot = &session->shots[i];
        count_shot(&month->tally, shot);
        count_shot(&review->total.tally, shot);
        count_shot(&pattern->tally, shot);
        count_ball(review, pattern, session, i);
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
