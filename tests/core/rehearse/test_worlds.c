/* test_worlds.c - each world does what its sentence says, by what can be measured from outside, and
 * none but kin shares a number with the belief that is tested on it. Shares and deviations are held
 * to about four standard errors of the sample. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/normal.h"
#include "base/units.h"
#include "core/rehearse/world.h"
#include "store/files.h"

static Bag BAG;
static Oil SHEET;
static Truth *TRUTH;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    Pattern pattern;
    TRUTH = truth_new();
    if (!TRUTH || !files_bag("demo", &BAG, &error) || !files_pattern("apron", &pattern, &error))
        return -1;
    oil_lay(&pattern, &SHEET);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    truth_free(TRUTH);
    return 0;
}

static Roll roll_in(const World *world, Side lane, int slot, Delivery delivery, uint64_t luck)
{
    Roll roll;
    Rng rng = rng_seed(luck);
    world->roll(TRUTH, lane, slot, &delivery, &rng, &roll);
    return roll;
}

static void test_list(void **state)
{
    (void)state;
    for (int i = 0; WORLDS[i]; i++) {
        const World *w = WORLDS[i];
        assert_ptr_equal(world_find(w->name), w);
        assert_true(strlen(w->sentence) > 10);
        assert_true(w->senses && w->draw && w->roll && w->arrive && w->aim && w->wear);
        assert_true(w->every >= 1 && FORECAST_DRAWS % w->every == 0);
    }
    assert_null(world_find("nowhere"));
}

/* Oil that a game of one line leaves in kin, with that many others met by that seed. */
static double left_in_kin(int others, uint64_t seed)
{
    truth_draw(TRUTH, &WORLD_KIN, &BAG, &SHEET, 3);
    truth_meet(TRUTH, &(FieldMix){0}, others, seed);
    Rng luck = rng_seed(1);
    for (int k = 0; k < 6; k++) {
        Roll roll = roll_in(&WORLD_KIN, SIDE_LEFT, 1, delivery_of(&BAG.bowler, 26.0, 14.0), 3);
        truth_wear(TRUTH, SIDE_LEFT, 1, &roll, COVER_SOLID, others + 1, &luck);
    }
    return oil_volume_ml(&TRUTH->oil[SIDE_LEFT]);
}

/* In kin the others are people drawn by seed: the same seed wears the same, another otherwise, and
 * the more the more. */
static void test_people_of_kin(void **state)
{
    (void)state;
    double alone = left_in_kin(0, 1), four = left_in_kin(3, 1), ten = left_in_kin(9, 1);
    assert_true(left_in_kin(3, 1) == four);
    assert_true(left_in_kin(3, 2) != four);
    assert_less(four, alone);
    assert_less(ten, four);
}

/* The same seed gives the same truth, another one another; whatever was drawn before. */
static void test_seeds(void **state)
{
    (void)state;
    Delivery d = delivery_of(&BAG.bowler, 26.0, 14.0);
    for (int i = 0; WORLDS[i]; i++) {
        double board[3];
        for (int k = 0; k < 3; k++) {
            truth_draw(TRUTH, WORLDS[i], &BAG, &SHEET, k == 1 ? 8 : 7);
            Roll roll = roll_in(WORLDS[i], SIDE_RIGHT, 1, d, 3);
            board[k] = roll.gutter ? -1.0 : roll.entry_board;
            assert_true(isfinite(truth_mph(TRUTH, 2)));
        }
        assert_true(board[0] == board[2]);
        assert_true(board[0] != board[1]);
    }
}

/* A slot without a ball changes nothing for those behind it: they arrive, and curve toward the
 * pocket as they do with it filled. */
static void test_an_empty_slot(void **state)
{
    (void)state;
    static Bag gap;
    Delivery d = delivery_of(&BAG.bowler, 26.0, 14.0);
    gap = BAG;
    for (int i = 0; i < gap.count; i++)
        if (gap.balls[i].slot == 2)
            gap.balls[i].slot = 0;
    for (int i = 0; WORLDS[i]; i++)
        for (int slot = 1; slot <= 3; slot += 2) {
            Truth *fresh = truth_new(), *shared = TRUTH;
            assert_non_null(fresh);
            truth_draw(fresh, WORLDS[i], &gap, &SHEET, 7);
            TRUTH = fresh;
            Roll roll = roll_in(WORLDS[i], SIDE_RIGHT, slot, d, 3);
            TRUTH = shared;
            truth_free(fresh);
            assert_false(roll.gutter);
            assert_in_range((int)roll.entry_board, 5, 35);
            assert_true(roll.entry_deg > 0.5 && roll.entry_deg < 12.0);
        }
}

static double worn[WORLD_FIELD_MAX + 1];
static int worn_count;

static void note_wear(Truth *truth, Side lane, const Roll *roll, double shift_boards, Cover cover)
{
    (void)truth, (void)lane, (void)roll, (void)cover;
    assert_true(worn_count <= WORLD_FIELD_MAX);
    worn[worn_count++] = shift_boards;
}

/* Where the others are no people, a throw wears the bowler's own line and then each other's, as far
 * from it as was drawn for them, with their scatter. */
static void test_each_other_on_a_line_of_their_own(void **state)
{
    (void)state;
    truth_draw(TRUTH, &WORLD_TILTED, &BAG, &SHEET, 9);
    const World *world = TRUTH->world;
    World noting = *world;
    assert_false(world->people);
    noting.wear = note_wear;
    TRUTH->world = &noting;
    Roll roll = roll_in(world, SIDE_LEFT, 1, delivery_of(&BAG.bowler, 26.0, 14.0), 3);
    Rng luck = rng_seed(4), same = luck;
    worn_count = 0;
    truth_wear(TRUTH, SIDE_LEFT, 1, &roll, COVER_SOLID, 4, &luck);
    TRUTH->world = world;
    assert_int_equal(worn_count, 4);
    assert_near(worn[0], 0.0, 0.0);
    for (int i = 1; i < 4; i++)
        assert_near(worn[i], TRUTH->field_boards[i - 1] + rng_normal(&same), 0.0);
}

/* Many rolled at once hit where they hit one by one, but for the batch's single precision (and the
 * phases of a body that tumbles). */
static void test_many_at_once(void **state)
{
    (void)state;
    for (int i = 0; WORLDS[i]; i++) {
        truth_draw(TRUTH, WORLDS[i], &BAG, &SHEET, 5);
        truth_prepare(TRUTH, SIDE_LEFT, 1);
        for (int slot = 1; slot <= 4; slot++) {
            BatchThrow toss = {.delivery = delivery_of(&BAG.bowler, 26.0, 14.0),
                               .film_scale = 1.0f,
                               .dry_scale = 1.0f};
            Arrival at;
            WORLDS[i]->arrive(TRUTH, SIDE_LEFT, slot, &toss, 1, &at);
            Roll roll = roll_in(WORLDS[i], SIDE_LEFT, slot, toss.delivery, 1);
            assert_int_equal(at.gutter, roll.gutter);
            if (!at.gutter)
                assert_near(at.board, roll.entry_board, 0.5);
        }
    }
}

/* The aim that a world gives is about the best: two boards to either side strike less. */
static void test_aims(void **state)
{
    (void)state;
    for (int i = 0; WORLDS[i]; i++) {
        truth_draw(TRUTH, WORLDS[i], &BAG, &SHEET, 6);
        truth_prepare(TRUTH, SIDE_LEFT, 1);
        Delivery usual = delivery_of(&BAG.bowler, 27.0, 14.0);
        double aim = WORLDS[i]->aim(TRUTH, SIDE_LEFT, 1, &usual, 21.0), strike[3];
        for (int k = 0; k < 3; k++) {
            usual.laydown_board = 21.0;
            usual.launch_deg = delivery_launch_deg(21.0, aim + 2.0 * (k - 1));
            strike[k] = truth_outlook(TRUTH, SIDE_LEFT, 1, &usual).strike;
        }
        assert_less(strike[0], strike[1]);
        assert_less(strike[2], strike[1]);
    }
}

/* How well each world's bowler throws, sees and tells, against the numbers of its row. */
static void test_senses(void **state)
{
    (void)state;
    enum { THROWS = 20000 };
    for (int i = 0; WORLDS[i]; i++) {
        const Senses *s = WORLDS[i]->senses;
        const Scatter *scatter = &BAG.bowler.scatter;
        double told = 0.0, flush = 0.0, early = 0.0, shown = 0.0, square = 0.0;
        truth_draw(TRUTH, WORLDS[i], &BAG, &SHEET, 2);
        Plan plan = {.slot = 1, .stance = 26.0, .aim = 14.0};
        Delivery meant = plan_delivery(&BAG.bowler, &plan);
        Rng luck = rng_seed(9);
        for (int k = 0; k < THROWS; k++) {
            Roll roll = {.entry_board = 17.6, .hook_ft = 25.0};
            Shot shot = {.slot = 1};
            Delivery d = truth_throw(TRUTH, &plan, 1, &luck, &shot.release);
            TRUTH->expected_ft[0] = 25.0;
            truth_see(TRUTH, &roll, &d, false, &luck, &shot);
            double off =
                (d.launch_deg - meant.launch_deg - TRUTH->launch_deg) / scatter->launch_deg;
            square += off * off;
            told += shot.release != RELEASE_GOOD;
            flush += shot.hit == HIT_FLUSH;
            early += shot.read == READ_EARLY;
            shown += shot.mph > 0.0;
        }
        double low, high, e = s->read_ft / s->eye_feet;
        shot_hit_span(HIT_FLUSH, &low, &high);
        assert_near(told / THROWS, s->bad_share * s->told_share, 0.01);
        /* six bad releases of ten go to a side */
        assert_near(square / THROWS,
                    1.0 + 0.6 * s->bad_share * s->bad_deviations * s->bad_deviations, 0.06);
        assert_near(flush / THROWS,
                    normal_below((high - 17.6) / s->eye_boards) -
                        normal_below((low - 17.6) / s->eye_boards),
                    0.015);
        assert_near(early / THROWS,
                    (1.0 - s->random_reads) * normal_below(-e) + s->random_reads / 3.0, 0.013);
        assert_near(shown / THROWS, s->speed_shown, 0.015);
    }
}

/* What the rows promise in words. */
static void test_blunt(void **state)
{
    (void)state;
    const Senses *s = WORLD_BLUNT.senses;
    assert_near(s->eye_boards, 1.0, 0.0);
    assert_near(s->bad_share, 0.2, 0.0);
    assert_near(s->told_share, 0.5, 0.0);
    assert_near(s->random_reads, 1.0 / 3.0, 1e-15);
}

/* What a lane adds where a ball turns on that board: sent straight toward the other side, its
 * breakpoint is where it was laid down. */
static double tilt_at(Side lane, double board)
{
    Roll plain;
    Delivery d = delivery_of(&BAG.bowler, 26.0, 14.0);
    d.laydown_board = board;
    d.launch_deg = -0.5;
    d.rotation_deg = 0.0;
    motion_roll(&TRUTH->body[0], &TRUTH->oil[lane], &d, &plain);
    Roll tilted = roll_in(&WORLD_TILTED, lane, 1, d, 1);
    assert_near(tilted.breakpoint_board, board, 1e-9);
    return tilted.entry_board - plain.entry_board;
}

/* A deviation of 1.5 boards; five boards on still alike as exp(-1/2), twenty on no more; the two
 * lanes have nothing to do with each other; and it is smooth. */
static void test_tilted(void **state)
{
    (void)state;
    enum { DRAWS = 600 };
    double here = 0.0, five = 0.0, far = 0.0, other = 0.0, square = 0.0;
    for (int seed = 0; seed < DRAWS; seed++) {
        truth_draw(TRUTH, &WORLD_TILTED, &BAG, &SHEET, (uint64_t)seed);
        double at = tilt_at(SIDE_LEFT, 8.0);
        here += at / DRAWS;
        square += at * at / DRAWS;
        five += at * tilt_at(SIDE_LEFT, 13.0) / DRAWS;
        far += at * tilt_at(SIDE_LEFT, 28.0) / DRAWS;
        other += at * tilt_at(SIDE_RIGHT, 8.0) / DRAWS;
        assert_near(tilt_at(SIDE_LEFT, 8.5), 0.5 * (at + tilt_at(SIDE_LEFT, 9.0)), 0.1);
    }
    assert_near(here, 0.0, 0.25);
    assert_near(sqrt(square), 1.5, 0.18);
    assert_near(five / (1.5 * 1.5), exp(-0.5), 0.2);
    assert_near(far / (1.5 * 1.5), 0.0, 0.17);
    assert_near(other / (1.5 * 1.5), 0.0, 0.17);
}

static double units_in(const Oil *oil, double from_ft, double to_ft)
{
    double sum = 0.0;
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            if (j * OIL_STATION_FT >= from_ft && j * OIL_STATION_FT < to_ft)
                sum += oil->units[j][b];
    return sum;
}

/* One thing at a time jumps, about once in sixteen shots: oil past the pattern's end on that lane,
 * a mile an hour, or three tenths of a degree; speed and launch come back before they go again. */
static void test_jumpy(void **state)
{
    (void)state;
    enum { SHOTS = 8000 };
    int spills = 0, legs = 0, launches = 0, lighter = 0, turned = 0, to_left = 0;
    Delivery d = delivery_of(&BAG.bowler, 24.0, 11.0);
    truth_draw(TRUTH, &WORLD_JUMPY, &BAG, &SHEET, 1);
    double mph = TRUTH->mph, launch = TRUTH->launch_deg;
    Oil clean = TRUTH->oil[SIDE_LEFT], other = TRUTH->oil[SIDE_RIGHT];
    double hit = roll_in(&WORLD_JUMPY, SIDE_LEFT, 1, d, 1).entry_board;
    Rng rng = rng_seed(3);
    for (int k = 0; k < SHOTS; k++) {
        double mph_before = TRUTH->mph, launch_before = TRUTH->launch_deg;
        WORLD_JUMPY.happen(TRUTH, SIDE_LEFT, &rng);
        bool spilt = !oil_same(&TRUTH->oil[SIDE_LEFT], &clean);
        bool leg = TRUTH->mph != mph_before, turn = TRUTH->launch_deg != launch_before;
        assert_true(spilt + leg + turn <= 1);
        spills += spilt;
        legs += leg;
        launches += turn;
        turned += turn && fabs(TRUTH->launch_deg - launch) > 0.1;
        to_left += turn && TRUTH->launch_deg < launch - 0.1;
        assert_true(fabs(TRUTH->mph - mph) < 1e-9 || fabs(TRUTH->mph - mph + 1.0) < 1e-9);
        assert_true(fabs(TRUTH->launch_deg - launch) < 1e-9 ||
                    fabs(fabs(TRUTH->launch_deg - launch) - 0.3) < 1e-9);
        if (!spilt)
            continue;
        const Oil *oil = &TRUTH->oil[SIDE_LEFT];
        assert_near(units_in(oil, 0.0, oil->length_ft - 1.0),
                    units_in(&clean, 0.0, oil->length_ft - 1.0), 0.0);
        assert_less(units_in(&clean, oil->length_ft, 60.0) + 100.0,
                    units_in(oil, oil->length_ft, 60.0));
        Roll roll = roll_in(&WORLD_JUMPY, SIDE_LEFT, 1, d, 1);
        lighter += roll.gutter || roll.entry_board < hit - 0.5;
        TRUTH->oil[SIDE_LEFT] = clean;
    }
    assert_true(oil_same(&TRUTH->oil[SIDE_RIGHT], &other)); /* it was the left lane's turn */
    assert_near((double)(spills + legs + launches) / SHOTS, 0.06, 0.011);
    assert_near((double)spills / SHOTS, 0.024, 0.007);
    assert_near((double)legs / SHOTS, 0.018, 0.006);
    assert_near((double)launches / SHOTS, 0.018, 0.006);
    assert_near((double)to_left / turned, 0.5, 2.0 / sqrt(turned)); /* either way as often */
    assert_true(lighter > spills / 3); /* where it comes down on the ball's boards */
}

/* Two feet and a third, either way, on top of what any world's film is off by. */
static void test_house(void **state)
{
    (void)state;
    enum { DRAWS = 400 };
    double volume[2] = {0};
    int count[2][2] = {{0}};
    for (uint64_t seed = 0; seed < DRAWS; seed++) {
        truth_draw(TRUTH, &WORLD_HOUSE, &BAG, &SHEET, seed);
        const Oil *oil = &TRUTH->oil[SIDE_LEFT];
        double feet = oil->length_ft - SHEET.length_ft;
        assert_near(fabs(feet), 2.0, 1e-9);
        assert_near(oil_length_ft(oil) - oil_length_ft(&SHEET), feet, 1.0);
        double log_ratio = log(oil_volume_ml(oil) / oil_volume_ml(&SHEET));
        int more = log_ratio > 0.5 * log(4.0 / 3.0 * 2.0 / 3.0);
        volume[more] += log_ratio;
        count[more][feet > 0.0]++;
    }
    for (int more = 0; more < 2; more++) {
        int n = count[more][0] + count[more][1];
        assert_in_range(n, DRAWS / 2 - 50, DRAWS / 2 + 50);
        assert_in_range(count[more][0], n / 2 - 45, n / 2 + 45);
        assert_near(volume[more] / n, log(more ? 4.0 / 3.0 : 2.0 / 3.0), 0.08);
    }
}

/* A bag of one ball with a core of no differential: no phase, no tumbling. */
static Bag round_bag(void)
{
    Bag bag = BAG;
    bag.count = 1;
    bag.balls[0] = ball_default();
    bag.balls[0].differential_in = bag.balls[0].intermediate_in = 0.0;
    bag.balls[0].slot = 1;
    return bag;
}

static void draw_stranger(const Bag *bag, double film)
{
    truth_draw(TRUTH, &WORLD_STRANGER, bag, &SHEET, 4);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        TRUTH->oil[lane] = SHEET;
        oil_scale(&TRUTH->oil[lane], film);
    }
}

/* Textbook: whatever friction does, R2 v + k2 q is kept, q the velocity of the surface against the
 * centre; so a round ball that has come to roll heads along (R2 v0 + k2 q0) / (R2 + k2). */
static void test_stranger_rolls_as_a_textbook_says(void **state)
{
    (void)state;
    Bag bag = round_bag();
    draw_stranger(&bag, 0.0); /* bare: it rolls well before the pins */
    MotionBody body;
    motion_body(&bag.balls[0], &body);
    for (double rotation = 0.0; rotation <= 90.0; rotation += 30.0)
        for (double tilt = 0.0; tilt <= 20.0; tilt += 20.0) {
            Delivery d = delivery_of(&bag.bowler, 26.0, 16.0);
            d.mph = 20.0; /* fast and with few revs, so that it stays on a bare lane */
            d.rpm = 150.0;
            d.rotation_deg = rotation;
            d.tilt_deg = tilt;
            Roll roll = roll_in(&WORLD_STRANGER, SIDE_LEFT, 1, d, 1);
            double a = rad_from_deg(d.launch_deg), v = mps_from_mph(d.mph);
            double q = body.radius_m * radps_from_rpm(d.rpm) * cos(rad_from_deg(tilt));
            double r2 = body.radius_m * body.radius_m, k2 = body.k_sq[0];
            double hand = rad_from_deg(rotation) - a;
            double vx = (-r2 * v * sin(a) + k2 * q * sin(hand)) / (r2 + k2);
            double vy = (r2 * v * cos(a) + k2 * q * cos(hand)) / (r2 + k2);
            assert_false(roll.gutter);
            assert_true(roll.roll_ft < 55.0);
            assert_near(roll.entry_deg, deg_from_rad(atan2(vx, vy)), 0.1);
            /* a rolling ball loses a little more, a hundredth of g over what is left of the lane */
            assert_less(roll.entry_mph, mph_from_mps(hypot(vx, vy)) + 0.2);
            assert_near(roll.entry_mph, mph_from_mps(hypot(vx, vy)), 0.6);
        }
}

/* A stronger cover takes more of the speed, on a bare lane as on oil. */
static void test_stranger_feels_the_cover(void **state)
{
    (void)state;
    Bag bag = round_bag();
    for (int oiled = 0; oiled < 2; oiled++) {
        double last = 99.0;
        for (double strength = 0.8; strength < 1.15; strength += 0.1) {
            bag.balls[0].cover_strength = strength;
            draw_stranger(&bag, oiled);
            Delivery d = delivery_of(&bag.bowler, 26.0, 16.0);
            d.mph = 20.0;
            d.rpm = 150.0;
            Roll roll = roll_in(&WORLD_STRANGER, SIDE_LEFT, 1, d, 1);
            assert_false(roll.gutter);
            /* before it rolls, after which all are alike */
            double mph = roll.path[(int)(20.0 / OIL_STATION_FT)].mph;
            assert_less(mph, last);
            last = mph;
        }
    }
}

/* In the air it goes straight. */
static void test_stranger_flies_straight(void **state)
{
    (void)state;
    draw_stranger(&BAG, 1.0);
    Delivery d = delivery_of(&BAG.bowler, 26.0, 14.0);
    d.loft_ft = 10.0;
    Roll roll = roll_in(&WORLD_STRANGER, SIDE_LEFT, 1, d, 1);
    for (int j = 1; j <= 20; j++)
        assert_near(roll.path[j].board,
                    d.laydown_board -
                        tan(rad_from_deg(d.launch_deg)) * m_from_ft(roll.path[j].ft) / LANE_BOARD_M,
                    1e-6);
}

/* The phase a ball happens to have moves the hit of a strong core a little, and of a round one not.
 */
static void test_stranger_has_a_phase(void **state)
{
    (void)state;
    for (int strong = 0; strong < 2; strong++) {
        Bag bag = round_bag();
        if (strong) {
            bag.balls[0].differential_in = 0.055;
            bag.balls[0].intermediate_in = 0.018;
        }
        draw_stranger(&bag, 1.0);
        double low = 99.0, high = 0.0;
        Delivery d = delivery_of(&bag.bowler, 26.0, 14.0);
        for (uint64_t luck = 0; luck < 20; luck++) {
            Roll roll = roll_in(&WORLD_STRANGER, SIDE_LEFT, 1, d, luck);
            assert_false(roll.gutter);
            low = fmin(low, roll.entry_board);
            high = fmax(high, roll.entry_board);
        }
        if (strong)
            assert_true(high - low > 0.001 && high - low < 1.5);
        else
            assert_near(high, low, 1e-6);
    }
}

/* More oil, less hook; and not by the program's law: what the two differ by changes with the film.
 */
static void test_stranger_has_another_law(void **state)
{
    (void)state;
    double differ[4], last = 99.0;
    Delivery d = delivery_of(&BAG.bowler, 26.0, 14.0);
    MotionBody body;
    motion_body(bag_slot(&BAG, 1), &body);
    for (int k = 0; k < 4; k++) {
        Roll kin;
        draw_stranger(&BAG, 0.25 * (k + 1));
        motion_roll(&body, &TRUTH->oil[SIDE_LEFT], &d, &kin);
        Roll roll = roll_in(&WORLD_STRANGER, SIDE_LEFT, 1, d, 1);
        assert_false(roll.gutter || kin.gutter);
        assert_less(roll.entry_board, last);
        last = roll.entry_board;
        differ[k] = roll.entry_board - kin.entry_board;
    }
    assert_less(0.5, fabs(differ[3] - differ[0]));
}

/* Wear by a fixed amount, not by a share: twice the film loses as much. Nothing falls below 0, and
 * some of what is taken up comes down past the oil's end, never more than was taken. */
static void test_stranger_wears_otherwise(void **state)
{
    (void)state;
    Delivery d = delivery_of(&BAG.bowler, 26.0, 14.0);
    double taken[2], end = SHEET.length_ft;
    for (int twice = 0; twice < 2; twice++) {
        draw_stranger(&BAG, 1.0 + twice);
        Oil *oil = &TRUTH->oil[SIDE_LEFT], before = *oil;
        Roll roll = roll_in(&WORLD_STRANGER, SIDE_LEFT, 1, d, 1);
        TRUTH->oil[SIDE_LEFT] = before;
        WORLD_STRANGER.wear(TRUTH, SIDE_LEFT, &roll, 0.0, COVER_SOLID);
        taken[twice] = units_in(&before, 5.0, 20.0) - units_in(oil, 5.0, 20.0);
        assert_less(0.0, units_in(oil, end + 1.0, 60.0) - units_in(&before, end + 1.0, 60.0));
        assert_less(oil_volume_ml(oil), oil_volume_ml(&before));
    }
    assert_near(taken[1], taken[0], 0.1 * taken[0]);
    draw_stranger(&BAG, 0.02);
    for (int k = 0; k < 50; k++) {
        Roll roll = roll_in(&WORLD_STRANGER, SIDE_LEFT, 1, d, 1);
        WORLD_STRANGER.wear(TRUTH, SIDE_LEFT, &roll, 0.0, COVER_SOLID);
    }
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            assert_true(TRUTH->oil[SIDE_LEFT].units[j][b] >= 0.0);
}

static char *source(const char *path)
{
    char full[512];
    snprintf(full, sizeof full, SETTEE_SOURCE_DIR "/src/core/%s", path);
    FILE *file = fopen(full, "rb");
    char *text = calloc(1, 1 << 17);
    assert_true(file && text);
    fread(text, 1, (1 << 17) - 1, file);
    fclose(file);
    return text;
}

static double defined(const char *text, const char *name)
{
    char line[64];
    snprintf(line, sizeof line, "#define %s ", name);
    const char *at = strstr(text, line);
    if (!at)
        fail_msg("%s is no longer defined", name);
    return strtod(at + strlen(line), NULL);
}

/* A number that means the same to a world and to the belief is not the same number. */
static void test_no_number_is_the_beliefs(void **state)
{
    (void)state;
    char *belief = source("advice/belief.c"), *parts = source("advice/belief_parts.h");
    strncat(belief, parts, (1 << 17) - 1 - strlen(belief));
    free(parts);
    const Spreads *s = &WORLD_SPREADS;
    for (int i = 0; WORLDS[i]; i++) {
        if (WORLDS[i] == &WORLD_KIN)
            continue;
        const Senses *w = WORLDS[i]->senses;
        const struct {
            const char *name;
            double value;
        } PAIRS[] = {{"HIT_SEEN_BOARDS", w->eye_boards},
                     {"READ_STEP_FT", w->read_ft},
                     {"READ_RANDOM", w->random_reads},
                     {"ARROWS_SEEN_BOARDS", w->arrows_boards},
                     {"BREAKPOINT_SEEN_BOARDS", w->breakpoint_boards},
                     {"BAD_SHIFT", w->bad_deviations},
                     {"VOLUME_COMMON_SD", s->volume},
                     {"VOLUME_LANE_SD", s->lane},
                     {"DRY_COMMON_SD", s->dry},
                     {"MPH_SD", s->mph},
                     {"LAUNCH_SD_DEG", s->launch_deg}};
        for (size_t k = 0; k < sizeof PAIRS / sizeof PAIRS[0]; k++)
            if (defined(belief, PAIRS[k].name) == PAIRS[k].value)
                fail_msg("%s and the belief share %s", WORLDS[i]->name, PAIRS[k].name);
    }
    /* how far things jump, and how far from line to line lanes differ */
    static const struct {
        const char *world, *name, *as;
    } JUMPS[] = {{"rehearse/world_jumpy.c", "JUMP_CHANCE", "JUMP_CHANCE"},
                 {"rehearse/world_jumpy.c", "TIRED_MPH", "JUMP_MPH"},
                 {"rehearse/world_tilted.c", "TILT_BOARDS", "LAYDOWN_SD"},
                 {"rehearse/world_tilted.c", "TILT_BOARDS", "TURN_SD"},
                 {"rehearse/world_tilted.c", "TILT_LENGTH", "LAYDOWN_FAR"},
                 {"rehearse/world_tilted.c", "TILT_LENGTH", "TURN_FAR"}};
    char *offsets = source("advice/offsets.c");
    for (size_t k = 0; k < sizeof JUMPS / sizeof JUMPS[0]; k++) {
        char *world = source(JUMPS[k].world);
        const char *ours = k < 2 ? belief : offsets;
        if (defined(ours, JUMPS[k].as) == defined(world, JUMPS[k].name))
            fail_msg("%s of %s is the belief's", JUMPS[k].name, JUMPS[k].world);
        free(world);
    }
    free(offsets);
    /* its rates of wear have 1 in their middle */
    assert_true(s->pick_middle != 1.0 && s->carry_middle != 1.0);
    free(belief);
}

/* The stranger takes no law from the program: neither friction nor motion nor wear. */
static void test_stranger_takes_no_law(void **state)
{
    (void)state;
    static const char *const LAWS[] = {"friction_curve", "friction_mu",    "motion_roll",
                                       "axis_",          "motion_advance", "motion_arrive",
                                       "batch_arrive",   "track_of",       "wear_track",
                                       "world_roll",     "world_arrive",   "world_wear"};
    char *text = source("rehearse/world_stranger.c");
    for (size_t i = 0; i < sizeof LAWS / sizeof LAWS[0]; i++)
        assert_null(strstr(text, LAWS[i]));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_list),
        cmocka_unit_test(test_people_of_kin),
        cmocka_unit_test(test_seeds),
        cmocka_unit_test(test_an_empty_slot),
        cmocka_unit_test(test_each_other_on_a_line_of_their_own),
        cmocka_unit_test(test_many_at_once),
        cmocka_unit_test(test_aims),
        cmocka_unit_test(test_senses),
        cmocka_unit_test(test_blunt),
        cmocka_unit_test(test_tilted),
        cmocka_unit_test(test_jumpy),
        cmocka_unit_test(test_house),
        cmocka_unit_test(test_stranger_rolls_as_a_textbook_says),
        cmocka_unit_test(test_stranger_feels_the_cover),
        cmocka_unit_test(test_stranger_flies_straight),
        cmocka_unit_test(test_stranger_has_a_phase),
        cmocka_unit_test(test_stranger_has_another_law),
        cmocka_unit_test(test_stranger_wears_otherwise),
        cmocka_unit_test(test_no_number_is_the_beliefs),
        cmocka_unit_test(test_stranger_takes_no_law),
    };
    return cmocka_run_group_tests_name("worlds", tests, set_up, tear_down);
}
