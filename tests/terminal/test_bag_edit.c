/* test_bag_edit.c - the real program edits a bag: quit, start again, and the edit is there; what
 * was thrown stays with its ball; a file that another program wrote is not overwritten. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "store/files.h"

extern char *mkdtemp(char *template);

static char folder[64], event_path[128], bag_path[128];

static void spill(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
}

static int setup(void **state)
{
    (void)state;
    strcpy(folder, "/tmp/settee-bag-XXXXXX");
    if (!mkdtemp(folder))
        return 1;
    snprintf(event_path, sizeof event_path, "%s/evening.json", folder);
    snprintf(bag_path, sizeof bag_path, "%s/mine.json", folder);
    spill(event_path, "{\"format\": \"settee-event/1\", \"name\": \"Evening block\", \"bag\": "
                      "\"mine.json\", \"pattern\": \"apron\", \"games\": 2, \"certified\": true}");
    spill(bag_path,
          "{\"format\": \"settee-bag/1\", \"bowler\": {\"name\": \"Wren\"}, \"balls\": [\n"
          "{\"id\": \"kiln\", \"name\": \"Kiln\", \"slot\": 1},\n"
          "{\"id\": \"reed\", \"name\": \"Reed\", \"cover\": \"pearl\", \"slot\": 2},\n"
          "{\"id\": \"loft\", \"name\": \"Hayloft\", \"cover\": \"hybrid\"}]}");
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    unlink(event_path);
    unlink(bag_path);
    return rmdir(folder); /* nothing else may lie there: no half-written file */
}

static void quit(Pty *pty)
{
    pty_type(pty, "q");
    pty_wait(pty);
    assert_true(WIFEXITED(pty->status));
    assert_int_equal(WEXITSTATUS(pty->status), 0);
    pty_expect_restored(pty);
}

static void an_edit_is_there_again(void **state)
{
    (void)state;
    static Bag bag;
    Error error = {0};
    Pty pty;
    pty_start_event(&pty, 80, 24, event_path);
    pty_expect(&pty, "Throw");
    pty_type(&pty, "1heg4\r"); /* with the Kiln, which lies in slot 1 */
    pty_expect(&pty, "frame 2");
    pty_type(&pty, "B");
    pty_expect(&pty, "2 in slots, 1 in the locker");
    pty_type(&pty, "\r14.5\r"); /* its weight */
    pty_expect(&pty, "Weight 14.5 lb; u undoes it");
    pty_expect(&pty, "Saved in ");
    pty_type(&pty, "\033");
    pty_expect(&pty, "2 in slots, 1 in the locker");
    pty_type(&pty, "2"); /* and it changes places with the Reed */
    pty_expect(&pty, "Kiln: slot 2. Reed: slot 1. Now throwing: 1 Reed");
    pty_type(&pty, "-");
    pty_expect(&pty, "Kiln was thrown in this event: it stays, in the locker (x)");
    pty_type(&pty, "\033OB\033OB-"); /* the last of the list: Hayloft */
    pty_expect(&pty, "Take Hayloft out of the bag?");
    pty_type(&pty, "y");
    pty_expect(&pty, "2 in slots, 0 in the locker");
    pty_expect(&pty, "calculating"); /* the bag, again */
    pty_type(&pty, "u");
    pty_expect(&pty, "2 in slots, 1 in the locker");
    pty_type(&pty, "3");
    pty_expect(&pty, "Hayloft: slot 3");
    pty_type(&pty, "q");
    pty_expect(&pty, "Throw");
    quit(&pty);

    if (!files_bag(bag_path, &bag, &error))
        fail_msg("%s", error.text);
    assert_int_equal(bag.count, 3);
    assert_near(bag_find(&bag, "kiln")->pounds, 14.5, 0);
    assert_int_equal(bag_find(&bag, "kiln")->slot, 2);
    assert_int_equal(bag_find(&bag, "reed")->slot, 1);
    assert_int_equal(bag_find(&bag, "loft")->slot, 3);

    pty_start_again(&pty);
    pty_expect(&pty, "frame 2");
    pty_expect(&pty, "1L 2 high"); /* thrown with the Kiln, wherever it lies */
    pty_type(&pty, "B");
    pty_expect(&pty, "2 Kiln                      14.5");
    pty_expect(&pty, "3 Hayloft");
    pty_type(&pty, "u");
    pty_expect(&pty, "nothing to undo in the bag"); /* as far back as the session goes */
    pty_type(&pty, "q");
    pty_expect(&pty, "Throw");
    quit(&pty);
    pty_end(&pty);
}

static void another_s_work_is_left_alone(void **state)
{
    (void)state;
    static const char OTHER[] =
        "{\"format\": \"settee-bag/1\", \"bowler\": {\"name\": \"Wren\"}, \"balls\": [\n"
        "{\"id\": \"kiln\", \"name\": \"Kiln\", \"pounds\": 12, \"slot\": 1}]}";
    Pty pty;
    char after[256] = "";
    pty_start_event(&pty, 120, 40, event_path);
    pty_expect(&pty, "Throw");
    spill(bag_path, OTHER);
    pty_type(&pty, "B3");
    pty_expect(&pty, "Not saved: the file changed on disk: restart settee to read it");
    pty_type(&pty, "qq");
    pty_expect(&pty, "Not everything is saved. Quit anyway?");
    pty_type(&pty, "y");
    pty_wait(&pty);
    FILE *file = fopen(bag_path, "rb");
    assert_non_null(file);
    assert_true(fread(after, 1, sizeof after - 1, file) > 0);
    fclose(file);
    assert_string_equal(after, OTHER);
    pty_start_again(&pty);
    pty_expect(&pty, "Throw");
    pty_type(&pty, "B");
    pty_expect(&pty, "1 in slots, 0 in the locker");
    pty_type(&pty, "3");
    pty_expect(&pty, "Saved in ");
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(an_edit_is_there_again, setup, teardown),
        cmocka_unit_test_setup_teardown(another_s_work_is_left_alone, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
