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
 * aside, else "". NULL on failure, with `error`. Locks the file against a second settee. */
Journal *journal_open(Session *session, char *notice, size_t notice_size, Error *error);

/* Appends one entry that session_apply has taken. False: the disk refused; the event on the
 * screen goes on, and the caller says so. */
bool journal_append(Journal *journal, const Entry *entry, Error *error);

void journal_close(Journal *journal);

#endif
