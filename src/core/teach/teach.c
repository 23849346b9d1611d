/* teach.c - sets a lesson up for a reader, rolls its shots and choices, and checks its claim. */
#include "core/teach/teach.h"

#include <math.h>
#include <stdlib.h>

#include "base/normal.h"
#include "base/text.h"
#include "base/units.h"
#include "core/bag/preset.h"
#include "core/event/shot.h"
#include "core/line/fit.h"
#include "core/line/strength.h"
#include "core/motion/wear.h"
#include "core/pins/rack.h"
#include "core/spare/spare.h"
#include "core/spare/spare_ball.h"

#define READ_FT 1.0         /* a move this much sooner or later is seen (assumed) */
#define SEEN_MPH 0.5        /* as is that much more or less speed (assumed) */
#define WORN_BOARDS 1.5     /* how far the balls before spread about the line (assumed) */
#define WORN_MOST 400       /* balls; more than a long block of a full pair */
#define OIL_MORE_UNITS 40.0 /* at most, on every board */
#define OIL_TRIES 30
#define REACHED_BOARDS 0.25
#define PINS_MPH_LESS 2.0 /* what a straight ball loses on its way to a leave (assumed) */

void teach_own_bag(bool hook, Hand hand, Bag *bag)
{
    const LevelPreset *level = preset_level(hook ? "league" : "junior");
    *bag = (Bag){.bowler = preset_bowler(level, preset_style(level->style), hand)};
    text_copy(bag->bowler.name, sizeof bag->bowler.name, hook ? "a hook" : "a straight ball");
    preset_balls(level->balls, level->pounds, bag, NULL);
}

bool teach_hooks(const Bag *bag)
{
    Delivery usual = delivery_of(&bag->bowler, 20.0, 10.0); /* the line doesn't matter */
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(bag, slot);
        if (!ball || bag_for_spares(bag, ball, true))
            continue;
        MotionBody body;
        double k_sq = 0.0;
        motion_body(ball, &body);
        for (int i = 0; i < 3; i++)
            k_sq += body.k_sq[i] * body.axis[i] * body.axis[i];
        return motion_turn_deg(k_sq, body.radius_m, &usual) >= MOTION_TURN_LEAST_DEG;
    }
    return false;
}

/* ---- the balls of the reader's bag ---- */

/* The places of strength_order that hold strike balls: all, where the bag has only spare balls. */
static int strike_places(const Bag *bag, const int *slots, int count)
{
    int strikes = 0;
    while (strikes < count && !bag_for_spares(bag, bag_slot(bag, slots[strikes]), true))
        strikes++;
    return strikes > 0 ? strikes : count;
}

/* The place in the order of the ball a lesson names. */
static int place_of(LessonBall ball, int strikes, int count)
{
    switch (ball) {
    case LESSON_STRONG:
        return 0;
    case LESSON_MIDDLE:
        return (strikes - 1) / 2;
    case LESSON_WEAK:
        return strikes - 1;
    default:
        return count - 1;
    }
}

/* ---- the line and the lane ---- */

static Fit fit_over(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler, double over)
{
    if (over <= 0.0)
        return fit_ball(ball, oil, bowler);
    Fit best = {0};
    double low = LINE_LAYDOWN_LOW, high = LINE_LAYDOWN_HIGH;
    delivery_reach(bowler, &low, &high);
    for (double laydown = low; laydown <= high; laydown += 0.5) {
        Fit fit = fit_between(ball, oil, bowler, laydown, laydown);
        if (fit.found && (!best.found || fabs(fit.aim - over) < fabs(best.aim - over)))
            best = fit;
    }
    return best;
}

/* One of the normal deviates that fill their distribution evenly however few are taken, so that
 * thirty throws look like three hundred: Halton's sequence in that base, begun where `shift` says.
 */
static double even_normal(int nth, int base, double shift)
{
    double share = shift, part = 1.0, low = -6.0, high = 6.0;
    for (int n = nth + 1; n > 0; n /= base) {
        part /= base;
        share += part * (n % base);
    }
    share -= floor(share);
    for (int i = 0; i < 40; i++) {
        double z = 0.5 * (low + high);
        if (normal_below(z) < share)
            low = z;
        else
            high = z;
    }
    return low;
}

/* The scatter of the nth throw. */
static void scatter_of(const Bowler *bowler, double wider, int nth, int seed,
                       DeliveryOffset *offset)
{
    const Scatter *scatter = &bowler->scatter;
    Rng rng = rng_seed((uint64_t)seed);
    double shift[4];
    for (int i = 0; i < 4; i++)
        shift[i] = rng_uniform(&rng);
    offset->launch_deg = wider * scatter->launch_deg * even_normal(nth, 2, shift[0]);
    offset->laydown_boards = wider * scatter->laydown_boards * even_normal(nth, 3, shift[1]);
    offset->mph = wider * scatter->mph * even_normal(nth, 5, shift[2]);
    offset->rpm = wider * scatter->rpm * even_normal(nth, 7, shift[3]);
}

static double meant_board(const TeachScene *scene, const MotionBody *body, const Oil *oil)
{
    const DeliveryOffset none = {0};
    Plan plan = {.stance = scene->line.stance, .aim = scene->line.aim};
    Delivery delivery = plan_today(&scene->bowler, &plan, &none);
    return motion_arrive(body, oil, &delivery).board;
}

/* Less oil: a share of it (1: all). More: units on every board, as far as the pattern goes. */
static void change_film(Oil *oil, double amount)
{
    if (amount <= 0.0) {
        oil_scale(oil, 1.0 + amount);
        return;
    }
    for (int at = 0; at < OIL_STATIONS && at * OIL_STATION_FT < oil->length_ft; at++)
        for (int board = 0; board < LANE_BOARDS; board++)
            oil->units[at][board] += OIL_MORE_UNITS * amount;
}

/* Takes oil off or puts it on until a good throw of that ball arrives at `wanted`. */
static bool change_oil(TeachScene *scene, const MotionBody *body, double wanted, Error *error)
{
    const Oil laid = scene->oil;
    double dry = -1.0, wet = 1.0, board = NAN;
    for (int i = 0; i < OIL_TRIES; i++) {
        double amount = 0.5 * (dry + wet);
        scene->oil = laid;
        change_film(&scene->oil, amount);
        board = meant_board(scene, body, &scene->oil);
        if (board > wanted)
            dry = amount;
        else
            wet = amount; /* in the gutter too: it never hooked */
    }
    return fabs(board - wanted) < REACHED_BOARDS ||
           error_set(error, "no amount of oil makes this bag's ball hit board %.1f", wanted);
}

/* Throws balls down the line, and down those that others play beside it, until a good one hits that
 * many boards higher. */
static bool wear_lane(TeachScene *scene, const Ball *ball, const MotionBody *body, Error *error)
{
    Rng rng = rng_seed((uint64_t)scene->lesson->seed);
    Plan plan = {.stance = scene->line.stance, .aim = scene->line.aim};
    double by = scene->lesson->worn_by;
    double wanted = scene->line.entry_board + scene->lesson->oil_by + by;
    for (int i = 0; by > 0.0 && !(meant_board(scene, body, &scene->oil) >= wanted); i++) {
        DeliveryOffset offset;
        Roll roll;
        if (i == WORN_MOST)
            return error_set(error,
                             "%d balls don't wear the lane until this bag's ball hits %g "
                             "boards higher",
                             WORN_MOST, by);
        scatter_of(&scene->bowler, 1.0, i, scene->lesson->seed, &offset);
        Delivery delivery = plan_today(&scene->bowler, &plan, &offset);
        motion_roll(body, &scene->oil, &delivery, &roll);
        wear_delivery(&scene->oil, &roll, ball->cover, WORN_BOARDS * rng_normal(&rng));
    }
    return true;
}

static void steady(Scatter *scatter, double times)
{
    scatter->launch_deg *= times;
    scatter->mph *= times;
    scatter->rpm *= times;
    scatter->laydown_boards *= times;
}

static bool find_line(const TeachInput *input, const Oil *learned, const MotionBody *body,
                      TeachScene *scene, Error *error)
{
    BatchBall batch;
    batch_ball(body, &batch);
    batch_oil(learned, BATCH_FINE, &scene->batch_oil);
    Fit fit = fit_over(&batch, &scene->batch_oil, &scene->bowler, input->lesson->over);
    scene->line = fit_line(body, learned, &scene->bowler, &fit);
    if (!fit.found || !scene->line.found)
        return error_set(error, "no line brings this bag's ball to the pocket on %s",
                         input->learned->name);
    return true;
}

/* ---- what is thrown ---- */

static void change_plan(Plan *plan, const LessonChange *change)
{
    plan->stance += change->feet;
    plan->aim += change->eyes;
    plan->mph_change += change->mph;
    plan->loft_change_ft += change->loft_ft;
    plan->rotation_change_deg += change->rotation_deg;
}

static bool plan_possible(const TeachScene *scene, const Plan *plan, Error *error)
{
    double laydown = plan->stance - scene->bowler.laydown_offset_boards;
    if (laydown < DELIVERY_LAYDOWN_LOW || laydown > DELIVERY_LAYDOWN_HIGH ||
        plan->stance < DELIVERY_STANCE_LOW || plan->stance > DELIVERY_STANCE_HIGH)
        return error_set(error,
                         "a change would have this bag's bowler stand on board %.1f and lay "
                         "the ball down on %.1f, off the lane",
                         plan->stance, laydown);
    return true;
}

/* A plan as it is thrown: today's difference, then this throw's own. */
static Delivery thrown(const TeachScene *scene, const Plan *plan, const LessonThrow *shot,
                       const DeliveryOffset *scatter)
{
    const LessonThrow *today = &scene->lesson->today;
    Plan as = *plan;
    as.aim += today->aim + shot->aim;
    as.stance += today->laydown + shot->laydown;
    Delivery delivery = plan_delivery(&scene->bowler, &as);
    DeliveryOffset offset = *scatter;
    offset.mph += today->mph + shot->mph;
    offset.rpm += today->rpm + shot->rpm;
    return delivery_offset(&delivery, &offset);
}

/* The place in the order, some places weaker: a strike ball's. */
static bool weaker(int place, int by, int strikes, int *out, Error *error)
{
    *out = place + by;
    if (by == 0 || (*out >= 0 && *out < strikes))
        return true;
    return error_set(error, "this bag has no strike ball %d place%s %s", abs(by),
                     abs(by) == 1 ? "" : "s", by < 0 ? "stronger" : "weaker");
}

/* The lane as the lesson has it. */
static bool lay_lane(TeachScene *scene, const int *slots, int place, int strikes, Error *error)
{
    const Lesson *lesson = scene->lesson;
    const Ball *ball = bag_slot(scene->bag, slots[place]);
    MotionBody body;
    int suits;
    if (!weaker(place, lesson->suits, strikes, &suits, error))
        return false;
    motion_body(bag_slot(scene->bag, slots[suits]), &body);
    if ((lesson->suits || lesson->oil_by != 0.0) &&
        !change_oil(scene, &body, scene->line.entry_board + lesson->oil_by, error))
        return false;
    motion_body(ball, &body);
    return wear_lane(scene, ball, &body, error);
}

bool teach_scene(const TeachInput *input, TeachScene *scene, Error *error)
{
    const Lesson *lesson = input->lesson;
    int slots[BAG_SLOTS];
    Oil sheet, learned;
    *scene = (TeachScene){.lesson = lesson, .bag = input->bag, .bowler = input->bag->bowler};
    steady(&scene->bowler.scatter, lesson->steady);
    if (lesson->kind == LESSON_SCORE)
        return true;
    oil_lay(input->learned, &sheet);
    oil_for_hand(&sheet, scene->bowler.hand, &learned);
    int count = strength_order(input->bag, &learned, slots, NULL);
    if (count == 0)
        return error_set(error, "this bag has no ball in a slot");
    int strikes = strike_places(input->bag, slots, count);
    int place = place_of(lesson->ball, strikes, count);
    const Ball *ball = bag_slot(input->bag, slots[place]);
    MotionBody body;
    motion_body(ball, &body);
    if (!find_line(input, &learned, &body, scene, error))
        return false;
    scene->plan =
        (Plan){.slot = slots[place], .stance = scene->line.stance, .aim = scene->line.aim};
    change_plan(&scene->plan, &lesson->start);
    oil_lay(input->pattern, &sheet);
    oil_for_hand(&sheet, scene->bowler.hand, &scene->oil);
    if (!lay_lane(scene, slots, place, strikes, error))
        return false;
    batch_oil(&scene->oil, BATCH_FINE, &scene->batch_oil);
    if (!plan_possible(scene, &scene->plan, error))
        return false;
    for (int i = 0; i < lesson->choice_count; i++) {
        const LessonChange *change = &lesson->choices[i].change;
        int at;
        if (!weaker(place, change->ball, strikes, &at, error))
            return false;
        scene->choice[i] = scene->plan;
        change_plan(&scene->choice[i], change);
        if (change->ball)
            scene->choice[i].slot = slots[at];
        if (!plan_possible(scene, &scene->choice[i], error))
            return false;
    }
    return true;
}

/* ---- shots ---- */

/* -1 light or in the gutter, 0 in the pocket, 1 high. */
static int side_of(const Roll *roll)
{
    if (roll->gutter || roll->entry_board < LANE_POCKET_LOW)
        return -1;
    return roll->entry_board > LANE_POCKET_HIGH ? 1 : 0;
}

void teach_shot(const TeachScene *scene, int shot, TeachShot *out)
{
    const DeliveryOffset none = {0};
    const LessonThrow *as = &scene->lesson->shots[shot];
    const Ball *ball = bag_slot(scene->bag, scene->plan.slot);
    MotionBody body;
    motion_body(ball, &body);
    out->delivery = thrown(scene, &scene->plan, as, &none);
    motion_roll(&body, &scene->oil, &out->delivery, &out->roll);
    if (scene->lesson->kind == LESSON_SPARE_BALL) {
        out->left = scene->lesson->left;
    } else if (as->left_said) {
        out->left = as->left;
    } else if (out->roll.gutter) {
        out->left = PINS_ALL;
    } else {
        const Roll *roll = &out->roll;
        RackChances chances;
        rack_chances(roll->entry_board, roll->entry_deg, roll->entry_mph, ball->pounds, &chances);
        out->left = side_of(roll) == 0 || chances.leave_count == 0 ? 0 : chances.leave[0];
    }
}

static bool shot_saw(const TeachScene *scene, const TeachShot *shot, Saw saw)
{
    const Roll *roll = &shot->roll;
    double meant = scene->bowler.mph + scene->plan.mph_change;
    switch (saw) {
    case SAW_GUTTER:
        return roll->gutter;
    case SAW_LIGHT:
        return side_of(roll) < 0;
    case SAW_POCKET:
        return side_of(roll) == 0;
    case SAW_HIGH:
        return side_of(roll) > 0;
    case SAW_EARLY:
        return roll->hook_ft <= scene->line.hook_ft - READ_FT;
    case SAW_LATE:
        return roll->hook_ft >= scene->line.hook_ft + READ_FT;
    case SAW_SLOW:
        return shot->delivery.mph <= meant - SEEN_MPH;
    case SAW_FAST:
        return shot->delivery.mph >= meant + SEEN_MPH;
    default:
        return false;
    }
}

bool teach_saw(const TeachScene *scene, Saw saw)
{
    int count = 0, first = 0;
    bool mixed = false;
    TeachShot shot;
    for (int i = 0; i < scene->lesson->shot_count; i++) {
        teach_shot(scene, i, &shot);
        count += shot_saw(scene, &shot, saw);
        first = i == 0 ? side_of(&shot.roll) : first;
        mixed = mixed || side_of(&shot.roll) != first;
    }
    return saw == SAW_MIXED ? mixed : count > 0 && count == scene->lesson->shot_count;
}

/* ---- choices ---- */

/* The nth throw's own luck: the same for every choice. */
static Rng luck_of(const TeachScene *scene, int nth)
{
    return rng_seed((uint64_t)scene->lesson->seed * 1000u + (uint64_t)nth);
}

static double wider(const TeachScene *scene)
{
    return scene->lesson->kind == LESSON_SPARE_BALL ? SPARE_WIDER : 1.0;
}

/* The pins for an arrival, and whether what the lesson counts happened. */
static void fell(const TeachScene *scene, const RackHit *hit, Rng *luck, TeachBall *ball)
{
    const Lesson *lesson = scene->lesson;
    Pins set = lesson->kind == LESSON_SPARE_BALL ? lesson->left : PINS_ALL;
    double touches, across;
    shot_hit_span(HIT_THIN, &touches, &across); /* ball and head pin touch from there on */
    ball->gutter = isnan(ball->board);
    ball->left = ball->gutter ? set : rack_roll(hit, set, luck);
    switch (lesson->count) {
    case COUNT_POCKET:
        ball->good = ball->board >= LANE_POCKET_LOW && ball->board <= LANE_POCKET_HIGH;
        break;
    case COUNT_NEAR:
        ball->good = fabs((double)ball->board - LANE_POCKET_BEST) <= LESSON_NEAR_BOARDS;
        break;
    case COUNT_HEAD_PIN:
        ball->good = ball->board >= touches && ball->board <= lane_mirror_board(touches);
        break;
    default:
        ball->good = ball->left == 0;
    }
}

/* What a throw counts for, 0..1: the rack's chance rather than one rack's luck. */
static double counts(const TeachScene *scene, const TeachBall *ball, double pounds)
{
    Count count = scene->lesson->count;
    if (count == COUNT_STRIKE)
        return ball->gutter ? 0.0 : rack_strike(ball->board, ball->degrees, ball->mph, pounds);
    if (count == COUNT_PINS)
        return ball->gutter ? 0.0
                            : rack_pinfall(ball->board, ball->degrees, ball->mph, pounds) / 10.0;
    return ball->good ? 1.0 : 0.0;
}

/* A straight ball over the middle arrow at a pin, and that far beside it. */
static double straight_at(const TeachScene *scene, const LessonChoice *choice, int nth,
                          TeachBall *ball)
{
    Rng luck = luck_of(scene, nth);
    Bowler spares = bowler_for_spares(&scene->bowler);
    double across = spare_pin_board(choice->pin) + choice->beside;
    Rng shift = rng_seed((uint64_t)scene->lesson->seed);
    double miss = spare_miss(&scene->bowler) * even_normal(nth, 2, rng_uniform(&shift));
    const Ball *thrown_ball = bag_slot(scene->bag, scene->plan.slot);
    double degrees = spare_heading_deg(across);
    RackHit hit = {.board = spare_board_before(scene->lesson->left, across + miss, degrees),
                   .degrees = degrees,
                   .mph = spares.mph - PINS_MPH_LESS,
                   .pounds = thrown_ball->pounds};
    bool off = hit.board < 0.5 || hit.board > LANE_BOARDS + 0.5;
    ball->board = off ? NAN : (float)hit.board;
    ball->degrees = (float)hit.degrees;
    ball->mph = (float)hit.mph;
    fell(scene, &hit, &luck, ball);
    return counts(scene, ball, hit.pounds);
}

static double throws_at(const TeachScene *scene, const LessonChoice *choice, int count,
                        TeachBall *balls)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        TeachBall ball;
        sum += straight_at(scene, choice, i, balls ? &balls[i] : &ball);
    }
    return 100.0 * sum / count;
}

/* The nth delivery of a choice; `luck` is left for the pins. */
static Delivery nth_delivery(const TeachScene *scene, int choice, int nth, Rng *luck)
{
    const LessonThrow as_meant = {0};
    DeliveryOffset scatter;
    *luck = luck_of(scene, nth);
    scatter_of(&scene->bowler, wider(scene), nth, scene->lesson->seed, &scatter);
    return thrown(scene, &scene->choice[choice], &as_meant, &scatter);
}

double teach_throws(const TeachScene *scene, int choice, int count, TeachBall *balls)
{
    enum { PART = 60 };
    const LessonChoice *of = &scene->lesson->choices[choice];
    BatchThrow throws[PART];
    Arrival arrivals[PART];
    Rng luck[PART];
    MotionBody body;
    BatchBall batch;
    double sum = 0.0;
    if (of->pin)
        return throws_at(scene, of, count, balls);
    motion_body(bag_slot(scene->bag, scene->choice[choice].slot), &body);
    batch_ball(&body, &batch);
    for (int from = 0; from < count; from += PART) {
        int part = count - from < PART ? count - from : PART;
        for (int i = 0; i < part; i++)
            throws[i] = (BatchThrow){.delivery = nth_delivery(scene, choice, from + i, &luck[i]),
                                     .film_scale = 1.0f,
                                     .dry_scale = 1.0f};
        batch_arrive(&batch, &scene->batch_oil, throws, part, arrivals);
        for (int i = 0; i < part; i++) {
            TeachBall ball = {(float)arrivals[i].board,
                              (float)arrivals[i].degrees,
                              (float)arrivals[i].mph,
                              false,
                              false,
                              0};
            RackHit hit = {arrivals[i].board, arrivals[i].degrees, arrivals[i].mph, 0.0,
                           body.pounds};
            fell(scene, &hit, &luck[i], &ball);
            sum += counts(scene, &ball, body.pounds);
            if (balls)
                balls[from + i] = ball;
        }
    }
    return 100.0 * sum / count;
}

/* A straight path from the foul line to where it arrives. */
static void straight_path(const TeachScene *scene, const LessonChoice *choice, int nth, Roll *roll)
{
    TeachBall ball;
    straight_at(scene, choice, nth, &ball);
    double middle = 0.5 * (LANE_BOARDS + 1);
    double aim = spare_board_before(scene->lesson->left,
                                    spare_pin_board(choice->pin) + choice->beside, ball.degrees);
    double laydown = middle - (aim - middle) * LANE_ARROWS_FT / (LANE_LENGTH_FT - LANE_ARROWS_FT);
    double end = ball.gutter ? (aim < middle ? 0.0 : LANE_BOARDS + 1.0) : (double)ball.board;
    *roll = (Roll){.count = ROLL_POINTS_MAX,
                   .first_move_ft = NAN,
                   .hook_ft = NAN,
                   .breakpoint_board = NAN,
                   .breakpoint_ft = NAN,
                   .roll_ft = NAN,
                   .entry_board = ball.board,
                   .entry_deg = ball.degrees,
                   .entry_mph = ball.mph,
                   .gutter = ball.gutter};
    for (int i = 0; i < roll->count; i++) {
        double ft = OIL_STATION_FT * i;
        roll->path[i] = (PathPoint){.ft = ft,
                                    .board = laydown + (end - laydown) * ft / LANE_LENGTH_FT,
                                    .degrees = ball.degrees,
                                    .mph = ball.mph};
    }
}

void teach_path(const TeachScene *scene, int choice, int nth, Roll *roll)
{
    const LessonChoice *of = &scene->lesson->choices[choice];
    MotionBody body;
    Rng luck;
    if (of->pin) {
        straight_path(scene, of, nth, roll);
        return;
    }
    Delivery delivery = nth_delivery(scene, choice, nth, &luck);
    motion_body(bag_slot(scene->bag, scene->choice[choice].slot), &body);
    motion_roll(&body, &scene->oil, &delivery, roll);
}
