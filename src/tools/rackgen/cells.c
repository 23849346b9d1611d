/* cells.c - see cells.h. */
#include "tools/rackgen/cells.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

int cell_index(int board, int degree, int speed, int weight)
{
    return ((board * RACK_DEGREES + degree) * RACK_SPEEDS + speed) * RACK_WEIGHTS + weight;
}

static void cell_place(int cell, int place[4])
{
    place[3] = cell % RACK_WEIGHTS;
    place[2] = cell / RACK_WEIGHTS % RACK_SPEEDS;
    place[1] = cell / (RACK_WEIGHTS * RACK_SPEEDS) % RACK_DEGREES;
    place[0] = cell / (RACK_WEIGHTS * RACK_SPEEDS * RACK_DEGREES);
}

void cell_roll(int cell, CellCount *count)
{
    int at[4];
    cell_place(cell, at);
    Rng rng = rng_seed(20261125u + (uint64_t)cell);
    memset(count, 0, sizeof *count);
    for (int i = 0; i < CELL_RACKS; i++) {
        /* even steps over the cell across the lane, at random otherwise */
        double across = (i + rng_uniform(&rng)) / CELL_RACKS - 0.5;
        RackHit hit = {
            .board = RACK_BOARD_LOW + RACK_BOARD_STEP * (at[0] + across),
            .degrees = RACK_DEGREE_STEP * (at[1] + rng_between(&rng, -0.5, 0.5)),
            .mph = RACK_MPH_LOW + RACK_MPH_STEP * (at[2] + rng_between(&rng, -0.4, 0.4)),
            .rpm = 0.0,
            .pounds = RACK_POUNDS[at[3]],
        };
        count->of[rack_sim_roll(&hit, PINS_ALL, &rng, NULL, NULL)]++;
    }
}

uint32_t cell_hash(const CellCount *count)
{
    uint32_t hash = 2166136261u; /* FNV-1a, a byte at a time */
    for (int i = 0; i < 1024; i++) {
        hash = (hash ^ (count->of[i] & 0xffu)) * 16777619u;
        hash = (hash ^ (uint32_t)(count->of[i] >> 8)) * 16777619u;
    }
    return hash;
}

/* ---- smoothing ---- */

typedef struct Shares {
    double of[1024];
} Shares;

/* Weight of each neighbour along an axis; the middle has the rest. */
static const double BESIDE[4] = {1.0 / 12.0, 1.0 / 8.0, 1.0 / 16.0, 1.0 / 32.0};

/* One pass along one axis; a missing neighbour leaves its weight with the middle. */
static void smooth(Shares *all, int axis)
{
    static const int COUNT[4] = {RACK_BOARDS, RACK_DEGREES, RACK_SPEEDS, RACK_WEIGHTS};
    static const int STRIDE[4] = {RACK_DEGREES * RACK_SPEEDS * RACK_WEIGHTS,
                                  RACK_SPEEDS * RACK_WEIGHTS, RACK_WEIGHTS, 1};
    const double beside = BESIDE[axis];
    for (int cell = 0; cell < CELLS; cell++) {
        int at[4];
        cell_place(cell, at);
        if (at[axis] != 0)
            continue;
        for (int i = 0; i < 1024; i++) {
            double before = 0.0;
            for (int k = 0; k < COUNT[axis]; k++) {
                double *share = &all[cell + k * STRIDE[axis]].of[i], was = *share;
                double low = k > 0 ? before : was;
                double high = k + 1 < COUNT[axis] ? all[cell + (k + 1) * STRIDE[axis]].of[i] : was;
                *share = was + beside * ((low - was) + (high - was));
                before = was;
            }
        }
    }
}

/* A head-on ball on board b and one on 40 - b see mirrored pins. */
static void match_sides(Shares *all)
{
    for (int b = 0; b <= RACK_BOARDS / 2; b++)
        for (int s = 0; s < RACK_SPEEDS; s++)
            for (int w = 0; w < RACK_WEIGHTS; w++) {
                Shares *near = &all[cell_index(b, 0, s, w)];
                Shares *far = &all[cell_index(RACK_BOARDS - 1 - b, 0, s, w)];
                for (int i = 0; i < 1024; i++) {
                    Pins other = lane_mirror_pins((Pins)i);
                    if (near == far && other < i)
                        continue;
                    double mean = 0.5 * (near->of[i] + far->of[other]);
                    near->of[i] = far->of[other] = mean;
                }
            }
}

static uint16_t rounded(double value) { return (uint16_t)(value + 0.5); }

/* Each class gets the growth of the rounded running sum, so that the shares add up exactly. */
static void cell_write(const Shares *shares, RackCell *cell)
{
    double class[RACK_CLASSES] = {0}, pins = 10.0 * shares->of[0], sum = shares->of[0];
    for (int i = 1; i < 1024; i++) {
        class[rack_class((Pins)i)] += shares->of[i];
        pins += shares->of[i] * (10 - lane_pin_count((Pins)i));
    }
    cell->pinfall = rounded(RACK_PIN_ONE * pins);
    cell->strike = rounded(RACK_SHARE_ONE * sum);
    for (int c = 0, given = cell->strike; c < RACK_CLASSES; c++) {
        sum += class[c];
        cell->share[c] = (uint16_t)(rounded(RACK_SHARE_ONE * sum) - given);
        given += cell->share[c];
    }
}

static bool in_band(int speed, int band)
{
    double mph = RACK_MPH_LOW + RACK_MPH_STEP * speed;
    return band == RACK_SLOW ? mph <= RACK_SLOW_MPH : mph >= RACK_USUAL_MPH;
}

/* The leaves of a board and degree, over the speeds and weights of a band. */
static void list_write(const Shares *all, int board, int degree, int band, RackListed *listed)
{
    double share[1024] = {0}, class[RACK_CLASSES] = {0};
    const int lightest = band == RACK_SLOW ? 0 : RACK_WEIGHTS - 2;
    for (int s = 0; s < RACK_SPEEDS; s++)
        for (int w = lightest; w < lightest + 2; w++)
            for (int i = 1; i < 1024 && in_band(s, band); i++)
                share[i] += all[cell_index(board, degree, s, w)].of[i];
    for (int i = 1; i < 1024; i++)
        class[rack_class((Pins)i)] += share[i];
    memset(listed, 0, RACK_LISTED * sizeof *listed);
    for (int k = 0; k < RACK_LISTED;) {
        int most = 1;
        for (int i = 1; i < 1024; i++)
            if (share[i] > share[most])
                most = i;
        if (share[most] <= 0.0)
            return;
        RackClass of = rack_class((Pins)most);
        double within = share[most] / class[of];
        share[most] = 0.0;
        uint8_t written = (uint8_t)(RACK_WITHIN_ONE * within); /* cut, so that no sum passes one */
        if (written)
            listed[k++] = (RackListed){(uint16_t)most, written, (uint8_t)of};
    }
}

bool table_make(const CellCount *counts, Table *table)
{
    Shares *all = malloc(CELLS * sizeof *all);
    if (!all)
        return false;
    for (int cell = 0; cell < CELLS; cell++)
        for (int i = 0; i < 1024; i++)
            all[cell].of[i] = (double)counts[cell].of[i] / CELL_RACKS;
    for (int axis = 0; axis < 4; axis++)
        smooth(all, axis);
    match_sides(all);
    for (int cell = 0; cell < CELLS; cell++)
        cell_write(&all[cell], &table->cells[cell]);
    for (int b = 0; b < RACK_BOARDS; b++)
        for (int d = 0; d < RACK_DEGREES; d++)
            for (int band = 0; band < RACK_BANDS; band++)
                list_write(all, b, d, band,
                           table->listed[(b * RACK_DEGREES + d) * RACK_BANDS + band]);
    free(all);
    return true;
}
