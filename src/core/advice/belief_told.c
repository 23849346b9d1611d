/* belief_told.c - what a belief says: numbers with their doubt, and a coach's words. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "core/advice/belief.h"

/* A hit shows what a film does, not how thick it is: the share of the film between ball and lane is
 * known no better than this. */
#define FILM_UNTOLD 0.15

static Estimate estimate(double sum, double square)
{
    return (Estimate){sum, sqrt(fmax(0.0, square - sum * sum))};
}

Estimate belief_part(const Belief *belief, int part)
{
    double sum = 0.0, square = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double weight = belief->particles[i].weight, value = belief->particles[i].part[part];
        sum += weight * value;
        square += weight * value * value;
    }
    return estimate(sum, square);
}

DeliveryOffset belief_today(const Belief *belief)
{
    return (DeliveryOffset){.mph = belief_part(belief, PART_MPH).mean,
                            .launch_deg = belief_part(belief, PART_LAUNCH_DEG).mean};
}

static double mean_film(const Oil *oil, int low, int high, double from_ft, double to_ft)
{
    double sum = 0.0;
    int count = 0;
    for (int j = (int)(from_ft / OIL_STATION_FT); j <= (int)(to_ft / OIL_STATION_FT); j++)
        for (int b = low; b <= high; b++, count++)
            sum += oil->units[j][b - 1];
    return count > 0 ? sum / count : 0.0;
}

Estimate belief_track(const Belief *belief, Side lane, int low, int high, double from_ft,
                      double to_ft)
{
    double film[BELIEF_FILMS_MAX], sum = 0.0, square = 0.0;
    for (int f = 0; f < belief_film_count(belief); f++)
        film[f] = mean_film(&belief->film[lane][f], low, high, from_ft, to_ft);
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double units =
            belief->particles[i].part[PART_VOLUME + lane] * film[belief->particles[i].film];
        sum += belief->particles[i].weight * units;
        square += belief->particles[i].weight * units * units;
    }
    Estimate told = estimate(sum, square);
    told.sd = hypot(told.sd, FILM_UNTOLD * told.mean);
    return told;
}

void belief_words(const Belief *belief, Side lane, const Roll *path, char *out, size_t size)
{
    double from_ft = 15.0, to_ft = fmin(35.0, belief->sheet.length_ft);
    double low = LANE_BOARDS, high = 1.0;
    for (int i = 0; i < path->count; i++)
        if (path->path[i].ft >= from_ft && path->path[i].ft <= to_ft) {
            low = fmin(low, path->path[i].board);
            high = fmax(high, path->path[i].board);
        }
    out[0] = '\0';
    if (low > high)
        return;
    int first = (int)fmax(1.0, floor(low)), last = (int)fmin(LANE_BOARDS, ceil(high));
    double sheet = mean_film(&belief->sheet, first, last, from_ft, to_ft);
    Estimate now = belief_track(belief, lane, first, last, from_ft, to_ft);
    double change = sheet > 0.0 ? now.mean / sheet - 1.0 : 0.0, size_of = fabs(change);
    const char *how = size_of < 0.08   ? "about as on the sheet"
                      : size_of < 0.17 ? "a little"
                      : size_of < 0.29 ? "about a quarter"
                      : size_of < 0.42 ? "about a third"
                      : size_of < 0.60 ? "about half"
                                       : "far";
    text_append(out, size, "track at %d-%d %s", first, last, how);
    if (size_of >= 0.08)
        text_append(out, size, " %s", change < 0.0 ? "thinner" : "thicker");
    else if (belief->shots > 0) /* no change to speak of yet */
        text_append(out, size, " so far");
}

void belief_offsets(const Belief *belief, double means[OFFSETS_COUNT])
{
    memset(means, 0, OFFSETS_COUNT * sizeof *means);
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        for (int k = 0; k < OFFSETS_COUNT; k++)
            means[k] += belief->particles[i].weight * belief->particles[i].offsets[k];
}

Estimate belief_off(const Belief *belief, const OffsetsAt *at)
{
    double sum = 0.0, square = 0.0, with[OFFSETS_COUNT];
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double weight = belief->particles[i].weight;
        double boards = offsets_mean(at, belief->particles[i].offsets);
        sum += weight * boards;
        square += weight * boards * boards;
    }
    return estimate(sum, square + offsets_variance(&belief->doubt, at, with));
}

void belief_off_words(Estimate off, char *out, size_t size)
{
    double boards = fabs(off.mean);
    out[0] = '\0';
    if (boards < 0.5 || boards < off.sd) /* too little to mention */
        return;
    text_append(out, size, "hits %s %s here than its numbers say",
                boards < 0.8   ? "half a board"
                : boards < 1.3 ? "a board"
                : boards < 1.8 ? "a board and a half"
                               : "two boards or more",
                off.mean > 0.0 ? "higher" : "lighter");
}
