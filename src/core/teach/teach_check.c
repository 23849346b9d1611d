/* teach_check.c - whether the engine bears out what a lesson claims. */
#include <math.h>

#include "core/event/score.h"
#include "core/event/shot.h"
#include "core/pins/rack.h"
#include "core/teach/teach.h"

/* The few throws that are drawn must show at least this much of the claim. */
#define SHOWN_SHARE 0.5
#define LEAVE_LEAST 0.01 /* a leave rarer than that is not what a hit leaves */

/* What is shown is so: the right answer's word is true of the shots, the others' are not. */
static bool answers_hold(const TeachScene *scene, Error *error)
{
    const Lesson *lesson = scene->lesson;
    for (int i = 0; i < lesson->answer_count; i++) {
        const LessonAnswer *answer = &lesson->answers[i];
        bool right = i == lesson->answer_right;
        if (answer->is != SAW_UNSAID && teach_saw(scene, answer->is) != right)
            return error_set(error, "answer %d, \"%s\": the shots are %s%s", i + 1, answer->say,
                             right ? "not " : "", SAW_NAMES[answer->is]);
    }
    return true;
}

/* A leave that a shot is said to leave is one that such a hit does leave. */
static bool leaves_hold(const TeachScene *scene, Error *error)
{
    const Lesson *lesson = scene->lesson;
    const Ball *ball = bag_slot(scene->bag, scene->plan.slot);
    for (int i = 0; i < lesson->shot_count; i++) {
        if (!lesson->shots[i].left_said)
            continue;
        TeachShot shot;
        teach_shot(scene, i, &shot);
        const Roll *roll = &shot.roll;
        double chance = roll->gutter
                            ? 0.0
                            : rack_leave_chance(shot.left, roll->entry_board, roll->entry_deg,
                                                roll->entry_mph, ball->pounds);
        if (chance < LEAVE_LEAST)
            return error_set(error,
                             "shot %d: a ball that hits board %.1f leaves that %.1f times in 100 "
                             "racks; at least %.0f is asked for",
                             i + 1, roll->entry_board, 100.0 * chance, 100.0 * LEAVE_LEAST);
    }
    return true;
}

/* The right choice against the best of the others. */
static double margin_of(const Lesson *lesson, const double *points)
{
    double other = -INFINITY;
    for (int i = 0; i < lesson->choice_count; i++)
        if (i != lesson->choice_right)
            other = fmax(other, points[i]);
    return points[lesson->choice_right] - other;
}

static bool score_holds(const Lesson *lesson, TeachCheck *check, Error *error)
{
    char why[ERROR_TEXT_MAX];
    Score score = score_begin();
    if (!score_read(&score, lesson->score, why, sizeof why))
        return error_set(error, "the score: %s", why);
    ScoreNeed need = score_need(&score, lesson->target);
    int said = lesson->choices[lesson->choice_right].marks;
    if (!need.possible)
        return error_set(error, "%d can't be reached any more", lesson->target);
    if (need.marks != said)
        return error_set(error, "%d needs %d marks; the lesson says %d", lesson->target, need.marks,
                         said);
    for (int i = 0; i < lesson->choice_count; i++)
        check->points[i] = check->shown_points[i] = i == lesson->choice_right ? 100.0 : 0.0;
    return true;
}

bool teach_check(const TeachScene *scene, TeachCheck *check, Error *error)
{
    const Lesson *lesson = scene->lesson;
    *check = (TeachCheck){0};
    if (!answers_hold(scene, error) || !leaves_hold(scene, error))
        return false;
    if (lesson->kind == LESSON_SCORE) {
        check->holds = score_holds(lesson, check, error);
        return check->holds;
    }
    for (int i = 0; i < lesson->choice_count; i++) {
        check->points[i] = teach_throws(scene, i, TEACH_THROWS, NULL);
        check->shown_points[i] = teach_throws(scene, i, TEACH_SHOWN, NULL);
    }
    check->margin = margin_of(lesson, check->points);
    check->shown_margin = margin_of(lesson, check->shown_points);
    check->holds =
        check->margin >= lesson->points && check->shown_margin >= SHOWN_SHARE * lesson->points;
    if (!check->holds)
        error_set(error,
                  "the right choice is worth %.0f points more than any other over %d throws and "
                  "%.0f over the %d that are shown; the lesson claims %g, and half of it shown",
                  check->margin, TEACH_THROWS, check->shown_margin, TEACH_SHOWN, lesson->points);
    return check->holds;
}
