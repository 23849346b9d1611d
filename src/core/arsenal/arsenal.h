/* arsenal.h - a bag before the event: what each ball does on this pattern through the block, which
 * balls do the same job, which lanes no ball suits, what another surface would change, and the best
 * few balls of the locker.
 *
 * A job in slices, as in advice.h: arsenal_begin, then arsenal_step until it returns true. Partial
 * results may be shown. Deterministic. Allocates nothing but the job. */
#ifndef SETTEE_CORE_ARSENAL_ARSENAL_H
#define SETTEE_CORE_ARSENAL_ARSENAL_H

#include "core/arsenal/lane_states.h"
#include "core/line/strength.h"

typedef struct ArsenalInput {
    const Bag *bag;
    const Pattern *pattern;
    int games, bowlers;              /* 1..BLOCK_GAMES_MAX, 1..BLOCK_BOWLERS_MAX */
    FieldMix mix;                    /* the others, as far as known */
    double weight[LANE_STATE_COUNT]; /* of the lane states; all 0: from the block's length */
    int pick;                        /* balls to pick, 1..SET_MAX; 0: none */
    bool spare_free;                 /* don't reserve a place for a spare ball */
    bool surfaces;                   /* try other surfaces on the balls in the slots */
    bool pick_surfaces;              /* on every ball, and let the pick choose among them */
    long revision; /* the caller's number for this question; returned with the answer */
} ArsenalInput;

/* Two balls closer in value than this do equally well on a film (assumed: three strikes in a
 * hundred first balls, about four pins a game). */
#define ARSENAL_NEAR 0.03
/* A bag more than this below the best has no ball for a film. */
#define ARSENAL_GAP 0.05

/* What a ball does on its own best line. */
typedef struct Showing {
    bool ready, found;
    double value;
    Line line;
    double crossed_boards; /* breakpoint to pocket */
    double flare_in;
} Showing;

enum { SURFACES = 7 };
extern const Surface SURFACE_SET[SURFACES]; /* roughest first */

typedef struct SurfaceShow { /* a ball with another surface, fresh lane */
    bool ready;
    double first_move_ft, hook_ft, entry_deg, pocket;
    double mean; /* value over the weighted films */
    double value[STATE_FILMS];
} SurfaceShow;

typedef struct ArsenalBall {
    bool spare;                      /* bag_for_spares: left out of the tables for strikes */
    Strength strength;               /* on the sheet */
    Showing at[BLOCK_GAMES_MAX + 1]; /* before each game, after the last */
    double value[STATE_FILMS];       /* by state, then volume */
    double mean;                     /* over the weighted films */
    SurfaceShow surface[SURFACES];
} ArsenalBall;

typedef struct Overlap { /* of two balls of the bag, indices into it */
    int a, b;
    double share;              /* of the weighted films, on which both do about equally well */
    double move_ft, entry_deg; /* b's hook and entry minus a's, fresh; NAN: one has none */
} Overlap;
enum { OVERLAPS_MAX = BAG_SLOTS * (BAG_SLOTS - 1) / 2 };

typedef struct Gap { /* how well the bag suits a lane state */
    LaneState state;
    double best;   /* value of the bag's best ball there */
    int ball;      /* which; -1: none */
    double locker; /* of the best of all balls */
    int locker_ball;
    double ideal;   /* of the best imaginary ball, or the locker's if that is better */
    int ideal_ball; /* into IDEAL_BALLS; -1: none beats the locker */
    bool open;      /* the bag falls short by more than ARSENAL_GAP */
} Gap;

/* What would close a gap. */
typedef enum GapAnswer {
    GAP_NONE,      /* there is no gap */
    GAP_BY_LOCKER, /* a ball of the locker, for most of it */
    GAP_BY_IDEAL,  /* an imaginary ball */
    GAP_BY_TWO     /* no single ball, but two together */
} GapAnswer;
GapAnswer arsenal_gap_answer(const Gap *gap);

enum { IDEALS = 8 };
typedef struct IdealBall {
    Ball ball;
    const char *words;
} IdealBall;
const IdealBall *arsenal_ideals(void); /* IDEALS of them, static */

/* A change of surface that helps the bag. */
typedef struct SurfaceAdvice {
    int ball, surface;    /* index into the bag, into SURFACE_SET */
    int other;            /* the ball it becomes different from; -1: it closes a gap */
    LaneState state;      /* the gap's */
    double before, after; /* overlap share, or shortfall in value */
    double value_gain;    /* of the whole bag */
} SurfaceAdvice;
enum { SURFACE_ADVICE_MAX = 8 };

typedef enum Reaction {
    REACTION_EARLIEST,
    REACTION_LATEST,
    REACTION_STRONGEST,
    REACTION_SMOOTHEST,
    REACTION_BETWEEN
} Reaction;

/* A ball of a set and its job. */
typedef struct SetBall {
    int ball, surface; /* surface: into SURFACE_SET, -1: as it is */
    bool spare;
    int lead;               /* LaneState in which it helps most; -1: it adds next to nothing */
    double gives;           /* what the set would lose without it */
    double share;           /* weighted share of films on which it is the best */
    int game_from, game_to; /* games in which it is the best or nearly; 0: none */
    double when;            /* mean game in which it is used; places are in this order */
    Reaction motion;
    int like;     /* if it adds next to nothing, the most similar ball of the set; else -1 */
    int stand_in; /* ball of the locker outside the set; -1: none */
    double loss;  /* of the set's value with that one instead */
    char job[120];
} SetBall;

enum { SET_MAX = 12 };
typedef struct Set {
    int count;
    double value; /* of the balls for strikes */
    SetBall place[SET_MAX];
} Set;

typedef struct Arsenal {
    double weight[LANE_STATE_COUNT];
    int games, bowlers;
    ArsenalBall ball[BAG_BALLS_MAX];
    int overlap_count;
    Overlap overlap[OVERLAPS_MAX]; /* most first */
    Gap gap[LANE_STATE_COUNT];
    int advice_count;
    SurfaceAdvice advice[SURFACE_ADVICE_MAX];
    Set bag;              /* what is in the slots */
    Set picked;           /* if asked for */
    int steps, steps_all; /* progress */
    bool done;
    long revision; /* of the question it answers */
} Arsenal;

const char *arsenal_overlap_word(double share); /* none, little, half, mostly, same */

typedef struct ArsenalJob ArsenalJob;
ArsenalJob *arsenal_job_new(void); /* heap, owned by the caller; NULL if out of memory */
void arsenal_job_free(ArsenalJob *job);
void arsenal_begin(ArsenalJob *job, const ArsenalInput *input); /* copies bag and pattern's film */
bool arsenal_step(ArsenalJob *job);                   /* some milliseconds; true when done */
const Arsenal *arsenal_result(const ArsenalJob *job); /* owned by the job */
const LaneFilms *arsenal_films(const ArsenalJob *job);

#endif
