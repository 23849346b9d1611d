/* test_cli.c - the commands of the real program: what they say, in what form, with what status. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <sys/wait.h>
#include <unistd.h>

#include "cli/cli.h"
#include "helper_run.h"

static void faults(int status, const char *says, const char *const *words)
{
    Run run = run_with(NULL, words);
    run_is(&run, status);
    if (!run.fault || !strstr(run.fault, says))
        fail_msg("'%s' does not say '%s'", run.fault ? run.fault : "", says);
    run_free(&run);
}
#define FAULTS(status, says, ...) faults(status, says, (const char *const[]){__VA_ARGS__, NULL})

static char *read_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = calloc(1, 1 << 16);
    assert_non_null(text);
    assert_true(fread(text, 1, (1 << 16) - 1, file) > 0);
    fclose(file);
    return text;
}

/* Every command's table fits in 80 columns and is printed without a fault. */
static void tables_fit(void **state)
{
    (void)state;
    const char *const lines[][8] = {
        {"help"},
        {"--help"},
        {"version"},
        {"help", "roll"},
        {"line", "--help"},
        {"roll", "--slot", "1"},
        {"roll", "--ball", "old-sash", "--laydown", "20"},
        {"roll", "--slot", "6", "--laydown", "39", "--launch", "-9"},
        {"line"},
        {"line", "--slot", "3", "--pattern", "lintel"},
        {"line", "--bag", "demo-left", "--pattern", "slant"},
        {"oil"},
        {"oil", "--pattern", "hammock", "--at", "0,12.5,60"},
        {"advise"},
        {"advise", "--shots", FIXTURE("shots.json"), "--certified"},
        {"check", "themes/dark.json"},
        {"rehearse", "--player", "hold", "--games", "1", "--practice", "4"},
    };
    assert_int_equal(chdir(SETTEE_SOURCE_DIR), 0);
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        Run run = run_with(NULL, lines[i]);
        run_is(&run, 0);
        assert_true(run.out[0] != '\0');
        if (widest_line(run.out) > 80)
            fail_msg("%s %s is %d columns wide:\n%s", lines[i][0], lines[i][1] ? lines[i][1] : "",
                     widest_line(run.out), run.out);
        run_free(&run);
    }
}

/* Practice balls are not listed, only counted. */
static void rehearses(void **state)
{
    (void)state;
    Run run = RUN("rehearse", "--player", "hold", "--games", "1", "--practice", "4", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_near(json_at(object, "practice"), 4, 0);
    assert_near(json_at(object, "decisions.0.frame"), 1, 0);
    int count = cJSON_GetArraySize(cJSON_GetObjectItem(object, "decisions"));
    assert_in_range(count, 10, 12);
    cJSON_Delete(object);
    run_free(&run);
    FAULTS(2, "--practice", "rehearse", "--practice", "41");
    FAULTS(2, "knows-the-lane", "rehearse", "--player", "nobody");
    FAULTS(2, "--sights", "line", "--sights");
}

static void version_is_the_projects(void **state)
{
    (void)state;
    Run run = RUN("version", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    const cJSON *version = cJSON_GetObjectItem(object, "version");
    char wanted[64];
    snprintf(wanted, sizeof wanted, "project(settee VERSION %s ", cJSON_GetStringValue(version));
    char *project = read_file(SETTEE_SOURCE_DIR "/CMakeLists.txt");
    assert_non_null(strstr(project, wanted));
    free(project);
    cJSON_Delete(object);
    run_free(&run);
}

static void help_names_every_option_it_takes(void **state)
{
    (void)state;
    Run run = RUN("help", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    int commands = 0;
    const cJSON *command;
    cJSON_ArrayForEach(command, cJSON_GetObjectItem(object, "commands"))
    {
        commands++;
        const cJSON *option;
        cJSON_ArrayForEach(option, cJSON_GetObjectItem(command, "options"))
        {
            /* a value that is none: the command must know the option and say what is allowed */
            char form[48];
            snprintf(form, sizeof form, "%.47s",
                     cJSON_GetStringValue(cJSON_GetObjectItem(option, "form")));
            char *value = strchr(form, ' ');
            if (!value)
                continue;
            *value = '\0';
            FAULTS(2, "needs a value", cJSON_GetStringValue(cJSON_GetObjectItem(command, "name")),
                   form);
        }
    }
    assert_true(commands >= 7);
    cJSON_Delete(object);
    run_free(&run);
}

static void roll_has_the_keys(void **state)
{
    (void)state;
    static const char *const KEYS[] = {"path",  "first_move_ft", "hook_ft", "breakpoint", "roll_ft",
                                       "entry", "flare_in",      "revs",    "seconds",    "rack"};
    static const char *const POINT[] = {"ft",       "board", "degrees", "mph",  "rpm",
                                        "slip_mps", "mu",    "units",   "phase"};
    Run run = RUN("roll", "--slot", "1", "--laydown=22", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_int_equal(cJSON_GetArraySize(object), sizeof KEYS / sizeof *KEYS);
    for (size_t i = 0; i < sizeof KEYS / sizeof *KEYS; i++)
        assert_true(cJSON_HasObjectItem(object, KEYS[i]));
    const cJSON *path = cJSON_GetObjectItem(object, "path");
    assert_int_equal(cJSON_GetArraySize(path), 121);
    const cJSON *point;
    int at = 0;
    cJSON_ArrayForEach(point, path)
    {
        assert_int_equal(cJSON_GetArraySize(point), sizeof POINT / sizeof *POINT);
        for (size_t i = 0; i < sizeof POINT / sizeof *POINT; i++)
            assert_true(cJSON_HasObjectItem(point, POINT[i]));
        assert_near(json_at(point, "ft"), 0.5 * at, 1e-9);
        at++;
    }
    assert_near(json_at(object, "path.0.board"), 22.0, 1e-9);
    assert_near(json_at(object, "path.120.board"), json_at(object, "entry.board"), 1e-3);
    cJSON_Delete(object);
    run_free(&run);
}

/* The same release given in two ways, or the bowler's usual one spelled out, gives the same. */
static void roll_says_the_same_two_ways(void **state)
{
    (void)state;
    Run one = RUN("roll", "--stance", "28", "--aim", "13.75", "--json");
    Run two = RUN("roll", "--stance=28", "--aim=13.75", "--mph", "18.3", "--rpm", "350",
                  "--rotation", "50", "--tilt", "12", "--loft", "1", "--slot", "1", "--json");
    run_is(&one, 0);
    run_is(&two, 0);
    assert_string_equal(one.out, two.out);
    run_free(&one);
    run_free(&two);
}

/* The first design's "What comes out": laydown 22 on the 40 ft pattern, each reactive ball on its
 * own pocket line (urethane and polyester are weaker now: docs/model.md, "Friction"). The board at
 * the arrows there is the one that the ball rolls over at 15 ft. */
static void demo_balls_roll_as_the_model_says(void **state)
{
    (void)state;
    static const struct {
        const char *slot;
        double arrows, breakpoint, breakpoint_ft, entry, first_move, roll_ft;
    } BALLS[] = {{"1", 14.9, 8.2, 42, 3.8, 21, 53},
                 {"3", 15.0, 7.9, 42, 4.0, 24, 53},
                 {"4", 15.7, 8.7, 43, 4.3, 28, 56},
                 {"5", 16.3, 9.6, 44, 4.8, 33, 59}};
    for (size_t i = 0; i < sizeof BALLS / sizeof *BALLS; i++) {
        Run run = RUN("roll", "--pattern", "apron", "--bag", "demo", "--slot", BALLS[i].slot,
                      "--laydown", "22", "--json");
        run_is(&run, 0);
        cJSON *object = run_json(&run);
        assert_near(json_at(object, "path.30.board"), BALLS[i].arrows, 1.0);
        assert_near(json_at(object, "breakpoint.board"), BALLS[i].breakpoint, 1.0);
        assert_near(json_at(object, "breakpoint.ft"), BALLS[i].breakpoint_ft, 3.0);
        assert_near(json_at(object, "entry.degrees"), BALLS[i].entry, 0.5);
        assert_near(json_at(object, "first_move_ft"), BALLS[i].first_move, 3.0);
        assert_near(json_at(object, "roll_ft"), BALLS[i].roll_ft, 3.0);
        cJSON_Delete(object);
        run_free(&run);
    }
}

static void gutter_ball_has_no_entry(void **state)
{
    (void)state;
    Run run = RUN("roll", "--laydown", "3", "--launch", "4", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_true(cJSON_IsNull(cJSON_GetObjectItem(object, "entry")));
    assert_true(cJSON_GetArraySize(cJSON_GetObjectItem(object, "path")) < 60);
    cJSON_Delete(object);
    run_free(&run);
}

static void line_comes_to_the_pocket(void **state)
{
    (void)state;
    Run all = RUN("line", "--json");
    run_is(&all, 0);
    cJSON *lines = run_json(&all);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(lines, "lines")), 6);
    Run one = RUN("line", "--slot", "3", "--json");
    run_is(&one, 0);
    cJSON *line = run_json(&one);
    assert_true(
        cJSON_Compare(line, cJSON_GetArrayItem(cJSON_GetObjectItem(lines, "lines"), 2), true));
    char stance[16], aim[16];
    snprintf(stance, sizeof stance, "%.2f", json_at(line, "stance"));
    snprintf(aim, sizeof aim, "%.2f", json_at(line, "aim"));
    Run roll = RUN("roll", "--slot", "3", "--stance", stance, "--aim", aim, "--json");
    run_is(&roll, 0);
    cJSON *rolled = run_json(&roll);
    assert_near(json_at(rolled, "entry.board"), json_at(line, "entry.board"), 0.1);
    assert_near(json_at(rolled, "entry.board"), 17.4, 0.9); /* well inside the pocket, 16 to 18.7 */
    assert_near(json_at(line, "laydown") + 6.0, json_at(line, "stance"), 0.01);
    cJSON_Delete(lines);
    cJSON_Delete(line);
    cJSON_Delete(rolled);
    run_free(&all);
    run_free(&one);
    run_free(&roll);
}

/* What can be thrown is found: a strong left hand from deep inside, a straight ball from the edge.
 */
static void lines_from_everywhere(void **state)
{
    (void)state;
    static const char *const WORDS[][12] = {
        {"line", "--pattern", "parlour", "--bag", "demo-left", "--slot", "1", "--rpm", "540",
         "--json"},
        {"line", "--pattern", "parlour", "--slot", "6", "--rpm", "60", "--mph", "14", "--json"}};
    static const double LOW[] = {34.1, 1.0}, HIGH[] = {39.0, 9.9}; /* laydowns */
    for (int i = 0; i < 2; i++) {
        Run run = run_with(NULL, WORDS[i]);
        run_is(&run, 0);
        cJSON *line = run_json(&run);
        assert_true(json_at(line, "laydown") >= LOW[i] && json_at(line, "laydown") <= HIGH[i]);
        assert_near(json_at(line, "entry.board"), 17.4, 0.9);
        cJSON_Delete(line);
        run_free(&run);
    }
}

/* A ball that goes inside from the hand on is nowhere said to break at the foul line. */
static void straight_has_no_breakpoint(void **state)
{
    (void)state;
    Run line = RUN("line", "--pattern", "apron", "--slot", "6");
    Run json = RUN("line", "--pattern", "apron", "--slot", "6", "--json");
    Run all = RUN("line", "--pattern", "apron");
    Run bag = RUN("bag", "--pattern", "apron");
    run_is(&line, 0);
    run_is(&json, 0);
    run_is(&all, 0);
    run_is(&bag, 0);
    assert_non_null(strstr(line.out, "Breakpoint  none: it goes inside from the hand on\n"));
    assert_non_null(strstr(json.out, "\"breakpoint\":{\"board\":null,\"ft\":null}"));
    assert_non_null(strstr(all.out, "- ft     -     ")); /* hooks nowhere, breaks nowhere */
    assert_null(strstr(all.out, "@  0"));
    assert_non_null(strstr(bag.out, "- ft     -     "));
    assert_null(strstr(bag.out, "@  0"));
    run_free(&line);
    run_free(&json);
    run_free(&all);
    run_free(&bag);
}

/* A left-hander's boards count from the left: on an even pattern the mirrored bowler gets the
 * very same numbers, on an uneven one other numbers. */
static void left_hander_is_mirrored(void **state)
{
    (void)state;
    char *bag = read_file(SETTEE_SOURCE_DIR "/src/builtin/bags/demo.json");
    char *hand = strstr(bag, "\"right\"");
    assert_non_null(hand);
    memcpy(hand, "\"left\" ", 7);
    const char *const patterns[] = {"apron", "loaf", "slant"};
    for (int i = 0; i < 3; i++) {
        Run right = RUN("line", "--pattern", patterns[i], "--slot", "1", "--json");
        const char *const words[] = {"line",   "--pattern", patterns[i], "--bag", "-",
                                     "--slot", "1",         "--json",    NULL};
        Run left = run_with(bag, words);
        run_is(&right, 0);
        run_is(&left, 0);
        if (i < 2)
            assert_string_equal(left.out, right.out);
        else
            assert_string_not_equal(left.out, right.out);
        run_free(&right);
        run_free(&left);
    }
    free(bag);
}

static void oil_is_measured(void **state)
{
    (void)state;
    Run run = RUN("oil", "--pattern", "apron", "--at", "10,40", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_near(json_at(object, "volume_ml"), 25.0, 0.3);
    assert_near(json_at(object, "length_ft"), 40.0, 0.0);
    assert_near(json_at(object, "ratio"), 3.0, 0.1);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "readings")), 2);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "graph")), 31);
    assert_near(json_at(object, "readings.0.ft"), 10.0, 0.0);
    /* even: board 5 as board 35, and much more at the centre */
    assert_near(json_at(object, "readings.0.units.4"), json_at(object, "readings.0.units.34"), 0.0);
    assert_less(4.0 * json_at(object, "readings.0.units.4"),
                json_at(object, "readings.0.units.19"));
    cJSON_Delete(object);
    run_free(&run);
}

static void advise_adjustments(void **state)
{
    (void)state;
    static const char *const KEYS[] = {"action",
                                       "slot",
                                       "stance",
                                       "aim",
                                       "mph_change",
                                       "loft_change_ft",
                                       "rotation_change_deg",
                                       "pocket_now",
                                       "pocket_after",
                                       "entry_deg",
                                       "room_in",
                                       "room_out",
                                       "rules",
                                       "because",
                                       "caution"};
    Run run = RUN("advise", "--shots", FIXTURE("shots.json"), "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    const cJSON *adjustments = cJSON_GetObjectItem(object, "answers"), *adjustment;
    assert_true(cJSON_GetArraySize(adjustments) >= 2);
    cJSON_ArrayForEach(adjustment, adjustments)
    {
        for (size_t i = 0; i < sizeof KEYS / sizeof *KEYS; i++)
            if (!cJSON_HasObjectItem(adjustment, KEYS[i]))
                fail_msg("an answer without %s", KEYS[i]);
        assert_true(json_at(adjustment, "pocket_after") >= 0 &&
                    json_at(adjustment, "pocket_after") <= 1);
    }
    /* two high in a row, both early, on the right lane: the next shot's lane, and what they say */
    assert_string_equal(
        cJSON_GetStringValue(cJSON_GetObjectItem(cJSON_GetObjectItem(object, "belief"), "lane")),
        "right");
    assert_less(json_at(object, "belief.film_of_sheet.mean"), 1.3);
    assert_less(0.6, json_at(object, "belief.film_of_sheet.mean"));
    bool high = false;
    const cJSON *sign;
    cJSON_ArrayForEach(sign, cJSON_GetObjectItem(object, "signs"))
    {
        high = high ||
               strcmp(cJSON_GetStringValue(cJSON_GetObjectItem(sign, "sign")), "high-twice") == 0;
        const cJSON *shot;
        cJSON_ArrayForEach(shot, cJSON_GetObjectItem(sign, "shots"))
            assert_true(shot->valuedouble >= 1 && shot->valuedouble <= 5);
    }
    assert_true(high);
    cJSON_Delete(object);
    run_free(&run);
}

/* Shots come a line each, or through a pipe; what is said of the next plan is taken. */
/* A line that was said is thrown from, whatever it is; half of one is not made up. */
static void advise_stands_where_it_is_told(void **state)
{
    (void)state;
    static const char *const STANCES[] = {"-2", "0", "25.3"};
    for (int i = 0; i < 3; i++) {
        Run run = RUN("advise", "--stance", STANCES[i], "--aim", "5", "--json");
        run_is(&run, 0);
        cJSON *json = run_json(&run);
        bool held = false;
        for (cJSON *one = cJSON_GetObjectItem(json, "answers")->child; one; one = one->next)
            if (strcmp(cJSON_GetObjectItem(one, "action")->valuestring, "hold") == 0) {
                held = true;
                assert_near(json_at(one, "stance"), atof(STANCES[i]), 1e-9);
                assert_near(json_at(one, "aim"), 5.0, 0.0);
            }
        assert_true(held);
        cJSON_Delete(json);
        run_free(&run);
    }
    FAULTS(2, "--aim needs --stance", "advise", "--aim", "14");
    Run help = RUN("help", "rehearse");
    assert_non_null(strstr(help.out, "rehearse 3"));
    run_free(&help);
}

static void advise_takes_what_it_is_told(void **state)
{
    (void)state;
    char *text = read_file(FIXTURE("shots.jsonl"));
    const char *const piped[] = {"advise", "--shots", "-", "--json", NULL};
    Run one = run_with(text, piped),
        two = RUN("advise", "--shots", FIXTURE("shots.jsonl"), "--json");
    run_is(&one, 0);
    run_is(&two, 0);
    assert_string_equal(one.out, two.out);
    Run told = RUN("advise", "--shots", FIXTURE("shots.jsonl"), "--slot", "1", "--stance", "27",
                   "--aim", "12.5", "--lane", "right", "--game", "2", "--frame", "4", "--bowlers",
                   "2", "--certified");
    run_is(&told, 0);
    assert_non_null(strstr(told.out, "right lane, game 2, frame 4, certified"));
    assert_non_null(strstr(told.out, "stance 27.0, aim 12.5"));
    run_free(&one);
    run_free(&two);
    run_free(&told);
    free(text);
}

static void check_tells_good_from_bad(void **state)
{
    (void)state;
    Run run = RUN("check", FIXTURE("shots.json"), FIXTURE("bad-bag.json"), "apron");
    run_is(&run, 1);
    assert_non_null(strstr(run.out, "shots.json: shots, ok\n"));
    assert_non_null(strstr(run.out, "apron: pattern, ok\n"));
    assert_null(strstr(run.out, "bad-bag"));
    assert_non_null(strstr(run.fault, "bad-bag.json:5: $.balls[0]"));
    assert_non_null(strstr(run.fault, "differential_in"));
    run_free(&run);
    Run json = RUN("check", FIXTURE("bad-bag.json"), "apron", "--json");
    run_is(&json, 1);
    cJSON *object = run_json(&json);
    const cJSON *files = cJSON_GetObjectItem(object, "files");
    assert_true(cJSON_IsFalse(cJSON_GetObjectItem(cJSON_GetArrayItem(files, 0), "ok")));
    assert_true(cJSON_IsTrue(cJSON_GetObjectItem(cJSON_GetArrayItem(files, 1), "ok")));
    cJSON_Delete(object);
    run_free(&json);
    const char *const piped[] = {"check", "-", NULL};
    Run in = run_with("{\"format\": \"settee-theme/1\", \"name\": \"T\", \"roles\": {}}", piped);
    run_is(&in, 0);
    assert_string_equal(in.out, "-: theme, ok\n");
    run_free(&in);
    FAULTS(1, "no-such-file", "check", "/nowhere/no-such-file.json");
    FAULTS(2, "at least one file", "check");
}

static void wrong_usage_is_told_and_is_2(void **state)
{
    (void)state;
    FAULTS(2, "did you mean 'roll'?", "rol");
    FAULTS(2, "did you mean 'advise'?", "advice");
    FAULTS(2, "did you mean 'line'?", "help", "lien");
    FAULTS(2, "no option '--fast'", "--fast");
    FAULTS(2, "did you mean --pattern?", "roll", "--patern", "apron");
    FAULTS(2, "did you mean --stance?", "advise", "--stanec=3");
    FAULTS(2, "no option --shots", "oil", "--shots", "x"); /* known, but not to this command */
    FAULTS(2, "'settee help line'", "line", "-x");
    FAULTS(2, "8 to 28 mph", "roll", "--mph", "28.5");
    FAULTS(2, "found '0x10'", "roll", "--mph", "0x10");
    FAULTS(2, "found 'nan'", "roll", "--mph=nan");
    FAULTS(2, "found '18,5'", "roll", "--mph=18,5");
    FAULTS(2, "whole number from 1 to 6", "roll", "--slot", "7");
    FAULTS(2, "whole number from 1 to 6", "roll", "--slot", "1.5");
    FAULTS(2, "left or right", "advise", "--lane", "centre");
    FAULTS(2, "found '10,,20'", "oil", "--at", "10,,20");
    FAULTS(2, "0 to 60 ft", "oil", "--at", "61");
    FAULTS(2, "takes no value", "roll", "--json=yes");
    FAULTS(2, "options only", "oil", "apron");
    FAULTS(2, "--stance needs --aim", "roll", "--stance", "28");
    FAULTS(2, "--launch needs --laydown", "roll", "--launch", "2");
    FAULTS(2, "not both", "roll", "--stance", "28", "--aim", "14", "--laydown", "22");
    FAULTS(2, "off the lane", "roll", "--stance", "3", "--aim", "3");
    FAULTS(2, "only one file can be -", "roll", "--pattern", "-", "--bag", "-");
}

static void faults_of_data_are_1(void **state)
{
    (void)state;
    FAULTS(1, "nearest built-in name is \"apron\"", "oil", "--pattern", "apro");
    FAULTS(1, "did you mean 'old-sash'?", "roll", "--ball", "oldsash");
    FAULTS(1, "no ball is in a slot", "roll", "--bag", FIXTURE("empty-slots.json"));
    FAULTS(1, "slot 2 of the bag is empty", "roll", "--slot", "2", "--bag",
           FIXTURE("empty-slots.json"));
    FAULTS(1, "bad-bag.json:5", "line", "--bag", FIXTURE("bad-bag.json"));
    FAULTS(1, "which is empty in this bag", "advise", "--bag", FIXTURE("empty-slots.json"),
           "--shots", FIXTURE("shots.json"));
    FAULTS(1, "", "oil", "--pattern", "-"); /* nothing comes in */
    FAULTS(1, "no launch from board 39", "line", "--slot", "1", "--laydown", "39", "--mph", "8",
           "--rpm", "650");
}

/* A locker ball is found by its id even when no slot is filled. */
static void locker_ball_rolls(void **state)
{
    (void)state;
    Run run = RUN("roll", "--bag", FIXTURE("empty-slots.json"), "--ball", "kept-back");
    run_is(&run, 0);
    assert_non_null(strstr(run.out, "Kept Back (locker, 2000 grit)"));
    run_free(&run);
}

static void a_full_disk_is_told(void **state)
{
    (void)state;
    /* through a shell: only the redirection differs */
    int status = system(SETTEE_BINARY " oil --json >/dev/full 2>/dev/null");
    assert_int_equal(WEXITSTATUS(status), 1);
}

/* What the composition asks: which first words are the command line's. */
static void knows_its_words(void **state)
{
    (void)state;
    assert_true(cli_knows("roll"));
    assert_true(cli_knows("--help"));
    assert_true(cli_knows("--jsno"));
    assert_true(cli_knows("rol"));
    assert_false(cli_knows("demo")); /* an event */
    assert_false(cli_knows("-"));
    assert_false(cli_knows("./my-event.json")); /* the screen says that it is not there */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tables_fit),
        cmocka_unit_test(rehearses),
        cmocka_unit_test(version_is_the_projects),
        cmocka_unit_test(help_names_every_option_it_takes),
        cmocka_unit_test(roll_has_the_keys),
        cmocka_unit_test(roll_says_the_same_two_ways),
        cmocka_unit_test(demo_balls_roll_as_the_model_says),
        cmocka_unit_test(gutter_ball_has_no_entry),
        cmocka_unit_test(line_comes_to_the_pocket),
        cmocka_unit_test(lines_from_everywhere),
        cmocka_unit_test(straight_has_no_breakpoint),
        cmocka_unit_test(left_hander_is_mirrored),
        cmocka_unit_test(oil_is_measured),
        cmocka_unit_test(advise_adjustments),
        cmocka_unit_test(advise_stands_where_it_is_told),
        cmocka_unit_test(advise_takes_what_it_is_told),
        cmocka_unit_test(check_tells_good_from_bad),
        cmocka_unit_test(wrong_usage_is_told_and_is_2),
        cmocka_unit_test(faults_of_data_are_1),
        cmocka_unit_test(locker_ball_rolls),
        cmocka_unit_test(a_full_disk_is_told),
        cmocka_unit_test(knows_its_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
