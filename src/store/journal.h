/* journal.h - what the bowler entered, line by line, safe against a crash at any moment.
 *
 * One JSON object per line, with its sequence number and a checksum; appended and fsynced before
 * journal_append returns. A torn last line is cut off and reported; after any other
 * fault the file is set aside under another name, never overwritten. */
#ifndef SETTEE_STORE_JOURNAL_H
#define SETTEE_STORE_JOURNAL_H

#include "base/error.h"
#include "core/event/session.h"

typedef struct Journal Journal;

/* Whose journal it is, by its first line. Texts are "" where that doesn't say; a journal of an
 * earlier version gives only the event's id and date.
 *
 * A journal belongs to one event and one bowler. Its name is the event's id, with + and the bag's
 * id where that bag was taken in place of the event's own: "spring", "spring+anna". When the
 * journal of that name is another event's (its file still exists) or another bowler's (bowler and
 * bag both differ), the next name is tried: "spring.2". One of an earlier date has ".earlier-1"
 * appended. */
typedef struct JournalHead {
    char name[192];
    char event[64], date[16]; /* the event's id, and date or "" */
    char file[512];           /* the event's: an absolute path, or a built-in id */
    char bag[512], pattern[512];
    char bowler[48];
} JournalHead;

/* Opens (or starts) the journal of the session's event and bowler in the user's data folder and
 * applies its entries to `session`. `notice` receives one line for the user when something was cut
 * or set aside, or a full disk makes what is logged wait, else "". NULL on failure, with `error`;
 * the session may then hold some of the entries. Locks the file against a second settee. */
Journal *journal_open(Session *session, char *notice, size_t notice_size, Error *error);

/* Why there is no journal to write to. */
typedef enum JournalRefusal {
    JOURNAL_FAULT,   /* the file is no journal of ours, or there is no memory */
    JOURNAL_IN_USE,  /* another settee has it open: journal_read shows it */
    JOURNAL_NO_PLACE /* it can't be opened to write: journal_read shows what there is */
} JournalRefusal;

/* The same, and says why not in `why`; unless it was a fault the session is as it was. */
Journal *journal_try(Session *session, char *notice, size_t notice_size, JournalRefusal *why,
                     Error *error);

/* Appends one entry that session_apply has taken. False: the disk refused; the event on the
 * screen goes on, and the caller says so. What was refused is kept in memory and written, in
 * order, before the next entry that is appended. */
bool journal_append(Journal *journal, const Entry *entry, Error *error);

/* What the last append had to put right, in one line for the user; "": nothing. The file may have
 * been deleted, moved or replaced meanwhile: then the whole journal is written again to its place,
 * and what lies there now is kept under another name. */
const char *journal_news(const Journal *journal);

/* How many entries are waiting for the disk. */
int journal_waiting(const Journal *journal);

/* Tries once more to write what is waiting; how many entries could not be kept. */
int journal_close(Journal *journal);

/* Applies the journal's entries without writing, locking or creating anything: for looking at an
 * event. Stops at the first line that can't be read, and says so in `notice`. False: there is no
 * journal, or it can't be read at all. */
bool journal_read(Session *session, char *notice, size_t notice_size, Error *error);

/* All journals, those of earlier dates too, sorted by date and name; heap, for free(). NULL with
 * count 0: there are none; with count -1: the folder can't be read, or out of memory; `error`
 * (which may be NULL) says which. */
JournalHead *journal_list(int *count, Error *error);

/* The same for the files set aside as damaged or replaced: `name` is the file's, the rest is empty.
 */
JournalHead *journal_set_aside(int *count, Error *error);

/* Which journal journal_read and journal_open would take: fills head->name, and the rest when
 * there is one. False: none yet. */
bool journal_find(const Session *session, JournalHead *head);

/* journal_read for the journal of that name. */
bool journal_read_name(const char *name, Session *session, char *notice, size_t notice_size,
                       Error *error);

/* The same, and mends the file as journal_open does: `notice` says what was done, "": it is whole.
 */
bool journal_repair(const char *name, Session *session, char *notice, size_t notice_size,
                    Error *error);

/* Checks every line of a journal by itself, and counts its entries. */
bool journal_verify(const char *name, int *entries, Error *error);

/* Where the journal of that name is, below the data folder: "spring.earlier-1" is
 * events/spring.journal.earlier-1. False: the name is too long. */
bool journal_file(const char *name, char *out, size_t size);
/* Its whole path; false: the name is too long, or there is no data folder. */
bool journal_path(const char *name, char *out, size_t size, Error *error);

/* Whether a text begins as a journal does; whether every line of it is whole and in its place. */
bool journal_is(const char *text, size_t length);
bool journal_check(const char *text, size_t length, Error *error);

#endif
