/* spare.c - searches lines over stance and aim, with values read off the curve of hits. */
#include "core/spare/spare.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/normal.h"
#include "base/rng.h"
#include "base/text.h"
#include "base/units.h"
#include "core/motion/batch.h"
#include "core/spare/spare_hits.h"

const char *const SPARE_SIDE_NAMES[4] = {"full", "left", "right", 0};

/* Closer than this to a pin's centre, a ball hits it full. */
#define FULL_IN 1.0
/* The strike ball must convert the spare this much more often to be chosen (assumed: bowlers throw
 * it at spares less often, and it is harder to repeat). */
#define STRIKE_BALL_LEAD 0.05
/* Chances closer than this count as equal; then the usual aim, or the middle of the window, wins.
 */
#define SAME_CHANCE 0.01
/* How many pins more "take the sure ones" must be worth than going for all. */
#define TAKE_LEAD 0.1
/* With this chance or more, always go for the spare. */
#define GOES_FOR 0.5
/* Where the approach begins, behind the foul line (common practice, no source): a bowler who walks
 * toward the aim keeps 15 / (15 + 12) of a move of the feet there at the foul line. */
#define APPROACH_FT 12.0
/* Below this chance the advice says plainly how rarely the spare is made. */
#define HARDLY 0.02
/* Limits of laydown and feet: where people stand for spares (common practice, no source). */
#define LAYDOWN_LOW 3.0
#define LAYDOWN_HIGH 36.0
#define FEET_LOW 5.0
#define FEET_HIGH 38.0
/* How much better another target must be before a bowler leaves the usual one (assumed). */
#define TARGET_LEAD 0.05
/* The usual aim for spares: the middle arrow, so that straight lines cross the lane to the pins on
 * the far side (common practice). */
#define USUAL_AIM 20.0

enum { AIMS = 3, STANCES_MAX = 90, THROWS = 120, THROWS_COARSE = 20 };
/* Below this effort, fewer throws are enough. */
#define COARSE_EFFORT 2000.0
/* A spare system has one to three targets, not one per leave: the middle arrows. */
static const double AIM_BOARDS[AIMS] = {20.0, 15.0, 25.0};

/* Scatter of launch, speed, revs and laydown, in standard deviations: the same draws for every
 * bowler and line, so that chances change smoothly from one to the next. */
typedef struct Slip {
    double launch, mph, rpm, laydown;
} Slip;

/* Inverse of the normal distribution, by bisection. */
static double deviation_of_share(double share)
{
    double low = -6.0, high = 6.0;
    for (int k = 0; k < 40; k++) {
        double z = 0.5 * (low + high);
        if (normal_below(z) < share)
            low = z;
        else
            high = z;
    }
    return low;
}

/* In pairs, the second mirroring the first. The launch matters most, so it is spread evenly over
 * its distribution. */
static void slips(Slip *out, int count)
{
    Rng rng = rng_seed(20261125);
    for (int i = 0; i < count / 2; i++) {
        Slip slip = {.launch = SPARE_WIDER * deviation_of_share(0.5 + (i + 0.5) / count),
                     .mph = SPARE_WIDER * rng_normal(&rng),
                     .rpm = SPARE_WIDER * rng_normal(&rng),
                     .laydown = SPARE_WIDER * rng_normal(&rng)};
        *out++ = slip;
        *out++ = (Slip){-slip.launch, -slip.mph, -slip.rpm, -slip.laydown};
    }
}

/* A ball prepared for this film, with its curve of hits. */
typedef struct Thrower {
    const Ball *ball;
    const Bowler *bowler;
    BatchBall ready;
    const BatchOil *film;
    const Slip *slip;
    int slip_count;
    SpareHits hits;
} Thrower;

static double value(double made, double falls) { return falls + SPARE_BONUS * made; }

static void thrower_of(Thrower *thrower, const Ball *ball, const Bowler *bowler,
                       const BatchOil *film, const Slip *slip, int slip_count)
{
    MotionBody body;
    motion_body(ball, &body);
    *thrower = (Thrower){
        .ball = ball, .bowler = bowler, .film = film, .slip = slip, .slip_count = slip_count};
    batch_ball(&body, &thrower->ready);
}

static void arrive(const Thrower *thrower, const BatchThrow *throws, int count, Arrival *arrivals)
{
    batch_arrive(&thrower->ready, thrower->film, throws, count, arrivals);
}

static BatchThrow throw_of(const Thrower *thrower, double stance, double aim)
{
    return (BatchThrow){.delivery = delivery_of(thrower->bowler, stance, aim),
                        .film_scale = 1.0f,
                        .dry_scale = 1.0f};
}

/* Stances, in half boards, that keep the laydown on the lane. */
static int stances(const Bowler *bowler, double *out)
{
    double low = fmax(FEET_LOW, delivery_stance(bowler, LAYDOWN_LOW));
    double high = fmin(FEET_HIGH, delivery_stance(bowler, LAYDOWN_HIGH));
    int count = 0;
    for (int half = (int)ceil(2.0 * low); half <= (int)(2.0 * high) && count < STANCES_MAX; half++)
        out[count++] = 0.5 * half;
    return count;
}

/* Chance and pins of a line under the bowler's scatter. */
static void weigh(const Thrower *thrower, double stance, double aim, double *chance, double *falls)
{
    BatchThrow throws[THROWS];
    Arrival arrivals[THROWS];
    const Scatter *scatter = &thrower->bowler->scatter;
    const Slip *slip = thrower->slip;
    for (int i = 0; i < thrower->slip_count; i++) {
        throws[i] = throw_of(thrower, stance, aim);
        DeliveryOffset offset = {.launch_deg = slip[i].launch * scatter->launch_deg,
                                 .mph = slip[i].mph * scatter->mph,
                                 .rpm = slip[i].rpm * scatter->rpm,
                                 .laydown_boards = slip[i].laydown * scatter->laydown_boards};
        throws[i].delivery = delivery_offset(&throws[i].delivery, &offset);
    }
    arrive(thrower, throws, thrower->slip_count, arrivals);
    double made = 0.0, down = 0.0;
    for (int i = 0; i < thrower->slip_count; i++) {
        if (arrivals[i].gutter)
            continue;
        double across = spare_hits_across(&thrower->hits, arrivals[i].board, arrivals[i].degrees);
        made += spare_hits_made(&thrower->hits, across);
        down += spare_hits_falls(&thrower->hits, across);
    }
    *chance = made / thrower->slip_count;
    *falls = down / thrower->slip_count;
}

/* The curves blurred by the bowler's usual miss at the pins. */
static void blur(const SpareHits *hits, double sd, double made[SPARE_PLACES],
                 double falls[SPARE_PLACES])
{
    for (int i = 0; i < SPARE_PLACES; i++) {
        double weights = 0.0;
        made[i] = falls[i] = 0.0;
        for (int j = -40; j < SPARE_PLACES + 40; j++) {
            double z = 0.5 * (i - j) / sd, weight = exp(-0.5 * z * z);
            weights += weight;
            if (j < 0 || j >= SPARE_PLACES)
                continue; /* in the gutter */
            made[i] += weight * hits->made[j];
            falls[i] += weight * hits->falls[j];
        }
        made[i] /= weights;
        falls[i] /= weights;
    }
}

static double read_curve(const double *curve, double across)
{
    double at = 2.0 * (across - 0.5);
    if (!(at >= 0.0 && at <= SPARE_PLACES - 1))
        return 0.0;
    int i = at > SPARE_PLACES - 2 ? SPARE_PLACES - 2 : (int)at;
    return curve[i] + (at - i) * (curve[i + 1] - curve[i]);
}

/* What a line is chosen by: the chance of all the pins, or its value. */
typedef enum Goal { GOAL_ALL, GOAL_VALUE } Goal;
static double goal_value(Goal goal, double made, double falls)
{
    /* where nothing converts it, the most pins are better than none */
    return goal == GOAL_VALUE ? value(made, falls) : SPARE_BONUS * made + 0.2 * falls;
}

double spare_miss(const Bowler *bowler)
{
    double launch = tan(rad_from_deg(bowler->scatter.launch_deg)) * 61.0 * 12.0 * 0.0254;
    return fmax(0.5, SPARE_WIDER * hypot(launch / LANE_BOARD_M, bowler->scatter.laydown_boards));
}

/* Finds the best stance for one aim on the blurred curve; returns its value, or -1 if no ball
 * arrives. */
static double best_feet(const Thrower *thrower, double aim, Goal goal, const double *made,
                        const double *falls, double *stance)
{
    double feet[STANCES_MAX], most = -1.0;
    BatchThrow throws[STANCES_MAX];
    Arrival arrivals[STANCES_MAX];
    int count = stances(thrower->bowler, feet);
    for (int i = 0; i < count; i++)
        throws[i] = throw_of(thrower, feet[i], aim);
    arrive(thrower, throws, count, arrivals);
    for (int i = 0; i < count; i++) {
        if (arrivals[i].gutter)
            continue;
        double across = spare_hits_across(&thrower->hits, arrivals[i].board, arrivals[i].degrees);
        double value = goal_value(goal, read_curve(made, across), read_curve(falls, across));
        if (value > most) {
            most = value;
            *stance = feet[i];
        }
    }
    return most;
}

/* Tries half boards to either side with the bowler's real scatter. */
static void refine_feet(const Thrower *thrower, Goal goal, SpareLine *line)
{
    double middle = line->stance;
    double most = goal_value(goal, line->chance, line->falls) + SAME_CHANCE * SPARE_BONUS / 4.0;
    for (int k = -2; k <= 2; k++) {
        double feet = middle + 0.5 * k, chance, falls;
        if (k == 0 || feet < FEET_LOW || feet > FEET_HIGH)
            continue;
        weigh(thrower, feet, line->aim, &chance, &falls);
        if (goal_value(goal, chance, falls) > most) {
            most = goal_value(goal, chance, falls);
            line->stance = feet;
            line->chance = chance;
            line->falls = falls;
        }
    }
}

/* The best stance for one aim; false if no ball arrives. */
static bool aim_line(const Thrower *thrower, Goal goal, const double *made, const double *falls,
                     double aim, SpareLine *line)
{
    *line = (SpareLine){.ball = thrower->ball, .aim = aim};
    if (best_feet(thrower, aim, goal, made, falls, &line->stance) < 0.0)
        return false;
    weigh(thrower, line->stance, aim, &line->chance, &line->falls);
    return true;
}

/* The search for a ball's best line, aim by aim: the usual one unless another is clearly better. */
typedef struct Search {
    Goal goal;
    double usual_aim;
    double made[SPARE_PLACES], falls[SPARE_PLACES]; /* the ball's curves, blurred */
    int aims; /* tried of AIM_BOARDS; -1: not even the usual one */
    bool found;
    double lead; /* how far ahead another must be */
    SpareLine best;
} Search;

static void search_begin(Search *search, const Thrower *thrower, Goal goal, double usual_aim)
{
    *search = (Search){.goal = goal,
                       .usual_aim = usual_aim,
                       .aims = -1,
                       .lead = TARGET_LEAD * SPARE_BONUS,
                       .best = {.ball = thrower->ball, .aim = usual_aim}};
    blur(&thrower->hits, spare_miss(thrower->bowler), search->made, search->falls);
}

static void try_aim(Search *search, const Thrower *thrower, double aim)
{
    SpareLine line;
    if (!aim_line(thrower, search->goal, search->made, search->falls, aim, &line))
        return;
    double ahead = goal_value(search->goal, line.chance, line.falls) -
                   goal_value(search->goal, search->best.chance, search->best.falls);
    if (search->found && ahead <= search->lead)
        return;
    search->best = line;
    search->found = true;
    if (aim != search->usual_aim)
        search->lead = 0.0; /* having left the usual target, any improvement counts */
}

/* Tries one aim, or at the end refines the stance; true when `best` is final. */
static bool search_step(Search *search, const Thrower *thrower)
{
    if (search->aims < AIMS) {
        int at = search->aims++;
        if (at < 0)
            try_aim(search, thrower, search->usual_aim);
        else if (AIM_BOARDS[at] != search->usual_aim)
            try_aim(search, thrower, AIM_BOARDS[at]);
        return false;
    }
    if (search->found)
        refine_feet(thrower, search->goal, &search->best);
    return true;
}

/* The window: from where the middle of the throw hits out to where the curve falls below half. */
static void window_of(const SpareHits *hits, Goal goal, SpareLine *line)
{
    double curve[SPARE_PLACES], top = 0.0;
    int pins = lane_pin_count(hits->left), at = (int)lround(2.0 * (line->across - 0.5));
    line->window_low = line->window_high = line->across;
    if (at < 0 || at >= SPARE_PLACES)
        return;
    for (int i = 0; i < SPARE_PLACES; i++)
        curve[i] = goal == GOAL_ALL ? hits->made[i] : hits->falls[i] / pins;
    for (int i = at > 6 ? at - 6 : 0; i <= at + 6 && i < SPARE_PLACES; i++)
        top = fmax(top, curve[i]);
    double under = goal == GOAL_ALL && top > 0.7 ? 0.5 : 0.5 * top;
    if (top < 0.005 || curve[at] < under)
        return;
    int low = at, high = at;
    while (low > 0 && curve[low - 1] >= under)
        low--;
    while (high < SPARE_PLACES - 1 && curve[high + 1] >= under)
        high++;
    double b = spare_place_board(low), t = spare_place_board(high);
    if (low > 0)
        b -= 0.5 * (curve[low] - under) / (curve[low] - curve[low - 1]);
    if (high < SPARE_PLACES - 1)
        t += 0.5 * (curve[high] - under) / (curve[high] - curve[high + 1]);
    line->window_low = fmax(b, 0.5);
    line->window_high = fmin(t, 39.5);
}

/* Fills in the rest of a line: how it arrives, what it touches, its window. */
static void describe(const Thrower *thrower, Goal goal, SpareLine *line)
{
    BatchThrow one = throw_of(thrower, line->stance, line->aim);
    Arrival arrival;
    double right_in = 0.0;
    arrive(thrower, &one, 1, &arrival);
    line->ball = thrower->ball;
    line->delivery = one.delivery;
    line->board = arrival.gutter ? 0.0 : arrival.board;
    line->degrees = arrival.gutter ? 0.0 : arrival.degrees;
    line->mph = arrival.gutter ? 0.0 : arrival.mph;
    line->across = spare_hits_across(&thrower->hits, line->board, line->degrees);
    line->pin = spare_first_pin(thrower->hits.left, line->board, line->degrees, &right_in);
    /* a pin to the ball's right is hit on its left side */
    line->side = fabs(right_in) < FULL_IN ? SPARE_FULL
                 : right_in > 0.0         ? SPARE_RIGHT_SIDE
                                          : SPARE_LEFT_SIDE;
    window_of(&thrower->hits, goal, line);
}

/* How a ball reaches these pins from the usual aim: the hit its racks are simulated with. */
static RackHit usual_hit(const Thrower *thrower, Pins left, double aim)
{
    double board = 0.0, feet[STANCES_MAX];
    for (int pin = 1; pin <= 10; pin++)
        if (left & pin_bit(pin))
            board -= lane_pin_right_in(pin);
    board = 20.0 + board / lane_pin_count(left) / (LANE_WIDTH_IN / LANE_BOARDS);
    BatchThrow throws[STANCES_MAX];
    Arrival arrivals[STANCES_MAX];
    int count = stances(thrower->bowler, feet), near = -1;
    for (int i = 0; i < count; i++)
        throws[i] = throw_of(thrower, feet[i], aim);
    arrive(thrower, throws, count, arrivals);
    for (int i = 0; i < count; i++)
        if (!arrivals[i].gutter &&
            (near < 0 || fabs(arrivals[i].board - board) < fabs(arrivals[near].board - board)))
            near = i;
    RackHit hit = {.pounds = thrower->ball->pounds, .mph = 15.5};
    if (near >= 0) {
        hit.board = arrivals[near].board;
        hit.degrees = arrivals[near].degrees;
        hit.mph = arrivals[near].mph;
    }
    return hit;
}

/* Boards a ball hooks on this film when thrown straight down the middle. */
static double hook_of(const Ball *ball, const Bowler *bowler, const BatchOil *film)
{
    Thrower thrower;
    Arrival arrival;
    thrower_of(&thrower, ball, bowler, film, NULL, 0);
    BatchThrow one = {.delivery = delivery_of(bowler, delivery_stance(bowler, 15.0), 15.0),
                      .film_scale = 1.0f,
                      .dry_scale = 1.0f};
    arrive(&thrower, &one, 1, &arrival);
    return arrival.gutter ? 40.0 : fabs(arrival.board - 15.0);
}

/* Polyester if there is one in a slot, else the ball that hooks least. */
static const Ball *straightest(const Bag *bag, const Bowler *flat, const BatchOil *film)
{
    const Ball *best = NULL;
    double least = 0.0;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(bag, slot);
        if (!ball || (best && best->cover == COVER_POLYESTER && ball->cover != COVER_POLYESTER))
            continue;
        double hook = hook_of(ball, flat, film);
        if (!best || (ball->cover == COVER_POLYESTER && best->cover != COVER_POLYESTER) ||
            hook < least) {
            best = ball;
            least = hook;
        }
    }
    return best;
}

static const Ball *strike_ball(const SpareInput *input)
{
    const Ball *ball = input->slot ? bag_slot(input->bag, input->slot) : NULL;
    for (int slot = 1; !ball && slot <= BAG_SLOTS; slot++)
        ball = bag_slot(input->bag, slot);
    return ball;
}

/* The share of a move at the start of the approach that is left at the foul line. */
static const double BROUGHT = LANE_ARROWS_FT / (LANE_ARROWS_FT + APPROACH_FT);

/* The 3-6-9 move of the strike ball. */
static void common_move(const SpareInput *input, const Thrower *strike, int pin, SpareMove *move)
{
    if (input->aim == 0.0 || pin == 0)
        return;
    double columns = lane_pin_right_in(pin) / (0.5 * LANE_PIN_SPACING_IN), falls;
    *move = (SpareMove){.known = true,
                        .boards = 3.0 * columns,
                        .stance = input->stance + 3.0 * columns,
                        .aim = input->aim,
                        .laydown = 3.0 * columns * BROUGHT};
    weigh(strike, input->stance + move->laydown, input->aim, &move->chance, &falls);
}

/* The move the model finds. */
static void computed_move(const SpareInput *input, const Thrower *strike, SpareMove *move)
{
    double made[SPARE_PLACES], down[SPARE_PLACES];
    SpareLine line;
    blur(&strike->hits, spare_miss(strike->bowler), made, down);
    if (!aim_line(strike, GOAL_ALL, made, down, input->aim, &line) || line.chance <= HARDLY)
        return;
    refine_feet(strike, GOAL_ALL, &line);
    move->computed_found = true;
    move->computed_laydown = line.stance - input->stance;
    move->computed = move->computed_laydown / BROUGHT;
    move->computed_chance = line.chance;
}

static void hit_words(const SpareLine *line, char *out, size_t size)
{
    if (line->pin == 0)
        text_append(out, size, "nothing to hit");
    else if (line->side == SPARE_FULL)
        text_append(out, size, "hit the %d full", line->pin);
    else
        text_append(out, size, "hit the %d on its %s side", line->pin,
                    SPARE_SIDE_NAMES[line->side]);
}

static void say(Spare *spare)
{
    char *out = spare->words;
    size_t size = sizeof spare->words;
    text_copy(out, size, "");
    const SpareLine *line = spare->take ? &spare->sure : &spare->line;
    lane_pins_words(spare->left, "-", out, size);
    text_append(out, size, "%s: ", spare->split ? " split" : "");
    if (spare->take) {
        text_append(out, size,
                    spare->line.chance < HARDLY ? "made less than twice in a hundred. "
                                                : "made %.0f times in a hundred. ",
                    100.0 * spare->line.chance);
        int sure = (int)lround(line->falls);
        text_append(out, size, "Make sure of %d: ", sure < 1 ? 1 : sure);
        hit_words(line, out, size);
        return;
    }
    hit_words(line, out, size);
    if (spare->strike_ball)
        text_append(out, size,
                    "; thrown as for a strike it is made more often than straight, %.0f to "
                    "%.0f in a hundred",
                    100.0 * line->chance, 100.0 * spare->straight_chance);
}

static void mirror_line(SpareLine *line)
{
    if (line->pin)
        for (int pin = 1; pin <= 10; pin++)
            if (lane_mirror_pins(pin_bit(line->pin)) == pin_bit(pin)) {
                line->pin = pin;
                break;
            }
    line->side = line->side == SPARE_LEFT_SIDE    ? SPARE_RIGHT_SIDE
                 : line->side == SPARE_RIGHT_SIDE ? SPARE_LEFT_SIDE
                                                  : SPARE_FULL;
}

/* ---- the job: its parts in order ---- */

struct SpareJob {
    SpareInput input; /* its film is copied */
    Pins left;        /* as a right-hander sees them */
    double effort;
    BatchOil film;
    Slip slip[THROWS];
    int throws;
    const Ball *straight, *first; /* the straightest, the strike ball; NULL: none */
    Bowler flat;                  /* the bowler as they throw the straight one */
    Thrower main, strike;         /* of those two */
    SpareRoll roll;
    Search search;
    int part;   /* index in PARTS */
    bool begun; /* that part */
    Spare out;
};

/* Whether there are two ways to throw: straight, and like a strike, with another ball or the same
 * one released differently. */
static bool two_ways(const SpareJob *job)
{
    return job->first &&
           (job->first != job->straight || !bowler_same(&job->flat, &job->input.bag->bowler));
}

static double strike_aim(const SpareJob *job)
{
    return job->input.aim != 0.0 ? job->input.aim : 15.0;
}

/* Each part is called until it returns true. */

static bool choose_balls(SpareJob *job)
{
    const SpareInput *input = &job->input;
    slips(job->slip, job->throws);
    job->first = strike_ball(input);
    job->flat = bowler_for_spares(&input->bag->bowler);
    job->straight = input->ball ? input->ball : straightest(input->bag, &job->flat, &job->film);
    if (input->ball && input->ball->cover != COVER_POLYESTER) /* asked for: thrown as usual */
        job->flat = input->bag->bowler;
    return true;
}

static bool roll_racks(SpareJob *job, Thrower *thrower, const Ball *ball, const Bowler *bowler,
                       double aim, double share)
{
    if (!job->begun) {
        thrower_of(thrower, ball, bowler, &job->film, job->slip, job->throws);
        RackHit hit = usual_hit(thrower, job->left, aim);
        spare_hits_begin(&job->roll, job->left, &hit, share * job->effort, &thrower->hits);
        job->begun = true;
        return false;
    }
    return spare_hits_step(&job->roll, &thrower->hits);
}

static bool find_line(SpareJob *job, const Thrower *thrower, Goal goal, double usual_aim)
{
    if (!job->begun) {
        search_begin(&job->search, thrower, goal, usual_aim);
        job->begun = true;
    }
    return search_step(&job->search, thrower);
}

static bool roll_straight(SpareJob *job)
{
    return roll_racks(job, &job->main, job->straight, &job->flat, USUAL_AIM,
                      two_ways(job) ? 0.6 : 1.0);
}

static bool line_straight(SpareJob *job)
{
    if (!find_line(job, &job->main, GOAL_ALL, USUAL_AIM))
        return false;
    job->out.line = job->search.best;
    job->out.straight = job->straight;
    job->out.straight_chance = job->out.line.chance;
    return true;
}

static bool roll_strike(SpareJob *job)
{
    if (two_ways(job))
        return roll_racks(job, &job->strike, job->first, &job->input.bag->bowler, strike_aim(job),
                          0.4);
    job->strike = job->main;
    return true;
}

/* Only if an angle could help and no ball was asked for. */
static bool line_strike(SpareJob *job)
{
    if (!two_ways(job) || job->input.ball || lane_pin_count(job->left) == 1)
        return true;
    if (!find_line(job, &job->strike, GOAL_ALL, strike_aim(job)))
        return false;
    if (job->search.best.chance > job->out.line.chance + STRIKE_BALL_LEAD) {
        job->out.line = job->search.best;
        job->out.strike_ball = true;
    }
    return true;
}

static bool describe_line(SpareJob *job)
{
    job->out.found = true;
    describe(job->out.strike_ball ? &job->strike : &job->main, GOAL_ALL, &job->out.line);
    job->out.sure = job->out.line;
    return true;
}

/* Which pins to make sure of if all of them hardly ever fall. */
static bool line_sure(SpareJob *job)
{
    Spare *spare = &job->out;
    if (spare->line.chance >= GOES_FOR || lane_pin_count(job->left) == 1)
        return true;
    if (!find_line(job, &job->main, GOAL_VALUE, USUAL_AIM))
        return false;
    spare->sure = job->search.best;
    describe(&job->main, GOAL_VALUE, &spare->sure);
    spare->take = value(spare->sure.chance, spare->sure.falls) >
                      value(spare->line.chance, spare->line.falls) + TAKE_LEAD ||
                  spare->line.chance < HARDLY;
    return true;
}

static bool move_as_usual(SpareJob *job)
{
    common_move(&job->input, &job->strike, job->out.line.pin, &job->out.move);
    return true;
}

static bool move_by_model(SpareJob *job)
{
    if (job->out.move.known)
        computed_move(&job->input, &job->strike, &job->out.move);
    return true;
}

/* Names the target, and says if it is the usual one. */
static void say_system(const SpareJob *job, Spare *spare)
{
    const SpareLine *line = spare->take ? &spare->sure : &spare->line;
    char *out = spare->system;
    size_t size = sizeof spare->system;
    text_copy(out, size, "");
    if (spare->strike_ball && !spare->take)
        text_append(out, size,
                    job->input.aim == line->aim ? "your strike target, board %g"
                                                : "board %g, as a strike is thrown",
                    line->aim);
    else if (line->aim == USUAL_AIM)
        text_append(out, size, "the middle arrow, as for every spare");
    else
        text_append(out, size,
                    "the %s arrow from your side: clearly better here than the middle one",
                    line->aim < USUAL_AIM ? "third" : "fifth");
}

static bool put_in_words(SpareJob *job)
{
    if (job->input.bag->bowler.hand == HAND_LEFT) {
        mirror_line(&job->out.line);
        mirror_line(&job->out.sure);
    }
    say(&job->out);
    say_system(job, &job->out);
    return true;
}

static bool (*const PARTS[])(SpareJob *) = {
    choose_balls,  roll_straight, line_straight, roll_strike,   line_strike,
    describe_line, line_sure,     move_as_usual, move_by_model, put_in_words};
enum { PART_COUNT = sizeof PARTS / sizeof *PARTS };

SpareJob *spare_job_new(void) { return calloc(1, sizeof(SpareJob)); }
void spare_job_free(SpareJob *job) { free(job); }
const Spare *spare_result(const SpareJob *job) { return &job->out; }

void spare_begin(SpareJob *job, const SpareInput *input)
{
    Hand hand = input->bag->bowler.hand;
    job->input = *input;
    job->input.film = NULL;
    job->left = hand == HAND_LEFT ? lane_mirror_pins(input->left) : input->left;
    job->effort = input->effort > 0.0 ? input->effort : SPARE_EFFORT;
    job->throws = job->effort < COARSE_EFFORT ? THROWS_COARSE : THROWS;
    batch_oil(input->film, BATCH_QUICK, &job->film);
    job->part = 0;
    job->begun = false;
    job->out = (Spare){.left = input->left,
                       .split = lane_split(input->left),
                       .tells = spare_tells(input->left, false, hand)};
}

bool spare_step(SpareJob *job)
{
    if (job->part < PART_COUNT && PARTS[job->part](job)) {
        job->part++;
        job->begun = false;
        if (!job->straight || job->left == 0)
            job->part = PART_COUNT; /* no ball, or nothing to throw at */
    }
    return job->part == PART_COUNT;
}

void spare_find(const SpareInput *input, Spare *spare)
{
    SpareJob job;
    spare_begin(&job, input);
    while (!spare_step(&job))
        continue;
    *spare = job.out;
}

/* What high, light and nose hits usually leave (common practice, no source). */
const char *spare_tells(Pins left, bool ringing, Hand hand)
{
    Pins own = hand == HAND_LEFT ? lane_mirror_pins(left) : left;
    const Pins p1 = pin_bit(1), p2 = pin_bit(2), p3 = pin_bit(3), p4 = pin_bit(4), p5 = pin_bit(5),
               p6 = pin_bit(6), p7 = pin_bit(7), p8 = pin_bit(8), p9 = pin_bit(9),
               p10 = pin_bit(10);
    bool lefty = hand == HAND_LEFT;
    if (own == p10 && ringing)
        return lefty ? "a ringing seven: nearly right, hardly a reason to move"
                     : "a ringing ten: nearly right, hardly a reason to move";
    if (own == p10)
        return lefty ? "a flat seven: short of energy or a little light"
                     : "a flat ten: short of energy or a little light";
    if (own == p7)
        return "the corner pin opposite: nearly right, or a little high";
    if (own == p9)
        return "a steep hit, a little high";
    if (own == p4 || own == (p6 | p10) || own == (p3 | p6 | p10) || own == (p3 | p10) ||
        own == (p6 | p10 | p9))
        return "a high hit: it came in on the head pin";
    if (lane_split(own) && (own & (p4 | p7)) && (own & (p6 | p10)))
        return "a split from a nose hit, or from a ball that read too early";
    if (own == p5 || own == (p5 | p7) || own == (p8 | p10) || own == (p2 | p8) || own == p8)
        return "a light hit: it deflected, or came late";
    if (!(own & p1) && (own & p2) && (own & (p4 | p5)))
        return "a bucket: light, with too little drive";
    if ((own & p1) && (own & p2) && (own & p10) && !(own & p3))
        return "a washout: it came in behind the head pin";
    if (own & p1)
        return "it missed the head pin: that says little about the pocket";
    return "";
}
