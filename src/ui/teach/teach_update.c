/* teach_update.c - what keys and results do to the lessons' model. */
#include <string.h>

#include "base/text.h"
#include "core/event/score.h"
#include "ui/draw/rolling.h"
#include "ui/teach/teach_model.h"

typedef void TeachRun(TeachModel *model, TeachEffects *effects, int argument, uint32_t key);

static TeachRun key_go, key_look, key_shot, key_choose, key_hint, key_leave, key_move, key_begin,
    key_back, key_who, key_new, key_coach, key_named, key_hand, key_ball, key_rub, key_letter,
    key_scroll, key_help, key_theme, key_motion, key_quit, key_search, key_search_type,
    key_search_back, key_search_line, key_search_close;

enum { GROUP_LESSON, GROUP_LIST, GROUP_NEW, GROUP_PAGE, GROUPS };

typedef struct TeachRow {
    KeyRow key;
    TeachRun *run;
    int argument;
} TeachRow;

static const TeachRow ROWS[] = {
#define TEACH_KEY(group, where, from, to, also, run, argument, foot, shown, name, help)            \
    {{GROUP_##group, where, from, to, also, foot, shown, name, help}, run, argument},
#include "ui/teach/teach_keys.def"
#undef TEACH_KEY
};

static const char *const TITLES[GROUPS] = {"In a lesson", "Names and lessons", "A new name",
                                           "Pages"};

static const KeyPlace PLACES[] = {
    {ON_JUNIORS, "names"}, {ON_NEW, "a new name"},
    {ON_LIST, "list"},     {ON_GO | ON_ASK | ON_CHOOSE | ON_LESSON, "a lesson"},
    {ON_PAGE, "pages"},    {ON_HELP, "help"},
    {ON_SEARCH, "search"}};

const KeyTable TEACH_KEYS = {.of = "Lessons",
                             .places = PLACES,
                             .place_count = sizeof PLACES / sizeof *PLACES,
                             .rows = ROWS,
                             .row_size = sizeof ROWS[0],
                             .count = sizeof ROWS / sizeof ROWS[0],
                             .titles = TITLES,
                             .group_count = GROUPS};

const Junior *teach_junior(const TeachModel *model)
{
    return model->junior >= 0 ? &model->juniors->all[model->junior] : NULL;
}

Hand teach_hand(const TeachModel *model)
{
    return model->scene ? model->scene->bowler.hand : teach_junior(model)->hand;
}

unsigned teach_where(const TeachModel *model)
{
    static const unsigned PARTS[] = {
        [PART_SETTING] = 0,        [PART_BALL] = 0,    [PART_LOOK] = ON_GO,  [PART_ASK] = ON_ASK,
        [PART_CHOOSE] = ON_CHOOSE, [PART_ROLLING] = 0, [PART_SHOWN] = ON_GO, [PART_WHY] = ON_GO};
    switch (model->view) {
    case TEACH_JUNIORS:
        return ON_JUNIORS;
    case TEACH_NEW:
        return ON_NEW;
    case TEACH_LIST:
        return ON_LIST;
    case TEACH_LESSON:
        return ON_LESSON | PARTS[model->part];
    case TEACH_HELP:
        return ON_PAGE | ON_HELP;
    case TEACH_SEARCH:
        return ON_SEARCH;
    default:
        return ON_PAGE;
    }
}

void teach_say(TeachModel *model, Role role, const char *line)
{
    text_copy(model->message, sizeof model->message, line);
    model->message_role = role;
}

/* Level by level, the question of each at its end. */
static void list_items(TeachModel *model)
{
    model->item_count = 0;
    for (int level = 1; level <= LESSON_LEVELS; level++) {
        for (int i = 0; i < model->lesson_count; i++)
            if (model->lessons[i].level == level && model->item_count < 256)
                model->items[model->item_count++] = (TeachItem){i, level};
        model->items[model->item_count++] = (TeachItem){-1, level};
    }
}

void teach_model_init(TeachModel *model, const Lesson *lessons, int count, Juniors *juniors,
                      const Glyphs *glyphs)
{
    *model = (TeachModel){.lessons = lessons,
                          .lesson_count = count < 256 ? count : 256,
                          .juniors = juniors,
                          .glyphs = glyphs,
                          .junior = -1,
                          .chosen = -1};
    list_items(model);
    if (juniors->count == 0)
        model->view = TEACH_NEW;
}

/* ---- names ---- */

static void key_move(TeachModel *model, TeachEffects *effects, int step, uint32_t key)
{
    (void)effects;
    (void)key;
    int count = model->view == TEACH_LIST ? model->item_count : model->juniors->count;
    int at = model->cursor + step;
    if (at >= 0 && at < count)
        model->cursor = at;
}

/* The item of a lesson, or of the question of a level. */
static int item_of(const TeachModel *model, const NextStep *next)
{
    int item = 0;
    while (item < model->item_count - 1 &&
           (model->items[item].lesson != next->lesson || model->items[item].level != next->level))
        item++;
    return item;
}

static void key_who(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    if (model->juniors->count == 0)
        return;
    model->junior = model->cursor;
    NextStep next = junior_next(teach_junior(model), model->lessons, model->lesson_count);
    model->cursor = item_of(model, &next);
    model->view = TEACH_LIST;
}

static void key_new(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    (void)key;
    if (model->juniors->count == JUNIORS_MAX) {
        teach_say(model, ROLE_WARN, "There is room for 24 names in this home");
        effects->bell = true;
        return;
    }
    model->view = TEACH_NEW;
    model->typed[0] = '\0';
    model->hand = HAND_RIGHT;
    model->hook = false;
}

static void key_letter(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    char letter[5];
    size_t length = strlen(model->typed), more = text_encode(key, letter);
    char clean[8];
    if (length + more >= sizeof model->typed || !text_clean(clean, sizeof clean, letter) ||
        (key == ' ' && length == 0))
        effects->bell = true;
    else
        text_append(model->typed, sizeof model->typed, "%s", letter);
}

static void key_rub(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    size_t length = strlen(model->typed);
    while (length > 0 && ((unsigned char)model->typed[--length] & 0xc0) == 0x80)
        ;
    model->typed[length] = '\0';
}

static void key_hand(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    model->hand = model->hand == HAND_RIGHT ? HAND_LEFT : HAND_RIGHT;
}

static void key_ball(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    model->hook = !model->hook;
}

static void key_named(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    size_t length = strlen(model->typed);
    while (length > 0 && model->typed[length - 1] == ' ')
        model->typed[--length] = '\0';
    for (int i = 0; i < model->juniors->count; i++)
        if (strcmp(model->juniors->all[i].name, model->typed) == 0)
            length = 0;
    if (length == 0) {
        teach_say(model, ROLE_WARN,
                  model->typed[0] ? "That name is there already" : "Type a name first");
        effects->bell = true;
        return;
    }
    Junior *junior = &model->juniors->all[model->juniors->count];
    *junior = (Junior){.hand = model->hand, .hook = model->hook};
    text_copy(junior->name, sizeof junior->name, model->typed);
    model->cursor = model->juniors->count++;
    effects->keep = true;
    key_who(model, effects, argument, key);
}

/* ---- pages ---- */

static void key_coach(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    if (model->juniors->count == 0)
        return;
    model->before = model->view;
    if (model->view == TEACH_JUNIORS)
        model->junior = model->cursor;
    model->view = TEACH_COACH;
    model->top = 0;
}

static void key_help(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    model->before = model->view;
    model->view = TEACH_HELP;
    model->top = 0;
    search_clear(&model->search);
}

static void key_scroll(TeachModel *model, TeachEffects *effects, int step, uint32_t key)
{
    (void)effects;
    (void)key;
    int most = teach_page_lines(model) - teach_page_rows(model), top = model->top + step;
    model->top = top < 0 || most <= 0 ? 0 : top > most ? most : top;
}

static void key_back(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    (void)key;
    switch (model->view) {
    case TEACH_NEW:
        effects->end = model->juniors->count == 0;
        model->view = TEACH_JUNIORS;
        break;
    case TEACH_LIST:
        model->view = TEACH_JUNIORS;
        model->cursor = model->junior;
        break;
    default:
        model->view = model->before;
    }
}

static void key_theme(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    (void)key;
    if (model->theme_count > 0)
        model->theme = (model->theme + 1) % model->theme_count;
    effects->theme = true;
}

static void key_search(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    model->view = TEACH_SEARCH;
    model->search.top = 0;
}

static void key_search_type(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    effects->bell = !search_type(&model->search, key);
    if (effects->bell)
        teach_say(model, ROLE_WARN, SEARCH_FULL);
}

static void key_search_back(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    search_back(&model->search);
}

static void key_search_line(TeachModel *model, TeachEffects *effects, int lines, uint32_t key)
{
    (void)effects;
    (void)key;
    search_lines(&model->search, &TEACH_KEYS, model->columns, model->rows, lines);
}

static void key_search_close(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    model->view = TEACH_HELP;
}

static void key_motion(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    (void)key;
    bool before = model->still;
    teach_say(model, ROLE_PLAIN, rolling_turn(&model->still, model->still_fixed));
    effects->motion = model->still != before;
}

static void key_quit(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)model;
    (void)argument;
    (void)key;
    effects->end = true;
}

/* ---- a lesson ---- */

static void key_begin(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    (void)key;
    TeachItem item = model->items[model->cursor];
    model->item = model->cursor;
    model->view = TEACH_LESSON;
    model->part = PART_SETTING;
    model->scene = NULL;
    model->shot = 0;
    model->chosen = -1;
    model->play = (Play){.level = item.level, .fresh = item.lesson < 0};
    for (int i = 0; i < LESSON_CHOICES_MAX; i++)
        model->cloud[i].ready = false;
    if (item.lesson >= 0)
        model->lesson = model->lessons[item.lesson];
    effects->set = true;
    effects->fresh = item.lesson < 0;
}

static void read_score(TeachModel *model)
{
    char why[ERROR_TEXT_MAX];
    Score score = score_begin();
    score_read(&score, model->lesson.score, why, sizeof why);
    ScoreNeed need = score_need(&score, model->lesson.target);
    text_copy(model->score_words, sizeof model->score_words, need.words);
}

/* The shot rolls, or has rolled at once; then the lesson goes on with `after`. */
static void roll_shot(TeachModel *model, int shot, TeachPart after)
{
    model->shot = shot;
    model->roll_s = 0.0;
    model->after = after;
    model->part = model->still ? after : PART_BALL;
}

bool teach_on_its_way(const TeachModel *model)
{
    return model->view == TEACH_LESSON && model->part == PART_BALL;
}

TeachEffects teach_pass(TeachModel *model, int milliseconds)
{
    if (!teach_on_its_way(model))
        return (TeachEffects){0};
    model->roll_s += milliseconds / 1000.0;
    if (rolling_over(&model->shots[model->shot].roll, model->roll_s))
        model->part = model->after;
    return (TeachEffects){.draw = true};
}

TeachEffects teach_set(TeachModel *model, const TeachScene *scene, bool own, const char *doubt)
{
    model->scene = scene;
    model->own = own;
    text_copy(model->play.lesson, sizeof model->play.lesson, model->lesson.id);
    model->play.skill = model->lesson.skill;
    for (int i = 0; i < model->lesson.shot_count; i++)
        teach_shot(scene, i, &model->shots[i]);
    if (model->lesson.kind == LESSON_SCORE)
        read_score(model);
    if (model->lesson.shot_count > 0)
        roll_shot(model, 0, PART_LOOK);
    else
        model->part = PART_CHOOSE;
    if (doubt[0])
        teach_say(model, ROLE_WARN, doubt);
    return (TeachEffects){.draw = true};
}

TeachEffects teach_refused(TeachModel *model, const char *why)
{
    model->view = TEACH_LIST;
    teach_say(model, ROLE_WARN, why);
    return (TeachEffects){.draw = true, .bell = true};
}

static void key_look(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    int answer = (int)(key - '1');
    if (answer >= model->lesson.answer_count) {
        effects->bell = true;
        return;
    }
    model->play.looked++;
    if (answer == model->lesson.answer_right) {
        model->part = PART_CHOOSE;
        teach_say(model, ROLE_GOOD, "Yes, that's what it did. What would you change?");
    } else {
        teach_say(model, ROLE_ACCENT,
                  "Look again: where does the line of dots end? The pocket is beside the 1.");
    }
}

static void key_shot(TeachModel *model, TeachEffects *effects, int step, uint32_t key)
{
    (void)effects;
    (void)key;
    int count = model->lesson.shot_count;
    if (count > 0)
        roll_shot(model, (model->shot + step + count) % count, PART_ASK);
}

static void key_hint(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    char said[sizeof model->message];
    lesson_say(model->lesson.hint, teach_hand(model), said, sizeof said);
    model->play.hints = 1;
    teach_say(model, ROLE_ACCENT, said);
}

static void key_choose(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    int choice = (int)(key - '1');
    if (choice >= model->lesson.choice_count) {
        effects->bell = true;
        return;
    }
    model->chosen = choice;
    model->play.chose++;
    bool ready = model->lesson.kind == LESSON_SCORE || model->cloud[0].ready;
    model->part = ready ? PART_SHOWN : PART_ROLLING;
    effects->roll = !ready;
}

TeachEffects teach_rolled(TeachModel *model)
{
    if (model->part == PART_ROLLING)
        model->part = PART_SHOWN;
    return (TeachEffects){.draw = true};
}

/* The lesson is done: it is counted, and the list goes on to the next. */
static void finish(TeachModel *model, TeachEffects *effects)
{
    junior_add_play(&model->juniors->all[model->junior], &model->play);
    effects->keep = true;
    model->view = TEACH_LIST;
    if (model->cursor < model->item_count - 1)
        model->cursor++;
    teach_say(model, ROLE_GOOD,
              play_at_once(&model->play) ? "Right at once." : "Done. The ball is a good teacher.");
}

static void key_go(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)argument;
    (void)key;
    switch (model->part) {
    case PART_LOOK:
        if (model->shot + 1 < model->lesson.shot_count)
            roll_shot(model, model->shot + 1, PART_LOOK);
        else
            model->part = model->lesson.answer_count ? PART_ASK : PART_CHOOSE;
        break;
    case PART_SHOWN:
        model->part = model->chosen == model->lesson.choice_right ? PART_WHY : PART_CHOOSE;
        break;
    case PART_WHY:
        finish(model, effects);
        break;
    default:
        break;
    }
}

static void key_leave(TeachModel *model, TeachEffects *effects, int argument, uint32_t key)
{
    (void)effects;
    (void)argument;
    (void)key;
    model->view = TEACH_LIST;
}

TeachEffects teach_key(TeachModel *model, uint32_t key)
{
    TeachEffects effects = {.draw = true};
    const TeachRow *row = (const TeachRow *)key_find(&TEACH_KEYS, teach_where(model), key);
    bool ball = teach_on_its_way(model);
    if (ball) /* what came of it is seen before anything is answered */
        model->part = model->after;
    if (!row)
        return (TeachEffects){.draw = ball, .bell = !ball && key != PRESS_REDRAW};
    model->message[0] = '\0';
    row->run(model, &effects, row->argument, key);
    return effects;
}
