/* cmd_line.c - settee line: where to stand and what to aim at for the pocket. */
#include <math.h>
#include <stdio.h>

#include "cli/cmd.h"
#include "core/motion.h"

static Line line_for(const Options *options, const Setup *setup, const Ball *ball)
{
    MotionBody body;
    motion_body(ball, &body);
    const Bowler *bowler = &setup->bag.bowler;
    Delivery usual = delivery_of(bowler, 20.0, 10.0); /* its line is not looked at */
    if (!isnan(options->laydown))
        return line_search(&body, &setup->oil, bowler, &usual, options->laydown);
    return line_best(&body, &setup->oil, bowler, &usual, CMD_LAYDOWN_LOW, CMD_LAYDOWN_HIGH);
}

static void line_json(JsonOut *out, const Ball *ball, const Line *line)
{
    json_out_string(out, "ball", ball->id);
    if (ball->slot)
        json_out_integer(out, "slot", ball->slot);
    else
        json_out_null(out, "slot");
    json_out_bool(out, "found", line->found);
    if (!line->found)
        return;
    json_out_rounded(out, "stance", line->stance, 2);
    json_out_rounded(out, "aim", line->aim, 2);
    json_out_rounded(out, "laydown", line->laydown_board, 2);
    json_out_rounded(out, "launch_deg", line->launch_deg, 3);
    json_out_rounded(out, "first_move_ft", line->first_move_ft, 2);
    json_breakpoint(out, line->breakpoint_board, line->breakpoint_ft);
    json_entry(out, line->entry_board, line->entry_deg, NAN);
    json_out_rounded(out, "pocket", line->pocket, 4);
    json_out_rounded(out, "room_in", line->room_in, 2);
    json_out_rounded(out, "room_out", line->room_out, 2);
}

static void print_head(const Setup *setup)
{
    const Bowler *bowler = &setup->bag.bowler;
    printf("To the pocket on %s, %g ft\n", setup->pattern.name, setup->pattern.length_ft);
    printf("%s, %s hand: ", bowler->name, HAND_NAMES[bowler->hand]);
    print_release(bowler);
    puts("\n\nslot  ball              stance    aim  laydown  launch   first  breakpoint  entry  "
         "pocket  miss room");
    puts("                                                 deg    move                deg    "
         "     in    out");
}

static void print_line(const Ball *ball, const Line *line)
{
    if (ball->slot)
        printf("%4d  ", ball->slot);
    else
        printf("   -  ");
    print_cell(ball->name, 16);
    if (!line->found) {
        puts("  no launch brings it to the pocket");
        return;
    }
    printf("  %6.1f %6.1f %8.1f %7.1f", line->stance, line->aim, line->laydown_board,
           line->launch_deg);
    print_number(line->first_move_ft, 5, 0);
    printf(" ft %5.1f @ %2.0f %7.1f %5.0f %% %5.1f %6.1f\n", line->breakpoint_board,
           line->breakpoint_ft, line->entry_deg, 100.0 * line->pocket, line->room_in,
           line->room_out);
}

static int every_slot(const Options *options, const Setup *setup)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "lines");
    if (!options->json)
        print_head(setup);
    int found = 0;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&setup->bag, slot);
        if (!ball)
            continue;
        Line line = line_for(options, setup, ball);
        found += line.found;
        json_out_object(&out, NULL);
        line_json(&out, ball, &line);
        json_out_end(&out);
        if (!options->json)
            print_line(ball, &line);
    }
    json_out_end(&out);
    json_out_end(&out);
    if (found == 0) {
        json_out_free(&out);
        return cmd_say(CMD_FAULT, "no ball in a slot comes to the pocket from there");
    }
    if (options->json)
        return cmd_json(&out);
    json_out_free(&out);
    return CMD_DONE;
}

int cmd_line(const Options *options)
{
    Setup setup;
    int status = setup_read(options, &setup);
    if (status != CMD_DONE)
        return status;
    if (!options->slot && !options->ball)
        return every_slot(options, &setup);
    Error error = {0};
    const Ball *ball = setup_ball(options, &setup, &error);
    if (!ball)
        return cmd_fault(CMD_FAULT, &error);
    Line line = line_for(options, &setup, ball);
    if (!line.found) {
        if (isnan(options->laydown))
            return cmd_say(CMD_FAULT, "no launch brings %s to the pocket", ball->name);
        return cmd_say(CMD_FAULT,
                       "no launch from board %g brings %s to the pocket; leave --laydown out to "
                       "try them all",
                       options->laydown, ball->name);
    }
    if (options->json) {
        JsonOut out = json_out_start();
        json_out_object(&out, NULL);
        line_json(&out, ball, &line);
        json_out_end(&out);
        return cmd_json(&out);
    }
    print_head(&setup);
    print_line(ball, &line);
    return CMD_DONE;
}
