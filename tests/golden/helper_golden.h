/* helper_golden.h - whole screens as text, compared with files in tests/golden.
 *
 * SETTEE_GOLDEN_UPDATE=1 writes the files again; read the difference before keeping it. */
#ifndef SETTEE_TESTS_GOLDEN_HELPER_H
#define SETTEE_TESTS_GOLDEN_HELPER_H

#include "near.h"

#include "ui/pinned_bag.h"

/* A screen as text, or the model's, with tests/golden/NAME.txt. */
void compare_text(const char *name, const char *screen);
void compare(const char *name, const Model *model);

/* In the middle of a game; for free(). */
Pinned *playing(Hand hand, int columns, int rows);

#endif
