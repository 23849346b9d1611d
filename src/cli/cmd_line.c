/* cmd_line.c - settee line: where to stand and what to aim at for the pocket. */
#include <math.h>
#include <stdio.h>

#include "cli/cmd.h"
#include "core/motion/motion.h"

static Line line_for(const Options *options, const Setup *setup, const Ball *ball)
{
    MotionBody body;
    motion_body(ball, &body);
    return setup_line(setup, &body, options->laydown);
}

static void line_json(JsonOut *out, const Ball *ball, const Line *line)
{
    json_out_string(out, "ball", ball->id);
    json_slot(out, ball);
    json_out_bool(out, "found", line->found);
    if (!line->found)
        return;
    json_stand(out, line->stance, line->aim, line->laydown_board);
    json_out_rounded(out, "launch_deg", line->launch_deg, 3);
    json_motion(out, line);
    json_pocket(out, line);
}

static void print_where(const Setup *setup)
{
    const Bowler *bowler = &setup->bag.bowler;
    printf("to the pocket on %s, %g ft\n%s, %s hand: ", setup->pattern.name,
           setup->pattern.length_ft, bowler->name, HAND_NAMES[bowler->hand]);
    print_release(bowler);
    putchar('\n');
}

/* Widths of the table's columns are those of print_row. */
static void print_titles(void)
{
    static const char *const TITLES[2][10] = {
        {"", "", "", "", "hooks", "break-", "entry", "", "", "area"},
        {"slot", "ball", "stance", "aim", "at", "point", "deg", "pocket", "in", "out"}};
    for (int row = 0; row < 2; row++) {
        const char *const *t = TITLES[row];
        printf("%-5s%-16s%7s%6s%9s%11s%7s%8s%5s%5s\n", t[0], t[1], t[2], t[3], t[4], t[5], t[6],
               t[7], t[8], t[9]);
    }
}

static void print_row(const Ball *ball, const Line *line)
{
    printf("%3d  ", ball->slot);
    print_cell(ball->name, 16);
    if (!line->found) {
        puts("  no launch brings it to the pocket");
        return;
    }
    printf("%7.1f%6.1f", line->stance, line->aim);
    print_number(line->hook_ft, 6, 0);
    printf(" ft");
    print_breakpoint(line, 11);
    printf("%7.1f%6.0f %%%5.1f%5.1f\n", line->entry_deg, 100.0 * line->pocket, line->margin_in,
           line->margin_out);
}

/* One ball's line in full, a figure a line. */
static void print_line(const Setup *setup, const Ball *ball, const Line *line)
{
    print_ball(ball);
    putchar(' ');
    print_where(setup);
    printf("\nStance      %.1f\n", line->stance);
    printf("Aim         %.1f at the arrows\n", line->aim);
    printf("Laydown     %.1f, launch %.1f deg\n", line->laydown_board, line->launch_deg);
    if (isnan(line->hook_ft))
        puts("Hooks       not before the pins");
    else
        printf("Hooks       at %.0f ft\n", line->hook_ft);
    print_breakpoint_line(line->breakpoint_board, line->breakpoint_ft);
    printf("Pins        board %.1f, entry %.1f deg\n", line->entry_board, line->entry_deg);
    printf("Pocket      %.0f %% of shots\n", 100.0 * line->pocket);
    printf("Area        in %.1f, out %.1f boards at the arrows\n", line->margin_in,
           line->margin_out);
}

static int slots_json(const Setup *setup, const Line *lines)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "lines");
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&setup->bag, slot);
        if (!ball)
            continue;
        json_out_object(&out, NULL);
        line_json(&out, ball, &lines[slot - 1]);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_end(&out);
    return cmd_json(&out);
}

static int every_slot(const Options *options, const Setup *setup)
{
    Line lines[BAG_SLOTS];
    bool found = false;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&setup->bag, slot);
        lines[slot - 1] = ball ? line_for(options, setup, ball) : (Line){0};
        found = found || lines[slot - 1].found;
    }
    if (!found)
        return cmd_say(CMD_FAULT, "no ball in a slot reaches the pocket from there");
    if (options->json)
        return slots_json(setup, lines);
    printf("Every slot ");
    print_where(setup);
    putchar('\n');
    print_titles();
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        if (bag_slot(&setup->bag, slot))
            print_row(bag_slot(&setup->bag, slot), &lines[slot - 1]);
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
    print_line(&setup, ball, &line);
    return CMD_DONE;
}
