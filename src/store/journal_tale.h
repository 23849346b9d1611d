/* journal_tale.h - what a journal's text says, damaged or not. For the store's own use; touches no
 * file. */
#ifndef SETTEE_STORE_JOURNAL_TALE_H
#define SETTEE_STORE_JOURNAL_TALE_H

#include "store/journal.h"

/* The entry of one number. */
typedef struct JournalPlace {
    size_t at, size; /* its line in the text; 0: it has none that can be used as it is */
    int line;        /* the line's number, 0: there is none */
    bool kept;       /* the session took it */
    Entry entry;     /* a gap where it is missing */
} JournalPlace;

/* What was found in a journal's text. */
typedef struct JournalTale {
    size_t good;         /* where the last whole, good line ends */
    int entries;         /* how many there are, those that are missing included */
    int gaps;            /* how many of them are missing or don't fit */
    int after;           /* how many are kept from the first bad line on */
    bool unended;        /* the last good line lacks its line end and nothing else */
    bool torn;           /* the last line was never finished */
    bool bad;            /* a line before that can't be used: `fault` */
    bool misplaced;      /* which is good in itself, but not in its place, and used all the same */
    bool flipped;        /* which had one flipped bit, and is put right */
    bool foreign;        /* the header is whole, but of a format that this program doesn't read */
    bool other_day;      /* it is of the same event on another date; entries not read */
    bool no_memory;      /* out of memory; the rest was not read */
    char date[16];       /* as the header says */
    Error fault;         /* line and reason of the first that is bad, torn or foreign */
    JournalPlace *place; /* by number, from 1; NULL: there are no entries */
    int room;            /* how many of them there is room for, number 0 included */
} JournalTale;

/* Reads a journal's text and applies its entries to `session`, which may be NULL: then each
 * line is only checked by itself.
 *
 * Every line has its number and checksum, so a bad one costs no other. Where entries are missing
 * the session gets gaps. An edit after a gap may count shots that are not there: it is taken for
 * the shot that it fits, and left out as one more gap where it fits none or several. */
void journal_tell(const char *text, size_t length, Session *session, JournalTale *tale);
void journal_tale_free(JournalTale *tale);

/* The journal that goes on from there, header first, heap; NULL when out of memory. */
char *journal_mend(const char *text, const JournalTale *tale, const JournalHead *head,
                   size_t *length);

/* One line for people about what is bad. */
void journal_tale_words(const JournalTale *tale, char *out, size_t size);

#endif
