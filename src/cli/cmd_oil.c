/* cmd_oil.c - settee oil: a pattern measured, cut across, and seen from above.
 *
 * Boards are drawn as a bowler sees the lane: 39 at the left, 1 at the right edge. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/units.h"
#include "cli/cmd.h"

enum { GRAPH_ROWS = 8, MAP_STEP = 4 /* half-feet */, LEVELS = 8 };
static const char SHADE[LEVELS + 1] = " .:-=+*#";

/* Film at one distance on each board, board 1 first. */
static void cut(const Oil *sheet, double ft, double *units)
{
    for (int board = 1; board <= LANE_BOARDS; board++)
        units[board - 1] = oil_at(sheet, lane_x_of_board(board), m_from_ft(ft));
}

static double most(const Oil *sheet)
{
    double most = 0.0;
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            most = fmax(most, sheet->units[j][b]);
    return most;
}

/* One row of the lane from above: a character a board. Less than a twentieth of a step is bare. */
static void map_row(const Oil *sheet, int station, double step, char *row)
{
    for (int i = 0; i < LANE_BOARDS; i++) {
        double units = sheet->units[station][LANE_BOARDS - 1 - i];
        int level = units < 0.05 ? 0 : 1 + (int)(units / step);
        row[i] = SHADE[level < LEVELS ? level : LEVELS - 1];
    }
    row[LANE_BOARDS] = '\0';
}

static int oil_json(const Setup *setup, const double *at, int count, double step)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_rounded(&out, "volume_ml", oil_volume_ml(&setup->sheet), 3);
    json_out_rounded(&out, "length_ft", oil_length_ft(&setup->sheet), 2);
    json_out_rounded(&out, "ratio", oil_ratio(&setup->sheet), 3);
    json_out_array(&out, "readings");
    for (int i = 0; i < count; i++) {
        double units[LANE_BOARDS];
        cut(&setup->sheet, at[i], units);
        json_out_object(&out, NULL);
        json_out_rounded(&out, "ft", at[i], 3);
        json_out_array(&out, "units");
        for (int b = 0; b < LANE_BOARDS; b++)
            json_out_rounded(&out, NULL, units[b], 3);
        json_out_end(&out);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_array(&out, "graph");
    for (int j = OIL_STATIONS - 1; j >= 0; j -= MAP_STEP) {
        char row[LANE_BOARDS + 1];
        map_row(&setup->sheet, j, step, row);
        json_out_string(&out, NULL, row);
    }
    json_out_end(&out);
    json_out_end(&out);
    return cmd_json(&out);
}

static void print_boards(void) { puts("       39  35   30   25   20   15   10   5   1"); }

static void print_cut(const Oil *sheet, double ft, double top)
{
    double units[LANE_BOARDS];
    cut(sheet, ft, units);
    printf("\nAcross at %g ft, units\n", ft);
    for (int row = GRAPH_ROWS; row >= 1; row--) {
        char bars[LANE_BOARDS + 1];
        for (int i = 0; i < LANE_BOARDS; i++)
            bars[i] = units[LANE_BOARDS - 1 - i] >= top * (row - 0.5) / GRAPH_ROWS ? '#' : ' ';
        int end = LANE_BOARDS;
        while (end > 0 && bars[end - 1] == ' ')
            end--;
        printf("%6.1f |%.*s\n", top * row / GRAPH_ROWS, end, bars);
    }
    puts("       +---------------------------------------");
    print_boards();
}

static void print_map(const Oil *sheet, double step)
{
    puts("\nFrom above, pins at the top");
    for (int j = OIL_STATIONS - 1; j >= 0; j -= MAP_STEP) {
        char row[LANE_BOARDS + 1];
        map_row(sheet, j, step, row);
        if (j % 20 == 0)
            printf("%3d ft |%s|\n", j / 2, row);
        else
            printf("       |%s|\n", row);
    }
    print_boards();
    printf("Units up to");
    for (int level = 1; level < LEVELS - 1; level++)
        printf("  %c %.1f", SHADE[level], step * level);
    printf("  %c more; blank is bare\n", SHADE[LEVELS - 1]);
}

int cmd_oil(const Options *options)
{
    Setup setup;
    int status = setup_read(options, &setup);
    if (status != CMD_DONE)
        return status;
    const Oil *sheet = &setup.sheet;
    double at[OPTIONS_AT_MAX];
    int count = options->at_count;
    memcpy(at, options->at_ft, sizeof at);
    if (count == 0)
        for (double ft = 0.0; ft <= setup.pattern.length_ft && count < OPTIONS_AT_MAX; ft += 5.0)
            at[count++] = ft;
    double top = most(sheet), step = top > 0.0 ? top / (LEVELS - 1) : 1.0;
    if (options->json)
        return oil_json(&setup, at, count, step);

    double ratio = oil_ratio(sheet);
    printf("%s: %g ft, %.1f mL, ", setup.pattern.name, setup.pattern.length_ft,
           oil_volume_ml(sheet));
    if (isinf(ratio))
        puts("no oil outside");
    else
        printf("%.1f:1 inside to outside\n", ratio);
    if (setup.pattern.note[0])
        print_wrapped(setup.pattern.note, 0);
    printf("Breakpoint by rule of thumb: board %.0f (length less 31)\n",
           setup.pattern.length_ft - 31.0);
    if (options->at_count == 0) { /* heads, middle and the last of it */
        at[0] = 8.0;
        at[1] = 25.0;
        at[2] = setup.pattern.length_ft - 3.0;
        count = 3;
    }
    for (int i = 0; i < count; i++) {
        double units[LANE_BOARDS], highest = 0.0;
        cut(sheet, at[i], units);
        for (int b = 0; b < LANE_BOARDS; b++)
            highest = fmax(highest, units[b]);
        print_cut(sheet, at[i], highest > 0.0 ? highest : 1.0);
    }
    print_map(sheet, step);
    return CMD_DONE;
}
