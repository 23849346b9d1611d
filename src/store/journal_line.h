/* journal_line.h - the lines of a journal: how they are written, and what a text of them says.
 * For the store's own use; touches no file. */
#ifndef SETTEE_STORE_JOURNAL_LINE_H
#define SETTEE_STORE_JOURNAL_LINE_H

#include "base/json_out.h"
#include "store/journal.h"

/* What was found in a journal's text. */
typedef struct JournalTale {
    size_t entries_at; /* where the entries begin, after the header */
    size_t good;       /* where the whole, good lines end */
    int entries;       /* how many of them are entries */
    bool unended;      /* the last good line lacks its line end and nothing else */
    bool torn;         /* after them comes a last line that was never finished */
    bool bad;          /* after them comes something else that can't be read: `fault` */
    bool bad_header;   /* the header can't be read; the entries were read all the same */
    bool foreign;      /* the header is whole, but of a format that this program doesn't read */
    bool other_day;    /* it is of the same event on another date; entries not read */
    bool no_memory;    /* out of memory; the rest was not read */
    char date[16];     /* as the header says */
    Error fault;       /* line and reason of what is bad, torn or foreign */
} JournalTale;

/* Reads a journal's text and applies its entries to `session`, which may be NULL: then each
 * line is only checked by itself. */
void journal_tell(const char *text, size_t length, Session *session, JournalTale *tale);

/* A line with its checksum and line end; heap, for free(); NULL when out of memory. */
char *journal_header_line(const JournalHead *head);
char *journal_entry_line(int number, const Entry *entry);

/* What the first line says; leaves head->name alone. False when it can't be read. */
bool journal_head_read(const char *text, size_t length, JournalHead *head);

#endif
