/* helper_journal.h - an event to keep a journal of, in a folder that is made for each test. */
#ifndef SETTEE_TESTS_HELPER_JOURNAL_H
#define SETTEE_TESTS_HELPER_JOURNAL_H

#include <stdbool.h>
#include <stddef.h>

#include "core/event/session.h"

enum { HELPER_ENTRIES = 12 };

extern char helper_folder[64];   /* XDG_DATA_HOME */
extern char helper_journal[160]; /* path of the event's journal */

int helper_setup(void **state);    /* a cmocka setup: a fresh folder, XDG_DATA_HOME set */
int helper_teardown(void **state); /* removes it with all that is in it */

/* A session of the test's event, begun; one static session each for 0 and 1. */
Session *helper_session(int which);

/* Entry 0..HELPER_ENTRIES-1: every kind of entry, all accepted in this order. */
Entry helper_entry(int index);

/* Writes a journal of the first `count` entries by way of journal_open and journal_append. */
void helper_write_journal(int count);

/* Whether the session holds exactly the first `count` entries, to the last field. */
bool helper_holds(const Session *session, int count);

char *helper_slurp(const char *path, size_t *size); /* for free(); NULL: no such file */
void helper_spill(const char *path, const void *bytes, size_t size);

#endif
