/* test_bound.c - own keys: they work, footer, help and search show them, and what is refused. */
#include "near.h"

#include <stdio.h>

#include "ui/input/bound.h"
#include "ui/pinned.h"

static Bound bound;

static Bindings bindings_of(const Binding *items, int count)
{
    Bindings bindings = {.count = count};
    memcpy(bindings.item, items, (size_t)count * sizeof *items);
    return bindings;
}

static Pinned *with_keys(const Binding *items, int count)
{
    char why[256] = "";
    Bindings bindings = bindings_of(items, count);
    if (bound_refuses(&bindings, why, sizeof why) >= 0)
        fail_msg("%s", why);
    bound_make(&bound, &bindings);
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_advise(pinned);
    pinned->model.keys = &bound.table;
    return pinned;
}

static void refused(const Binding *items, int count, int index, const char *piece)
{
    char why[256] = "";
    Bindings bindings = bindings_of(items, count);
    assert_int_equal(bound_refuses(&bindings, why, sizeof why), index);
    if (!strstr(why, piece))
        fail_msg("\"%s\" lacks \"%s\"", why, piece);
}

static void ids_are_told_apart(void **state)
{
    (void)state;
    for (int i = 0; i < COMMAND_COUNT; i++) {
        const char *id = COMMAND_ROWS[i].id;
        assert_int_equal(strspn(id, "abcdefghijklmnopqrstuvwxyz0123456789-"), strlen(id));
        assert_in_range(strlen(id), 3, sizeof((Binding *)0)->action - 1);
        for (int k = 0; k < i; k++)
            assert_string_not_equal(id, COMMAND_ROWS[k].id);
    }
}

/* Without own keys the table is the usual one. */
static void nothing_bound_changes_nothing(void **state)
{
    (void)state;
    bound_make(&bound, &(Bindings){0});
    assert_int_equal(bound.table.count, COMMAND_COUNT);
    assert_memory_equal(bound.rows, COMMAND_ROWS, sizeof COMMAND_ROWS);
}

static void a_bound_key_works_and_the_old_one_does_not(void **state)
{
    (void)state;
    static const Binding KEYS[] = {{PLACE_LANE, "event-undo", "z"}, {PLACE_SHOT, "shot-skip", "v"}};
    Pinned *pinned = with_keys(KEYS, 2);
    pinned_type(pinned, "fvg\r"); /* v skips the read */
    assert_int_equal(pinned->session.shot_count, 1);
    assert_int_equal(pinned->session.shots[0].read, READ_UNSAID);
    assert_int_equal(pinned->session.shots[0].release, RELEASE_GOOD);
    pinned_type(pinned, "u");
    assert_int_equal(pinned->session.shot_count, 1);
    pinned_type(pinned, "z");
    assert_int_equal(pinned->session.shot_count, 0);
    pinned_type(pinned, "f g"); /* Space no longer skips */
    assert_int_equal(pinned->model.typing.field, FIELD_READ);
    free(pinned);
}

/* Two keys may change places, and a key works in one place alone if it is bound in one. */
static void keys_can_change_places(void **state)
{
    (void)state;
    static const Binding KEYS[] = {{PLACE_LANE, "look-bag", "O"}, {PLACE_LANE, "look-oil", "B"}};
    Pinned *pinned = with_keys(KEYS, 2);
    pinned_type(pinned, "O");
    assert_int_equal(pinned->model.mode, MODE_BAG);
    pinned_type(pinned, "K");
    assert_int_equal(pinned->model.mode, MODE_BLOCK);
    pinned_type(pinned, "B"); /* as ever on that screen */
    assert_int_equal(pinned->model.mode, MODE_BAG);
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "B");
    assert_int_equal(pinned->model.mode, MODE_OIL);
    free(pinned);
}

static void screens_show_bound_keys(void **state)
{
    (void)state;
    static const Binding KEYS[] = {{PLACE_LANE, "plan-take", "y"},
                                   {PLACE_LANE, "event-undo", "End"},
                                   {PLACE_LANE, "hit-flush", "v"},
                                   {PLACE_LANE, "plan-second", "i"}};
    Pinned *pinned = with_keys(KEYS, 4);
    char *screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "y take"));
    assert_null(strstr(screen, "a take"));
    assert_non_null(strstr(screen, "End undo"));
    assert_non_null(strstr(screen, "v flush"));
    assert_non_null(strstr(screen, " i "));
    free(screen);
    pinned_type(pinned, "?/undo the last thing");
    screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "End      undo        lane\n"));
    assert_non_null(strstr(screen, "u        undo        log\n")); /* there it kept it */
    free(screen);
    pinned_press(pinned, PRESS_ESC);
    screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "v        flush"));
    free(screen);
    free(pinned);
}

/* Whatever is bound, no key means two things in one state. */
static void no_bound_key_means_two_things(void **state)
{
    (void)state;
    int taken = 0;
    for (int i = 0; i < COMMAND_COUNT; i++)
        for (int place = 0; place < PLACE_COUNT; place++)
            for (int key = '!'; key <= '~'; key++) {
                Binding binding = {.place = (BindingPlace)place, .key = {(char)key}};
                char why[256];
                snprintf(binding.action, sizeof binding.action, "%s", COMMAND_ROWS[i].id);
                Bindings bindings = bindings_of(&binding, 1);
                if (bound_refuses(&bindings, why, sizeof why) >= 0)
                    continue;
                taken++;
                bound_make(&bound, &bindings);
                for (unsigned where = 1; where <= IN_SEARCH; where <<= 1) {
                    int meanings = 0;
                    for (int k = 0; k < bound.table.count; k++) {
                        const KeyRow *row = &bound.rows[k].key;
                        uint32_t code = (unsigned char)key;
                        meanings += (row->where & where) &&
                                    ((code >= row->from && code <= row->to) || code == row->also);
                    }
                    if (meanings > 1)
                        fail_msg("%c for %s", key, binding.action);
                }
            }
    assert_true(taken > 1000);
}

static void what_can_not_be_is_refused(void **state)
{
    (void)state;
    static const Binding UNKNOWN[] = {{PLACE_LANE, "look-bag", "x"},
                                      {PLACE_LANE, "event-undu", "z"}},
                         ELSEWHERE[] = {{PLACE_OIL, "event-undo", "z"}},
                         KEPT[] = {{PLACE_SHOT, "shot-cancel", "z"}},
                         PAIR[] = {{PLACE_LANE, "plan-aim", "z"}},
                         DIGITS[] = {{PLACE_LANE, "plan-ball", "z"}},
                         NOWHERE[] = {{PLACE_LANE, "search-type", "z"}},
                         TWICE[] = {{PLACE_LANE, "event-undo", "z"},
                                    {PLACE_LANE, "event-undo", "v"}},
                         TAKEN[] = {{PLACE_LANE, "event-undo", "a"}},
                         FIGURE[] = {{PLACE_LANE, "event-undo", "3"}},
                         BOTH[] = {{PLACE_LANE, "event-undo", "z"},
                                   {PLACE_LANE, "event-redo", "z"}};
    refused(UNKNOWN, 2, 1, "no action is called \"event-undu\"; did you mean \"event-undo\"?");
    refused(ELSEWHERE, 1, 0, "does nothing in \"oil\"; allowed: \"lane\", \"log\"");
    refused(KEPT, 1, 0, "\"shot-cancel\" keeps Esc");
    refused(PAIR, 1, 0, "\"plan-aim\" keeps [ ]");
    refused(DIGITS, 1, 0, "\"plan-ball\" keeps 1-6");
    refused(NOWHERE, 1, 0, "nowhere; it keeps its key");
    refused(TWICE, 2, 1, "has a key in \"lane\" already");
    refused(TAKEN, 1, 0, "a is the key of \"plan-take\" (take) there too");
    refused(FIGURE, 1, 0, "3 is the key of \"plan-ball\"");
    refused(BOTH, 2, 1, "z is the key of \"event-undo\"");
}

/* docs/keys.md lists the actions that can be bound, and no others. */
static void the_page_lists_them_all(void **state)
{
    (void)state;
    char line[512];
    int listed = 0, can = 0;
    FILE *page = fopen(SETTEE_SOURCE_DIR "/docs/keys.md", "rb");
    assert_non_null(page);
    char *all = calloc(1, 1 << 16);
    assert_non_null(all);
    while (fgets(line, sizeof line, page)) {
        strcat(all, line);
        listed += strncmp(line, "| `", 3) == 0 && strchr(line, '-') && strstr(line, "` | `");
    }
    fclose(page);
    for (int i = 0; i < COMMAND_COUNT; i++) {
        const CommandRow *row = &COMMAND_ROWS[i];
        char why[256];
        bool may = false;
        for (int place = 0; place < PLACE_COUNT; place++) {
            Binding binding = {.place = (BindingPlace)place, .key = "~"};
            snprintf(binding.action, sizeof binding.action, "%s", row->id);
            Bindings bindings = bindings_of(&binding, 1);
            may = may || bound_refuses(&bindings, why, sizeof why) < 0;
        }
        can += may;
        snprintf(line, sizeof line, "| `%s` | `%s` | ", row->id, row->key.shown);
        if (may != (strstr(all, line) != NULL))
            fail_msg("docs/keys.md: %s", line);
        if (may && !strstr(all, row->key.help))
            fail_msg("docs/keys.md: %s", row->key.help);
    }
    assert_int_equal(listed, can);
    free(all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ids_are_told_apart),
        cmocka_unit_test(nothing_bound_changes_nothing),
        cmocka_unit_test(a_bound_key_works_and_the_old_one_does_not),
        cmocka_unit_test(keys_can_change_places),
        cmocka_unit_test(screens_show_bound_keys),
        cmocka_unit_test(no_bound_key_means_two_things),
        cmocka_unit_test(what_can_not_be_is_refused),
        cmocka_unit_test(the_page_lists_them_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
