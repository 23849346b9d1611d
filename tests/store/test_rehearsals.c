/* test_rehearsals.c - rehearsals kept and read back: whole, in order, apart from the journals; a
 * file with faults is told and the others are read. No source outside. */
#define _XOPEN_SOURCE 700 /* setenv, mkdtemp, nftw */
#include "played.h"

#include "store/rehearsals.h"

static int told;
static char last_fault[ERROR_LINE_MAX];

static void note_fault(const Error *error)
{
    told++;
    error_line(error, last_fault, sizeof last_fault);
}

static RehearsalRecord record(const char *date, int score)
{
    RehearsalRecord out = {.bowler = "Ada \"Q\" Quill",
                           .player = RECORD_YOU,
                           .pattern = "Apron",
                           .length_ft = 40.5,
                           .world = "tilted",
                           .seed = 16510,
                           .bowlers_on_pair = 4,
                           .practice = 6,
                           .steady = true,
                           .help = 2,
                           .games = 2};
    strcpy(out.date, date);
    for (int i = 0; i < 2; i++)
        out.game[i] = (RecordGame){score + i, 180.125, 230.5, 171.25, 180.75};
    return out;
}

static void keep(const RehearsalRecord *one, const char *name)
{
    char path[1200];
    Error error = {0};
    if (!rehearsals_keep(one, path, sizeof path, &error))
        fail_msg("%s", error.text);
    assert_string_equal(path, played_path(name));
    const char *kind;
    assert_true(files_check(path, &kind, &error));
    assert_string_equal(kind, "rehearsal");
}

static void test_there_and_back(void **state)
{
    (void)state;
    int count = -2;
    Error error;
    assert_null(rehearsals_read(&count, note_fault, &error)); /* none yet, and no folder */
    assert_int_equal(count, 0);
    RehearsalRecord early = record("2026-05-17", 181), late = record("2026-05-18", 201);
    RehearsalRecord never = record("", 150);
    keep(&late, "data/settee/rehearsals/2026-05-18-001.json");
    keep(&early, "data/settee/rehearsals/2026-05-17-001.json");
    keep(&early, "data/settee/rehearsals/2026-05-17-002.json");
    keep(&never, "data/settee/rehearsals/0000-00-00-001.json");
    RehearsalRecord *records = rehearsals_read(&count, note_fault, &error);
    assert_int_equal(count, 4);
    assert_int_equal(told, 0);
    assert_memory_equal(&records[0], &never, sizeof never);
    assert_memory_equal(&records[1], &early, sizeof early);
    assert_memory_equal(&records[2], &early, sizeof early);
    assert_memory_equal(&records[3], &late, sizeof late);
    free(records);
}

static void test_faults_are_told(void **state)
{
    (void)state;
    static const struct {
        const char *text, *fault;
    } BAD[] = {
        {"{\"format\": \"settee-rehearsal/1\"}", "bowler"},
        {"{\"format\": \"settee-rehearsal/2\"}", "format"},
        {"not JSON", "1"},
        {"{\"format\": \"settee-rehearsal/1\", \"date\": \"2026-13-01\", \"bowler\": \"A\", "
         "\"player\": \"you\", \"pattern\": \"Apron\", \"length_ft\": 40, \"world\": \"kin\", "
         "\"seed\": 1, \"games\": [{\"score\": 1, \"expected\": 2, \"best\": 3, "
         "\"expected_as_known\": 2, \"best_as_known\": 3}]}",
         "a date such as"},
        {"{\"format\": \"settee-rehearsal/1\", \"bowler\": \"A\", \"player\": \"you\", "
         "\"pattern\": \"Apron\", \"length_ft\": 40, \"world\": \"kin\", \"seed\": 1, "
         "\"games\": []}",
         "games"},
        {"{\"format\": \"settee-rehearsal/1\", \"bowler\": \"A\", \"player\": \"you\", "
         "\"pattern\": \"Apron\", \"length_ft\": 40, \"world\": \"kin\", \"seed\": 1, "
         "\"games\": [{\"score\": 301, \"expected\": 2, \"best\": 3, "
         "\"expected_as_known\": 2, \"best_as_known\": 3}]}",
         "301"}};
    for (size_t i = 0; i < sizeof BAD / sizeof *BAD; i++) {
        int count;
        Error error;
        told = 0;
        played_write("data/settee/rehearsals/2026-05-19-001.json", BAD[i].text);
        RehearsalRecord *records = rehearsals_read(&count, note_fault, &error);
        assert_int_equal(told, 1);
        assert_non_null(strstr(last_fault, "2026-05-19-001.json"));
        if (!strstr(last_fault, BAD[i].fault))
            fail_msg("%zu: said: %s", i, last_fault);
        assert_int_equal(count, 4); /* the good ones */
        free(records);
    }
}

/* Journals and reviews know nothing of them. */
static void test_apart_from_events(void **state)
{
    (void)state;
    int count;
    Error error;
    assert_null(journal_list(&count, &error));
    assert_int_equal(count, 0);
}

/* A folder that leads nowhere is another thing than none: somebody's rehearsals may be in it. */
static void test_a_folder_that_cannot_be_read(void **state)
{
    (void)state;
    char data[1200], path[1300];
    int count = 0;
    Error error = {0};
    snprintf(data, sizeof data, "%s", played_path("loop"));
    snprintf(path, sizeof path, "%s/settee/rehearsals", data);
    assert_int_equal(mkdir(data, 0700), 0);
    assert_int_equal(mkdir(played_path("loop/settee"), 0700), 0);
    assert_int_equal(symlink("rehearsals", path), 0);
    assert_int_equal(setenv("XDG_DATA_HOME", data, 1), 0);
    assert_null(rehearsals_read(&count, note_fault, &error));
    assert_int_equal(count, -1);
    assert_non_null(strstr(error.text, "the folder can't be read"));
    assert_int_equal(setenv("XDG_DATA_HOME", played_path("data"), 1), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_there_and_back),
                                       cmocka_unit_test(test_faults_are_told),
                                       cmocka_unit_test(test_apart_from_events),
                                       cmocka_unit_test(test_a_folder_that_cannot_be_read)};
    return cmocka_run_group_tests_name("rehearsals", tests, played_begin, played_end);
}
