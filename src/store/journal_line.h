/* journal_line.h - the lines of a journal, written and read. For the store's own use; touches no
 * file. */
#ifndef SETTEE_STORE_JOURNAL_LINE_H
#define SETTEE_STORE_JOURNAL_LINE_H

#include "base/json_out.h"
#include "store/journal.h"

enum { JOURNAL_LINE_MAX = 4096 };

/* A line with its checksum and line end; heap, for free(); NULL when out of memory. */
char *journal_header_line(const JournalHead *head);
char *journal_entry_line(int number, const Entry *entry);

/* A line without its line end. False with line and reason in `fault`, whose line stays as it is,
 * but is 0 when out of memory. `foreign`: it is whole, but of a format that this program doesn't
 * read. The header leaves head->name alone. */
bool journal_header_read(const char *line, size_t length, JournalHead *head, bool *foreign,
                         Error *fault);
bool journal_entry_read(const char *line, size_t length, int *number, Entry *entry, Error *fault);

/* Puts one flipped bit of a line right in place: the sum tells which it was. False: more is wrong.
 */
bool journal_line_mend(char *line, size_t length);

/* The header of a whole text. */
bool journal_head_read(const char *text, size_t length, JournalHead *head);

#endif
