/* Advice at its edges: whatever was logged there is an answer, its numbers are finite, its text
 * fits, and it is the same every time. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "base/text.h"
#include "helper_demo.h"
#include "helper_same.h"

static void roll_answer(const Asked *asked, const AdviceJob *job, const Adjustment *answer,
                        Roll *roll)
{
    advice_roll(advice_result(job), asked->in.bag, &answer->plan, answer->surface_grit, roll);
}

static bool goes_to_gutter(const Asked *asked, const AdviceJob *job, const Adjustment *answer)
{
    Roll roll;
    roll_answer(asked, job, answer, &roll);
    return roll.gutter;
}

static void assert_sound(const AdviceJob *job, const Asked *asked)
{
    const Advice *advice = advice_result(job);
    assert_true(advice->adjustment_count >= 1 &&
                advice->adjustment_count <= ADVICE_ADJUSTMENTS_MAX);
    assert_true(isfinite(advice->lane.scale) && isfinite(advice->lane.scale_sd));
    assert_true(advice->now.pocket >= 0.0 && advice->now.pocket <= 1.0);
    bool held = false;
    int pairs = 0;
    for (int i = 0; i < advice->adjustment_count; i++) {
        const Adjustment *a = &advice->adjustments[i];
        assert_true(a->pocket_now >= 0.0 && a->pocket_now <= 1.0);
        assert_true(a->pocket_after >= 0.0 && a->pocket_after <= 1.0);
        assert_true(a->margin_in >= 0.0 && a->margin_in <= 3.0 && a->margin_out >= 0.0 &&
                    a->margin_out <= 3.0);
        assert_true(a->vote >= 0.0 && a->vote <= 1.0);
        assert_true(isfinite(a->score));
        if (i > 2) /* best first, but for the first two, where the rules may insist */
            assert_true(a->score <= advice->adjustments[i - 1].score);
        assert_true(isfinite(a->plan.stance) && isfinite(a->plan.aim));
        assert_true(isfinite(a->plan.mph_change) && isfinite(a->plan.loft_change_ft));
        /* no angle in the gutter, otherwise a number */
        assert_true(isfinite(a->entry_deg) || goes_to_gutter(asked, job, a));
        const Ball *ball = bag_slot(asked->in.bag, a->plan.slot);
        assert_non_null(ball);
        assert_true(ball->cover != COVER_POLYESTER || a->plan.slot == asked->in.plan.slot);
        if (asked->in.certified)
            assert_true(a->kind != ADJUST_SURFACE_ROUGH && a->kind != ADJUST_SURFACE_FINE &&
                        a->surface_grit == 0.0);
        assert_true(a->words[0] != '\0' && strlen(a->words) < sizeof a->words - 1);
        assert_true(a->because[0] != '\0');
        assert_int_equal(text_utf8_fault(a->words, strlen(a->words)), strlen(a->words));
        assert_true(a->rule_count >= 0 && a->rule_count <= ADJUSTMENT_RULES_MAX);
        for (int k = 0; k < a->rule_count; k++)
            assert_true(a->rules[k] >= 0 && a->rules[k] < asked->rules.count);
        assert_true((unsigned)a->caution < CAUTION_COUNT);
        for (int k = 0; k < i; k++)
            assert_true(advice->adjustments[k].kind != a->kind ||
                        advice->adjustments[k].with != a->with);
        pairs += a->with != ADJUST_HOLD;
        held |= a->kind == ADJUST_HOLD;
    }
    assert_true(pairs <= 1);
    assert_true(held); /* holding is always an answer */
}

/* Runs the job, checking everything that can be shown on the way. */
static AdviceJob *run(const Asked *asked)
{
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    advice_begin(job, &asked->in);
    bool ready = false, done = false;
    for (int slices = 0; !done; slices++) {
        assert_true(slices < 2000);
        done = advice_step(job);
        assert_true(advice_result(job)->done == done);
        assert_true(!ready || advice_result(job)->ready); /* once ready, always ready */
        ready = advice_result(job)->ready;
        if (ready) {
            assert_true(advice_result(job)->adjustment_count >= 1);
            assert_true(advice_result(job)->now_roll.count >= 1);
        }
    }
    assert_true(ready);
    assert_sound(job, asked);
    return job;
}

static void run_and_free(Asked *asked)
{
    advice_job_free(run(asked));
    free(asked);
}

/* How deep is deep goes by revs for each mile an hour: the same laydown is deep for few of them. */
static void test_deep_goes_by_revs(void **state)
{
    (void)state;
    for (int strong = 0; strong < 2; strong++) {
        Asked *asked = ask();
        asked->bag.bowler.mph = 17.0;
        asked->bag.bowler.rpm = strong ? 500.0 : 300.0;
        asked->in.plan.stance = 29.0 + asked->bag.bowler.laydown_offset_boards;
        asked->in.plan.aim = 18.0;
        AdviceJob *job = run(asked);
        assert_int_equal(advice_result(job)->signs.seen[SIGN_DEEP_INSIDE], !strong);
        advice_job_free(job);
        free(asked);
    }
}

static void test_no_shots(void **state)
{
    (void)state;
    Asked *asked = ask();
    AdviceJob *job = run(asked);
    const Advice *advice = advice_result(job);
    assert_true(advice->signs.seen[SIGN_FIRST_SHOTS]);
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        assert_true(advice->slot[slot].filled && advice->slot[slot].ready);
        assert_true(isfinite(advice->slot[slot].line.pocket));
    }
    advice_job_free(job);
    free(asked);
}

/* A third game of which no shot was told: four bowlers have worn both lanes for twenty frames, and
 * a lone one less. */
static void test_worn_before_the_first_shot(void **state)
{
    (void)state;
    static const int BOWLERS[] = {4, 1, 4}, GAMES[] = {3, 3, 1}, WORN[] = {40, 10, 0};
    double film[3];
    for (int i = 0; i < 3; i++) {
        Asked *asked = ask();
        asked->in.game = GAMES[i];
        asked->in.frame = 1;
        asked->in.bowlers_on_pair = BOWLERS[i];
        AdviceJob *job = answer(&asked->in);
        assert_int_equal(advice_result(job)->lane.deliveries, WORN[i]);
        film[i] = belief_track(advice_belief(job), SIDE_LEFT, 10, 20, 5.0, 35.0).mean;
        advice_job_free(job);
        free(asked);
    }
    assert_true(film[0] < film[1] && film[1] < film[2]);
}

static void test_usable_as_soon_as_ready(void **state)
{
    (void)state;
    Asked *asked = ask();
    say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    say(asked, SIDE_RIGHT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    asked->in.game = 1;
    asked->in.frame = 3; /* no frame is untold */
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    advice_begin(job, &asked->in);
    assert_false(advice_result(job)->ready);
    int slices = 1;
    while (!advice_step(job) && !advice_result(job)->ready)
        slices++;
    assert_true(advice_result(job)->ready && !advice_result(job)->done);
    assert_true(slices <= 11); /* bodies, three for the others' lines, two for each shot, their end,
                                * signs */
    assert_sound(job, asked);
    do
        assert_sound(job, asked); /* and at every slice from then on */
    while (!advice_step(job));
    assert_sound(job, asked);
    assert_true(advice_step(job)); /* done stays done */
    advice_job_free(job);
    free(asked);
}

static void test_one_shot(void **state)
{
    (void)state;
    for (int hit = HIT_GUTTER; hit < HIT_COUNT; hit++) {
        Asked *asked = ask();
        say(asked, SIDE_LEFT, (Hit)hit, READ_UNSAID, RELEASE_UNSAID);
        run_and_free(asked);
    }
}

static void test_all_releases_bad(void **state)
{
    (void)state;
    Asked *asked = ask();
    for (int i = 0; i < 6; i++)
        say(asked, i % 2 ? SIDE_RIGHT : SIDE_LEFT, i % 2 ? HIT_NOSE : HIT_THIN, READ_EARLY,
            (Release)(RELEASE_INSIDE + i % 5));
    AdviceJob *job = run(asked);
    assert_int_equal(advice_result(job)->adjustments[0].kind, ADJUST_HOLD); /* no reason to move */
    assert_near(advice_result(job)->lane.scale, 1.0, 0.15); /* and little to learn */
    advice_job_free(job);
    free(asked);
}

static void test_contradictions(void **state)
{
    (void)state;
    Asked *asked = ask();
    for (int i = 0; i < 20; i++)
        say(asked, i % 2 ? SIDE_RIGHT : SIDE_LEFT, i % 3 ? HIT_CROSSED : HIT_WIDE,
            i % 2 ? READ_EARLY : READ_NONE, RELEASE_GOOD);
    run_and_free(asked);
}

/* A leave the hit can't have left: the hit is believed, and there is an answer. */
static void test_leave_that_cannot_be(void **state)
{
    (void)state;
    static const Pins LEAVES[] = {PINS_ALL, 0, 1, 0x200, 0x3fe};
    for (size_t i = 0; i < sizeof LEAVES / sizeof LEAVES[0]; i++) {
        Asked *asked = ask();
        say(asked, SIDE_LEFT, HIT_GUTTER, READ_UNSAID, RELEASE_GOOD);
        asked->shots[0].left_said = true;
        asked->shots[0].left = LEAVES[i];
        say(asked, SIDE_RIGHT, HIT_FLUSH, READ_LATE, RELEASE_GOOD);
        asked->shots[1].left_said = true;
        asked->shots[1].left = PINS_ALL;
        run_and_free(asked);
    }
}

static void test_ball_that_left_the_bag(void **state)
{
    (void)state;
    Asked *asked = ask();
    for (int i = 0; i < 4; i++)
        say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    asked->shots[0].slot = 2;
    asked->shots[2].slot = 0;
    asked->shots[3].slot = 99;
    for (int i = 0; i < asked->bag.count; i++)
        if (asked->bag.balls[i].slot == 2)
            asked->bag.balls[i].slot = 0; /* back in the locker */
    AdviceJob *job = run(asked);
    assert_int_equal(advice_result(job)->lane.deliveries, 2); /* one, and another bowler's */
    assert_false(advice_result(job)->slot[1].filled);
    advice_job_free(job);
    free(asked);
}

static void keep_only(Bag *bag, int slot)
{
    for (int i = 0; i < bag->count; i++)
        if (bag->balls[i].slot != slot)
            bag->balls[i].slot = 0;
}

static void test_one_ball_alone(void **state)
{
    (void)state;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        Asked *asked = ask();
        keep_only(&asked->bag, slot);
        asked->in.plan.slot = slot;
        say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
        say(asked, SIDE_RIGHT, HIT_NOSE, READ_EARLY, RELEASE_GOOD);
        AdviceJob *job = run(asked);
        for (int i = 0; i < advice_result(job)->adjustment_count; i++)
            assert_int_equal(advice_result(job)->adjustments[i].plan.slot, slot);
        advice_job_free(job);
        free(asked);
    }
}

static void test_empty_locker(void **state)
{
    (void)state;
    Asked *asked = ask();
    int kept = 0;
    for (int i = 0; i < asked->bag.count; i++)
        if (asked->bag.balls[i].slot == 1)
            asked->bag.balls[kept++] = asked->bag.balls[i];
    asked->bag.count = kept;
    say(asked, SIDE_LEFT, HIT_LIGHT, READ_LATE, RELEASE_GOOD);
    run_and_free(asked);
}

static void test_no_rules(void **state)
{
    (void)state;
    Asked *asked = ask();
    asked->rules.count = 0;
    say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    run_and_free(asked);
}

/* A rule set that forbids everything still allows holding. */
static void test_everything_forbidden(void **state)
{
    (void)state;
    Asked *asked = ask();
    asked->rules.count = (ADJUST_COUNT + RULE_ADJUSTMENTS_MAX - 1) / RULE_ADJUSTMENTS_MAX;
    for (int i = 0; i < asked->rules.count; i++) {
        Rule *rule = &asked->rules.rules[i];
        *rule = (Rule){.id = "no",
                       .when_count = 1,
                       .when = {SIGN_HIGH_ONCE},
                       .try_count = 1,
                       .try_ = {ADJUST_HOLD},
                       .avoid_count = RULE_ADJUSTMENTS_MAX,
                       .weight = 5,
                       .because = "no",
                       .source = "common practice"};
        for (int k = 0; k < RULE_ADJUSTMENTS_MAX; k++)
            rule->avoid[k] = (AdjustmentKind)((i * RULE_ADJUSTMENTS_MAX + k) % ADJUST_COUNT);
    }
    say(asked, SIDE_LEFT, HIT_HIGH, READ_ON_TIME, RELEASE_GOOD);
    AdviceJob *job = run(asked);
    assert_int_equal(advice_result(job)->adjustment_count, 1);
    assert_int_equal(advice_result(job)->adjustments[0].kind, ADJUST_HOLD);
    advice_job_free(job);
    free(asked);
}

/* A rule for every action there is, all firing. */
static void everything_asked(Asked *asked)
{
    asked->rules.count = ADJUST_COUNT;
    for (int i = 0; i < ADJUST_COUNT; i++)
        asked->rules.rules[i] = (Rule){.id = "yes",
                                       .when_count = 1,
                                       .when = {SIGN_HIGH_ONCE},
                                       .try_count = 1,
                                       .try_ = {(AdjustmentKind)i},
                                       .weight = 3,
                                       .because = "try it",
                                       .source = "common practice"};
    say(asked, SIDE_LEFT, HIT_HIGH, READ_ON_TIME, RELEASE_GOOD);
}

static void test_certified_gives_no_surface(void **state)
{
    (void)state;
    for (int certified = 0; certified < 2; certified++)
        for (int slot = 1; slot <= BAG_SLOTS; slot++) {
            Asked *asked = ask();
            asked->in.certified = certified;
            asked->in.plan.slot = slot;
            everything_asked(asked);
            AdviceJob *job = run(asked); /* checks the certified */
            int surfaces = 0;
            for (int i = 0; i < advice_result(job)->adjustment_count; i++) {
                const Adjustment *a = &advice_result(job)->adjustments[i];
                surfaces += a->surface_grit > 0.0;
                assert_true(a->surface_grit == 0.0 || a->caution == CAUTION_SURFACE);
            }
            if (certified)
                assert_int_equal(surfaces, 0);
            else if (slot <= 4) /* sanded reactive ones and urethane can go either way */
                assert_int_equal(surfaces, 2);
            advice_job_free(job);
            free(asked);
        }
}

/* The longest name a ball may have, and fractions everywhere, still leave room for all the words.
 */
static void test_words_fit(void **state)
{
    (void)state;
    Asked *asked = ask();
    for (int i = 0; i < asked->bag.count; i++) {
        char *name = asked->bag.balls[i].name;
        memset(name, 'W', sizeof asked->bag.balls[i].name - 1);
        name[sizeof asked->bag.balls[i].name - 1] = '\0';
    }
    asked->in.certified = false;
    asked->in.plan.stance = 26.123456;
    asked->in.plan.aim = 14.654321;
    asked->in.plan.mph_change = -0.512345;
    asked->in.plan.loft_change_ft = 1.012345;
    everything_asked(asked);
    AdviceJob *job = run(asked);
    for (int i = 0; i < advice_result(job)->adjustment_count; i++) {
        const Adjustment *a = &advice_result(job)->adjustments[i];
        if (a->with == ADJUST_HOLD && a->plan.slot != 1 && a->plan.aim != asked->in.plan.aim)
            assert_string_equal(a->words + strlen(a->words) - 4, "eyes"); /* not cut */
    }
    advice_job_free(job);
    free(asked);
}

static void test_plan_in_the_gutter(void **state)
{
    (void)state;
    Asked *asked = ask();
    asked->in.plan = (Plan){.slot = 6, .stance = 20.0, .aim = 0.5};
    say(asked, SIDE_LEFT, HIT_GUTTER, READ_UNSAID, RELEASE_GOOD);
    run_and_free(asked);
}

static void test_plans_at_their_limits(void **state)
{
    (void)state;
    static const Plan PLANS[] = {
        {1, -10.0, -10.0, -2.0, -3.0, 0.0}, {1, 60.0, 50.0, 2.0, 5.0, 110.0},
        {3, 60.0, -10.0, 0.0, 0.0, 0.0},    {3, -10.0, 50.0, 0.0, 0.0, -110.0},
        {4, 8.0, 2.0, 2.0, 5.0, 20.0},      {4, 44.0, 30.0, -2.0, -3.0, 0.0}};
    for (size_t i = 0; i < sizeof PLANS / sizeof PLANS[0]; i++) {
        Asked *asked = ask();
        asked->in.plan = PLANS[i];
        everything_asked(asked);
        run_and_free(asked);
    }
}

/* Shots without stance and aim were thrown as planned. */
static void test_unsaid_line_is_the_plan(void **state)
{
    (void)state;
    Asked *said = ask(), *unsaid = ask();
    for (int i = 0; i < 3; i++) {
        say(said, SIDE_LEFT, HIT_LIGHT, READ_LATE, RELEASE_GOOD);
        say(unsaid, SIDE_LEFT, HIT_LIGHT, READ_LATE, RELEASE_GOOD);
        unsaid->shots[i].stance = unsaid->shots[i].aim = 0.0;
    }
    AdviceJob *a = run(said), *b = run(unsaid);
    assert_same_advice(advice_result(a), advice_result(b));
    advice_job_free(a);
    advice_job_free(b);
    free(said);
    free(unsaid);
}

static Asked *random_ask(uint64_t seed)
{
    Rng rng = rng_seed(seed);
    Asked *asked = ask();
    asked->in.plan.slot = 1 + (int)rng_between(&rng, 0.0, 6.0);
    asked->in.plan.stance = rng_between(&rng, 18.0, 36.0);
    asked->in.plan.aim = asked->in.plan.stance - rng_between(&rng, 6.0, 18.0);
    asked->in.game = 1 + (int)rng_between(&rng, 0.0, 6.0);
    asked->in.frame = 1 + (int)rng_between(&rng, 0.0, 10.0);
    asked->in.lane = rng_uniform(&rng) < 0.5 ? SIDE_LEFT : SIDE_RIGHT;
    asked->in.bowlers_on_pair = 1 + (int)rng_between(&rng, 0.0, 5.0);
    asked->in.certified = rng_uniform(&rng) < 0.5;
    asked->bag.bowler.hand = rng_uniform(&rng) < 0.5 ? HAND_LEFT : HAND_RIGHT;
    for (int i = 0; i < asked->bag.count; i++) /* some slots stand empty */
        if (asked->bag.balls[i].slot != asked->in.plan.slot && rng_uniform(&rng) < 0.3)
            asked->bag.balls[i].slot = 0;
    int shots = (int)rng_between(&rng, 0.0, 12.0);
    for (int i = 0; i < shots; i++) {
        say(asked, rng_uniform(&rng) < 0.5 ? SIDE_LEFT : SIDE_RIGHT,
            (Hit)rng_between(&rng, 0.0, HIT_COUNT), (Read)rng_between(&rng, 0.0, READ_COUNT),
            rng_uniform(&rng) < 0.7 ? RELEASE_GOOD
                                    : (Release)rng_between(&rng, 0.0, RELEASE_COUNT));
        Shot *shot = &asked->shots[i];
        shot->slot = rng_uniform(&rng) < 0.8 ? shot->slot : (int)rng_between(&rng, 0.0, 8.0);
        shot->mph = rng_uniform(&rng) < 0.5 ? 0.0 : rng_between(&rng, 16.0, 20.0);
        shot->left_said = rng_uniform(&rng) < 0.6;
        shot->left = shot->left_said ? (Pins)rng_between(&rng, 0.0, 1024.0) : 0;
    }
    return asked;
}

/* Whatever was logged: sound, and the same bytes when asked again. */
static void test_random_days(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 8; seed++) {
        Asked *asked = random_ask(seed);
        AdviceJob *first = run(asked), *second = run(asked);
        assert_same_advice(advice_result(first), advice_result(second));
        /* a job used before gives the same as a new one */
        advice_begin(first, &asked->in);
        while (!advice_step(first))
            ;
        assert_same_advice(advice_result(first), advice_result(second));
        advice_job_free(first);
        advice_job_free(second);
        free(asked);
    }
}

/* A job asked again as the day goes on, with one more shot, one undone, one edited, two more at
 * once, or stopped half way, gives the same answer as a new job. */
static void test_going_on_is_starting_anew(void **state)
{
    (void)state;
    static const struct {
        int count;  /* shots of the day that are given */
        int edited; /* the one with another read; -1: none */
        int steps;  /* slices before the next question comes; 0: all */
    } QUESTIONS[] = {{0, -1, 0}, {1, -1, 0}, {2, -1, 0}, {1, -1, 0}, {2, 1, 0},
                     {4, -1, 0}, {3, -1, 2}, {6, -1, 3}, {6, -1, 0}, {5, -1, 0},
                     {5, 0, 0},  {0, -1, 0}, {8, -1, 4}, {7, 6, 0}};
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    Asked *asked = ask();
    for (int i = 0; i < 8; i++)
        say(asked, i % 2 ? SIDE_RIGHT : SIDE_LEFT, (Hit)(HIT_THIN + i % 5), (Read)(i % READ_COUNT),
            i % 4 == 3 ? RELEASE_SLOW : RELEASE_GOOD);
    for (size_t q = 0; q < sizeof QUESTIONS / sizeof QUESTIONS[0]; q++) {
        asked->in.shot_count = QUESTIONS[q].count;
        Shot *edited = QUESTIONS[q].edited >= 0 ? &asked->shots[QUESTIONS[q].edited] : NULL;
        Hit said = edited ? edited->hit : HIT_UNSAID;
        if (edited)
            edited->hit = HIT_CROSSED;
        advice_begin(job, &asked->in);
        bool done = false;
        for (int k = 0; !done && (QUESTIONS[q].steps == 0 || k < QUESTIONS[q].steps); k++)
            done = advice_step(job);
        if (done) {
            AdviceJob *fresh = run(asked);
            assert_same_advice(advice_result(job), advice_result(fresh));
            advice_job_free(fresh);
        }
        if (edited)
            edited->hit = said;
    }
    advice_job_free(job);
    free(asked);
}

/* The rest of the question may change in between: the lane, the plan, the bag, the bowlers. */
static void test_another_question(void **state)
{
    (void)state;
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    Asked *asked = ask();
    for (int i = 0; i < 4; i++)
        say(asked, i % 2 ? SIDE_RIGHT : SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    asked->shots[1].stance = asked->shots[1].aim = 0.0; /* as planned, whatever that is */
    for (int change = 0; change < 7; change++) {
        if (change == 1)
            asked->in.lane = SIDE_RIGHT;
        if (change == 2)
            asked->in.plan.stance += 2.0;
        if (change == 3)
            asked->in.bowlers_on_pair = 5;
        if (change == 4)
            asked->bag.balls[0].rg_in += 0.05;
        if (change == 5)
            asked->bag.bowler.hand = HAND_LEFT;
        if (change == 6)
            asked->bag.bowler.scatter.launch_deg *= 2.0;
        advice_begin(job, &asked->in);
        while (!advice_step(job))
            ;
        AdviceJob *fresh = run(asked);
        assert_same_advice(advice_result(job), advice_result(fresh));
        advice_job_free(fresh);
    }
    advice_job_free(job);
    free(asked);
}

/* An answer's plan rolls roughly as the answer says: the path is for the mean lane and day, while
 * the answer's angle is the mean over all particles. */
static void test_roll_of_an_answer(void **state)
{
    (void)state;
    Asked *asked = ask();
    say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    AdviceJob *job = run(asked);
    for (int i = 0; i < advice_result(job)->adjustment_count; i++) {
        const Adjustment *a = &advice_result(job)->adjustments[i];
        Roll roll;
        roll_answer(asked, job, a, &roll);
        assert_near(roll.entry_deg, a->entry_deg, 0.6);
    }
    advice_job_free(job);
    free(asked);
}

/* The plan's own path, rolled again, is the one that the advice has, with what was learnt of line
 * and ball; with the other lane's, or with none of it, the ball would hit elsewhere. */
static void test_rolls_as_learnt(void **state)
{
    (void)state;
    Asked *asked = ask();
    for (int i = 0; i < 4; i++)
        say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    AdviceJob *job = run(asked);
    static Advice advice;
    Roll roll;
    advice = *advice_result(job);
    advice_roll(&advice, asked->in.bag, &asked->in.plan, 0.0, &roll);
    assert_near(roll.entry_board, advice.now_roll.entry_board, 1e-3);
    memset(advice.lane.offsets, 0, sizeof advice.lane.offsets);
    advice_roll(&advice, asked->in.bag, &asked->in.plan, 0.0, &roll);
    assert_true(fabs(advice.lane.off.mean) > 0.02);
    assert_near(advice.now_roll.entry_board - roll.entry_board, advice.lane.off.mean, 1e-3);
    advice_job_free(job);
    free(asked);
}

/* What a ball does with another surface is seen in its path too. */
static void test_rolls_with_its_surface(void **state)
{
    (void)state;
    Asked *asked = ask();
    asked->in.certified = false;
    everything_asked(asked);
    AdviceJob *job = run(asked);
    const Advice *advice = advice_result(job);
    int surfaces = 0;
    for (int i = 0; i < advice->adjustment_count; i++) {
        const Adjustment *a = &advice->adjustments[i];
        Roll roll;
        roll_answer(asked, job, a, &roll);
        surfaces += a->surface_grit > 0.0;
        if (a->kind != ADJUST_HOLD)
            assert_near(roll.entry_board - advice->now_roll.entry_board, a->hit_boards, 1e-6);
    }
    assert_int_equal(surfaces, 2);
    advice_job_free(job);
    free(asked);
}

/* The lanes kept apart, the left one always high and early, the right one always light and late:
 * each answer is about its own lane. Moving in is the usual answer to the one, out to the other
 * (common practice, no source). */
static void test_lanes_kept_apart(void **state)
{
    (void)state;
    for (int shots = 1; shots <= 6; shots++) /* apart from the first shot on, whatever was seen */
        for (int lane = 0; lane < SIDE_COUNT; lane++) {
            Asked *asked = ask();
            asked->in.lane = (Side)lane;
            asked->in.apart = true;
            for (int i = 0; i < shots; i++)
                say(asked, i % 2 ? SIDE_RIGHT : SIDE_LEFT, i % 2 ? HIT_LIGHT : HIT_HIGH,
                    i % 2 ? READ_LATE : READ_EARLY, RELEASE_GOOD);
            AdviceJob *job = run(asked);
            const Signs *signs = &advice_result(job)->signs;
            assert_int_equal(signs->seen[SIGN_HIGH_EARLY], lane == SIDE_LEFT);
            assert_int_equal(signs->seen[SIGN_LIGHT_LATE], lane == SIDE_RIGHT && shots > 1);
            assert_false(signs->seen[SIGN_ALTERNATING]);
            for (int sign = SIGN_HIGH_EARLY; sign <= SIGN_LIGHT_LATE; sign++)
                for (int k = 0; k < signs->shot_count[sign]; k++)
                    assert_int_equal(asked->shots[signs->shots[sign][k]].lane, lane);
            advice_job_free(job);
            free(asked);
        }
}

/* The result carries its question's revision from the first slice on. */
static void test_revision(void **state)
{
    (void)state;
    static const long REVISIONS[] = {7, 0, -3, 2000000000};
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    Asked *asked = ask();
    for (int i = 0; i < 4; i++) {
        asked->in.revision = REVISIONS[i];
        advice_begin(job, &asked->in);
        asked->in.revision = 99; /* the job has its own copy */
        assert_int_equal(advice_result(job)->revision, REVISIONS[i]);
        assert_false(advice_result(job)->ready); /* nothing left of the previous question */
        assert_int_equal(advice_result(job)->adjustment_count, 0);
        for (int k = 0; k < BAG_SLOTS; k++)
            assert_false(advice_result(job)->slot[k].ready);
        bool done = false;
        for (int k = 0; !done && (i % 2 == 0 || k < 20); k++) { /* some are left half done */
            done = advice_step(job);
            assert_int_equal(advice_result(job)->revision, REVISIONS[i]);
        }
    }
    advice_job_free(job);
    free(asked);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_deep_goes_by_revs),
        cmocka_unit_test(test_no_shots),
        cmocka_unit_test(test_usable_as_soon_as_ready),
        cmocka_unit_test(test_worn_before_the_first_shot),
        cmocka_unit_test(test_one_shot),
        cmocka_unit_test(test_all_releases_bad),
        cmocka_unit_test(test_contradictions),
        cmocka_unit_test(test_leave_that_cannot_be),
        cmocka_unit_test(test_ball_that_left_the_bag),
        cmocka_unit_test(test_one_ball_alone),
        cmocka_unit_test(test_empty_locker),
        cmocka_unit_test(test_no_rules),
        cmocka_unit_test(test_everything_forbidden),
        cmocka_unit_test(test_certified_gives_no_surface),
        cmocka_unit_test(test_rolls_as_learnt),
        cmocka_unit_test(test_rolls_with_its_surface),
        cmocka_unit_test(test_words_fit),
        cmocka_unit_test(test_plan_in_the_gutter),
        cmocka_unit_test(test_plans_at_their_limits),
        cmocka_unit_test(test_unsaid_line_is_the_plan),
        cmocka_unit_test(test_random_days),
        cmocka_unit_test(test_going_on_is_starting_anew),
        cmocka_unit_test(test_another_question),
        cmocka_unit_test(test_roll_of_an_answer),
        cmocka_unit_test(test_lanes_kept_apart),
        cmocka_unit_test(test_revision),
    };
    return cmocka_run_group_tests(tests, demo_set_up, NULL);
}
