/* rack_sim.c - one simulated hit on the pins.
 *
 * Pins are rigid bodies of revolution in three dimensions, free to slide, rock, topple, fly and
 * roll; their outline is a string of spheres along the axis and a flat round base. The ball is a
 * sphere on the deck. Contacts are impulses: restitution along the normal, Coulomb friction across
 * it. A pin is struck at the belly, below its centre of mass, so its foot runs ahead and its top
 * lags: a flat-disc model can't show that.
 *
 * Frame here: x metres to the right of the centre line, y metres behind the head pin's spot, z up.
 * Must not know how likely any hit is. */
#include "core/pins/rack_sim.h"

#include <math.h>
#include <stddef.h>

#include "base/units.h"

const RackParams RACK_PARAMS = {
    .ball_restitution = 0.66,
    .pin_restitution = 0.65,
    .wall_restitution = 0.22,
    .floor_restitution = 0.5,
    .softening = 0.021,
    .ball_pin_friction = 0.01,
    .pin_friction = 0.14,
    .floor_friction = 0.12,
    .deck_friction = 0.33,
    .spot_jitter_in = 0.40,
    .restitution_jitter = 0.28,
    .ball_restitution_jitter = 0.014,
};

/* ---- published, or follows from what is ---- */

#define IN 0.0254
static const double BALL_R = 4.2975 * IN;      /* largest allowed (USBC) */
static const double BALL_RG = 2.50 * IN;       /* assumed: between the limits 2.46 and 2.80 */
static const double PIN_KG = 3.5 * 0.45359237; /* 3 lb 6 oz to 3 lb 10 oz */
/* For a solid of even density with the pin's outline; the rules want the centre of mass between
 * 5 5/8 and 5 15/16 in. */
static const double PIN_COM = 5.81 * IN;
static const double PIN_K_ACROSS = 3.616 * IN, PIN_K_ALONG = 1.376 * IN;
static const double PIN_BASE_R = 1.0155 * IN; /* base 2.031 in across (memory) */

/* The outline as spheres that touch it from inside: heights over the base and radii, inches. The
 * widest is 4.766 in across at 4.5 in; the other diameters of the drawing are from memory. */
enum { SPHERES = 10, BELLY = 2, HEAD = 9 };
static const double SPHERE_HEIGHT[SPHERES] = {1.5, 3.0, 4.5, 5.8, 7.0, 8.2, 9.5, 10.8, 12.2, 13.6};
static const double SPHERE_R_IN[SPHERES] = {1.5,   2.081, 2.383, 2.2,   1.792,
                                            1.307, 0.957, 0.931, 1.110, 1.259};
static const double SPHERE_MOST = 2.383 * IN;

static const double LANE_EDGE = 0.5 * LANE_WIDTH_IN * IN;
static const double CENTRE_BOARD = 0.5 * (LANE_BOARDS + 1);
static const double KICKBACK = (18.0 + 12.0) * IN; /* 12 in beyond the 7 and 10 spots (memory) */
static const double DECK_END = 34.1875 * IN;       /* 62 ft 10 3/16 in from the foul line */
static const double PIT_GONE = 6.0 * IN;     /* a pin this far behind the deck won't come back */
static const double GUTTER_DEPTH = 3.5 * IN; /* beside the deck; assumed */

/* ---- numbers of the method ---- */

static const double STEP_FAST = 0.001, STEP_SLOW = 0.002; /* s */
static const double FAST_UNTIL = 0.5, MOST_TIME = 2.5;    /* s */
static const double BALL_START = -0.30;                   /* m before the head pin's spot */
static const double QUIET_APPROACH = 0.10;                /* m/s: slower contacts don't bounce */
static const double PUSH_APART = 0.4;                     /* share of an overlap undone each step */
static const double UPRIGHT = 0.97;     /* cosine of 14 degrees: tilted less, a pin counts as
                                           standing; past its balance at 10 */
static const double FLAT = 0.80;        /* cosine: tilted more, it won't rise again */
static const double ROLL_DAMPING = 1.5; /* 1/s, a lying pin's spin; assumed */

typedef struct Vec {
    double x, y, z;
} Vec;

static inline Vec vec(double x, double y, double z) { return (Vec){x, y, z}; }
static inline Vec add(Vec a, Vec b) { return vec(a.x + b.x, a.y + b.y, a.z + b.z); }
static inline Vec sub(Vec a, Vec b) { return vec(a.x - b.x, a.y - b.y, a.z - b.z); }
static inline Vec mul(Vec a, double s) { return vec(a.x * s, a.y * s, a.z * s); }
static inline double dot(Vec a, Vec b) { return a.x * b.x + (a.y * b.y + a.z * b.z); }
static inline Vec cross(Vec a, Vec b)
{
    return vec(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x);
}

typedef enum BodyState { BODY_OUT, BODY_STILL, BODY_MOVING } BodyState;

/* A pin or the ball (its height never changes and its axis doesn't matter). */
typedef struct Body {
    BodyState state;
    Vec at, v;       /* of the centre of mass */
    Vec turn;        /* angular velocity */
    Vec spin;        /* angular momentum over inertia across the axis */
    Vec axis;        /* from base to head */
    double per_kg;   /* 1 / mass, level */
    double per_kg_z; /* upward; the deck holds the ball down */
    double per_i;    /* 1 / inertia across the axis */
    double along;    /* inertia across over inertia along, less 1 */
    double gives;    /* factor on restitution */
    double reach;    /* its outline never gets farther than this from the centre, level */
} Body;

typedef struct Sim {
    const RackParams *params;
    Body pins[10];
    Body ball;
    Pins set, touched;
    double exit_x; /* NAN until the ball leaves the deck */
    double step;
} Sim;

static void turn_from_spin(Body *body)
{
    body->turn = add(body->spin, mul(body->axis, body->along * dot(body->axis, body->spin)));
}

/* How much one newton-second along `n` at `arm` changes the speed along `n` there. */
static double yields(const Body *body, Vec arm, Vec n)
{
    Vec t = cross(arm, n);
    double a = dot(t, body->axis);
    return n.x * n.x * body->per_kg + n.y * n.y * body->per_kg + n.z * n.z * body->per_kg_z +
           body->per_i * (dot(t, t) + body->along * a * a);
}

static void push(Body *body, Vec arm, Vec impulse)
{
    body->v.x += impulse.x * body->per_kg;
    body->v.y += impulse.y * body->per_kg;
    body->v.z += impulse.z * body->per_kg_z;
    body->spin = add(body->spin, mul(cross(arm, impulse), body->per_i));
    turn_from_spin(body);
    body->state = BODY_MOVING;
}

static Vec speed_at(const Body *body, Vec arm) { return add(body->v, cross(body->turn, arm)); }

/* One contact at `point`; `n` points from b (NULL: something fixed) to a. */
static void contact(Body *a, Body *b, Vec point, Vec n, double restitution, double friction)
{
    Vec arm_a = sub(point, a->at), arm_b = {0};
    Vec u = speed_at(a, arm_a);
    if (b) {
        arm_b = sub(point, b->at);
        u = sub(u, speed_at(b, arm_b));
    }
    double approach = -dot(u, n);
    if (approach <= 0.0)
        return;
    double yield = yields(a, arm_a, n) + (b ? yields(b, arm_b, n) : 0.0);
    if (approach < QUIET_APPROACH)
        restitution = 0.0;
    double normal = (1.0 + restitution) * approach / yield;
    Vec impulse = mul(n, normal);
    Vec slide = add(u, mul(n, approach));
    double sliding = sqrt(dot(slide, slide));
    if (sliding > 1e-9) {
        Vec t = mul(slide, 1.0 / sliding);
        double stops = sliding / (yields(a, arm_a, t) + (b ? yields(b, arm_b, t) : 0.0));
        impulse = sub(impulse, mul(t, fmin(friction * normal, stops)));
    }
    push(a, arm_a, impulse);
    if (b)
        push(b, arm_b, mul(impulse, -1.0));
}

static Vec sphere_at(const Body *pin, int sphere)
{
    return add(pin->at, mul(pin->axis, SPHERE_HEIGHT[sphere] * IN - PIN_COM));
}

/* Two round surfaces overlapping by `depth`, `d` from b's centre to a's: the normal when they met,
 * since a step carries them some millimetres into one another. */
static Vec normal_when_met(Vec d, Vec u, double depth, double step)
{
    Vec n = mul(d, 1.0 / sqrt(dot(d, d)));
    double approach = -dot(u, n);
    if (approach <= 0.0)
        return n;
    Vec before = sub(d, mul(u, fmin(depth / approach, step)));
    return mul(before, 1.0 / sqrt(dot(before, before)));
}

static void ball_on_pin(Sim *sim, int index)
{
    Body *pin = &sim->pins[index], *ball = &sim->ball;
    double across = pin->at.x - ball->at.x, along = pin->at.y - ball->at.y;
    double near = BALL_R + pin->reach;
    if (across * across + along * along > near * near)
        return;
    Vec from = sub(pin->at, ball->at);
    double deepest = 0.0;
    int sphere = -1;
    for (int i = 0; i < SPHERES; i++) {
        Vec d = add(from, mul(pin->axis, SPHERE_HEIGHT[i] * IN - PIN_COM));
        double sum = BALL_R + SPHERE_R_IN[i] * IN, square = dot(d, d);
        if (square < sum * sum && sum - sqrt(square) > deepest) {
            deepest = sum - sqrt(square);
            sphere = i;
        }
    }
    if (sphere < 0)
        return;
    Vec centre = sphere_at(pin, sphere), d = sub(centre, ball->at);
    Vec u = sub(speed_at(pin, sub(centre, pin->at)), ball->v);
    Vec n = normal_when_met(d, u, deepest, sim->step);
    Vec point = sub(centre, mul(n, SPHERE_R_IN[sphere] * IN));
    contact(pin, ball, point, n, sim->params->ball_restitution * ball->gives,
            sim->params->ball_pin_friction);
    pin->at = add(pin->at, mul(n, PUSH_APART * deepest));
    sim->touched |= pin_bit(index + 1);
}

static inline double between(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

/* Squared least distance between two pins' axes, from lowest to highest sphere. `square` is the
 * squared distance of the centres of mass, `from_a` and `from_b` its parts along each axis, `axes`
 * the cosine between the axes. */
static double axes_apart(double square, double from_a, double from_b, double axes)
{
    const double low = SPHERE_HEIGHT[0] * IN - PIN_COM, high = SPHERE_HEIGHT[HEAD] * IN - PIN_COM;
    double skew = 1.0 - axes * axes;
    double s = skew > 1e-6 ? (axes * from_b - from_a) / skew : 0.0;
    s = between(s, low, high);
    double t = between(from_b + s * axes, low, high);
    s = between(t * axes - from_a, low, high);
    return square + s * (s + 2.0 * (from_a - t * axes)) + t * (t - 2.0 * from_b);
}

static void pin_on_pin(Sim *sim, Body *a, Body *b)
{
    double across = a->at.x - b->at.x, along = a->at.y - b->at.y, near = a->reach + b->reach;
    if (across * across + along * along > near * near)
        return;
    Vec from = sub(a->at, b->at);
    double from_a = dot(from, a->axis), from_b = dot(from, b->axis), axes = dot(a->axis, b->axis);
    double square0 = dot(from, from), deepest = 0.0;
    if (axes_apart(square0, from_a, from_b, axes) > 4.0 * SPHERE_MOST * SPHERE_MOST)
        return;
    int on_a = -1, on_b = -1;
    for (int i = 0; i < SPHERES; i++) {
        double s = SPHERE_HEIGHT[i] * IN - PIN_COM;
        double to_i = square0 + s * (s + 2.0 * from_a);
        double along_b = from_b + s * axes, most = SPHERE_R_IN[i] * IN + SPHERE_MOST;
        if (to_i - along_b * along_b > most * most)
            continue; /* well clear of b */
        for (int j = 0; j < SPHERES; j++) {
            double t = SPHERE_HEIGHT[j] * IN - PIN_COM;
            double square = to_i + t * (t - 2.0 * from_b) - 2.0 * s * t * axes;
            double sum = (SPHERE_R_IN[i] + SPHERE_R_IN[j]) * IN;
            if (square < sum * sum) {
                double depth = sum - sqrt(fmax(square, 0.0));
                if (depth > deepest) {
                    deepest = depth;
                    on_a = i;
                    on_b = j;
                }
            }
        }
    }
    if (on_a < 0)
        return;
    Vec centre_a = sphere_at(a, on_a), centre_b = sphere_at(b, on_b), d = sub(centre_a, centre_b);
    if (dot(d, d) < 1e-12)
        return;
    Vec u = sub(speed_at(a, sub(centre_a, a->at)), speed_at(b, sub(centre_b, b->at)));
    Vec n = normal_when_met(d, u, deepest, sim->step);
    Vec point = add(centre_b, mul(n, SPHERE_R_IN[on_b] * IN));
    const RackParams *params = sim->params;
    double approach = fmax(-dot(u, n), 0.0);
    double restitution = params->pin_restitution / (1.0 + params->softening * approach);
    contact(a, b, point, n, restitution * (0.5 * (a->gives + b->gives)), params->pin_friction);
    Vec apart = mul(n, 0.5 * PUSH_APART * deepest);
    a->at = add(a->at, apart);
    b->at = sub(b->at, apart);
}

static bool over_pit(Vec p) { return p.y > DECK_END; }
static double floor_at(Vec p) { return fabs(p.x) > LANE_EDGE ? -GUTTER_DEPTH : 0.0; }

/* One sphere or rim point against the deck, the gutter beside it, or nothing (the pit). */
static void on_floor(Sim *sim, Body *pin, Vec lowest)
{
    if (over_pit(lowest))
        return;
    double depth = floor_at(lowest) - lowest.z;
    if (depth <= 0.0 || depth > 0.05)
        return;
    contact(pin, NULL, lowest, vec(0.0, 0.0, 1.0), sim->params->floor_restitution,
            sim->params->floor_friction);
    pin->at.z += depth;
}

static void on_wall(Sim *sim, Body *pin, int sphere)
{
    Vec centre = sphere_at(pin, sphere);
    double r = SPHERE_R_IN[sphere] * IN, side = centre.x < 0.0 ? -1.0 : 1.0;
    double depth = fabs(centre.x) + r - KICKBACK;
    if (depth > 0.0) {
        Vec n = vec(-side, 0.0, 0.0);
        contact(pin, NULL, sub(centre, mul(n, r)), n, sim->params->wall_restitution * pin->gives,
                sim->params->pin_friction);
        pin->at.x -= side * PUSH_APART * depth;
    }
    depth = LANE_EDGE + r - fabs(centre.x); /* the gutter's wall toward the lane */
    if (centre.z < 0.0 && depth > 0.0 && depth < 2.0 * r && !over_pit(centre)) {
        Vec n = vec(side, 0.0, 0.0);
        contact(pin, NULL, sub(centre, mul(n, r)), n, 0.3, sim->params->pin_friction);
        pin->at.x += side * PUSH_APART * depth;
    }
}

static void pin_surroundings(Sim *sim, Body *pin)
{
    Vec down = vec(0.0, 0.0, -1.0);
    Vec base = sub(pin->at, mul(pin->axis, PIN_COM));
    double level = sqrt(pin->axis.x * pin->axis.x + pin->axis.y * pin->axis.y);
    if (level > 1e-9) { /* the lowest point of the base's rim */
        double lean = PIN_BASE_R / level;
        Vec toward = sub(down, mul(pin->axis, -pin->axis.z));
        base = add(base, mul(toward, lean));
    }
    on_floor(sim, pin, base);
    if (pin->axis.z < UPRIGHT) {
        static const int LIES_ON[] = {BELLY, HEAD};
        for (int i = 0; i < 2; i++) {
            Vec centre = sphere_at(pin, LIES_ON[i]);
            on_floor(sim, pin, add(centre, mul(down, SPHERE_R_IN[LIES_ON[i]] * IN)));
        }
    }
    if (fabs(pin->at.x) + pin->reach > KICKBACK || pin->at.z < 0.0) {
        on_wall(sim, pin, BELLY);
        on_wall(sim, pin, HEAD);
    }
}

/* Deck friction opposes the ball's slip, and so turns its path back toward the way it rolls. */
static void ball_on_deck(Sim *sim)
{
    Body *ball = &sim->ball;
    Vec arm = vec(0.0, 0.0, -BALL_R);
    Vec slip = speed_at(ball, arm);
    slip.z = 0.0;
    double sliding = sqrt(dot(slip, slip));
    if (sliding < 1e-9)
        return;
    Vec t = mul(slip, 1.0 / sliding);
    double stops = sliding / yields(ball, arm, t);
    double most = sim->params->deck_friction * UNITS_GRAVITY_MPS2 / ball->per_kg * sim->step;
    push(ball, arm, mul(t, -fmin(most, stops)));
}

static void move_ball(Sim *sim)
{
    Body *ball = &sim->ball;
    if (ball->state == BODY_OUT)
        return;
    Vec before = ball->at;
    ball->at.x += ball->v.x * sim->step;
    ball->at.y += ball->v.y * sim->step;
    bool in_gutter = fabs(ball->at.x) > LANE_EDGE, past = ball->at.y >= DECK_END;
    if (past && !in_gutter) {
        double part = (DECK_END - before.y) / (ball->at.y - before.y);
        sim->exit_x = before.x + part * (ball->at.x - before.x);
    }
    /* a ball that has stopped or bounced back won't hit anything else */
    if (in_gutter || past || ball->v.y < 0.05)
        ball->state = BODY_OUT;
}

static void move_pin(Sim *sim, Body *pin)
{
    double h = sim->step;
    pin->at = add(pin->at, mul(pin->v, h));
    Vec axis = add(pin->axis, mul(cross(pin->turn, pin->axis), h));
    pin->axis = mul(axis, 1.0 / sqrt(dot(axis, axis)));
    turn_from_spin(pin);
    double level = pin->axis.x * pin->axis.x + pin->axis.y * pin->axis.y;
    pin->reach = SPHERE_MOST + 9.2 * IN * sqrt(level);
    if (pin->at.y > DECK_END + PIT_GONE || pin->at.z < -0.5) {
        pin->state = BODY_OUT;
        return;
    }
    bool lies = pin->axis.z < FLAT;
    if (lies)
        pin->spin = mul(pin->spin, 1.0 - ROLL_DAMPING * h);
    double speed = dot(pin->v, pin->v), turning = dot(pin->turn, pin->turn);
    if (lies ? speed < 0.15 * 0.15 && turning < 3.0 * 3.0
             : pin->axis.z > 0.9998 && speed < 0.02 * 0.02 && turning < 0.2 * 0.2) {
        pin->state = BODY_STILL;
        pin->v = pin->spin = pin->turn = vec(0.0, 0.0, 0.0);
    }
}

static bool toppled(const Body *pin)
{
    return pin->state == BODY_OUT || pin->axis.z < UPRIGHT || pin->at.z < 0.9 * PIN_COM;
}

static void set_pins(Sim *sim, Pins set, const RackJitter *jitter)
{
    for (int i = 0; i < 10; i++) {
        Body *pin = &sim->pins[i];
        *pin = (Body){
            .state = set & pin_bit(i + 1) ? BODY_STILL : BODY_OUT,
            .at = vec((lane_pin_right_in(i + 1) + jitter->right_in[i]) * IN,
                      (lane_pin_back_in(i + 1) + jitter->back_in[i]) * IN, PIN_COM),
            .axis = vec(0.0, 0.0, 1.0),
            .per_kg = 1.0 / PIN_KG,
            .per_kg_z = 1.0 / PIN_KG,
            .per_i = 1.0 / (PIN_KG * PIN_K_ACROSS * PIN_K_ACROSS),
            .along = PIN_K_ACROSS * PIN_K_ACROSS / (PIN_K_ALONG * PIN_K_ALONG) - 1.0,
            .gives = jitter->restitution[i],
            .reach = SPHERE_MOST,
        };
    }
}

static void set_ball(Sim *sim, const RackHit *hit, double ball_gives)
{
    double kg = kg_from_lb(hit->pounds), speed = mps_from_mph(hit->mph);
    double heading = rad_from_deg(hit->degrees);
    double roll = hit->rpm > 0.0 ? radps_from_rpm(hit->rpm) : speed / BALL_R;
    Vec way = vec(-sin(heading), cos(heading), 0.0);
    sim->ball = (Body){
        .state = BODY_MOVING,
        .at = vec((CENTRE_BOARD - hit->board) * LANE_BOARD_M + way.x / way.y * BALL_START,
                  BALL_START, BALL_R),
        .v = mul(way, speed),
        .axis = vec(0.0, 0.0, 1.0),
        .per_kg = 1.0 / kg,
        .per_i = 1.0 / (kg * BALL_RG * BALL_RG),
        .gives = ball_gives,
    };
    sim->ball.spin = sim->ball.turn = vec(-way.y * roll, way.x * roll, 0.0);
    if (!(fabs(sim->ball.at.x) <= LANE_EDGE) || !(speed > 0.05))
        sim->ball.state = BODY_OUT;
}

/* One step; false once nothing moves. */
static bool advance(Sim *sim)
{
    const double fall = UNITS_GRAVITY_MPS2 * sim->step;
    if (sim->ball.state == BODY_MOVING) {
        ball_on_deck(sim);
        for (int i = 0; i < 10; i++)
            if (sim->pins[i].state != BODY_OUT)
                ball_on_pin(sim, i);
    }
    for (int i = 0; i < 10; i++) {
        Body *a = &sim->pins[i];
        if (a->state == BODY_OUT)
            continue;
        for (int j = i + 1; j < 10; j++) {
            Body *b = &sim->pins[j];
            if (b->state == BODY_OUT || (a->state == BODY_STILL && b->state == BODY_STILL))
                continue;
            pin_on_pin(sim, a, b);
        }
    }
    bool moving = false;
    move_ball(sim);
    for (int i = 0; i < 10; i++) {
        Body *pin = &sim->pins[i];
        if (pin->state != BODY_MOVING)
            continue;
        pin->v.z -= fall;
        pin_surroundings(sim, pin);
        move_pin(sim, pin);
        moving = true;
    }
    return moving || sim->ball.state == BODY_MOVING;
}

static Pins standing(const Sim *sim)
{
    Pins left = 0;
    for (int i = 0; i < 10; i++)
        if ((sim->set & pin_bit(i + 1)) && !toppled(&sim->pins[i]))
            left |= pin_bit(i + 1);
    return left;
}

Pins rack_simulate_as_is(const RackParams *params, const RackHit *hit, Pins set,
                         const RackJitter *jitter, double *exit_board, Pins *touched)
{
    Sim sim = {.params = params, .set = set & PINS_ALL, .exit_x = NAN};
    set_pins(&sim, sim.set, jitter);
    set_ball(&sim, hit, jitter->ball_restitution);
    double time = 0.0;
    while (time < MOST_TIME) {
        sim.step = time < FAST_UNTIL ? STEP_FAST : STEP_SLOW;
        time += sim.step;
        if (!advance(&sim))
            break;
        if (sim.ball.state == BODY_OUT && standing(&sim) == 0)
            break;
    }
    if (exit_board)
        *exit_board = CENTRE_BOARD - sim.exit_x / LANE_BOARD_M;
    if (touched)
        *touched = sim.touched;
    return standing(&sim);
}

RackJitter rack_jitter_mirrored(const RackJitter *jitter)
{
    RackJitter mirrored = *jitter;
    for (int pin = 1; pin <= 10; pin++) {
        int from = 0;
        while (lane_mirror_pins(pin_bit(from + 1)) != pin_bit(pin))
            from++;
        mirrored.right_in[pin - 1] = -jitter->right_in[from];
        mirrored.back_in[pin - 1] = jitter->back_in[from];
        mirrored.restitution[pin - 1] = jitter->restitution[from];
    }
    return mirrored;
}

/* Of a hit and its mirror image, true for the one that is simulated mirrored. */
static bool from_other_side(const RackHit *hit, const RackJitter *jitter)
{
    if (hit->board != CENTRE_BOARD)
        return hit->board > CENTRE_BOARD;
    if (hit->degrees != 0.0)
        return hit->degrees < 0.0;
    return jitter->right_in[0] < 0.0;
}

Pins rack_simulate(const RackParams *params, const RackHit *hit, Pins set, const RackJitter *jitter,
                   double *exit_board, Pins *touched)
{
    if (!from_other_side(hit, jitter))
        return rack_simulate_as_is(params, hit, set, jitter, exit_board, touched);
    RackHit mirrored = *hit;
    mirrored.board = lane_mirror_board(hit->board);
    mirrored.degrees = -hit->degrees;
    RackJitter other = rack_jitter_mirrored(jitter);
    double board;
    Pins touches;
    Pins left = rack_simulate_as_is(params, &mirrored, lane_mirror_pins(set & PINS_ALL), &other,
                                    &board, &touches);
    if (exit_board)
        *exit_board = lane_mirror_board(board);
    if (touched)
        *touched = lane_mirror_pins(touches);
    return lane_mirror_pins(left);
}

RackJitter rack_jitter(const RackParams *params, Rng *rng)
{
    RackJitter jitter;
    double spot = params->spot_jitter_in, gives = params->restitution_jitter;
    for (int i = 0; i < 10; i++) { /* for all ten, whether they stand or not */
        jitter.right_in[i] = rng_between(rng, -spot, spot);
        jitter.back_in[i] = rng_between(rng, -spot, spot);
        jitter.restitution[i] = 1.0 + rng_between(rng, -gives, gives);
    }
    jitter.ball_restitution =
        1.0 + rng_between(rng, -params->ball_restitution_jitter, params->ball_restitution_jitter);
    return jitter;
}

Pins rack_sim_roll(const RackHit *hit, Pins set, Rng *rng, double *exit_board, Pins *touched)
{
    RackJitter jitter = rack_jitter(&RACK_PARAMS, rng);
    return rack_simulate(&RACK_PARAMS, hit, set, &jitter, exit_board, touched);
}
