/* logbook.c - from a journal back to its event. */
#include "store/logbook.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/text.h"
#include "store/files.h"

/* Large, and never two at a time. */
typedef struct Parts {
    EventInfo event;
    Bag bag;
    Pattern pattern;
} Parts;

static bool is_there(const char *place)
{
    struct stat status;
    return place[0] && (place[0] != '/' || stat(place, &status) == 0);
}

static bool read_event(const JournalHead *head, EventInfo *event, Error *error)
{
    bool here = is_there(head->file);
    if (files_event(here ? head->file : head->event, event, error))
        return true;
    if (here || strcmp(error->file, head->event) != 0)
        return false; /* it exists, and has a fault */
    text_copy(error->file, sizeof error->file, "");
    if (head->file[0])
        return error_set(error,
                         "journal %s: its event %s is gone, and there is none of that name in your "
                         "home",
                         head->name, head->file);
    return error_set(error,
                     "journal %s: it does not say where its event is, and there is none of that "
                     "name in your home",
                     head->name);
}

static bool read_parts(const JournalHead *head, Parts *parts, Error *error)
{
    EventInfo *event = &parts->event;
    if (!read_event(head, event, error))
        return false;
    bool other_day = strcmp(head->date, event->date) != 0;
    bool other_bag = strchr(head->name, '+') != NULL;
    if (other_bag)
        text_copy(event->other_bag, sizeof event->other_bag, "?"); /* whatever its id was */
    if ((other_day || other_bag) && head->bag[0])
        text_copy(event->bag, sizeof event->bag, head->bag);
    if (other_day && head->pattern[0])
        text_copy(event->pattern, sizeof event->pattern, head->pattern);
    char place[sizeof event->bag];
    if (files_place("bags", event->bag, place, sizeof place, NULL))
        text_copy(event->bag, sizeof event->bag, place); /* the same bag by the same name */
    text_copy(event->date, sizeof event->date, head->date);
    text_copy(event->id, sizeof event->id, head->event);
    return files_bag(event->bag, &parts->bag, error) &&
           files_pattern(event->pattern, &parts->pattern, error);
}

/* Puts the event together and lets `read` apply its entries. */
static bool
rebuild(const JournalHead *head, Session *session, char *notice, size_t notice_size, Error *error,
        bool (*read)(const char *name, Session *session, char *notice, size_t size, Error *error))
{
    Plan first = {.slot = 1};
    Parts *parts = malloc(sizeof *parts);
    notice[0] = '\0';
    *error = (Error){0};
    bool good = parts ? read_parts(head, parts, error) : error_set(error, "out of memory");
    if (good) {
        session_begin(session, &parts->event, &parts->bag, &parts->pattern, &first);
        good = read(head->name, session, notice, notice_size, error);
    }
    free(parts);
    return good;
}

bool logbook_open(const JournalHead *head, Session *session, char *notice, size_t notice_size,
                  Error *error)
{
    return rebuild(head, session, notice, notice_size, error, journal_read_name);
}

bool logbook_repair(const JournalHead *head, Session *session, char *notice, size_t notice_size,
                    Error *error)
{
    return rebuild(head, session, notice, notice_size, error, journal_repair);
}

/* The journal that journal_list calls so. */
static bool find_name(const char *name, JournalHead *head)
{
    int count;
    bool found = false;
    JournalHead *heads = journal_list(&count, NULL);
    for (int i = 0; i < count && !found; i++) {
        found = strcmp(heads[i].name, name) == 0;
        if (found)
            *head = heads[i];
    }
    free(heads);
    return found;
}

bool logbook_find(const char *name, const char *bag, JournalHead *head, Error *error)
{
    *error = (Error){0};
    if (!bag && find_name(name, head))
        return true;
    Session *session = calloc(1, sizeof *session);
    bool found = session ? files_event(name, &session->event, error) &&
                               (!bag || files_event_bag(bag, &session->event, error)) &&
                               files_bag(session->event.bag, &session->bag, error)
                         : error_set(error, "out of memory");
    if (found && !journal_find(session, head)) {
        *error = (Error){0};
        text_clean(error->file, sizeof error->file, name);
        found = error_set(error, "this event has no journal yet%s", bag ? " with that bag" : "");
    }
    free(session);
    return found;
}
