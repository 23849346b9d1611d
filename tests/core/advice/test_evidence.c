/* Evidence, piece by piece: which way each thing said moves the belief and how far, that doubt
 * shrinks and is never gone, and what is drawn and forecast from it. Which way is common practice,
 * no source; test_belief.c holds the belief as a whole. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "helper_demo.h"

static void assert_sound(const Belief *belief)
{
    double sum = 0.0;
    int film = 0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        const Particle *p = &belief->particles[i];
        assert_true(p->weight >= 0.0 && p->weight <= 1.0 + 1e-9);
        assert_true(p->film >= film && p->film < BELIEF_FILMS); /* in order of their film */
        film = p->film;
        for (int part = 0; part < PART_COUNT; part++)
            assert_true(isfinite(p->part[part]));
        for (int lane = 0; lane < SIDE_COUNT; lane++)
            assert_true(p->part[PART_VOLUME + lane] > 0.0 && p->part[PART_DRY + lane] > 0.0);
        sum += p->weight;
    }
    assert_near(sum, 1.0, 1e-9);
    assert_true(isfinite(belief->surprise) && belief->surprise >= -1e-9);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        Oil oil;
        belief_film(belief, (Side)lane, &oil);
        for (int j = 0; j < OIL_STATIONS; j++)
            for (int b = 0; b < LANE_BOARDS; b++)
                assert_true(oil.units[j][b] >= 0.0);
        assert_true(isfinite(oil_volume_ml(&oil)));
    }
}

static void test_begin(void **state)
{
    (void)state;
    Belief *belief = begin(1);
    assert_sound(belief);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        assert_near(volume(belief, (Side)lane).mean, 1.0, 0.05); /* the sheet at its word */
        assert_near(volume(belief, (Side)lane).sd, 0.25, 0.05);
        assert_near(belief_part(belief, PART_DRY + lane).mean, 1.0, 0.03);
        assert_int_equal(belief->deliveries[lane], 0);
        Oil film;
        belief_film(belief, (Side)lane, &film);
        /* but for how far down it is thought to go */
        double thought = volume(belief, (Side)lane).mean * oil_volume_ml(&SHEET);
        assert_near(oil_volume_ml(&film), thought, 0.01 * thought);
    }
    assert_near(belief_part(belief, PART_MPH).mean, 0.0, 0.08);
    assert_near(belief_wear(belief).mean, 1.1, 0.15);
    assert_int_equal(belief->shots, 0);
    free(belief);
}

/* What a bowler would say of a shot on a lane with that film, which the shot then wears. */
static Shot seen_on(Oil *film, double truth, int slot, Rng *rng)
{
    Shot shot = shot_on(SIDE_LEFT, slot, HIT_UNSAID, READ_UNSAID, RELEASE_GOOD);
    Delivery delivery = delivery_of(&BAG.bowler, shot.stance, shot.aim);
    shot.mph = BAG.bowler.mph + BAG.bowler.scatter.mph * rng_normal(rng);
    delivery.mph = shot.mph;
    Oil sheet_now = *film;
    oil_scale(&sheet_now, 1.0 / truth);
    double expected = motion_arrive(&BODY[slot - 1], &sheet_now, &delivery).hook_ft;
    delivery.launch_deg += BAG.bowler.scatter.launch_deg * rng_normal(rng);
    delivery.rpm += BAG.bowler.scatter.rpm * rng_normal(rng);
    Roll roll;
    motion_roll(&BODY[slot - 1], film, &delivery, &roll);
    shot.hit =
        roll.gutter ? HIT_GUTTER : shot_hit_of_board(roll.entry_board + 0.5 * rng_normal(rng));
    double later = roll.hook_ft - expected;
    shot.read = later > 2.0 ? READ_LATE : later < -2.0 ? READ_EARLY : READ_ON_TIME;
    wear_delivery(film, &roll, bag_slot(&BAG, slot)->cover, 0.0);
    return shot;
}

static Estimate learn(double truth, uint64_t seed, int shots)
{
    Oil film = SHEET;
    Rng rng = rng_seed(seed);
    Belief *belief = begin(seed + 100);
    oil_scale(&film, truth);
    for (int k = 0; k < shots; k++) {
        Shot shot = seen_on(&film, truth, 1 + k % 4, &rng);
        see(belief, &shot);
    }
    assert_sound(belief);
    Estimate estimate = volume(belief, SIDE_LEFT);
    free(belief);
    return estimate;
}

static void test_moves_toward_the_truth(void **state)
{
    (void)state;
    double less = 0.0, same = 0.0, more = 0.0;
    enum { DAYS = 6 };
    for (uint64_t seed = 1; seed <= DAYS; seed++) {
        less += learn(0.8, seed, 12).mean / DAYS;
        same += learn(1.0, seed, 12).mean / DAYS;
        more += learn(1.2, seed, 12).mean / DAYS;
    }
    if (getenv("SETTEE_SHOW"))
        print_message("film 0.8: %.3f, 1.0: %.3f, 1.2: %.3f\n", less, same, more);
    /* a little: speed, wear, bare lane and most of all what nothing else explains take their part
     */
    assert_less(less + 0.01, same);
    assert_less(same + 0.01, more);
    assert_near(same, 1.0, 0.08);
}

static void test_doubt_shrinks(void **state)
{
    (void)state;
    double none = 0.0, few = 0.0, many = 0.0;
    enum { DAYS = 6 };
    for (uint64_t seed = 1; seed <= DAYS; seed++) {
        none += learn(1.0, seed, 0).sd / DAYS;
        few += learn(1.0, seed, 4).sd / DAYS;
        many += learn(1.0, seed, 16).sd / DAYS;
    }
    assert_less(few, none);
    assert_less(many, few);
    assert_less(0.01, many); /* never certain */
}

/* Where one shot moves the mean of a part, from the same start. */
static double moved_part(const Oil *sheet, int part, const Shot *shot)
{
    Belief *belief = malloc(sizeof *belief);
    assert_non_null(belief);
    belief_begin(belief, sheet, 9);
    double before = belief_part(belief, part).mean;
    see(belief, shot);
    assert_sound(belief);
    double after = belief_part(belief, part).mean;
    free(belief);
    return after - before;
}

/* Of the film, on the demo's sheet. */
static double moved(Hit hit, Read read, Release release)
{
    Shot shot = shot_on(SIDE_LEFT, 1, hit, read, release);
    return moved_part(&SHEET, PART_VOLUME, &shot);
}

static void test_which_way_a_hit(void **state)
{
    (void)state;
    double last = -1.0;
    for (int hit = HIT_CROSSED; hit >= HIT_WIDE; hit--) { /* the lighter, the more film */
        double by = moved((Hit)hit, READ_UNSAID, RELEASE_GOOD);
        if (hit == HIT_NOSE || hit == HIT_HIGH)
            assert_less(by, 0.0);
        if (hit == HIT_THIN || hit == HIT_LIGHT)
            assert_less(0.0, by);
        if (hit <= HIT_NOSE && hit >= HIT_THIN) { /* past them it may as well be chance */
            assert_less(last, by);
            last = by;
        }
    }
}

/* On a film thin enough for the first move to feel it, early says less of it and late more. */
static void test_which_way_a_read(void **state)
{
    (void)state;
    Oil thin = SHEET;
    oil_scale(&thin, 0.15);
    for (int slot = 1; slot <= 3; slot++) {
        Shot shot = shot_on(SIDE_LEFT, slot, HIT_UNSAID, READ_EARLY, RELEASE_GOOD);
        assert_less(moved_part(&thin, PART_VOLUME, &shot), 0.0);
        shot.read = READ_LATE;
        assert_less(0.0, moved_part(&thin, PART_VOLUME, &shot));
        shot.read = READ_NONE;
        assert_less(0.0, moved_part(&thin, PART_VOLUME, &shot));
    }
}

/* Where heads are so full that the first move feels only speed, a read is still no word about the
 * bowler: high and early says less film, shot after shot, and no less so than high and late. */
static void test_high_and_early_is_never_more_film(void **state)
{
    (void)state;
    Belief *early = begin(7), *late = begin(7);
    for (int k = 1; k <= 18; k++) {
        Shot shot = shot_on(SIDE_LEFT, 1, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
        see(early, &shot);
        shot.read = READ_LATE;
        see(late, &shot);
        if (k % 6 != 0)
            continue;
        Estimate thin = belief_track(early, SIDE_LEFT, 7, 14, 15.0, 35.0),
                 thick = belief_track(late, SIDE_LEFT, 7, 14, 15.0, 35.0);
        Belief *sheet = begin(7);
        assert_less(thin.mean, belief_track(sheet, SIDE_LEFT, 7, 14, 15.0, 35.0).mean);
        assert_less(thin.mean, thick.mean + 0.2);
        assert_near(belief_part(early, PART_MPH).mean, 0.0, 0.45);
        free(sheet);
    }
    free(early);
    free(late);
}

static void test_again_says_more(void **state)
{
    (void)state;
    Belief *belief = begin(9);
    Shot shot = shot_on(SIDE_LEFT, 1, HIT_NOSE, READ_UNSAID, RELEASE_GOOD);
    see(belief, &shot);
    double once = volume(belief, SIDE_LEFT).mean;
    see(belief, &shot);
    see(belief, &shot);
    assert_less(volume(belief, SIDE_LEFT).mean, once - 0.01);
    free(belief);
}

/* A release that was called bad says less of the lane than a good one. */
static void test_bad_releases_say_little(void **state)
{
    (void)state;
    double good = fabs(moved(HIT_NOSE, READ_UNSAID, RELEASE_GOOD));
    double inside = fabs(moved(HIT_NOSE, READ_UNSAID, RELEASE_INSIDE));
    double slow = fabs(moved(HIT_NOSE, READ_UNSAID, RELEASE_SLOW));
    double off = fabs(moved(HIT_NOSE, READ_UNSAID, RELEASE_OFF));
    assert_less(inside, 0.6 * good);
    assert_less(slow, 0.8 * good);
    assert_less(off, 0.7 * good);
    double off_early = fabs(moved(HIT_UNSAID, READ_EARLY, RELEASE_OFF));
    assert_near(off_early, 0.0, 1e-12); /* how an off ball read says nothing at all */
}

/* Whoever says nothing of a release has thrown a good one, as far as they know. */
static void test_release_unsaid(void **state)
{
    (void)state;
    for (Hit hit = HIT_WIDE; hit <= HIT_CROSSED; hit++)
        assert_near(moved(hit, READ_EARLY, RELEASE_UNSAID), moved(hit, READ_EARLY, RELEASE_GOOD),
                    0.0);
}

static void test_nothing_said(void **state)
{
    (void)state;
    assert_near(moved(HIT_UNSAID, READ_UNSAID, RELEASE_GOOD), 0.0, 1e-12);
}

/* How far the ball of a slot has hooked by the arrows on its own line, on the sheet. */
static double bent(int slot)
{
    Roll roll;
    Delivery delivery = delivery_of(&BAG.bowler, BEST[slot - 1].stance, BEST[slot - 1].aim);
    motion_roll(&BODY[slot - 1], &SHEET, &delivery, &roll);
    return roll.path[(int)(LANE_ARROWS_FT / OIL_STATION_FT)].board - BEST[slot - 1].aim;
}

/* A ball seen to cross inside its mark explains a high hit itself: less is the lane's doing. (A
 * miss to the outside explains little here: there is room.) */
static void test_boards_at_the_arrows(void **state)
{
    (void)state;
    static const Hit HITS[] = {HIT_HIGH, HIT_NOSE, HIT_CROSSED};
    for (int i = 0; i < 3; i++) {
        Belief *on = begin(5), *off = begin(5);
        Shot shot = shot_on(SIDE_LEFT, 1, HITS[i], READ_UNSAID, RELEASE_GOOD);
        double mark = shot.aim + bent(1);
        for (int k = 0; k < 2; k++) {
            shot.arrows = mark;
            see(on, &shot);
            shot.arrows = mark + 1.5;
            see(off, &shot);
        }
        assert_sound(off);
        assert_less(expected_board(off, SIDE_LEFT, 1) + 0.1, expected_board(on, SIDE_LEFT, 1));
        free(on);
        free(off);
    }
}

/* Crossing on one side of the mark time and again is the bowler's day. */
static void test_crossing_off_the_mark(void **state)
{
    (void)state;
    for (int way = -1; way <= 1; way += 2) {
        Belief *belief = begin(5);
        Shot shot = shot_on(SIDE_LEFT, 1, HIT_UNSAID, READ_UNSAID, RELEASE_GOOD);
        shot.arrows = shot.aim + bent(1) - 0.7 * way; /* + is toward the bowler's own gutter */
        for (int k = 0; k < 6; k++)
            see(belief, &shot);
        assert_less(0.02, way * belief_part(belief, PART_LAUNCH_DEG).mean);
        free(belief);
    }
}

/* What is forecast of the same throw once its breakpoint was seen. */
static double board_after(double breakpoint)
{
    Belief *belief = begin(5);
    Shot shot = shot_on(SIDE_LEFT, 1, HIT_UNSAID, READ_UNSAID, RELEASE_GOOD);
    shot.breakpoint = breakpoint;
    for (int k = 0; k < 3; k++)
        see(belief, &shot);
    assert_sound(belief);
    Forecast *forecast = malloc(sizeof *forecast);
    assert_non_null(forecast);
    forecast_prepare(forecast, belief, SIDE_LEFT, &BAG.bowler);
    Delivery delivery = delivery_of(&BAG.bowler, shot.stance, shot.aim);
    double board = forecast_delivery(forecast, belief_ball(belief, bag_slot(&BAG, 1)->id),
                                     &BATCH[0], &delivery)
                       .board;
    free(forecast);
    free(belief);
    return board;
}

/* Seen to turn farther in, it hits higher than seen to go out farther. */
static void test_boards_at_the_breakpoint(void **state)
{
    (void)state;
    double at = BEST[0].breakpoint_board;
    assert_less(board_after(at - 2.0) + 0.2, board_after(at + 2.0));
}

/* What one ball does and the others do not is the ball's; what one lane does, the lane's. */
static void test_what_nothing_else_explains(void **state)
{
    (void)state;
    Belief *belief = begin(5);
    for (int k = 0; k < 6; k++)
        for (int slot = 1; slot <= 2; slot++) {
            Shot shot = shot_on(k % 2 ? SIDE_RIGHT : SIDE_LEFT, slot,
                                slot == 1 ? HIT_NOSE : HIT_FLUSH, READ_UNSAID, RELEASE_GOOD);
            see(belief, &shot);
        }
    double laydown = BEST[0].laydown_board, turn = BEST[0].breakpoint_board, means[OFFSETS_COUNT];
    belief_offsets(belief, means);
    assert_less(means[OFFSETS_FIRST_BALL + 1] + 0.15, means[OFFSETS_FIRST_BALL]);
    assert_int_equal(belief->ball_count, 2);
    assert_int_equal(belief_ball(belief, bag_slot(&BAG, 2)->id), 2);
    assert_int_equal(belief_ball(belief, bag_slot(&BAG, 5)->id), 3); /* never thrown: the next */
    assert_near(means[OFFSETS_FIRST_BALL + 2], 0.0, 1e-12);
    free(belief);
    belief = begin(5);
    for (int k = 0; k < 10; k++) {
        Shot shot = shot_on(k % 2 ? SIDE_RIGHT : SIDE_LEFT, 1, k % 2 ? HIT_LIGHT : HIT_HIGH,
                            READ_UNSAID, RELEASE_GOOD);
        see(belief, &shot);
    }
    OffsetsAt left = offsets_at(SIDE_LEFT, 1, laydown, turn),
              right = offsets_at(SIDE_RIGHT, 1, laydown, turn);
    assert_less(belief_off(belief, &right).mean + 0.2, belief_off(belief, &left).mean);
    belief_offsets(belief, means);
    assert_near(belief_off(belief, &left).mean, offsets_mean(&left, means), 1e-9);
    free(belief);
}

static void test_words_of_a_ball_that_is_off(void **state)
{
    (void)state;
    static const struct {
        Estimate off;
        const char *words;
    } CASES[] = {{{0.0, 0.1}, ""},
                 {{0.49, 0.1}, ""},
                 {{0.9, 1.0}, ""}, /* as good as nothing */
                 {{0.6, 0.3}, "hits half a board higher here than its numbers say"},
                 {{-1.0, 0.5}, "hits a board lighter here than its numbers say"},
                 {{1.5, 0.5}, "hits a board and a half higher here than its numbers say"},
                 {{-3.0, 0.5}, "hits two boards or more lighter here than its numbers say"}};
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        char words[80];
        belief_off_words(CASES[i].off, words, sizeof words);
        assert_string_equal(words, CASES[i].words);
    }
}

/* Speeds seen below the usual one are the bowler's day, not the lane's. */
static void test_speed_of_the_day(void **state)
{
    (void)state;
    for (int way = -1; way <= 1; way += 2) {
        Belief *belief = begin(3);
        for (int k = 0; k < 5; k++) {
            Shot shot = shot_on(SIDE_LEFT, 1, HIT_UNSAID, READ_UNSAID, RELEASE_GOOD);
            shot.mph = BAG.bowler.mph + 0.5 * way;
            see(belief, &shot);
        }
        assert_less(0.2, way * belief_part(belief, PART_MPH).mean);
        assert_near(volume(belief, SIDE_LEFT).mean, 1.0, 0.1);
        free(belief);
    }
}

static void test_every_ball_wears_its_own_lane(void **state)
{
    (void)state;
    Belief *belief = begin(1);
    Shot shot = shot_on(SIDE_RIGHT, 1, HIT_FLUSH, READ_ON_TIME, RELEASE_GOOD);
    for (int k = 0; k < 4; k++)
        belief_see(belief, &BAG.bowler, bag_slot(&BAG, 1), &BODY[0], &BATCH[0], &shot, 3);
    assert_int_equal(belief->deliveries[SIDE_RIGHT], 12); /* all bowlers' */
    assert_int_equal(belief->deliveries[SIDE_LEFT], 0);
    assert_int_equal(belief->shots, 4);
    for (int f = 0; f < BELIEF_FILMS; f++) {
        assert_less(oil_volume_ml(&belief->film[SIDE_RIGHT][f]), oil_volume_ml(&SHEET));
        assert_memory_equal(&belief->film[SIDE_LEFT][f], &SHEET, sizeof SHEET);
        if (f >= BELIEF_CARRIES) /* a faster rate leaves less */
            assert_less(oil_volume_ml(&belief->film[SIDE_RIGHT][f]),
                        oil_volume_ml(&belief->film[SIDE_RIGHT][f - BELIEF_CARRIES]));
    }
    free(belief);
}

/* An odd shot is told from an ordinary one. */
static void test_surprise(void **state)
{
    (void)state;
    Belief *belief = begin(1), *odd = begin(1);
    Shot usual = shot_on(SIDE_LEFT, 1, HIT_FLUSH, READ_ON_TIME, RELEASE_GOOD);
    Shot strange = shot_on(SIDE_LEFT, 1, HIT_GUTTER, READ_ON_TIME, RELEASE_GOOD);
    see(belief, &usual);
    see(odd, &strange);
    assert_less(belief->surprise + 0.5, odd->surprise);
    free(belief);
    free(odd);
}

static void test_dry_lane(void **state)
{
    (void)state;
    Belief *belief = malloc(sizeof *belief);
    assert_non_null(belief);
    Oil dry = {.length_ft = 20.0};
    belief_begin(belief, &dry, 1);
    Shot shot = shot_on(SIDE_LEFT, 1, HIT_CROSSED, READ_EARLY, RELEASE_GOOD);
    for (int k = 0; k < 3; k++)
        see(belief, &shot);
    assert_sound(belief);
    Oil film;
    belief_film(belief, SIDE_LEFT, &film);
    assert_near(oil_volume_ml(&film), 0.0, 0.0);
    free(belief);
}

static void test_draw(void **state)
{
    (void)state;
    Belief *belief = begin(2);
    Shot shot = shot_on(SIDE_LEFT, 1, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    see(belief, &shot);
    enum { DRAWS = 1000 };
    int indices[DRAWS], times[BELIEF_PARTICLES] = {0};
    belief_draw(belief, indices, DRAWS);
    for (int i = 0; i < DRAWS; i++) {
        assert_true(indices[i] >= 0 && indices[i] < BELIEF_PARTICLES);
        assert_true(i == 0 || indices[i] >= indices[i - 1]);
        times[indices[i]]++;
    }
    for (int i = 0; i < BELIEF_PARTICLES; i++) /* by weight, as even as can be */
        assert_near(times[i], DRAWS * belief->particles[i].weight, 1.0 + 1e-6);
    free(belief);
}

static void test_track(void **state)
{
    (void)state;
    Belief *belief = begin(1);
    Estimate track = belief_track(belief, SIDE_LEFT, 10, 14, 15.0, 30.0);
    double sum = 0.0;
    int count = 0;
    for (int j = 30; j <= 60; j++)
        for (int b = 10; b <= 14; b++, count++)
            sum += SHEET.units[j][b - 1];
    Estimate scale = volume(belief, SIDE_LEFT);
    assert_near(track.mean, scale.mean * sum / count, 1e-9);
    /* and what a hit cannot tell of a film's thickness: 15 % of it (belief.c) */
    assert_near(track.sd, hypot(scale.sd * sum / count, 0.15 * track.mean), 1e-9);
    free(belief);
}

static void test_words(void **state)
{
    (void)state;
    Belief *belief = begin(1);
    Delivery delivery = delivery_of(&BAG.bowler, BEST[0].stance, BEST[0].aim);
    Roll roll;
    motion_roll(&BODY[0], &SHEET, &delivery, &roll);
    char words[80];
    belief_words(belief, SIDE_LEFT, &roll, words, sizeof words);
    assert_non_null(strstr(words, "about as on the sheet"));
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        belief->particles[i].part[PART_VOLUME + SIDE_LEFT] = 0.66;
    belief_words(belief, SIDE_LEFT, &roll, words, sizeof words);
    assert_non_null(strstr(words, "about a third thinner"));
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        belief->particles[i].part[PART_VOLUME + SIDE_LEFT] = 1.25;
    belief_words(belief, SIDE_LEFT, &roll, words, sizeof words);
    assert_non_null(strstr(words, "about a quarter thicker"));
    Roll nowhere = {.count = 1};
    belief_words(belief, SIDE_LEFT, &nowhere, words, sizeof words);
    assert_string_equal(words, "");
    for (size_t size = 1; size < 12; size++) {
        char small[12];
        belief_words(belief, SIDE_LEFT, &roll, small, size);
        assert_true(strlen(small) < size);
    }
    free(belief);
}

static Forecast *forecast_of(const Belief *belief, const Bowler *bowler)
{
    Forecast *forecast = malloc(sizeof *forecast);
    assert_non_null(forecast);
    forecast_prepare(forecast, belief, SIDE_LEFT, bowler);
    return forecast;
}

static void test_forecast(void **state)
{
    (void)state;
    Belief *belief = begin(1);
    Forecast *forecast = forecast_of(belief, &BAG.bowler);
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        for (double aim = -4.0; aim <= 34.0; aim += 2.0) {
            Delivery delivery = delivery_of(&BAG.bowler, 26.0, aim);
            Outlook a = forecast_delivery(forecast, 0, &BATCH[slot - 1], &delivery),
                    b = forecast_delivery(forecast, 0, &BATCH[slot - 1], &delivery);
            assert_true(a.pocket >= 0.0 && a.pocket <= 1.0);
            assert_true(a.strike >= 0.0 &&
                        a.strike <= 1.0); /* hits outside the pocket strike too */
            if (isnan(a.board)) {         /* all of them in the gutter */
                assert_true(a.pocket == 0.0 && isnan(a.board_sd) && isnan(a.degrees));
                continue;
            }
            assert_true(isfinite(a.board) && a.board_sd >= 0.0 && isfinite(a.degrees));
            assert_true(a.pocket == b.pocket && a.strike == b.strike && a.board == b.board);
        }
    free(forecast);
    free(belief);
}

/* The less is known of lane and throw, the less is promised on a good line. */
static void test_forecast_falls_with_doubt(void **state)
{
    (void)state;
    Belief *doubt = begin(1), *sure = begin(1);
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        static const double MIDDLE[PART_COUNT] = {1.0, 1.0, 1.0, 1.0}; /* the rest 0 */
        memcpy(sure->particles[i].part, MIDDLE, sizeof MIDDLE);
    }
    memset(&sure->doubt, 0, sizeof sure->doubt);
    for (int slot = 1; slot <= 4; slot++) {
        Delivery delivery = delivery_of(&BAG.bowler, BEST[slot - 1].stance, BEST[slot - 1].aim);
        double last = 1.0;
        for (double times = 0.5; times <= 4.0; times *= 2.0) {
            Bowler bowler = BAG.bowler;
            bowler.scatter.launch_deg *= times;
            bowler.scatter.mph *= times;
            bowler.scatter.rpm *= times;
            bowler.scatter.laydown_boards *= times;
            Forecast *forecast = forecast_of(sure, &bowler);
            double pocket = forecast_delivery(forecast, 0, &BATCH[slot - 1], &delivery).pocket;
            assert_less(pocket, last);
            last = pocket;
            free(forecast);
        }
        Forecast *known = forecast_of(sure, &BAG.bowler),
                 *unknown = forecast_of(doubt, &BAG.bowler);
        Outlook a = forecast_delivery(known, 0, &BATCH[slot - 1], &delivery),
                b = forecast_delivery(unknown, 0, &BATCH[slot - 1], &delivery);
        assert_less(b.pocket, a.pocket);
        assert_less(a.board_sd, b.board_sd);
        /* sure of the sheet, it says what the line itself says */
        if (getenv("SETTEE_SHOW"))
            print_message("slot %d: forecast %.3f, line %.3f\n", slot, a.pocket,
                          BEST[slot - 1].pocket);
        assert_near(a.pocket, BEST[slot - 1].pocket, 0.08);
        free(known);
        free(unknown);
    }
    free(doubt);
    free(sure);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_begin),
        cmocka_unit_test(test_moves_toward_the_truth),
        cmocka_unit_test(test_doubt_shrinks),
        cmocka_unit_test(test_which_way_a_hit),
        cmocka_unit_test(test_which_way_a_read),
        cmocka_unit_test(test_high_and_early_is_never_more_film),
        cmocka_unit_test(test_again_says_more),
        cmocka_unit_test(test_bad_releases_say_little),
        cmocka_unit_test(test_release_unsaid),
        cmocka_unit_test(test_nothing_said),
        cmocka_unit_test(test_boards_at_the_arrows),
        cmocka_unit_test(test_crossing_off_the_mark),
        cmocka_unit_test(test_boards_at_the_breakpoint),
        cmocka_unit_test(test_what_nothing_else_explains),
        cmocka_unit_test(test_words_of_a_ball_that_is_off),
        cmocka_unit_test(test_speed_of_the_day),
        cmocka_unit_test(test_every_ball_wears_its_own_lane),
        cmocka_unit_test(test_surprise),
        cmocka_unit_test(test_dry_lane),
        cmocka_unit_test(test_draw),
        cmocka_unit_test(test_track),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_forecast),
        cmocka_unit_test(test_forecast_falls_with_doubt),
    };
    return cmocka_run_group_tests(tests, demo_set_up, NULL);
}
