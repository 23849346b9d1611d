/* lane_states.c - a block's wear, and the lane states made from it. */
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

#define DOUBT_SHARE                                                                                \
    0.28              /* share of the weights for lanes that differ by more than wear; assumed     \
                       */
#define FAST_WEAR 1.4 /* against usual: belief.c's next rate up */
#define LENGTH_FT 3.0 /* longer and shorter than the sheet; assumed */
/* The cliff, all assumed: film outside the outer board, inside the inner one. */
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

void block_wear(Oil *oil, Others *others, const GameWear *wear, Side lane)
{
    others_seek(others, oil);
    for (int i = 0; i < block_deliveries(lane); i++) {
        Roll roll;
        if (wear->delivery)
            others_throw_own(others, oil, wear->bowler, wear->body, wear->cover, wear->delivery,
                             wear->rate, &roll);
        for (int who = 0; who < others->count; who++)
            others_throw(others, oil, who, wear->rate);
    }
}

/* A game in which this bowler throws a usual ball with that cover on its best line, since the bag
 * is not chosen yet. */
static void wear_game(Oil *oil, Others *others, const Bowler *bowler, int game, Cover cover,
                      WearRate rate)
{
    Ball ball = ball_default();
    MotionBody body;
    BatchBall batch;
    BatchOil ready;
    ball.cover = cover;
    motion_body(&ball, &body);
    batch_ball(&body, &batch);
    batch_oil(oil, BATCH_QUICK, &ready);
    Fit fit = fit_ball(&batch, &ready, bowler);
    Delivery delivery = delivery_of(bowler, delivery_stance(bowler, fit.laydown_board), fit.aim);
    GameWear wear = {bowler, &body, cover, &delivery, rate};
    block_wear(oil, others, &wear, game % 2 ? SIDE_RIGHT : SIDE_LEFT);
}

/* Stretches or shortens the film along the lane. */
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
                      int bowlers, const FieldMix *mix)
{
    films->games = games < 1 ? 1 : games > BLOCK_GAMES_MAX ? BLOCK_GAMES_MAX : games;
    films->bowlers = bowlers < 1 ? 1 : bowlers > BLOCK_BOWLERS_MAX ? BLOCK_BOWLERS_MAX : bowlers;
    films->bowler = *bowler;
    films->done = 0;
    FieldMix hard = {.urethane = films->bowlers - 1};
    for (int i = 0; i < 3; i++)
        others_begin(&films->others[i], i == 2 ? &hard : mix, films->bowlers - 1, bowler->hand, 1,
                     0);
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
    const Bowler *bowler = &films->bowler;
    WearRate usual = {1.0, 1.0}, fast = {FAST_WEAR, 1.0};
    wear_game(&films->game[game + 1], &films->others[0], bowler, game, COVER_SOLID, usual);
    wear_game(&films->work[0], &films->others[1], bowler, game, COVER_SOLID, fast);
    if (game < half)
        wear_game(&films->work[1], &films->others[2], bowler, game, COVER_URETHANE, usual);
    if (films->done < films->games)
        return false;
    films->state[LANE_TRANSITION] = films->game[half];
    films->state[LANE_BURNT] = films->work[0];
    films->state[LANE_CARRIED] = films->work[1];
    return true;
}
