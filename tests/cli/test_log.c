/* test_log.c - settee home, log and review in a home with two bowlers and events of two months. */
#define _XOPEN_SOURCE 700
#include "played.h"

#include "helper_run.h"

#include "base/text.h"

#define HOME "config/settee/"
#define AT(...) run_at(played_home, NULL, (const char *const[]){__VA_ARGS__, NULL})

/* Odile plays all three events, Ansgar the first; one event has no date. */
static int begin(void **state)
{
    if (played_begin(state) != 0)
        return 1;
    played_bag(HOME "bags/odile.json", "Odile Farrow", "left");
    played_bag(HOME "bags/ansgar.json", "Ansgar \\\"Pip\\\" Pike, junior", "right");
    played_event(HOME "events/dusk.json", "Dusk open", "2026-04-18", "apron", "odile");
    played_event(HOME "events/dawn.json", "Dawn open", "2026-05-02", "kerb", "odile");
    played_event(HOME "events/noon.json", "Noon, no day", NULL, "kerb", "odile");
    played_shots("dusk", NULL,
                 "xxxxxxxxxxxx"
                 "ssssssssss"
                 "x"
                 "nn",
                 NULL);
    played_shots("dusk", "ansgar",
                 "NNNNNNNNNN"
                 "xh",
                 NULL);
    played_shots("dawn", NULL, "XXXXXXXXXXXX", NULL);
    played_shots("noon", NULL, "p", NULL);
    return 0;
}

static void has(const char *text, const char *piece)
{
    if (!strstr(text, piece))
        fail_msg("lacks \"%s\" in\n%s", piece, text);
}

static void lacks(const char *text, const char *piece)
{
    if (strstr(text, piece))
        fail_msg("has \"%s\" in\n%s", piece, text);
}

static void refused(Run run, int status, const char *words)
{
    run_is(&run, status);
    has(run.fault, words);
    run_free(&run);
}

static const cJSON *named(const cJSON *list, const char *key, const char *value)
{
    const cJSON *item;
    cJSON_ArrayForEach(item, list)
    {
        const cJSON *text = cJSON_GetObjectItemCaseSensitive(item, key);
        if (cJSON_IsString(text) && strcmp(text->valuestring, value) == 0)
            return item;
    }
    fail_msg("no %s %s", key, value);
    return NULL;
}

static const cJSON *list_of(const cJSON *object, const char *key)
{
    const cJSON *list = cJSON_GetObjectItemCaseSensitive(object, key);
    assert_true(cJSON_IsArray(list));
    return list;
}

static bool truth(const cJSON *object, const char *key)
{
    const cJSON *value = cJSON_GetObjectItemCaseSensitive(object, key);
    assert_true(cJSON_IsBool(value));
    return cJSON_IsTrue(value);
}

/* ---- home ---- */

static void home_lists(void **state)
{
    (void)state;
    Run run = AT("home"), same = AT("home", "list");
    run_is(&run, 0);
    assert_string_equal(run.out, same.out);
    assert_true(widest_line(run.out) <= 100);
    has(run.out, "  odile             Odile Farrow        left       3         2  yours\n");
    has(run.out, "  demo              Imre Holloway       right     14         6  built in\n");
    has(run.out, "  noon              -           kerb        odile       yours\n");
    has(run.out, "  apron                40  built in\n");
    run_free(&run);
    run_free(&same);
    run = AT("home", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    const cJSON *odile = named(list_of(object, "bags"), "name", "odile");
    assert_true(truth(odile, "yours"));
    assert_near(json_at(odile, "balls"), 3, 0);
    assert_near(json_at(odile, "in_slots"), 2, 0);
    assert_false(truth(named(list_of(object, "events"), "name", "demo"), "yours"));
    assert_near(json_at(named(list_of(object, "patterns"), "name", "apron"), "length_ft"), 40, 0);
    cJSON_Delete(object);
    run_free(&run);
}

static void home_tells_what_is_broken(void **state)
{
    (void)state;
    played_write(HOME "bags/torn.json", "{");
    Run run = AT("home");
    run_is(&run, 1);
    has(run.fault, "bags/torn.json:1:");
    has(run.out, "  odile  "); /* and lists the rest */
    has(run.out, "  apron  ");
    run_free(&run);
}

static void home_copies(void **state)
{
    (void)state;
    Run run = AT("home", "copy", "bag", "demo", "mine");
    run_is(&run, 0);
    has(run.out, "bag mine is now ");
    run_free(&run);
    run = AT("roll", "--bag", "mine");
    run_is(&run, 0);
    has(run.out, "Imre Holloway");
    run_free(&run);
    run = AT("home", "copy", "pattern", "apron", "apron", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_string_equal(cJSON_GetObjectItem(object, "file")->valuestring,
                        played_path(HOME "patterns/apron.json"));
    cJSON_Delete(object);
    run_free(&run);
    run = AT("home");
    has(run.out, "  apron                40  yours, hides a built-in one\n");
    run_free(&run);
    refused(AT("home", "copy", "bag", "demo", "mine"), 1, "that name is taken");
    refused(AT("home", "copy", "bag", "demo", "../mine"), 1, "allowed: letters, digits, - and _");
    refused(AT("home", "copy", "bag", "dmo", "x"), 1, "the nearest built-in name is \"demo\"");
    refused(AT("home", "copy", "bat", "demo", "x"), 2, "allowed is bag, event");
    refused(AT("home", "copy", "bag", "demo"), 2, "settee home copy bag demo mine");
    refused(AT("home", "cpy"), 2, "found 'cpy'");
    refused(AT("home", "list", "bags"), 2, "found 'bags'");
}

/* ---- log ---- */

static void log_lists(void **state)
{
    (void)state;
    Run run = AT("log", "list");
    run_is(&run, 0);
    assert_string_equal(
        run.out, "journal                 date        bowler              shots  games\n"
                 "noon                    no date     Odile Farrow            1  (10)\n"
                 "dusk                    2026-04-18  Odile Farrow           25  300 191 (18)\n"
                 "dusk+ansgar             2026-04-18  Ansgar \"Pip\" Pike,     12  90 ?\n"
                 "dawn                    2026-05-02  Odile Farrow           12  300\n"
                 "\n( ): not over, if no other pin falls; ?: a leave or a spare was not entered\n");
    run_free(&run);
    run = AT("log", "list", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    const cJSON *dusk = named(list_of(object, "journals"), "journal", "dusk");
    assert_near(json_at(dusk, "first_balls"), 25, 0);
    assert_near(json_at(dusk, "games.1.score"), 191, 0);
    assert_false(truth(cJSON_GetArrayItem(list_of(dusk, "games"), 2), "over"));
    cJSON_Delete(object);
    run_free(&run);
}

static void log_shows(void **state)
{
    (void)state;
    Run run = AT("log", "show", "dusk", "--bag", "ansgar"), same = AT("log", "show", "dusk+ansgar");
    run_is(&run, 0);
    assert_string_equal(run.out, same.out);
    has(run.out, "Dusk open, 2026-04-18, on Apron, 40 ft; lanes 7 and 8\n");
    has(run.out, "Ansgar \"Pip\" Pike, junior, right hand, bag ansgar; journal dusk+ansgar\n");
    has(run.out, "\nGame 1\n");
    has(run.out, "    1 left  3 Moss Ferry    25.0 12.0 nose    -       good    4 6      6\n");
    has(run.out, "total        9     18     27     36     45     54     63     72     81     90\n");
    has(run.out, "1 Flint Basin   25.0 12.0 flush   on-time good    strike\n");
    has(run.out, "1 Flint Basin   25.0 12.0 high    -       good    -\n");
    has(run.out, "From there on a leave or a spare was not entered: no score.\n");
    assert_true(widest_line(run.out) <= 80);
    run_free(&run);
    run_free(&same);
    run = AT("log", "show", "dawn", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_near(json_at(object, "games.0.score"), 300, 0);
    assert_near(json_at(object, "shots.11.frame"), 10, 0);
    assert_int_equal(cJSON_GetArraySize(list_of(object, "shots")), 12);
    cJSON_Delete(object);
    run_free(&run);
    run = AT("log", "show", "noon");
    has(run.out, "    meant +0.5 mph, 10 degrees less rotation\n");
    has(run.out, "    seen at the arrows on 12.5, breakpoint on 7\n");
    assert_true(widest_line(run.out) <= 80);
    run_free(&run);
    run = AT("log", "show", "noon", "--json");
    object = run_json(&run);
    assert_near(json_at(object, "shots.0.rotation_change_deg"), -10, 0);
    assert_near(json_at(object, "shots.0.arrows"), 12.5, 0);
    assert_near(json_at(object, "shots.0.breakpoint"), 7, 0);
    cJSON_Delete(object);
    run_free(&run);
    refused(AT("log", "show", "dawn", "--bag", "ansgar"), 1, "no journal yet with that bag");
    refused(AT("log", "show", "dwn"), 1, "no such file");
    refused(AT("log", "show"), 2, "needs an event");
    refused(AT("log", "shw"), 2, "found 'shw'");
    refused(AT("log", "list", "dusk"), 2, "takes no event");
    refused(AT("log", "verify", "--bag", "ansgar"), 2, "--bag with an event only");
}

/* Reads a CSV text as RFC 4180 has it: fields of one record into `fields`; false at the end. */
static bool csv_record(const char **at, char fields[32][128], int *count)
{
    *count = 0;
    if (!**at)
        return false;
    for (;;) {
        char *out = fields[(*count)++];
        if (**at == '"') {
            for (++*at; **at != '"' || (*at)[1] == '"'; ++*at) {
                *at += **at == '"';
                *out++ = **at;
            }
            ++*at;
        } else {
            while (**at && !strchr(",\r\n\"", **at))
                *out++ = *(*at)++;
        }
        *out = '\0';
        if (**at != ',')
            break;
        ++*at;
    }
    assert_int_equal(strncmp(*at, "\r\n", 2), 0); /* every record ends so, the last too */
    *at += 2;
    return true;
}

static void log_shows_frames_without_shots(void **state)
{
    (void)state;
    played_shots("noon", NULL, "ftx", NULL);
    Run run = AT("log", "show", "noon");
    run_is(&run, 0);
    has(run.out, "    2 right 1 Flint Basin   25.0 12.0 flush   -       good    foul     spare\n");
    has(run.out, "    3 left  72 (pins only)\n");
    has(run.out, "balls      9 /    F /    7 2      X\n");
    has(run.out, "total       10     27     36      .\n");
    run_free(&run);
    run = AT("log", "show", "noon", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_true(truth(cJSON_GetArrayItem(list_of(object, "shots"), 1), "foul"));
    assert_false(truth(cJSON_GetArrayItem(list_of(object, "shots"), 2), "foul"));
    assert_near(json_at(object, "first_balls"), 3, 0);
    assert_near(json_at(object, "pins_only.0.frame"), 3, 0);
    assert_near(json_at(object, "pins_only.0.before_shot"), 2, 0);
    cJSON_Delete(object);
    run_free(&run);
}

static void log_exports(void **state)
{
    (void)state;
    static char head[32][128], row[32][128];
    int columns, count, records = 0;
    Run run = AT("log", "export", "dusk+ansgar", "--csv");
    run_is(&run, 0);
    const char *at = run.out;
    assert_true(csv_record(&at, head, &columns));
    assert_string_equal(head[0], "journal");
    assert_string_equal(head[3], "bowler");
    assert_string_equal(head[22], "hit");
    assert_string_equal(head[26], "left");
    for (; csv_record(&at, row, &count); records++) {
        assert_int_equal(count, columns);
        assert_string_equal(row[3], "Ansgar \"Pip\" Pike, junior");
        assert_string_equal(row[4], "ansgar");
        if (records == 0) {
            assert_string_equal(row[12], "moss");
            assert_string_equal(row[22], "nose");
            assert_string_equal(row[25], "2");
            assert_string_equal(row[26], "4 6");
            assert_string_equal(row[28], "1");
            assert_string_equal(row[29], "6");
        } else if (records == 10) { /* a strike is not a leave that was not seen */
            assert_string_equal(row[25], "0");
            assert_string_equal(row[26], "");
        } else if (records == 11) {
            assert_string_equal(row[25], "");
        }
    }
    assert_int_equal(records, 12);
    run_free(&run);
    run = AT("log", "export", "--csv"); /* all of them, one header */
    run_is(&run, 0);
    records = 0;
    for (at = run.out; csv_record(&at, row, &count); records++)
        assert_int_equal(count, columns);
    assert_int_equal(records, 1 + 1 + 25 + 12 + 12);
    run_free(&run);
    run = AT("log", "export", "noon", "--csv"); /* meant and watched; numbers not said are empty */
    at = run.out;
    assert_true(csv_record(&at, head, &columns) && csv_record(&at, row, &count));
    static const char *const MORE[] = {
        "mph",    "",     "mph_change", "0.5", "loft_change_ft", "0", "rotation_change_deg", "-10",
        "arrows", "12.5", "breakpoint", "7"};
    for (int i = 0; i < 6; i++) {
        assert_string_equal(head[16 + i], MORE[2 * i]);
        assert_string_equal(row[16 + i], MORE[2 * i + 1]);
    }
    run_free(&run);
    refused(AT("log", "export", "dusk"), 2, "say either --csv or --json");
    refused(AT("log", "export", "--json"), 2, "needs an event");
    refused(AT("log", "show", "dusk", "--csv"), 2, "export has");
}

static void log_verifies(void **state)
{
    (void)state;
    Run run = AT("log", "verify");
    run_is(&run, 0);
    has(run.out, "dusk+ansgar: 12 entries, ok\n");
    has(run.out, "noon: 1 entry, ok\n");
    run_free(&run);
    char *text = played_read("data/settee/events/dusk.journal");
    text[strlen(text) / 2] ^= 1;
    played_write("data/settee/events/dusk.journal", text);
    free(text);
    run = AT("log", "verify");
    run_is(&run, 1);
    has(run.fault, "dusk.journal:");
    has(run.out, "dawn: 12 entries, ok\n");
    run_free(&run);
    run = AT("log", "verify", "--json");
    run_is(&run, 1);
    cJSON *object = run_json(&run);
    assert_false(truth(named(list_of(object, "journals"), "journal", "dusk"), "ok"));
    cJSON_Delete(object);
    run_free(&run);
}

/* A line in the middle that can't be read: looking uses the others and changes nothing, repairing
 * puts a gap there and sets the damaged file aside. */
static void log_repairs(void **state)
{
    (void)state;
    const char *told = "line 6 of the journal can't be used (the line does not match its "
                       "checksum): one entry is missing there, the 7 after it are kept";
    char *text = played_read("data/settee/events/dawn.journal"), *line = text;
    for (int i = 0; i < 5; i++)
        line = strchr(line, '\n') + 1;
    memset(line + 5, '#', 10);
    played_write("data/settee/events/dawn.journal", text);
    Run run = AT("log", "list");
    run_is(&run, 1);
    has(run.fault, told);
    has(run.out, "   11  ");
    lacks(run.out, "Set aside");
    run_free(&run);
    run = AT("log", "repair", "dawn");
    run_is(&run, 0);
    has(run.out, "dawn: ");
    has(run.out, told);
    has(run.out, "; the damaged file is dawn.journal.damaged-1\n");
    run_free(&run);
    char *kept = played_read("data/settee/events/dawn.journal.damaged-1");
    assert_string_equal(kept, text);
    free(kept);
    free(text);
    run = AT("log", "repair", "dawn", "--json");
    run_is(&run, 0);
    assert_string_equal(run.out, "{\"journal\":\"dawn\",\"entries\":12,\"repaired\":null}\n");
    run_free(&run);
    played_write("data/settee/events/dusk.journal.replaced-2", "x");
    run = AT("log", "list");
    run_is(&run, 0);
    has(run.out, "\nSet aside, beside the journals: dawn.journal.damaged-1, "
                 "dusk.journal.replaced-2\n");
    run_free(&run);
    run = AT("log", "verify", "--json");
    run_is(&run, 0);
    has(run.out, "\"set_aside\":[\"dawn.journal.damaged-1\",\"dusk.journal.replaced-2\"]");
    run_free(&run);
    refused(AT("log", "repair"), 2, "log repair needs an event: settee log repair EVENT");
}

/* A folder that can't be read is told, and the rest is listed. */
static void a_folder_that_cannot_be_read(void **state)
{
    (void)state;
    played_write(HOME "patterns", "no folder");
    Run run = AT("home");
    run_is(&run, 1);
    has(run.fault, "config/settee/patterns: the folder can't be read: Not a directory");
    has(run.out, "odile");
    has(run.out, "apron");
    run_free(&run);
    assert_int_equal(rename(played_path("data/settee/events"), played_path("data/settee/away")), 0);
    played_write("data/settee/events", "no folder");
    refused(AT("log", "list"), 1, "data/settee/events: the folder can't be read");
    refused(AT("review"), 1, "data/settee/events: the folder can't be read");
}

/* ---- review ---- */

static void review_by_month(void **state)
{
    (void)state;
    Run run = AT("review");
    run_is(&run, 0);
    assert_true(widest_line(run.out) <= 80);
    has(run.out, "Odile Farrow, left hand, bag odile\n");
    has(run.out, "\nno date          1      1        -                   1  100 %    0 %   9.00\n");
    has(run.out, "\n2026-04          1      3    245.5 of 2             25   92 %   52 %   9.44\n");
    has(run.out, "\n2026-05          1      1    300.0 of 1             12  100 %  100 %  10.00\n");
    has(run.out, "\nall              3      5    263.7 of 3             38   95 %   66 %   9.61\n");
    has(run.out, "\nFlint Basin          1     26   68 %   92 %    76 to 98    50 %   9.42  1-3\n");
    has(run.out, "\nMoss Ferry           3     12   32 %  100 %   76 to 100   100 %  10.00  1\n");
    has(run.out, "You threw every ball in a slot.\n");
    has(run.out, "\nKerb                    40     13  100 %   92 %  12 of slot 3, 1 of slot 1\n");
    has(run.out, "Ansgar \"Pip\" Pike, junior, right hand, bag ansgar\n");
    run_free(&run);
    run = AT("review", "--month", "2026-05");
    run_is(&run, 0);
    has(run.out, "Balls you never threw: Flint Basin (slot 1).\n");
    lacks(run.out, "2026-04");
    lacks(run.out, "Ansgar");
    lacks(run.out, "Husk"); /* in the locker: it was never in the bag */
    run_free(&run);
    refused(AT("review", "--month", "2026-06"), 1, "no journal holds a shot of that month");
    refused(AT("review", "--month", "may"), 2, "allowed is a month as 2026-05");
    refused(AT("review", "--bag", "demo"), 1, "no journal holds a shot of that bag");
    refused(AT("review", "--bag", "odil"), 1, "the nearest name in your home is \"odile\"");
    refused(RUN("review"), 1, "no journal holds a shot yet");
}

static void review_as_json(void **state)
{
    (void)state;
    Run run = AT("review", "--bag", "ansgar", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_int_equal(cJSON_GetArraySize(list_of(object, "unread")), 0);
    assert_int_equal(cJSON_GetArraySize(list_of(object, "bags")), 1);
    assert_near(json_at(object, "bags.0.total.first_balls"), 12, 0);
    assert_near(json_at(object, "bags.0.total.leaves_told"), 11, 0);
    assert_near(json_at(object, "bags.0.total.pocket"), 0.0833, 5e-5);
    assert_near(json_at(object, "bags.0.total.average"), 90, 0);
    const cJSON *flint =
        named(list_of(cJSON_GetArrayItem(list_of(object, "bags"), 0), "balls"), "id", "flint");
    assert_near(json_at(flint, "pocket"), 0.5, 0);
    /* (1/2 -+ z/2 sqrt(1/2 + z^2/4)/...) of 1 of 2, by the closed form for a half */
    double z = 1.959964, half = 0.5 * z / sqrt(2.0 + z * z);
    assert_near(json_at(flint, "pocket_low"), 0.5 - half, 1e-4);
    assert_near(json_at(flint, "pocket_high"), 0.5 + half, 1e-4);
    assert_true(truth(flint, "says_little"));
    assert_near(json_at(flint, "games.0.game"), 2, 0);
    cJSON_Delete(object);
    run_free(&run);
}

/* What can't be read is reported, and the rest is reviewed. */
static void review_goes_on(void **state)
{
    (void)state;
    assert_int_equal(remove(played_path(HOME "events/dawn.json")), 0);
    Run run = AT("review", "--json");
    run_is(&run, 1);
    has(run.fault, "journal dawn: its event ");
    has(run.fault, " is gone");
    cJSON *object = run_json(&run);
    named(list_of(object, "unread"), "journal", "dawn");
    assert_near(json_at(object, "bags.0.total.events"), 2, 0);
    cJSON_Delete(object);
    run_free(&run);
    run = AT("log", "list");
    run_is(&run, 1);
    has(run.out, "dusk+ansgar  ");
    lacks(run.out, "dawn");
    run_free(&run);
}

static void nothing_yet(void **state)
{
    (void)state;
    Run run = RUN("log");
    run_is(&run, 0);
    assert_string_equal(run.out, "No event has a journal yet.\n");
    run_free(&run);
    run = RUN("log", "verify", "--json");
    run_is(&run, 0);
    assert_string_equal(run.out, "{\"journals\":[],\"set_aside\":[]}\n");
    run_free(&run);
}

/* ---- the words of the screen ---- */

static void words_of_the_screen(void **state)
{
    (void)state;
    refused(AT("dusk", "dawn"), 2, "screen takes at most 1 word, found 'dawn' too");
    refused(AT("dusk", "--bga", "odile"), 2, "did you mean --bag?");
    refused(AT("--bag"), 2, "--bag needs a value");
    refused(AT("dusk", "--bag", "odil"), 1, "the nearest name in your home is \"odile\"");
    refused(AT("duks"), 2, "did you mean 'dusk'?");
    refused(AT("demo"), 1, "the screen needs a terminal"); /* and leaves nothing behind */
    assert_int_equal(access(played_path("data/settee/events/demo.journal"), F_OK), -1);
    Run run = AT("help", "screen");
    run_is(&run, 0);
    has(run.out, "settee [EVENT] [OPTION...]\n");
    has(run.out, "--bag FILE");
    run_free(&run);
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, begin, played_end)

/* A name is no formula, whatever it begins with; and Python reads what is exported, strictly:
 * figures are numbers, names are as they were but for the ' of a formula. Where ; parts cells no
 * cell is one either. */
static void spreadsheets_read_names_as_text(void **state)
{
    (void)state;
    static const char READ[] =
        "import csv, sys\n"
        "with open(sys.argv[1], newline=\"\", encoding=\"utf-8\") as file:\n"
        "    text = file.read()\n"
        "lines = text.splitlines(keepends=True)\n"
        "rows = list(csv.DictReader(lines, strict=True))\n"
        "sly = [row for row in rows if row[\"journal\"] == \"sly\"]\n"
        "assert len(sly) == 3 and all(None not in row and None not in row.values() for row in "
        "rows)\n"
        "for row in sly:\n"
        "    assert row[\"event\"] == \"=SUM(A1;A2), \\\"x\\\";=1+1\".replace(\"=\", chr(39) + "
        "\"=\")\n"
        "    assert row[\"bowler\"] == chr(39) + \"@Sly, +1\"\n"
        "    assert row[\"bag\"] == \"sly\" and row[\"pattern\"] == chr(39) + \"\\uff1d1+1\"\n"
        "    assert float(row[\"mph_change\"]) == 0 and int(row[\"left_count\"]) >= 0\n"
        "    assert float(row[\"stance\"]) > 0 and row[\"arrows\"] == row[\"breakpoint\"] == \"\"\n"
        "signs = tuple(\"=+@\\uff1d\")\n"
        "assert not any(cell.startswith(signs) for row in rows for cell in row.values())\n"
        "assert not any(cell.startswith(signs) for line in lines for cell in line.split(\";\"))\n";
    char command[4096];
    played_bag(HOME "bags/sly.json", "@Sly, +1", "right");
    played_write(HOME "patterns/wide.json",
                 "{\"format\":\"settee-pattern/1\",\"name\":\"\uff1d1+1\",\"length_ft\":40,"
                 "\"strokes\":[{\"boards\":[2,38],\"feet\":[0,40],\"units\":[20,20]}]}");
    played_event(HOME "events/sly.json", "=SUM(A1;A2), \\\"x\\\";=1+1", "2026-05-03", "wide",
                 "sly");
    played_shots("sly", NULL, "xsn", NULL);
    Run run = AT("log", "export", "--csv");
    run_is(&run, 0);
    has(run.out, ",\"'=SUM(A1;A2), \"\"x\"\";'=1+1\",");
    has(run.out, ",\"'@Sly, +1\",");
    played_write("all.csv", run.out);
    snprintf(command, sizeof command, "python3 -c '%s' '%s'", READ, played_path("all.csv"));
    assert_int_equal(system(command), 0);
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(home_lists),     TEST(home_tells_what_is_broken),
                                       TEST(home_copies),    TEST(log_lists),
                                       TEST(log_shows),      TEST(log_shows_frames_without_shots),
                                       TEST(log_exports),    TEST(spreadsheets_read_names_as_text),
                                       TEST(log_verifies),   TEST(review_by_month),
                                       TEST(log_repairs),    TEST(a_folder_that_cannot_be_read),
                                       TEST(review_as_json), TEST(review_goes_on),
                                       TEST(nothing_yet),    TEST(words_of_the_screen)};
    return cmocka_run_group_tests_name("home, log and review", tests, NULL, NULL);
}
