/* session_bag.c - an event's bag: which edits are allowed, and what they mean for shots and plans.
 */
#include <string.h>

#include "core/event/session.h"

const char *const SESSION_SURFACES_CLOSED = "Scored play has begun: no ball's surface may change.";

bool session_surfaces_free(const Session *session)
{
    return !session->event.certified ||
           (session->shot_count == session->warm_up_count && session->told_count == 0);
}

/* Undone entries count too: they may be redone. */
static bool was_thrown(const Session *session, const char *id)
{
    for (int i = 0; i < session->entry_count; i++) {
        const Entry *entry = &session->entries[i];
        if ((entry->kind == ENTRY_SHOT || entry->kind == ENTRY_EDIT) &&
            strcmp(entry->shot.ball, id) == 0)
            return true;
    }
    return false;
}

/* Whether the event's bag may become `next`, be it by an edit, undo or redo. */
static bool allows(const Session *session, const Bag *next, Error *error)
{
    const Bag *bag = &session->bag;
    if (!bag_filled(next) && bag_filled(bag))
        return error_set(error, "the last ball in a slot stays there: put another in one first");
    for (int i = 0; i < bag->count; i++) {
        const Ball *ball = &bag->balls[i], *after = bag_find(next, ball->id);
        if (!after && was_thrown(session, ball->id))
            return error_set(error, "%s was thrown in this event: it stays, in the locker (x)",
                             ball->name);
        if (after && !session_surfaces_free(session) &&
            !ball_same_surface(&after->surface, &ball->surface))
            return error_set(error, "%s", SESSION_SURFACES_CLOSED);
    }
    return true;
}

static void become(Session *session, const Bag *next)
{
    session->bag = *next;
    session_fold(session); /* shots and plans refer to slots */
}

static bool try_edit(const Session *session, const BagEdit *edit, Bag *next, Error *error)
{
    *next = session->bag;
    if (session->bag_log.standing >= BAG_EDITS_MAX)
        return error_set(error, "the bag was edited %d times: restart settee to edit more",
                         BAG_EDITS_MAX);
    return bag_apply(next, edit, error) && allows(session, next, error);
}

bool session_bag_allows(const Session *session, const BagEdit *edit, Error *error)
{
    Bag next;
    return try_edit(session, edit, &next, error);
}

bool session_bag_edit(Session *session, const BagEdit *edit, Error *error)
{
    BagLog *log = &session->bag_log;
    Bag next;
    if (!try_edit(session, edit, &next, error))
        return false;
    become(session, &next);
    log->edits[log->standing++] = *edit;
    log->count = log->standing; /* a new edit clears what could be redone */
    return true;
}

static bool go_to(Session *session, int standing, Error *error)
{
    Bag next;
    bag_replay(&session->bag_log, standing, &next);
    if (!allows(session, &next, error))
        return false;
    become(session, &next);
    session->bag_log.standing = standing;
    return true;
}

bool session_bag_undo(Session *session, Error *error)
{
    if (session->bag_log.standing == 0)
        return error_set(error, "nothing to undo in the bag");
    return go_to(session, session->bag_log.standing - 1, error);
}

bool session_bag_redo(Session *session, Error *error)
{
    if (session->bag_log.standing == session->bag_log.count)
        return error_set(error, "nothing to redo in the bag");
    return go_to(session, session->bag_log.standing + 1, error);
}

/* ---- for session_fold ---- */

void session_say_ball(const Session *session, Shot *shot)
{
    const Ball *ball = bag_slot(&session->bag, shot->slot);
    if (!ball || (shot->ball[0] && strcmp(ball->id, shot->ball) == 0))
        return;
    memcpy(shot->ball, ball->id, sizeof shot->ball);
    shot->surface = ball->surface;
}

void session_find_slot(const Session *session, Shot *shot)
{
    const Ball *ball = shot->ball[0] ? bag_find(&session->bag, shot->ball) : NULL;
    if (shot->ball[0])
        shot->slot = ball ? ball->slot : 0;
}

void session_fill_plan(const Session *session, Plan *plan)
{
    for (int slot = 1; slot <= BAG_SLOTS && !bag_slot(&session->bag, plan->slot); slot++)
        if (bag_slot(&session->bag, slot))
            plan->slot = slot;
}
