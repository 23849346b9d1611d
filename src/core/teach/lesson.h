/* lesson.h - a lesson as a coach writes it down (settee-lesson/1, docs/teach.md): what is set up,
 * what rolls, what is asked, what may be changed, and what the lesson claims of it.
 *
 * Boards of a change are + in, toward the bowler's other side, as everywhere. Pins are numbered as
 * a right-hander sees them. Texts may hold {in}, {out} and {pin N}, which lesson_say replaces for
 * the reader's hand. */
#ifndef SETTEE_CORE_TEACH_LESSON_H
#define SETTEE_CORE_TEACH_LESSON_H

#include "core/bag/bag.h"

enum {
    LESSON_LEVELS = 5,
    LESSON_SHOTS_MAX = 3,
    LESSON_ANSWERS_MAX = 4,
    LESSON_CHOICES_MAX = 4,
    LESSON_TEXT_MAX = 480,
    LESSON_TARGET_MAX = 300,
    LESSON_ORDER_USUAL = 50
};

/* Names as in files; index = enum value; NULL ends each. */
extern const char *const LESSON_LEVEL_NAMES[LESSON_LEVELS + 1]; /* titles; [0] is level 1 */

typedef enum Skill {
    SKILL_AIM,
    SKILL_FEET,
    SKILL_SPEED,
    SKILL_READ,
    SKILL_PINS,
    SKILL_BALL,
    SKILL_MISS,
    SKILL_LANE,
    SKILL_SPARES,
    SKILL_SCORE,
    SKILL_COUNT
} Skill;
extern const char *const SKILL_NAMES[SKILL_COUNT + 1];
extern const char *const SKILL_WORDS[SKILL_COUNT]; /* for a coach: "where to aim" */

/* Which ball of the bag, by strength.h; spare: the straightest. */
typedef enum LessonBall { LESSON_STRONG, LESSON_MIDDLE, LESSON_WEAK, LESSON_SPARE } LessonBall;
extern const char *const LESSON_BALL_NAMES[5];

/* What a ball did, where the engine can tell: a question's answer may name it. */
typedef enum Saw {
    SAW_UNSAID, /* the coach's own words: nobody checks them */
    SAW_GUTTER,
    SAW_LIGHT, /* short of the pocket on the bowler's own side, the gutter too */
    SAW_POCKET,
    SAW_HIGH,  /* past the pocket */
    SAW_MIXED, /* the shots did not all hit alike */
    SAW_EARLY, /* made its move at least a foot sooner than on the lane the line was found on */
    SAW_LATE,
    SAW_SLOW, /* at least half a mile an hour under what was meant */
    SAW_FAST,
    SAW_COUNT
} Saw;
extern const char *const SAW_NAMES[SAW_COUNT + 1]; /* entry 0 is "" */

/* What is counted over the throws. */
typedef enum Count {
    COUNT_POCKET,
    COUNT_NEAR,     /* within LESSON_NEAR_BOARDS of the pocket's middle: for a wide scatter */
    COUNT_HEAD_PIN, /* the ball touches it */
    COUNT_PINS,     /* mean pins of the first ball, a point for a tenth of a pin */
    COUNT_STRIKE,   /* the rack's chance of it */
    COUNT_SPARE,    /* all that was left falls; spare lessons only */
    COUNT_COUNT
} Count;
#define LESSON_NEAR_BOARDS 3.0
extern const char *const COUNT_NAMES[COUNT_COUNT + 1];

/* Where work on the lane can hurt somebody: one fixed sentence each. */
typedef enum LessonCaution {
#define LESSON_CAUTION(id, name, words) LESSON_CAUTION_##id,
#include "core/teach/lesson_cautions.def"
#undef LESSON_CAUTION
    LESSON_CAUTION_COUNT
} LessonCaution;
extern const char *const LESSON_CAUTION_NAMES[LESSON_CAUTION_COUNT + 1]; /* entry 0 is "" */
extern const char *const LESSON_CAUTION_WORDS[LESSON_CAUTION_COUNT];     /* "" for none */

/* A change of the plan. */
typedef struct LessonChange {
    double feet, eyes; /* boards in */
    double mph, loft_ft, rotation_deg;
    int ball; /* places toward the weak end of the bag */
} LessonChange;

/* How a throw differs from what was meant. */
typedef struct LessonThrow {
    double laydown, aim; /* boards in; aim at the arrows */
    double mph, rpm;
    bool left_said; /* whether `left` is what the shot leaves; else the rack says */
    Pins left;      /* 0: a strike */
} LessonThrow;

typedef struct LessonAnswer {
    char say[96];
    Saw is;
} LessonAnswer;

typedef struct LessonChoice {
    char say[96];
    char does[200]; /* what it does, in words; may be empty */
    LessonChange change;
    int pin;       /* spare lessons: the straight ball at this pin; 0: the plan, changed */
    double beside; /* and that many boards in of its middle */
    int marks;     /* score lessons */
} LessonChoice;

typedef enum LessonKind { LESSON_STRIKE_BALL, LESSON_SPARE_BALL, LESSON_SCORE } LessonKind;

typedef struct Lesson {
    char id[32]; /* file name without its ending */
    char name[64];
    int level; /* 1..LESSON_LEVELS */
    int order; /* among the lessons of its level, 1..99; LESSON_ORDER_USUAL if not given */
    Skill skill;
    char words[LESSON_TEXT_MAX];
    bool straight, hook; /* which balls it holds for; at least one */

    LessonKind kind;  /* by what is given: "left", "score" or neither */
    char pattern[64]; /* the lane as it is; a name or path, as files.h takes it */
    char learned[64]; /* the lane the line was found on, fresh; "": `pattern` */
    double oil_by;    /* less oil (+) or more (-): a good ball hits that many boards higher */
    int suits;        /* or so that the ball that many places weaker fits the line; 0: not said */
    double worn_by;   /* and balls thrown before: it hits that many higher still */
    LessonBall ball;
    double over;        /* the board at the arrows the line goes over; 0: the best line */
    double steady;      /* times the reader's scatter, 0..1, so that a difference shows; 1 */
    LessonChange start; /* how the plan at the start differs from that line; `ball` is 0 */
    LessonThrow today;  /* how every throw differs from its plan */
    Pins left;          /* spare lessons: what stands */
    char score[64];     /* score lessons: the balls so far, as score_read takes them */
    int target;
    int seed; /* of the throws that are shown */

    int shot_count;
    LessonThrow shots[LESSON_SHOTS_MAX];
    char ask[120];
    int answer_count, answer_right; /* index */
    LessonAnswer answers[LESSON_ANSWERS_MAX];
    int choice_count, choice_right;
    LessonChoice choices[LESSON_CHOICES_MAX];
    char why[LESSON_TEXT_MAX];
    char hint[200];
    LessonCaution caution;
    Count count;
    double points; /* of 100: how much more the right choice gains than any other */
} Lesson;

/* By level, then order, then name. */
bool lesson_before(const Lesson *a, const Lesson *b);
void lessons_sort(Lesson *lessons, int count);

/* Replaces {in}, {out} and {pin N} for that hand. False: the text has another brace; `out` then
 * holds what came before it. */
bool lesson_say(const char *text, Hand hand, char *out, size_t size);

#endif
