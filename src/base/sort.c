/* sort.c - insertion sort. */
#include "base/sort.h"

#include <string.h>

/* Swaps two items that don't overlap. */
static void exchange(unsigned char *a, unsigned char *b, size_t size)
{
    unsigned char held[64];
    for (size_t done = 0; done < size; done += sizeof held) {
        size_t part = size - done < sizeof held ? size - done : sizeof held;
        memcpy(held, a + done, part);
        memcpy(a + done, b + done, part);
        memcpy(b + done, held, part);
    }
}

void sort_items(void *items, size_t count, size_t size,
                bool (*before)(const void *a, const void *b))
{
    unsigned char *first = items;
    for (size_t i = 1; i < count; i++)
        for (unsigned char *at = first + i * size; at > first && before(at, at - size); at -= size)
            exchange(at, at - size, size);
}
