/* journal.h - what the bowler entered, line by line, safe against a crash at any moment.
 *
 * One JSON object a line with its sequence number and a checksum; appended and fsynced before
 * journal_append returns. A torn last line is cut off and reported; anything else that can't
 * be read sets the file aside under another name, never overwriting it. */
#ifndef SETTEE_STORE_JOURNAL_H
#define SETTEE_STORE_JOURNAL_H

#include "base/error.h"
#include "core/session.h"

typedef struct Journal Journal;

/* Opens (or starts) the journal of session->event.id in the user's data folder and applies its
 * entries to `session`. `notice` receives one line for the user when something was cut or set
 * aside, else "". NULL on failure, with `error`; the session may then hold some of the entries.
 * Locks the file against a second settee. */
Journal *journal_open(Session *session, char *notice, size_t notice_size, Error *error);

/* Appends one entry that session_apply has taken. False: the disk refused; the event on the
 * screen goes on, and the caller says so. What was refused is kept in memory and written, in
 * order, before the next entry that is appended. */
bool journal_append(Journal *journal, const Entry *entry, Error *error);

/* How many entries wait for the disk. */
int journal_waiting(const Journal *journal);

/* Tries once more to write what waits. */
void journal_close(Journal *journal);

/* Applies the journal's entries without touching, locking or making anything: for looking at an
 * event. Stops at the first line that can't be read, and tells so in `notice`. False: there is
 * none, or it can't be read at all. */
bool journal_read(Session *session, char *notice, size_t notice_size, Error *error);

/* The ids of the events that have a journal, sorted, at most `max`; how many there are. */
int journal_list(char (*ids)[64], int max);

/* Whether a text begins as a journal does; whether every line of it is whole and in its place. */
bool journal_is(const char *text, size_t length);
bool journal_check(const char *text, size_t length, Error *error);

#endif
