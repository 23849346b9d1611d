/* rack_sim.h - one simulated hit on the pins: everything random or assumed is an argument. For
 * rack_roll, the table generator and the tests. */
#ifndef SETTEE_CORE_PINS_RACK_SIM_H
#define SETTEE_CORE_PINS_RACK_SIM_H

#include "core/pins/rack.h"

/* Constants that are not published. docs/rack.md says what each was fitted to. */
typedef struct RackParams {
    double ball_restitution;  /* ball on pin */
    double pin_restitution;   /* pin on pin; each pin's own is jittered around it */
    double wall_restitution;  /* pin on kickback */
    double floor_restitution; /* pin on deck */
    double softening; /* s/m: scales pin on pin by 1 / (1 + softening * speed of approach) */
    double ball_pin_friction;
    double pin_friction;            /* pin on pin and on kickback */
    double floor_friction;          /* pin on deck */
    double deck_friction;           /* ball on deck: what restores the ball's roll */
    double spot_jitter_in;          /* each way, uniform, across and along */
    double restitution_jitter;      /* each way, a share of the restitution, uniform, per pin */
    double ball_restitution_jitter; /* the same for the ball, per rack */
} RackParams;

extern const RackParams RACK_PARAMS;

/* Everything random about one rack; index 0 is pin 1. */
typedef struct RackJitter {
    double right_in[10], back_in[10]; /* off the spot */
    double restitution[10];           /* factor for the pin's contacts */
    double ball_restitution;          /* factor */
} RackJitter;

RackJitter rack_jitter(const RackParams *params, Rng *rng);
RackJitter rack_jitter_mirrored(const RackJitter *jitter);

/* One hit on the pins of `set`; returns those left standing. `exit_board` (may be NULL) receives
 * the board on which the ball leaves the deck (NAN in the gutter); `touched` (may be NULL) the pins
 * the ball itself touched. A hit from beyond the centre board is simulated mirrored, so that
 * mirrored arguments give exactly the mirrored pins. */
Pins rack_simulate(const RackParams *params, const RackHit *hit, Pins set, const RackJitter *jitter,
                   double *exit_board, Pins *touched);

/* The same without that mirroring: mirrored arguments give mirrored pins only as far as the order
 * of contacts allows. */
Pins rack_simulate_as_is(const RackParams *params, const RackHit *hit, Pins set,
                         const RackJitter *jitter, double *exit_board, Pins *touched);

/* With the program's constants and jitter drawn from `rng`: the same count of numbers whatever pins
 * are set. */
Pins rack_sim_roll(const RackHit *hit, Pins set, Rng *rng, double *exit_board, Pins *touched);

#endif
