/* lesson_file.c - settee-lesson/1: a lesson as a coach writes it (docs/teach.md). */
#include <string.h>

#include "base/text.h"
#include "core/event/score.h"
#include "core/teach/lesson.h"
#include "store/load.h"

static const JsonField ROOT_FIELDS[] = {
    {"format", JSON_OTHER, .required = true},
    {"name", JSON_TEXT, .required = true, JSON_AT(Lesson, name)},
    {"level", JSON_INTEGER, .required = true, JSON_AT(Lesson, level), .min = 1,
     .max = LESSON_LEVELS},
    {"order", JSON_INTEGER, JSON_AT(Lesson, order), .min = 1, .max = 99},
    {"skill", JSON_WORD, .required = true, JSON_AT(Lesson, skill), .of = "skill",
     .words = SKILL_NAMES},
    {"words", JSON_TEXT, .required = true, JSON_AT(Lesson, words)},
    {"for", JSON_OTHER, .required = true},
    {.key = "lane"},
    {.key = "start"},
    {.key = "today"},
    {.key = "left"},
    {.key = "score"},
    {"steady", JSON_RANGE(Lesson, steady, 0.1, 1, "times the scatter")},
    {"seed", JSON_INTEGER, JSON_AT(Lesson, seed), .min = 1, .max = 1000000},
    {.key = "shots"},
    {.key = "question"},
    {"choices", JSON_OTHER, .required = true},
    {"why", JSON_TEXT, .required = true, JSON_AT(Lesson, why)},
    {"hint", JSON_TEXT, .required = true, JSON_AT(Lesson, hint)},
    {"caution", JSON_WORD, JSON_AT(Lesson, caution), .of = "caution",
     .words = LESSON_CAUTION_NAMES},
    {.key = "claim"},
    JSON_END};

static const JsonField LANE_FIELDS[] = {
    {"pattern", JSON_TEXT, .required = true, JSON_AT(Lesson, pattern)},
    {"line_from", JSON_TEXT, JSON_AT(Lesson, learned)},
    {"oil_by", JSON_RANGE(Lesson, oil_by, -8, 8, "boards")},
    {"suits", JSON_INTEGER, JSON_AT(Lesson, suits), .min = -3, .max = 3},
    {"worn_by", JSON_RANGE(Lesson, worn_by, 0, 8, "boards")},
    {"ball", JSON_WORD, .required = true, JSON_AT(Lesson, ball), .of = "ball",
     .words = LESSON_BALL_NAMES},
    {"over", JSON_RANGE(Lesson, over, 3, 30, "boards")},
    JSON_END};

#define CHANGE_FIELDS(type, at)                                                                    \
    {"feet", JSON_RANGE(type, at feet, -20, 20, "boards in")},                                     \
        {"eyes", JSON_RANGE(type, at eyes, -10, 10, "boards in")},                                 \
        {"mph", JSON_RANGE(type, at mph, PLAN_MPH_CHANGE_LOW, PLAN_MPH_CHANGE_HIGH, "mph")},       \
        {"loft_ft", JSON_RANGE(type, at loft_ft, PLAN_LOFT_CHANGE_LOW, 1, "feet")},                \
    {                                                                                              \
        "rotation_deg", JSON_RANGE(type, at rotation_deg, -30, 30, "degrees")                      \
    }

static const JsonField START_FIELDS[] = {CHANGE_FIELDS(LessonChange, ), JSON_END};

static const JsonField CHOICE_FIELDS[] = {
    {"say", JSON_TEXT, .required = true, JSON_AT(LessonChoice, say)},
    {"does", JSON_TEXT, JSON_AT(LessonChoice, does)},
    CHANGE_FIELDS(LessonChoice, change.),
    {"ball", JSON_INTEGER, JSON_AT(LessonChoice, change.ball), .min = -5, .max = 5},
    {"pin", JSON_INTEGER, JSON_AT(LessonChoice, pin), .min = 1, .max = 10},
    {"beside", JSON_RANGE(LessonChoice, beside, -10, 10, "boards in")},
    {"marks", JSON_INTEGER, JSON_AT(LessonChoice, marks), .min = 0, .max = 12},
    JSON_END};

#define THROW_FIELDS                                                                               \
    {"laydown", JSON_RANGE(LessonThrow, laydown, -10, 10, "boards in")},                           \
        {"aim", JSON_RANGE(LessonThrow, aim, -10, 10, "boards in")},                               \
        {"mph", JSON_RANGE(LessonThrow, mph, -5, 5, "mph")},                                       \
    {                                                                                              \
        "rpm", JSON_RANGE(LessonThrow, rpm, -200, 200, "rpm")                                      \
    }

static const JsonField TODAY_FIELDS[] = {THROW_FIELDS, JSON_END};
static const JsonField SHOT_FIELDS[] = {THROW_FIELDS, {.key = "left"}, JSON_END};

static const JsonField QUESTION_FIELDS[] = {
    {"ask", JSON_TEXT, .required = true, JSON_AT(Lesson, ask)},
    {"answers", JSON_OTHER, .required = true},
    JSON_END};

typedef struct AnswerRead {
    LessonAnswer answer;
    bool right;
} AnswerRead;
static const JsonField ANSWER_FIELDS[] = {
    {"say", JSON_TEXT, .required = true, JSON_AT(AnswerRead, answer.say)},
    {"is", JSON_WORD, JSON_AT(AnswerRead, answer.is), .of = "sight", .words = SAW_NAMES},
    {"right", JSON_BOOL, JSON_AT(AnswerRead, right)},
    JSON_END};

static const JsonField CLAIM_FIELDS[] = {
    {"count", JSON_WORD, .required = true, JSON_AT(Lesson, count), .of = "count",
     .words = COUNT_NAMES},
    {"points", JSON_RANGE(Lesson, points, 1, 100, "points"), .required = true},
    JSON_END};

static const JsonField SCORE_FIELDS[] = {
    {"balls", JSON_TEXT, .required = true, JSON_AT(Lesson, score)},
    {"target", JSON_INTEGER, .required = true, JSON_AT(Lesson, target), .min = 1,
     .max = LESSON_TARGET_MAX},
    JSON_END};

/* A list of pin numbers, each once. */
static bool pins_parse(const Json *array, Pins *pins)
{
    const JsonField field = {.kind = JSON_INTEGER, .min = 1, .max = 10};
    Json item;
    *pins = 0;
    if (json_count(array, 0, 10, "pins") < 0)
        return false;
    for (bool more = json_first(array, &item); more; more = json_next(&item)) {
        int pin;
        if (!json_value(&item, &field, &pin))
            return false;
        if (*pins & pin_bit(pin))
            return json_fail(&item, "found pin %d twice", pin);
        *pins |= pin_bit(pin);
    }
    return true;
}

/* The words of a key, whose braces must be those that lesson_say knows. */
static bool words_sound(const Json *object, const char *key, const char *words)
{
    char said[LESSON_TEXT_MAX + 64];
    Json member;
    if (lesson_say(words, HAND_RIGHT, said, sizeof said) || !json_member(object, key, &member))
        return true;
    return json_fail(&member, "found a brace that means nothing here; allowed: {in}, {out} and "
                              "{pin 1} to {pin 10}");
}

static bool for_parse(const Json *root, Lesson *lesson)
{
    static const char *const WORDS[] = {"straight", "hook", NULL};
    const JsonField field = {.kind = JSON_WORD, .of = "kind of ball", .words = WORDS};
    Json array, item;
    if (!json_member(root, "for", &array) || json_count(&array, 1, 2, "kinds of ball") < 0)
        return false;
    for (bool more = json_first(&array, &item); more; more = json_next(&item)) {
        int which;
        if (!json_value(&item, &field, &which))
            return false;
        bool *said = which == 0 ? &lesson->straight : &lesson->hook;
        if (*said)
            return json_fail(&item, "found \"%s\" twice", WORDS[which]);
        *said = true;
    }
    return true;
}

static bool shots_of_lesson(const Json *root, Lesson *lesson)
{
    Json array, item, left;
    int least = lesson->kind == LESSON_STRIKE_BALL ? 1 : 0;
    if (!json_member(root, "shots", &array))
        return least == 0 || json_fail(root, "missing key \"shots\"");
    if (json_count(&array, least, LESSON_SHOTS_MAX, "shots") < 0)
        return false;
    for (bool more = json_first(&array, &item); more; more = json_next(&item)) {
        LessonThrow *shot = &lesson->shots[lesson->shot_count++];
        if (!json_object(&item, SHOT_FIELDS, shot))
            return false;
        if (!json_member(&item, "left", &left))
            continue;
        if (lesson->kind == LESSON_SPARE_BALL)
            return json_fail(&left, "a spare lesson says once what was left, in $.left");
        shot->left_said = true;
        if (!pins_parse(&left, &shot->left))
            return false;
    }
    return true;
}

static bool question_parse(const Json *root, Lesson *lesson)
{
    Json question, array, item;
    if (!json_member(root, "question", &question))
        return lesson->shot_count == 0 || json_fail(root, "missing key \"question\"");
    if (!json_object(&question, QUESTION_FIELDS, lesson) ||
        !words_sound(&question, "ask", lesson->ask) || !json_member(&question, "answers", &array) ||
        json_count(&array, 2, LESSON_ANSWERS_MAX, "answers") < 0)
        return false;
    lesson->answer_right = -1;
    for (bool more = json_first(&array, &item); more; more = json_next(&item)) {
        AnswerRead read = {0};
        if (!json_object(&item, ANSWER_FIELDS, &read) ||
            !words_sound(&item, "say", read.answer.say))
            return false;
        if (read.answer.is != SAW_UNSAID && lesson->shot_count == 0)
            return json_fail(&item, "found \"is\", but no shot rolls");
        if (read.right && lesson->answer_right >= 0)
            return json_fail(&item, "found a second right answer; allowed: one");
        if (read.right)
            lesson->answer_right = lesson->answer_count;
        lesson->answers[lesson->answer_count++] = read.answer;
    }
    return lesson->answer_right >= 0 ||
           json_fail(&array, "found no right answer; one has \"right\": true");
}

/* What a choice may hold goes with the kind of lesson. */
static bool choice_fits(const Json *item, const Lesson *lesson, const LessonChoice *choice)
{
    Json member;
    if (lesson->kind == LESSON_SCORE && !json_member(item, "marks", &member))
        return json_fail(item, "missing key \"marks\": a score lesson's choices say how many");
    if (lesson->kind != LESSON_SCORE && json_member(item, "marks", &member))
        return json_fail(&member, "\"marks\" is for score lessons");
    if (lesson->kind != LESSON_SPARE_BALL && json_member(item, "pin", &member))
        return json_fail(&member, "\"pin\" is for spare lessons, which have \"left\"");
    if (choice->pin && !(lesson->left & pin_bit(choice->pin)))
        return json_fail(item, "found pin %d, which is not among those left", choice->pin);
    if (!choice->pin && json_member(item, "beside", &member))
        return json_fail(&member, "\"beside\" needs \"pin\"");
    return true;
}

typedef struct ChoiceRead {
    LessonChoice choice;
    bool right;
} ChoiceRead;

static bool choices_parse(const Json *root, Lesson *lesson)
{
    /* the choice comes first in a ChoiceRead, so its fields' places hold there too */
    enum { FIELDS = sizeof CHOICE_FIELDS / sizeof *CHOICE_FIELDS };
    JsonField fields[FIELDS + 1] = {{"right", JSON_BOOL, JSON_AT(ChoiceRead, right)}};
    memcpy(fields + 1, CHOICE_FIELDS, sizeof CHOICE_FIELDS);
    Json array, item;
    if (!json_member(root, "choices", &array) ||
        json_count(&array, 2, LESSON_CHOICES_MAX, "choices") < 0)
        return false;
    lesson->choice_right = -1;
    for (bool more = json_first(&array, &item); more; more = json_next(&item)) {
        ChoiceRead read = {0};
        if (!json_object(&item, fields, &read) || !choice_fits(&item, lesson, &read.choice) ||
            !words_sound(&item, "say", read.choice.say) ||
            !words_sound(&item, "does", read.choice.does))
            return false;
        if (read.right && lesson->choice_right >= 0)
            return json_fail(&item, "found a second right choice; allowed: one");
        if (read.right)
            lesson->choice_right = lesson->choice_count;
        lesson->choices[lesson->choice_count++] = read.choice;
    }
    return lesson->choice_right >= 0 ||
           json_fail(&array, "found no right choice; one has \"right\": true");
}

static bool claim_parse(const Json *root, Lesson *lesson)
{
    Json claim, count;
    if (!json_member(root, "claim", &claim))
        return json_fail(root, "missing key \"claim\"");
    if (!json_object(&claim, CLAIM_FIELDS, lesson))
        return false;
    bool spare = lesson->kind == LESSON_SPARE_BALL;
    return (lesson->count == COUNT_SPARE) == spare || !json_member(&claim, "count", &count) ||
           json_fail(&count, "found \"%s\"; allowed %s", COUNT_NAMES[lesson->count],
                     spare ? "in a spare lesson: spare" : "without \"left\": not spare");
}

static bool score_parse(const Json *value, Lesson *lesson)
{
    char why[ERROR_TEXT_MAX];
    Score score = score_begin();
    Json balls;
    if (!json_object(value, SCORE_FIELDS, lesson) || !json_member(value, "balls", &balls))
        return false;
    if (!score_read(&score, lesson->score, why, sizeof why))
        return json_fail(&balls, "%s", why);
    return true;
}

static bool kind_parse(const Json *root, Lesson *lesson)
{
    Json left, score;
    bool spare = json_member(root, "left", &left), scored = json_member(root, "score", &score);
    if (spare && scored)
        return json_fail(&score, "found both \"left\" and \"score\"; allowed: one of them");
    lesson->kind = spare ? LESSON_SPARE_BALL : scored ? LESSON_SCORE : LESSON_STRIKE_BALL;
    if (scored)
        return score_parse(&score, lesson);
    if (!spare)
        return true;
    return pins_parse(&left, &lesson->left) &&
           (lesson->left || json_fail(&left, "found no pin; allowed: 1 to 10 pins"));
}

/* The lane, and how line and throws differ from what they should be. */
static bool setting_parse(const Json *root, Lesson *lesson)
{
    Json lane, start, today, member;
    if (!json_member(root, "lane", &lane))
        return json_fail(root, "missing key \"lane\"");
    if (!json_object(&lane, LANE_FIELDS, lesson))
        return false;
    if (json_member(&lane, "oil_by", &member) && json_member(&lane, "suits", &member))
        return json_fail(&lane, "found both \"oil_by\" and \"suits\"; allowed: one of them");
    if (json_member(root, "start", &start) && !json_object(&start, START_FIELDS, &lesson->start))
        return false;
    return !json_member(root, "today", &today) || json_object(&today, TODAY_FIELDS, &lesson->today);
}

/* In a score lesson nothing is thrown. */
static bool nothing_thrown(const Json *root)
{
    static const char *const KEYS[] = {"lane", "start", "today",    "steady",
                                       "seed", "shots", "question", "claim"};
    Json member;
    for (size_t i = 0; i < sizeof KEYS / sizeof *KEYS; i++)
        if (json_member(root, KEYS[i], &member))
            return json_fail(&member, "a score lesson has no \"%s\": nothing is thrown in it",
                             KEYS[i]);
    return true;
}

bool lesson_parse(const Json *root, const Loaded *file, Lesson *lesson)
{
    *lesson = (Lesson){.order = LESSON_ORDER_USUAL, .seed = 1, .steady = 1.0};
    text_copy(lesson->id, sizeof lesson->id, file->id);
    if (!json_format(root, "settee-lesson/1") || !json_object(root, ROOT_FIELDS, lesson) ||
        !words_sound(root, "words", lesson->words) || !words_sound(root, "why", lesson->why) ||
        !words_sound(root, "hint", lesson->hint) || !for_parse(root, lesson) ||
        !kind_parse(root, lesson))
        return false;
    if (lesson->kind == LESSON_SCORE)
        return nothing_thrown(root) && choices_parse(root, lesson);
    return setting_parse(root, lesson) && shots_of_lesson(root, lesson) &&
           question_parse(root, lesson) && choices_parse(root, lesson) && claim_parse(root, lesson);
}
