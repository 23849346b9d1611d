/* What a forecast makes of its draws: chances are over all of them, gutter balls too; means over
 * those that reach the pins. Pinned arithmetic, no source outside. */
#include "near.h"

#include <stdlib.h>

#include "core/advice/forecast.h"

static void gutter_balls_count_against_every_chance(void **state)
{
    (void)state;
    Forecast *forecast = calloc(1, sizeof *forecast);
    Arrival *arrivals = calloc(FORECAST_DRAWS, sizeof *arrivals);
    assert_true(forecast && arrivals);
    Delivery delivery = {.laydown_board = 20.0};
    forecast->smooth_boards = 0.3;
    for (int i = 0; i < FORECAST_DRAWS; i++)
        arrivals[i] = (Arrival){
            .board = 17.5, .degrees = 5.0, .mph = 16.5, .hook_ft = 40.0, .breakpoint = 8.0};
    Outlook all = forecast_sum(forecast, 0, 15.0, &delivery, 1, arrivals);
    for (int i = 0; i < FORECAST_DRAWS; i += 2)
        arrivals[i].gutter = true;
    Outlook half = forecast_sum(forecast, 0, 15.0, &delivery, 1, arrivals);
    assert_true(all.pocket > 0.9 && all.strike > 0.3);
    assert_near(half.pocket, 0.5 * all.pocket, 1e-12);
    assert_near(half.strike, 0.5 * all.strike, 1e-12);
    assert_near(half.pinfall, 0.5 * all.pinfall, 1e-12);
    assert_near(half.board, all.board, 1e-12);
    assert_near(half.degrees, all.degrees, 1e-12);
    free(forecast);
    free(arrivals);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(gutter_balls_count_against_every_chance)};
    return cmocka_run_group_tests_name("forecast", tests, NULL, NULL);
}
