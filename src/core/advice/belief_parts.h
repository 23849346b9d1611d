/* belief_parts.h - what the files of the belief share. */
#ifndef SETTEE_CORE_ADVICE_BELIEF_PARTS_H
#define SETTEE_CORE_ADVICE_BELIEF_PARTS_H

#include "core/advice/belief.h"

/* Prior spreads of what lanes share and of what each has of its own (assumed). */
#define VOLUME_COMMON_SD 0.22 /* log; how well a sheet says what was laid */
#define VOLUME_LANE_SD 0.10   /* log; one lane of the pair against the other */
#define DRY_COMMON_SD 0.11    /* log; the house's lane surface */
#define DRY_LANE_SD 0.05

/* Lays both lanes: every film is the sheet, or the one of the sheets that it is for. */
void belief_lay(Belief *belief);

/* How likely each of the sheets is; one sheet: it. */
void belief_sheet_shares(const Belief *belief, double share[ABOUT_SHEETS_MAX]);

/* The means of the particles on one of them. */
void belief_sheet_means(const Belief *belief, int sheet, double mean[PART_COUNT],
                        double offsets[OFFSETS_COUNT]);

/* Length of the sheet, or of the sheets on the mean, as written. */
double belief_length_ft(const Belief *belief);

#endif
