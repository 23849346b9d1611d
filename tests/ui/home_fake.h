/* home_fake.h - Home on files that are only in memory: two events, a bag, two patterns, and the
 * demo's. Every name is invented. */
#ifndef SETTEE_TESTS_HOME_FAKE_H
#define SETTEE_TESTS_HOME_FAKE_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/bag/preset.h"
#include "ui/home/home_keys.h"

typedef struct Fake {
    Home home;
    HomeHost host;
    StageLook look;
    Theme theme;
    bool empty;        /* nothing of the bowler's own */
    bool refuses;      /* the disk */
    Bag bag;           /* "mine", or the last one kept */
    EventInfo event;   /* the last one made */
    Pattern pattern;   /* the last one kept */
    Draft draft;       /* on disk */
    int kept, trashed; /* how often */
    bool away;         /* the first event was put away */
    char said[64];     /* the last name handed over */
    bool learns;       /* something is known of what the events say */
    HomeLearnt learnt;
} Fake;

static inline bool fake_done(const Fake *fake, Error *error)
{
    return !fake->refuses || error_set(error, "no space left on the device");
}

static inline int fake_list(void *context, HomeKind kind, HomeItem *items, int max)
{
    const Fake *fake = context;
    int count = 0;
    (void)max;
    if (kind == HOME_EVENTS && !fake->empty) {
        items[count++] = (HomeItem){.name = "rope-walk",
                                    .title = "Rope Walk Pairs",
                                    .own = true,
                                    .away = fake->away,
                                    .date = "2026-04-11",
                                    .bag = "mine",
                                    .pattern = "Quay",
                                    .scores = "203 187 (95)",
                                    .others = "anna 179 (44)",
                                    .length_ft = 41};
        items[count++] = (HomeItem){.name = "winter",
                                    .title = "A winter event whose name is long",
                                    .own = true,
                                    .date = "2026-11-02",
                                    .bag = "mine",
                                    .pattern = "Skerry",
                                    .length_ft = 44};
        items[count++] = (HomeItem){.name = "torn",
                                    .title = "torn",
                                    .own = true,
                                    .fault = "line 3: $.games: found 0; allowed: 1 to 24"};
    } else if (kind == HOME_BAGS) {
        if (!fake->empty)
            items[count++] = (HomeItem){.name = "mine", .title = "Quill", .own = true, .balls = 4};
        items[count++] = (HomeItem){.name = "demo", .title = "Imre Holloway", .balls = 14};
    } else if (kind == HOME_PATTERNS) {
        items[count++] = (HomeItem){.name = "about:house",
                                    .title = "House shot",
                                    .rough = true,
                                    .length_ft = 39,
                                    .volume_ml = 23,
                                    .ratio = 8,
                                    .note = "The shots tell which."};
        items[count++] = (HomeItem){.name = "about:40ft",
                                    .title = "Only its length",
                                    .rough = true,
                                    .length_ft = 40,
                                    .volume_ml = 23,
                                    .ratio = 3};
        items[count++] = (HomeItem){.name = "parlour",
                                    .title = "Parlour",
                                    .length_ft = 39,
                                    .volume_ml = 23,
                                    .ratio = 7.9,
                                    .note = "A house pattern: misses come back."};
        items[count++] = (HomeItem){
            .name = "quay", .title = "Quay", .length_ft = 41, .volume_ml = 21, .ratio = 1.0};
    }
    return count;
}

static inline bool fake_read_bag(void *context, const char *name, Bag *bag, Error *error)
{
    Fake *fake = context;
    (void)name;
    *bag = fake->bag;
    return fake_done(fake, error);
}

static inline bool fake_read_pattern(void *context, const char *name, Pattern *pattern,
                                     Error *error)
{
    (void)context;
    (void)error;
    bool house = strcmp(name, "parlour") == 0;
    *pattern = (Pattern){.length_ft = house ? 39 : 41, .stroke_count = 1};
    pattern->strokes[0] = (Stroke){.board_from = house ? 9 : 2,
                                   .board_to = house ? 31 : 38,
                                   .ft_end = house ? 39 : 41,
                                   .units_start = 30,
                                   .units_end = 2};
    return true;
}

static inline bool fake_keep_bag(void *context, char name[64], const Bag *bag, Error *error)
{
    Fake *fake = context;
    if (!name[0])
        text_copy(name, 64, "mine");
    fake->bag = *bag;
    fake->kept++;
    return fake_done(fake, error);
}

static inline bool fake_keep_pattern(void *context, char name[64], const Pattern *before,
                                     const Pattern *pattern, Error *error)
{
    Fake *fake = context;
    (void)before;
    if (!name[0])
        text_copy(name, 64, "typed");
    fake->pattern = *pattern;
    fake->kept++;
    return fake_done(fake, error);
}

static inline bool fake_pattern_event(void *context, const char *name, char event[64])
{
    (void)context;
    return strcmp(name, "quay") == 0 && text_copy(event, 64, "Rope Walk Pairs");
}

static inline bool fake_keep_draft(void *context, const Draft *draft, Error *error)
{
    Fake *fake = context;
    fake->draft = *draft;
    return fake_done(fake, error);
}

static inline bool fake_read_draft(void *context, Draft *draft)
{
    *draft = ((Fake *)context)->draft;
    return true;
}

static inline void fake_drop_draft(void *context) { ((Fake *)context)->draft.form = DRAFT_NONE; }

static inline bool fake_new_event(void *context, const EventInfo *event, char name[64],
                                  Error *error)
{
    Fake *fake = context;
    fake->event = *event;
    text_copy(name, 64, "made");
    return fake_done(fake, error);
}

static inline bool fake_copy(void *context, HomeKind kind, const char *from, const char *to,
                             Error *error)
{
    Fake *fake = context;
    (void)kind;
    (void)from;
    text_copy(fake->said, sizeof fake->said, to);
    return fake_done(fake, error);
}

static inline bool fake_put_away(void *context, HomeKind kind, const char *name, bool away,
                                 Error *error)
{
    Fake *fake = context;
    (void)kind;
    fake->away = strcmp(name, "rope-walk") == 0 ? away : fake->away;
    return fake_done(fake, error);
}

static inline bool fake_trash(void *context, HomeKind kind, const char *name, Error *error)
{
    Fake *fake = context;
    (void)kind;
    text_copy(fake->said, sizeof fake->said, name);
    fake->trashed++;
    return fake_done(fake, error);
}

static inline bool fake_learn(void *context, bool again)
{
    (void)context;
    (void)again;
    return false;
}

static inline const HomeLearnt *fake_learnt(void *context, const char *bag)
{
    const Fake *fake = context;
    return fake->learns && strcmp(bag, "mine") == 0 ? &fake->learnt : NULL;
}

/* Four events offer a speed and a ball's boards; the scatter fits. */
static inline void fake_knows(Fake *fake)
{
    const Bag *bag = &fake->bag;
    fake->learns = true;
    fake->learnt = (HomeLearnt){.current = true, .events = 4, .count = 3};
    fake->learnt.values[0] = (LearntValue){.kind = LEARNT_MPH,
                                           .now = bag->bowler.mph,
                                           .to = 17.4,
                                           .low = 17.1,
                                           .high = 17.7,
                                           .shots = 96,
                                           .events = 4,
                                           .offered = true};
    fake->learnt.values[1] = (LearntValue){.kind = LEARNT_SCATTER, .shots = 120, .events = 4};
    fake->learnt.values[2] = (LearntValue){.kind = LEARNT_BALL,
                                           .ball = 2,
                                           .now = bag->balls[2].cover_strength,
                                           .to = 1.032,
                                           .boards = 0.8,
                                           .low = 0.3,
                                           .high = 1.3,
                                           .shots = 62,
                                           .events = 4,
                                           .offered = true};
    text_copy(fake->learnt.ball[2], sizeof fake->learnt.ball[2], bag->balls[2].id);
}

static const HomeFiles FAKE_FILES = {.list = fake_list,
                                     .read_bag = fake_read_bag,
                                     .read_pattern = fake_read_pattern,
                                     .keep_bag = fake_keep_bag,
                                     .keep_pattern = fake_keep_pattern,
                                     .pattern_event = fake_pattern_event,
                                     .new_event = fake_new_event,
                                     .keep_draft = fake_keep_draft,
                                     .read_draft = fake_read_draft,
                                     .drop_draft = fake_drop_draft,
                                     .copy = fake_copy,
                                     .rename = fake_copy,
                                     .put_away = fake_put_away,
                                     .trash = fake_trash,
                                     .learn = fake_learn,
                                     .learnt = fake_learnt};

static const HomeDoor FAKE_DOORS[] = {{'v', "v", "Some other stage", "what is behind that door"},
                                      {.key = 0}};

/* Home in that size; for free(). */
static inline Fake *fake_begin(bool empty, int columns, int rows)
{
    Fake *fake = calloc(1, sizeof *fake);
    Error error = {0};
    if (!fake)
        return NULL;
    fake->theme = theme_plain();
    fake->look = (StageLook){.themes = &fake->theme, .theme_count = 1, .glyphs = &GLYPHS_UTF8};
    fake->empty = empty;
    fake->bag.bowler = preset_bowler(preset_level("league"), preset_style("tweener"), HAND_RIGHT);
    preset_balls("strong-solid,hybrid,pearl,spare", 15.0, &fake->bag, &error);
    text_copy(fake->bag.bowler.name, sizeof fake->bag.bowler.name, "Quill");
    fake->host = (HomeHost){.look = &fake->look,
                            .today = "2026-05-17",
                            .doors = FAKE_DOORS,
                            .files = &FAKE_FILES,
                            .context = fake};
    home_begin(&fake->home, &fake->host);
    fake->home.columns = columns;
    fake->home.rows = rows;
    return fake;
}

static inline void fake_type(Fake *fake, const char *keys)
{
    for (; *keys; keys++)
        home_key(&fake->home, *keys == '\n' ? '\r' : (unsigned char)*keys);
}

static inline void fake_press(Fake *fake, uint32_t key, int times)
{
    while (times-- > 0)
        home_key(&fake->home, key);
}

/* The screen as text; the caller frees it. */
static inline char *fake_screen(const Fake *fake)
{
    Canvas canvas;
    if (!canvas_init(&canvas, fake->home.columns, fake->home.rows))
        return NULL;
    canvas.ascii = fake->look.glyphs->ascii;
    home_draw(&fake->home, &canvas);
    size_t size = canvas_plain(&canvas, NULL, 0) + 1;
    char *text = malloc(size);
    if (text)
        canvas_plain(&canvas, text, size);
    canvas_fini(&canvas);
    return text;
}

#endif
