/* rolling.c - see rolling.h. */
#include "ui/draw/rolling.h"

#include <math.h>

#include "base/units.h"

#define STAYS_S 1.0

/* Seconds from one point to the next, at the speed of the first; a ball that has stopped stays. */
static double step_seconds(const PathPoint *point)
{
    return point->mph > 0.1 ? m_from_ft(OIL_STATION_FT) / mps_from_mph(point->mph) : 10.0;
}

double rolling_seconds(const Roll *roll)
{
    double seconds = 0.0;
    for (int i = 0; i < roll->count - 1; i++)
        seconds += step_seconds(&roll->path[i]);
    return seconds;
}

bool rolling_over(const Roll *roll, double seconds)
{
    return seconds >= rolling_seconds(roll) + STAYS_S;
}

static int point_after(const Roll *roll, double seconds)
{
    int point = 0;
    while (point < roll->count - 1 && seconds >= step_seconds(&roll->path[point]))
        seconds -= step_seconds(&roll->path[point++]);
    return point;
}

double rolling_ft(const Roll *roll, double seconds)
{
    return roll->path[point_after(roll, seconds)].ft;
}

void rolling_behind(const Roll *roll, double seconds, Roll *behind)
{
    *behind = *roll;
    behind->count = point_after(roll, seconds) + 1;
    behind->gutter = true;
}

void rolling_words(const Roll *roll, double seconds, Canvas *canvas, int row, int column, int width)
{
    const PathPoint *at = &roll->path[point_after(roll, seconds)];
    canvas_print(canvas, row, column, width, ROLE_PLAIN, "%.1f s, %.0f ft, %.1f mph",
                 fmin(seconds, rolling_seconds(roll)), at->ft, at->mph);
    canvas_print(canvas, row + 1, column, width, ROLE_PLAIN, "%s", PHASE_NAMES[at->phase]);
}

const char *rolling_turn(bool *still, bool fixed)
{
    if (fixed)
        return "Motion stays off: SETTEE_MOTION=off is set";
    *still = !*still;
    return *still ? "Motion is off: nothing moves by itself" : "Motion is on: balls roll";
}
