/* quiz.c - draws a fault, and the choices that answer it or don't. */
#include "core/teach/quiz.h"

#include <math.h>

#include "base/rng.h"
#include "base/text.h"
#include "core/spare/spare_hits.h"

static int draw_to(Rng *rng, int count) { return (int)(rng_next(rng) % (uint64_t)count); }
static int draw_sign(Rng *rng) { return draw_to(rng, 2) ? 1 : -1; }
static const char *way(double boards) { return boards > 0.0 ? "{in}" : "{out}"; }

static void add(Lesson *lesson, bool right, LessonChange change, const char *say)
{
    LessonChoice *choice = &lesson->choices[lesson->choice_count];
    *choice = (LessonChoice){.change = change};
    text_copy(choice->say, sizeof choice->say, say);
    if (right)
        lesson->choice_right = lesson->choice_count;
    lesson->choice_count++;
}

/* "Feet 3 {in}", "Feet 2 {in}, eyes 1 {in}", "Hold". */
static void add_move(Lesson *lesson, bool right, double feet, double eyes)
{
    char say[96] = "";
    if (feet != 0.0)
        text_append(say, sizeof say, "Feet %g %s%s", fabs(feet), way(feet),
                    eyes != 0.0 ? ", " : "");
    if (eyes != 0.0)
        text_append(say, sizeof say, "%s %g %s", feet != 0.0 ? "eyes" : "Eyes", fabs(eyes),
                    way(eyes));
    add(lesson, right, (LessonChange){.feet = feet, .eyes = eyes}, say[0] ? say : "Hold");
}

static void add_answer(Lesson *lesson, bool right, Saw is, const char *say)
{
    LessonAnswer *answer = &lesson->answers[lesson->answer_count];
    *answer = (LessonAnswer){.is = is};
    text_copy(answer->say, sizeof answer->say, say);
    if (right)
        lesson->answer_right = lesson->answer_count;
    lesson->answer_count++;
}

static void ask_where(Lesson *lesson, bool high)
{
    text_copy(lesson->ask, sizeof lesson->ask, "Where did the ball go?");
    add_answer(lesson, !high, SAW_LIGHT, "On your own side, {out} of the pocket");
    add_answer(lesson, false, SAW_POCKET, "In the pocket");
    add_answer(lesson, high, SAW_HIGH, "Past the pocket, too far {in}");
}

static void say(Lesson *lesson, const char *words, const char *hint, const char *why)
{
    text_copy(lesson->words, sizeof lesson->words, words);
    text_copy(lesson->hint, sizeof lesson->hint, hint);
    text_copy(lesson->why, sizeof lesson->why, why);
}

#define TOWARD                                                                                     \
    "Feet go toward the miss, eyes away from it. One board of feet is three at the pins, one "     \
    "board "                                                                                       \
    "of eyes is four."

/* Feet or eyes that are off by a few boards. */
static void draw_spot(Lesson *lesson, Rng *rng)
{
    int sign = draw_sign(rng);
    bool eyes = draw_to(rng, 2);
    double off = sign * (eyes ? 1 + draw_to(rng, 2) : 2 + draw_to(rng, 3));
    lesson->skill = eyes ? SKILL_AIM : SKILL_FEET;
    lesson->steady = 0.7;
    lesson->start = eyes ? (LessonChange){.eyes = off} : (LessonChange){.feet = off};
    say(lesson, "Somebody stands or aims not quite right, and rolls it just as they mean to.",
        "Feet toward the miss, eyes away from it.", TOWARD);
    ask_where(lesson, eyes ? sign > 0 : sign < 0);
    add_move(lesson, true, eyes ? 0.0 : -off, eyes ? -off : 0.0);
    add_move(lesson, false, eyes ? 0.0 : off, eyes ? off : 0.0);
    add_move(lesson, false, eyes ? -off : 0.0, eyes ? 0.0 : -off);
    add_move(lesson, false, 0.0, 0.0);
}

static void draw_speed(Lesson *lesson, Rng *rng)
{
    int sign = draw_sign(rng);
    lesson->skill = SKILL_SPEED;
    lesson->today.mph = 1.5 * sign;
    lesson->over = 0.0;
    text_copy(lesson->pattern, sizeof lesson->pattern, "apron");
    say(lesson,
        sign > 0 ? "Every ball is a mile and a half an hour faster than usual."
                 : "Every ball is a mile and a half an hour slower than usual.",
        "What has the ball more time for when it is slow?",
        "A slow ball has more time to hook, a fast one less. Find your own speed again, with your "
        "legs.");
    ask_where(lesson, sign < 0);
    add(lesson, true, (LessonChange){.mph = -1.5 * sign}, "Find your own speed again");
    add(lesson, false, (LessonChange){.mph = 1.0 * sign},
        sign > 0 ? "Faster still" : "Slower still");
    add(lesson, false, (LessonChange){0}, "Keep going");
}

/* A lane with less oil, or more. */
static void draw_oil(Lesson *lesson, Rng *rng)
{
    bool dry = draw_to(rng, 2);
    lesson->skill = SKILL_READ;
    lesson->steady = 0.6;
    lesson->over = 0.0;
    lesson->oil_by = dry ? 3.0 + 0.5 * draw_to(rng, 3) : -2.0 - 0.25 * draw_to(rng, 3);
    text_copy(lesson->pattern, sizeof lesson->pattern,
              dry && draw_to(rng, 2) ? "apron" : "parlour");
    say(lesson,
        "A good throw, right over the target. But this lane is not quite like the last one.",
        "Less oil makes a ball hook sooner. Where is more of it?",
        "A good throw that goes high wants more oil under it: feet {in}, eyes half as far. One "
        "that "
        "goes light wants less: feet {out}, eyes half as far.");
    ask_where(lesson, dry);
    add_move(lesson, dry, 2.0, 1.0);
    add_move(lesson, !dry, -2.0, -1.0);
    add_move(lesson, false, 0.0, 0.0);
}

/* One bad throw, or three good ones that agree. */
static void draw_whose(Lesson *lesson, bool hook, Rng *rng)
{
    bool mine = draw_to(rng, 2);
    int sign = draw_sign(rng);
    lesson->steady = 0.7;
    lesson->skill = mine ? SKILL_MISS : SKILL_LANE;
    if (mine) {
        double off = sign * (1.5 + 0.5 * draw_to(rng, 3));
        lesson->shots[0].aim = off;
        text_append(lesson->words, sizeof lesson->words,
                    "A good line so far. This ball crossed the arrows %g boards %s of the target.",
                    fabs(off), way(off));
        ask_where(lesson, sign > 0);
        add_move(lesson, true, 0.0, 0.0);
        add_move(lesson, false, 3.0, 0.0);
        add_move(lesson, false, -3.0, 0.0);
    } else {
        lesson->shot_count = 3;
        lesson->shots[1].aim = 0.2;
        lesson->shots[2].aim = -0.2;
        sign = hook ? 1 : sign;
        if (hook) {
            lesson->over = 0.0;
            lesson->worn_by = 3.5 + 0.5 * draw_to(rng, 2);
            text_copy(lesson->pattern, sizeof lesson->pattern, "apron");
        } else {
            lesson->start.feet = -2.0 * sign;
        }
        text_copy(lesson->words, sizeof lesson->words,
                  "Three throws, all over the target, all at the usual speed.");
        ask_where(lesson, sign > 0);
        add_move(lesson, true, 2.0 * sign, hook ? 1.0 : 0.0);
        add_move(lesson, false, -2.0 * sign, hook ? -1.0 : 0.0);
        add_move(lesson, false, 0.0, 0.0);
    }
    text_copy(lesson->hint, sizeof lesson->hint, "Were they good throws?");
    text_copy(lesson->why, sizeof lesson->why,
              "Only good throws tell of the lane. After a bad one, hold. When good ones agree, "
              "move toward the miss.");
}

/* A pin that stands alone, and how far to move the feet for it. */
static void draw_pin(Lesson *lesson, Rng *rng)
{
    static const int PINS[] = {4, 6, 7, 10};
    int pin = PINS[draw_to(rng, 4)];
    double away = spare_pin_board(pin) - LANE_POCKET_BEST, feet = lane_half_board(-away / 3.0);
    lesson->kind = LESSON_SPARE_BALL;
    lesson->skill = SKILL_SPARES;
    lesson->ball = LESSON_SPARE;
    lesson->over = 13.0 + draw_to(rng, 3);
    lesson->left = pin_bit(pin);
    lesson->shot_count = 0;
    lesson->count = COUNT_SPARE;
    lesson->steady = 0.8;
    text_append(lesson->words, sizeof lesson->words,
                "The {pin %d} stands, %.0f boards %s of the pocket. The straightest ball, over the "
                "same arrow.",
                pin, fabs(away), way(away));
    text_copy(lesson->hint, sizeof lesson->hint, "Divide by three. Which way do the feet go?");
    text_copy(lesson->why, sizeof lesson->why,
              "The boards from the pocket to the pin, divided by three, are boards of feet, the "
              "other way.");
    add_move(lesson, true, feet, 0.0);
    add_move(lesson, false, -feet, 0.0);
    add_move(lesson, false, draw_to(rng, 2) ? lane_half_board(feet / 3.0) : 0.0, 0.0);
}

static void shuffle(Lesson *lesson, Rng *rng)
{
    for (int i = lesson->choice_count - 1; i > 0; i--) {
        int with = draw_to(rng, i + 1);
        LessonChoice kept = lesson->choices[i];
        lesson->choices[i] = lesson->choices[with];
        lesson->choices[with] = kept;
        if (lesson->choice_right == i)
            lesson->choice_right = with;
        else if (lesson->choice_right == with)
            lesson->choice_right = i;
    }
}

void quiz_draw(int level, bool hook, uint64_t seed, Lesson *out)
{
    Rng rng = rng_seed(seed * LESSON_LEVELS + (uint64_t)level);
    *out = (Lesson){.id = QUIZ_ID,
                    .level = level,
                    .straight = true,
                    .hook = hook,
                    .pattern = "parlour",
                    .steady = 1.0,
                    .over = 10.0,
                    .seed = 1 + draw_to(&rng, 1000),
                    .shot_count = 1,
                    .count = COUNT_NEAR,
                    .points = 10.0};
    text_append(out->name, sizeof out->name, "Question of level %d", level);
    if (level == 2 && hook && draw_to(&rng, 2))
        draw_speed(out, &rng);
    else if (level <= 2 || (level == 3 && !hook))
        draw_spot(out, &rng);
    else if (level == 3)
        draw_oil(out, &rng);
    else if (level == 4)
        draw_whose(out, hook, &rng);
    else
        draw_pin(out, &rng);
    shuffle(out, &rng);
}
