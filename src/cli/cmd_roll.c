/* cmd_roll.c - settee roll: one ball, one line, from the hand to the pins. */
#include <math.h>
#include <stdio.h>

#include "base/units.h"
#include "cli/cmd.h"
#include "core/event/shot.h"
#include "core/motion/motion.h"

/* The delivery that the options ask for: a stance and aim, a laydown and launch, or, when neither
 * was said, the ball's own way to the pocket. CMD_DONE, or the status after a fault was printed. */
static int delivery_read(const Options *options, const Setup *setup, const MotionBody *body,
                         Delivery *delivery)
{
    bool stance = !isnan(options->stance), aim = !isnan(options->aim);
    bool laydown = !isnan(options->laydown), launch = !isnan(options->launch_deg);
    const Bowler *bowler = &setup->bag.bowler;
    if ((stance || aim) && (laydown || launch))
        return cmd_say(CMD_USAGE, "say --stance and --aim, or --laydown and --launch, not both");
    if (stance != aim)
        return cmd_say(CMD_USAGE, stance ? "--stance needs --aim" : "--aim needs --stance");
    if (launch && !laydown)
        return cmd_say(CMD_USAGE, "--launch needs --laydown");
    *delivery = delivery_of(bowler, stance ? options->stance : 20.0, aim ? options->aim : 10.0);
    if (stance) {
        if (delivery->laydown_board < 1.0 || delivery->laydown_board > LANE_BOARDS)
            return cmd_say(CMD_USAGE,
                           "--stance: from %g this bowler lays the ball on board %.1f, off the "
                           "lane; %g to %g are on it",
                           options->stance, delivery->laydown_board, delivery_stance(bowler, 1.0),
                           delivery_stance(bowler, LANE_BOARDS));
        return CMD_DONE;
    }
    if (launch) {
        delivery->laydown_board = options->laydown;
        delivery->launch_deg = options->launch_deg;
        return CMD_DONE;
    }
    Line line = setup_line(setup, body, options->laydown);
    if (!line.found)
        return cmd_say(CMD_FAULT, "no launch brings this ball to the pocket; say --laydown and "
                                  "--launch, or --stance and --aim");
    delivery->laydown_board = line.laydown_board;
    delivery->launch_deg = line.launch_deg;
    return CMD_DONE;
}

/* What the hit does by the rack's table; null in the gutter. */
static void roll_rack_json(JsonOut *out, const Roll *roll, double pounds, Hand hand)
{
    if (roll->gutter) {
        json_out_null(out, "rack");
        return;
    }
    RackChances chances;
    rack_chances(roll->entry_board, roll->entry_deg, roll->entry_mph, pounds, &chances);
    json_out_object(out, "rack");
    json_rack(out, &chances, hand);
    json_out_end(out);
}

static int roll_json(const Roll *roll, double pounds, Hand hand)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "path");
    for (int i = 0; i < roll->count; i++) {
        const PathPoint *point = &roll->path[i];
        json_out_object(&out, NULL);
        json_out_rounded(&out, "ft", point->ft, 3);
        json_out_rounded(&out, "board", point->board, 4);
        json_out_rounded(&out, "degrees", point->degrees, 4);
        json_out_rounded(&out, "mph", point->mph, 4);
        json_out_rounded(&out, "rpm", point->rpm, 3);
        json_out_rounded(&out, "slip_mps", point->slip_mps, 5);
        json_out_rounded(&out, "mu", point->mu, 5);
        json_out_rounded(&out, "units", point->units, 3);
        json_out_string(&out, "phase", PHASE_NAMES[point->phase]);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_rounded(&out, "first_move_ft", roll->first_move_ft, 3);
    json_out_rounded(&out, "hook_ft", roll->hook_ft, 3);
    json_breakpoint(&out, roll->breakpoint_board, roll->breakpoint_ft);
    json_out_rounded(&out, "roll_ft", roll->roll_ft, 3);
    json_entry(&out, roll->entry_board, roll->entry_deg, roll->entry_mph);
    json_out_rounded(&out, "flare_in", roll->flare_in, 3);
    json_out_rounded(&out, "revs", roll->revs, 3);
    json_out_rounded(&out, "seconds", roll->seconds, 4);
    roll_rack_json(&out, roll, pounds, hand);
    json_out_end(&out);
    return cmd_json(&out);
}

static void print_path(const Roll *roll)
{
    enum { EVERY = 10 }; /* half-feet: a row each 5 ft */
    puts("  feet  board  heading    mph    rpm   slip  friction    oil  phase");
    puts("                   deg                  mph            units");
    for (int i = 0; i < roll->count; i++) {
        const PathPoint *point = &roll->path[i];
        if (i % EVERY != 0 && i != roll->count - 1)
            continue;
        printf("%6.1f %6.1f %8.1f %6.1f %6.0f %6.1f %9.3f %6.1f  %s\n", point->ft, point->board,
               fabs(point->degrees) < 0.05 ? 0.0 : point->degrees, point->mph, point->rpm,
               mph_from_mps(point->slip_mps), point->mu, point->units, PHASE_NAMES[point->phase]);
    }
}

/* What does not reach the pins and goes no faster did not leave the lane. */
#define STOPPED_MPH 2.0

static void print_end(const Roll *roll, double pounds)
{
    if (isnan(roll->first_move_ft))
        puts("First move  none: it never turns by a degree");
    else
        printf("First move  %.0f ft\n", roll->first_move_ft);
    if (isnan(roll->hook_ft))
        puts("Hooks       not before the pins");
    else
        printf("Hooks       at %.0f ft: half its turn is done\n", roll->hook_ft);
    if (!roll->gutter)
        print_breakpoint_line(roll->breakpoint_board, roll->breakpoint_ft);
    if (isnan(roll->roll_ft))
        puts("Rolls       not before the pins");
    else
        printf("Rolls       from %.0f ft\n", roll->roll_ft);
    if (roll->gutter)
        printf("Pins        none: %s at %.0f ft\n",
               roll->path[roll->count - 1].mph < STOPPED_MPH ? "it stops" : "in the gutter",
               roll->path[roll->count - 1].ft);
    else
        printf("Pins        board %.1f (%s), entry %.1f deg, %.1f mph\n", roll->entry_board,
               HIT_NAMES[shot_hit_of_board(roll->entry_board)], roll->entry_deg, roll->entry_mph);
    if (!roll->gutter)
        printf("Worth       %.0f %% strikes, %.1f pins on the mean\n",
               100.0 * rack_strike(roll->entry_board, roll->entry_deg, roll->entry_mph, pounds),
               rack_pinfall(roll->entry_board, roll->entry_deg, roll->entry_mph, pounds));
    printf("Flare       %.1f in over %.1f turns, %.2f s\n", roll->flare_in, roll->revs,
           roll->seconds);
}

int cmd_roll(const Options *options)
{
    Setup setup;
    int status = setup_read(options, &setup);
    if (status != CMD_DONE)
        return status;
    Error error = {0};
    const Ball *ball = setup_ball(options, &setup, &error);
    if (!ball)
        return cmd_fault(CMD_FAULT, &error);
    MotionBody body;
    motion_body(ball, &body);
    Delivery delivery;
    status = delivery_read(options, &setup, &body, &delivery);
    if (status != CMD_DONE)
        return status;
    Roll roll;
    motion_roll(&body, &setup.oil, &delivery, &roll);
    if (options->json)
        return roll_json(&roll, ball->pounds, setup.bag.bowler.hand);

    const Bowler *bowler = &setup.bag.bowler;
    print_ball(ball);
    printf(" on %s, %g ft\n", setup.pattern.name, setup.pattern.length_ft);
    printf("%s, %s hand: ", bowler->name, HAND_NAMES[bowler->hand]);
    print_release(bowler);
    printf("\nStance %.1f, aim %.1f at the arrows (laydown %.1f, launch %.1f deg)\n\n",
           delivery_stance(bowler, delivery.laydown_board),
           delivery_aim_board(delivery.laydown_board, delivery.launch_deg), delivery.laydown_board,
           delivery.launch_deg);
    print_path(&roll);
    putchar('\n');
    print_end(&roll, ball->pounds);
    return CMD_DONE;
}
