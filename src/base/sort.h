/* sort.h - sorts short lists without allocating. Must not know about bowling. */
#ifndef SETTEE_BASE_SORT_H
#define SETTEE_BASE_SORT_H

#include <stdbool.h>
#include <stddef.h>

/* Sorts `count` items of `size` bytes by insertion; equal items keep their order. The C library's
 * qsort may allocate and may reorder equal items. For a few dozen items: up to count^2 / 2
 * comparisons. */
void sort_items(void *items, size_t count, size_t size,
                bool (*before)(const void *a, const void *b));

#endif
