/* What a forecast makes of its draws: chances are over all of them, gutter balls too; means over
 * those that reach the pins. Arithmetic, no source outside. */
#include "near.h"

#include <stdlib.h>

#include "core/advice/forecast.h"
#include "core/pins/rack.h"

static Forecast *on_a_dry_lane(void)
{
    Forecast *forecast = calloc(1, sizeof *forecast);
    assert_non_null(forecast);
    Oil dry = {.length_ft = 40.0};
    Bowler bowler = bowler_default();
    forecast_of_truth(forecast, &dry, bowler.mph, 0.0, &bowler);
    return forecast;
}

static void gutter_balls_count_against_every_chance(void **state)
{
    (void)state;
    Forecast *forecast = on_a_dry_lane();
    static Arrival arrivals[FORECAST_DRAWS];
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
    assert_near(half.strike, 0.5 * all.strike, 1e-3); /* a draw's nodes lie elsewhere */
    assert_near(half.pinfall, 0.5 * all.pinfall, 1e-3);
    assert_near(half.board, all.board, 1e-12);
    assert_near(half.degrees, all.degrees, 1e-12);
    free(forecast);
}

/* The nodes stand in for a bell: strikes and pins over them are those over a fine sum of it. */
static void a_spread_is_summed_up(void **state)
{
    (void)state;
    Forecast *forecast = on_a_dry_lane();
    static Arrival arrivals[FORECAST_DRAWS];
    Delivery delivery = {.laydown_board = 20.0};
    for (double sd = 0.5; sd < 3.1; sd += 0.5)
        for (double board = 14.0; board < 22.0; board += 0.5) {
            double strike = 0.0, pins = 0.0, weights = 0.0;
            for (double z = -5.0; z < 5.0; z += 0.01) {
                double weight = exp(-0.5 * z * z), at = board + sd * z;
                weights += weight;
                strike += weight * rack_strike(at, 5.0, 16.5, 15.0);
                pins += weight * rack_pinfall(at, 5.0, 16.5, 15.0);
            }
            for (int i = 0; i < FORECAST_DRAWS; i++)
                arrivals[i] = (Arrival){.board = board, .degrees = 5.0, .mph = 16.5};
            forecast->smooth_boards = sd;
            Outlook sum = forecast_sum(forecast, 0, 15.0, &delivery, 1, arrivals);
            assert_near(sum.strike, strike / weights, 0.01);
            assert_near(sum.pinfall, pins / weights, 0.05);
            assert_near(sum.board, board, 1e-9);
        }
    free(forecast);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(gutter_balls_count_against_every_chance),
                                       cmocka_unit_test(a_spread_is_summed_up)};
    return cmocka_run_group_tests_name("forecast", tests, NULL, NULL);
}
