/* learn.c - from a bag's journals to what they say of its numbers. */
#include "store/learn.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/files.h"
#include "store/logbook.h"

struct Learn {
    Bag bag;
    char place[1024]; /* as files_place names it */
    JournalHead *heads;
    int left;                       /* journals not looked at yet: from the latest back */
    int chosen[LEARNT_EVENTS_MOST]; /* of them, those that count, the latest first */
    int count, at;
    bool weighing;
    Session *session;
    LearntJob *job;
};

void learn_free(Learn *learn)
{
    if (!learn)
        return;
    learnt_free(learn->job);
    free(learn->session);
    free(learn->heads);
    free(learn);
}

Learn *learn_new(const char *bag, Error *error)
{
    *error = (Error){0};
    Learn *learn = calloc(1, sizeof *learn);
    if (learn) {
        learn->session = malloc(sizeof *learn->session);
        learn->job = learnt_new();
    }
    if (!learn || !learn->session || !learn->job) {
        learn_free(learn);
        return error_set(error, "out of memory"), NULL;
    }
    if (!files_bag(bag, &learn->bag, error) ||
        !files_place("bags", bag, learn->place, sizeof learn->place, error)) {
        learn_free(learn);
        return NULL;
    }
    learn->heads = journal_list(&learn->left, NULL);
    learn->left = learn->heads ? learn->left : 0;
    learnt_begin(learn->job, &learn->bag);
    return learn;
}

static bool open_journal(Learn *learn, int at)
{
    char notice[ERROR_LINE_MAX];
    Error unheard;
    return logbook_open(&learn->heads[at], learn->session, notice, sizeof notice, &unheard);
}

/* The latest journal that was not looked at yet: does it count? A head that names another bag is
 * not opened for it. */
static void look_at_one(Learn *learn)
{
    int at = --learn->left;
    const JournalHead *head = &learn->heads[at];
    const Session *session = learn->session;
    char place[sizeof head->bag];
    if (head->bag[0] && files_place("bags", head->bag, place, sizeof place, NULL) &&
        strcmp(place, learn->place) != 0)
        return;
    if (open_journal(learn, at) && strcmp(session->event.bag, learn->place) == 0 &&
        !event_is_demo(&session->event) && session->shot_count > session->warm_up_count)
        learn->chosen[learn->count++] = at;
}

bool learn_step(Learn *learn)
{
    if (learn->left > 0 && learn->count < LEARNT_EVENTS_MOST) {
        look_at_one(learn);
        return true;
    }
    if (learn->count < LEARNT_EVENTS_LEAST)
        return false;
    if (learn->weighing) {
        learn->weighing = learnt_step(learn->job);
        return true;
    }
    if (learn->at == learn->count)
        return false;
    learn->weighing =
        open_journal(learn, learn->chosen[learn->at++]) && learnt_event(learn->job, learn->session);
    return true;
}

const Bag *learn_bag(const Learn *learn) { return &learn->bag; }
int learn_events(const Learn *learn) { return learn->count; }

int learn_values(const Learn *learn, LearntValue out[LEARNT_MAX])
{
    return learnt_values(learn->job, out);
}
