/* test_commands.c - the table of actions is sound, and the help leaves nothing out. */
#include "near.h"

#include "core/words/glossary.h"
#include "ui/home/home_keys.h"
#include "ui/input/commands.h"
#include "ui/pinned.h"
#include "ui/rehearse/rehearse_keys.h"
#include "ui/teach/teach_model.h"

static void no_key_means_two_things(void **state)
{
    (void)state;
    for (int a = 0; a < COMMAND_COUNT; a++)
        for (int b = 0; b < a; b++) {
            const KeyRow *x = &COMMAND_ROWS[a].key, *y = &COMMAND_ROWS[b].key;
            if (!(x->where & y->where))
                continue;
            bool ranges = x->from <= y->to && y->from <= x->to;
            bool also =
                (x->also && ((x->also >= y->from && x->also <= y->to) || x->also == y->also)) ||
                (y->also && y->also >= x->from && y->also <= x->to);
            if (ranges || also)
                fail_msg("\"%s\" and \"%s\" share a key", x->help, y->help);
        }
}

static void every_row_is_whole(void **state)
{
    (void)state;
    for (int i = 0; i < COMMAND_COUNT; i++) {
        const CommandRow *command = &COMMAND_ROWS[i];
        const KeyRow *row = &command->key;
        assert_true(row->shown[0] && row->name[0] && row->help[0]);
        assert_true(row->from <= row->to && row->from > 0);
        assert_true(row->where != 0);
        assert_ptr_equal(command_find(&COMMAND_TABLE, row->where, row->from), command);
        assert_true(command->run != NULL);
    }
}

/* Every line of the help, gathered page by page. */
static char *whole_help(Pinned *pinned)
{
    char *all = calloc(1, 1 << 21);
    assert_non_null(all);
    int top = -1;
    pinned_press(pinned, '?');
    while (top != pinned->model.help_top) {
        top = pinned->model.help_top;
        char *screen = pinned_screen(&pinned->model);
        strcat(all, screen);
        free(screen);
        pinned_press(pinned, PRESS_DOWN);
    }
    return all;
}

static void help_tells_every_action_and_caution(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 160, 24);
    char *help = whole_help(pinned);
    for (int i = 0; i < COMMAND_COUNT; i++)
        if (!strstr(help, COMMAND_ROWS[i].key.help))
            fail_msg("the help does not tell \"%s\"", COMMAND_ROWS[i].key.help);
    for (int i = 0; i < GROUP_COUNT; i++)
        assert_non_null(strstr(help, GROUP_TITLES[i]));
    for (int i = CAUTION_NONE + 1; i < CAUTION_COUNT; i++)
        if (!strstr(help, CAUTION_WORDS[i]))
            fail_msg("the help leaves out \"%s\"", CAUTION_WORDS[i]);
    assert_non_null(strstr(help, "The event's rules and a licensed or certified coach"));
    free(help);
    free(pinned);
}

/* At 80 columns no sentence may be cut. */
static void help_fits_eighty_columns(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    char *help = whole_help(pinned);
    for (int i = 0; i < COMMAND_COUNT; i++)
        if (!strstr(help, COMMAND_ROWS[i].key.help))
            fail_msg("cut at 80 columns: \"%s\"", COMMAND_ROWS[i].key.help);
    assert_null(strstr(help, "…"));
    free(help);
    free(pinned);
}

static void help_opens_where_you_are(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_type(pinned, "l?");
    char *screen = pinned_screen(&pinned->model);
    const char *title = strstr(screen, GROUP_TITLES[GROUP_READ]);
    assert_non_null(title);
    assert_null(strstr(screen, GROUP_TITLES[GROUP_HIT]));
    free(screen);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_ENTRY); /* and what was typed is still there */
    free(pinned);
}

/* Runs of spaces and line ends as one space, so that a wrapped sentence reads on. */
static void join_lines(char *text)
{
    char *to = text;
    for (const char *from = text; *from; from++)
        if ((*from != ' ' && *from != '\n') || (to > text && to[-1] != ' '))
            *to++ = *from == '\n' ? ' ' : *from;
    *to = '\0';
}

/* On a screen as tall as the whole page every sentence is there and none is cut. */
static void words_are_whole_at_any_width(void **state)
{
    (void)state;
    static const int WIDTHS[] = {80, 100, 160};
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    for (int w = 0; w < 3; w++) {
        pinned_begin(pinned, HAND_RIGHT, WIDTHS[w], 900);
        pinned_type(pinned, "?w");
        assert_int_equal(pinned->model.mode, MODE_WORDS);
        char *screen = pinned_screen(&pinned->model);
        assert_null(strstr(screen, "…"));
        join_lines(screen);
        for (int i = 0; i < WORD_COUNT; i++) {
            char entry[256];
            snprintf(entry, sizeof entry, " %s %s", WORDS[i].word, WORDS[i].means);
            if (!strstr(screen, entry))
                fail_msg("at %d columns: no \"%s\"", WIDTHS[w], entry);
        }
        free(screen);
    }
    free(pinned);
}

static void words_scroll_and_turn_back(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_type(pinned, "l?w");
    assert_int_equal(pinned->model.help_top, 0);
    char *first = pinned_screen(&pinned->model);
    assert_non_null(strstr(first, WORDS[0].word));
    assert_null(strstr(first, " wide  "));
    for (int i = 0; i < 60; i++)
        pinned_press(pinned, PRESS_PAGE_DOWN);
    char *last = pinned_screen(&pinned->model);
    assert_non_null(strstr(last, " wide  "));
    pinned_type(pinned, "w");
    assert_int_equal(pinned->model.mode, MODE_HELP);
    assert_int_equal(pinned->model.help_top, 0);
    pinned_type(pinned, "w");
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_ENTRY); /* and what was typed is still there */
    free(first);
    free(last);
    free(pinned);
}

static void footers_fit(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_advise(pinned);
    char *screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "? help"));
    assert_non_null(strstr(screen, "q quit"));
    free(screen);
    static const char *const TYPED[] = {"l", "o", "g"};
    for (int i = 0; i < 3; i++) {
        pinned_type(pinned, TYPED[i]);
        screen = pinned_screen(&pinned->model);
        assert_non_null(strstr(screen, "Enter done"));
        free(screen);
    }
    free(pinned);
}

static const KeyTable *const STAGES[] = {&COMMAND_TABLE, &HOME_TABLE, &REHEARSE_KEYS, &TEACH_KEYS};
enum { STAGE_COUNT = 4 };

/* Of every stage. */
static int all_actions(void)
{
    int count = 0;
    for (int i = 0; i < STAGE_COUNT; i++)
        count += STAGES[i]->count;
    return count;
}

/* How many actions the search says it has found. */
static int found(const Pinned *pinned)
{
    int count = -1, all = 0;
    char *screen = pinned_screen(&pinned->model);
    const char *title = strstr(screen, "All actions");
    assert_non_null(title);
    assert_int_equal(sscanf(title, "All actions %d of %d", &count, &all), 2);
    assert_int_equal(all, all_actions());
    free(screen);
    return count;
}

/* All that the search shows, page by page. */
static char *whole_search(Pinned *pinned)
{
    char *all = calloc(1, 1 << 21);
    assert_non_null(all);
    pinned->model.search.top = 0;
    for (int top = -1; top != pinned->model.search.top;) {
        top = pinned->model.search.top;
        char *screen = pinned_screen(&pinned->model);
        strcat(all, screen);
        free(screen);
        pinned_press(pinned, PRESS_DOWN);
    }
    return all;
}

/* Letter by letter fewer remain; what remains has the words, and all that has them remains. */
static void search_finds_as_you_type(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_type(pinned, "?/");
    assert_int_equal(pinned->model.mode, MODE_SEARCH);
    assert_int_equal(found(pinned), all_actions());
    int last = all_actions();
    for (const char *letter = "Board"; *letter; letter++) {
        pinned_press(pinned, (unsigned char)*letter);
        assert_in_range(found(pinned), 1, last);
        last = found(pinned);
    }
    char *screen = whole_search(pinned);
    int expected = 0;
    for (int k = 0; k < STAGE_COUNT; k++)
        for (int i = 0; i < STAGES[k]->count; i++) {
            const KeyRow *row = key_row(STAGES[k], i);
            bool has = strstr(row->name, "board") || strstr(row->help, "board") ||
                       strstr(row->help, "Board") || strstr(STAGES[k]->titles[row->group], "board");
            expected += has;
            if (has && !strstr(screen, row->help))
                fail_msg("not found: \"%s\"", row->help);
        }
    assert_int_equal(found(pinned), expected);
    assert_true(expected > 3 && expected < COMMAND_COUNT / 2);
    free(screen);
    pinned_type(pinned, " feet"); /* both words */
    last = found(pinned);
    assert_in_range(last, 1, expected - 1);
    pinned_type(pinned, " ");
    assert_int_equal(found(pinned), last);
    pinned_type(pinned, "nowhere");
    assert_int_equal(found(pinned), 0);
    for (int i = 0; i < 20; i++)
        pinned_press(pinned, PRESS_BACKSPACE);
    assert_int_equal(found(pinned), all_actions());
    free(pinned);
}

/* Every action can be found by its name, with its keys and where it works, whole at 80 columns. */
static void search_shows_keys_and_places(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_type(pinned, "?/");
    char *screen = whole_search(pinned);
    assert_null(strstr(screen, "…"));
    for (int k = 0; k < STAGE_COUNT; k++)
        for (int i = 0; i < STAGES[k]->count; i++) {
            const KeyRow *row = key_row(STAGES[k], i);
            char places[128], bare[128];
            key_places(STAGES[k], row, k > 0 ? STAGES[k]->of : "", places, sizeof places);
            key_places(STAGES[k], row, "", bare, sizeof bare);
            if (!bare[0] || !strstr(screen, places))
                fail_msg("nobody hears where \"%s\" works", row->help);
            if (!strstr(screen, row->help))
                fail_msg("cut: \"%s\"", row->help);
        }
    assert_non_null(strstr(screen, "r        rename      Home: events, bags, patterns\n"));
    assert_non_null(strstr(screen, "h        hint        Lessons: a lesson\n"));
    assert_non_null(strstr(screen, "O        oil         lane, rehearsal\n     the oil now"));
    assert_non_null(strstr(screen, "f        flush       lane, typing a shot\n"));
    assert_non_null(strstr(screen, "?        help        most screens\n"));
    assert_non_null(strstr(screen, "Ctrl-L   redraw      everywhere\n"));
    free(screen);
    free(pinned);
}

/* Letters are letters there, and Esc leads back step by step to where one was. */
static void search_leads_back(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_type(pinned, "l?/q?/w");
    assert_int_equal(pinned->model.mode, MODE_SEARCH);
    assert_string_equal(pinned->model.search.sought, "q?/w");
    for (int i = 0; i < 40; i++)
        pinned_press(pinned, 'x');
    assert_true(strlen(pinned->model.search.sought) < sizeof pinned->model.search.sought);
    for (int i = 0; i < 40; i++)
        pinned_press(pinned, '\b');
    for (int i = 0; i < 100; i++)
        pinned_press(pinned, PRESS_PAGE_DOWN);
    assert_true(pinned->model.search.top > 100); /* and no further than the end */
    char *screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, key_row(&TEACH_KEYS, TEACH_KEYS.count - 1)->help));
    free(screen);
    pinned_press(pinned, PRESS_UP);
    pinned_press(pinned, PRESS_PAGE_UP);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_HELP);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_ENTRY);
    free(pinned);
}

static void the_theme_is_named(void **state)
{
    (void)state;
    static const Theme THEMES[] = {{.name = "Dusk"}, {.name = "Paper, dark on light"}};
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned->model.themes = THEMES;
    pinned->model.theme_count = 2;
    assert_true(pinned_press(pinned, 'T').theme);
    char *screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "Colours: Paper, dark on light"));
    free(screen);
    pinned_press(pinned, 'T');
    assert_string_equal(pinned->model.message, "Colours: Dusk");
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_key_means_two_things),
        cmocka_unit_test(every_row_is_whole),
        cmocka_unit_test(help_tells_every_action_and_caution),
        cmocka_unit_test(help_fits_eighty_columns),
        cmocka_unit_test(help_opens_where_you_are),
        cmocka_unit_test(words_are_whole_at_any_width),
        cmocka_unit_test(words_scroll_and_turn_back),
        cmocka_unit_test(footers_fit),
        cmocka_unit_test(search_finds_as_you_type),
        cmocka_unit_test(search_shows_keys_and_places),
        cmocka_unit_test(search_leads_back),
        cmocka_unit_test(the_theme_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
