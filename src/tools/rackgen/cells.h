/* cells.h - making the rack table: the racks of each cell, then smoothing. */
#ifndef SETTEE_TOOLS_RACKGEN_CELLS_H
#define SETTEE_TOOLS_RACKGEN_CELLS_H

#include "core/pins/rack_sim.h"
#include "core/pins/rack_table.h"

enum {
    CELLS = RACK_BOARDS * RACK_DEGREES * RACK_SPEEDS * RACK_WEIGHTS,
    CELL_RACKS = 240 /* racks per cell; smoothing and interpolation combine more */
};

/* Simulation for the aims of a leave, as in spare_hits_roll. */
#define AIM_EFFORT 60000.0

/* How often each leave came in a cell's racks; 0 is the strike. */
typedef struct CellCount {
    uint16_t of[1024];
} CellCount;

/* Boards before degrees before speeds before weights. */
int cell_index(int board, int degree, int speed, int weight);

/* Rolls a cell's racks, over the width of the cell; the cell's number is the seed. */
void cell_roll(int cell, CellCount *count);

/* A check sum of a cell's count. */
uint32_t cell_hash(const CellCount *count);

typedef struct Table {
    RackCell cells[CELLS];
    RackListed listed[RACK_BOARDS * RACK_DEGREES * RACK_BANDS][RACK_LISTED];
} Table;

/* Makes the table from the counts. False if out of memory. */
bool table_make(const CellCount *counts, Table *table);

#endif
