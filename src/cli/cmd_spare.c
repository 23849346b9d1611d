/* cmd_spare.c - settee spare: how to pick up what the first ball left. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/spare/spare.h"

/* Pins as plain words, 3 6 10 or 3-6-10 or 3,6,10; 0 is the ten pin too. */
static bool pins_read(const Options *options, Pins *pins, Error *error)
{
    *pins = 0;
    for (int i = 0; i < options->word_count; i++) {
        const char *at = options->words[i];
        do {
            if ((*at == '-' || *at == ',') && at != options->words[i])
                at++;
            size_t digits = strspn(at, "0123456789");
            int pin = digits == 1                                   ? at[0] - '0'
                      : digits == 2 && at[0] == '1' && at[1] == '0' ? 10
                                                                    : -1;
            at += digits;
            if (pin < 0 || (*at && *at != '-' && *at != ','))
                return error_set(error,
                                 "found '%.40s'; allowed are pins 1 to 10 (0 is the ten "
                                 "pin too)",
                                 options->words[i]);
            Pins bit = pin_bit(pin == 0 ? 10 : pin);
            if (*pins & bit)
                return error_set(error, "found pin %d twice", pin == 0 ? 10 : pin);
            *pins |= bit;
        } while (*at);
    }
    if (*pins == 0)
        return error_set(error, "which pins stand? settee spare 3 6 10");
    return true;
}

/* "96 %", never 0 or 100: a forecast is not that sure. */
static void chance_words(double chance, char *out, size_t size)
{
    text_copy(out, size, "");
    if (chance < 0.02)
        text_append(out, size, "under 2 %%");
    else
        text_append(out, size, "%.0f %%", 100.0 * fmin(chance, 0.99));
}

static void line_json(JsonOut *out, const SpareLine *line)
{
    json_out_string(out, "ball", line->ball->id);
    json_slot(out, line->ball);
    json_stand(out, line->stance, line->aim, line->delivery.laydown_board);
    json_out_rounded(out, "launch_deg", line->delivery.launch_deg, 3);
    json_entry(out, line->board, line->degrees, line->mph);
    json_out_rounded(out, "board_at_pin", line->across, 2);
    json_out_object(out, "window");
    json_out_rounded(out, "low", line->window_low, 2);
    json_out_rounded(out, "high", line->window_high, 2);
    json_out_end(out);
    json_out_rounded(out, "chance", line->chance, 4);
    json_out_rounded(out, "pinfall", line->falls, 3);
    if (line->pin) {
        json_out_object(out, "hits");
        json_out_integer(out, "pin", line->pin);
        json_out_string(out, "side", SPARE_SIDE_NAMES[line->side]);
        json_out_end(out);
    } else {
        json_out_null(out, "hits");
    }
}

static void move_json(JsonOut *out, const SpareMove *move)
{
    if (!move->known) {
        json_out_null(out, "move_369");
        return;
    }
    json_out_object(out, "move_369");
    json_out_rounded(out, "boards", move->boards, 1);
    json_out_rounded(out, "stance", move->stance, 2);
    json_out_rounded(out, "aim", move->aim, 2);
    json_out_rounded(out, "laydown_boards", move->laydown, 2);
    json_out_rounded(out, "chance", move->chance, 4);
    if (move->computed_found) {
        json_out_rounded(out, "computed_boards", move->computed, 2);
        json_out_rounded(out, "computed_laydown_boards", move->computed_laydown, 2);
        json_out_rounded(out, "computed_chance", move->computed_chance, 4);
    } else {
        json_out_null(out, "computed_boards");
    }
    json_out_end(out);
}

static int spare_json(const Spare *spare)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_pins(&out, "pins", spare->left);
    json_out_bool(&out, "split", spare->split);
    line_json(&out, &spare->line);
    json_out_bool(&out, "strike_ball", spare->strike_ball);
    json_out_rounded(&out, "straight_chance", spare->straight_chance, 4);
    if (spare->take) {
        json_out_object(&out, "sure");
        line_json(&out, &spare->sure);
        json_out_end(&out);
    } else {
        json_out_null(&out, "sure");
    }
    move_json(&out, &spare->move);
    json_out_string(&out, "tells", spare->tells);
    json_out_string(&out, "words", spare->words);
    json_out_string(&out, "target", spare->system);
    json_out_end(&out);
    return cmd_json(&out);
}

static void print_throw(const SpareLine *line)
{
    fputs("Ball        ", stdout);
    print_ball(line->ball);
    printf("\nStance      %g\n", line->stance);
    printf("Aim         %g at the arrows\n", line->aim);
    if (line->pin == 0)
        return;
    if (line->side == SPARE_FULL)
        printf("Hit         the %d, full\n", line->pin);
    else
        printf("Hit         the %d, on its %s side\n", line->pin, SPARE_SIDE_NAMES[line->side]);
    printf("Window      boards %.1f to %.1f at the pins, %.1f thrown as planned\n",
           line->window_low, line->window_high, line->across);
}

static void print_move(const Spare *spare)
{
    const SpareMove *move = &spare->move;
    char chance[24];
    if (!move->known)
        return;
    chance_words(move->chance, chance, sizeof chance);
    if (move->boards == 0.0)
        printf("3-6-9       the strike line as it is, the strike ball: %s\n", chance);
    else
        printf("3-6-9       the strike ball, feet %g %s to %.1f, aim %.1f: %s\n",
               fabs(move->boards), move->boards > 0.0 ? "in" : "out", move->stance, move->aim,
               chance);
    if (move->computed_found) {
        chance_words(move->computed_chance, chance, sizeof chance);
        printf("            by the model %.0f %s for that ball and aim: %s\n", fabs(move->computed),
               move->computed >= 0.0 ? "in" : "out", chance);
    } else {
        puts("            by the model nothing makes it with that ball and aim");
    }
}

static void print_spare(const Setup *setup, const Spare *spare)
{
    char pins[40] = "", chance[24];
    lane_pins_words(spare->left, "-", pins, sizeof pins);
    printf("%s%s on %s, %g ft\n%s, %s hand: ", pins, spare->split ? ", a split," : "",
           setup->pattern.name, setup->pattern.length_ft, setup->bag.bowler.name,
           HAND_NAMES[setup->bag.bowler.hand]);
    print_release(&setup->bag.bowler);
    putchar('\n');
    if (!spare->strike_ball) {
        Bowler straight = bowler_for_spares(&setup->bag.bowler);
        fputs("straight at a spare: ", stdout);
        print_release(&straight);
        putchar('\n');
    }
    putchar('\n');
    const SpareLine *line = spare->take ? &spare->sure : &spare->line;
    print_throw(line);
    printf("Target      %s\n", spare->system);
    chance_words(spare->line.chance, chance, sizeof chance);
    printf("Chance      %s to make it, %.1f pins of %d\n", chance, line->falls,
           lane_pin_count(spare->left));
    if (spare->take && spare->line.chance >= 0.02) {
        const SpareLine *all = &spare->line;
        char ball[64] = "";
        if (all->ball->slot)
            text_append(ball, sizeof ball, "ball %d", all->ball->slot);
        else
            text_copy(ball, sizeof ball, all->ball->name);
        printf("To make it  %s, stance %g, aim %g\n", ball, all->stance, all->aim);
    }
    if (!spare->take)
        print_move(spare);
    putchar('\n');
    if (spare->take || spare->strike_ball)
        print_wrapped(spare->words, 0);
    if (spare->tells[0]) {
        char text[160] = "";
        text_append(text, sizeof text, "The first ball: %s.", spare->tells);
        print_wrapped(text, 0);
    }
}

int cmd_spare(const Options *options)
{
    static Setup setup; /* large */
    Error error = {0};
    Pins pins;
    if (!pins_read(options, &pins, &error))
        return cmd_fault(CMD_USAGE, &error);
    int status = setup_read(options, &setup);
    if (status != CMD_DONE)
        return status;
    SpareInput input = {.bag = &setup.bag, .film = &setup.oil, .left = pins};
    if (options->ball) {
        input.ball = setup_ball(options, &setup, &error);
        if (!input.ball)
            return cmd_fault(CMD_FAULT, &error);
    }
    Options strike_only = *options;
    strike_only.ball = NULL;
    const Ball *strike = setup_ball(&strike_only, &setup, &error);
    if (!strike && (!input.ball || options->slot)) /* otherwise the named ball will do */
        return cmd_fault(CMD_FAULT, &error);
    input.slot = strike ? strike->slot : 0;
    input.stance = options->stance;
    input.aim = options->aim;
    if (isnan(options->stance) != isnan(options->aim))
        return cmd_say(CMD_USAGE, "the strike line is both --stance and --aim, or neither");
    if (!strike) {
        input.stance = input.aim = 0.0;
    } else if (isnan(options->aim)) {
        MotionBody body;
        motion_body(strike, &body);
        Line line = setup_line(&setup, &body, NAN);
        input.stance = line.found ? line.stance : 0.0;
        input.aim = line.found ? line.aim : 0.0;
    }
    Spare spare;
    spare_find(&input, &spare);
    if (!spare.found)
        return cmd_say(CMD_FAULT, "no ball is in a slot; name one with --ball");
    if (options->json)
        return spare_json(&spare);
    print_spare(&setup, &spare);
    return CMD_DONE;
}
