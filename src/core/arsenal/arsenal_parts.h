/* arsenal_parts.h - shared by arsenal.c, compare.c and place.c; only for them and their test. */
#ifndef SETTEE_CORE_ARSENAL_ARSENAL_PARTS_H
#define SETTEE_CORE_ARSENAL_ARSENAL_PARTS_H

#include "core/arsenal/arsenal.h"

/* ideal: IDEALS rows of STATE_FILMS */
void arsenal_compare(Arsenal *arsenal, const Bag *bag, const double *ideal, bool surfaces);
void arsenal_place(const Arsenal *arsenal, const Bag *bag, Set *set);
double arsenal_film_weight(const Arsenal *arsenal, int film);

#endif
