/* app_learnt.c - what the events say of the bowler's own bags, worked out between the keys on Home.
 * What was worked out once is kept until the bag or a journal is another. */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "app/app.h"
#include "base/text.h"
#include "store/journal.h"
#include "store/learn.h"

enum { BAGS_MAX = 32 };

typedef struct OneBag {
    char name[64];
    uint64_t stamp; /* of the bag's file and the journals, as they were when it was worked out */
    HomeLearnt learnt;
} OneBag;

typedef struct AppLearnt {
    int count, at; /* at: the one being worked out, or the next; count: all are known */
    OneBag bags[BAGS_MAX];
    Learn *work;
} AppLearnt;

void app_learnt_free(App *app)
{
    if (app->learnt)
        learn_free(app->learnt->work);
    free(app->learnt);
    app->learnt = NULL;
}

static uint64_t mix(uint64_t stamp, uint64_t with) { return (stamp ^ with) * 1099511628211u; }

/* Another one when a journal was added, deleted or went on. */
static uint64_t stamp_of_journals(void)
{
    int count;
    uint64_t stamp = 14695981039346656037u;
    JournalHead *heads = journal_list(&count, NULL);
    for (int i = 0; heads && i < count; i++) {
        char path[1024];
        struct stat status = {0};
        if (journal_path(heads[i].name, path, sizeof path, NULL) && stat(path, &status) == 0)
            stamp = mix(stamp, (uint64_t)status.st_size);
        for (const char *c = heads[i].name; *c; c++)
            stamp = mix(stamp, (unsigned char)*c);
    }
    free(heads);
    return stamp;
}

/* The bags that there are now; what is known of those that are as they were stays. */
static void look_again(AppLearnt *all)
{
    FileName names[BAGS_MAX];
    int count = files_names("bags", names, BAGS_MAX), kept = 0;
    uint64_t journals = stamp_of_journals();
    OneBag *bags = calloc(BAGS_MAX, sizeof *bags);
    Bag *bag = malloc(sizeof *bag);
    for (int i = 0; bags && bag && i < count; i++) {
        BagFile file;
        Error unheard;
        OneBag *one = &bags[kept];
        if (!names[i].home || !files_bag_open(names[i].name, bag, &file, &unheard))
            continue;
        for (int k = 0; k < all->count; k++)
            if (strcmp(all->bags[k].name, names[i].name) == 0)
                *one = all->bags[k];
        text_copy(one->name, sizeof one->name, names[i].name);
        uint64_t stamp = mix(journals, file.sum);
        one->learnt.current = one->learnt.current && one->stamp == stamp;
        one->stamp = stamp;
        kept++;
    }
    if (bags && bag)
        memcpy(all->bags, bags, BAGS_MAX * sizeof *bags);
    all->count = bags && bag ? kept : 0;
    all->at = 0;
    learn_free(all->work);
    all->work = NULL;
    free(bag);
    free(bags);
}

static void keep(OneBag *one, const Learn *learn)
{
    HomeLearnt *learnt = &one->learnt;
    *learnt = (HomeLearnt){.current = true, .events = learn_events(learn)};
    learnt->count = learn_values(learn, learnt->values);
    for (int i = 0; i < learnt->count; i++)
        if (learnt->values[i].kind == LEARNT_BALL)
            text_copy(learnt->ball[i], sizeof learnt->ball[i],
                      learn_bag(learn)->balls[learnt->values[i].ball].id);
}

bool app_learn(void *context, bool again)
{
    App *app = context;
    Error unheard;
    if (!app->learnt && !(app->learnt = calloc(1, sizeof *app->learnt)))
        return false;
    AppLearnt *all = app->learnt;
    if (again)
        look_again(all);
    while (all->at < all->count && all->bags[all->at].learnt.current)
        all->at++;
    if (all->at == all->count)
        return false;
    OneBag *one = &all->bags[all->at];
    if (!all->work && !(all->work = learn_new(one->name, &unheard))) {
        all->at++;
        return true;
    }
    if (learn_step(all->work))
        return true;
    keep(one, all->work);
    learn_free(all->work);
    all->work = NULL;
    return true;
}

const HomeLearnt *app_learnt(void *context, const char *bag)
{
    const App *app = context;
    for (int i = 0; app->learnt && i < app->learnt->count; i++)
        if (strcmp(app->learnt->bags[i].name, bag) == 0)
            return &app->learnt->bags[i].learnt;
    return NULL;
}
