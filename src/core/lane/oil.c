/* oil.c - laying a pattern, and measuring the film. */
#include "core/lane/oil.h"

#include <math.h>
#include <string.h>

#include "base/units.h"

#define CARRIED_UNITS 0.3 /* of oil past the pattern's end that a ball may notice (assumed) */

static void lay_strokes(const Pattern *pattern, Oil *oil)
{
    for (int i = 0; i < pattern->stroke_count; i++) {
        const Stroke *stroke = &pattern->strokes[i];
        for (int j = 0; j < OIL_STATIONS; j++) {
            double ft = j * OIL_STATION_FT;
            if (ft < stroke->ft_start || ft > stroke->ft_end)
                continue;
            /* where one stroke ends and another begins, count only one */
            if (ft == stroke->ft_end && ft < pattern->length_ft)
                continue;
            double share = (ft - stroke->ft_start) / (stroke->ft_end - stroke->ft_start);
            double units = stroke->units_start + share * (stroke->units_end - stroke->units_start);
            for (int board = stroke->board_from; board <= stroke->board_to; board++)
                oil->units[j][board - 1] += units;
        }
    }
}

static void lay_readings(const Pattern *pattern, Oil *oil)
{
    const Reading *readings = pattern->readings;
    int last = pattern->reading_count - 1;
    for (int j = 0; j < OIL_STATIONS; j++) {
        double ft = j * OIL_STATION_FT;
        if (ft > pattern->length_ft)
            break;
        int next = 0;
        while (next <= last && readings[next].ft < ft)
            next++;
        for (int b = 0; b < LANE_BOARDS; b++) {
            if (next == 0 || next > last) { /* level before the first tape and after the last */
                oil->units[j][b] = readings[next == 0 ? 0 : last].units[b];
                continue;
            }
            const Reading *low = &readings[next - 1], *high = &readings[next];
            double share = (ft - low->ft) / (high->ft - low->ft);
            oil->units[j][b] = low->units[b] + share * (high->units[b] - low->units[b]);
        }
    }
}

void oil_lay(const Pattern *pattern, Oil *oil)
{
    memset(oil, 0, sizeof *oil);
    oil->length_ft = pattern->length_ft;
    if (pattern->reading_count > 0)
        lay_readings(pattern, oil);
    else
        lay_strokes(pattern, oil);
}

void oil_for_hand(const Oil *from_right, Hand hand, Oil *oil)
{
    if (hand == HAND_RIGHT) {
        if (oil != from_right)
            *oil = *from_right;
        return;
    }
    Oil mirrored = {.length_ft = from_right->length_ft};
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            mirrored.units[j][b] = from_right->units[j][LANE_BOARDS - 1 - b];
    *oil = mirrored;
}

double oil_at(const Oil *oil, double x_m, double y_m)
{
    double along = y_m * (1.0 / (OIL_STATION_FT * 0.3048));
    if (!(along < OIL_STATIONS - 1))
        return 0.0;
    double across = x_m * (1.0 / LANE_BOARD_M) - 0.5;
    across = across < 0.0 ? 0.0 : across > LANE_BOARDS - 1.0 ? LANE_BOARDS - 1.0 : across;
    along = along < 0.0 ? 0.0 : along;
    int b = (int)across, j = (int)along;
    if (b > LANE_BOARDS - 2)
        b = LANE_BOARDS - 2;
    double u = across - b, v = along - j;
    const double *near = &oil->units[j][b], *far = &oil->units[j + 1][b];
    double low = near[0] + u * (near[1] - near[0]), high = far[0] + u * (far[1] - far[0]);
    return low + v * (high - low);
}

double oil_volume_ml(const Oil *oil)
{
    double sum = 0.0; /* unit x stations; trapezoid along the lane */
    for (int j = 0; j < OIL_STATIONS; j++) {
        double weight = j == 0 || j == OIL_STATIONS - 1 ? 0.5 : 1.0;
        for (int b = 0; b < LANE_BOARDS; b++)
            sum += weight * oil->units[j][b];
    }
    double sqft = OIL_STATION_FT * ft_from_m(LANE_BOARD_M);
    return sum * sqft * OIL_ML_PER_UNIT_SQFT;
}

/* The last station with more than that on any board. */
static double reach_ft(const Oil *oil, double units)
{
    for (int j = OIL_STATIONS - 1; j >= 0; j--)
        for (int b = 0; b < LANE_BOARDS; b++)
            if (oil->units[j][b] > units)
                return j * OIL_STATION_FT;
    return 0.0;
}

double oil_length_ft(const Oil *oil) { return reach_ft(oil, 0.05); }

double oil_carried_ft(const Oil *oil, double length_ft)
{
    return fmax(length_ft, reach_ft(oil, CARRIED_UNITS));
}

double oil_ratio(const Oil *oil)
{
    double inside = 0.0, outside = 0.0;
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            *(b >= 10 && b <= 28 ? &inside : &outside) += oil->units[j][b];
    return outside > 0.0 ? (inside / 19.0) / (outside / 20.0) : INFINITY;
}

void oil_scale(Oil *oil, double factor)
{
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            oil->units[j][b] *= factor;
}

bool oil_same(const Oil *a, const Oil *b)
{
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int board = 0; board < LANE_BOARDS; board++)
            if (a->units[j][board] != b->units[j][board])
                return false;
    return a->length_ft == b->length_ft;
}
