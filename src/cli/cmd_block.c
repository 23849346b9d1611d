/* cmd_block.c - settee block: the games ahead, which ball and line for each on each lane. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/arsenal/block.h"

enum { GAMES_USUAL = 6, BOWLERS_USUAL = 4 };

static void print_game(const Block *block, const Bag *bag, int game, Side lane)
{
    const BlockGame *plan = &block->game[PACE_USUAL][lane][game];
    BlockSpread spread = block_spread(block, lane, game);
    const Ball *ball = bag_slot(bag, plan->slot);
    if (lane == SIDE_LEFT)
        printf("%4d  %-6s", game + 1, SIDE_NAMES[lane]);
    else
        printf("      %-6s", SIDE_NAMES[lane]);
    if (!ball) {
        puts("no ball of the bag finds the pocket");
        return;
    }
    printf("%d ", plan->slot);
    print_cell(ball->name, 16);
    printf("%6.1f%6.1f", lane_half_board(plan->line.stance), lane_half_board(plan->line.aim));
    print_breakpoint(&plan->line, 12);
    printf("%6.0f %%", 100.0 * plan->line.pocket);
    printf("  %4.1f-%-4.1f", lane_half_board(spread.stance_low),
           lane_half_board(spread.stance_high));
    for (int i = 0; i < PACE_COUNT && spread.slots > 1; i++)
        printf("%s%d", i ? "," : "  ", spread.slot[i]);
    putchar('\n');
}

static void print_picture(const Block *block)
{
    enum { HIGH = 39 };
    puts("\nWhere the ball is laid down, by game: the slot's number at its board, left lane");
    printf("board   ");
    for (int board = HIGH; board >= 1; board--)
        if (board % 5 == 0)
            printf("%2d", board);
        else if (board % 5 != 4)
            putchar(' ');
    putchar('\n');
    for (int game = 0; game < block->games; game++) {
        const BlockGame *plan = &block->game[PACE_USUAL][SIDE_LEFT][game];
        char row[HIGH + 2];
        memset(row, '.', HIGH);
        row[HIGH] = '\0';
        int at = HIGH - (int)lround(plan->line.laydown_board);
        if (plan->slot > 0 && at >= 0 && at < HIGH)
            row[at] = (char)('0' + plan->slot);
        printf("game %2d %s\n", game + 1, row);
    }
}

static void print_block(const Block *block, const Setup *setup)
{
    const Bowler *bowler = &setup->bag.bowler;
    printf("%s on %s, %g ft: %d game%s, %d bowler%s on the pair\n%s hand: ", bowler->name,
           setup->pattern.name, setup->pattern.length_ft, block->games,
           block->games == 1 ? "" : "s", block->bowlers, block->bowlers == 1 ? "" : "s",
           HAND_NAMES[bowler->hand]);
    print_release(bowler);
    puts("\n\n                                           break-    pocket  feet, if wear is");
    puts("game  lane  ball               stance   aim   point    chance  slow to fast");
    for (int game = 0; game < block->games; game++)
        for (int lane = 0; lane < SIDE_COUNT; lane++)
            print_game(block, &setup->bag, game, (Side)lane);
    puts("Behind the feet: the slots if wear is slow, usual, fast, where they differ.");
    print_picture(block);
    puts("\nWhat to watch for, left lane");
    for (int game = 0; game < block->games; game++) {
        char text[300], line[320] = "";
        block_watch(block, &setup->bag, SIDE_LEFT, game, text, sizeof text);
        text_append(line, sizeof line, "Game %d. %s", game + 1, text);
        print_wrapped(line, 0);
    }
    putchar('\n');
    print_wrapped("A forecast from the sheet: nobody has seen the lane yet. The others on the pair "
                  "are assumed to be a usual mix.",
                  0);
}

static void game_json(JsonOut *out, const Block *block, const Bag *bag, int game, Side lane)
{
    const BlockGame *plan = &block->game[PACE_USUAL][lane][game];
    BlockSpread spread = block_spread(block, lane, game);
    const Ball *ball = bag_slot(bag, plan->slot);
    json_out_object(out, NULL);
    json_out_string(out, "lane", SIDE_NAMES[lane]);
    if (ball) {
        json_out_integer(out, "slot", plan->slot);
        json_out_string(out, "ball", ball->id);
        json_stand(out, lane_half_board(plan->line.stance), lane_half_board(plan->line.aim),
                   plan->line.laydown_board);
        json_motion(out, &plan->line);
        json_out_rounded(out, "pocket", plan->line.pocket, 4);
        json_out_rounded(out, "board_at_end", plan->later_board, 2);
        json_out_rounded(out, "first_move_at_end_ft", plan->later_move_ft, 2);
        json_out_rounded(out, "hook_at_end_ft", plan->later_hook_ft, 2);
        json_out_rounded(out, "stance_low", lane_half_board(spread.stance_low), 2);
        json_out_rounded(out, "stance_high", lane_half_board(spread.stance_high), 2);
    } else {
        json_out_null(out, "slot");
    }
    json_out_array(out, "slots"); /* slow, usual, fast */
    for (int pace = 0; pace < PACE_COUNT; pace++)
        json_out_integer(out, NULL, spread.slot[pace]);
    json_out_end(out);
    json_out_end(out);
}

static int block_json(const Block *block, const Bag *bag)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_integer(&out, "bowlers", block->bowlers);
    json_out_array(&out, "games");
    for (int game = 0; game < block->games; game++) {
        char text[300];
        json_out_object(&out, NULL);
        json_out_integer(&out, "game", game + 1);
        json_out_rounded(&out, "volume_ml", block->volume_ml[PACE_USUAL][game], 2);
        json_out_array(&out, "lanes");
        for (int lane = 0; lane < SIDE_COUNT; lane++)
            game_json(&out, block, bag, game, (Side)lane);
        json_out_end(&out);
        block_watch(block, bag, SIDE_LEFT, game, text, sizeof text);
        json_out_string(&out, "watch", text);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_end(&out);
    return cmd_json(&out);
}

int cmd_block(const Options *options)
{
    Setup setup;
    int status = setup_read(options, &setup);
    if (status != CMD_DONE)
        return status;
    Error error = {0};
    if (!setup_ball(options, &setup, &error)) /* no slot is filled */
        return cmd_fault(CMD_FAULT, &error);
    BlockJob *job = block_job_new();
    if (!job)
        return cmd_say(CMD_FAULT, "out of memory");
    BlockInput input = {.bag = &setup.bag,
                        .pattern = &setup.pattern,
                        .games = options->games ? options->games : GAMES_USUAL,
                        .bowlers = options->bowlers ? options->bowlers : BOWLERS_USUAL};
    block_begin(job, &input);
    while (!block_step(job))
        ;
    if (options->json)
        status = block_json(block_result(job), &setup.bag);
    else
        print_block(block_result(job), &setup);
    block_job_free(job);
    return status;
}
