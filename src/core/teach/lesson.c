/* lesson.c - the names of a lesson's parts, and its words for either hand. */
#include "core/teach/lesson.h"

#include <string.h>

#include "base/text.h"

const char *const LESSON_LEVEL_NAMES[LESSON_LEVELS + 1] = {
    "Boards and arrows",    "Move toward the miss",           "Skid, hook, roll",
    "My miss or the lane?", "Spares, and what a score needs", NULL};

const char *const SKILL_NAMES[SKILL_COUNT + 1] = {"aim",  "feet", "speed",  "read",  "pins", "ball",
                                                  "miss", "lane", "spares", "score", NULL};
const char *const SKILL_WORDS[SKILL_COUNT] = {
    "where to aim",     "where to stand",    "ball speed",          "reading the hook",
    "reading the pins", "which ball",        "my miss or the lane", "the lane changes",
    "spares",           "what a score needs"};

const char *const LESSON_BALL_NAMES[5] = {"strong", "middle", "weak", "spare", NULL};
const char *const SAW_NAMES[SAW_COUNT + 1] = {"",      "gutter", "light", "pocket", "high", "mixed",
                                              "early", "late",   "slow",  "fast",   NULL};
const char *const COUNT_NAMES[COUNT_COUNT + 1] = {"pocket", "near-pocket", "head-pin", "pins",
                                                  "strike", "spare",       NULL};

const char *const LESSON_CAUTION_NAMES[LESSON_CAUTION_COUNT + 1] = {
#define LESSON_CAUTION(id, name, words) name,
#include "core/teach/lesson_cautions.def"
#undef LESSON_CAUTION
};
const char *const LESSON_CAUTION_WORDS[LESSON_CAUTION_COUNT] = {
#define LESSON_CAUTION(id, name, words) words,
#include "core/teach/lesson_cautions.def"
#undef LESSON_CAUTION
};

bool lesson_before(const Lesson *a, const Lesson *b)
{
    if (a->level != b->level)
        return a->level < b->level;
    return a->order != b->order ? a->order < b->order : strcmp(a->name, b->name) < 0;
}

void lessons_sort(Lesson *lessons, int count)
{
    for (int i = 1; i < count; i++) {
        Lesson lesson = lessons[i];
        int at = i;
        for (; at > 0 && lesson_before(&lesson, &lessons[at - 1]); at--)
            lessons[at] = lessons[at - 1];
        lessons[at] = lesson;
    }
}

/* The pin of "{pin 10}"; 0: it is none. */
static int pin_of(const char *brace)
{
    int pin = 0;
    const char *at = brace + strlen("{pin ");
    for (; *at >= '0' && *at <= '9' && pin < 100; at++)
        pin = 10 * pin + (*at - '0');
    return *at == '}' && pin <= 10 ? pin : 0;
}

/* What a brace stands for, appended to `out`; returns its length, 0: it means nothing. */
static size_t brace(const char *at, Hand hand, char *out, size_t size)
{
    static const char *const WORDS[2][2] = {{"{in}", "{out}"}, {"left", "right"}};
    for (int i = 0; i < 2; i++)
        if (strncmp(at, WORDS[0][i], strlen(WORDS[0][i])) == 0) {
            text_append(out, size, "%s", WORDS[1][hand == HAND_RIGHT ? i : 1 - i]);
            return strlen(WORDS[0][i]);
        }
    int pin = strncmp(at, "{pin ", 5) == 0 ? pin_of(at) : 0;
    if (pin == 0)
        return 0;
    Pins pins = hand == HAND_RIGHT ? pin_bit(pin) : lane_mirror_pins(pin_bit(pin));
    lane_pins_words(pins, "-", out, size);
    size_t length = 0;
    while (at[length++] != '}')
        ;
    return length;
}

bool lesson_say(const char *text, Hand hand, char *out, size_t size)
{
    out[0] = '\0';
    while (*text) {
        size_t length = 0;
        while (text[length] && text[length] != '{' && text[length] != '}')
            length++;
        text_append(out, size, "%.*s", (int)length, text);
        text += length;
        length = *text ? brace(text, hand, out, size) : 0;
        if (*text && length == 0)
            return false;
        text += length;
    }
    return true;
}
