/* rack_sim.h - one hit on the pins, simulated: everything that is random or assumed is an argument.
 * For rack_roll, the table generator and the tests. */
#ifndef SETTEE_CORE_PINS_RACK_SIM_H
#define SETTEE_CORE_PINS_RACK_SIM_H

#include "core/pins/rack.h"

/* What is not published. docs/rack.md says what each was fitted on. */
typedef struct RackParams {
    double ball_restitution;  /* ball on pin */
    double pin_restitution;   /* pin on pin; each pin's own is jittered about it */
    double wall_restitution;  /* pin on kickback */
    double floor_restitution; /* pin on deck */
    double softening; /* s/m: of pin on pin 1 / (1 + softening * speed of approach) is left */
    double ball_pin_friction;
    double pin_friction;       /* pin on pin and on kickback */
    double floor_friction;     /* pin on deck */
    double deck_friction;      /* ball on deck: what restores the ball's roll */
    double spot_jitter_in;     /* each way, uniform, across and along */
    double restitution_jitter; /* each way, a share of the restitution, uniform, for each pin */
    double ball_restitution_jitter; /* the same for the ball, one a rack */
} RackParams;

extern const RackParams RACK_PARAMS;

/* Everything random about one rack; index 0 is pin 1. */
typedef struct RackJitter {
    double right_in[10], back_in[10]; /* off the spot */
    double restitution[10];           /* factor on what the pin's contacts give back */
    double ball_restitution;          /* factor */
} RackJitter;

RackJitter rack_jitter(const RackParams *params, Rng *rng);
RackJitter rack_jitter_mirrored(const RackJitter *jitter);

/* One hit on the pins of `set`; returns those that still stand. `exit_board` (may be NULL) receives
 * the board on which the ball leaves the deck (NAN in the gutter); `touched` (may be NULL) the pins
 * that the ball itself touched. A hit from beyond the centre board is rolled in the mirror, so
 * that mirrored arguments give the mirrored pins exactly. */
Pins rack_simulate(const RackParams *params, const RackHit *hit, Pins set, const RackJitter *jitter,
                   double *exit_board, Pins *touched);

/* The same without that choice of side: mirrored only as well as the order of contacts allows. */
Pins rack_simulate_as_is(const RackParams *params, const RackHit *hit, Pins set,
                         const RackJitter *jitter, double *exit_board, Pins *touched);

/* With the program's constants and jitter drawn from `rng`, as many numbers whatever is set. */
Pins rack_sim_roll(const RackHit *hit, Pins set, Rng *rng, double *exit_board, Pins *touched);

#endif
