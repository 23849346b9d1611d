/* test_sort.c - lists in order, equal items as they were; the C library's qsort is the check where
 * no two are equal. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "base/sort.h"

typedef struct Item {
    int key, place;
    char rest[150]; /* longer than what is moved at a time */
} Item;

static bool less(const void *a, const void *b)
{
    return ((const Item *)a)->key < ((const Item *)b)->key;
}

static bool int_less(const void *a, const void *b) { return *(const int *)a < *(const int *)b; }

static int by_int(const void *a, const void *b)
{
    int x = *(const int *)a, y = *(const int *)b;
    return (x > y) - (x < y);
}

static void as_the_library_sorts(void **state)
{
    (void)state;
    Rng rng = rng_seed(3);
    for (int n = 0; n <= 40; n++) {
        int ours[40], theirs[40];
        for (int i = 0; i < n; i++)
            ours[i] = theirs[i] = (int)(rng_next(&rng) >> 40) * 64 + i;
        sort_items(ours, (size_t)n, sizeof *ours, int_less);
        qsort(theirs, (size_t)n, sizeof *theirs, by_int);
        assert_memory_equal(ours, theirs, (size_t)n * sizeof *ours);
    }
}

static void equal_ones_stay(void **state)
{
    (void)state;
    Rng rng = rng_seed(4);
    static Item items[60];
    for (int i = 0; i < 60; i++) {
        items[i] = (Item){.key = (int)(rng_next(&rng) % 7), .place = i};
        memset(items[i].rest, 'a' + i % 26, sizeof items[i].rest);
    }
    sort_items(items, 60, sizeof items[0], less);
    for (int i = 0; i < 60; i++) {
        if (i > 0)
            assert_true(items[i - 1].key < items[i].key ||
                        (items[i - 1].key == items[i].key && items[i - 1].place < items[i].place));
        for (size_t k = 0; k < sizeof items[i].rest; k++)
            assert_int_equal(items[i].rest[k], 'a' + items[i].place % 26);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_the_library_sorts),
                                       cmocka_unit_test(equal_ones_stay)};
    return cmocka_run_group_tests_name("sort", tests, NULL, NULL);
}
