/* motion.h - a ball from the hand to the head pin: the averaged model of docs/model.md.
 *
 * The state is integrated over distance (not time), so steps end exactly on the oil grid's
 * stations, touchdown and the head pin; the end of slip and the gutter are located within a step.
 * Everything is in the bowler's own frame (lane.h); the Oil must be too (oil_for_hand). Pure: no
 * allocation, no global state. */
#ifndef SETTEE_CORE_MOTION_MOTION_H
#define SETTEE_CORE_MOTION_MOTION_H

#include <stdbool.h>

#include "core/bag/ball.h"
#include "core/lane/oil.h"
#include "core/motion/delivery.h"
#include "core/motion/friction.h"

typedef struct MotionState {
    double t_s;
    double x_m, y_m;
    double vx, vy;      /* m/s; vy > 0 */
    double lx, ly, lz;  /* angular momentum over mass, m2/s, lab axes */
    double n[3];        /* spin axis in the body's principal axes, a unit vector */
    double revs;        /* turns since release */
    double flare_m;     /* how far the track has migrated over the ball since touchdown */
    bool rolling;       /* slip has ended */
    bool gutter;        /* left the lane, or stopped on it; the state is from where that happened */
    double touchdown_m; /* no friction before this y */
    double roll_m;      /* y where slip ended; NAN before that */
} MotionState;

/* What matters about a ball for its motion. */
typedef struct MotionBody {
    double pounds; /* for the rack; motion doesn't use it */
    double radius_m;
    double k_sq[3]; /* squared radii of gyration, m2: pin axis (lowest), middle, highest */
    double axis[3]; /* spin axis at release in the body's axes */
    FrictionCurve friction;
} MotionBody;

void motion_body(const Ball *ball, MotionBody *body);

/* The state as the ball crosses the foul line. */
MotionState motion_release(const MotionBody *body, const Delivery *delivery);

/* Carries the state on to y_stop_m (or into the gutter), in steps of at most step_m. */
#ifndef SETTEE_CONSTANTS_VARY          /* tests/bench/bench_constants.c makes variables of this */
#define MOTION_ROLLING_RESISTANCE 0.01 /* deceleration of a rolling ball over g; assumed */
#endif
#define MOTION_STEP_M (0.5 * 0.3048)
/* A ball moving down the lane no faster than this counts as stopped (assumed; 1.1 mph). */
#define MOTION_STILL_MPS 0.5
void motion_advance(const MotionBody *body, const Oil *oil, MotionState *state, double y_stop_m,
                    double step_m);

/* Velocity of the ball's surface against the lane, m/s, along x and y. */
void motion_slip(const MotionBody *body, const MotionState *state, double *ux, double *uy);

/* How far the heading turns between the hand and pure roll, degrees, + toward the bowler's other
 * side: textbook slip to roll, the same on any lane, with the inertia about the axis at release
 * (`k_sq`, m2). A ball makes its move (`hook_ft`) where it has turned half of that: this place
 * depends on oil, surface and cover, as what a bowler sees does. A ball that turns less than
 * MOTION_TURN_LEAST_DEG in all is straight and makes no move. */
double motion_turn_deg(double k_sq, double radius_m, const Delivery *delivery);
#define MOTION_TURN_LEAST_DEG 1.5 /* assumed: nobody sees less in 60 ft */

typedef enum Phase { PHASE_SKID, PHASE_HOOK, PHASE_ROLL } Phase;
extern const char *const PHASE_NAMES[4];

typedef struct PathPoint {
    double ft, board;
    double degrees; /* heading, + toward the bowler's other side */
    double mph, rpm;
    double slip_mps, mu, units;
    Phase phase; /* skid until the first move, roll once slip has ended */
} PathPoint;

enum { ROLL_POINTS_MAX = 121 };

typedef struct Roll {
    int count; /* points each half-foot from the foul line; ends at the gutter */
    PathPoint path[ROLL_POINTS_MAX];
    double first_move_ft; /* where the heading is 1 degree above the launch; NAN if nowhere */
    double hook_ft;       /* where it makes its move (motion_turn_deg); NAN if it never does */
    double breakpoint_board, breakpoint_ft;   /* farthest toward the bowler's own gutter */
    double roll_ft;                           /* NAN if it never rolls */
    double entry_board, entry_deg, entry_mph; /* at the head pin; NAN in the gutter */
    double flare_in, revs, seconds;
    bool gutter; /* or stopped on the lane */
} Roll;

void motion_roll(const MotionBody *body, const Oil *oil, const Delivery *delivery, Roll *roll);

/* Whether a path that is farthest out there has a breakpoint to speak of: one that goes inside from
 * the hand on, or from before the arrows, has none. */
bool motion_breaks(double breakpoint_ft);

/* The end only: what a search needs. Equal to motion_roll's entry. */
typedef struct Arrival {
    double board, degrees, mph; /* NAN when it is in the gutter */
    double hook_ft;
    double breakpoint; /* board farthest toward the bowler's own gutter */
    bool gutter;
} Arrival;
Arrival motion_arrive(const MotionBody *body, const Oil *oil, const Delivery *delivery);

#endif
