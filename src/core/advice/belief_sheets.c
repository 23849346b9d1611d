/* belief_sheets.c - a pattern without a sheet: which one it may be, and what the shots leave of
 * them.
 */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "core/advice/belief_parts.h"

#define POSSIBLE 0.05 /* a sheet less likely than that is not counted as possible (assumed) */

void belief_lay(Belief *belief)
{
    for (int sheet = 0; sheet < 1 || sheet < belief->may_be.count; sheet++) {
        Oil oil = belief->sheet;
        if (belief->may_be.count > 0)
            about_lay(&belief->may_be.one[sheet], &oil);
        for (int lane = 0; lane < SIDE_COUNT; lane++)
            for (int rate = 0; rate < BELIEF_FILMS; rate++)
                belief->film[lane][sheet * BELIEF_FILMS + rate] = oil;
    }
}

void belief_sheet_shares(const Belief *belief, double share[ABOUT_SHEETS_MAX])
{
    memset(share, 0, ABOUT_SHEETS_MAX * sizeof *share);
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        share[particle_sheet(&belief->particles[i])] += belief->particles[i].weight;
}

void belief_sheet_means(const Belief *belief, int sheet, double mean[PART_COUNT],
                        double offsets[OFFSETS_COUNT])
{
    double total = 0.0;
    memset(mean, 0, PART_COUNT * sizeof *mean);
    memset(offsets, 0, OFFSETS_COUNT * sizeof *offsets);
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        const Particle *p = &belief->particles[i];
        if (particle_sheet(p) != sheet)
            continue;
        total += p->weight;
        for (int part = 0; part < PART_COUNT; part++)
            mean[part] += p->weight * p->part[part];
        for (int k = 0; k < OFFSETS_COUNT; k++)
            offsets[k] += p->weight * p->offsets[k];
    }
    for (int part = 0; part < PART_COUNT; part++)
        mean[part] /= fmax(total, 1e-300);
    for (int k = 0; k < OFFSETS_COUNT; k++)
        offsets[k] /= fmax(total, 1e-300);
}

double belief_length_ft(const Belief *belief)
{
    double share[ABOUT_SHEETS_MAX], mean = 0.0;
    if (belief->may_be.count == 0)
        return belief->sheet.length_ft;
    belief_sheet_shares(belief, share);
    for (int i = 0; i < belief->may_be.count; i++)
        mean += share[i] * belief->may_be.one[i].length_ft;
    return mean;
}

/* By how much a sheet is longer than written, on the mean of the particles that are on it. */
static double longer_of(const Belief *belief, int sheet, double share)
{
    double sum = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        if (particle_sheet(&belief->particles[i]) == sheet)
            sum += belief->particles[i].weight * belief->particles[i].part[PART_LONGER];
    return share > 0.0 ? sum / share : 0.0;
}

int belief_sheets(const Belief *belief, SheetLeft left[ABOUT_SHEETS_MAX])
{
    double share[ABOUT_SHEETS_MAX];
    belief_sheet_shares(belief, share);
    for (int i = 0; i < belief->may_be.count; i++) {
        SheetLeft one = {belief->may_be.one[i]};
        one.sheet.share = share[i];
        one.sheet.length_ft *= 1.0 + longer_of(belief, i, share[i]);
        int at = i;
        for (; at > 0 && left[at - 1].sheet.share < share[i]; at--)
            left[at] = left[at - 1];
        left[at] = one;
    }
    return belief->may_be.count;
}

void belief_sheet_words(const Belief *belief, char *out, size_t size)
{
    SheetLeft left[ABOUT_SHEETS_MAX];
    char words[40];
    int count = belief_sheets(belief, left), others = 0;
    out[0] = '\0';
    if (count == 0)
        return;
    for (int i = 1; i < count; i++)
        others += left[i].sheet.share >= POSSIBLE;
    if (belief->shots == 0 && others > 0) {
        text_append(out, size, "one of %d patterns of its kind; shots will tell", others + 1);
        return;
    }
    left[0].sheet.length_ft = round(left[0].sheet.length_ft);
    about_sheet_words(&left[0].sheet, words, sizeof words);
    text_append(out, size, "most like a %s", words);
    if (others > 0)
        text_append(out, size, "; %d other%s possible", others, others == 1 ? "" : "s");
}

void belief_likely_sheet(const Belief *belief, Oil *oil)
{
    SheetLeft left[ABOUT_SHEETS_MAX];
    *oil = belief->sheet;
    if (belief_sheets(belief, left) > 0)
        about_lay(&left[0].sheet, oil);
}

void belief_sheet_film(const Belief *belief, Side lane, int sheet, Oil *oil)
{
    double share[BELIEF_FILMS] = {0}, total = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        const Particle *p = &belief->particles[i];
        if (particle_sheet(p) != sheet)
            continue;
        share[p->film % BELIEF_FILMS] += p->weight;
        total += p->weight;
    }
    const Oil *films = &belief->film[lane][(size_t)sheet * BELIEF_FILMS];
    memset(oil, 0, sizeof *oil);
    oil->length_ft = films[0].length_ft;
    for (int f = 0; f < BELIEF_FILMS; f++)
        if (share[f] > 0.0)
            for (int j = 0; j < OIL_STATIONS; j++)
                for (int b = 0; b < LANE_BOARDS; b++)
                    oil->units[j][b] += share[f] / total * films[f].units[j][b];
}
