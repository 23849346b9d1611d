/* bag_edit.c - changes to a bag, one at a time. */
#include "core/bag/bag_edit.h"

#include <string.h>

#include "base/text.h"

static bool place(Bag *bag, Ball *ball, int slot)
{
    for (int i = 0; slot > 0 && i < bag->count; i++)
        if (bag->balls[i].slot == slot)
            bag->balls[i].slot = ball->slot;
    ball->slot = slot;
    return true;
}

bool bag_apply(Bag *bag, const BagEdit *edit, Error *error)
{
    if (edit->kind != BAG_ADD && (edit->at < 0 || edit->at >= bag->count))
        return error_set(error, "no such ball");
    Ball *ball = edit->kind == BAG_ADD ? NULL : &bag->balls[edit->at];
    switch (edit->kind) {
    case BAG_CHANGE: {
        Ball changed = edit->ball;
        memcpy(changed.id, ball->id, sizeof changed.id);
        changed.slot = ball->slot;
        *ball = changed;
        return true;
    }
    case BAG_ADD:
        if (bag->count >= BAG_BALLS_MAX)
            return error_set(error, "found %d balls; allowed: 1 to %d", bag->count + 1,
                             BAG_BALLS_MAX);
        if (bag_find(bag, edit->ball.id))
            return error_set(error, "found the id \"%s\" a second time", edit->ball.id);
        bag->balls[bag->count] = edit->ball;
        bag->balls[bag->count++].slot = 0;
        return true;
    case BAG_REMOVE:
        bag->count--;
        memmove(ball, ball + 1, (size_t)(bag->count - edit->at) * sizeof *ball);
        return true;
    case BAG_PLACE:
        if (edit->slot < 0 || edit->slot > BAG_SLOTS)
            return error_set(error, "no such slot");
        return place(bag, ball, edit->slot);
    }
    return error_set(error, "no such edit");
}

void bag_replay(const BagLog *log, int count, Bag *bag)
{
    *bag = log->first;
    for (int i = 0; i < count; i++)
        bag_apply(bag, &log->edits[i], NULL);
}

Ball bag_copy_of(const Bag *bag, const Ball *ball)
{
    Ball copy = *ball;
    size_t length = strlen(ball->id), stem = length;
    while (stem > 0 && ball->id[stem - 1] >= '0' && ball->id[stem - 1] <= '9')
        stem--;
    /* "kiln-2" gives "kiln-3", not "kiln-2-2" */
    stem = stem > 1 && stem < length && ball->id[stem - 1] == '-' ? stem - 1 : length;
    stem = stem < sizeof copy.id - 4 ? stem : sizeof copy.id - 4; /* BAG_BALLS_MAX has two digits */
    for (int n = 2; bag_find(bag, copy.id); n++) {
        copy.id[stem] = '\0';
        text_append(copy.id, sizeof copy.id, "-%d", n);
    }
    copy.slot = 0;
    return copy;
}
