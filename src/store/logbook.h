/* logbook.h - a past event, rebuilt from its journal and its files. */
#ifndef SETTEE_STORE_LOGBOOK_H
#define SETTEE_STORE_LOGBOOK_H

#include "store/journal.h"

/* The event, bag and pattern of a journal, with its entries applied. The event's file is the one it
 * was started with, or else the one with the same id in the home or built in. Bag and pattern are
 * those the event names now, or those the journal names if it has an earlier date or a bag other
 * than the event's own. `notice` receives one line if entries could not be used, else "". False: a
 * file is gone or has faults. */
bool logbook_open(const JournalHead *head, Session *session, char *notice, size_t notice_size,
                  Error *error);

/* The same, and mends the journal's file: `notice` says what was done, "": it is whole. */
bool logbook_repair(const JournalHead *head, Session *session, char *notice, size_t notice_size,
                    Error *error);

/* The journal of that name, or the one of an event (its file or name) with a bag (NULL: the event's
 * own). False: there is none. */
bool logbook_find(const char *name, const char *bag, JournalHead *head, Error *error);

#endif
