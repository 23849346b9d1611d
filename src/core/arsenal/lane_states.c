/* lane_states.c - a block's wear, and the states of lane made from it. */
#include "core/arsenal/lane_states.h"

#include <math.h>
#include <string.h>

const char *const LANE_STATE_NAMES[LANE_STATE_COUNT + 1] = {
    "fresh", "transition", "burnt", "carried", "long", "short", "cliffed", 0};
const char *const LANE_STATE_WORDS[LANE_STATE_COUNT] = {
    "as dressed",
    "half the block on it",
    "the whole block on it, worn fast",
    "half the block, hard covers carrying oil down",
    "oil three feet longer",
    "oil three feet shorter",
    "more oil inside, less outside"};

const double STATE_VOLUME[STATE_VOLUMES] = {1.0, 0.85, 1.15};
const double STATE_VOLUME_SHARE[STATE_VOLUMES] = {0.5, 0.25, 0.25};

#define DOUBT_SHARE 0.28 /* of the weights for what a block may be besides its wear; assumed */
#define FAST_WEAR 1.4    /* against usual: belief.c's next rate up */
#define LENGTH_FT 3.0    /* longer and shorter than the sheet; assumed */
/* The cliff, all assumed: film outside of the outer board, inside of the inner one. */
#define CLIFF_OUTER_BOARD 9
#define CLIFF_INNER_BOARD 12
#define CLIFF_OUTER 0.4
#define CLIFF_INNER 1.2

void lane_state_weights(int games, double weight[LANE_STATE_COUNT])
{
    memset(weight, 0, LANE_STATE_COUNT * sizeof *weight);
    for (int game = 0; game < games; game++) /* thirds of the block; a single game is fresh */
        weight[LANE_FRESH + 3 * game / games] += (1.0 - DOUBT_SHARE) / games;
    for (int state = LANE_CARRIED; state < LANE_STATE_COUNT; state++)
        weight[state] = DOUBT_SHARE / (LANE_STATE_COUNT - LANE_CARRIED);
}

int block_deliveries(Side lane) { return lane == SIDE_LEFT ? 5 : 6; }

void block_wear(Oil *oil, const GameWear *wear, Side lane)
{
    for (int i = 0; i < block_deliveries(lane); i++) {
        wear_track(oil, &wear->own, wear->own_cover, wear->rate);
        for (int other = 1; other < wear->bowlers; other++)
            wear_track(oil, &wear->field[other - 1], COVER_SOLID, wear->rate);
    }
}

static void solid_body(MotionBody *body)
{
    Ball ball = ball_default();
    motion_body(&ball, body);
}

/* The line of a usual solid, rolled. */
static void solid_roll(const Oil *oil, const Bowler *bowler, Roll *roll)
{
    MotionBody body;
    BatchBall batch;
    BatchOil ready;
    solid_body(&body);
    batch_ball(&body, &batch);
    batch_oil(oil, BATCH_QUICK, &ready);
    Fit fit = fit_ball(&batch, &ready, bowler);
    Delivery delivery = delivery_of(bowler, delivery_stance(bowler, fit.laydown_board), fit.aim);
    motion_roll(&body, oil, &delivery, roll);
}

static void field_tracks(const Roll *roll, int bowlers, int game, GameWear *wear)
{
    wear->bowlers = bowlers;
    for (int other = 1; other < bowlers; other++)
        track_of(roll, wear_traffic_shift(other - 1 + game * (bowlers - 1)),
                 &wear->field[other - 1]);
}

void block_field(const Oil *oil, const Bowler *bowler, int bowlers, int game, GameWear *wear)
{
    Roll roll;
    solid_roll(oil, bowler, &roll);
    field_tracks(&roll, bowlers, game, wear);
}

/* A game in which everyone, this bowler too, throws the usual solid: the bag is not chosen yet. */
static void wear_game(Oil *oil, const LaneFilms *films, int game, Cover own, WearRate rate)
{
    Roll roll;
    GameWear wear = {.own_cover = own, .rate = rate};
    solid_roll(oil, &films->bowler, &roll);
    track_of(&roll, 0.0, &wear.own);
    field_tracks(&roll, films->bowlers, game, &wear);
    block_wear(oil, &wear, game % 2 ? SIDE_RIGHT : SIDE_LEFT);
}

/* A game of hard covers: every track carries. */
static void carry_game(Oil *oil, const LaneFilms *films, int game)
{
    Roll roll;
    Track track;
    solid_roll(oil, &films->bowler, &roll);
    for (int i = 0; i < block_deliveries(SIDE_LEFT); i++)
        for (int who = 0; who < films->bowlers; who++) {
            track_of(&roll, who ? wear_traffic_shift(who - 1 + game * (films->bowlers - 1)) : 0.0,
                     &track);
            wear_track(oil, &track, COVER_URETHANE, (WearRate){1.0, 1.0});
        }
}

/* The film drawn out or pressed together along the lane. */
static void stretch(const Oil *from, double feet, Oil *to)
{
    double length = fmax(from->length_ft, 10.0), ratio = length / (length + feet);
    *to = *from;
    to->length_ft = fmin(length + feet, LANE_LENGTH_FT);
    for (int j = 0; j < OIL_STATIONS; j++) {
        double at = j * ratio;
        int low = (int)at;
        for (int b = 0; b < LANE_BOARDS; b++)
            to->units[j][b] = low + 1 < OIL_STATIONS
                                  ? from->units[low][b] +
                                        (at - low) * (from->units[low + 1][b] - from->units[low][b])
                                  : 0.0;
    }
}

static void cliff(const Oil *from, Oil *to)
{
    *to = *from;
    for (int b = 0; b < LANE_BOARDS; b++) {
        int board = b + 1 <= LANE_BOARDS / 2 ? b + 1 : LANE_BOARDS - b; /* from the nearer edge */
        double share =
            (double)(board - CLIFF_OUTER_BOARD) / (CLIFF_INNER_BOARD - CLIFF_OUTER_BOARD);
        share = share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
        double factor = CLIFF_OUTER + share * (CLIFF_INNER - CLIFF_OUTER);
        for (int j = 0; j < OIL_STATIONS; j++)
            to->units[j][b] *= factor;
    }
}

void lane_films_begin(LaneFilms *films, const Oil *sheet, const Bowler *bowler, int games,
                      int bowlers)
{
    films->games = games < 1 ? 1 : games > BLOCK_GAMES_MAX ? BLOCK_GAMES_MAX : games;
    films->bowlers = bowlers < 1 ? 1 : bowlers > BLOCK_BOWLERS_MAX ? BLOCK_BOWLERS_MAX : bowlers;
    films->bowler = *bowler;
    films->done = 0;
    films->game[0] = films->work[0] = films->work[1] = *sheet;
    films->state[LANE_FRESH] = *sheet;
    stretch(sheet, LENGTH_FT, &films->state[LANE_LONG]);
    stretch(sheet, -LENGTH_FT, &films->state[LANE_SHORT]);
    cliff(sheet, &films->state[LANE_CLIFFED]);
}

bool lane_films_step(LaneFilms *films)
{
    int game = films->done, half = (films->games + 1) / 2;
    if (game >= films->games)
        return true;
    films->done++;
    films->game[game + 1] = films->game[game];
    wear_game(&films->game[game + 1], films, game, COVER_SOLID, (WearRate){1.0, 1.0});
    wear_game(&films->work[0], films, game, COVER_SOLID, (WearRate){FAST_WEAR, 1.0});
    if (game < half)
        carry_game(&films->work[1], films, game);
    if (films->done < films->games)
        return false;
    films->state[LANE_TRANSITION] = films->game[half];
    films->state[LANE_BURNT] = films->work[0];
    films->state[LANE_CARRIED] = films->work[1];
    return true;
}
