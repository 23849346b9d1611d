/* test_good_files.c - good files are read to the last key, whatever way they are named. */
#include "near.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/event/stays.h"
#include "store/builtin.h"
#include "store/files.h"
#include "store/json.h"

static Bag bag;
static Pattern pattern;
static EventInfo event;
static Theme theme;
static RuleSet rules;
static Lesson lesson;
static Shot shots[SESSION_SHOTS_MAX];
static char folder[64];

#define GOOD(name) SETTEE_SOURCE_DIR "/tests/data/good/" name

static void assert_read(bool read, const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    if (!read)
        fail_msg("%s", line);
}

static void write_text(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
}

/* Reads a whole small file; for free(). */
static char *slurp(const char *path)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = calloc(1, 65536);
    assert_non_null(text);
    assert_true(fread(text, 1, 65535, file) > 0);
    fclose(file);
    return text;
}

static void test_bag(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_bag(GOOD("bag.json"), &bag, &error), &error);
    const Bowler *bowler = &bag.bowler;
    assert_string_equal(bowler->name, "Quill");
    assert_int_equal(bowler->hand, HAND_RIGHT);
    assert_int_equal(bowler->style, STYLE_ONE_HANDED);
    assert_near(bowler->mph, 17.5, 0);
    assert_near(bowler->rpm, 320, 0);
    assert_near(bowler->rotation_deg, 48, 0);
    assert_near(bowler->rotation_least_deg, 35, 0);
    assert_near(bowler->rotation_most_deg, 62.5, 0);
    assert_true(bowler_turns(bowler));
    assert_near(bowler->tilt_deg, 11, 0);
    assert_near(bowler->loft_ft, 1.5, 0);
    assert_near(bowler->laydown_offset_boards, 6, 0);
    assert_near(bowler->scatter.launch_deg, 0.2, 0);
    assert_near(bowler->scatter.laydown_boards, 0.4, 0);
    assert_int_equal(bag.count, 3);
    const Ball *ball = bag_slot(&bag, 1);
    assert_non_null(ball);
    assert_string_equal(ball->id, "ember");
    assert_near(ball->rg_in, 2.48, 0);
    assert_near(ball->differential_in, 0.05, 0);
    assert_near(ball->intermediate_in, 0.015, 0);
    assert_near(ball->cover_strength, 1.05, 0);
    assert_int_equal(ball->surface.finish, FINISH_GRIT);
    assert_near(ball->surface.grit, 2000, 0);
    assert_near(ball->surface.games_since, 4, 0);
    assert_near(ball->pin_to_pap_in, 4.5, 0);
    assert_near(ball->mass_bias_deg, 50, 0);
}

/* What is left out is what ball_default says, and the finish replaces its grit. */
static void test_bag_defaults(void **state)
{
    (void)state;
    Error error = {0};
    Ball usual = ball_default();
    assert_read(files_bag(GOOD("bag.json"), &bag, &error), &error);
    const Ball *ball = bag_find(&bag, "glint");
    assert_int_equal(ball->cover, COVER_PEARL);
    assert_int_equal(ball->surface.finish, FINISH_POLISH);
    assert_near(ball->rg_in, usual.rg_in, 0);
    assert_near(ball->pounds, usual.pounds, 0);
    ball = bag_find(&bag, "spare_1");
    assert_int_equal(ball->slot, 0);
    assert_int_equal(ball->cover, COVER_POLYESTER);
    assert_int_equal(ball->surface.finish, FINISH_POLISH); /* as is usual for polyester */
    assert_true(ball->surface_usual);
    assert_false(bag_find(&bag, "glint")->surface_usual);
    assert_true(bag.bowler.spare_release.said);
    assert_near(bag.bowler.spare_release.mph, 18.5, 0);
    assert_near(bag.bowler.spare_release.rotation_deg, 6, 0);
    assert_near(bag.bowler.spare_release.rpm, 0.6 * bag.bowler.rpm, 1e-12); /* left out: usual */
}

static void test_strokes(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_pattern(GOOD("sandbar.json"), &pattern, &error), &error);
    assert_string_equal(pattern.id, "sandbar");
    assert_string_equal(pattern.name, "Sandbar");
    assert_string_equal(pattern.note, "plays from the second arrow");
    assert_near(pattern.length_ft, 40, 0);
    assert_int_equal(pattern.stroke_count, 2);
    assert_int_equal(pattern.reading_count, 0);
    assert_int_equal(pattern.strokes[1].board_from, 11);
    assert_int_equal(pattern.strokes[1].board_to, 29);
    assert_near(pattern.strokes[1].ft_start, 0.5, 0);
    assert_near(pattern.strokes[1].ft_end, 35.5, 0);
    assert_near(pattern.strokes[1].units_start, 30, 0);
    assert_near(pattern.strokes[1].units_end, 12.5, 0);
}

static void test_readings(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_pattern(GOOD("taped.json"), &pattern, &error), &error);
    assert_int_equal(pattern.stroke_count, 0);
    assert_int_equal(pattern.reading_count, 3);
    assert_near(pattern.readings[0].ft, 8, 0);
    assert_near(pattern.readings[0].units[0], 5, 0);
    assert_near(pattern.readings[0].units[19], 24, 0);
    assert_near(pattern.readings[2].units[38], 0, 0);
}

static void test_event(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_event(GOOD("event.json"), &event, &error), &error);
    assert_string_equal(event.id, "event");
    assert_string_equal(event.name, "Harvest singles");
    assert_string_equal(event.date, "2026-10-03");
    assert_string_equal(event.pattern, GOOD("sandbar.json")); /* beside the event, not beside us */
    assert_string_equal(event.bag, GOOD("bag.json"));
    assert_int_equal(event.pair[0], 11);
    assert_int_equal(event.pair[1], 12);
    assert_int_equal(event.games, 4);
    assert_int_equal(event.bowlers_on_pair, 3);
    assert_true(event.certified);
    assert_read(files_pattern(event.pattern, &pattern, &error), &error);
}

static void assert_pair_of(int game, int left, int right)
{
    assert_int_equal(event_pair(&event, game)[0], left);
    assert_int_equal(event_pair(&event, game)[1], right);
}

static void test_event_on_several_pairs(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_event(GOOD("event-moves.json"), &event, &error), &error);
    assert_pair_of(1, 13, 14);
    assert_pair_of(2, 15, 16);
    assert_pair_of(3, 1, 2); /* round the end of the house */
    assert_pair_of(4, 3, 4);
    assert_true(event.warm_up);
    assert_read(files_event(GOOD("event-pairs.json"), &event, &error), &error);
    assert_pair_of(1, 13, 14);
    assert_pair_of(2, 13, 14);
    assert_pair_of(3, 21, 22);
    assert_pair_of(4, 21, 22);
    assert_int_equal(event.pair[0], 13);
    assert_false(event.warm_up);
}

/* What is known of its pattern stands in its place, and makes a pattern in the middle of it. */
static void test_event_without_a_sheet(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_event(GOOD("event-about.json"), &event, &error), &error);
    assert_string_equal(event.pattern, "about:41.5ft,25ml");
    assert_read(files_pattern(event.pattern, &pattern, &error), &error);
    assert_true(pattern.about.only);
    assert_near(pattern.length_ft, 41.5, 0.0);
    char place[128];
    assert_read(files_place("patterns", event.pattern, place, sizeof place, &error), &error);
    assert_string_equal(place, "about:41.5ft,25ml");
    assert_false(files_pattern("about:41", &pattern, &error));
    assert_false(files_pattern("about:41", &pattern, NULL));
}

/* Two names that can't be ids get two different ids, so that they never share a journal. */
static void test_event_ids(void **state)
{
    (void)state;
    Error error = {0};
    char path[256], first[64];
    const char *const NAMES[] = {"spring open.json", "spring-open.json", "spring.open.json"};
    char absolute[4096];
    snprintf(absolute, sizeof absolute,
             "{\"format\": \"settee-event/1\", \"name\": \"S\", \"certified\": false,"
             "\"pattern\": \"%s\", \"bag\": \"%s\"}",
             GOOD("sandbar.json"), GOOD("bag.json"));
    first[0] = '\0';
    for (int i = 0; i < 3; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, NAMES[i]);
        write_text(path, absolute);
        assert_read(files_event(path, &event, &error), &error);
        unlink(path);
        assert_int_equal(strspn(event.id, "abcdefghijklmnopqrstuvwxyz0123456789-"),
                         strlen(event.id));
        assert_string_not_equal(event.id, first);
        strcpy(first, event.id);
        if (i == 1)
            assert_string_equal(event.id, "spring-open");
    }
    assert_string_equal(event.date, "");
    assert_false(event.certified);
}

static void test_theme(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_theme(GOOD("theme.json"), &theme, &error), &error);
    assert_string_equal(theme.id, "theme");
    assert_string_equal(theme.name, "Chalk");
    assert_int_equal(theme.role[ROLE_PLAIN].foreground, 0xe5e5e5);
    assert_int_equal(theme.role[ROLE_PLAIN].background, -1);
    assert_int_equal(theme.role[ROLE_ACCENT].foreground, 0x20a0ff);
    assert_true(theme.role[ROLE_ACCENT].bold && theme.role[ROLE_ACCENT].underline);
    assert_false(theme.role[ROLE_ACCENT].reverse);
    assert_int_equal(theme.role[ROLE_BAD].foreground, 0xff0000);
    assert_true(theme.role[ROLE_BAD].reverse && !theme.role[ROLE_BAD].bold);
    assert_int_equal(theme.role[ROLE_DIM].foreground, 0x7f7f7f);
    assert_int_equal(theme.role[ROLE_PIN].foreground, 0xe5e5e5); /* left out: as plain */
}

static void test_rules(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_rules(GOOD("rules.json"), &rules, &error), &error);
    assert_int_equal(rules.count, 2);
    const Rule *rule = &rules.rules[0];
    assert_string_equal(rule->id, "high-twice-move");
    assert_int_equal(rule->when_count, 2);
    assert_int_equal(rule->when[0], SIGN_HIGH_TWICE);
    assert_int_equal(rule->when[1], SIGN_WORN);
    assert_int_equal(rule->unless_count, 1);
    assert_int_equal(rule->unless[0], SIGN_BAD_RELEASE);
    assert_int_equal(rule->try_count, 2);
    assert_int_equal(rule->try_[1], ADJUST_BALL_DOWN);
    assert_int_equal(rule->avoid_count, 1);
    assert_int_equal(rule->avoid[0], ADJUST_MOVE_OUT);
    assert_int_equal(rule->weight, 4);
    assert_string_equal(rule->source, "common practice");
    assert_int_equal(rules.rules[1].unless_count, 0);
}

static void test_shots_array(void **state)
{
    (void)state;
    Error error = {0};
    int count;
    assert_read(files_shots(GOOD("shots.json"), shots, SESSION_SHOTS_MAX, &count, &error), &error);
    assert_int_equal(count, 3);
    assert_near(shots[0].stance, 24, 0);
    assert_near(shots[0].mph, 17.4, 0);
    assert_near(shots[0].arrows, 12.5, 0);
    assert_near(shots[0].breakpoint, 7, 0);
    assert_int_equal(shots[0].hit, HIT_FLUSH);
    assert_int_equal(shots[0].read, READ_ON_TIME);
    assert_int_equal(shots[0].release, RELEASE_GOOD);
    assert_true(shot_strike(&shots[0]));
    assert_false(shots[1].left_said);
    assert_near(shots[1].stance, 0, 0);
    assert_near(shots[1].arrows, 0, 0);
    assert_near(shots[1].breakpoint, 0, 0);
    assert_int_equal(shots[2].lane, SIDE_RIGHT);
    assert_int_equal(shots[2].left, pin_bit(10));
    assert_true(shots[2].ringing);
    assert_int_equal(shots[2].hit, HIT_UNSAID);
}

static void test_shots_lines(void **state)
{
    (void)state;
    Error error = {0};
    int count;
    assert_read(files_shots(GOOD("shots.jsonl"), shots, SESSION_SHOTS_MAX, &count, &error), &error);
    assert_int_equal(count, 2);
    assert_int_equal(shots[0].left, pin_bit(4));
    assert_near(shots[1].stance, -3.5, 0);
    assert_int_equal(shots[1].left, PINS_ALL);
    assert_read(files_shots(GOOD("shots-meant.jsonl"), shots, SESSION_SHOTS_MAX, &count, &error),
                &error);
    assert_int_equal(count, 2);
    assert_near(shots[0].rotation_change_deg, -10, 0);
    assert_near(shots[1].loft_change_ft, 2, 0);
    assert_near(shots[1].mph_change, 0.5, 0);
    assert_read(files_shots(GOOD("shots-foul.jsonl"), shots, SESSION_SHOTS_MAX, &count, &error),
                &error);
    assert_int_equal(count, 2);
    assert_true(shots[0].foul && !shots[0].spare_foul && shots[0].left_said);
    assert_int_equal(shots[0].spare_left, pin_bit(7) | pin_bit(10));
    assert_true(!shots[1].foul && shots[1].spare_foul);
}

static void test_standard_input(void **state)
{
    (void)state;
    Error error = {0};
    int keep = dup(STDIN_FILENO), file = open(GOOD("bag.json"), O_RDONLY);
    assert_true(keep >= 0 && file >= 0 && dup2(file, STDIN_FILENO) >= 0);
    bool read = files_bag("-", &bag, &error);
    dup2(keep, STDIN_FILENO);
    close(keep);
    close(file);
    assert_read(read, &error);
    assert_int_equal(bag.count, 3);
}

/* What is written reads back the same; a range that was never said is not made up. */
static void test_bag_saved(void **state)
{
    (void)state;
    static Bag back;
    for (int said = 0; said < 2; said++) {
        Error error = {0};
        char path[128];
        snprintf(path, sizeof path, "%s/saved.json", folder);
        assert_read(files_bag(GOOD("bag.json"), &bag, &error), &error);
        if (!said)
            bag.bowler.rotation_least_deg = bag.bowler.rotation_most_deg = 0.0;
        assert_read(files_save_bag(path, &bag, &error), &error);
        bool read = files_bag(path, &back, &error);
        unlink(path);
        assert_read(read, &error);
        assert_near(back.bowler.rotation_deg, 48, 0);
        assert_near(back.bowler.rotation_least_deg, said ? 35 : 0, 0);
        assert_near(back.bowler.rotation_most_deg, said ? 62.5 : 0, 0);
        assert_true(bowler_turns(&back.bowler) == said);
        assert_int_equal(back.count, bag.count);
        assert_true(bag_find(&back, "spare_1")->surface_usual); /* still said by nobody */
        assert_false(bag_find(&back, "glint")->surface_usual);
    }
}

/* A byte order mark, line ends of another system, and control characters written as escapes. */
/* Hexadecimal digits of either case, to the last letter. */
static void test_escapes(void **state)
{
    (void)state;
    static const char UPPER[] = "{\"x\": \"\\u00FF\\uD83C\\uDFB3\"}";
    static const char LOWER[] = "{\"x\": \"\\u00ff\\ud83c\\udfb3\"}";
    static const char *const TEXTS[] = {UPPER, LOWER};
    for (int i = 0; i < 2; i++) {
        Error error = {0};
        JsonDoc *doc = json_read(TEXTS[i], strlen(TEXTS[i]), 1, &error);
        assert_read(doc != NULL, &error);
        Json root = json_root(doc, &error), x;
        assert_true(json_member(&root, "x", &x));
        assert_string_equal(json_string(&x), "\u00ff\U0001f3b3");
        json_free(doc);
    }
}

static void test_foreign_habits(void **state)
{
    (void)state;
    Error error = {0};
    char path[128];
    snprintf(path, sizeof path, "%s/bag.json", folder);
    write_text(path, "\xef\xbb\xbf{\r\n\"format\": \"settee-bag/1\",\r\n"
                     "\"bowler\": {\"name\": \"Jo\\u001b[31m\\n \\u00e9\\ud83c\\udfb3\"},\r\n"
                     "\"balls\": [{\"id\": \"a\", \"name\": \"A\\tB\"}]}\r\n");
    bool read = files_bag(path, &bag, &error);
    unlink(path);
    assert_read(read, &error);
    assert_string_equal(bag.bowler.name, "Jo[31m  \xc3\xa9\xf0\x9f\x8e\xb3");
    assert_string_equal(bag.balls[0].name, "A B");
}

static void test_lesson(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_lesson(GOOD("lesson.json"), &lesson, &error), &error);
    assert_string_equal(lesson.id, "lesson");
    assert_string_equal(lesson.name, "A board too far");
    assert_int_equal(lesson.level, 2);
    assert_int_equal(lesson.order, 7);
    assert_int_equal(lesson.skill, SKILL_FEET);
    assert_string_equal(lesson.words, "You stand one board too far {in}.");
    assert_true(lesson.straight && lesson.hook);
    assert_int_equal(lesson.kind, LESSON_STRIKE_BALL);
    assert_string_equal(lesson.pattern, "parlour");
    assert_string_equal(lesson.learned, "apron");
    assert_near(lesson.oil_by, -1.5, 0);
    assert_near(lesson.worn_by, 0.5, 0);
    assert_int_equal(lesson.suits, 0);
    assert_int_equal(lesson.ball, LESSON_STRONG);
    assert_near(lesson.over, 10, 0);
    assert_near(lesson.steady, 0.5, 0);
    assert_int_equal(lesson.seed, 7);
    const LessonChange *start = &lesson.start;
    assert_near(start->feet, 1, 0);
    assert_near(start->eyes, 0.5, 0);
    assert_near(start->mph, -0.5, 0);
    assert_near(start->loft_ft, 0.25, 0);
    assert_near(start->rotation_deg, 5, 0);
    assert_near(lesson.today.laydown, 0.5, 0);
    assert_near(lesson.today.aim, -0.25, 0);
    assert_near(lesson.today.mph, -1, 0);
    assert_near(lesson.today.rpm, 10, 0);
    assert_int_equal(lesson.shot_count, 2);
    assert_near(lesson.shots[0].rpm, -20, 0);
    assert_false(lesson.shots[0].left_said);
    assert_true(lesson.shots[1].left_said);
    assert_int_equal(lesson.shots[1].left, pin_bit(2) | pin_bit(8));
    assert_string_equal(lesson.ask, "Where did it go?");
    assert_int_equal(lesson.answer_count, 2);
    assert_int_equal(lesson.answer_right, 0);
    assert_int_equal(lesson.answers[0].is, SAW_LIGHT);
    assert_int_equal(lesson.answers[1].is, SAW_UNSAID);
    assert_int_equal(lesson.choice_count, 2);
    assert_int_equal(lesson.choice_right, 1);
    const LessonChoice *choice = &lesson.choices[1];
    assert_string_equal(choice->say, "Move 1 {out}");
    assert_string_equal(choice->does, "It comes back.");
    assert_near(choice->change.feet, -1, 0);
    assert_near(choice->change.eyes, -0.5, 0);
    assert_near(choice->change.mph, 0.5, 0);
    assert_near(choice->change.loft_ft, -0.25, 0);
    assert_near(choice->change.rotation_deg, -5, 0);
    assert_int_equal(choice->change.ball, 1);
    assert_string_equal(lesson.why, "Feet toward the miss.");
    assert_string_equal(lesson.hint, "Which side?");
    assert_int_equal(lesson.caution, LESSON_CAUTION_WARM_UP);
    assert_int_equal(lesson.count, COUNT_NEAR);
    assert_near(lesson.points, 12.5, 0);
}

static void test_lesson_kinds(void **state)
{
    (void)state;
    Error error = {0};
    assert_read(files_lesson(GOOD("lesson-spare.json"), &lesson, &error), &error);
    assert_int_equal(lesson.kind, LESSON_SPARE_BALL);
    assert_int_equal(lesson.left, pin_bit(10));
    assert_int_equal(lesson.choices[1].pin, 10);
    assert_near(lesson.choices[1].beside, 6, 0);
    assert_false(lesson.straight);
    assert_near(lesson.steady, 1, 0);
    assert_read(files_lesson(GOOD("lesson-score.json"), &lesson, &error), &error);
    assert_int_equal(lesson.kind, LESSON_SCORE);
    assert_string_equal(lesson.score, "9/ X 9- 8/ X 7/ 9- X 9-");
    assert_int_equal(lesson.target, 160);
    assert_int_equal(lesson.choices[1].marks, 1);
    assert_int_equal(lesson.left, 0);
}

static void test_check_kinds(void **state)
{
    (void)state;
    static const char *const ROWS[][2] = {{GOOD("bag.json"), "bag"},
                                          {GOOD("sandbar.json"), "pattern"},
                                          {GOOD("taped.json"), "pattern"},
                                          {GOOD("event.json"), "event"},
                                          {GOOD("event-moves.json"), "event"},
                                          {GOOD("event-pairs.json"), "event"},
                                          {GOOD("event-about.json"), "event"},
                                          {GOOD("theme.json"), "theme"},
                                          {GOOD("rules.json"), "rules"},
                                          {GOOD("shots.json"), "shots"},
                                          {GOOD("shots.jsonl"), "shots"},
                                          {GOOD("shots-meant.jsonl"), "shots"},
                                          {GOOD("lesson.json"), "lesson"},
                                          {GOOD("lesson-spare.json"), "lesson"},
                                          {GOOD("lesson-score.json"), "lesson"},
                                          {GOOD("juniors.json"), "juniors"}};
    for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
        Error error = {0};
        const char *kind = NULL;
        assert_read(files_check(ROWS[i][0], &kind, &error), &error);
        assert_string_equal(kind, ROWS[i][1]);
    }
}

static bool read_builtin(const BuiltinFile *file, Error *error)
{
    if (strcmp(file->kind, "bags") == 0)
        return files_bag(file->id, &bag, error);
    if (strcmp(file->kind, "patterns") == 0)
        return files_pattern(file->id, &pattern, error);
    if (strcmp(file->kind, "events") == 0)
        return files_event(file->id, &event, error);
    if (strcmp(file->kind, "themes") == 0)
        return files_theme(file->id, &theme, error);
    if (strcmp(file->kind, "lessons") == 0)
        return files_lesson(file->id, &lesson, error);
    return files_rules(file->id, &rules, error);
}

/* What the program carries passes its own checks, and so do the bag and pattern of its events. */
static void test_builtin(void **state)
{
    (void)state;
    Error error = {0};
    int count = 0;
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++, count++) {
        char named[ERROR_FILE_MAX];
        snprintf(named, sizeof named, "built-in %s", file->id);
        assert_read(read_builtin(file, &error), &error);
        assert_string_equal(error.file, named);
        assert_ptr_equal(builtin_find(file->kind, file->id), file);
        if (strcmp(file->kind, "events") == 0) {
            assert_read(files_bag(event.bag, &bag, &error), &error);
            assert_read(files_pattern(event.pattern, &pattern, &error), &error);
        }
    }
    assert_true(count > 0);
    assert_null(builtin_find("patterns", "no-such"));
    assert_null(builtin_find("no-such", "demo"));
}

/* A path wins over a built-in file of the same name; a folder of that name does not hide it. */
static void test_path_wins(void **state)
{
    (void)state;
    Error error = {0};
    char here[4096];
    const char *ids[2];
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(builtin_ids("patterns", ids, 1), 1);
    char *text = slurp(GOOD("sandbar.json"));
    assert_int_equal(chdir(folder), 0);
    write_text(ids[0], text);
    bool read = files_pattern(ids[0], &pattern, &error);
    unlink(ids[0]);
    mkdir(ids[0], 0700);
    Pattern carried;
    Error second = {0};
    bool read_second = files_pattern(ids[0], &carried, &second);
    rmdir(ids[0]);
    assert_int_equal(chdir(here), 0);
    free(text);
    assert_read(read, &error);
    assert_string_equal(pattern.name, "Sandbar");
    assert_read(read_second, &second);
    assert_string_not_equal(carried.name, "Sandbar");
}

static void test_nearest_builtin(void **state)
{
    (void)state;
    Error error = {0};
    const char *ids[2];
    char name[64], expected[128];
    assert_int_equal(builtin_ids("patterns", ids, 1), 1);
    snprintf(name, sizeof name, "%sx", ids[0]);
    snprintf(expected, sizeof expected, "no such file; the nearest built-in name is \"%s\"",
             ids[0]);
    assert_false(files_pattern(name, &pattern, &error));
    assert_string_equal(error.text, expected);
}

static int make_folder(void **state)
{
    (void)state;
    strcpy(folder, "/tmp/settee-good-XXXXXX");
    return mkdtemp(folder) ? 0 : 1;
}

static int remove_folder(void **state)
{
    (void)state;
    return rmdir(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_bag),
                                       cmocka_unit_test(test_bag_defaults),
                                       cmocka_unit_test(test_bag_saved),
                                       cmocka_unit_test(test_strokes),
                                       cmocka_unit_test(test_readings),
                                       cmocka_unit_test(test_event),
                                       cmocka_unit_test(test_event_on_several_pairs),
                                       cmocka_unit_test(test_event_without_a_sheet),
                                       cmocka_unit_test(test_event_ids),
                                       cmocka_unit_test(test_theme),
                                       cmocka_unit_test(test_rules),
                                       cmocka_unit_test(test_lesson),
                                       cmocka_unit_test(test_lesson_kinds),
                                       cmocka_unit_test(test_shots_array),
                                       cmocka_unit_test(test_shots_lines),
                                       cmocka_unit_test(test_standard_input),
                                       cmocka_unit_test(test_escapes),
                                       cmocka_unit_test(test_foreign_habits),
                                       cmocka_unit_test(test_check_kinds),
                                       cmocka_unit_test(test_builtin),
                                       cmocka_unit_test(test_path_wins),
                                       cmocka_unit_test(test_nearest_builtin)};
    return cmocka_run_group_tests_name("good files", tests, make_folder, remove_folder);
}
