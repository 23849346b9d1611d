/* sort.h - puts short lists in order without allocating. Must not know about bowling. */
#ifndef SETTEE_BASE_SORT_H
#define SETTEE_BASE_SORT_H

#include <stdbool.h>
#include <stddef.h>

/* Sorts `count` items of `size` bytes by insertion; those of which neither is before the other stay
 * as they were. The C library's qsort may allocate, and leaves their order open. For lists of some
 * dozens: it compares up to count^2 / 2 times. */
void sort_items(void *items, size_t count, size_t size,
                bool (*before)(const void *a, const void *b));

#endif
