/* app_follow.c - see app_follow.h. */
#include "app/app_follow.h"

#include <stdlib.h>
#include <sys/stat.h>

#include "base/text.h"

static FollowMark look(const char *path)
{
    struct stat is;
    if (!path[0] || stat(path, &is) != 0)
        return (FollowMark){0};
    return (FollowMark){(long long)is.st_dev, (long long)is.st_ino, (long long)is.st_size,
                        (long long)is.st_mtim.tv_sec, is.st_mtim.tv_nsec};
}

static bool same(const FollowMark *a, const FollowMark *b)
{
    return a->device == b->device && a->inode == b->inode && a->size == b->size &&
           a->seconds == b->seconds && a->nanoseconds == b->nanoseconds;
}

bool follow_begin(Follow *follow, const Session *session, const BagFile *bag_file)
{
    JournalHead head;
    *follow = (Follow){.fresh = calloc(1, sizeof *follow->fresh)};
    if (!follow->fresh)
        return false;
    if (journal_find(session, &head))
        journal_path(head.name, follow->journal, sizeof follow->journal, NULL);
    text_copy(follow->bag, sizeof follow->bag, bag_file->path);
    return true; /* no marks yet: what was written since is news */
}

const Session *follow_news(Follow *follow, const Session *session)
{
    /* Marked before it is read: what comes meanwhile is read again. */
    FollowMark journal = look(follow->journal), bag = look(follow->bag);
    bool first = follow->journal_mark.inode == 0;
    if (journal.inode == 0 ||
        (same(&journal, &follow->journal_mark) && same(&bag, &follow->bag_mark)))
        return NULL;
    char notice[ERROR_LINE_MAX];
    Error unheard = {0};
    Session *fresh = follow->fresh;
    if (!files_bag(session->event.bag, &fresh->bag, &unheard) || !bag_filled(&fresh->bag))
        return NULL;
    Bag read = fresh->bag;
    session_begin(fresh, &session->event, &read, &session->pattern, &session->first);
    if (!journal_read(fresh, notice, sizeof notice, &unheard))
        return NULL;
    follow->journal_mark = journal;
    follow->bag_mark = bag;
    return first && fresh->entry_count == session->entry_count ? NULL : fresh;
}

void follow_end(Follow *follow)
{
    free(follow->fresh);
    *follow = (Follow){0};
}
