/* test_date.c - which days there are. Source outside: the C library's calendar, by counting days
 * from 1970 both ways; and the Gregorian rule for leap years at the turns of centuries. */
#include "near.h"

#include <stdio.h>
#include <time.h>

#include "core/event/session.h"

/* A day is in the calendar if and only if counting days arrives at it. */
static void days_that_are_counted(void **state)
{
    (void)state;
    char date[48];
    int year = 1895, month = 1, day = 1;                     /* next that would be written */
    for (long long count = -27393; count < 47500; count++) { /* from 1895 to 2100 */
        time_t at = (time_t)(count * 86400);
        struct tm tm;
        assert_non_null(gmtime_r(&at, &tm));
        for (;; day++) { /* what the calendar passes over is no day */
            if (day > 31) {
                day = 1;
                year += month == 12;
                month = month % 12 + 1;
            }
            bool is = tm.tm_year + 1900 == year && tm.tm_mon + 1 == month && tm.tm_mday == day;
            snprintf(date, sizeof date, "%04d-%02d-%02d", year, month, day);
            if (event_is_date(date) != is)
                fail_msg("%s", date);
            if (is)
                break;
        }
        day++;
    }
}

static void centuries(void **state)
{
    (void)state;
    for (int year = 1600; year <= 2400; year += 100) {
        char date[16];
        snprintf(date, sizeof date, "%d-02-29", year);
        assert_int_equal(event_is_date(date), year % 400 == 0);
    }
}

static void how_a_date_is_written(void **state)
{
    (void)state;
    static const char *const BAD[] = {
        "",           "2026",       "2026-5-09",  "2026-05-9",  "2026-05-091", "02026-05-09",
        "2026/05-09", "2026-05/09", "2026-05-0x", "202x-05-09", "2026-x5-09",  "0000-01-01",
        "2026-00-09", "2026-13-09", "2026-05-00", "2026-05-32", " 026-05-09",  "2026-05- 9",
        "2026-+5-09"};
    for (size_t i = 0; i < sizeof BAD / sizeof *BAD; i++)
        if (event_is_date(BAD[i]))
            fail_msg("%s", BAD[i]);
    assert_true(event_is_date("0001-01-01") && event_is_date("9999-12-31"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(days_that_are_counted),
                                       cmocka_unit_test(centuries),
                                       cmocka_unit_test(how_a_date_is_written)};
    return cmocka_run_group_tests_name("date", tests, NULL, NULL);
}
