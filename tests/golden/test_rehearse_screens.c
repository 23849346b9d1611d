/* test_rehearse_screens.c - the screens of a rehearsal as text, on numbers made by hand: what is
 * chosen, the hidden answers, the ball on its way, what it came to. */
#include "golden/helper_golden.h"

#include "ui/rehearse/rehearse_choices.h"
#include "ui/rehearse/rehearse_end.h"

static const int SIZES[][2] = {{80, 24}, {120, 40}, {40, 12}};

static void compare_canvas(const char *what, int size, void (*draw)(Canvas *canvas))
{
    Canvas canvas = {0};
    char name[64];
    assert_true(canvas_init(&canvas, SIZES[size][0], SIZES[size][1]));
    canvas_erase(&canvas);
    draw(&canvas);
    assert_int_equal(canvas.spilled, 0);
    size_t bytes = canvas_plain(&canvas, NULL, 0) + 1;
    char *text = malloc(bytes);
    assert_non_null(text);
    canvas_plain(&canvas, text, bytes);
    snprintf(name, sizeof name, "rehearse-%s-%dx%d", what, SIZES[size][0], SIZES[size][1]);
    compare_text(name, text);
    free(text);
    canvas_fini(&canvas);
}

static void draw_choices(Canvas *canvas)
{
    static const UiName BAGS[] = {{"mine", true}}, PATTERNS[] = {{"quay", false}};
    StageLook look = {.glyphs = &GLYPHS_UTF8};
    UiRehearsal host = {.look = &look,
                        .bags = BAGS,
                        .patterns = PATTERNS,
                        .bag_count = 1,
                        .pattern_count = 1,
                        .pattern = -1,
                        .games = 3,
                        .bowlers = 4,
                        .seed = 16510};
    Choices choices = choices_begin(&host);
    choices.row = CHOICE_WORLD;
    choices_act(&choices, &host, ACT_MORE);
    choices_draw(&choices, &host, &GLYPHS_UTF8, canvas, "");
}

static void what_is_chosen(void **state)
{
    (void)state;
    compare_canvas("choices", 0, draw_choices);
    compare_canvas("choices", 1, draw_choices);
    compare_canvas("choices", 2, draw_choices);
}

static void the_lane(void **state)
{
    (void)state;
    for (int size = 0; size < 3; size++) {
        Pinned *pinned = playing(HAND_RIGHT, SIZES[size][0], SIZES[size][1]);
        Model *model = &pinned->model;
        char name[64];
        model->rehearsing.on = true;
        snprintf(name, sizeof name, "rehearse-hidden-%dx%d", SIZES[size][0], SIZES[size][1]);
        compare(name, model);
        Roll roll;
        pinned_path(&roll, 22.0, 8.0);
        update(model, (Msg){.kind = MSG_ROLL, .roll = &roll, .ft = 47.0});
        snprintf(name, sizeof name, "rehearse-roll-%dx%d", SIZES[size][0], SIZES[size][1]);
        compare(name, model);
        Plan plan = pinned->session.plan[pinned->session.lane];
        Shot shot = session_shot(pinned->session.lane, &plan);
        shot.hit = HIT_LIGHT;
        shot.read = READ_LATE;
        shot.release = RELEASE_FAST;
        shot.mph = 18.4;
        shot.left_said = shot.spare_said = true;
        shot.left = pin_bit(7) | pin_bit(10);
        shot.spare_left = pin_bit(7);
        update(model, (Msg){.kind = MSG_SEEN, .shot = &shot});
        snprintf(name, sizeof name, "rehearse-seen-%dx%d", SIZES[size][0], SIZES[size][1]);
        compare(name, model);
        free(pinned);
    }
}

static Pinned pinned;
static Rehearsal block;
static Judgement judgement;

static Judged judged(double cost, int slot, double stance, double aim, double board, double strike)
{
    return (Judged){.better = {.slot = slot, .stance = stance, .aim = aim},
                    .as_chosen = {.board = board, .board_sd = 1.5, .degrees = 4.2, .strike = 0.31},
                    .as_better = {.board = 17.6, .board_sd = 1.0, .degrees = 5.0, .strike = strike},
                    .cost = cost};
}

static void draw_end(Canvas *canvas)
{
    static RehearseSetup setup;
    static EndPage page;
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    setup = (RehearseSetup){.bag = &pinned.session.bag,
                            .pattern = &pinned.session.pattern,
                            .world = &WORLD_TILTED,
                            .seed = 16510};
    memset(&block, 0, sizeof block);
    memset(&judgement, 0, sizeof judgement);
    block.games = judgement.games = 1;
    block.shot_count = judgement.count = 11;
    block.score[0] = 187;
    block.mean_pins = 187.0;
    judgement.game[0] = (JudgedGame){{190.2, 181.4}, {231.5, 187.5}};
    for (int i = 0; i < block.shot_count; i++) {
        Shot shot = session_shot(i % 2 ? SIDE_RIGHT : SIDE_LEFT,
                                 &(Plan){.slot = 1, .stance = 28.0, .aim = 14.5});
        block.shots[i] = (RehearseShot){.game = 1, .frame = i < 10 ? i + 1 : 10, .shot = shot};
        judgement.decisions[i].film = 0.7;
        judgement.decisions[i].by[JUDGE_LANE] = judged(1.0 + i, 3, 31.0, 16.0, 20.1, 0.66);
        judgement.decisions[i].by[JUDGE_BELIEF] = judged(i == 9 ? 0.1 : 1.0, 1, 28, 14, 18, 0.3);
    }
    page = (EndPage){.setup = &setup,
                     .block = &block,
                     .judgement = &judgement,
                     .help = 2,
                     .others = 2,
                     .other = {&PLAYER_HOLD, &PLAYER_ADVISOR},
                     .other_pins = {171.0, 209.0},
                     .done = true};
    page.dearest_count = judge_dearest(&judgement, 0.05, page.dearest, END_DEAREST);
    for (int b = 0; b < LANE_BOARDS; b++) {
        page.sheet[b] = 10.0;
        page.game_film[0][b] = 10.0 + 0.1 * b;
        for (int k = 0; k < END_DEAREST; k++)
            page.dear_film[k][b] = 10.0 - 0.2 * k - (b > 7 && b < 13 ? 3.0 : 0.0);
    }
    end_draw(&page, &GLYPHS_UTF8, canvas, "");
    assert_true(end_lines(&page, canvas->columns) > end_room(24));
}

static void what_it_came_to(void **state)
{
    (void)state;
    compare_canvas("end", 0, draw_end);
    compare_canvas("end", 1, draw_end);
    compare_canvas("end", 2, draw_end);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(what_is_chosen), cmocka_unit_test(the_lane),
                                       cmocka_unit_test(what_it_came_to)};
    return cmocka_run_group_tests_name("rehearsal's screens", tests, NULL, NULL);
}
