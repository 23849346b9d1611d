/* app_follow.h - an event that another settee has open, read again as that one writes. */
#ifndef SETTEE_APP_APP_FOLLOW_H
#define SETTEE_APP_APP_FOLLOW_H

#include "store/files.h"
#include "store/journal.h"

/* A file as it was when last looked at; all 0: not there. */
typedef struct FollowMark {
    long long device, inode, size, seconds, nanoseconds;
} FollowMark;

typedef struct Follow {
    Session *fresh; /* owned: follow_begin .. follow_end */
    char journal[1024], bag[1024];
    FollowMark journal_mark, bag_mark;
} Follow;

/* `session` was just read from its journal, its bag from `bag_file`. False: out of memory. */
bool follow_begin(Follow *follow, const Session *session, const BagFile *bag_file);

/* The event as it stands now, if there is news since the last call; NULL: none. It belongs to
 * `follow`, and is good until the next call. Looks at two files and reads them only if they have
 * changed; a file that can't be read just now is tried again. */
const Session *follow_news(Follow *follow, const Session *session);

void follow_end(Follow *follow);

#endif
