/* test_stage.c - the loop between the terminal and a stage, here an event, on a terminal made of
 * functions here in the place of curses: what is asked of it, and in which order. */
#include "near.h"

#include <signal.h>
#include <string.h>

#include "base/text.h"
#include "core/line/first.h"
#include "ui/fake_term.h"
#include "ui/pinned.h"
#include "ui/ui.h"

/* ---- the terminal ---- */

/* Each look at it takes 20 ms. */
static long hasty_clock(void)
{
    static long clock;
    return clock += 20;
}

/* The linker sends calls of calloc here: they fail while `starved`. */
static bool resized, starved;
void *__real_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size)
{
    return starved ? NULL : __real_calloc(count, size);
}

/* To a size for which there is no memory. */
static bool is_resized(void)
{
    bool was = resized;
    starved = was;
    resized = false;
    fake.columns = was ? 120 : fake.columns;
    return was;
}

/* ---- the program on it ---- */

static Pinned pinned;
static Entry kept[8];
static int kept_count;

static const char *news_of_keeping = "";

static bool keep(void *context, const Entry *entry, char *news, size_t size, Error *error)
{
    (void)context;
    (void)error;
    text_copy(news, size, news_of_keeping);
    if (kept_count < 8)
        kept[kept_count++] = *entry;
    return true;
}

static void forget(void)
{
    fake_forget();
    kept_count = 0;
}

/* On the session that `pinned` holds; how it ended. */
static StageEnd run_to_end(uint32_t (*key)(void), int (*ending)(void))
{
    forget();
    fake.key = key;
    fake.ending = ending;
    fake.clock = hasty_clock;
    fake.resized = is_resized;
    Error error = {0};
    StageLook look = {.themes = &pinned.theme, .theme_count = 1};
    UiHost host = {.session = &pinned.session,
                   .rules = &pinned.rules,
                   .look = &look,
                   .notice = "",
                   .keep = keep};
    assert_true(stage_open(&look, &error));
    StageEnd end = ui_event(&host, &error);
    assert_int_equal(error.text[0] != '\0', end == STAGE_FAILED);
    stage_close();
    return end;
}

static void run(uint32_t (*key)(void), int (*ending)(void))
{
    assert_int_equal(run_to_end(key, ending), STAGE_STOPPED);
}

static uint32_t typed(const char *keys)
{
    return fake.keys < (int)strlen(keys) ? (unsigned char)keys[fake.keys] : PRESS_NONE;
}

/* ---- tests ---- */

enum { MANY = 1000, FAR_TOO_MANY = 100000 };

static uint32_t no_pause(void) { return fake.keys < FAR_TOO_MANY ? 'z' : 'q'; }
static int after_many_keys(void) { return fake.keys >= MANY ? SIGTERM : 0; }

static void keys_without_a_pause_hold_up_nothing(void **state)
{
    (void)state;
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    run(no_pause, after_many_keys);
    assert_in_range(fake.keys, MANY, MANY + 1); /* a signal is seen at once */
    assert_true(fake.draws >= MANY / 100);
}

/* A session whose first plan is not known yet, and what it must become. */
static Plan begin_without_plan(void)
{
    static const Plan unknown = {0};
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    EventInfo event = pinned.session.event;
    Bag bag = pinned.session.bag;
    Pattern pattern = pinned.session.pattern;
    session_begin(&pinned.session, &event, &bag, &pattern, &unknown);
    Oil sheet, oil;
    oil_lay(&pattern, &sheet);
    oil_for_hand(&sheet, bag.bowler.hand, &oil);
    return first_plan(&bag, &oil);
}

static bool same_line(const Plan *plan, int slot, double stance, double aim)
{
    return plan->slot == slot && plan->stance == stance && plan->aim == aim;
}

static uint32_t a_shot_at_once(void) { return typed("heg4\r"); }
static int once_it_is_kept(void) { return kept_count > 0 ? SIGTERM : 0; }

static void the_screen_comes_before_the_first_line(void **state)
{
    (void)state;
    Plan first = begin_without_plan();
    run(a_shot_at_once, once_it_is_kept);
    assert_non_null(strstr(fake.first, "finding your first line"));
    assert_non_null(strstr(fake.first, "Ash Rail")); /* the rest is there */
    /* keys that were typed before are not lost, and the shot is of the line that was to come */
    assert_int_equal(kept_count, 1);
    const Shot *shot = &kept[0].shot;
    assert_int_equal(kept[0].kind, ENTRY_SHOT);
    assert_true(same_line(&first, shot->slot, shot->stance, shot->aim));
    assert_int_equal(shot->hit, HIT_HIGH);
}

static uint32_t two_shots(void) { return typed("hegx\rhegx\r"); }
static int once_two_are_drawn(void)
{
    return kept_count == 2 && fake.keys == 10 && fake.draws > 2 ? SIGTERM : 0;
}

/* What the keeper has to tell is shown in the place of "Shot logged". */
static void news_of_keeping_is_shown(void **state)
{
    (void)state;
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    run(two_shots, once_two_are_drawn);
    assert_non_null(strstr(fake.screen, "Shot logged"));
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    news_of_keeping = "the file was gone";
    run(two_shots, once_two_are_drawn);
    news_of_keeping = "";
    assert_non_null(strstr(fake.screen, "the file was gone"));
    assert_null(strstr(fake.screen, "Shot logged"));
}

static uint32_t nothing(void) { return PRESS_NONE; }
static int once_it_is_found(void) { return pinned.session.first.slot ? SIGTERM : 0; }

/* An event that goes on shows the plan it had; the first one is looked for all the same: undo may
 * lead back to it. */
static void a_plan_entered_before_is_shown_at_once(void **state)
{
    (void)state;
    Plan first = begin_without_plan(), other = {.slot = 5, .stance = 33.0, .aim = 18.5};
    assert_true(session_apply(&pinned.session,
                              &(Entry){.kind = ENTRY_PLAN, .lane = SIDE_LEFT, .plan = other}));
    run(nothing, once_it_is_found);
    assert_null(strstr(fake.first, "finding your first line"));
    assert_non_null(strstr(fake.first, "● 5 Drift Plank"));
    const Plan *now = &pinned.session.plan[SIDE_LEFT];
    assert_true(same_line(now, other.slot, other.stance, other.aim));
    assert_true(session_apply(&pinned.session, &(Entry){.kind = ENTRY_UNDO}));
    assert_true(same_line(now, first.slot, first.stance, first.aim));
}

/* Types 7, looks at the pins and, once their answer is on its way, types 10 as well; counts how
 * often it was asked for a key meanwhile. */
static int asked_while_waiting;

static uint32_t pins_in_a_hurry(void)
{
    static const char KEYS[] = "Sx7";
    uint32_t key = typed(KEYS);
    bool waiting =
        fake.screen && strstr(fake.screen, "Pins standing") && strstr(fake.screen, "calculating");
    asked_while_waiting += waiting;
    if (key == PRESS_NONE && fake.keys == (int)strlen(KEYS) && waiting && asked_while_waiting == 6)
        return '0';
    return key;
}

static int once_both_are_answered(void)
{
    return fake.keys == 4 && strstr(fake.screen, "7-10") && strstr(fake.screen, "feet") ? SIGTERM
                                                                                        : 0;
}

/* Finding a spare takes a tenth of a second: keys are taken and screens drawn all the while, and
 * what is shown in the end answers the last question. */
static void a_spare_holds_up_nothing(void **state)
{
    (void)state;
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    asked_while_waiting = 0;
    run(pins_in_a_hurry, once_both_are_answered);
    assert_true(asked_while_waiting > 30);
    assert_non_null(
        strstr(fake.screen, "Make sure of 1")); /* of 7 alone it would say to pick it up */
}

/* A new size for which there is no memory ends the program, and not as if all were well. */
static int never(void) { return 0; }

static uint32_t resize_at_once(void)
{
    resized = fake.draws > 0;
    return PRESS_NONE;
}

static void no_memory_for_a_size_is_a_failure(void **state)
{
    (void)state;
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    StageEnd end = run_to_end(resize_at_once, never);
    starved = false;
    assert_int_equal(end, STAGE_FAILED);
}

/* ---- a ball that rolls ---- */

static int rolling_draws;

static uint32_t a_roll_once_drawn(void)
{
    return fake.keys == 0 && fake.draws > 1 ? 'R' : PRESS_NONE;
}

static bool rolls(void) { return fake.screen && strstr(fake.screen, "Rolling in real time"); }

static int until_it_has_rolled(void)
{
    static int seen;
    if (rolls() && fake.draws != seen)
        rolling_draws++;
    seen = fake.draws;
    return rolling_draws > 0 && !rolls() ? SIGTERM : 0;
}

/* The loop gives it time, and no more once it is over. */
static void a_ball_rolls_by_the_clock(void **state)
{
    (void)state;
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    rolling_draws = 0;
    run(a_roll_once_drawn, until_it_has_rolled);
    assert_true(rolling_draws > 20); /* two to three seconds at 50 to 60 ms */
    assert_int_equal(kept_count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_without_a_pause_hold_up_nothing),
        cmocka_unit_test(a_ball_rolls_by_the_clock),
        cmocka_unit_test(the_screen_comes_before_the_first_line),
        cmocka_unit_test(news_of_keeping_is_shown),
        cmocka_unit_test(a_plan_entered_before_is_shown_at_once),
        cmocka_unit_test(a_spare_holds_up_nothing),
        cmocka_unit_test(no_memory_for_a_size_is_a_failure),
    };
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    forget();
    return failed;
}
