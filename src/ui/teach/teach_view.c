/* teach_view.c - the lessons' screens, drawn from the model. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "core/event/shot.h"
#include "ui/draw/flow.h"
#include "ui/draw/rolling.h"
#include "ui/teach/teach_lane.h"
#include "ui/teach/teach_model.h"

enum { FRAME = 3 /* rows of title, rule and footer */, COLUMNS_LEAST = 72, ROWS_LEAST = 20 };

static void frame(const TeachModel *model, Canvas *canvas, const char *title, const char *right)
{
    int rule = canvas->rows - 2, width = canvas_width(right);
    canvas_text_right(canvas, 0, canvas->columns - 1, width, ROLE_DIM, right);
    canvas_text(canvas, 0, 1, canvas->columns - width - 4, ROLE_TITLE, title);
    canvas_hline(canvas, rule, 0, canvas->columns, model->glyphs->rule, ROLE_DIM);
    if (model->message[0])
        canvas_print(canvas, rule, 1, canvas->columns - 2, model->message_role, " %s ",
                     model->message);
    else if (teach_on_its_way(model))
        canvas_print(canvas, rule, 1, canvas->columns - 2, ROLE_DIM, " %s ", ROLLING_HINT);
    key_footer(&TEACH_KEYS, teach_where(model), -1, canvas);
}

/* A sentence in the reader's words; returns the row below it. */
static int put(const TeachModel *model, Canvas *canvas, int row, int column, int width, Role role,
               const char *text)
{
    char said[LESSON_TEXT_MAX + 64];
    lesson_say(text, teach_hand(model), said, sizeof said);
    int room = canvas->rows - 2 - row;
    return row + (room > 0 ? canvas_wrap(canvas, row, column, width, room, role, said) : 0);
}

/* ---- names ---- */

static const char *ball_words(bool hook) { return hook ? "a hook" : "a straight ball"; }

static void draw_juniors(const TeachModel *model, Canvas *canvas)
{
    frame(model, canvas, "Lessons: who is here?", "");
    for (int i = 0; i < model->juniors->count && 2 + i < canvas->rows - 2; i++) {
        const Junior *junior = &model->juniors->all[i];
        bool here = i == model->cursor;
        int finished = 0, row = 2 + i;
        for (int level = 1; level <= LESSON_LEVELS; level++)
            finished += junior_finished(junior, model->lessons, model->lesson_count, level);
        if (here)
            canvas_put(canvas, row, 1, model->glyphs->breaks_right, ROLE_ACCENT);
        canvas_text(canvas, row, 3, 30, here ? ROLE_ACCENT : ROLE_PLAIN, junior->name);
        canvas_print(canvas, row, 34, canvas->columns - 35, ROLE_DIM,
                     "%s hand, %s; %d of %d lessons", HAND_NAMES[junior->hand],
                     ball_words(junior->hook), finished, model->lesson_count);
    }
}

static void draw_new(const TeachModel *model, Canvas *canvas)
{
    int width = canvas->columns - 4;
    frame(model, canvas, "Lessons: a new name", "");
    canvas_text(canvas, 2, 2, 8, ROLE_DIM, "Name");
    int used = canvas_text(canvas, 2, 10, 32, ROLE_FIELD, model->typed);
    canvas->cursor_row = 2;
    canvas->cursor_column = 10 + used;
    canvas_text(canvas, 3, 2, 8, ROLE_DIM, "Hand");
    canvas_print(canvas, 3, 10, 20, ROLE_PLAIN, "%s", HAND_NAMES[model->hand]);
    canvas_text(canvas, 4, 2, 8, ROLE_DIM, "Ball");
    canvas_print(canvas, 4, 10, 20, ROLE_PLAIN, "%s", ball_words(model->hook));
    int row = 6 + canvas_wrap(canvas, 6, 2, width, 4, ROLE_PLAIN,
                              "A ball rolls, you say what it did and what you would change, and "
                              "then you see thirty balls do it. Nobody minds a wrong answer: try "
                              "again as often as you like.");
    canvas_wrap(canvas, row + 1, 2, width, 4, ROLE_WARN,
                LESSON_CAUTION_WORDS[LESSON_CAUTION_HOUSE]);
    canvas_wrap(canvas, row + 3, 2, width, 4, ROLE_WARN,
                LESSON_CAUTION_WORDS[LESSON_CAUTION_WARM_UP]);
}

/* ---- the list ---- */

/* A row for each item, and one for the title of each level before its first. */
static int list_line(const TeachModel *model, int item)
{
    return item + 2 * model->items[item].level - 1;
}

static void list_row(const TeachModel *model, Canvas *canvas, int row, int item)
{
    TeachItem of = model->items[item];
    const Junior *junior = teach_junior(model);
    bool here = item == model->cursor, at_once, did;
    int right = canvas->columns - 9;
    right = right > 80 ? 80 : right;
    const char *name = "A fresh question", *balls = "";
    if (of.lesson >= 0) {
        const Lesson *lesson = &model->lessons[of.lesson];
        did = junior_did(junior, lesson->id, &at_once);
        name = lesson->name;
        balls = SKILL_WORDS[lesson->skill];
    } else {
        did = at_once = junior_passed(junior, of.level);
    }
    if (here)
        canvas_put(canvas, row, 1, model->glyphs->breaks_right, ROLE_ACCENT);
    canvas_text(canvas, row, 3, 44,
                here            ? ROLE_ACCENT
                : of.lesson < 0 ? ROLE_DIM
                                : ROLE_PLAIN,
                name);
    canvas_text(canvas, row, right - 21, 20, ROLE_DIM, balls);
    canvas_text(canvas, row, right, 8, at_once ? ROLE_GOOD : ROLE_DIM,
                at_once ? "at once"
                : did   ? "done"
                        : "");
}

static void draw_list(const TeachModel *model, Canvas *canvas)
{
    int rows = canvas->rows - FRAME - 1;
    int last = list_line(model, model->item_count - 1);
    int top = list_line(model, model->cursor) - rows / 2;
    top = top > last - rows + 1 ? last - rows + 1 : top;
    top = top < 0 ? 0 : top;
    frame(model, canvas, "Lessons", teach_junior(model)->name);
    for (int item = 0; item < model->item_count; item++) {
        int level = model->items[item].level, row = 1 + list_line(model, item) - top;
        bool first = item == 0 || model->items[item - 1].level != level;
        if (first && row - 1 >= 1 && row - 1 <= rows)
            canvas_print(canvas, row - 1, 1, 60, ROLE_TITLE, "%d  %s", level,
                         LESSON_LEVEL_NAMES[level - 1]);
        if (row >= 1 && row <= rows)
            list_row(model, canvas, row, item);
    }
}

/* ---- a lesson: the shot, the question, the choices ---- */

static void shot_words(const TeachModel *model, char *out, size_t size)
{
    const TeachShot *shot = &model->shots[model->shot];
    Hand hand = teach_hand(model);
    char pins[48] = "";
    lane_pins_words(hand == HAND_LEFT ? lane_mirror_pins(shot->left) : shot->left, "-", pins,
                    sizeof pins);
    out[0] = '\0';
    if (model->lesson.shot_count > 1)
        text_append(out, size, "Ball %d of %d: ", model->shot + 1, model->lesson.shot_count);
    if (shot->roll.gutter)
        text_append(out, size, "into the gutter");
    else if (shot->left == 0)
        text_append(out, size, "a strike");
    else
        text_append(out, size, "%s stand%s", pins, lane_pin_count(shot->left) == 1 ? "s" : "");
    text_append(out, size, ", %.1f mph", shot->delivery.mph);
}

static int draw_thrown(const TeachModel *model, Canvas *canvas, int row, int width)
{
    const TeachScene *scene = model->scene;
    const Lesson *lesson = &model->lesson;
    char text[160] = "", stance[16], aim[16];
    if (lesson->kind == LESSON_SCORE) {
        text_append(text, sizeof text, "%s  Wanted: %d", lesson->score, lesson->target);
        return put(model, canvas, row, 1, width, ROLE_DIM, text);
    }
    widget_board(stance, sizeof stance, scene->plan.stance);
    widget_board(aim, sizeof aim, scene->plan.aim);
    text_append(text, sizeof text, "%s, feet on %s, eyes on %s%s%s",
                bag_slot(scene->bag, scene->plan.slot)->name, stance, aim,
                lesson->steady < 1.0 ? ", a steady hand" : "",
                model->own ? "; a friend throws, whose ball can show it" : "");
    return put(model, canvas, row, 1, width, ROLE_DIM, text);
}

static int draw_numbered(const TeachModel *model, Canvas *canvas, int row, int width, int number,
                         const char *text)
{
    canvas_print(canvas, row, 2, 2, ROLE_KEY, "%d", number);
    return put(model, canvas, row, 4, width - 3, ROLE_PLAIN, text);
}

static int draw_question(const TeachModel *model, Canvas *canvas, int row, int width)
{
    const Lesson *lesson = &model->lesson;
    char text[160];
    if (model->part == PART_BALL) {
        rolling_words(&model->shots[model->shot].roll, model->roll_s, canvas, row, 1, width);
        return row + 2;
    }
    if (lesson->shot_count > 0) {
        shot_words(model, text, sizeof text);
        row = 1 + put(model, canvas, row, 1, width, ROLE_ACCENT, text);
    }
    if (model->part == PART_ASK) {
        row = put(model, canvas, row, 1, width, ROLE_TITLE, lesson->ask);
        for (int i = 0; i < lesson->answer_count; i++)
            row = draw_numbered(model, canvas, row, width, i + 1, lesson->answers[i].say);
    } else if (model->part == PART_CHOOSE || model->part == PART_ROLLING) {
        row = put(model, canvas, row, 1, width, ROLE_TITLE,
                  lesson->kind == LESSON_SCORE ? "What do you say?" : "What would you change?");
        for (int i = 0; i < lesson->choice_count; i++)
            row = draw_numbered(model, canvas, row, width, i + 1, lesson->choices[i].say);
    }
    if (model->part == PART_ROLLING)
        row = put(model, canvas, row + 1, 1, width, ROLE_DIM, "Throwing thirty of each...");
    return row;
}

static void draw_lesson_lane(const TeachModel *model, Canvas *canvas, Area area)
{
    const TeachScene *scene = model->scene;
    const TeachShot *shot = model->lesson.shot_count > 0 ? &model->shots[model->shot] : NULL;
    bool rolls = model->part == PART_BALL;
    TeachLane lane = {model->glyphs, area, teach_hand(model),
                      rolls  ? PINS_ALL
                      : shot ? shot->left
                             : model->lesson.left};
    teach_lane_draw(&lane, &scene->oil, canvas);
    if (!shot)
        return;
    Roll roll = shot->roll;
    if (rolls)
        rolling_behind(&shot->roll, model->roll_s, &roll);
    teach_lane_path(&lane, &roll, ROLE_PATH, canvas);
    if (rolls)
        teach_lane_ball(&lane, &roll.path[roll.count - 1], canvas);
}

static void draw_setting(const TeachModel *model, Canvas *canvas)
{
    bool lane = model->lesson.kind != LESSON_SCORE;
    int lane_columns = canvas->columns >= 110 ? 41 : 22;
    int width = canvas->columns - (lane ? lane_columns + 4 : 2);
    if (model->part == PART_SETTING) {
        canvas_text(canvas, 2, 1, canvas->columns - 2, ROLE_DIM, "Oiling the lane...");
        return;
    }
    int row = 1 + put(model, canvas, 2, 1, width, ROLE_PLAIN, model->lesson.words);
    row = 1 + draw_thrown(model, canvas, row, width);
    draw_question(model, canvas, row, width);
    if (lane)
        draw_lesson_lane(
            model, canvas,
            (Area){1, canvas->columns - lane_columns - 1, canvas->rows - FRAME, lane_columns});
}

/* ---- what the choices do ---- */

static const char *counted(Count count)
{
    static const char *const WORDS[COUNT_COUNT] = {"in the pocket",    "in or near the pocket",
                                                   "hit the head pin", "took all ten",
                                                   "took all ten",     "took them all"};
    return WORDS[count];
}

/* One choice's lane, its words above and its count below. */
static void draw_choice(const TeachModel *model, Canvas *canvas, int choice, Area area)
{
    const TeachCloud *cloud = &model->cloud[choice];
    bool mine = choice == model->chosen;
    Role role = mine ? ROLE_ACCENT : ROLE_DIM;
    char said[128], text[160] = "";
    lesson_say(model->lesson.choices[choice].say, teach_hand(model), said, sizeof said);
    text_append(text, sizeof text, "%d %s", choice + 1, said);
    canvas_wrap(canvas, area.row, area.column, area.columns, 2, role, text);
    TeachLane lane = {model->glyphs,
                      {area.row + 2, area.column, area.rows - 3, area.columns},
                      teach_hand(model),
                      model->lesson.kind == LESSON_SPARE_BALL ? model->lesson.left : PINS_ALL};
    teach_lane_draw(&lane, NULL, canvas);
    teach_lane_cloud(&lane, cloud, mine ? ROLE_PATH : ROLE_PATH2, canvas);
    canvas_print(canvas, area.row + area.rows - 1, area.column, area.columns, role, "%s%d of %d",
                 mine ? "yours: " : "", cloud->good, TEACH_SHOWN);
}

static void draw_shown(const TeachModel *model, Canvas *canvas)
{
    const Lesson *lesson = &model->lesson;
    const LessonChoice *chosen = &lesson->choices[model->chosen];
    bool right = model->chosen == lesson->choice_right;
    char text[320] = "";
    int width = canvas->columns - 2;
    if (lesson->kind == LESSON_SCORE) {
        int row = 1 + put(model, canvas, 2, 1, width, ROLE_PLAIN, lesson->words);
        row = 1 + draw_thrown(model, canvas, row, width);
        row = put(model, canvas, row, 1, width, ROLE_ACCENT, chosen->say);
        put(model, canvas, row, 1, width, ROLE_PLAIN, model->score_words);
        return;
    }
    text_append(text, sizeof text, "%d of %d %s. %s", model->cloud[model->chosen].good, TEACH_SHOWN,
                counted(lesson->count), chosen->does);
    int row = put(model, canvas, 1, 1, width, ROLE_PLAIN, text);
    row = put(model, canvas, row, 1, width, ROLE_DIM,
              right ? "None of the others does as well."
                    : "Does another one do better? Look at them, then try again.");
    int gap = 2, columns = (width + gap) / lesson->choice_count - gap;
    columns = columns > 41 ? 41 : columns;
    for (int i = 0; i < lesson->choice_count; i++)
        draw_choice(model, canvas, i,
                    (Area){row, 1 + i * (columns + gap), canvas->rows - 2 - row, columns});
}

static void draw_why(const TeachModel *model, Canvas *canvas)
{
    const Lesson *lesson = &model->lesson;
    int width = canvas->columns - 4 < 76 ? canvas->columns - 4 : 76;
    int row =
        1 + put(model, canvas, 2, 2, width, ROLE_ACCENT, lesson->choices[lesson->choice_right].say);
    row = 1 + put(model, canvas, row, 2, width, ROLE_PLAIN, lesson->why);
    if (lesson->kind != LESSON_SCORE)
        for (int i = 0; i < lesson->choice_count; i++) {
            char said[128], count[24];
            lesson_say(lesson->choices[i].say, teach_hand(model), said, sizeof said);
            snprintf(count, sizeof count, "%d of %d", model->cloud[i].good, TEACH_SHOWN);
            canvas_text_right(canvas, row, 11, 9, ROLE_DIM, count);
            row += canvas_wrap(canvas, row, 13, width - 11, 2,
                               i == lesson->choice_right ? ROLE_GOOD : ROLE_DIM, said);
        }
    if (lesson->caution)
        put(model, canvas, row + 1, 2, width, ROLE_WARN, LESSON_CAUTION_WORDS[lesson->caution]);
}

static void draw_lesson(const TeachModel *model, Canvas *canvas)
{
    char right[64] = "";
    text_append(right, sizeof right, "%s  level %d", teach_junior(model)->name,
                model->items[model->item].level);
    frame(model, canvas, model->part == PART_SETTING ? "" : model->lesson.name, right);
    if (model->part == PART_SHOWN)
        draw_shown(model, canvas);
    else if (model->part == PART_WHY)
        draw_why(model, canvas);
    else
        draw_setting(model, canvas);
}

/* ---- pages ---- */

static void coach_line(void *context, CoachLine kind, const char *text)
{
    static const Role ROLES[] = {[COACH_TITLE] = ROLE_ACCENT,
                                 [COACH_HEAD] = ROLE_TITLE,
                                 [COACH_ROW] = ROLE_PLAIN,
                                 [COACH_SENTENCE] = ROLE_PLAIN};
    Flow *flow = context;
    if (kind == COACH_SENTENCE)
        flow_sentence(flow, 1, ROLES[kind], text);
    else
        flow_line(flow, ROLES[kind], text);
}

static void page(const TeachModel *model, Flow *flow)
{
    if (model->view == TEACH_COACH) {
        coach_page(teach_junior(model), model->lessons, model->lesson_count, coach_line, flow);
        return;
    }
    flow_sentence(flow, 1, ROLE_PLAIN,
                  "Each lesson: a ball rolls, you say what it did and choose what to change, and "
                  "every choice is thrown thirty times. settee teach check says whether a lesson "
                  "of your own holds; docs/teach.md tells how to write one.");
    flow_line(flow, ROLE_PLAIN, "");
    flow_keys(flow, &TEACH_KEYS, -1);
    flow_line(flow, ROLE_PLAIN, "");
    for (int i = 1; i < LESSON_CAUTION_COUNT; i++)
        flow_sentence(flow, 1, ROLE_WARN, LESSON_CAUTION_WORDS[i]);
}

int teach_page_lines(const TeachModel *model)
{
    Flow flow = {.columns = model->columns};
    page(model, &flow);
    return flow.line;
}

int teach_page_rows(const TeachModel *model) { return model->rows - FRAME - 1; }

static void draw_page(const TeachModel *model, Canvas *canvas)
{
    Flow flow = {.canvas = canvas,
                 .columns = canvas->columns,
                 .top = model->top,
                 .row = 2,
                 .row_count = teach_page_rows(model)};
    bool more = teach_page_lines(model) > flow.row_count;
    frame(model, canvas, model->view == TEACH_COACH ? "The coach's page" : "Help", "");
    page(model, &flow);
    if (more)
        canvas_print(canvas, canvas->rows - 2, canvas->columns - 16, 15, ROLE_DIM,
                     " line %d of %d ", model->top + 1, teach_page_lines(model));
}

static void draw_search(const TeachModel *model, Canvas *canvas)
{
    char right[40];
    search_draw(&model->search, &TEACH_KEYS, canvas, right, sizeof right);
    frame(model, canvas, SEARCH_TITLE, right);
}

void teach_draw(const TeachModel *model, Canvas *canvas)
{
    if (canvas->columns < COLUMNS_LEAST || canvas->rows < ROWS_LEAST) {
        char text[120] = "";
        text_append(text, sizeof text,
                    "Lessons need %dx%d; this is %dx%d. Make the window larger, or press Esc to go "
                    "back.",
                    COLUMNS_LEAST, ROWS_LEAST, canvas->columns, canvas->rows);
        canvas_wrap(canvas, canvas->rows / 3, 0, canvas->columns, canvas->rows, ROLE_PLAIN, text);
        return;
    }
    switch (model->view) {
    case TEACH_JUNIORS:
        draw_juniors(model, canvas);
        break;
    case TEACH_NEW:
        draw_new(model, canvas);
        break;
    case TEACH_LIST:
        draw_list(model, canvas);
        break;
    case TEACH_LESSON:
        draw_lesson(model, canvas);
        break;
    case TEACH_SEARCH:
        draw_search(model, canvas);
        break;
    default:
        draw_page(model, canvas);
    }
}
