/* sheet.h - a stroke as a person types it from a sheet, "2L-2R 0-8 2.5-0.7", and back.
 *
 * Three parts with spaces or commas between them:
 *   boards  two, both oiled, in any order: 38-2, or 2L-2R as sheets count them from either edge
 *   feet    where the stroke begins and ends; the farther one first on the way back (40-8)
 *   oil     units at the first and the second distance (2.5-0.7), or one for both (2.5); or loads
 *           by microlitres a board in each (3x50), spread evenly over the feet
 * Sheets give loads in this way by common practice, no source. */
#ifndef SETTEE_CORE_LANE_SHEET_H
#define SETTEE_CORE_LANE_SHEET_H

#include "base/error.h"
#include "core/lane/oil.h"

enum { SHEET_TEXT_MAX = 64 }; /* of a typed stroke, with its NUL */

/* False: error says what was found and what is allowed; the stroke is unchanged. */
bool sheet_stroke_read(const char *typed, double length_ft, Stroke *stroke, Error *error);

/* As it would be typed, boards from the right and the nearer distance first; film to six digits. */
void sheet_stroke_write(const Stroke *stroke, char *out, size_t size);

#endif
