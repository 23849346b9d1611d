/* test_new.c - settee new: what it makes from options alone, and what it refuses. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/helper_run.h"
#include "core/bag/preset.h"
#include "core/event/stays.h"
#include "store/files.h"

static char home[] = "/tmp/settee-new-XXXXXX";
#define AT(...) run_at(home, NULL, (const char *const[]){__VA_ARGS__, NULL})

static void done(Run run)
{
    run_is(&run, 0);
    run_free(&run);
}

static void refused(Run run, int status, const char *words)
{
    run_is(&run, status);
    if (!strstr(run.fault, words))
        fail_msg("does not say \"%s\": %s", words, run.fault);
    run_free(&run);
}

/* Every level, style, hand and kind makes a bag that check takes and that says what was asked. */
static void every_preset_is_a_good_bag(void **state)
{
    (void)state;
    char name[64], path[256];
    for (const LevelPreset *level = LEVEL_PRESETS; level->name; level++)
        for (const StylePreset *style = STYLE_PRESETS; style->name; style++) {
            snprintf(name, sizeof name, "%s-%s", level->name, style->name);
            done(AT("new", "bag", name, "--level", level->name, "--style", style->name, "--hand",
                    "left"));
            snprintf(path, sizeof path, "%s/config/settee/bags/%s.json", home, name);
            done(AT("check", path));
            Bag bag;
            Error error = {0};
            assert_true(files_bag(path, &bag, &error));
            assert_int_equal(bag.bowler.hand, HAND_LEFT);
            assert_int_equal(bag.bowler.style, style->style);
            assert_near(bag.bowler.mph, level->mph, 0);
            assert_near(bag.bowler.rpm, level->revs * style->rpm, 1e-9);
            assert_true(bag_slot(&bag, 1) != NULL);
        }
    for (const BallPreset *kind = BALL_PRESETS; kind->name; kind++) {
        Bag bag;
        Error error = {0};
        assert_true(preset_balls(kind->name, 12.0, &bag, &error));
        assert_true(ball_sound(&bag.balls[0], "", &error));
        assert_true(bag.balls[0].rg_in >= BALL_RG_MIN_IN && bag.balls[0].rg_in <= BALL_RG_MAX_IN);
    }
}

/* Common practice, no source: from the strongest to the weakest as they stand in the table they
 * grip less or have less flare; a level that bowls less repeats less well. */
static void presets_are_in_order(void **state)
{
    (void)state;
    for (const LevelPreset *level = LEVEL_PRESETS; level[1].name; level++)
        assert_true(level->mph < level[1].mph);
    assert_true(preset_level("tournament")->scatter.launch_deg <
                preset_level("league")->scatter.launch_deg);
    assert_true(preset_level("league")->scatter.launch_deg <
                preset_level("junior")->scatter.launch_deg);
    assert_true(preset_style("stroker")->rpm < preset_style("tweener")->rpm);
    assert_true(preset_style("tweener")->rpm < preset_style("cranker")->rpm);
    assert_ptr_equal(preset_ball("plastic"), preset_ball("spare"));
    assert_ptr_equal(preset_ball("polyester"), preset_ball("spare"));
}

static void balls_take_slots_in_order(void **state)
{
    (void)state;
    Bag bag;
    Error error = {0};
    assert_true(
        preset_balls("pearl,pearl,hybrid pearl,spare,urethane, benchmark", 14.0, &bag, &error));
    assert_int_equal(bag.count, 7);
    assert_string_equal(bag.balls[1].id, "pearl-2");
    assert_string_equal(bag.balls[3].id, "pearl-3");
    assert_string_equal(bag.balls[3].name, "Pearl 3");
    assert_string_equal(bag_slot(&bag, 6)->id, "urethane");
    assert_int_equal(bag.balls[6].slot, 0); /* in the locker */
    assert_false(preset_balls(" ,", 14.0, &bag, &error));
}

static void an_event_can_be_played_at_once(void **state)
{
    (void)state;
    done(AT("new", "bag", "mine", "--level", "tournament"));
    done(AT("new", "event", "cup", "--bag", "mine", "--pattern", "apron", "--pair", "17,18",
            "--games", "6", "--bowlers", "5", "--certified", "--date", "2026-11-28"));
    char path[256];
    snprintf(path, sizeof path, "%s/config/settee/events/cup.json", home);
    done(AT("check", path));
    Run run = AT("home", "--json");
    run_is(&run, 0);
    assert_non_null(strstr(run.out, "\"cup\""));
    run_free(&run);
    run = AT("new", "event", "next", "--json", "--bag", "mine", "--date", "2026-11-29");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_string_equal(cJSON_GetObjectItem(object, "name")->valuestring, "next");
    cJSON_Delete(object);
    run_free(&run);
}

/* A bowler of the same numbers as in a bag, with the level's balls or another bag's. */
static void a_bowler(void **state)
{
    (void)state;
    Bag bag, other;
    Error error = {0};
    char path[256];
    done(AT("new", "bowler", "anna", "--bowler", "Anna", "--level", "tournament", "--hand", "left",
            "--mph", "19"));
    snprintf(path, sizeof path, "%s/config/settee/bags/anna.json", home);
    assert_true(files_bag(path, &bag, &error));
    assert_string_equal(bag.bowler.name, "Anna");
    assert_int_equal(bag.bowler.hand, HAND_LEFT);
    assert_near(bag.bowler.mph, 19.0, 0);
    assert_true(preset_balls(preset_level("tournament")->balls, preset_level("tournament")->pounds,
                             &other, &error));
    assert_int_equal(bag.count, other.count);
    done(AT("new", "bowler", "bo", "--bowler", "Bo", "--bag", "demo"));
    snprintf(path, sizeof path, "%s/config/settee/bags/bo.json", home);
    assert_true(files_bag(path, &bag, &error) && files_bag("demo", &other, &error));
    assert_string_equal(bag.bowler.name, "Bo");
    assert_int_equal(bag.count, other.count);
    assert_string_equal(bag.balls[0].id, other.balls[0].id);
    refused(AT("new", "bowler", "x1", "--balls", "hybrid"), 2, "--balls is of new bag");
    refused(AT("new", "bowler", "bo"), 1, "that name is taken");
}

static void an_event_that_moves(void **state)
{
    (void)state;
    done(AT("new", "event", "squads", "--bag", "demo", "--pattern", "about:house,39ft", "--pair",
            "7,8", "--move", "-2", "--house", "10", "--games", "5", "--warm-up"));
    EventInfo event;
    Error error = {0};
    char path[256];
    snprintf(path, sizeof path, "%s/config/settee/events/squads.json", home);
    assert_true(files_event(path, &event, &error));
    assert_string_equal(event.pattern, "about:house,39ft");
    assert_int_equal(event_pair(&event, 2)[0], 5);
    assert_int_equal(event_pair(&event, 5)[1], 10);
    assert_true(event.warm_up);
    refused(AT("new", "event", "x1", "--move", "-8"), 1, "game 2 would be on lane -7");
    refused(AT("new", "event", "x1", "--move", "99"), 2, "--move: found '99'");
    refused(AT("new", "event", "x1", "--house", "20"), 2, "--house goes with --move");
    refused(AT("new", "event", "x1", "--pattern", "about:41"), 2, "--pattern: found '41'");
    refused(AT("new", "bag", "x1", "--warm-up"), 2, "are of new event");
}

/* Strokes are words: with commas, or with spaces in one word. */
static void a_pattern(void **state)
{
    (void)state;
    done(AT("new", "pattern", "groyne", "--length", "41", "2L-2R,0-8,2.5", "10R-10L 36-8 1-3"));
    char path[256];
    Pattern pattern;
    Error error = {0};
    snprintf(path, sizeof path, "%s/config/settee/patterns/groyne.json", home);
    assert_true(files_pattern(path, &pattern, &error));
    assert_int_equal(pattern.stroke_count, 2);
    assert_near(pattern.length_ft, 41, 0);
    assert_int_equal(pattern.strokes[0].board_to, 38);
    assert_near(pattern.strokes[1].units_start, 3, 0);
    Run run = AT("new", "pattern", "loads", "--json", "2L-2R 4-34 3x45");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_string_equal(cJSON_GetObjectItem(object, "kind")->valuestring, "pattern");
    assert_near(cJSON_GetObjectItem(object, "volume_ml")->valuedouble, 3 * 0.045 * 37, 0.005);
    assert_near(cJSON_GetObjectItem(object, "length_ft")->valuedouble, 40, 0);
    cJSON_Delete(object);
    run_free(&run);
    done(AT("new", "event", "on-it", "--bag", "demo", "--pattern", "loads"));
    refused(AT("new", "pattern", "x1"), 2, "new pattern needs strokes, such as");
    refused(AT("new", "pattern", "x1", "2-38,0-8"), 2,
            "stroke 1: found '2-38,0-8'; allowed: the oil");
    refused(AT("new", "pattern", "x1", "2-38,0-41,1"), 2, "0 to 40, the length");
    refused(AT("new", "pattern", "x1", "--length", "19", "2-38,0-8,1"), 2, "--length: found");
    refused(AT("new", "pattern", "groyne", "2-38,0-8,1"), 1, "that name is taken");
    refused(AT("new", "bag", "x1", "--length", "40"), 2, "--length is of new pattern");
    refused(AT("new", "pattern", "x1", "--mph", "15", "2-38,0-8,1"), 2, "not to new pattern");
    refused(AT("new", "bag", "x1", "x2"), 2, "takes one name; found 'x2'");
}

static void what_is_wrong_is_said(void **state)
{
    (void)state;
    refused(AT("new"), 2, "allowed is bowler NAME, bag NAME, event NAME, or pattern NAME");
    refused(AT("new", "ball", "x"), 2, "found 'ball'; allowed is bowler NAME");
    refused(AT("new", "bag"), 2, "needs a name");
    refused(AT("new", "bag", "a/b"), 1, "allowed: letters, digits, - and _");
    refused(AT("new", "bag", "x1", "--hand", "both"), 2,
            "--hand: found 'both'; allowed: right, left");
    refused(AT("new", "bag", "x1", "--level", "god"), 2, "--level: found 'god'; allowed: junior");
    refused(AT("new", "bag", "x1", "--style", "smooth"), 2, "allowed: straight, stroker");
    refused(AT("new", "bag", "x1", "--balls", "hybrd"), 2, "did you mean 'hybrid'?");
    refused(AT("new", "event", "x1", "--pair", "3"), 2, "--pair: found '3'");
    refused(AT("new", "event", "x1", "--pair", "3,3"), 2, "--pair: found '3,3'");
    refused(AT("new", "event", "x1", "--date", "someday"), 2,
            "--date: found 'someday'; allowed: a day");
    refused(AT("new", "event", "x1", "--hand", "left"), 2, "--hand is of new bag");
    refused(AT("new", "event", "x1", "--mph", "15"), 2, "belongs to new bag");
    refused(AT("new", "bag", "x1", "--pair", "1,2"), 2, "--pair is of new event");
    refused(AT("new", "bag", "x1", "--games", "3"), 2, "are of new event");
    refused(AT("new", "event", "x1", "--pattern", "no-such"), 2, "no-such");
    refused(AT("new", "bag", "mine"), 1, "that name is taken");
    Run run = AT("check", "x1");
    assert_int_equal(run.status, 1); /* nothing was written under that name */
    run_free(&run);
}

static int make_home(void **state)
{
    (void)state;
    return mkdtemp(home) ? 0 : -1;
}

static int remove_home(void **state)
{
    (void)state;
    char command[64];
    snprintf(command, sizeof command, "rm -rf -- %s", home);
    return system(command);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_preset_is_a_good_bag),
        cmocka_unit_test(presets_are_in_order),
        cmocka_unit_test(balls_take_slots_in_order),
        cmocka_unit_test(an_event_can_be_played_at_once),
        cmocka_unit_test(a_bowler),
        cmocka_unit_test(an_event_that_moves),
        cmocka_unit_test(a_pattern),
        cmocka_unit_test(what_is_wrong_is_said),
    };
    return cmocka_run_group_tests(tests, make_home, remove_home);
}
