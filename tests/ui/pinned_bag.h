/* pinned_bag.h - an arsenal and a block as the Bag and Block screens are shown them: made up, so
 * that the pictures do not change with the engine. */
#ifndef SETTEE_TESTS_UI_PINNED_BAG_H
#define SETTEE_TESTS_UI_PINNED_BAG_H

#include "ui/pinned.h"

static inline Line pinned_bag_line(int i, int game)
{
    return (Line){.found = true,
                  .laydown_board = 18.0 + game - i,
                  .stance = 24.0 + game - i,
                  .aim = 12.0 + 0.5 * game - 0.5 * i,
                  .entry_board = 17.5,
                  .entry_deg = 3.6 + 0.5 * i,
                  .hook_ft = 38.0 + 3.5 * i,
                  .breakpoint_board = 7.0 - 0.3 * i,
                  .breakpoint_ft = 38.0 + i,
                  .pocket = 0.70 - 0.02 * i + 0.01 * game,
                  .margin_in = 0.6,
                  .margin_out = 0.5};
}

static inline void pinned_arsenal(Arsenal *arsenal, const Bag *bag)
{
    memset(arsenal, 0, sizeof *arsenal);
    *arsenal = (Arsenal){.games = 3, .bowlers = 4, .steps = 10, .steps_all = 10, .done = true};
    lane_state_weights(3, arsenal->weight);
    for (int i = 0; i < bag->count; i++) {
        arsenal->ball[i].strength.score = 12.0 - 0.4 * i + (i == 2 ? 0.3 : 0.0);
        arsenal->ball[i].at[0] = (Showing){.ready = true,
                                           .found = i != 4,
                                           .value = 0.6,
                                           .line = pinned_bag_line(i, 0),
                                           .crossed_boards = 10.5 + i,
                                           .flare_in = 5.0 - 0.5 * i};
        for (int k = 0; k < SURFACES; k++)
            arsenal->ball[i].surface[k] = (SurfaceShow){.ready = true,
                                                        .hook_ft = 37.0 + 3.0 * i + 0.4 * k,
                                                        .entry_deg = 4.0,
                                                        .pocket = 0.8 - 0.03 * k};
    }
    arsenal->overlap_count = 3;
    arsenal->overlap[0] = (Overlap){0, 1, 0.93, 3.5, 0.5};
    arsenal->overlap[1] = (Overlap){1, 2, 0.41, -3.5, 0.5};
    arsenal->overlap[2] = (Overlap){0, 3, 0.04, 10.5, 1.5};
    for (int s = 0; s < LANE_STATE_COUNT; s++)
        arsenal->gap[s] = (Gap){.state = (LaneState)s,
                                .best = 0.62,
                                .ball = s % 4,
                                .locker = 0.63,
                                .locker_ball = 2,
                                .ideal = s == LANE_CLIFFED ? 0.75 : 0.64,
                                .ideal_ball = s == LANE_CLIFFED ? 7 : -1,
                                .open = s == LANE_CLIFFED};
    arsenal->advice_count = 1;
    arsenal->advice[0] = (SurfaceAdvice){
        .ball = 1, .surface = 4, .other = 0, .before = 0.93, .after = 0.35, .value_gain = 0.004};
    arsenal->bag = (Set){.count = 3, .value = 0.655};
    arsenal->bag.place[0] = (SetBall){.ball = 0,
                                      .surface = -1,
                                      .lead = 0,
                                      .game_from = 1,
                                      .game_to = 2,
                                      .stand_in = 3,
                                      .loss = 0.012,
                                      .job = "first out on fresh oil; moves first"};
    arsenal->bag.place[1] = (SetBall){.ball = 1,
                                      .surface = -1,
                                      .lead = -1,
                                      .stand_in = 3,
                                      .loss = -0.002,
                                      .job = "in reserve: adds little, nearest to Ash Rail"};
    arsenal->bag.place[2] = (SetBall){.ball = 2,
                                      .surface = -1,
                                      .lead = 2,
                                      .game_from = 3,
                                      .game_to = 3,
                                      .stand_in = -1,
                                      .job = "the end of the block, oil gone; moves last"};
    arsenal->picked = arsenal->bag;
}

static inline void pinned_block(Block *block)
{
    memset(block, 0, sizeof *block);
    *block = (Block){.games = 3, .bowlers = 4, .steps = 9, .steps_all = 9, .done = true};
    for (int pace = 0; pace < PACE_COUNT; pace++)
        for (int lane = 0; lane < SIDE_COUNT; lane++)
            for (int game = 0; game < 3; game++)
                block->game[pace][lane][game] =
                    (BlockGame){.ready = true,
                                .slot = game < 2            ? 1
                                        : lane == SIDE_LEFT ? 3
                                                            : 1,
                                .line = pinned_bag_line(0, game + (pace == PACE_FAST) + lane),
                                .value = 0.6,
                                .later_board = 18.4,
                                .later_move_ft = 17.5};
}

/* What the jobs answer to what was asked last. */
static inline void pinned_show_arsenal(Pinned *pinned, Arsenal *arsenal)
{
    pinned_arsenal(arsenal, &pinned->session.bag);
    arsenal->revision = model_arsenal_input(&pinned->model).revision;
    update(&pinned->model, (Msg){.kind = MSG_ARSENAL, .arsenal = arsenal});
}

static inline void pinned_show_block(Pinned *pinned, Block *block)
{
    pinned_block(block);
    block->revision = model_block_input(&pinned->model).revision;
    update(&pinned->model, (Msg){.kind = MSG_BLOCK, .block = block});
}

#endif
