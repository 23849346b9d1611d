/* test_coach.c - written situations: is the first answer one that a coach would give? What a coach
 * would do and what one would refuse was written down before the program was asked. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "helper_demo.h"
#include "helper_shots.h"
#include "store/files.h"

/* Setting: words of g3 (game), f10 (frame), b2 (bowlers on the pair, else 4), n4 (a new pair after
 * four shots), s4 (ball in hand, else 1), at37,21 (feet, target; else the ball's own line on the
 * sheet), practice, apart.
 *
 * Answers: words of GROUPS, or s4 for "the ball in slot 4". */
typedef struct Situation {
    const char *name, *bowler, *pattern, *setting, *shots, *accepted, *refused;
} Situation;

static const Situation SITUATIONS[] = {
#define SITUATION(...) {__VA_ARGS__},
#include "situations_bowlers.def"
#include "situations_lanes.def"
#include "situations_leaves.def"
#include "situations_lines.def"
};
enum { SITUATIONS_COUNT = sizeof SITUATIONS / sizeof SITUATIONS[0] };

static const Situation HELD_OUT[] = {
#include "situations_held.def"
#undef SITUATION
};
enum { HELD_OUT_COUNT = sizeof HELD_OUT / sizeof HELD_OUT[0] };

static const struct {
    const char *word;
    AdjustmentKind kind, also;
} GROUPS[] = {
    {"hold", ADJUST_HOLD, ADJUST_HOLD},
    {"in", ADJUST_MOVE_IN, ADJUST_MOVE_IN},
    {"out", ADJUST_MOVE_OUT, ADJUST_MOVE_OUT},
    {"aim-in", ADJUST_AIM_IN, ADJUST_AIM_IN},
    {"aim-out", ADJUST_AIM_OUT, ADJUST_AIM_OUT},
    {"down", ADJUST_BALL_DOWN, ADJUST_CLEANER},
    {"ball-down", ADJUST_BALL_DOWN, ADJUST_BALL_DOWN},
    {"cleaner", ADJUST_CLEANER, ADJUST_CLEANER},
    {"up", ADJUST_BALL_UP, ADJUST_ROUGHER},
    {"smoother", ADJUST_SMOOTHER, ADJUST_SMOOTHER},
    {"faster", ADJUST_FASTER, ADJUST_FASTER},
    {"slower", ADJUST_SLOWER, ADJUST_SLOWER},
    {"loft", ADJUST_LOFT_MORE, ADJUST_LOFT_MORE},
    {"behind", ADJUST_ROTATION_LESS, ADJUST_ROTATION_LESS},
    {"around", ADJUST_ROTATION_MORE, ADJUST_ROTATION_MORE},
    {"rough", ADJUST_SURFACE_ROUGH, ADJUST_SURFACE_ROUGH},
    {"fine", ADJUST_SURFACE_FINE, ADJUST_SURFACE_FINE},
};
enum { GROUPS_COUNT = sizeof GROUPS / sizeof GROUPS[0] };

static bool is_slot(const char *word, int *slot)
{
    *slot = word[0] == 's' && word[1] >= '1' && word[1] <= '6' && !word[2] ? word[1] - '0' : 0;
    return *slot != 0;
}

static bool names(const char *list, AdjustmentKind kind, int slot)
{
    char word[64];
    bool named = false;
    while (next_word(&list, word)) {
        int said;
        if (is_slot(word, &said)) {
            named |= said == slot;
            continue;
        }
        int i = 0;
        while (i < GROUPS_COUNT && strcmp(GROUPS[i].word, word) != 0)
            i++;
        if (i == GROUPS_COUNT)
            fail_msg("no answer is called %s", word);
        named |= GROUPS[i].kind == kind || GROUPS[i].also == kind;
    }
    return named;
}

static void set_of(const char *setting, AdviceInput *in)
{
    char word[64];
    while (next_word(&setting, word)) {
        int number = atoi(word + 1);
        if (strncmp(word, "at", 2) == 0) {
            in->plan.stance = strtod(word + 2, NULL);
            in->plan.aim = strtod(strchr(word, ',') + 1, NULL);
        } else if (strcmp(word, "practice") == 0)
            in->certified = false;
        else if (strcmp(word, "apart") == 0)
            in->apart = true;
        else if (word[0] == 'g')
            in->game = number;
        else if (word[0] == 'f')
            in->frame = number;
        else if (word[0] == 'b')
            in->bowlers_on_pair = number;
        else if (word[0] == 'n')
            in->stays[1].shot = number;
        else if (word[0] == 's')
            in->plan.slot = number;
        else
            fail_msg("no such setting: %s", word);
    }
}

/* A bag of the demo's six balls, or a junior's own: at 14 mph a light ball that hooks a little and
 * a plain one, at 10 mph the plain one alone. All numbers assumed. */
static void dress(const char *who, Bag *bag)
{
    Bowler *b = &bag->bowler;
    char name[sizeof b->name];
    memcpy(name, b->name, sizeof name);
    if (strcmp(who, "left") == 0) {
        b->hand = HAND_LEFT;
    } else if (strcmp(who, "two-handed") == 0) {
        b->style = STYLE_TWO_HANDED;
        b->mph = 17.8;
        b->rpm = 460.0;
        b->rotation_deg = 45.0;
        b->tilt_deg = 8.0;
        b->rotation_least_deg = b->rotation_most_deg = 0.0;
    } else if (strcmp(who, "league") == 0) {
        *b = bowler_default();
    } else if (strcmp(who, "senior") == 0) {
        *b = bowler_default();
        b->mph = 14.5;
        b->rpm = 210.0;
        b->rotation_deg = 40.0;
    } else if (strncmp(who, "junior", 6) == 0) {
        bool small = strcmp(who, "junior10") == 0;
        *b = bowler_default();
        b->mph = small ? 10.0 : 14.0;
        b->rpm = small ? 70.0 : 110.0;
        b->rotation_deg = 10.0;
        b->tilt_deg = 8.0;
        b->scatter = (Scatter){.launch_deg = 0.35, .mph = 0.4, .rpm = 12.0, .laydown_boards = 0.8};
        Ball plain = *bag_slot(bag, 6), hooks = *bag_slot(bag, 5);
        plain.pounds = hooks.pounds = small ? 8.0 : 10.0;
        bag->count = 0;
        if (!small) {
            hooks.slot = 1;
            bag->balls[bag->count++] = hooks;
        }
        plain.slot = small ? 1 : 2;
        bag->balls[bag->count++] = plain;
    } else if (strcmp(who, "tour") != 0) {
        fail_msg("no such bowler: %s", who);
    }
    memcpy(b->name, name, sizeof name);
}

/* The ball's own line on the sheet. */
static void line_up(const Bag *bag, const Pattern *pattern, Plan *plan)
{
    Oil sheet, oil;
    MotionBody body;
    oil_lay(pattern, &sheet);
    oil_for_hand(&sheet, bag->bowler.hand, &oil);
    motion_body(bag_slot(bag, plan->slot), &body);
    Delivery usual = delivery_of(&bag->bowler, 20.0, 12.0);
    Line line = line_best(&body, &oil, &bag->bowler, &usual, 12.0, 26.0);
    plan->stance = lane_half_board(line.stance);
    plan->aim = lane_half_board(line.aim);
}

/* The answers to a situation; what they point to is the caller's. */
static AdviceJob *ask_about(const Situation *s, Asked *asked, Pattern *pattern)
{
    Error error = {0};
    dress(s->bowler, &asked->bag);
    if (!files_pattern(s->pattern, pattern, &error))
        fail_msg("%s", error.text);
    AdviceInput *in = &asked->in;
    in->pattern = pattern;
    in->plan = (Plan){.slot = 1};
    in->game = 1;
    in->frame = 0;
    in->bowlers_on_pair = 4;
    set_of(s->setting, in);
    if (in->plan.stance == 0.0)
        line_up(&asked->bag, pattern, &in->plan);
    in->shot_count = shots_of(s->shots, &in->plan, asked->shots, ASKED_SHOTS_MAX, &in->lane);
    int here = in->shot_count - in->stays[1].shot; /* shots on this pair */
    if (in->stays[1].shot > 0) {
        in->stay_count = 2;
        in->stays[1].frames = 10 * (in->game - 1); /* that others have bowled there */
    }
    if (in->frame == 0)
        in->frame = here < 10 ? here + 1 : 10;
    return answer(in);
}

static void print(const Situation *s, const Advice *advice, const char *verdict)
{
    printf("%s: %s, %s %s, \"%s\": a coach: %s\n", verdict, s->name, s->pattern, s->setting,
           s->shots, s->accepted);
    for (int sign = 0; sign < SIGN_COUNT; sign++)
        if (advice->signs.seen[sign])
            printf(" %s", SIGN_NAMES[sign]);
    printf("\n");
    for (int i = 0; i < advice->adjustment_count && i < 6; i++) {
        const Adjustment *n = &advice->adjustments[i];
        printf(
            "    %d. %-14s %-56s pocket %.0f > %.0f, strike %.0f > %.0f, vote %.2f, score %.3f\n",
            i + 1, ADJUST_NAMES[n->kind], n->words, 100.0 * n->pocket_now, 100.0 * n->pocket_after,
            100.0 * n->strike_now, 100.0 * n->strike_after, n->vote, n->score);
    }
}

static bool refuses(const Situation *s, const Adjustment *a)
{
    return names(s->refused, a->kind, a->plan.slot) ||
           (a->with != ADJUST_HOLD && names(s->refused, a->with, 0));
}

/* Of the first answers how many a coach would accept, and how many one would refuse. */
static int accepted_of(const Situation *situations, int count, int *refused)
{
    int accepted = 0;
    *refused = 0;
    for (int i = 0; i < count; i++) {
        const Situation *s = &situations[i];
        Asked *asked = ask();
        Pattern pattern;
        AdviceJob *job = ask_about(s, asked, &pattern);
        const Advice *advice = advice_result(job);
        assert_true(advice->adjustment_count >= 1);
        const Adjustment *first = &advice->adjustments[0];
        bool bad = refuses(s, first);
        bool good = !bad && names(s->accepted, first->kind, first->plan.slot);
        accepted += good;
        *refused += bad;
        if (!good || getenv("SETTEE_SHOW"))
            print(s, advice, good ? "accepted" : bad ? "REFUSED" : "not accepted");
        advice_job_free(job);
        free(asked);
    }
    printf("first answers a coach would accept: %d of %d (%.1f %%), refused outright: %d\n",
           accepted, count, 100.0 * accepted / count, *refused);
    return accepted;
}

static void test_first_answers(void **state)
{
    (void)state;
    int refused, accepted = accepted_of(SITUATIONS, SITUATIONS_COUNT, &refused);
    assert_true(accepted >= 0.95 * SITUATIONS_COUNT);
    assert_int_equal(refused, 0);
}

static void test_held_out(void **state)
{
    (void)state;
    int refused, accepted = accepted_of(HELD_OUT, HELD_OUT_COUNT, &refused);
    assert_true(accepted >= 0.9 * HELD_OUT_COUNT);
    assert_true(refused <= 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_first_answers),
                                       cmocka_unit_test(test_held_out)};
    return cmocka_run_group_tests_name("coach", tests, demo_set_up, NULL);
}
