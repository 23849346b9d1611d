/* cmd_rack.c - settee rack: what a hit does, from the table. */
#include <math.h>
#include <stdio.h>

#include "cli/cmd.h"
#include "core/event/shot.h"
#include "core/pins/rack.h"

/* The defaults: a common ball and its speed at the pins (assumed). */
static const double USUAL_MPH = 16.5, USUAL_POUNDS = 15.0;
/* Leaves rarer than this are left out of what is printed. */
static const double SHOWN = 0.0005;

void json_rack(JsonOut *out, const RackChances *chances, Hand hand)
{
    json_out_rounded(out, "strike", chances->strike, 4);
    json_out_rounded(out, "pinfall", chances->pinfall, 3);
    json_out_array(out, "leaves");
    for (int i = 0; i < chances->leave_count && chances->leave_chance[i] >= SHOWN; i++) {
        Pins pins = hand == HAND_LEFT ? lane_mirror_pins(chances->leave[i]) : chances->leave[i];
        json_out_object(out, NULL);
        json_pins(out, "pins", pins);
        json_out_rounded(out, "p", chances->leave_chance[i], 4);
        json_out_end(out);
    }
    json_out_end(out);
}

static int rack_json(const RackChances *chances)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_rack(&out, chances, HAND_RIGHT);
    json_out_end(&out);
    return cmd_json(&out);
}

int cmd_rack(const Options *options)
{
    if (isnan(options->board) || isnan(options->degrees))
        return cmd_say(CMD_USAGE, "rack needs --board and --degrees");
    double mph = isnan(options->mph) ? USUAL_MPH : options->mph;
    double pounds = isnan(options->pounds) ? USUAL_POUNDS : options->pounds;
    RackChances chances;
    rack_chances(options->board, options->degrees, mph, pounds, &chances);
    if (options->json)
        return rack_json(&chances);

    printf("Board %g (%s), %g degrees, %g mph at the pins, %g lb\n", options->board,
           HIT_NAMES[shot_hit_of_board(options->board)], options->degrees, mph, pounds);
    printf("Strike   %5.1f %%\n", 100.0 * chances.strike);
    printf("Pinfall  %5.2f\n\n", chances.pinfall);
    puts("Leaves       %");
    for (int i = 0; i < chances.leave_count && i < 12 && chances.leave_chance[i] >= SHOWN; i++) {
        char pins[32] = "";
        lane_pins_words(chances.leave[i], "-", pins, sizeof pins);
        printf("  %-6s %5.1f%s\n", pins, 100.0 * chances.leave_chance[i],
               lane_split(chances.leave[i]) ? "  split" : "");
    }
    return CMD_DONE;
}
