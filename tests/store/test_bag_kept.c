/* test_bag_kept.c - a bag that is edited: kept where it came from, never over another's work; and
 * what may be typed for a ball is what its file may hold, in the same words. */
#define _XOPEN_SOURCE 700
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/bag/bag_edit.h"
#include "store/files.h"

static char folder[64], path[128];
static Bag bag, back;
static BagFile file;
static Error error;

static int setup(void **state)
{
    (void)state;
    strcpy(folder, "/tmp/settee-kept-XXXXXX");
    if (!mkdtemp(folder))
        return 1;
    snprintf(path, sizeof path, "%s/bag.json", folder);
    error = (Error){0};
    return setenv("XDG_CONFIG_HOME", folder, 1);
}

static int teardown(void **state)
{
    (void)state;
    char command[128];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return system(command);
}

static void spill(const char *to, const char *text)
{
    FILE *out = fopen(to, "wb");
    assert_non_null(out);
    assert_int_equal(fwrite(text, 1, strlen(text), out), strlen(text));
    assert_int_equal(fclose(out), 0);
}

static char *slurp(const char *from)
{
    FILE *in = fopen(from, "rb");
    assert_non_null(in);
    char *text = calloc(1, 65536);
    assert_non_null(text);
    assert_true(fread(text, 1, 65535, in) > 0);
    fclose(in);
    return text;
}

static void copy_good(void)
{
    char *text = slurp(SETTEE_SOURCE_DIR "/tests/data/good/bag.json");
    spill(path, text);
    free(text);
}

static void open_bag(const char *name)
{
    if (!files_bag_open(name, &bag, &file, &error))
        fail_msg("%s: %s", name, error.text);
}

static void keep_bag(void)
{
    if (!files_bag_keep(&file, &bag, &error))
        fail_msg("%s: %s", error.file, error.text);
}

static void assert_same_bag(const Bag *a, const Bag *b)
{
    assert_string_equal(a->bowler.name, b->bowler.name);
    assert_near(a->bowler.scatter.launch_deg, b->bowler.scatter.launch_deg, 0);
    assert_int_equal(a->count, b->count);
    for (int i = 0; i < a->count; i++) {
        const Ball *x = &a->balls[i], *y = &b->balls[i];
        assert_string_equal(x->id, y->id);
        assert_string_equal(x->name, y->name);
        assert_int_equal(x->slot, y->slot);
        assert_int_equal(x->cover, y->cover);
        assert_true(ball_same_surface(&x->surface, &y->surface));
        assert_near(x->surface.games_since, y->surface.games_since, 0);
        for (const JsonField *field = BALL_FIELDS; field->key; field++)
            if (field->kind == JSON_NUMBER)
                assert_memory_equal((const char *)x + field->offset,
                                    (const char *)y + field->offset, field->size);
        assert_near(x->pin_to_pap_in, y->pin_to_pap_in, 0);
        assert_near(x->mass_bias_deg, y->mass_bias_deg, 0);
    }
}

static void test_kept_where_it_was(void **state)
{
    (void)state;
    copy_good();
    open_bag(path);
    assert_string_equal(file.path, path);
    for (int i = 0; i < 3; i++) { /* again and again: what it wrote itself is not foreign */
        Ball copy = bag_copy_of(&bag, &bag.balls[0]);
        copy.surface = (Surface){.finish = FINISH_POLISH, .games_since = i};
        assert_true(bag_apply(&bag, &(BagEdit){.kind = BAG_ADD, .ball = copy}, &error));
        keep_bag();
        assert_true(files_bag(path, &back, &error));
        assert_same_bag(&bag, &back);
    }
    char *text = slurp(path);
    int lines = 0;
    for (const char *at = text; *at; at++)
        lines += *at == '\n';
    assert_true(lines > bag.count); /* for people: a ball a line */
    assert_non_null(strstr(text, "\n    {\"id\": "));
    free(text);
}

static void test_built_in_goes_to_the_config_folder(void **state)
{
    (void)state;
    char expected[128];
    struct stat status;
    open_bag("demo");
    snprintf(expected, sizeof expected, "%s/settee/bags/demo.json", folder);
    assert_string_equal(file.path, expected);
    assert_int_not_equal(stat(expected, &status), 0); /* looking makes nothing */
    bag.balls[0].pounds = 14.0;
    keep_bag();
    assert_true(files_bag(expected, &back, &error));
    assert_same_bag(&bag, &back);
    keep_bag();
    assert_true(files_bag("demo", &back, &error)); /* the name stands for it from now on */
    assert_same_bag(&bag, &back);
    open_bag("demo");
    assert_same_bag(&bag, &back);
    assert_string_equal(file.path, expected);
    assert_true(file.there);
    keep_bag();
    setenv("XDG_CONFIG_HOME", "no-absolute-path", 1);
    char *home = getenv("HOME") ? strdup(getenv("HOME")) : NULL;
    unsetenv("HOME");
    open_bag("demo"); /* it may be looked at all the same */
    assert_false(files_bag_keep(&file, &bag, &error));
    assert_non_null(strstr(error.text, "XDG_CONFIG_HOME"));
    if (home)
        setenv("HOME", home, 1);
    free(home);
}

static void test_never_over_another_s_work(void **state)
{
    (void)state;
    copy_good();
    open_bag(path);
    char *text = slurp(path);
    char *quill = strstr(text, "Quill");
    assert_non_null(quill);
    memcpy(quill, "Quilt", 5);
    spill(path, text); /* the same length, and it may be the same second */
    bag.balls[0].pounds = 14.0;
    for (int i = 0; i < 2; i++) {
        assert_false(files_bag_keep(&file, &bag, &error));
        assert_string_equal(error.text, "the file changed on disk: restart settee to read it");
        assert_string_equal(error.file, path);
    }
    char *after = slurp(path);
    assert_string_equal(after, text);
    free(after);
    memcpy(quill, "Quill", 5); /* and back as it was */
    spill(path, text);
    keep_bag();
    assert_int_equal(unlink(path), 0); /* gone: nothing would be overwritten */
    keep_bag();
    free(text);

    /* one that appeared where a built-in bag would go */
    open_bag("demo");
    char theirs[160];
    snprintf(theirs, sizeof theirs, "%s/settee", folder);
    assert_int_equal(mkdir(theirs, 0700), 0);
    strcat(theirs, "/bags");
    assert_int_equal(mkdir(theirs, 0700), 0);
    strcat(theirs, "/demo.json");
    spill(theirs, "{}");
    assert_false(files_bag_keep(&file, &bag, &error));
    after = slurp(theirs);
    assert_string_equal(after, "{}");
    free(after);
}

static void test_refused_by_the_disk_and_tried_again(void **state)
{
    (void)state;
    char blocked[160];
    open_bag("demo");
    snprintf(blocked, sizeof blocked, "%s/settee", folder);
    spill(blocked, "a file where a folder must be");
    assert_false(files_bag_keep(&file, &bag, &error));
    assert_non_null(strstr(error.text, "can't make the folder"));
    assert_int_equal(unlink(blocked), 0);
    keep_bag();
    Bag bad = bag;
    bad.balls[0].rg_in = 3.0; /* what could not be read again is not written */
    assert_false(files_bag_keep(&file, &bad, &error));
    assert_non_null(strstr(error.text, "found 3; allowed: a number from 2.43 to 2.8 inches"));
    assert_true(files_bag(file.path, &back, &error));
    assert_same_bag(&bag, &back);
}

/* Puts `value` in a file as the field of a group and returns what the file's reader says, "" when
 * it takes it. */
static const char *said_of_file(const char *group, const char *key, const char *value)
{
    char text[512];
    error = (Error){0};
    snprintf(text, sizeof text,
             "{\"format\":\"settee-bag/1\",\"bowler\":{\"name\":\"Q\"},\"balls\":[{\"id\":\"a\","
             "\"name\":\"A\",%s%s%s%s\"%s\":%s%s}]}",
             strcmp(key, "intermediate_in") == 0 ? "\"differential_in\":0.08," : "", group,
             group[0] ? ":{" : "", strcmp(key, "games_since") == 0 ? "\"grit\":500," : "", key,
             value, group[0] ? "}" : "");
    spill(path, text);
    return files_bag(path, &back, &error) ? "" : error.text;
}

static const char *said_of_typing(const JsonField *field, void *into, const char *value)
{
    error = (Error){0};
    return json_field_typed(field, value, into, &error) ? "" : error.text;
}

static void same_limits(const JsonField *fields, const char *group, void *into)
{
    for (const JsonField *field = fields; field->key; field++) {
        if (field->kind != JSON_NUMBER)
            continue;
        const double STEP = 0.001;
        double values[] = {field->min - STEP, field->min, field->min + STEP,
                           field->max - STEP, field->max, field->max + STEP,
                           -field->max - 1,   1e9};
        int taken = 0;
        for (size_t i = 0; i < sizeof values / sizeof *values; i++) {
            char value[32], in_file[ERROR_TEXT_MAX];
            snprintf(value, sizeof value, "%.10g", values[i]);
            strcpy(in_file, said_of_file(group, field->key, value));
            const char *typed = said_of_typing(field, into, value);
            if (strcmp(in_file, typed) != 0)
                fail_msg("%s %s: the file says \"%s\", typing \"%s\"", field->key, value, in_file,
                         typed);
            taken += !typed[0];
        }
        assert_int_equal(taken, 4);
    }
}

static void test_limits_are_one_and_the_same(void **state)
{
    (void)state;
    Ball ball = ball_default();
    same_limits(BALL_FIELDS, "", &ball);
    same_limits(SURFACE_FIELDS, "\"surface\"", &ball.surface);
    same_limits(LAYOUT_FIELDS, "\"layout\"", &ball);
    const JsonField *cover = json_field_find(BALL_FIELDS, "cover");
    const JsonField *name = json_field_find(BALL_FIELDS, "name");
    const JsonField *pounds = json_field_find(BALL_FIELDS, "pounds");
    assert_string_equal(said_of_typing(cover, &ball, "pearl"), "");
    assert_int_equal(ball.cover, COVER_PEARL);
    assert_non_null(strstr(said_of_typing(cover, &ball, "pearls"), "did you mean \"pearl\"?"));
    assert_string_equal(said_of_typing(name, &ball, "  "),
                        "found nothing; allowed: text that is not empty");
    assert_string_equal(said_of_typing(pounds, &ball, "15x"),
                        "found 15x; allowed: a number from 6 to 16 pounds");
    assert_string_equal(said_of_typing(pounds, &ball, ""),
                        "found nothing; allowed: a number from 6 to 16 pounds");
    assert_string_equal(said_of_typing(pounds, &ball, "nan"),
                        "found nan; allowed: a number from 6 to 16 pounds");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_kept_where_it_was, setup, teardown),
        cmocka_unit_test_setup_teardown(test_built_in_goes_to_the_config_folder, setup, teardown),
        cmocka_unit_test_setup_teardown(test_never_over_another_s_work, setup, teardown),
        cmocka_unit_test_setup_teardown(test_refused_by_the_disk_and_tried_again, setup, teardown),
        cmocka_unit_test_setup_teardown(test_limits_are_one_and_the_same, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
