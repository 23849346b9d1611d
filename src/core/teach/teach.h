/* teach.h - what a lesson's shots and choices do for one reader, by the engine: the line is the
 * reader's own, the fault is the lesson's, and every choice is rolled with the same throws of the
 * reader's scatter, so that choices are compared and not their luck.
 *
 * Pure and deterministic. Everything is in the reader's own frame, pins too (lane.h). */
#ifndef SETTEE_CORE_TEACH_TEACH_H
#define SETTEE_CORE_TEACH_TEACH_H

#include "base/error.h"
#include "core/lane/oil.h"
#include "core/line/line.h"
#include "core/motion/batch.h"
#include "core/teach/lesson.h"

enum {
    TEACH_SHOWN = 30,  /* throws of a choice that are drawn */
    TEACH_THROWS = 300 /* throws by which a claim is checked */
};

/* The bowler and balls a lesson is written for: a junior whose ball goes straight, or a league
 * bowler with a hook and three strike balls (preset.h). */
void teach_own_bag(bool hook, Hand hand, Bag *bag);

/* Whether the bag's bowler throws a hook: by the same measure as a ball that "makes a move". */
bool teach_hooks(const Bag *bag);

typedef struct TeachInput {
    const Lesson *lesson;
    const Bag *bag;                   /* the reader's; lesson and bag must outlive the scene */
    const Pattern *pattern, *learned; /* as the lesson names them; of no use to a score lesson */
} TeachInput;

/* A lesson made ready for one reader: the caller's storage, large. */
typedef struct TeachScene {
    const Lesson *lesson;
    const Bag *bag;
    Oil oil;   /* the lane as it is */
    Line line; /* the good line, on the lane it was found on */
    Plan plan; /* what the shots were meant to be */
    Plan choice[LESSON_CHOICES_MAX];
    BatchOil batch_oil;
    Bowler bowler; /* whose scatter the throws have */
} TeachScene;

/* False: this bag can't show the lesson; `error` says why. Takes some 50 ms at most. */
bool teach_scene(const TeachInput *input, TeachScene *scene, Error *error);

/* One of the lesson's shots, its path, and what it leaves standing: unless the lesson says that,
 * all fall in the pocket, and elsewhere the commonest leave stands. */
typedef struct TeachShot {
    Delivery delivery;
    Roll roll;
    Pins left;
} TeachShot;
void teach_shot(const TeachScene *scene, int shot, TeachShot *out);

/* What the shots did, where the engine can tell: whether it is so of all of them. */
bool teach_saw(const TeachScene *scene, Saw saw);

/* One throw of a choice. */
typedef struct TeachBall {
    float board, degrees, mph; /* at the head pin; NAN in the gutter */
    bool gutter, good;         /* good: what the lesson counts happened */
    Pins left;
} TeachBall;

/* The first `count` throws of a choice; returns the mean of what is counted, in points of 100.
 * `balls` may be NULL. At most TEACH_THROWS. */
double teach_throws(const TeachScene *scene, int choice, int count, TeachBall *balls);

/* The path of the same throw; what is drawn. */
void teach_path(const TeachScene *scene, int choice, int nth, Roll *roll);

/* What the engine makes of a lesson's claim. */
typedef struct TeachCheck {
    bool holds;
    double points[LESSON_CHOICES_MAX];       /* by TEACH_THROWS throws */
    double shown_points[LESSON_CHOICES_MAX]; /* by those that are drawn */
    double margin, shown_margin;             /* the right choice against the best of the others */
} TeachCheck;

/* `error` says what doesn't hold. */
bool teach_check(const TeachScene *scene, TeachCheck *check, Error *error);

#endif
