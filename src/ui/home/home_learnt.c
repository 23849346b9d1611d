/* home_learnt.c - what the events say of a bag's numbers: the page, its keys, the line on Home. */
#include <string.h>

#include "base/text.h"
#include "core/motion/measure.h"
#include "ui/home/home_parts.h"

const HomeLearnt *home_learnt_of(const Home *home, const char *bag)
{
    const HomeFiles *files = home->host->files;
    return files->learnt ? files->learnt(home->host->context, bag) : NULL;
}

/* Whether the bag still has the number that the offer was compared with. */
static bool stands(const Bag *bag, const HomeLearnt *learnt, int i)
{
    const LearntValue *value = &learnt->values[i];
    if (value->kind == LEARNT_MPH)
        return bag->bowler.mph == value->now;
    if (value->kind == LEARNT_SCATTER)
        return measure_scatter_at_arrows(&bag->bowler.scatter) == value->now;
    return value->ball < bag->count && strcmp(bag->balls[value->ball].id, learnt->ball[i]) == 0 &&
           bag->balls[value->ball].cover_strength == value->now;
}

static const LearntValue *offer_of(const Bag *bag, const HomeLearnt *learnt, LearntKind kind,
                                   int ball)
{
    for (int i = 0; learnt && i < learnt->count; i++) {
        const LearntValue *value = &learnt->values[i];
        if (value->offered && value->kind == kind && (kind != LEARNT_BALL || value->ball == ball) &&
            stands(bag, learnt, i))
            return value;
    }
    return NULL;
}

int home_learnt_rows(const Home *home, HomeLearntRow rows[LEARNT_MAX])
{
    const HomeLearnt *learnt = home_learnt_of(home, home->bag_name);
    int count = 0;
    for (int i = 0; i < home->bag.count + LEARNT_BALL; i++) {
        HomeLearntRow row = {.kind = i < LEARNT_BALL ? (LearntKind)i : LEARNT_BALL,
                             .ball = i < LEARNT_BALL ? 0 : i - LEARNT_BALL};
        row.offer = offer_of(&home->bag, learnt, row.kind, row.ball);
        row.taken = taken_is(&home->bag, row.kind, row.ball);
        if (row.offer || row.taken)
            rows[count++] = row;
    }
    return count;
}

/* How many numbers of a bag are offered, once that is known for certain. */
static int offers(const Home *home, const char *bag)
{
    const HomeLearnt *learnt = home_learnt_of(home, bag);
    int count = 0;
    for (int i = 0; learnt && learnt->current && i < learnt->count; i++)
        count += learnt->values[i].offered;
    return count;
}

/* The bag that is looked at from here: the chosen one, or from the events the first with an offer,
 * else the chosen event's; NULL: none of the bowler's own. */
static const char *bag_of(const Home *home)
{
    const HomeItem *bags = home->items[HOME_BAGS], *item = home_item(home);
    const char *name = NULL;
    if (home->mode == HOME_BAG)
        return home->bag_name;
    if (home->page == HOME_BAGS)
        return item && item->own && !item->fault[0] ? item->name : NULL;
    for (int i = 0; i < home->count[HOME_BAGS]; i++) {
        if (!bags[i].own || bags[i].fault[0])
            continue;
        if (offers(home, bags[i].name) > 0)
            return bags[i].name;
        if (item && strcmp(item->bag, bags[i].name) == 0)
            name = bags[i].name;
    }
    return name;
}

void home_learnt_line(const Home *home, char *out, size_t size)
{
    const char *bag = home->choosing || home->page == HOME_PATTERNS ? NULL : bag_of(home);
    int count = bag ? offers(home, bag) : 0;
    out[0] = '\0';
    if (count == 0)
        return;
    int events = home_learnt_of(home, bag)->events;
    if (home_compact(home))
        text_append(out, size, "%d learnt from %d events: l looks", count, events);
    else
        text_append(out, size, "%d value%s learnt from %d events with bag %s: l looks", count,
                    count == 1 ? "" : "s", events, bag);
}

void home_learnt(Home *home, int argument, uint32_t key)
{
    const char *bag = bag_of(home);
    HomeMode from = home->mode;
    char name[sizeof home->bag_name];
    if (!bag || !bag[0]) {
        home_refuse(home, "choose a bag of your own: three events with it say something of it");
        return;
    }
    text_copy(name, sizeof name, bag);
    if (from != HOME_BAG && !home_edit_bag(home, name))
        return;
    home->learnt_from = from;
    home->learnt = 0;
    home->mode = HOME_LEARNT;
}

void home_learnt_leave(Home *home, int argument, uint32_t key)
{
    if (home->learnt_from == HOME_BAG)
        home->mode = HOME_BAG;
    else
        home_to_list(home, home->page, "");
}

/* The chosen row; false after saying that there is none. */
static bool chosen(Home *home, HomeLearntRow *row)
{
    HomeLearntRow rows[LEARNT_MAX];
    int count = home_learnt_rows(home, rows);
    if (count == 0) {
        home_refuse(home, "there is nothing to take over");
        return false;
    }
    home->learnt = home->learnt < count ? home->learnt : count - 1;
    *row = rows[home->learnt];
    return true;
}

void home_learnt_row(Home *home, int argument, uint32_t key)
{
    HomeLearntRow rows[LEARNT_MAX];
    int count = home_learnt_rows(home, rows), row = home->learnt + home_step(key);
    if (row >= 0 && row < count)
        home->learnt = row;
}

void home_learnt_take(Home *home, int argument, uint32_t key)
{
    HomeLearntRow row;
    if (!chosen(home, &row))
        return;
    if (!row.offer) {
        home_refuse(home, "it is taken over already; b puts back what was there before");
        return;
    }
    learnt_take(row.offer, &home->bag);
    home_say(home, ROLE_GOOD, "Taken over; b puts it back");
    home_keep_bag(home);
}

void home_learnt_back(Home *home, int argument, uint32_t key)
{
    HomeLearntRow row;
    if (!chosen(home, &row))
        return;
    if (!taken_back(&home->bag, row.kind, row.ball)) {
        home_refuse(home, "it was not taken over: there is nothing to put back");
        return;
    }
    home_say(home, ROLE_GOOD, "Put back, as it was before");
    home_keep_bag(home);
}
