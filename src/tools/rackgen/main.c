/* settee_rackgen - rolls the racks of every cell and writes the program's table, then the best
 * place to aim a straight ball at each leave:
 *
 *     settee_rackgen src/core/pins/rack_table.inc src/tools/rackgen/hashes.inc \
 *                    src/core/spare/spare_aims.inc
 *
 * Writes the same files each time, on every machine; takes some minutes. A cell's racks depend only
 * on its number, so the threads change nothing. */
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <threads.h>

#include "core/spare/spare_ball.h"
#include "tools/rackgen/cells.h"

static bool write_table(const Table *table, FILE *out)
{
    fputs(
        "/* Written by settee_rackgen; do not edit. docs/rack.md tells how it was made. */\n"
        "/* clang-format off */\n"
        "static const RackCell RACK_CELLS[RACK_BOARDS * RACK_DEGREES * RACK_SPEEDS * RACK_WEIGHTS] "
        "= {\n",
        out);
    for (int cell = 0; cell < CELLS; cell++) {
        const RackCell *c = &table->cells[cell];
        fprintf(out, "{%u,%u,{", (unsigned)c->strike, (unsigned)c->pinfall);
        for (int k = 0; k < RACK_CLASSES; k++)
            fprintf(out, k ? ",%u" : "%u", (unsigned)c->share[k]);
        fputs("}},\n", out);
    }
    fputs("};\nstatic const RackListed\n"
          "    RACK_LISTS[RACK_BOARDS * RACK_DEGREES * RACK_BANDS][RACK_LISTED] = {\n",
          out);
    for (int list = 0; list < RACK_BOARDS * RACK_DEGREES * RACK_BANDS; list++) {
        fputc('{', out);
        for (int k = 0; k < RACK_LISTED && table->listed[list][k].pins; k++)
            fprintf(out, "%s{%u,%u,%u}", k ? "," : "", (unsigned)table->listed[list][k].pins,
                    (unsigned)table->listed[list][k].within,
                    (unsigned)table->listed[list][k].class);
        fputs("},\n", out);
    }
    fputs("};\n/* clang-format on */\n", out);
    return fflush(out) == 0 && !ferror(out);
}

static bool write_hashes(const CellCount *counts, FILE *out)
{
    fputs("/* Written by settee_rackgen; do not edit. The check sum of each cell's racks. */\n",
          out);
    for (int cell = 0; cell < CELLS; cell++)
        fprintf(out, "0x%08xu,%s", (unsigned)cell_hash(&counts[cell]), cell % 8 == 7 ? "\n" : "");
    fputc('\n', out);
    return fflush(out) == 0 && !ferror(out);
}

static bool write_aims(uint8_t (*aims)[SPARE_WIDTHS], FILE *out)
{
    fputs("/* Written by settee_rackgen; do not edit. Places to aim at, a leave a row. */\n", out);
    for (int left = 0; left < PINS_ALL; left++)
        for (int width = 0; width < SPARE_WIDTHS; width++)
            fprintf(out, "%s%u%s", width ? "," : "{", (unsigned)aims[left][width],
                    width < SPARE_WIDTHS - 1 ? ""
                    : left % 8 == 7          ? "},\n"
                                             : "},");
    fputc('\n', out);
    return fflush(out) == 0 && !ferror(out);
}

enum { THREADS = 2 };
static atomic_int next_cell, next_leave = 1;
static uint8_t aims[PINS_ALL][SPARE_WIDTHS];

static int roll_cells(void *counts)
{
    for (int cell; (cell = atomic_fetch_add(&next_cell, 1)) < CELLS;) {
        cell_roll(cell, (CellCount *)counts + cell);
        if (cell % 81 == 80)
            fprintf(stderr, "%d of %d cells\n", cell + 1, (int)CELLS);
    }
    for (int left; (left = atomic_fetch_add(&next_leave, 1)) < PINS_ALL;)
        spare_aims_of((Pins)left, AIM_EFFORT, aims[left]);
    return 0;
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        fputs("usage: settee_rackgen TABLE HASHES AIMS\n", stderr);
        return 2;
    }
    CellCount *counts = malloc(CELLS * sizeof *counts);
    Table *table = malloc(sizeof *table);
    if (!counts || !table) {
        fputs("settee_rackgen: out of memory\n", stderr);
        return 1;
    }
    thrd_t threads[THREADS];
    int started = 0;
    while (started < THREADS - 1 &&
           thrd_create(&threads[started], roll_cells, counts) == thrd_success)
        started++;
    roll_cells(counts);
    while (started > 0)
        thrd_join(threads[--started], NULL);
    bool done = table_make(counts, table);
    FILE *out[3];
    for (int i = 0; i < 3; i++)
        done = (out[i] = fopen(argv[1 + i], "w")) && done;
    done = done && write_table(table, out[0]) && write_hashes(counts, out[1]) &&
           write_aims(aims, out[2]);
    for (int i = 0; i < 3; i++)
        if (out[i])
            done = fclose(out[i]) == 0 && done;
    if (!done)
        fputs("settee_rackgen: the files were not written\n", stderr);
    free(table);
    free(counts);
    return done ? 0 : 1;
}
