/* Written situations: does an answer that a coach would accept stand among the first two? Every
 * situation and what is acceptable in it is common practice, no source. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "helper_demo.h"
#include "store/files.h"

enum { SHOTS_MAX = 12, WORDS_MAX = 6 };

typedef struct Situation {
    const char *name;
    const char *pattern;      /* NULL: the demo's */
    int slot;                 /* ball in hand; 0: 1 */
    double stance, aim;       /* 0: the ball's own best line */
    int game, frame, bowlers; /* 0: 1, the shots' count, 4 */
    bool practice;            /* not certified */
    int shot_count;
    Shot shots[SHOTS_MAX];            /* slot, stance and aim as in hand unless given */
    AdjustmentKind accept[WORDS_MAX]; /* any of them among the first two; ends with ADJUST_COUNT */
    AdjustmentKind never[WORDS_MAX];  /* none of them anywhere; ends with ADJUST_COUNT */
    AdjustmentKind first;             /* when not ADJUST_COUNT: must be the first */
    AdjustmentKind offered;           /* anywhere; holding always is */
} Situation;

#define END ADJUST_COUNT
#define L SIDE_LEFT
#define R SIDE_RIGHT
#define SHOT(side, h, rd, rl)                                                                      \
    {                                                                                              \
        .lane = side, .hit = HIT_##h, .read = READ_##rd, .release = RELEASE_##rl                   \
    }
#define LEAVE(side, h, pins)                                                                       \
    {                                                                                              \
        .lane = side, .hit = HIT_##h, .read = READ_ON_TIME, .release = RELEASE_GOOD,               \
        .left_said = true, .left = pins                                                            \
    }
#define SPEED(side, h, rd, speed)                                                                  \
    {                                                                                              \
        .lane = side, .hit = HIT_##h, .read = READ_##rd, .release = RELEASE_GOOD, .mph = speed     \
    }
#define P(n) (Pins)(1 << ((n)-1))

static const Situation SITUATIONS[] = {
    {.name = "two good shots high and early late in a block: ball down or move in, not slower",
     .game = 5,
     .shot_count = 2,
     .shots = {SHOT(L, HIGH, EARLY, GOOD), SHOT(R, HIGH, EARLY, GOOD)},
     .accept = {ADJUST_BALL_DOWN, ADJUST_MOVE_IN, END},
     .never = {ADJUST_SLOWER, ADJUST_BALL_UP, END},
     .first = END},
    {.name = "high and early on fresh oil: move in or ball down",
     .shot_count = 2,
     .shots = {SHOT(L, HIGH, EARLY, GOOD), SHOT(R, NOSE, EARLY, GOOD)},
     .accept = {ADJUST_MOVE_IN, ADJUST_BALL_DOWN, ADJUST_CLEANER, END},
     .never = {ADJUST_SLOWER, ADJUST_MOVE_OUT, END},
     .first = END},
    {.name = "light and late on fresh oil: ball up, rougher or out",
     .slot = 3,
     .shot_count = 2,
     .shots = {SHOT(L, LIGHT, LATE, GOOD), SHOT(R, THIN, LATE, GOOD)},
     .accept = {ADJUST_BALL_UP, ADJUST_ROUGHER, ADJUST_MOVE_OUT, END},
     .never = {ADJUST_FASTER, ADJUST_LOFT_MORE, ADJUST_BALL_DOWN, END},
     .first = END},
    {.name = "light although early: cleaner or faster, never slower",
     .game = 2,
     .shot_count = 2,
     .shots = {SHOT(L, LIGHT, EARLY, GOOD), SHOT(R, LIGHT, EARLY, GOOD)},
     .accept = {ADJUST_CLEANER, ADJUST_FASTER, END},
     .never = {ADJUST_SLOWER, ADJUST_ROUGHER, END},
     .first = END},
    {.name = "light although early on a worn lane: cleaner, faster, in",
     .game = 5,
     .shot_count = 2,
     .shots = {SHOT(L, LIGHT, EARLY, GOOD), SHOT(R, THIN, EARLY, GOOD)},
     .accept = {ADJUST_CLEANER, ADJUST_FASTER, ADJUST_MOVE_IN, ADJUST_BALL_DOWN, END},
     .never = {ADJUST_SLOWER, ADJUST_ROUGHER, END},
     .first = END},
    {.name = "one bad release: hold",
     .shot_count = 3,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), SHOT(R, FLUSH, ON_TIME, GOOD),
               SHOT(L, NOSE, EARLY, INSIDE)},
     .accept = {ADJUST_HOLD, END},
     .never = {END},
     .first = ADJUST_HOLD},
    {.name = "one bad release, thrown fast and light: hold",
     .shot_count = 2,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), SHOT(R, THIN, LATE, FAST)},
     .accept = {ADJUST_HOLD, END},
     .never = {END},
     .first = ADJUST_HOLD},
    {.name = "most releases bad: hold and settle",
     .shot_count = 4,
     .shots = {SHOT(L, HIGH, EARLY, SLOW), SHOT(R, LIGHT, LATE, FAST), SHOT(L, WIDE, NONE, OUTSIDE),
               SHOT(R, NOSE, EARLY, INSIDE)},
     .accept = {ADJUST_HOLD, END},
     .never = {ADJUST_LOFT_MORE, END},
     .first = ADJUST_HOLD},
    {.name = "alternating high and light: a smoother ball",
     .slot = 4,
     .shot_count = 4,
     .shots = {SHOT(L, HIGH, ON_TIME, GOOD), SHOT(R, LIGHT, ON_TIME, GOOD),
               SHOT(L, LIGHT, ON_TIME, GOOD), SHOT(R, HIGH, ON_TIME, GOOD)},
     .accept = {ADJUST_SMOOTHER, ADJUST_ROUGHER, END},
     .never = {ADJUST_CLEANER, END},
     .first = END},
    {.name = "two in the pocket: hold",
     .shot_count = 2,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), SHOT(R, FLUSH, ON_TIME, GOOD)},
     .accept = {ADJUST_HOLD, END},
     .never = {ADJUST_BALL_UP, ADJUST_BALL_DOWN, END},
     .first = ADJUST_HOLD},
    {.name = "in the pocket in the last frames: hold",
     .game = 3,
     .frame = 10,
     .shot_count = 2,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), SHOT(R, FLUSH, ON_TIME, GOOD)},
     .accept = {ADJUST_HOLD, END},
     .never = {END},
     .first = ADJUST_HOLD},
    {.name = "one good shot high: hold, or a small move in",
     .shot_count = 3,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), SHOT(R, FLUSH, ON_TIME, GOOD),
               SHOT(L, HIGH, ON_TIME, GOOD)},
     .accept = {ADJUST_HOLD, END},
     .never = {ADJUST_SLOWER, ADJUST_MOVE_OUT, END},
     .first = END},
    {.name = "one good shot light: hold",
     .shot_count = 3,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), SHOT(R, FLUSH, ON_TIME, GOOD),
               SHOT(L, LIGHT, ON_TIME, GOOD)},
     .accept = {ADJUST_HOLD, END},
     .never = {ADJUST_FASTER, END},
     .first = END},
    {.name = "two good shots high, on time: move in",
     .game = 2,
     .shot_count = 2,
     .shots = {SHOT(L, HIGH, ON_TIME, GOOD), SHOT(R, HIGH, ON_TIME, GOOD)},
     .accept = {ADJUST_MOVE_IN, ADJUST_BALL_DOWN, END},
     .never = {ADJUST_SLOWER, ADJUST_MOVE_OUT, END},
     .first = END},
    {.name = "two good shots light, on time: move out or ball up",
     .slot = 3,
     .shot_count = 2,
     .shots = {SHOT(L, LIGHT, ON_TIME, GOOD), SHOT(R, THIN, ON_TIME, GOOD)},
     .accept = {ADJUST_MOVE_OUT, ADJUST_BALL_UP, END},
     .never = {ADJUST_FASTER, ADJUST_MOVE_IN, END},
     .first = END},
    {.name = "a good shot crossed over: in or down, a real move",
     .game = 2,
     .shot_count = 1,
     .shots = {SHOT(L, CROSSED, EARLY, GOOD)},
     .accept = {ADJUST_MOVE_IN, ADJUST_BALL_DOWN, END},
     .never = {ADJUST_SLOWER, ADJUST_MOVE_OUT, END},
     .first = END},
    {.name = "late, yet high: smoother or less swing",
     .slot = 4,
     .shot_count = 2,
     .shots = {SHOT(L, HIGH, LATE, GOOD), SHOT(R, HIGH, LATE, GOOD)},
     .accept = {ADJUST_SMOOTHER, ADJUST_MOVE_IN, END},
     .never = {ADJUST_CLEANER, ADJUST_LOFT_MORE, END},
     .first = END},
    {.name = "never read the lane on fresh oil: more ball",
     .slot = 5,
     .shot_count = 2,
     .shots = {SHOT(L, WIDE, NONE, GOOD), SHOT(R, WIDE, NONE, GOOD)},
     .accept = {ADJUST_BALL_UP, ADJUST_ROUGHER, ADJUST_AIM_IN, END},
     .never = {ADJUST_FASTER, ADJUST_LOFT_MORE, END},
     .first = END},
    {.name = "this lane tighter than the other: out here, keep the other",
     .shot_count = 4,
     .shots = {SHOT(L, LIGHT, ON_TIME, GOOD), SHOT(R, FLUSH, ON_TIME, GOOD),
               SHOT(L, THIN, ON_TIME, GOOD), SHOT(R, HIGH, ON_TIME, GOOD)},
     .accept = {ADJUST_MOVE_OUT, ADJUST_BALL_UP, ADJUST_SMOOTHER, END},
     .never = {ADJUST_MOVE_IN, END},
     .first = END},
    {.name = "this lane hooks more than the other: in here",
     .shot_count = 4,
     .shots = {SHOT(L, HIGH, ON_TIME, GOOD), SHOT(R, FLUSH, ON_TIME, GOOD),
               SHOT(L, HIGH, ON_TIME, GOOD), SHOT(R, LIGHT, ON_TIME, GOOD)},
     .accept = {ADJUST_MOVE_IN, ADJUST_BALL_DOWN, END},
     .never = {ADJUST_MOVE_OUT, END},
     .first = END},
    {.name = "speed falling and high: legs, or ball down; not slower",
     .game = 4,
     .shot_count = 6,
     .shots = {SPEED(L, FLUSH, ON_TIME, 18.4), SPEED(R, FLUSH, ON_TIME, 18.3),
               SPEED(L, FLUSH, ON_TIME, 18.3), SPEED(R, HIGH, EARLY, 17.7),
               SPEED(L, HIGH, EARLY, 17.6), SPEED(R, HIGH, EARLY, 17.5)},
     .accept = {ADJUST_FASTER, ADJUST_BALL_DOWN, ADJUST_MOVE_IN, END},
     .never = {ADJUST_SLOWER, END},
     .first = END},
    {.name = "speed rising and light: slow the feet or hold, never faster",
     .shot_count = 6,
     .shots = {SPEED(L, FLUSH, ON_TIME, 17.9), SPEED(R, FLUSH, ON_TIME, 18.0),
               SPEED(L, FLUSH, ON_TIME, 18.0), SPEED(R, LIGHT, LATE, 18.7),
               SPEED(L, LIGHT, LATE, 18.8), SPEED(R, THIN, LATE, 18.9)},
     /* eyes in hits higher at the speed that was typed */
     .accept = {ADJUST_AIM_IN, ADJUST_SLOWER, ADJUST_HOLD, END},
     .never = {ADJUST_FASTER, END},
     .first = END},
    {.name = "a weak corner pin on a pocket hit: cleaner, or further in",
     .game = 3,
     .shot_count = 2,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), LEAVE(R, FLUSH, P(10))},
     .accept = {ADJUST_CLEANER, ADJUST_MOVE_IN, ADJUST_SLOWER, ADJUST_HOLD, END},
     .never = {ADJUST_ROUGHER, END},
     .first = END},
    {.name = "a 4 pin after a good shot: came in high, a board in or hold",
     .shot_count = 2,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), LEAVE(R, HIGH, P(4))},
     .accept = {ADJUST_MOVE_IN, ADJUST_HOLD, END},
     .never = {ADJUST_SLOWER, ADJUST_MOVE_OUT, END},
     .first = END},
    {.name = "only a leave, 8-10: light, out or hold",
     .shot_count = 1,
     .shots = {LEAVE(L, UNSAID, P(8) | P(10))},
     .accept = {ADJUST_MOVE_OUT, ADJUST_HOLD, END},
     .never = {ADJUST_FASTER, END},
     .first = END},
    {.name = "oil carried down: more surface, or out",
     .game = 2,
     .slot = 3,
     .shot_count = 5,
     .shots = {SHOT(L, FLUSH, ON_TIME, GOOD), SHOT(R, FLUSH, ON_TIME, GOOD),
               SHOT(L, FLUSH, ON_TIME, GOOD), SHOT(R, LIGHT, LATE, GOOD),
               SHOT(L, LIGHT, LATE, GOOD)},
     .accept = {ADJUST_ROUGHER, ADJUST_BALL_UP, ADJUST_MOVE_OUT, END},
     .never = {ADJUST_CLEANER, ADJUST_FASTER, ADJUST_BALL_DOWN, END},
     .first = END},
    {.name = "deep inside, high and early: change the ball, not the feet",
     .game = 5,
     .stance = 37.0,
     .aim = 21.0,
     .slot = 1,
     .shot_count = 2,
     .shots = {SHOT(L, HIGH, EARLY, GOOD), SHOT(R, HIGH, EARLY, GOOD)},
     .accept = {ADJUST_BALL_DOWN, ADJUST_CLEANER, ADJUST_FASTER, END},
     .never = {ADJUST_SLOWER, ADJUST_BALL_UP, END},
     .first = END},
    {.name = "a house pattern, twice high: in",
     .pattern = "parlour",
     .game = 2,
     .shot_count = 2,
     .shots = {SHOT(L, HIGH, ON_TIME, GOOD), SHOT(R, HIGH, ON_TIME, GOOD)},
     .accept = {ADJUST_MOVE_IN, ADJUST_BALL_DOWN, END},
     .never = {ADJUST_SLOWER, ADJUST_MOVE_OUT, END},
     .first = END},
    {.name = "a split from a good shot high: move now",
     .game = 2,
     .shot_count = 2,
     .shots = {SHOT(L, HIGH, ON_TIME, GOOD), LEAVE(R, HIGH, P(4) | P(6) | P(7) | P(10))},
     .accept = {ADJUST_MOVE_IN, ADJUST_BALL_DOWN, END},
     .never = {ADJUST_SLOWER, ADJUST_MOVE_OUT, END},
     .first = END},
    {.name = "now high, now light: staying behind it is among the answers",
     .slot = 4,
     .shot_count = 4,
     .shots = {SHOT(L, HIGH, ON_TIME, GOOD), SHOT(R, LIGHT, ON_TIME, GOOD),
               SHOT(L, LIGHT, ON_TIME, GOOD), SHOT(R, HIGH, ON_TIME, GOOD)},
     .accept = {ADJUST_SMOOTHER, ADJUST_ROUGHER, ADJUST_HOLD, ADJUST_ROTATION_LESS, END},
     .never = {ADJUST_ROTATION_MORE, END},
     .first = END,
     .offered = ADJUST_ROTATION_LESS},
    {.name = "late, yet high: staying behind it is among the answers",
     .slot = 4,
     .shot_count = 1,
     .shots = {SHOT(L, HIGH, LATE, GOOD)},
     .accept = {ADJUST_SMOOTHER, ADJUST_MOVE_IN, ADJUST_ROTATION_LESS, END},
     .never = {ADJUST_ROTATION_MORE, ADJUST_CLEANER, END},
     .first = END,
     .offered = ADJUST_ROTATION_LESS},
    {.name = "light although early: coming around it is among the answers, slower never",
     .game = 3,
     .shot_count = 1,
     .shots = {SHOT(L, LIGHT, EARLY, GOOD)},
     .accept = {ADJUST_CLEANER, ADJUST_FASTER, ADJUST_ROTATION_MORE, END},
     .never = {ADJUST_SLOWER, ADJUST_ROTATION_LESS, END},
     .first = END,
     .offered = ADJUST_ROTATION_MORE},
    {.name = "never read: staying behind it is among the answers",
     .slot = 5,
     .shot_count = 1,
     .shots = {SHOT(L, WIDE, NONE, GOOD)},
     .accept = {ADJUST_BALL_UP, ADJUST_ROUGHER, ADJUST_AIM_IN, ADJUST_ROTATION_LESS, END},
     .never = {ADJUST_ROTATION_MORE, ADJUST_FASTER, END},
     .first = END,
     .offered = ADJUST_ROTATION_LESS},
    {.name = "one bad release, now high, now light before it: the hand is left alone",
     .slot = 4,
     .shot_count = 5,
     .shots = {SHOT(L, HIGH, ON_TIME, GOOD), SHOT(R, LIGHT, ON_TIME, GOOD),
               SHOT(L, LIGHT, ON_TIME, GOOD), SHOT(R, HIGH, ON_TIME, GOOD),
               SHOT(L, NOSE, EARLY, INSIDE)},
     .accept = {ADJUST_HOLD, END},
     .never = {ADJUST_ROTATION_LESS, ADJUST_ROTATION_MORE, END},
     .first = ADJUST_HOLD},
    {.name = "practice, light and late on the fresh: a rougher surface may be put on",
     .practice = true,
     .slot = 3,
     .shot_count = 2,
     .shots = {SHOT(L, LIGHT, LATE, GOOD), SHOT(R, THIN, LATE, GOOD)},
     .accept = {ADJUST_BALL_UP, ADJUST_ROUGHER, ADJUST_MOVE_OUT, ADJUST_SURFACE_ROUGH, END},
     .never = {ADJUST_SURFACE_FINE, ADJUST_FASTER, END},
     .first = END,
     .offered = ADJUST_SURFACE_ROUGH},
    {.name = "practice, it never read: a rougher surface may be put on",
     .practice = true,
     .slot = 4,
     .shot_count = 1,
     .shots = {SHOT(L, WIDE, NONE, GOOD)},
     .accept = {ADJUST_BALL_UP, ADJUST_ROUGHER, ADJUST_AIM_IN, ADJUST_SURFACE_ROUGH, END},
     .never = {ADJUST_SURFACE_FINE, END},
     .first = END,
     .offered = ADJUST_SURFACE_ROUGH},
    {.name = "practice, high and early: a finer surface may be put on",
     .practice = true,
     .shot_count = 2,
     .shots = {SHOT(L, HIGH, EARLY, GOOD), SHOT(R, HIGH, EARLY, GOOD)},
     .accept = {ADJUST_MOVE_IN, ADJUST_BALL_DOWN, ADJUST_CLEANER, ADJUST_SURFACE_FINE, END},
     .never = {ADJUST_SURFACE_ROUGH, ADJUST_SLOWER, END},
     .first = END,
     .offered = ADJUST_SURFACE_FINE},
    {.name = "between blocks, early and rolled out: a finer surface may be put on",
     .practice = true,
     .game = 2,
     .shot_count = 2,
     .shots = {SHOT(L, LIGHT, EARLY, GOOD), SHOT(R, LIGHT, EARLY, GOOD)},
     .accept = {ADJUST_CLEANER, ADJUST_FASTER, ADJUST_SURFACE_FINE, END},
     .never = {ADJUST_SURFACE_ROUGH, ADJUST_SLOWER, END},
     .first = END,
     .offered = ADJUST_SURFACE_FINE},
    {.name = "no shots yet: hold",
     .shot_count = 0,
     .accept = {ADJUST_HOLD, END},
     .never = {END},
     .first = END},
};
enum { SITUATIONS_COUNT = sizeof SITUATIONS / sizeof SITUATIONS[0] };

typedef struct Answered {
    Bag bag;
    Pattern pattern;
    RuleSet rules;
    Shot shots[SHOTS_MAX];
    AdviceJob *job;
} Answered;

static void must(bool ok, const Error *error)
{
    char line[ERROR_LINE_MAX];
    if (ok)
        return;
    error_line(error, line, sizeof line);
    fail_msg("%s", line);
}

/* A left-hander sees the mirrored lane and leaves the mirrored pins: same words, same answers. */
static void adjustment(const Situation *s, bool mirrored, bool certified, Answered *a)
{
    Error error = {0};
    must(files_bag("demo", &a->bag, &error), &error);
    must(files_pattern(s->pattern ? s->pattern : "apron", &a->pattern, &error), &error);
    must(files_rules("coach", &a->rules, &error), &error);
    a->bag.bowler.hand = mirrored ? HAND_LEFT : HAND_RIGHT;
    Plan plan = {.slot = s->slot ? s->slot : 1, .stance = s->stance, .aim = s->aim};
    if (plan.stance == 0.0) {
        Oil sheet, oil;
        oil_lay(&a->pattern, &sheet);
        oil_for_hand(&sheet, a->bag.bowler.hand, &oil);
        MotionBody body;
        motion_body(bag_slot(&a->bag, plan.slot), &body);
        Delivery usual = delivery_of(&a->bag.bowler, 20.0, 12.0);
        Line line = line_best(&body, &oil, &a->bag.bowler, &usual, 16.0, 24.0);
        plan.stance = line.stance;
        plan.aim = 0.5 * floor(2.0 * line.aim + 0.5);
    }
    for (int i = 0; i < s->shot_count; i++) {
        Shot *shot = &a->shots[i];
        *shot = s->shots[i];
        if (shot->slot == 0)
            shot->slot = plan.slot;
        shot->stance = plan.stance;
        shot->aim = plan.aim;
        if (mirrored)
            shot->left = lane_mirror_pins(shot->left);
    }
    AdviceInput input = {.bag = &a->bag,
                         .pattern = &a->pattern,
                         .rules = &a->rules,
                         .shots = a->shots,
                         .shot_count = s->shot_count,
                         .lane = s->shot_count % 2 ? SIDE_RIGHT : SIDE_LEFT,
                         .plan = plan,
                         .game = s->game ? s->game : 1,
                         .frame = s->frame ? s->frame : s->shot_count + 1,
                         .bowlers_on_pair = 4,
                         .certified = certified};
    a->job = answer(&input);
}

static bool holds(const AdjustmentKind *actions, AdjustmentKind kind)
{
    for (; *actions != END; actions++)
        if (*actions == kind)
            return true;
    return false;
}

static void print(const Advice *advice)
{
    for (int i = 0; i < advice->adjustment_count; i++) {
        const Adjustment *n = &advice->adjustments[i];
        printf("    %d. %-60s pocket %.0f > %.0f, vote %.2f, score %.3f\n", i + 1, n->words,
               100.0 * n->pocket_now, 100.0 * n->pocket_after, n->vote, n->score);
    }
}

static void check(const Situation *s, const Advice *advice)
{
    assert_true(advice->adjustment_count >= 1);
    bool accepted = false, forbidden = false, offered = false;
    for (int i = 0; i < advice->adjustment_count; i++) {
        const Adjustment *n = &advice->adjustments[i];
        accepted |= i < 2 && holds(s->accept, n->kind);
        forbidden |= holds(s->never, n->kind) || holds(s->never, n->with);
        offered |= n->kind == s->offered;
        bool surface = n->kind == ADJUST_SURFACE_ROUGH || n->kind == ADJUST_SURFACE_FINE;
        assert_true(s->practice || (!surface && n->surface_grit == 0.0));
        assert_true(!surface || n->caution == CAUTION_SURFACE);
        assert_true(advice->adjustments[i].pocket_after >= 0.0 &&
                    advice->adjustments[i].pocket_after <= 1.0);
        assert_true(advice->adjustments[i].words[0] != '\0' &&
                    advice->adjustments[i].because[0] != '\0');
    }
    if (s->first != END)
        accepted &= advice->adjustments[0].kind == s->first;
    if (!accepted || forbidden || !offered || getenv("SETTEE_SHOW")) {
        printf("  %s\n", s->name);
        print(advice);
    }
    assert_true(accepted);
    assert_false(forbidden);
    assert_true(offered);
}

static void test_situation(void **state)
{
    const Situation *s = *state;
    Answered *a = calloc(1, sizeof *a);
    assert_non_null(a);
    adjustment(s, false, !s->practice, a);
    check(s, advice_result(a->job));
    advice_job_free(a->job);
    free(a);
}

/* The mirrored bowler on the mirrored lane gets the mirrored answer, to the last bit. The demo's
 * pattern is the same from both sides. */
static void test_left_hander(void **state)
{
    (void)state;
    for (int i = 0; i < SITUATIONS_COUNT; i += 4) {
        Answered *right = calloc(1, sizeof *right), *left = calloc(1, sizeof *left);
        assert_non_null(right);
        assert_non_null(left);
        adjustment(&SITUATIONS[i], false, true, right);
        adjustment(&SITUATIONS[i], true, true, left);
        const Advice *r = advice_result(right->job), *l = advice_result(left->job);
        assert_int_equal(r->adjustment_count, l->adjustment_count);
        for (int k = 0; k < r->adjustment_count; k++) {
            assert_int_equal(r->adjustments[k].kind, l->adjustments[k].kind);
            assert_true(r->adjustments[k].score == l->adjustments[k].score);
            assert_true(r->adjustments[k].plan.stance == l->adjustments[k].plan.stance);
            assert_true(r->adjustments[k].plan.aim == l->adjustments[k].plan.aim);
        }
        advice_job_free(right->job);
        advice_job_free(left->job);
        free(right);
        free(left);
    }
}

/* USBC rule 18: no surface change from the start of scoring. A rule set that asks for nothing
 * else must still get none while play is certified, and one in practice. */
static void test_surface_only_in_practice(void **state)
{
    (void)state;
    for (int certified = 0; certified < 2; certified++) {
        Answered *a = calloc(1, sizeof *a);
        assert_non_null(a);
        adjustment(&SITUATIONS[2], false, certified, a);
        advice_job_free(a->job);
        a->rules.count = 1;
        a->rules.rules[0] = (Rule){.id = "more-surface",
                                   .when_count = 1,
                                   .when = {SIGN_LIGHT_LATE},
                                   .try_count = 1,
                                   .try_ = {ADJUST_SURFACE_ROUGH},
                                   .weight = 5,
                                   .because = "more surface",
                                   .source = "common practice"};
        Plan plan = {.slot = 3, .stance = a->shots[0].stance, .aim = a->shots[0].aim};
        AdviceInput input = {.bag = &a->bag,
                             .pattern = &a->pattern,
                             .rules = &a->rules,
                             .shots = a->shots,
                             .shot_count = 2,
                             .plan = plan,
                             .game = 1,
                             .frame = 3,
                             .bowlers_on_pair = 1,
                             .certified = certified};
        a->job = answer(&input);
        const Advice *advice = advice_result(a->job);
        bool offered = false;
        for (int k = 0; k < advice->adjustment_count; k++)
            if (advice->adjustments[k].kind == ADJUST_SURFACE_ROUGH) {
                offered = true;
                assert_int_equal(advice->adjustments[k].caution, CAUTION_SURFACE);
                assert_near(advice->adjustments[k].surface_grit, 1000.0, 0.0);
            }
        assert_true(offered == !certified);
        advice_job_free(a->job);
        free(a);
    }
}

int main(void)
{
    struct CMUnitTest tests[SITUATIONS_COUNT + 2];
    for (int i = 0; i < SITUATIONS_COUNT; i++)
        tests[i] = (struct CMUnitTest){.name = SITUATIONS[i].name,
                                       .test_func = test_situation,
                                       .initial_state = (void *)(uintptr_t)&SITUATIONS[i]};
    tests[SITUATIONS_COUNT] = (struct CMUnitTest)cmocka_unit_test(test_left_hander);
    tests[SITUATIONS_COUNT + 1] =
        (struct CMUnitTest)cmocka_unit_test(test_surface_only_in_practice);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
