/* cmd.c - what the commands share. */
#include "cli/cmd.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "base/text.h"
#include "store/files.h"

int cmd_fault(int status, const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    fprintf(stderr, "settee: %s\n", line);
    return status;
}

int cmd_say(int status, const char *format, ...)
{
    char text[ERROR_TEXT_MAX];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    Error error = {0};
    error_set(&error, "%s", text);
    return cmd_fault(status, &error);
}

void cmd_today(char *out, size_t size)
{
    time_t now = time(NULL);
    struct tm day;
    if (!localtime_r(&now, &day) || strftime(out, size, "%Y-%m-%d", &day) == 0)
        out[0] = '\0';
}

int cmd_json(JsonOut *out)
{
    const char *text = json_out_text(out);
    int status = CMD_DONE;
    if (text)
        puts(text);
    else
        status = cmd_say(CMD_FAULT, "out of memory");
    json_out_free(out);
    return status;
}

/* Changes the bowler's usual release as the options say. */
static void change_release(const Options *options, Bowler *bowler)
{
    const struct {
        double said, *usual;
    } changes[] = {{options->mph, &bowler->mph},
                   {options->rpm, &bowler->rpm},
                   {options->rotation_deg, &bowler->rotation_deg},
                   {options->tilt_deg, &bowler->tilt_deg},
                   {options->loft_ft, &bowler->loft_ft}};
    for (size_t i = 0; i < sizeof changes / sizeof *changes; i++)
        if (!isnan(changes[i].said))
            *changes[i].usual = changes[i].said;
}

int setup_read(const Options *options, Setup *setup)
{
    const char *names[] = {options->pattern, options->bag, options->shots};
    int piped = 0;
    for (int i = 0; i < 3; i++)
        piped += names[i] && strcmp(names[i], "-") == 0;
    if (piped > 1)
        return cmd_say(CMD_USAGE, "only one file can be -, standard input is read once");
    Error error = {0};
    if (!files_pattern(options->pattern ? options->pattern : CMD_PATTERN_DEFAULT, &setup->pattern,
                       &error) ||
        !files_bag(options->bag ? options->bag : CMD_BAG_DEFAULT, &setup->bag, &error))
        return cmd_fault(CMD_FAULT, &error);
    change_release(options, &setup->bag.bowler);
    oil_lay(&setup->pattern, &setup->sheet);
    oil_for_hand(&setup->sheet, setup->bag.bowler.hand, &setup->oil);
    return CMD_DONE;
}

const Ball *setup_ball(const Options *options, const Setup *setup, Error *error)
{
    const Bag *bag = &setup->bag;
    if (options->ball) {
        const Ball *ball = bag_find(bag, options->ball);
        if (ball)
            return ball;
        const char *ids[BAG_BALLS_MAX + 1];
        for (int i = 0; i < bag->count; i++)
            ids[i] = bag->balls[i].id;
        ids[bag->count] = NULL;
        const char *near = text_nearest(options->ball, ids);
        if (near)
            error_set(error, "no ball '%.40s' in the bag; did you mean '%s'?", options->ball, near);
        else
            error_set(error, "no ball '%.40s' in the bag; its first is '%s'", options->ball,
                      ids[0]);
        return NULL;
    }
    if (options->slot) {
        const Ball *ball = bag_slot(bag, options->slot);
        if (!ball)
            error_set(error, "slot %d of the bag is empty", options->slot);
        return ball;
    }
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        if (bag_slot(bag, slot))
            return bag_slot(bag, slot);
    error_set(error, "no ball is in a slot; name one with --ball");
    return NULL;
}

Line setup_line(const Setup *setup, const MotionBody *body, double laydown_board)
{
    const Bowler *bowler = &setup->bag.bowler;
    Delivery usual = delivery_of(bowler, 20.0, 10.0); /* its line is ignored */
    if (!isnan(laydown_board))
        return line_search(body, &setup->oil, bowler, &usual, laydown_board, 0.0);
    return line_best(body, &setup->oil, bowler, &usual, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
}

void print_wrapped(const char *text, int indent) { print_entry("", text, indent); }

void print_entry(const char *label, const char *text, int indent)
{
    enum { WIDTH = 78 };
    int column = 0;
    while (*text) {
        size_t bytes = strcspn(text, " ");
        int characters = 0;
        for (const char *next = text; next < text + bytes; characters++)
            text_next(&next);
        if (column > 0 && column + 1 + characters > WIDTH) {
            putchar('\n');
            column = 0;
        }
        if (column == 0)
            column = printf("%-*s", indent, label);
        else
            column += printf(" ");
        label = "";
        fwrite(text, 1, bytes, stdout);
        column += characters;
        text += bytes;
        text += strspn(text, " ");
    }
    putchar('\n');
}

void print_cell(const char *text, int width)
{
    int length = 0;
    for (const char *next = text; length < width; length++) {
        const char *start = next;
        if (!text_next(&next))
            break;
        fwrite(start, 1, (size_t)(next - start), stdout);
    }
    printf("%*s", width - length, "");
}

void print_ball(const Ball *ball)
{
    char surface[32];
    ball_surface_words(&ball->surface, surface, sizeof surface);
    if (ball->slot)
        printf("%s (slot %d, %s)", ball->name, ball->slot, surface);
    else
        printf("%s (locker, %s)", ball->name, surface);
}

void print_release(const Bowler *bowler)
{
    printf("%g mph, %g rpm, rotation %g, tilt %g, loft %g ft", bowler->mph, bowler->rpm,
           bowler->rotation_deg, bowler->tilt_deg, bowler->loft_ft);
}

void print_number(double value, int width, int decimals)
{
    if (isnan(value))
        printf("%*s", width, "-");
    else
        printf("%*.*f", width, decimals, value);
}

void print_breakpoint(const Line *line, int width)
{
    if (motion_breaks(line->breakpoint_ft))
        printf("%*.1f @ %2.0f", width - 5, line->breakpoint_board, line->breakpoint_ft);
    else
        printf("%*s     ", width - 5, "-");
}

void print_breakpoint_line(double board, double ft)
{
    if (motion_breaks(ft))
        printf("Breakpoint  board %.1f at %.0f ft\n", board, ft);
    else
        puts("Breakpoint  none: it goes inside from the hand on");
}

void json_slot(JsonOut *out, const Ball *ball)
{
    if (ball->slot)
        json_out_integer(out, "slot", ball->slot);
    else
        json_out_null(out, "slot");
}

void json_stand(JsonOut *out, double stance, double aim, double laydown)
{
    json_out_rounded(out, "stance", stance, 2);
    json_out_rounded(out, "aim", aim, 2);
    json_out_rounded(out, "laydown", laydown, 2);
}

void json_motion(JsonOut *out, const Line *line)
{
    json_out_rounded(out, "first_move_ft", line->first_move_ft, 2);
    json_out_rounded(out, "hook_ft", line->hook_ft, 2);
    json_breakpoint(out, line->breakpoint_board, line->breakpoint_ft);
    json_entry(out, line->entry_board, line->entry_deg, NAN);
}

void json_pocket(JsonOut *out, const Line *line)
{
    json_out_rounded(out, "pocket", line->pocket, 4);
    json_out_rounded(out, "room_in", line->margin_in, 2);
    json_out_rounded(out, "room_out", line->margin_out, 2);
}

void json_pins(JsonOut *out, const char *key, Pins pins)
{
    json_out_array(out, key);
    for (int pin = 1; pin <= 10; pin++)
        if (pins & pin_bit(pin))
            json_out_integer(out, NULL, pin);
    json_out_end(out);
}

void json_entry(JsonOut *out, double board, double degrees, double mph)
{
    if (isnan(board)) {
        json_out_null(out, "entry");
        return;
    }
    json_out_object(out, "entry");
    json_out_rounded(out, "board", board, 3);
    json_out_rounded(out, "degrees", degrees, 3);
    if (!isnan(mph))
        json_out_rounded(out, "mph", mph, 3);
    json_out_end(out);
}

void json_breakpoint(JsonOut *out, double board, double ft)
{
    bool breaks = motion_breaks(ft);
    json_out_object(out, "breakpoint");
    json_out_rounded(out, "board", breaks ? board : NAN, 3);
    json_out_rounded(out, "ft", breaks ? ft : NAN, 2);
    json_out_end(out);
}
