/* test_compare.c - overlaps, gaps, surfaces and places of a set, from values written here, so that
 * each answer is a sum one can do by hand. No source outside: this is arithmetic, and the words of
 * arsenal.h. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/arsenal/arsenal_parts.h"

/* Balls of the bag by index. The first three are in slots 1, 2 and 4; the last is for spares. */
enum { ONE, TWO, THREE, LOCKER, SPARE, BALLS };

static Bag BAG;
static Arsenal *A;
static double IDEAL[IDEALS * STATE_FILMS]; /* worth nothing, unless a test says otherwise */

static int set_up(void **state)
{
    (void)state;
    static const char *const NAMES[BALLS] = {"one", "two", "three", "locker", "spare"};
    static const int SLOTS[BALLS] = {1, 2, 4, 0, 6};
    free(A);
    A = calloc(1, sizeof *A);
    if (!A)
        return -1;
    memset(&BAG, 0, sizeof BAG);
    memset(IDEAL, 0, sizeof IDEAL);
    BAG.count = BALLS;
    A->games = 4;
    for (int b = 0; b < BALLS; b++) {
        strcpy(BAG.balls[b].name, NAMES[b]);
        strcpy(BAG.balls[b].id, NAMES[b]);
        BAG.balls[b].slot = SLOTS[b];
        BAG.balls[b].cover = b == SPARE ? COVER_POLYESTER : COVER_SOLID;
        BAG.balls[b].surface = SURFACE_SET[3];
        A->ball[b].spare = b == SPARE;
    }
    for (int s = 0; s < LANE_STATE_COUNT; s++)
        A->weight[s] = (s + 1) / 28.0; /* 1 to 7, together 1 */
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    free(A);
    A = NULL;
    return 0;
}

static void every_film(int ball, double value)
{
    for (int f = 0; f < STATE_FILMS; f++)
        A->ball[ball].value[f] = value;
    for (int g = 0; g <= A->games; g++)
        A->ball[ball].at[g].value = value;
}

static void in_state(double value[STATE_FILMS], LaneState state, double thin, double as_dressed,
                     double thick)
{
    /* lane_states.h: as dressed first, then a sixth less, then a sixth more */
    value[state * STATE_VOLUMES] = as_dressed;
    value[state * STATE_VOLUMES + 1] = thin;
    value[state * STATE_VOLUMES + 2] = thick;
}

static void a_film_weighs_its_state_and_volume(void **state)
{
    (void)state;
    double sum = 0.0;
    for (int f = 0; f < STATE_FILMS; f++)
        sum += arsenal_film_weight(A, f);
    assert_near(sum, 1.0, 1e-12);
    assert_near(arsenal_film_weight(A, LANE_BURNT * STATE_VOLUMES), 0.5 * 3.0 / 28.0, 1e-12);
    assert_near(arsenal_film_weight(A, LANE_CLIFFED * STATE_VOLUMES + 2), 0.25 * 7.0 / 28.0, 1e-12);
}

/* On each volume the best ball counts, then half, a quarter and a quarter of them. */
static void a_gap_is_what_the_best_of_each_lacks(void **state)
{
    (void)state;
    every_film(ONE, 0.4);
    every_film(TWO, 0.3);
    every_film(THREE, 0.2);
    every_film(LOCKER, 0.1);
    every_film(SPARE, 0.9); /* takes no part */
    in_state(A->ball[TWO].value, LANE_BURNT, 0.6, 0.3, 0.3);
    in_state(A->ball[LOCKER].value, LANE_LONG, 0.0, 0.5, 0.0);
    for (int i = 0; i < IDEALS - 1;
         i++) /* the i-th suits the i-th state, the last but one state 0 */
        in_state(IDEAL + i * STATE_FILMS, (LaneState)i, 0.44, 0.44, 0.44 + (i == 5 ? 0.05 : 0.0));
    in_state(IDEAL + 7 * STATE_FILMS, LANE_CARRIED, 0.7, 0.7, 0.7);
    arsenal_compare(A, &BAG, IDEAL, false);
    const Gap *gap = A->gap;
    assert_near(gap[LANE_FRESH].best, 0.4, 1e-12);
    assert_near(gap[LANE_BURNT].best, 0.5 * 0.4 + 0.25 * 0.6 + 0.25 * 0.4, 1e-12);
    assert_int_equal(gap[LANE_BURNT].ball, ONE); /* 0.4 alone against 0.375 */
    assert_near(gap[LANE_BURNT].ideal, 0.5 * 0.44 + 0.25 * 0.6 + 0.25 * 0.44, 1e-12);
    assert_near(gap[LANE_LONG].best, 0.4, 1e-12);
    assert_near(gap[LANE_LONG].locker, 0.5 * 0.5 + 0.5 * 0.4, 1e-12);
    assert_int_equal(gap[LANE_LONG].locker_ball, ONE); /* alone the other has 0.25 */
    assert_int_equal(gap[LANE_CARRIED].ideal_ball, 7);
    assert_near(gap[LANE_CARRIED].ideal, 0.7, 1e-12);
    assert_near(gap[LANE_SHORT].ideal, 0.5 * 0.44 + 0.25 * 0.44 + 0.25 * 0.49, 1e-12);
    for (int s = 0; s < LANE_STATE_COUNT; s++) {
        assert_int_equal(gap[s].state, s);
        if (s != LANE_CARRIED)
            assert_int_equal(gap[s].ideal_ball, s);
        /* 0.3 short where the lane carried down, 0.0525 on the short one, 0.07 on the long */
        assert_int_equal(gap[s].open, s == LANE_CARRIED || s == LANE_SHORT || s == LANE_LONG);
    }
    assert_int_equal(A->advice_count, 0);
    assert_int_equal(arsenal_gap_answer(&gap[LANE_CARRIED]), GAP_BY_IDEAL);
    assert_int_equal(arsenal_gap_answer(&gap[LANE_LONG]), GAP_BY_LOCKER); /* 0.05 of 0.07 */
    assert_int_equal(arsenal_gap_answer(&gap[LANE_FRESH]), GAP_NONE);

    /* nothing beats the ball that is in the locker: two together would */
    every_film(LOCKER, 0.45);
    memset(IDEAL, 0, sizeof IDEAL);
    in_state(IDEAL, LANE_FRESH, 0.0, 0.7, 0.0);
    arsenal_compare(A, &BAG, IDEAL, false);
    assert_near(gap[LANE_FRESH].locker, 0.45, 1e-12);
    assert_int_equal(gap[LANE_FRESH].locker_ball, LOCKER);
    assert_near(gap[LANE_FRESH].ideal, 0.5 * 0.7 + 0.5 * 0.45, 1e-12);
    assert_int_equal(gap[LANE_FRESH].ideal_ball, -1);
    assert_int_equal(arsenal_gap_answer(&gap[LANE_FRESH]), GAP_BY_TWO);
}

/* The weight of the films on which two balls are within three hundredths; the most alike first. */
static void an_overlap_is_a_share_of_films(void **state)
{
    (void)state;
    every_film(ONE, 0.4);
    every_film(TWO, 0.431);
    every_film(THREE, 0.2);
    in_state(A->ball[TWO].value, LANE_TRANSITION, 0.429, 0.371, 0.431); /* weight 2 of 28 */
    in_state(A->ball[THREE].value, LANE_CLIFFED, 0.4, 0.4, 0.4);        /* 7 of 28 */
    static const double HOOK_FT[] = {30.0, 33.0, 41.0}, ENTRY[] = {5.0, 6.0, 4.0};
    for (int b = ONE; b <= THREE; b++)
        A->ball[b].at[0].line = (Line){.hook_ft = HOOK_FT[b], .entry_deg = ENTRY[b]};
    arsenal_compare(A, &BAG, IDEAL, false);
    assert_int_equal(A->overlap_count, 3);
    const Overlap *most = &A->overlap[0], *next = &A->overlap[1], *least = &A->overlap[2];
    assert_true(most->a == ONE && most->b == THREE);
    assert_near(most->share, 7.0 / 28.0, 1e-12);
    assert_near(most->move_ft, 11.0, 1e-12);
    assert_near(most->entry_deg, -1.0, 1e-12);
    assert_true(next->a == ONE && next->b == TWO);
    assert_near(next->share, 0.75 * 2.0 / 28.0, 1e-12); /* as dressed a half, thin a quarter */
    assert_near(next->move_ft, 3.0, 1e-12);
    assert_true(least->a == TWO && least->b == THREE);
    assert_near(least->share, 0.0, 1e-12);
}

static void show(int ball, int surface, double value)
{
    SurfaceShow *to = &A->ball[ball].surface[surface];
    to->ready = true;
    for (int f = 0; f < STATE_FILMS; f++)
        to->value[f] = value;
}

/* Two balls that do the same: the smallest change of surface that tells them apart, of those
 * equally small the one that gains most, never one that costs the bag more than a hair. */
static void a_surface_tells_two_apart(void **state)
{
    (void)state;
    every_film(ONE, 0.4);
    every_film(TWO, 0.4);
    every_film(THREE, 0.1);
    show(ONE, 3, 0.9);   /* as it is: no change */
    show(ONE, 4, 0.42);  /* still the same job */
    show(ONE, 2, 0.46);  /* a step, gains 0.06 */
    show(TWO, 4, 0.47);  /* a step, gains 0.07 */
    show(TWO, 0, 0.99);  /* three steps */
    show(THREE, 2, 0.8); /* no ball of the pair */
    arsenal_compare(A, &BAG, IDEAL, true);
    assert_int_equal(A->advice_count, 1);
    const SurfaceAdvice *advice = &A->advice[0];
    assert_true(advice->ball == TWO && advice->surface == 4 && advice->other == ONE);
    assert_near(advice->before, 1.0, 1e-12);
    assert_near(advice->after, 0.0, 1e-12);
    assert_near(advice->value_gain, 0.07, 1e-12);

    A->ball[TWO].surface[4].ready = false;
    arsenal_compare(A, &BAG, IDEAL, true);
    advice = &A->advice[0];
    assert_true(advice->ball == ONE && advice->surface == 2 && advice->other == TWO);

    /* apart by falling behind: the other still does the job, so the bag loses nothing */
    A->ball[ONE].surface[2].ready = false;
    show(ONE, 4, 0.36);
    arsenal_compare(A, &BAG, IDEAL, true);
    assert_true(A->advice_count == 1 && A->advice[0].ball == ONE && A->advice[0].surface == 4);
    assert_near(A->advice[0].value_gain, 0.0, 1e-12);

    /* 0.06 lost where the one was ahead: too dear, so the bigger step is what is left */
    every_film(ONE, 0.42);
    arsenal_compare(A, &BAG, IDEAL, true);
    assert_true(A->advice_count == 1 && A->advice[0].ball == TWO && A->advice[0].surface == 0);
}

/* A change that closes a gap, and by how much. */
static void a_surface_closes_a_gap(void **state)
{
    (void)state;
    every_film(ONE, 0.4);
    every_film(TWO, 0.3);
    every_film(THREE, 0.2);
    in_state(IDEAL, LANE_LONG, 0.5, 0.5, 0.5);
    show(THREE, 4, 0.2);
    in_state(A->ball[THREE].surface[4].value, LANE_LONG, 0.419, 0.419, 0.419); /* too little */
    arsenal_compare(A, &BAG, IDEAL, true);
    assert_int_equal(A->advice_count, 0);
    in_state(A->ball[THREE].surface[4].value, LANE_LONG, 0.44, 0.44, 0.44);
    arsenal_compare(A, &BAG, IDEAL, true);
    assert_int_equal(A->advice_count, 1);
    const SurfaceAdvice *advice = &A->advice[0];
    assert_true(advice->ball == THREE && advice->surface == 4 && advice->other == -1);
    assert_int_equal(advice->state, LANE_LONG);
    assert_near(advice->before, 0.1, 1e-12);
    assert_near(advice->after, 0.06, 1e-12);
    assert_near(advice->value_gain, 0.04 * 5.0 / 28.0, 1e-12);
}

/* A pair may be told apart by either ball, and by the first surface as by the last. */
static void every_surface_counts(void **state)
{
    (void)state;
    for (int surface = 0; surface < SURFACES; surface++)
        for (int ball = ONE; ball <= TWO; ball++) {
            assert_int_equal(set_up(NULL), 0);
            every_film(ONE, 0.4);
            every_film(TWO, 0.4);
            every_film(THREE, 0.1);
            show(ball, surface, 0.46);
            arsenal_compare(A, &BAG, IDEAL, true);
            assert_int_equal(A->advice_count, surface != 3);
            assert_true(surface == 3 ||
                        (A->advice[0].ball == ball && A->advice[0].surface == surface));
        }
    /* the surface a ball has is the nearest of the list */
    assert_int_equal(set_up(NULL), 0);
    every_film(ONE, 0.4);
    every_film(TWO, 0.4);
    every_film(THREE, 0.1);
    BAG.balls[ONE].surface = SURFACE_SET[0];
    BAG.balls[TWO].surface = SURFACE_SET[SURFACES - 1];
    show(ONE, 0, 0.9);
    show(TWO, SURFACES - 1, 0.9);
    arsenal_compare(A, &BAG, IDEAL, true);
    assert_int_equal(A->advice_count, 0);
}

/* The imaginary balls are ones that a bag may hold, with the grit that their words say. */
static void ideals_are_balls(void **state)
{
    (void)state;
    static const char *const NUMBERS[] = {"pounds", "rg_in", "differential_in", "intermediate_in",
                                          "cover_strength"};
    for (int i = 0; i < IDEALS; i++) {
        const IdealBall *ideal = &arsenal_ideals()[i];
        Ball ball = ideal->ball;
        Error error = {0};
        for (size_t k = 0; k < sizeof NUMBERS / sizeof *NUMBERS; k++) {
            const JsonField *field = json_field_find(BALL_FIELDS, NUMBERS[k]);
            assert_non_null(field);
            double number = *(const double *)((const char *)&ball + field->offset);
            if (!json_field_number(field, number, "", &ball, &error))
                fail_msg("%s: %s: %s", ideal->words, field->key, error.text);
        }
        assert_true(ball_sound(&ball, "", &error));
        const char *comma = strstr(ideal->words, ", ");
        assert_non_null(comma);
        if (ball.surface.finish == FINISH_GRIT)
            assert_near(ball.surface.grit, strtod(comma + 2, NULL), 0.0);
        else
            assert_string_equal(comma, ", polished");
        assert_non_null(strstr(ideal->words, COVER_NAMES[ball.cover]));
        /* "strong" and "weak": flare potential and low RG go with strength (common practice) */
        for (int k = 0; k < IDEALS; k++) {
            const IdealBall *other = &arsenal_ideals()[k];
            if (strncmp(ideal->words, "strong", 6) == 0 && strncmp(other->words, "weak", 4) == 0) {
                assert_less(other->ball.differential_in, ball.differential_in);
                assert_less(ball.rg_in, other->ball.rg_in);
                assert_less(other->ball.cover_strength, ball.cover_strength);
            }
        }
    }
}

static void words_of_an_overlap(void **state)
{
    (void)state;
    static const char *const WORDS[] = {"none", "little", "half", "mostly", "same"};
    static const double ENDS[] = {0.10, 0.35, 0.65, 0.90};
    for (int i = 0; i < 4; i++) {
        assert_string_equal(arsenal_overlap_word(ENDS[i] - 1e-9), WORDS[i]);
        assert_string_equal(arsenal_overlap_word(ENDS[i]), WORDS[i + 1]);
    }
}

static Set set_of_three(void)
{
    Set set = {.count = 4};
    for (int i = 0; i < 4; i++)
        set.place[i] =
            (SetBall){.ball = (int[]){SPARE, THREE, TWO, ONE}[i], .surface = -1, .spare = i == 0};
    return set;
}

static const SetBall *placed(const Set *set, int ball)
{
    for (int i = 0; i < set->count; i++)
        if (set->place[i].ball == ball)
            return &set->place[i];
    return NULL;
}

static void a_place_is_what_the_set_would_miss(void **state)
{
    (void)state;
    every_film(ONE, 0.4);
    every_film(TWO, 0.3);
    every_film(THREE, 0.35);
    every_film(LOCKER, 0.38);
    every_film(SPARE, 0.9);
    in_state(A->ball[TWO].value, LANE_BURNT, 0.5, 0.5, 0.4);  /* leads on three quarters of it */
    in_state(A->ball[TWO].value, LANE_SHORT, 0.3, 0.41, 0.3); /* and on half of this a little */
    static const double HOOK_FT[] = {30.0, 33.0, NAN}, ENTRY[] = {4.0, 6.0, NAN};
    for (int b = ONE; b <= THREE; b++)
        A->ball[b].at[0].line = (Line){.hook_ft = HOOK_FT[b], .entry_deg = ENTRY[b]};
    /* by the games: the second ball takes over in the third */
    A->ball[TWO].at[2].value = 0.45;
    A->ball[TWO].at[3].value = 0.5;
    A->ball[ONE].at[3].value = 0.386; /* behind by more than 0.015 */
    Set set = set_of_three();
    arsenal_place(A, &BAG, &set);
    double burnt = 0.75 * 0.1 * 3.0 / 28.0, shorter = 0.5 * 0.01 * 6.0 / 28.0;
    assert_near(set.value, 0.4 + burnt + shorter, 1e-12);

    const SetBall *one = placed(&set, ONE), *two = placed(&set, TWO), *three = placed(&set, THREE),
                  *spare = placed(&set, SPARE);
    assert_int_equal(two->lead, LANE_BURNT);
    assert_near(two->share, 0.75 * 3.0 / 28.0 + 0.5 * 6.0 / 28.0, 1e-12);
    assert_near(two->gives, burnt + shorter, 1e-12);
    assert_int_equal(one->lead, LANE_CLIFFED); /* 0.05 before the third, most often there */
    /* everywhere else, but on a quarter of burnt lanes nobody leads */
    assert_near(one->share, 1.0 - two->share - 0.25 * 3.0 / 28.0, 1e-12);
    assert_near(one->gives, 0.05 * one->share, 1e-12);
    assert_int_equal(three->lead, -1);
    assert_near(three->gives, 0.0, 1e-12);
    assert_near(three->share, 0.0, 1e-12);
    assert_int_equal(three->like, ONE); /* 0.05 off nearly everywhere, as TWO is and once 0.15 */
    assert_string_equal(three->job, "in reserve: adds little, nearest to one");

    /* the one ball of the locker stands in for each; for the first it loses 0.02 where that led */
    assert_true(one->stand_in == LOCKER && two->stand_in == LOCKER && three->stand_in == LOCKER);
    assert_near(one->loss, 0.02 * one->share, 1e-12);
    assert_near(two->loss, burnt + shorter, 1e-12);
    assert_near(three->loss, 0.0, 1e-12);

    assert_true(one->game_from == 1 && one->game_to == 2);
    assert_true(two->game_from == 3 && two->game_to == 4);
    assert_true(three->game_from == 0 && three->game_to == 0);
    /* each game counts by e^-(how far behind / 0.02) */
    double use[4] = {1.0, 1.0, exp(-2.5), exp(-5.7)};
    assert_near(one->when,
                (use[0] + 2 * use[1] + 3 * use[2] + 4 * use[3]) /
                    (use[0] + use[1] + use[2] + use[3]),
                1e-9);

    assert_int_equal(one->motion, REACTION_EARLIEST);
    assert_int_equal(two->motion, REACTION_STRONGEST);
    assert_int_equal(three->motion, REACTION_LATEST); /* no move counts as none before the pins */
    assert_string_equal(two->job, "the end of the block, oil gone; turns the corner most");

    assert_true(spare->spare && spare == &set.place[3]); /* it comes out last */
    assert_near(spare->when, 5.0, 1e-12);
    assert_int_equal(spare->stand_in, -1);
    assert_string_equal(spare->job, "spares: the straightest");
    for (int i = 1; i < 3; i++)
        assert_true(set.place[i - 1].when <= set.place[i].when);
}

/* With another surface a ball is worth what that shows: before the block, half way and at the end
 * by its films, in between in proportion. */
static void a_place_with_another_surface(void **state)
{
    (void)state;
    every_film(ONE, 0.4);
    every_film(TWO, 0.1);
    every_film(THREE, 0.0);
    show(TWO, 5, 0.0);
    in_state(A->ball[TWO].surface[5].value, LANE_FRESH, 0.0, 0.2, 0.0);
    in_state(A->ball[TWO].surface[5].value, LANE_TRANSITION, 0.0, 0.4, 0.0);
    in_state(A->ball[TWO].surface[5].value, LANE_BURNT, 0.0, 0.5, 0.0);
    A->ball[TWO].surface[5].hook_ft = 20.0;
    A->ball[TWO].surface[5].entry_deg = 3.0;
    A->ball[ONE].at[0].line = (Line){.hook_ft = 30.0, .entry_deg = 5.0};
    A->ball[TWO].at[0].line = (Line){.hook_ft = 40.0, .entry_deg = 9.0};
    Set set = {.count = 2, .place = {{.ball = ONE, .surface = -1}, {.ball = TWO, .surface = 5}}};
    arsenal_place(A, &BAG, &set);
    const SetBall *one = placed(&set, ONE), *two = placed(&set, TWO);
    assert_near(set.value, 0.4 + 0.5 * 0.1 * 3.0 / 28.0, 1e-12);
    /* before the four games 0.2, 0.3, 0.4, 0.45 */
    assert_true(two->game_from == 3 && two->game_to == 4);
    assert_true(one->game_from == 1 && one->game_to == 3);
    double use[4] = {exp(-10.0), exp(-5.0), 1.0, 1.0};
    assert_near(two->when,
                (use[0] + 2 * use[1] + 3 * use[2] + 4 * use[3]) /
                    (use[0] + use[1] + use[2] + use[3]),
                1e-9);
    assert_int_equal(two->motion, REACTION_EARLIEST); /* with that surface */
    assert_int_equal(one->motion, REACTION_LATEST);
}

/* A ball whose angle is the least of all, neither first nor last to move. */
static void the_smoothest_and_the_one_between(void **state)
{
    (void)state;
    static const double HOOK_FT[] = {30.0, 33.0, 36.0, 39.0, 42.0},
                        ENTRY[] = {5.0, 3.0, 4.0, 6.0, 5.5};
    Set set = {.count = BALLS};
    for (int b = 0; b < BALLS; b++) {
        A->ball[b].spare = false;
        every_film(b, 0.3);
        A->ball[b].at[0].line = (Line){.hook_ft = HOOK_FT[b], .entry_deg = ENTRY[b]};
        set.place[b] = (SetBall){.ball = b, .surface = -1};
    }
    arsenal_place(A, &BAG, &set);
    static const Reaction MOTION[] = {REACTION_EARLIEST, REACTION_SMOOTHEST, REACTION_BETWEEN,
                                      REACTION_STRONGEST, REACTION_LATEST};
    for (int b = 0; b < BALLS; b++) {
        assert_int_equal(placed(&set, b)->motion, MOTION[b]);
        assert_int_equal(placed(&set, b)->stand_in, -1); /* nobody is left */
        assert_near(placed(&set, b)->loss, 0.0, 0.0);
        assert_int_equal(placed(&set, b)->lead, -1);
    }
    Set alone = {.count = 1, .place = {{.ball = ONE, .surface = -1}}};
    arsenal_place(A, &BAG, &alone);
    assert_int_equal(alone.place[0].motion, REACTION_BETWEEN);
    assert_int_equal(alone.place[0].like, -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_film_weighs_its_state_and_volume, set_up),
        cmocka_unit_test_setup(a_gap_is_what_the_best_of_each_lacks, set_up),
        cmocka_unit_test_setup(an_overlap_is_a_share_of_films, set_up),
        cmocka_unit_test_setup(a_surface_tells_two_apart, set_up),
        cmocka_unit_test_setup(a_surface_closes_a_gap, set_up),
        cmocka_unit_test_setup(every_surface_counts, set_up),
        cmocka_unit_test_setup(ideals_are_balls, set_up),
        cmocka_unit_test_setup(words_of_an_overlap, set_up),
        cmocka_unit_test_setup(a_place_is_what_the_set_would_miss, set_up),
        cmocka_unit_test_setup(a_place_with_another_surface, set_up),
        cmocka_unit_test_setup(the_smoothest_and_the_one_between, set_up)};
    return cmocka_run_group_tests_name("compare", tests, NULL, tear_down);
}
