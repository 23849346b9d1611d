/* logbook.h - an event that was played, put together again from its journal and its files. */
#ifndef SETTEE_STORE_LOGBOOK_H
#define SETTEE_STORE_LOGBOOK_H

#include "store/journal.h"

/* The event, bag and pattern that a journal is of, with its entries applied. The event's file is
 * the one it was begun with, or else the one of the same id in the home or built in. Bag and
 * pattern are those that the event names now; those that the journal names where it is of an
 * earlier date or of another bag than the event's own. `notice` receives one line when entries
 * could not be used, else "". False: a file is gone or has faults. */
bool logbook_open(const JournalHead *head, Session *session, char *notice, size_t notice_size,
                  Error *error);

/* The journal that is meant by a journal's name, or by an event's file or name and a bag (NULL: the
 * event's own). False: there is none. */
bool logbook_find(const char *name, const char *bag, JournalHead *head, Error *error);

#endif
