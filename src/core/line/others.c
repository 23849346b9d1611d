/* others.c - the others on the pair. */
#include "core/line/others.h"

#include <math.h>
#include <string.h>

#include "core/line/fit.h"

/* Who they usually are, what they throw and how well (assumed). */
#define ACROSS_SHARE 0.12
#define TWO_HANDED_SHARE 0.20
#define URETHANE_SHARE 0.10
#define SOLID_SHARE 0.45 /* of the others; then hybrids; the rest pearls */
#define HYBRID_SHARE 0.25
#define WISH_BOARDS 3.0 /* standard deviation */
#define WISH_LATER 0.7  /* share of the wish left once the lane has a track to follow */
#define MOST_IN 3.0     /* boards a game */
#define MOST_OUT 1.0
#define LAYDOWN_LOW 8.0
#define LAYDOWN_HIGH 36.0
#define GRAIN_SD 0.5 /* log: how unevenly boards give up their oil */

static void draw_bowler(Bowler *bowler, bool two_handed, Rng *rng)
{
    *bowler = bowler_default();
    bowler->style = two_handed ? STYLE_TWO_HANDED : STYLE_ONE_HANDED;
    double mph = two_handed ? 17.5 : 17.8, rpm = two_handed ? 460.0 : 340.0;
    bowler->mph = fmax(12.0, mph + 1.0 * rng_normal(rng));
    bowler->rpm = fmax(120.0, rpm + 45.0 * rng_normal(rng));
    bowler->rotation_deg = fmin(80.0, fmax(15.0, 48.0 + 9.0 * rng_normal(rng)));
    bowler->scatter = (Scatter){.launch_deg = 0.25, .mph = 0.25, .rpm = 10, .laydown_boards = 0.5};
}

static void draw_ball(Ball *ball, bool urethane, Rng *rng)
{
    double kind = rng_uniform(rng), grit = rng_uniform(rng);
    *ball = ball_default();
    ball->pin_to_pap_in = rng_between(rng, 3.5, 5.5);
    ball->differential_in = 0.048;
    if (urethane) {
        ball->cover = COVER_URETHANE;
        ball->rg_in = 2.58;
        ball->differential_in = 0.018;
        ball->surface.grit = 500.0 + 500.0 * grit;
    } else if (kind < SOLID_SHARE) {
        ball->cover = COVER_SOLID;
        ball->surface.grit = 1000.0 + 2000.0 * grit;
    } else {
        ball->cover = kind < SOLID_SHARE + HYBRID_SHARE ? COVER_HYBRID : COVER_PEARL;
        ball->surface.grit = 2000.0 + 2000.0 * grit;
    }
}

static void draw_grain(Grain *grain, Rng *rng)
{
    double raw[LANE_BOARDS];
    for (int b = 0; b < LANE_BOARDS; b++)
        raw[b] = rng_normal(rng);
    for (int b = 0; b < LANE_BOARDS; b++) { /* neighbours are alike; the standard deviation is 1 */
        int left = b > 0 ? b - 1 : b, right = b < LANE_BOARDS - 1 ? b + 1 : b;
        double smooth = (raw[left] + 2.0 * raw[b] + raw[right]) / sqrt(6.0);
        grain->share[b] = (float)exp(GRAIN_SD * smooth - 0.5 * GRAIN_SD * GRAIN_SD);
    }
}

/* Takes one of a kind from what the mix still has. */
static bool take(int *left)
{
    if (*left <= 0)
        return false;
    *left -= 1;
    return true;
}

void others_begin(Others *others, const FieldMix *mix, int count, Hand hand, uint64_t seed,
                  int lane)
{
    FieldMix rest = mix ? *mix : (FieldMix){0};
    bool known = rest.right + rest.left + rest.two_handed + rest.urethane > 0;
    memset(others, 0, sizeof *others);
    others->rng = rng_seed(seed);
    others->count = count < 0 ? 0 : count > OTHERS_MAX ? OTHERS_MAX : count;
    for (int i = 0; i < others->count; i++) {
        OtherBowler *who = &others->who[i];
        /* drawn even if not needed, so that a mix changes no other draw */
        double side = rng_uniform(&others->rng), style = rng_uniform(&others->rng);
        double cover = rng_uniform(&others->rng);
        /* those not in the mix mostly play your side, whichever that is: so hands mirror */
        bool across = side < ACROSS_SHARE, two_handed = style < TWO_HANDED_SHARE;
        if (take(&rest.two_handed)) {
            across = hand == HAND_LEFT;
            two_handed = true;
        } else if (take(&rest.right)) {
            across = hand == HAND_LEFT;
            two_handed = false;
        } else if (take(&rest.left)) {
            across = hand == HAND_RIGHT;
        }
        bool urethane = known ? take(&rest.urethane) : cover < URETHANE_SHARE;
        draw_bowler(&who->bowler, two_handed, &others->rng);
        draw_ball(&who->ball, urethane, &others->rng);
        motion_body(&who->ball, &who->body);
        batch_ball(&who->body, &who->batch);
        who->across = across;
        who->wish = WISH_BOARDS * rng_normal(&others->rng);
    }
    others->rng = rng_seed(seed + 1000003u * (uint64_t)(lane + 1)); /* the lane and the throws */
    draw_grain(&others->grain, &others->rng);
}

void others_begin_usual(Others *others, const FieldMix *mix, int count, Hand hand, uint64_t seed,
                        int lane)
{
    int fields = count > 0 && count < OTHERS_MAX ? OTHERS_MAX / count : 1;
    FieldMix all = mix ? *mix : (FieldMix){0};
    all.right *= fields;
    all.left *= fields;
    all.two_handed *= fields;
    all.urethane *= fields;
    others_begin(others, &all, fields * count, hand, seed, lane);
    for (int b = 0; b < LANE_BOARDS; b++)
        others->grain.share[b] = 1.0f;
}

static double bounded(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

static void seek(OtherBowler *who, const Oil *film)
{
    BatchOil ready;
    batch_oil(film, BATCH_QUICK, &ready);
    Fit fit = fit_ball(&who->batch, &ready, &who->bowler);
    double wanted = fit.laydown_board + (who->settled ? WISH_LATER : 1.0) * who->wish;
    if (who->settled)
        wanted = bounded(wanted, who->laydown - MOST_OUT, who->laydown + MOST_IN);
    wanted = round(bounded(wanted, LAYDOWN_LOW, LAYDOWN_HIGH));
    fit = fit_between(&who->batch, &ready, &who->bowler, wanted, wanted);
    who->laydown = fit.laydown_board;
    who->aim = fit.aim;
    who->settled = true;
}

void others_seek_one(Others *others, const Oil *film, int who)
{
    Oil theirs; /* as they count boards */
    oil_for_hand(film, others->who[who].across ? HAND_LEFT : HAND_RIGHT, &theirs);
    seek(&others->who[who], &theirs);
}

void others_seek(Others *others, const Oil *film)
{
    for (int i = 0; i < others->count; i++)
        others_seek_one(others, film, i);
}

static Delivery scattered(const Delivery *delivery, const Scatter *scatter, Rng *rng)
{
    Delivery thrown = *delivery;
    thrown.launch_deg += scatter->launch_deg * rng_normal(rng);
    thrown.mph += scatter->mph * rng_normal(rng);
    thrown.rpm += scatter->rpm * rng_normal(rng);
    thrown.laydown_board += scatter->laydown_boards * rng_normal(rng);
    return thrown;
}

void others_track(Others *others, const Oil *film, int who, Track *track)
{
    const OtherBowler *they = &others->who[who];
    Oil theirs;
    Roll roll;
    Delivery meant =
        delivery_of(&they->bowler, delivery_stance(&they->bowler, they->laydown), they->aim);
    Delivery thrown = scattered(&meant, &they->bowler.scatter, &others->rng);
    oil_for_hand(film, they->across ? HAND_LEFT : HAND_RIGHT, &theirs);
    motion_roll(&they->body, &theirs, &thrown, &roll);
    track_of(&roll, 0.0, track);
    if (they->across)
        track_mirror(track);
    track_grain(track, &others->grain);
}

void others_throw(Others *others, Oil *film, int who, WearRate rate)
{
    Track track;
    others_track(others, film, who, &track);
    wear_track(film, &track, others->who[who].ball.cover, rate);
}

void others_throw_own(Others *others, Oil *film, const Bowler *bowler, const MotionBody *body,
                      Cover cover, const Delivery *delivery, WearRate rate, Roll *roll)
{
    Delivery thrown = scattered(delivery, &bowler->scatter, &others->rng);
    Track track;
    motion_roll(body, film, &thrown, roll);
    track_of(roll, 0.0, &track);
    track_grain(&track, &others->grain);
    wear_track(film, &track, cover, rate);
}
