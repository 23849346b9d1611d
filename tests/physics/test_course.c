/* The course of a block: six bowlers on the pair, seven games. What must come of it is
 * common practice, no source; the model is told none of it. */
#include "near.h"

#include <stdio.h>

#include "core/arsenal/lane_states.h"
#include "core/line/line.h"
#include "core/motion/wear.h"
#include "store/files.h"
#include "traffic.h"

enum { GAMES = 7, OTHERS = 5 };

static Bag BAG;
static Oil SHEET;
static MotionBody BODY[BAG_SLOTS];

typedef struct Course {
    Line line[GAMES + 1][BAG_SLOTS]; /* each ball's best line before each game */
    Oil oil[GAMES + 1];
} Course;
static Course COURSE;

static Line best_line(int slot, const Oil *oil)
{
    Delivery usual = delivery_of(&BAG.bowler, 26.0, 15.0);
    return line_best(&BODY[slot], oil, &BAG.bowler, &usual, 14.0, 34.0);
}

/* A game: the best ball is thrown on its best line, five others throw theirs. */
static void play_game(Oil *oil, Others *others, int game, const Line lines[BAG_SLOTS])
{
    int best = 0;
    for (int slot = 1; slot < BAG_SLOTS - 1; slot++)
        if (line_value(&lines[slot]) > line_value(&lines[best]))
            best = slot;
    Delivery delivery = delivery_of(&BAG.bowler, lines[best].stance, lines[best].aim);
    GameWear wear = {&BAG.bowler, &BODY[best], bag_slot(&BAG, best + 1)->cover, &delivery, {1, 1}};
    block_wear(oil, others, &wear, game % 2 ? SIDE_RIGHT : SIDE_LEFT);
}

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    Pattern pattern;
    if (!files_bag("demo", &BAG, &error) || !files_pattern("apron", &pattern, &error))
        return -1;
    oil_lay(&pattern, &SHEET);
    for (int i = 0; i < BAG_SLOTS; i++)
        motion_body(bag_slot(&BAG, i + 1), &BODY[i]);
    static Others others;
    others_begin(&others, NULL, OTHERS, BAG.bowler.hand, 1, 0);
    COURSE.oil[0] = SHEET;
    for (int game = 0; game <= GAMES; game++) {
        for (int slot = 0; slot < BAG_SLOTS; slot++)
            COURSE.line[game][slot] = best_line(slot, &COURSE.oil[game]);
        if (game == GAMES)
            break;
        COURSE.oil[game + 1] = COURSE.oil[game];
        play_game(&COURSE.oil[game + 1], &others, game, COURSE.line[game]);
    }
    for (int game = 0; game <= GAMES; game++) {
        printf("game %d, %.1f mL:", game + 1, oil_volume_ml(&COURSE.oil[game]));
        for (int slot = 0; slot < BAG_SLOTS; slot++) {
            const Line *line = &COURSE.line[game][slot];
            printf("  %d: lay %.0f pocket %2.0f entry %.1f", slot + 1, line->laydown_board,
                   100.0 * line->pocket, line->entry_deg);
        }
        printf("\n");
    }
    return 0;
}

static void test_same_line_goes_higher(void **state)
{
    (void)state;
    const Line *first = &COURSE.line[0][0];
    Delivery delivery = delivery_of(&BAG.bowler, first->stance, first->aim);
    double last = first->entry_board;
    for (int game = 1; game <= 3; game++) {
        Arrival arrival = motion_arrive(&BODY[0], &COURSE.oil[game], &delivery);
        assert_false(arrival.gutter);
        printf("after game %d it hits %+.1f boards\n", game, arrival.board - first->entry_board);
        if (game > 1) /* carrydown may outweigh the first game's burn */
            assert_less(last, arrival.board);
        last = arrival.board;
    }
    assert_less(first->entry_board + 1.0, last);
}

/* Plastic takes nothing up and lays it down again: later the ball arrives lighter than it would
 * have on the lane that reactive balls had left. */
static void test_hard_covers_carry_down(void **state)
{
    (void)state;
    Oil soft = SHEET, hard = SHEET;
    const Line *line = &COURSE.line[0][0];
    Delivery delivery = delivery_of(&BAG.bowler, line->stance, line->aim);
    Roll roll;
    motion_roll(&BODY[0], &SHEET, &delivery, &roll);
    for (int i = 0; i < 40; i++) {
        wear_delivery(&soft, &roll, COVER_SOLID, 0.5 * traffic_shift(i));
        wear_delivery(&hard, &roll, COVER_POLYESTER, 0.5 * traffic_shift(i));
    }
    assert_less(motion_arrive(&BODY[0], &hard, &delivery).board,
                motion_arrive(&BODY[0], &soft, &delivery).board);
    double beyond_soft = 0.0, beyond_hard = 0.0; /* oil past the sheet's end */
    for (int j = 84; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++) {
            beyond_soft += soft.units[j][b];
            beyond_hard += hard.units[j][b];
        }
    assert_less(1.5 * beyond_soft, beyond_hard);
}

static void test_best_laydown_moves_inside(void **state)
{
    (void)state;
    double moved = COURSE.line[GAMES][0].laydown_board - COURSE.line[0][0].laydown_board;
    printf("strong ball's best laydown moved %.0f boards in over %d games\n", moved, GAMES);
    assert_true(moved / GAMES >= 0.7 && moved / GAMES <= 2.0); /* the wear was fitted to this */
}

/* Strength: entry angle, the figure by which a strong ball is known. Which ball is best goes toward
 * the weaker ones. */
static void test_best_ball_gets_weaker(void **state)
{
    (void)state;
    double early = 0.0, late = 0.0;
    for (int game = 0; game <= GAMES; game++) {
        int best = 0;
        for (int slot = 1; slot < BAG_SLOTS - 1; slot++)
            if (line_value(&COURSE.line[game][slot]) > line_value(&COURSE.line[game][best]))
                best = slot;
        printf("game %d: best is slot %d\n", game + 1, best + 1);
        *(game < 3 ? &early : &late) += (best + 1) / (game < 3 ? 3.0 : GAMES - 2.0);
    }
    assert_true(late >= early);
}

static void test_strong_ball_loses_angle(void **state)
{
    (void)state;
    assert_less(COURSE.line[5][0].entry_deg, COURSE.line[0][0].entry_deg);
}

static void test_oil_only_goes(void **state)
{
    (void)state;
    for (int game = 1; game <= GAMES; game++)
        assert_less(oil_volume_ml(&COURSE.oil[game]), oil_volume_ml(&COURSE.oil[game - 1]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_same_line_goes_higher),
        cmocka_unit_test(test_hard_covers_carry_down),
        cmocka_unit_test(test_best_laydown_moves_inside),
        cmocka_unit_test(test_best_ball_gets_weaker),
        cmocka_unit_test(test_strong_ball_loses_angle),
        cmocka_unit_test(test_oil_only_goes),
    };
    return cmocka_run_group_tests(tests, set_up, NULL);
}
