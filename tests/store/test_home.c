/* test_home.c - the bowler's own files: what a name stands for, copies, and what is kept of the
 * screen. */
#define _XOPEN_SOURCE 700
#include "played.h"

#include "base/text.h"
#include "core/event/stays.h"
#include "store/draft_file.h"
#include "store/keys_file.h"
#include "store/settings.h"

static Bag bag;
static Pattern pattern;
static EventInfo event;
static RuleSet rules;

#define HOME "config/settee/"
static const char SLATE[] =
    "{\"format\": \"settee-pattern/1\", \"name\": \"Slate\", \"length_ft\": "
    "37, \"strokes\": [{\"boards\": [2, 38], \"feet\": [0, 37], "
    "\"units\": [20, 2]}]}\n";

static void must(bool good, const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    if (!good)
        fail_msg("%s", line);
}

/* What is refused is said so, of that file. */
static void refused(bool good, const Error *error, const char *file, const char *text)
{
    assert_false(good);
    assert_string_equal(error->file, file);
    if (!strstr(error->text, text))
        fail_msg("says \"%s\", expected \"%s\"", error->text, text);
}

static void a_name_is_looked_for_at_home(void **state)
{
    (void)state;
    Error error = {0};
    played_bag(HOME "bags/quarry.json", "Odile Farrow", "left");
    must(files_bag("quarry", &bag, &error), &error);
    assert_string_equal(bag.bowler.name, "Odile Farrow");
    assert_string_equal(error.file, played_path(HOME "bags/quarry.json"));
    /* only under the plain name, and only of its kind */
    refused(files_bag("quarry.json", &bag, &error), &error, "quarry.json", "no such file");
    refused(files_bag("./quarry", &bag, &error), &error, "./quarry", "no such file");
    refused(files_bag("../bags/quarry", &bag, &error), &error, "../bags/quarry", "no such file");
    refused(files_pattern("quarry", &pattern, &error), &error, "quarry", "no such file");
    const char *kind;
    must(files_check("quarry", &kind, &error), &error);
    assert_string_equal(kind, "bag");
}

/* More names than are listed: the nearest of those is still named, and none beyond them is read. */
static void a_home_full_of_names(void **state)
{
    (void)state;
    Error error = {0};
    char path[64];
    for (int i = 0; i < 70; i++) {
        snprintf(path, sizeof path, HOME "patterns/ramp-%02d.json", i);
        played_write(path, SLATE);
    }
    refused(files_pattern("ramp-0", &pattern, &error), &error, "ramp-0",
            "no such file; the nearest name in your home is \"ramp-0");
    refused(files_pattern("quite-another-word", &pattern, &error), &error, "quite-another-word",
            "; in your home are: ");
    for (int i = 0; i < 70; i++) {
        snprintf(path, sizeof path, HOME "patterns/ramp-%02d.json", i);
        assert_int_equal(remove(played_path(path)), 0);
    }
}

static void home_hides_what_is_built_in(void **state)
{
    (void)state;
    Error error = {0};
    must(files_bag("demo", &bag, &error), &error);
    assert_string_equal(error.file, "built-in demo");
    played_bag(HOME "bags/demo.json", "Odile Farrow", "left");
    must(files_bag("demo", &bag, &error), &error);
    assert_string_equal(bag.bowler.name, "Odile Farrow");
    /* one with faults hides it as well: nothing else is taken for it */
    played_write(HOME "bags/demo.json", "{\"format\": \"settee-bag/1\"}");
    refused(files_bag("demo", &bag, &error), &error, played_path(HOME "bags/demo.json"),
            "missing key");
    /* a folder does not */
    must(remove(played_path(HOME "bags/demo.json")) == 0, &error);
    assert_int_equal(mkdir(played_path(HOME "bags/demo.json"), 0700), 0);
    must(files_bag("demo", &bag, &error), &error);
    assert_string_equal(error.file, "built-in demo");
}

static void a_path_wins(void **state)
{
    (void)state;
    Error error = {0};
    char here[4096];
    played_bag(HOME "bags/demo.json", "Odile Farrow", "left");
    played_bag("demo", "Ansgar Pike", "right");
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(played_home), 0);
    bool read = files_bag("demo", &bag, &error);
    assert_int_equal(chdir(here), 0);
    must(read, &error);
    assert_string_equal(bag.bowler.name, "Ansgar Pike");
    assert_string_equal(error.file, "demo");
}

static void rules_of_ones_own(void **state)
{
    (void)state;
    Error error = {0};
    must(files_rules("coach", &rules, &error), &error);
    assert_true(rules.count > 1);
    played_write(HOME "rules/coach.json",
                 "{\"format\": \"settee-rules/1\", \"rules\": [{\"id\": \"only\", \"when\": "
                 "[\"high-twice\"], \"try\": [\"move-in\"], \"weight\": 3, \"because\": "
                 "\"High.\", \"source\": \"common practice\"}]}");
    must(files_rules("coach", &rules, &error), &error);
    assert_int_equal(rules.count, 1);
}

static void hints_know_the_home(void **state)
{
    (void)state;
    Error error = {0};
    played_bag(HOME "bags/quarry.json", "Odile Farrow", "left");
    refused(files_bag("quary", &bag, &error), &error, "quary",
            "no such file; the nearest name in your home is \"quarry\"");
    refused(files_bag("demoo", &bag, &error), &error, "demoo",
            "the nearest built-in name is \"demo\"");
    refused(files_bag("xylophone", &bag, &error), &error, "xylophone",
            "no such file; in your home are: quarry; built in are:");
}

static void without_a_home(void **state)
{
    (void)state;
    Error error = {0};
    FileName names[8];
    unsetenv("HOME");
    unsetenv("XDG_CONFIG_HOME");
    must(files_bag("demo", &bag, &error), &error);
    assert_true(files_names("bags", names, 8) >= 2);
    assert_false(names[0].home);
}

/* Beside the event, then at home, then built in; never in the folder where settee was started. */
static void names_in_an_event(void **state)
{
    (void)state;
    Error error = {0};
    char here[4096];
    played_bag(HOME "bags/quarry.json", "Odile Farrow", "left");
    played_write(HOME "patterns/slate.json", SLATE);
    played_event(HOME "events/dusk.json", "Dusk", NULL, "slate", "quarry");
    played_event("away/dusk.json", "Dusk away", NULL, "slate", "my-bag.json");
    played_bag("away/my-bag.json", "Ansgar Pike", "right");
    played_bag("quarry", "Ansgar Pike", "right"); /* in the folder that is started in */
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(played_home), 0);
    bool read = files_event("dusk", &event, &error) && files_bag(event.bag, &bag, &error) &&
                files_pattern(event.pattern, &pattern, &error);
    assert_int_equal(chdir(here), 0);
    must(read, &error);
    assert_string_equal(event.file, played_path(HOME "events/dusk.json"));
    assert_string_equal(event.bag, played_path(HOME "bags/quarry.json"));
    assert_string_equal(bag.bowler.name, "Odile Farrow");
    assert_string_equal(pattern.name, "Slate");
    must(files_event(played_path("away/dusk.json"), &event, &error), &error);
    assert_string_equal(event.bag, played_path("away/my-bag.json"));
    assert_string_equal(event.pattern, played_path(HOME "patterns/slate.json"));
    played_event(HOME "events/dusk.json", "Dusk", NULL, "slat", "quarry");
    refused(files_event("dusk", &event, &error), &error, played_path(HOME "events/dusk.json"),
            "the nearest name in your home is \"slate\"");
    must(files_event("demo", &event, &error), &error);
    assert_string_equal(event.file, "demo");
}

static void another_bag(void **state)
{
    (void)state;
    Error error = {0};
    played_bag(HOME "bags/quarry.json", "Odile Farrow", "left");
    must(files_event("demo", &event, &error), &error);
    must(files_event_bag("demo", &event, &error), &error);
    assert_string_equal(event.other_bag, ""); /* its own */
    must(files_event_bag("quarry", &event, &error), &error);
    assert_string_equal(event.other_bag, "quarry");
    assert_string_equal(event.bag, played_path(HOME "bags/quarry.json"));
    refused(files_event_bag("quarri", &event, &error), &error, "quarri", "no such file");
    assert_false(files_event_bag("-", &event, &error));
}

static void every_name_once(void **state)
{
    (void)state;
    FileName names[64], few[1];
    played_bag(HOME "bags/quarry.json", "Odile Farrow", "left");
    played_bag(HOME "bags/demo.json", "Odile Farrow", "left");
    played_write(HOME "bags/quarry.json~", "");
    played_write(HOME "bags/.json", "");
    played_write(HOME "bags/.hidden.json", "");
    played_write(HOME "bags/es\033cape.json", "");
    int count = files_names("bags", names, 64), demos = 0;
    assert_string_equal(names[0].name, "demo");
    assert_true(names[0].home && names[0].built_in);
    assert_string_equal(names[1].name, "quarry");
    assert_true(names[1].home && !names[1].built_in);
    for (int i = 2; i < count; i++)
        assert_true(!names[i].home && names[i].built_in);
    for (int i = 0; i < count; i++)
        demos += strcmp(names[i].name, "demo") == 0;
    assert_int_equal(demos, 1);
    assert_int_equal(files_names("bags", few, 1), 1);
    assert_int_equal(files_names("shots", names, 64), 0);
}

static void copies(void **state)
{
    (void)state;
    Error error = {0};
    char path[1024], second[1024];
    must(files_copy("bags", "demo", "mine", path, sizeof path, &error), &error);
    assert_string_equal(path, played_path(HOME "bags/mine.json"));
    must(files_bag("mine", &bag, &error), &error);
    char *first = played_read(HOME "bags/mine.json");
    must(files_copy("bags", "mine", "again", second, sizeof second, &error), &error);
    char *text = played_read(HOME "bags/again.json");
    assert_string_equal(text, first); /* byte by byte */
    free(text);
    /* nothing is written over, nothing with a fault gets in */
    played_bag("other.json", "Ansgar Pike", "right");
    refused(files_copy("bags", played_path("other.json"), "mine", second, sizeof second, &error),
            &error, path, "that name is taken");
    text = played_read(HOME "bags/mine.json");
    assert_string_equal(text, first);
    free(text);
    free(first);
    played_write("bad.json", "{\"format\": \"settee-bag/1\", \"bowler\": {}, \"balls\": []}");
    refused(files_copy("bags", played_path("bad.json"), "bad", second, sizeof second, &error),
            &error, played_path("bad.json"), "missing key");
    refused(files_copy("patterns", "mine", "bad", second, sizeof second, &error), &error, "mine",
            "no such file");
    assert_null(played_read(HOME "bags/bad.json"));
    static const char *const NAMES[] = {"", "../mine", "a b", "mine.json", "a/b", NULL};
    for (int i = 0; NAMES[i]; i++) {
        assert_false(files_copy("bags", "demo", NAMES[i], second, sizeof second, &error));
        assert_non_null(strstr(error.text, "allowed: letters, digits, - and _"));
    }
    /* a link that leads nowhere has its name already */
    assert_int_equal(symlink("/nowhere", played_path(HOME "bags/link.json")), 0);
    assert_false(files_copy("bags", "demo", "link", second, sizeof second, &error));
}

/* The copy names the same files as the original did. */
static void copies_of_events(void **state)
{
    (void)state;
    Error error = {0};
    char path[1024], bag_path[512];
    must(files_copy("events", "demo", "block", path, sizeof path, &error), &error);
    char *text = played_read(HOME "events/block.json");
    assert_non_null(strstr(text, "\"bag\": \"demo\"")); /* as it was written */
    free(text);
    played_bag(HOME "bags/quarry.json", "Odile Farrow", "left");
    played_write("away/slate.json", SLATE);
    played_event("away/dusk.json", "Dusk away", "2026-05-02", "slate.json", "quarry");
    must(files_copy("events", played_path("away/dusk.json"), "dusk", path, sizeof path, &error),
         &error);
    EventInfo there;
    must(files_event(played_path("away/dusk.json"), &event, &error), &error);
    must(files_event("dusk", &there, &error), &error);
    assert_string_equal(there.pattern, event.pattern);
    assert_string_equal(there.bag, event.bag);
    assert_string_equal(there.name, event.name);
    assert_string_equal(there.date, "2026-05-02");
    assert_int_equal(there.games, 4);
    assert_int_equal(there.pair[1], 8);
    assert_true(there.certified);
    text = played_read(HOME "events/dusk.json");
    snprintf(bag_path, sizeof bag_path, "\"pattern\":\"%s\"", played_path("away/slate.json"));
    assert_non_null(strstr(text, bag_path));
    assert_non_null(strstr(text, "\"bag\":\"quarry\"")); /* at home it needs no path */
    free(text);
}

static void short_names(void **state)
{
    (void)state;
    Error error = {0};
    char place[1024], name[256];
    played_bag(HOME "bags/quarry.json", "Odile Farrow", "left");
    played_bag("away/quarry.json", "Ansgar Pike", "right");
    must(files_place("bags", "quarry", place, sizeof place, &error), &error);
    assert_string_equal(place, played_path(HOME "bags/quarry.json"));
    files_short("bags", place, name, sizeof name);
    assert_string_equal(name, "quarry");
    files_short("bags", played_path("away/quarry.json"), name, sizeof name);
    assert_string_equal(name, played_path("away/quarry.json")); /* not the home's */
    must(files_place("bags", "demo", place, sizeof place, &error), &error);
    assert_string_equal(place, "demo");
    files_short("bags", place, name, sizeof name);
    assert_string_equal(name, "demo");
}

static void a_draft_is_kept(void **state)
{
    (void)state;
    static Draft draft, back;
    Error error = {0};
    const char *kind;
    must(draft_read(&back, &error), &error);
    assert_int_equal(back.form, DRAFT_NONE);
    assert_null(played_read(HOME "draft.json"));
    draft = (Draft){.form = DRAFT_BALL, .of = "mine", .part = "wedge", .starting = true};
    draft_note(&draft, "name", "We\"dge");
    draft_note(&draft, "pounds", "14");
    draft_note(&draft, "name", "Wedge");
    assert_int_equal(draft.count, 2);
    assert_string_equal(draft.rows[1].key, "name"); /* the last that was typed */
    must(draft_write(&draft, &error), &error);
    must(draft_read(&back, &error), &error);
    assert_memory_equal(&draft, &back, offsetof(Draft, rows));
    for (int i = 0; i < draft.count; i++) {
        assert_string_equal(draft.rows[i].key, back.rows[i].key);
        assert_string_equal(draft.rows[i].value, back.rows[i].value);
    }
    must(files_check(played_path(HOME "draft.json"), &kind, &error), &error);
    assert_string_equal(kind, "draft");
    for (int i = 0; i < DRAFT_ROWS_MAX + 5; i++)
        draft_add(&draft, "stroke", "1-39 0-40 1");
    assert_int_equal(draft.count, DRAFT_ROWS_MAX);
    must(draft_write(&draft, &error) && draft_read(&back, &error), &error);
    assert_int_equal(back.count, DRAFT_ROWS_MAX);
    draft_remove();
    assert_null(played_read(HOME "draft.json"));
    played_write(HOME "draft.json",
                 "{\"format\": \"settee-draft/1\", \"form\": \"ice\", \"rows\": []}");
    assert_false(draft_read(&back, &error));
    assert_int_equal(back.form, DRAFT_NONE);
}

static void settings_are_kept(void **state)
{
    (void)state;
    Error error = {0};
    const char *kind;
    Settings settings = {.theme = "x"};
    must(settings_read(&settings, &error), &error);
    assert_string_equal(settings.theme, "");
    assert_null(played_read(HOME "settings.json")); /* looking makes nothing */
    must(settings_write(&(Settings){.theme = "light", .motion = MOTION_OFF}, &error), &error);
    must(settings_read(&settings, &error), &error);
    assert_string_equal(settings.theme, "light");
    assert_int_equal(settings.motion, MOTION_OFF);
    must(files_check(played_path(HOME "settings.json"), &kind, &error), &error);
    assert_string_equal(kind, "settings");
    static const char *const BAD[] = {"{\"format\": \"settee-settings/1\", \"them\": \"light\"}",
                                      "{\"format\": \"settee-settings/1\", \"theme\": 3}",
                                      "{\"format\": \"settee-settings/1\", \"motion\": \"slow\"}",
                                      "{\"format\": \"settee-settings/2\"}",
                                      "[]",
                                      "",
                                      "{",
                                      NULL};
    for (int i = 0; BAD[i]; i++) {
        played_write(HOME "settings.json", BAD[i]);
        assert_false(settings_read(&settings, &error));
        assert_string_equal(error.file, played_path(HOME "settings.json"));
        assert_true(error.text[0] != '\0');
        assert_string_equal(settings.theme, "");
    }
}

/* Knows one action. */
static int refuse_all_but_undo(const Bindings *bindings, char *why, size_t size)
{
    for (int i = 0; i < bindings->count; i++)
        if (strcmp(bindings->item[i].action, "event-undo") != 0) {
            snprintf(why, size, "no action of that name");
            return i;
        }
    return -1;
}

static void own_keys_are_read(void **state)
{
    (void)state;
    Error error = {0};
    static Bindings keys;
    keys.count = 7;
    must(keys_read(&keys, refuse_all_but_undo, &error), &error);
    assert_int_equal(keys.count, 0); /* there are none */
    played_write(HOME "keys.json",
                 "{\"format\": \"settee-keys/1\", \"keys\": [\n"
                 "{\"in\": \"log\", \"action\": \"event-undo\", \"key\": \"Tab\"}]}");
    must(keys_read(&keys, refuse_all_but_undo, &error), &error);
    assert_int_equal(keys.count, 1);
    assert_int_equal(keys.item[0].place, PLACE_LOG);
    assert_string_equal(keys.item[0].action, "event-undo");
    assert_string_equal(keys.item[0].key, "Tab");
    played_write(HOME "keys.json",
                 "{\"format\": \"settee-keys/1\", \"keys\": [\n"
                 "{\"in\": \"log\", \"action\": \"event-undo\", \"key\": \"Tab\"},\n"
                 "{\"in\": \"log\", \"action\": \"x\", \"key\": \"y\"}]}");
    assert_false(keys_read(&keys, refuse_all_but_undo, &error));
    assert_int_equal(keys.count, 0);
    assert_int_equal(error.line, 3);
    assert_string_equal(error.where, "$.keys[1]");
    assert_string_equal(error.text, "no action of that name");
    assert_string_equal(error.file, played_path(HOME "keys.json"));
}

/* "-" is standard input wherever a file is named: nothing that is kept may be called so, or a start
 * would wait for it. */
static void nothing_is_called_dash(void **state)
{
    (void)state;
    char path[1024];
    Error error = {0};
    assert_false(files_copy("themes", "dark", "-", path, sizeof path, &error));
    assert_non_null(strstr(error.text, "standard input"));
    played_bag(HOME "bags/-.json", "Odile Farrow", "left");
    FileName names[32];
    int count = files_names("bags", names, 32);
    for (int i = 0; i < count; i++)
        assert_string_not_equal(names[i].name, "-");
    played_event(HOME "events/dusk.json", "Dusk open", "2026-05-02", "apron", "-");
    assert_false(files_event("dusk", &event, &error));
    assert_non_null(strstr(error.text, "no such file"));
}

/* To read a pipe may take for ever, and so may a device. */
static void only_files_are_read(void **state)
{
    (void)state;
    Error error = {0};
    const char *kind;
    played_write(HOME "bags/x.json", "");
    assert_int_equal(unlink(played_path(HOME "bags/x.json")), 0);
    assert_int_equal(mkfifo(played_path(HOME "bags/x.json"), 0600), 0);
    alarm(60);
    assert_false(files_bag("x", &bag, &error));
    assert_string_equal(error.text, "found a pipe or a device; expected a file");
    assert_false(files_check("/dev/zero", &kind, &error));
    assert_string_equal(error.text, "found a pipe or a device; expected a file");
    alarm(0);
}

/* A new event reads back as it was made, on several pairs and without a sheet. */
static void new_events(void **state)
{
    (void)state;
    Error error = {0};
    char path[1024];
    EventInfo made = {.name = "Guests",
                      .date = "2026-05-02",
                      .pattern = "about:house,39ft",
                      .bag = "demo",
                      .pair = {7, 8},
                      .games = 3,
                      .bowlers_on_pair = 4,
                      .field = {.right = 2, .left = 1},
                      .warm_up = true,
                      .certified = true};
    must(event_move(&made, 2, 10, &error), &error);
    must(files_new_event("guests", &made, path, sizeof path, &error), &error);
    must(files_event("guests", &event, &error), &error);
    assert_string_equal(event.pattern, made.pattern);
    for (int game = 1; game <= 3; game++) {
        assert_int_equal(event_pair(&event, game)[0], event_pair(&made, game)[0]);
        assert_int_equal(event_pair(&event, game)[1], event_pair(&made, game)[1]);
    }
    assert_true(event.warm_up && event.certified);
    assert_int_equal(event.field.left, 1);
    must(files_pattern(event.pattern, &pattern, &error), &error);
    assert_true(pattern.about.only && pattern.about.house);
    char *text = played_read(HOME "events/guests.json");
    assert_non_null(strstr(text, "\"pattern\":{\"about\":{\"house\":true,\"length_ft\":39}}"));
    assert_non_null(strstr(text, "\"pairs\":[[7,8],[9,10],[1,2]]"));
    free(text);
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, played_begin, played_end)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(a_name_is_looked_for_at_home),
                                       TEST(a_home_full_of_names),
                                       TEST(home_hides_what_is_built_in),
                                       TEST(a_path_wins),
                                       TEST(rules_of_ones_own),
                                       TEST(hints_know_the_home),
                                       TEST(without_a_home),
                                       TEST(names_in_an_event),
                                       TEST(another_bag),
                                       TEST(every_name_once),
                                       TEST(copies),
                                       TEST(copies_of_events),
                                       TEST(new_events),
                                       TEST(short_names),
                                       TEST(nothing_is_called_dash),
                                       TEST(only_files_are_read),
                                       TEST(settings_are_kept),
                                       TEST(a_draft_is_kept),
                                       TEST(own_keys_are_read)};
    return cmocka_run_group_tests_name("home", tests, NULL, NULL);
}
