/* test_rehearse_stage.c - a rehearsal as a stage, with a clock of the test's own: the block that is
 * bowled on it is the one that players play, the truth is not told, and what it came to is kept. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/files.h"
#include "ui/input/keys.h"
#include "ui/ui_rehearse.h"

static int rolled_ms; /* ticks given */
static int kept;
static RehearsalRecord last;
static RuleSet rules;
static Theme theme;
static StageLook look;
static const UiName BAGS[] = {{"demo", false}, {"demo-left", false}};
static const UiName PATTERNS[] = {{"apron", false}, {"mine", true}, {"kerb", false}};
static Canvas canvas;
static char *shown; /* heap */

/* Of the demo's bag two balls, to be quick. */
static bool load(void *context, const char *bag, const char *pattern, Bag *into_bag,
                 Pattern *into_pattern, Error *error)
{
    (void)context;
    if (!files_bag(bag, into_bag, error) || !files_pattern(pattern, into_pattern, error))
        return false;
    for (int i = 0; i < into_bag->count; i++)
        if (into_bag->balls[i].slot != 2 && into_bag->balls[i].slot != 4)
            into_bag->balls[i].slot = 0;
    return true;
}

static bool keep(void *context, const RehearsalRecord *record, Error *error)
{
    (void)context, (void)error;
    last = *record;
    kept++;
    return true;
}

static UiRehearsal host_of(uint64_t seed)
{
    return (UiRehearsal){.look = &look,
                         .rules = &rules,
                         .bags = BAGS,
                         .patterns = PATTERNS,
                         .bag_count = 2,
                         .pattern_count = 3,
                         .games = 1,
                         .bowlers = 1,
                         .seed = seed,
                         .load = load,
                         .keep = keep};
}

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    theme = theme_plain();
    look = (StageLook){.themes = &theme, .theme_count = 1, .glyphs = &GLYPHS_UTF8};
    return files_rules("coach", &rules, &error) ? 0 : -1;
}

static int tear_down(void **state)
{
    (void)state;
    canvas_fini(&canvas);
    free(shown);
    return 0;
}

/* What the screen shows; nothing is drawn outside it. */
static const char *screen(Stage *stage)
{
    canvas_erase(&canvas);
    stage->kind->draw(stage, &canvas);
    stage->draw = stage->all = false;
    assert_int_equal(canvas.spilled, 0);
    size_t size = canvas_plain(&canvas, NULL, 0) + 1;
    free(shown);
    shown = malloc(size);
    assert_non_null(shown);
    canvas_plain(&canvas, shown, size);
    return shown;
}

static void shows(Stage *stage, const char *text)
{
    if (!strstr(screen(stage), text))
        fail_msg("\"%s\" is not on the screen:\n%s", text, shown);
}

static void resize(Stage *stage, int columns, int rows)
{
    canvas_fini(&canvas);
    assert_true(canvas_init(&canvas, columns, rows));
    stage->kind->size(stage, columns, rows);
}

static void press(Stage *stage, uint32_t key) { stage->kind->key(stage, key); }

static void settle(Stage *stage)
{
    for (int steps = 0; stage->busy || stage->tick_ms; steps++) {
        assert_true(steps < 1000000);
        rolled_ms += stage->tick_ms;
        if (stage->tick_ms)
            stage->kind->tick(stage, stage->tick_ms);
        if (stage->busy)
            stage->kind->step(stage);
    }
}

static Stage *start(UiRehearsal *host, int columns, int rows)
{
    Stage *stage = rehearse_stage_new(host);
    assert_non_null(stage);
    resize(stage, columns, rows);
    return stage;
}

static Rehearsal *played_by(const Player *player, uint64_t seed)
{
    static Bag bag;
    static Pattern pattern;
    RehearseJob *job = rehearse_new();
    Rehearsal *block = malloc(sizeof *block);
    Error error = {0};
    assert_true(job && block && load(NULL, "demo", "apron", &bag, &pattern, &error));
    RehearseSetup setup = {.bag = &bag,
                           .pattern = &pattern,
                           .rules = &rules,
                           .world = &WORLD_KIN,
                           .player = player,
                           .games = 1,
                           .bowlers_on_pair = 1,
                           .seed = seed};
    rehearse_play(job, &setup, block);
    rehearse_free(job);
    return block;
}

static void type(Stage *stage, const char *text)
{
    for (; *text; text++)
        press(stage, (unsigned char)*text);
}

/* A friend's block by its two words, with a hyphen or a space, or its number; what is no block
 * stays to be corrected, and letters are no other keys meanwhile. */
static void a_block_is_typed(void **state)
{
    (void)state;
    UiRehearsal host = host_of(7);
    Stage *stage = start(&host, 80, 24);
    assert_null(strstr(screen(stage), "hungry-owl"));
    type(stage, "bhungri owlq");
    press(stage, PRESS_BACKSPACE);
    press(stage, PRESS_ENTER);
    shows(stage, "No block is called hungri-owl; did you mean hungry-owl?");
    press(stage, PRESS_ESC);
    assert_false(stage->end);
    assert_null(strstr(screen(stage), "hungri"));
    type(stage, "bHungry owl\r");
    shows(stage, "hungry-owl");
    type(stage, "bno such block at all\r");
    shows(stage, "is no block's name; amber-otter is one");
    press(stage, PRESS_ESC);
    type(stage, "b70000\r");
    shows(stage, "70000");
    type(stage, "b0\r");
    shows(stage, "two words, such as amber-otter");
    for (int i = 0; i < 30; i++)
        type(stage, "\b");
    type(stage, "5\r");
    shows(stage, "hungry-owl");
    rehearse_stage_free(stage);
}

/* Held on the screen, a block is the one that hold plays; the answers are counted where they are
 * asked for; the ball rolls for as long as it takes, and the page at the end has it all. */
static void a_whole_block(void **state)
{
    (void)state;
    UiRehearsal host = host_of(5);
    Stage *stage = start(&host, 80, 24);
    shows(stage, "Block");
    shows(stage, "hungry-owl");
    press(stage, PRESS_ENTER);
    settle(stage);
    shows(stage, "The answers are hidden");
    assert_null(strstr(shown, "strike"));
    press(stage, 'a'); /* there is nothing to take */
    assert_true(stage->bell);
    stage->bell = false;
    shows(stage, "h shows them first");
    press(stage, 'h');
    shows(stage, "strike");
    press(stage, 'h'); /* a second look at the same throw */
    Rehearsal *hold = played_by(&PLAYER_HOLD, 5);
    for (int i = 0; i < hold->shot_count; i++) {
        int began = rolled_ms;
        press(stage, PRESS_ENTER);
        assert_true(stage->tick_ms > 0);
        if (i == 0) { /* in real time: some 2.4 seconds for 60 ft at 17 mph */
            shows(stage, "The ball is on its way");
            assert_null(strstr(shown, "1L"));
            settle(stage);
            assert_in_range(rolled_ms - began, 1800, 3500);
            shows(stage, "The answers are hidden"); /* again, for the next throw */
        } else {
            press(stage, i % 2 ? PRESS_ENTER : ' '); /* not waited for */
            assert_int_equal(rolled_ms, began);
            assert_int_equal(stage->tick_ms, 0);
        }
    }
    settle(stage);
    shows(stage, "Enter shows what your decisions cost");
    kept = 0;
    press(stage, PRESS_ENTER);
    settle(stage);
    assert_int_equal(kept, 1);
    assert_string_equal(last.player, RECORD_YOU);
    assert_string_equal(last.bowler, "Imre Holloway");
    assert_int_equal(last.games, 1);
    assert_int_equal(last.game[0].score, hold->score[0]);
    assert_int_equal(last.help, 1);
    assert_true(last.game[0].best > last.game[0].expected);
    shows(stage, "You looked at the answers before 1 of ");
    shows(stage, "Block hungry-owl on Apron, 40 ft");
    char text[64] = "";
    text_append(text, sizeof text, "On the same block: you %.0f, hold %.0f, the program",
                hold->mean_pins, hold->mean_pins);
    shows(stage, text);
    for (int i = 0; i < 40; i++)
        press(stage, PRESS_DOWN);
    shows(stage, "before game 1, left: 1-5 ");
    press(stage, 'r');
    shows(stage, "Enter bowl");
    press(stage, 'q');
    assert_true(stage->end);
    rehearse_stage_free(stage);
    free(hold);
}

/* What a rehearsal is, is said whole where there is room, and not at all where there is none. */
static void the_first_page_is_whole(void **state)
{
    (void)state;
    UiRehearsal host = host_of(7);
    Stage *stage = start(&host, 80, 24);
    for (int columns = 40; columns <= 120; columns += 10)
        for (int rows = 12; rows <= 40; rows++) {
            resize(stage, columns, rows);
            bool begins = strstr(screen(stage), "You decide as in play") != NULL;
            assert_true(begins || columns < 80 || rows < 24);
            if (begins)
                shows(stage, "lane.\n");
            shows(stage, "Block");
            shows(stage, "Enter bowl");
        }
    rehearse_stage_free(stage);
}

/* M during a block: the next ball is not shown on its way, though the block began with rolling. */
static void motion_is_turned_off_during_a_block(void **state)
{
    (void)state;
    UiRehearsal host = host_of(7);
    Stage *stage = start(&host, 80, 24);
    press(stage, PRESS_ENTER);
    settle(stage);
    press(stage, 'M');
    assert_true(stage->look->still);
    shows(stage, "Motion is off");
    press(stage, PRESS_ENTER);
    shows(stage, "frame 2");
    press(stage, 'M');
    assert_false(stage->look->still);
    press(stage, PRESS_ENTER);
    shows(stage, "The ball is on its way");
    press(stage, 'q');
    rehearse_stage_free(stage);
}

/* Practice comes first and is not scored; a plan that was changed is what is thrown. */
static void practice_and_a_move(void **state)
{
    (void)state;
    UiRehearsal host = host_of(7);
    host.still = true;
    Stage *stage = start(&host, 120, 40);
    for (int i = 0; i < 4; i++)
        press(stage, PRESS_DOWN);
    press(stage, PRESS_RIGHT); /* two practice balls */
    press(stage, PRESS_ENTER);
    settle(stage);
    shows(stage, "warm-up");
    press(stage, '4');
    press(stage, PRESS_ENTER);
    shows(stage, " -L 4 ");
    shows(stage, "warm-up");
    press(stage, PRESS_ENTER);
    shows(stage, " -R 4 "); /* before the first ball a plan is for both lanes */
    shows(stage, "game 1/1  frame 1");
    press(stage, PRESS_TAB);
    press(stage, PRESS_ENTER);
    shows(stage, "It is the other lane's turn");
    press(stage, PRESS_TAB);
    press(stage, PRESS_ENTER);
    shows(stage, "frame 2");
    kept = 0;
    press(stage, 'q'); /* no game was bowled to its end */
    settle(stage);
    shows(stage, "nothing to judge");
    assert_int_equal(kept, 0);
    assert_false(stage->end);
    rehearse_stage_free(stage);
}

/* "Surprise me" is the same for everybody: of the built-in patterns, by the block's words. */
static void surprises_are_shared(void **state)
{
    (void)state;
    UiRehearsal host = host_of(9);
    host.pattern = -1;
    Stage *stage = start(&host, 80, 24);
    shows(stage, "surprise me");
    press(stage, PRESS_ENTER);
    settle(stage);
    bool apron = strstr(screen(stage), "Apron") != NULL;
    assert_true(apron || strstr(shown, "Kerb"));
    rehearse_stage_free(stage);
    stage = start(&host, 120, 40);
    press(stage, PRESS_ENTER);
    settle(stage);
    shows(stage, apron ? "Apron" : "Kerb");
    rehearse_stage_free(stage);
}

/* No size spills or ends it, and a bag that can't be loaded leads back to the choices. */
static bool fail_to_load(void *context, const char *bag, const char *pattern, Bag *into_bag,
                         Pattern *into_pattern, Error *error)
{
    (void)context, (void)bag, (void)pattern, (void)into_bag, (void)into_pattern;
    return error_set(error, "the disk is gone");
}

static void sizes_and_faults(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{80, 24}, {40, 12}, {10, 3}, {200, 60}};
    UiRehearsal host = host_of(11);
    Stage *stage = start(&host, 80, 24);
    host.load = fail_to_load;
    press(stage, PRESS_ENTER);
    settle(stage);
    shows(stage, "the disk is gone");
    host.load = load;
    for (size_t i = 0; i < 4; i++) {
        resize(stage, SIZES[i][0], SIZES[i][1]);
        screen(stage);
    }
    press(stage, PRESS_ENTER);
    settle(stage);
    press(stage, PRESS_ENTER);
    for (size_t i = 0; i < 4; i++) {
        resize(stage, SIZES[i][0], SIZES[i][1]);
        screen(stage);
        stage->kind->step(stage);
    }
    rehearse_stage_free(stage);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_block_is_typed),
                                       cmocka_unit_test(a_whole_block),
                                       cmocka_unit_test(practice_and_a_move),
                                       cmocka_unit_test(the_first_page_is_whole),
                                       cmocka_unit_test(motion_is_turned_off_during_a_block),
                                       cmocka_unit_test(surprises_are_shared),
                                       cmocka_unit_test(sizes_and_faults)};
    return cmocka_run_group_tests_name("rehearse stage", tests, set_up, tear_down);
}
