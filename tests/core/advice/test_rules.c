/* When a rule fires; and that each built-in rule can fire, and does not without its signs. */
#define _XOPEN_SOURCE 700 /* strtok_r */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "core/advice/rules.h"
#include "store/files.h"

static RuleSet *coach(void)
{
    RuleSet *rules = calloc(1, sizeof *rules);
    Error error = {0};
    assert_non_null(rules);
    if (!files_rules("coach", rules, &error))
        fail_msg("%s", error.text);
    return rules;
}

static void test_fires(void **state)
{
    (void)state;
    const Rule rule = {.when_count = 2,
                       .when = {SIGN_HIGH_EARLY, SIGN_WORN},
                       .unless_count = 2,
                       .unless = {SIGN_BAD_RELEASE, SIGN_SPLIT}};
    for (int bits = 0; bits < 16; bits++) {
        Signs signs = {0};
        signs.seen[SIGN_HIGH_EARLY] = bits & 1;
        signs.seen[SIGN_WORN] = bits & 2;
        signs.seen[SIGN_BAD_RELEASE] = bits & 4;
        signs.seen[SIGN_SPLIT] = bits & 8;
        assert_true(rule_fires(&rule, &signs) == (bits == 3));
    }
}

static void test_fires_whatever_else_is_seen(void **state)
{
    (void)state;
    const Rule rule = {.when_count = 1, .when = {SIGN_LATE}};
    Signs signs = {0};
    for (int sign = 0; sign < SIGN_COUNT; sign++)
        signs.seen[sign] = true;
    assert_true(rule_fires(&rule, &signs));
    signs.seen[SIGN_LATE] = false;
    assert_false(rule_fires(&rule, &signs));
}

/* Each built-in rule fires on exactly its own signs, and on none when one of them is missing or
 * one of its exceptions is seen. */
static void test_every_rule_of_the_coach(void **state)
{
    (void)state;
    RuleSet *rules = coach();
    assert_true(rules->count >= 20);
    for (int i = 0; i < rules->count; i++) {
        const Rule *rule = &rules->rules[i];
        Signs signs = {0};
        for (int k = 0; k < rule->when_count; k++)
            signs.seen[rule->when[k]] = true;
        if (!rule_fires(rule, &signs))
            fail_msg("%s does not fire", rule->id);
        for (int k = 0; k < rule->when_count; k++) {
            signs.seen[rule->when[k]] = false;
            if (rule_fires(rule, &signs))
                fail_msg("%s fires without %s", rule->id, SIGN_NAMES[rule->when[k]]);
            signs.seen[rule->when[k]] = true;
        }
        for (int k = 0; k < rule->unless_count; k++) {
            signs.seen[rule->unless[k]] = true;
            if (rule_fires(rule, &signs))
                fail_msg("%s fires in spite of %s", rule->id, SIGN_NAMES[rule->unless[k]]);
            signs.seen[rule->unless[k]] = false;
        }
    }
    free(rules);
}

/* Every rule has a source, and nothing is in two lists of one rule. */
static void test_rules_are_whole(void **state)
{
    (void)state;
    RuleSet *rules = coach();
    for (int i = 0; i < rules->count; i++) {
        const Rule *rule = &rules->rules[i];
        assert_true(rule->id[0] && rule->because[0] && rule->source[0]);
        assert_true(rule->weight >= 1 && rule->weight <= 5);
        assert_true(rule->when_count >= 1 && rule->try_count >= 1);
        for (int a = 0; a < rule->try_count; a++)
            for (int b = 0; b < rule->avoid_count; b++)
                assert_int_not_equal(rule->try_[a], rule->avoid[b]);
        for (int a = 0; a < rule->when_count; a++)
            for (int b = 0; b < rule->unless_count; b++)
                assert_int_not_equal(rule->when[a], rule->unless[b]);
        for (int k = 0; k < i; k++)
            assert_string_not_equal(rule->id, rules->rules[k].id);
    }
    free(rules);
}

/* Under the sentence of a rule stands one of the answers it asks for: whichever it is, the sentence
 * must speak of it. Any of these words does. */
static const struct {
    AdjustmentKind kind;
    const char *words; /* lower case, apart by | */
} NAMED[] = {
    {ADJUST_HOLD,
     "same shot|same line|same again|hold|leave it alone|keep |see one more|see a second|"
     "see if |wait|throw it again|one good shot before|start where|same first ball|"
     "be ready"},
    {ADJUST_MOVE_IN,
     "move in|big move in|feet one board in|follow the oil in|farther in|inside|in a little|"
     "in around|in to |board in|in for more angle|feet and eyes in"},
    {ADJUST_MOVE_OUT,
     "move out|out toward|board out|half a board|come out|from outside|farther out|out a little|"
     "where they don't"},
    {ADJUST_AIM_IN, "eyes in|target or bring it in"},
    {ADJUST_AIM_OUT, "eyes out|target farther out"},
    {ADJUST_BALL_UP, "ball up|more ball|stronger|reads sooner"},
    {ADJUST_BALL_DOWN, "ball down|next ball down|next one down"},
    {ADJUST_CLEANER, "cleaner|clean ball|saves more"},
    {ADJUST_ROUGHER, "surface|rougher"},
    {ADJUST_SMOOTHER, "smooth"},
    {ADJUST_FASTER, "more speed|legs go|ball higher"},
    {ADJUST_SLOWER, "less speed|slow first"},
    {ADJUST_LOFT_MORE, "loft"},
    {ADJUST_ROTATION_LESS, "stay behind it"},
    {ADJUST_ROTATION_MORE, "come around it"},
    {ADJUST_SURFACE_ROUGH, "rougher"},
    {ADJUST_SURFACE_FINE, "finer"},
};

static bool speaks_of(const char *because, AdjustmentKind kind)
{
    char lower[256], words[400] = "";
    size_t n = 0;
    for (; because[n] && n + 1 < sizeof lower; n++)
        lower[n] = (char)(because[n] >= 'A' && because[n] <= 'Z' ? because[n] + 32 : because[n]);
    lower[n] = '\0';
    for (size_t i = 0; i < sizeof NAMED / sizeof *NAMED; i++)
        if (NAMED[i].kind == kind)
            snprintf(words, sizeof words, "%s", NAMED[i].words);
    char *rest = words;
    for (char *word; (word = strtok_r(rest, "|", &rest));)
        if (strstr(lower, word))
            return true;
    return false;
}

static void test_a_sentence_names_what_it_asks_for(void **state)
{
    (void)state;
    RuleSet *rules = coach();
    int silent = 0;
    for (int i = 0; i < rules->count; i++)
        for (int k = 0; k < rules->rules[i].try_count; k++)
            if (!speaks_of(rules->rules[i].because, rules->rules[i].try_[k])) {
                print_error("%s asks for %s: %s\n", rules->rules[i].id,
                            ADJUST_NAMES[rules->rules[i].try_[k]], rules->rules[i].because);
                silent++;
            }
    assert_int_equal(silent, 0);
    free(rules);
}

/* USBC rule 18: a ball's surface may not be altered from the start of scoring. A rule that asks for
 * it waits for practice; several do, either way. */
static void test_surface_rules_only_in_practice(void **state)
{
    (void)state;
    RuleSet *rules = coach();
    int rougher = 0, finer = 0;
    for (int i = 0; i < rules->count; i++) {
        const Rule *rule = &rules->rules[i];
        bool surface = false;
        for (int k = 0; k < rule->try_count; k++) {
            rougher += rule->try_[k] == ADJUST_SURFACE_ROUGH;
            finer += rule->try_[k] == ADJUST_SURFACE_FINE;
            surface |=
                rule->try_[k] == ADJUST_SURFACE_ROUGH || rule->try_[k] == ADJUST_SURFACE_FINE;
        }
        Signs signs = {0};
        for (int k = 0; k < rule->when_count; k++)
            signs.seen[rule->when[k]] = true;
        signs.seen[SIGN_PRACTICE] = false; /* scored, whatever else is seen */
        assert_true(!surface || !rule_fires(rule, &signs));
        signs.seen[SIGN_PRACTICE] = true;
        assert_true(!surface || rule_fires(rule, &signs));
    }
    assert_true(rougher >= 2 && finer >= 2);
    free(rules);
}

/* One bad throw is no reason to move (common practice): after one, no rule asks for anything but
 * to hold, speed apart. */
static void test_one_bad_release(void **state)
{
    (void)state;
    RuleSet *rules = coach();
    Signs signs = {0};
    signs.seen[SIGN_BAD_RELEASE] = true;
    bool held = false;
    for (int i = 0; i < rules->count; i++)
        if (rule_fires(&rules->rules[i], &signs)) {
            assert_int_equal(rules->rules[i].try_[0], ADJUST_HOLD);
            held = true;
        }
    assert_true(held);
    free(rules);
}

static Shot random_shot(Rng *rng, int mood, int leave)
{
    Shot shot = {.lane = rng_uniform(rng) < 0.5 ? SIDE_LEFT : SIDE_RIGHT,
                 .slot = 1,
                 .stance = 26.0,
                 .aim = 15.0,
                 .mph = 18.0 + rng_between(rng, -0.5, 0.5),
                 .hit = (Hit)rng_between(rng, HIT_GUTTER, HIT_COUNT),
                 .read = (Read)rng_between(rng, 0.0, READ_COUNT),
                 .ringing = rng_uniform(rng) < 0.5};
    if (mood == 1) /* in and out of the pocket */
        shot.hit = (Hit)rng_between(rng, HIT_LIGHT, HIT_HIGH + 1.0);
    if (rng_uniform(rng) < 0.2)
        shot.release = (Release)rng_between(rng, 0.0, RELEASE_COUNT);
    if (rng_uniform(rng) < 0.1)
        shot.slot = 2;
    shot.left_said = rng_uniform(rng) < 0.5;
    int pins = (int)rng_between(rng, 1.0, 4.0);
    for (int i = 0; i < pins && shot.left_said; i++)
        shot.left |= pin_bit((int)rng_between(rng, 2.0, 11.0));
    if (mood == 2) { /* flush, and one leave again and again */
        static const Pins LEAVES[] = {1 << 9, 1 << 3,          1 << 8,          1 << 6,
                                      1 << 7, 1 << 7 | 1 << 9, 1 << 6 | 1 << 9, 0};
        shot.hit = HIT_FLUSH;
        shot.read = (Read)rng_between(rng, READ_EARLY, READ_LATE + 1.0);
        shot.left_said = true;
        shot.left = LEAVES[leave];
    }
    return shot;
}

/* No rule is dead: each fires on some history of shots, not just on hand-made signs. */
static void test_every_rule_can_be_reached(void **state)
{
    (void)state;
    RuleSet *rules = coach();
    int fired[RULES_MAX] = {0};
    Rng rng = rng_seed(3);
    for (int round = 0; round < 60000; round++) {
        Shot shots[8];
        int count = (int)rng_between(&rng, 0.0, 8.0);
        for (int i = 0; i < count; i++)
            shots[i] = random_shot(&rng, round % 3, round % 8);
        SignsContext context = {
            .laydown_offset_boards = 6.0,
            .length_ft = rng_between(&rng, 32.0, 47.0),
            .ratio = rng_between(&rng, 1.0, 6.0),
            .plan = {.slot = 1, .stance = rng_uniform(&rng) < 0.5 ? 26.0 : 36.0, .aim = 15.0},
            .game = (int)rng_between(&rng, 1.0, 5.0),
            .frame = (int)rng_between(&rng, 1.0, 11.0),
            .deliveries = (int)rng_between(&rng, 0.0, 200.0)};
        context.revs_per_mph = rng_between(&rng, 10.0, 30.0);
        context.scatter_boards = rng_between(&rng, 0.5, 4.0);
        context.outside_share = rng_between(&rng, 0.0, 1.5);
        context.bowlers_on_pair = (int)rng_between(&rng, 1.0, 7.0);
        context.urethane_others = (int)rng_between(&rng, 0.0, 2.0);
        context.practice = rng_uniform(&rng) < 0.5;
        context.strongest = rng_uniform(&rng) < 0.3;
        context.weakest = !context.strongest && rng_uniform(&rng) < 0.3;
        for (int i = 0; i < count; i++)
            shots[i].stance = context.plan.stance;
        Signs signs;
        signs_read(&context, shots, count, &signs);
        for (int i = 0; i < rules->count; i++)
            fired[i] += rule_fires(&rules->rules[i], &signs);
    }
    for (int i = 0; i < rules->count; i++)
        if (!fired[i])
            fail_msg("%s never fires", rules->rules[i].id);
    free(rules);
}

static void test_words(void **state)
{
    (void)state;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        assert_true(ADJUST_NAMES[kind][0] && ADJUST_WORDS[kind][0]);
    assert_null(ADJUST_NAMES[ADJUST_COUNT]);
    for (int caution = 0; caution < CAUTION_COUNT; caution++)
        assert_true((CAUTION_WORDS[caution][0] == '\0') == (caution == CAUTION_NONE));
    assert_null(CAUTION_NAMES[CAUTION_COUNT]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fires),
        cmocka_unit_test(test_fires_whatever_else_is_seen),
        cmocka_unit_test(test_every_rule_of_the_coach),
        cmocka_unit_test(test_rules_are_whole),
        cmocka_unit_test(test_a_sentence_names_what_it_asks_for),
        cmocka_unit_test(test_surface_rules_only_in_practice),
        cmocka_unit_test(test_one_bad_release),
        cmocka_unit_test(test_every_rule_can_be_reached),
        cmocka_unit_test(test_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
