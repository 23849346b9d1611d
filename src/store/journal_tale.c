/* journal_tale.c - a journal's text, replayed: each good line once, in the order of its numbers. */
#include "store/journal_tale.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/journal_line.h"

/* ---- line by line ---- */

/* The first fault of a kind is the one that is told. */
static void note_bad(JournalTale *tale, const Error *fault)
{
    if (!tale->bad)
        tale->fault = *fault;
    tale->bad = true;
}

static bool take_header(JournalTale *tale, const char *line, size_t size, const Session *session,
                        Error *fault)
{
    JournalHead head = {0};
    bool good = journal_header_read(line, size, &head, &tale->foreign, fault);
    if (good)
        text_copy(tale->date, sizeof tale->date, head.date);
    tale->other_day = good && session && session->event.date[0] && tale->date[0] &&
                      strcmp(session->event.date, tale->date) != 0;
    return good;
}

static bool make_room(JournalTale *tale, int number)
{
    enum { ROOM_FIRST = 64 };
    int room = tale->room ? 2 * tale->room : ROOM_FIRST;
    if (number < tale->room)
        return true;
    room = room > number ? room : number + 1;
    JournalPlace *place = realloc(tale->place, (size_t)room * sizeof *place);
    if (!place)
        return false;
    memset(place + tale->room, 0, (size_t)(room - tale->room) * sizeof *place);
    tale->place = place;
    tale->room = room;
    return true;
}

/* Files a line under its number. A line out of place is a fault of the file's, but no reason not to
 * use it. */
static bool take_entry(JournalTale *tale, const char *text, size_t size, size_t at, int line,
                       Error *fault)
{
    int number;
    Entry entry;
    if (!journal_entry_read(text, size, &number, &entry, fault))
        return false;
    bool usual = number == tale->entries + 1;
    if (!usual) {
        error_set(fault, "found entry %d where entry %d belongs", number, tale->entries + 1);
        tale->misplaced = tale->misplaced || !tale->bad;
        note_bad(tale, fault);
    }
    if (number > SESSION_ENTRIES_MAX)
        return usual ? error_set(fault, "the event's log is full") : true;
    if (!make_room(tale, number)) {
        fault->line = 0;
        return error_set(fault, "out of memory");
    }
    if (tale->place[number].line > 0)
        return true;
    tale->place[number] =
        (JournalPlace){.at = at, .size = at ? size : 0, .line = line, .kept = true, .entry = entry};
    if (number > tale->entries)
        tale->entries = number;
    return true;
}

/* `at`: where the line is in the text, 0: only in a copy that was put right. */
static bool take_line(JournalTale *tale, const char *text, size_t size, size_t at, int line,
                      const Session *session, Error *fault)
{
    return line == 1 ? take_header(tale, text, size, session, fault)
                     : take_entry(tale, text, size, at, line, fault);
}

static bool take_mended(JournalTale *tale, const char *text, size_t size, int line,
                        const Session *session, Error *fault)
{
    char copy[JOURNAL_LINE_MAX];
    Error unheard = {.line = line};
    if (size > sizeof copy)
        return false;
    memcpy(copy, text, size);
    if (!journal_line_mend(copy, size))
        return false;
    tale->flipped = tale->flipped || !tale->bad;
    note_bad(tale, fault);
    bool good = take_line(tale, copy, size, 0, line, session, &unheard);
    tale->no_memory = !good && unheard.line == 0;
    if (tale->no_memory)
        *fault = unheard;
    return good;
}

static void take_lines(JournalTale *tale, const char *text, size_t length, const Session *session)
{
    size_t at = 0, size;
    for (int line = 1; at < length && !tale->other_day; line++) {
        Error fault = {.line = line};
        const char *end = memchr(text + at, '\n', length - at);
        size = (end ? (size_t)(end - text) : length) - at;
        bool good = take_line(tale, text + at, size, at, line, session, &fault);
        tale->no_memory = !good && fault.line == 0;
        good = good || (end && !tale->no_memory && !tale->foreign &&
                        take_mended(tale, text + at, size, line, session, &fault));
        if (!good && (tale->no_memory || tale->foreign || !end)) {
            tale->torn = !end && !tale->no_memory && !tale->foreign;
            if (!tale->bad || tale->no_memory)
                tale->fault = fault;
            return;
        }
        if (!good)
            note_bad(tale, &fault);
        at += size + (end ? 1 : 0);
        if (good) {
            tale->good = at;
            tale->unended = !end;
        }
    }
}

/* ---- replay ---- */

/* How an edit's number of a shot is to be understood: what is missing may have been shots, or may
 * have taken some back. */
typedef struct Replay {
    Session *session;
    int shift;  /* a shot's number in the text less its number here */
    int unsure; /* entries missing since that was known */
    int before; /* shots at the first of them */
} Replay;

static bool same_throw(const Shot *a, const Shot *b, bool strictly)
{
    if (a->lane != b->lane || a->stance != b->stance || a->aim != b->aim ||
        (a->ball[0] && b->ball[0] && strcmp(a->ball, b->ball) != 0))
        return false;
    return !strictly || (a->hit == b->hit && a->left_said == b->left_said && a->left == b->left);
}

/* The only shot within reach that fits, -1: none or several. */
static int fitting_shot(const Replay *replay, const Entry *edit, bool strictly)
{
    int found = -1, count = 0;
    for (int i = -replay->unsure; i <= replay->unsure; i++) {
        int shot = edit->index - replay->shift - i;
        if (shot < 0 || shot >= replay->session->shot_count ||
            !same_throw(&replay->session->shots[shot], &edit->shot, strictly))
            continue;
        found = shot;
        count++;
    }
    return count == 1 ? found : -1;
}

/* Puts in the edit's number of its shot here. */
static bool find_shot(Replay *replay, Entry *edit)
{
    int shot = edit->index - replay->shift;
    if (replay->unsure > 0) {
        shot = fitting_shot(replay, edit, true);
        if (shot < 0)
            shot = fitting_shot(replay, edit, false);
        if (shot >= replay->before) { /* of those before nothing can be learned */
            replay->shift = edit->index - shot;
            replay->unsure = 0;
        }
    }
    edit->index = shot;
    return shot >= 0;
}

static void note_unfit(JournalTale *tale, const JournalPlace *place, const Session *session)
{
    Error fault = {.line = place->line};
    const char *why = session_refuses(session, &place->entry);
    error_set(&fault, "the entry does not fit this event: %s", why ? why : "refused");
    if (!tale->bad || place->line < tale->fault.line)
        tale->fault = fault;
    tale->bad = true;
}

static bool put(Replay *replay, JournalTale *tale, JournalPlace *place)
{
    int index = place->entry.index;
    if (place->entry.kind == ENTRY_EDIT && !find_shot(replay, &place->entry))
        return false;
    if (place->entry.index != index)
        place->size = 0;
    if (session_restore(replay->session, &place->entry))
        return true;
    note_unfit(tale, place, replay->session);
    return false;
}

static void replay_all(JournalTale *tale, Session *session)
{
    Replay replay = {.session = session};
    for (int number = 1; number <= tale->entries; number++) {
        JournalPlace *place = &tale->place[number];
        place->kept = place->kept && put(&replay, tale, place);
        if (place->kept)
            continue;
        if (replay.unsure++ == 0)
            replay.before = session->shot_count;
        tale->gaps++;
        place->size = 0;
        place->entry = (Entry){.kind = ENTRY_GAP};
        session_restore(session, &place->entry);
    }
}

void journal_tell(const char *text, size_t length, Session *session, JournalTale *tale)
{
    *tale = (JournalTale){0};
    take_lines(tale, text, length, session);
    if (session && !tale->no_memory && !tale->foreign && !tale->other_day)
        replay_all(tale, session);
    for (int number = 1; number <= tale->entries; number++)
        tale->after += tale->place[number].kept && tale->place[number].line >= tale->fault.line;
}

void journal_tale_free(JournalTale *tale)
{
    free(tale->place);
    tale->place = NULL;
    tale->room = 0;
}

/* ---- what comes of it ---- */

char *journal_mend(const char *text, const JournalTale *tale, const JournalHead *head,
                   size_t *length)
{
    int entries = tale->other_day ? 0 : tale->entries;
    char *all = journal_header_line(head);
    size_t used = all ? strlen(all) : 0;
    for (int number = 1; all && number <= entries; number++) {
        const JournalPlace *place = &tale->place[number];
        char *written = place->size ? NULL : journal_entry_line(number, &place->entry);
        const char *line = place->size ? text + place->at : written;
        size_t size = place->size ? place->size : written ? strlen(written) - 1 : 0;
        char *grown = line ? realloc(all, used + size + 2) : NULL;
        if (grown) {
            memcpy(grown + used, line, size);
            used += size;
            grown[used++] = '\n';
            grown[used] = '\0';
        } else {
            free(all);
        }
        all = grown;
        free(written);
    }
    *length = used;
    return all;
}

void journal_tale_words(const JournalTale *tale, char *out, size_t size)
{
    int before = tale->entries - tale->gaps - tale->after;
    out[0] = '\0';
    text_append(out, size, "line %d of the journal %s (%.160s): ", tale->fault.line,
                tale->flipped     ? "had one flipped bit, which is put right"
                : tale->misplaced ? "is out of place"
                                  : "can't be used",
                tale->fault.text);
    if (tale->after == 0 && !tale->flipped)
        text_append(out, size, "the %d entr%s before it %s kept", before, before == 1 ? "y" : "ies",
                    before == 1 ? "is" : "are");
    else if (tale->gaps == 0)
        text_append(out, size, "no entry is missing");
    else if (tale->gaps == 1)
        text_append(out, size, "one entry is missing there, the %d after it %s kept", tale->after,
                    tale->after == 1 ? "is" : "are");
    else
        text_append(out, size, "%d entries are missing there or further on, the other %d are kept",
                    tale->gaps, tale->entries - tale->gaps);
}

bool journal_check(const char *text, size_t length, Error *error)
{
    JournalTale tale;
    journal_tell(text, length, NULL, &tale);
    journal_tale_free(&tale);
    if (!tale.bad && !tale.torn && !tale.foreign && !tale.no_memory)
        return true;
    error->line = tale.fault.line;
    text_copy(error->where, sizeof error->where, tale.fault.where);
    return error_set(error, "%s%s", tale.torn ? "the last line was never finished: " : "",
                     tale.fault.text);
}
