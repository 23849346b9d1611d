/* helper_journal.c - an event to keep a journal of. */
#include "helper_journal.h"

#include "near.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "store/journal.h"

char helper_folder[64];
char helper_journal[160];

static Session sessions[2];

int helper_setup(void **state)
{
    (void)state;
    /* In memory where there is such a place: these tests wait for the disk thousands of times. */
    bool memory = access("/dev/shm", W_OK) == 0;
    strcpy(helper_folder, memory ? "/dev/shm/settee-faults-XXXXXX" : "/tmp/settee-faults-XXXXXX");
    if (!mkdtemp(helper_folder))
        return 1;
    snprintf(helper_journal, sizeof helper_journal, "%s/settee/events/harvest.journal",
             helper_folder);
    return setenv("XDG_DATA_HOME", helper_folder, 1);
}

static void remove_all(const char *path)
{
    DIR *folder = opendir(path);
    for (struct dirent *row; folder && (row = readdir(folder));) {
        char child[512];
        if (strcmp(row->d_name, ".") == 0 || strcmp(row->d_name, "..") == 0)
            continue;
        snprintf(child, sizeof child, "%s/%s", path, row->d_name);
        if (unlink(child) != 0)
            remove_all(child);
    }
    if (folder)
        closedir(folder);
    rmdir(path);
}

int helper_teardown(void **state)
{
    (void)state;
    chmod(helper_folder, 0700);
    remove_all(helper_folder);
    return 0;
}

Session *helper_session(int which)
{
    static Bag bag;
    EventInfo event = {.id = "harvest",
                       .name = "Harvest singles",
                       .date = "2026-10-03",
                       .pair = {11, 12},
                       .games = 3,
                       .bowlers_on_pair = 2};
    Pattern pattern = {.id = "sandbar", .length_ft = 40};
    Plan first = {.slot = 1, .stance = 24, .aim = 12};
    bag = (Bag){.bowler = bowler_default(), .count = 2};
    bag.balls[0] = bag.balls[1] = ball_default();
    strcpy(bag.balls[0].id, "ember");
    strcpy(bag.balls[1].id, "glint");
    bag.balls[0].slot = 1;
    bag.balls[1].slot = 2;
    session_begin(&sessions[which], &event, &bag, &pattern, &first);
    return &sessions[which];
}

Entry helper_entry(int index)
{
    const Shot flush = {.lane = SIDE_LEFT,
                        .slot = 1,
                        .stance = 24,
                        .aim = 12,
                        .mph = 17.4,
                        .arrows = 12.5,
                        .breakpoint = 7,
                        .hit = HIT_FLUSH,
                        .read = READ_ON_TIME,
                        .release = RELEASE_GOOD,
                        .left_said = true};
    const Shot light = {.lane = SIDE_RIGHT,
                        .slot = 2,
                        .stance = 24.1,
                        .aim = 1.0 / 3.0,
                        .mph_change = -0.5,
                        .loft_change_ft = 2,
                        .rotation_change_deg = 10,
                        .hit = HIT_LIGHT,
                        .left_said = true,
                        .ringing = true,
                        .left = 1 << 9};
    const Shot bare = {.lane = SIDE_LEFT, .slot = 1, .hit = HIT_GUTTER};
    const Entry entries[HELPER_ENTRIES] = {
        {.kind = ENTRY_SHOT, .shot = flush},
        {.kind = ENTRY_SHOT, .lane = SIDE_RIGHT, .shot = light},
        {.kind = ENTRY_PLAN, .plan = {.slot = 2, .stance = 26, .aim = 13.5, .mph_change = -0.5}},
        {.kind = ENTRY_APART, .apart = true},
        {.kind = ENTRY_PLAN,
         .lane = SIDE_RIGHT,
         .apart = true,
         .plan = {.slot = 1,
                  .stance = -2.25,
                  .aim = 9,
                  .loft_change_ft = 2,
                  .rotation_change_deg = -10}},
        {.kind = ENTRY_SHOT, .shot = bare},
        {.kind = ENTRY_UNDO},
        {.kind = ENTRY_REDO},
        {.kind = ENTRY_EDIT, .index = 1, .shot = flush},
        {.kind = ENTRY_APART},
        {.kind = ENTRY_GAME},
        {.kind = ENTRY_SHOT, .lane = SIDE_RIGHT, .shot = light}};
    return entries[index];
}

void helper_write_journal(int count)
{
    char notice[512];
    Error error = {0};
    Session *session = helper_session(0);
    Journal *journal = journal_open(session, notice, sizeof notice, &error);
    if (!journal)
        fail_msg("%s", error.text);
    assert_string_equal(notice, "");
    for (int i = 0; i < count; i++) {
        Entry entry = helper_entry(i);
        assert_true(session_apply(session, &entry));
        assert_true(journal_append(journal, &entry, &error));
    }
    journal_close(journal);
}

static bool same_shot(const Shot *a, const Shot *b)
{
    return a->lane == b->lane && a->slot == b->slot && a->stance == b->stance && a->aim == b->aim &&
           a->mph == b->mph && a->arrows == b->arrows && a->breakpoint == b->breakpoint &&
           a->hit == b->hit && a->read == b->read && a->release == b->release &&
           a->left_said == b->left_said && a->ringing == b->ringing && a->left == b->left &&
           a->mph_change == b->mph_change && a->loft_change_ft == b->loft_change_ft &&
           a->rotation_change_deg == b->rotation_change_deg;
}

bool helper_holds(const Session *session, int count)
{
    if (session->entry_count != count)
        return false;
    for (int i = 0; i < count; i++) {
        const Entry *is = &session->entries[i], wanted = helper_entry(i);
        if (is->kind != wanted.kind || is->lane != wanted.lane || is->apart != wanted.apart ||
            is->index != wanted.index || !same_shot(&is->shot, &wanted.shot) ||
            !plan_same(&is->plan, &wanted.plan))
            return false;
    }
    return true;
}

char *helper_slurp(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    char *text = calloc(1, 1 << 16);
    assert_non_null(text);
    *size = fread(text, 1, (1 << 16) - 1, file);
    fclose(file);
    return text;
}

void helper_spill(const char *path, const void *bytes, size_t size)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}
