/* test_journal_line.c - one flipped bit of a line is put right, wherever it is; two are not, and
 * nothing beyond a line is looked at. */
#define _GNU_SOURCE /* MAP_ANONYMOUS */
#include "near.h"

#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "base/rng.h"
#include "store/journal_line.h"

static const char LINE[] = "{\"format\":\"settee-journal/1\",\"n\":0,\"event\":\"spring\","
                           "\"date\":\"2026-05-17\",\"sum\":\"763a223e\"}";
enum { LENGTH = sizeof LINE - 1 };

/* Of its own size, so that a sanitizer sees a read past its end. */
static char *copy_of(const char *line, size_t length)
{
    char *copy = malloc(length);
    assert_non_null(copy);
    memcpy(copy, line, length);
    return copy;
}

static void flip(char *line, size_t bit) { line[bit / 8] = (char)(line[bit / 8] ^ 1 << bit % 8); }

static void one_bit_is_mended(void **state)
{
    (void)state;
    JournalHead head;
    Error fault = {0};
    bool foreign;
    assert_true(journal_header_read(LINE, LENGTH, &head, &foreign, &fault));
    for (size_t bit = 0; bit < 8 * LENGTH; bit++) {
        char *line = copy_of(LINE, LENGTH);
        flip(line, bit);
        assert_true(journal_line_mend(line, LENGTH));
        assert_memory_equal(line, LINE, LENGTH);
        free(line);
    }
}

/* The sum differs in four bits at least between two lines as short as these. */
static void two_bits_are_not(void **state)
{
    (void)state;
    Rng rng = rng_seed(17);
    for (int i = 0; i < 20000; i++) {
        size_t first = (size_t)rng_between(&rng, 0, 8 * LENGTH);
        size_t second = (size_t)rng_between(&rng, 0, 8 * LENGTH);
        if (first == second)
            continue;
        char *line = copy_of(LINE, LENGTH);
        flip(line, first);
        flip(line, second);
        assert_false(journal_line_mend(line, LENGTH));
        free(line);
    }
}

/* What a header says is read back, words of one letter too; what it leaves unsaid is not written.
 */
static void a_header_is_read_back(void **state)
{
    (void)state;
    for (int said = 0; said < 16; said++) {
        JournalHead head = {0}, back = {0};
        Error fault = {0};
        bool foreign = false;
        strcpy(head.event, "e");
        strcpy(head.date, "2026-05-17");
        strcpy(head.file, said & 1 ? "f" : "");
        strcpy(head.bag, said & 2 ? "b" : "");
        strcpy(head.pattern, said & 4 ? "p" : "");
        strcpy(head.bowler, said & 8 ? "w" : "");
        char *line = journal_header_line(&head);
        assert_non_null(line);
        size_t length = strcspn(line, "\n");
        assert_true(journal_header_read(line, length, &back, &foreign, &fault));
        assert_false(foreign);
        assert_string_equal(back.event, head.event);
        assert_string_equal(back.date, head.date);
        assert_string_equal(back.file, head.file);
        assert_string_equal(back.bag, head.bag);
        assert_string_equal(back.pattern, head.pattern);
        assert_string_equal(back.bowler, head.bowler);
        assert_int_equal(strstr(line, "\"bowler\"") != NULL, said >= 8);
        free(line);
    }
}

/* A sum of nothing is no line, whole or with a bit flipped. */
static void a_sum_alone_is_no_line(void **state)
{
    (void)state;
    static const char SUM[] = ",\"sum\":\"00000000\"}"; /* the CRC of no bytes is 0 */
    for (size_t bit = 0; bit <= 8 * (sizeof SUM - 1); bit++) {
        char *line = copy_of(SUM, sizeof SUM - 1);
        if (bit < 8 * (sizeof SUM - 1))
            flip(line, bit);
        assert_false(journal_line_mend(line, sizeof SUM - 1));
        free(line);
    }
}

/* Where the sum's digits belong are more digits, up to the last byte; a page that must not be read
 * follows. */
static void nothing_beyond_is_read(void **state)
{
    (void)state;
    static const size_t LENGTHS[] = {1, 18, 19, 40, JOURNAL_LINE_MAX};
    size_t page = (size_t)sysconf(_SC_PAGESIZE);
    assert_true(page >= JOURNAL_LINE_MAX);
    char *pages = mmap(NULL, 2 * page, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    assert_true(pages != MAP_FAILED);
    memset(pages, '0', page);
    assert_int_equal(mprotect(pages + page, page, PROT_NONE), 0);
    for (size_t i = 0; i < sizeof LENGTHS / sizeof *LENGTHS; i++)
        assert_false(journal_line_mend(pages + page - LENGTHS[i], LENGTHS[i]));
    assert_int_equal(munmap(pages, 2 * page), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_bit_is_mended), cmocka_unit_test(two_bits_are_not),
        cmocka_unit_test(a_header_is_read_back), cmocka_unit_test(a_sum_alone_is_no_line),
        cmocka_unit_test(nothing_beyond_is_read)};
    return cmocka_run_group_tests_name("journal lines", tests, NULL, NULL);
}
