/* progress.h - what juniors have done: a row each time a lesson was finished, and what a coach
 * reads from the rows: where they hesitate, and what to do next. */
#ifndef SETTEE_CORE_TEACH_PROGRESS_H
#define SETTEE_CORE_TEACH_PROGRESS_H

#include "core/teach/lesson.h"

enum { JUNIORS_MAX = 24, PLAYS_MAX = 500 };

/* One lesson, from its first word to the right choice. */
typedef struct Play {
    char lesson[32]; /* its id */
    int level;
    Skill skill;
    bool fresh; /* a level's question rather than a lesson */
    int looked; /* answers given to what the ball did; 1: right at once, 0: not asked */
    int chose;  /* choices tried; 1: right at once */
    int hints;  /* 0 or 1 */
} Play;

typedef struct Junior {
    char name[32];
    Hand hand;
    bool hook; /* throws a hook rather than a straight ball */
    int play_count;
    Play plays[PLAYS_MAX]; /* oldest first */
} Junior;

typedef struct Juniors {
    int count;
    Junior all[JUNIORS_MAX];
} Juniors;

/* Adds one; the oldest goes when there is no room left. */
void junior_add_play(Junior *junior, const Play *play);

/* Whether a lesson was finished, and if so whether it once went right at once. */
bool junior_did(const Junior *junior, const char *lesson, bool *at_once);

/* Whether the question at the end of that level was ever answered at once. */
bool junior_passed(const Junior *junior, int level);

/* Right at once: nothing seen wrong, nothing chosen wrong, no hint. */
bool play_at_once(const Play *play);

/* What one skill took, over all lessons finished. */
typedef struct SkillTally {
    int plays, at_once;
    int looked_wrong, chose_wrong, hints; /* their sum is how often the junior hesitated */
} SkillTally;
void junior_tally(const Junior *junior, SkillTally tally[SKILL_COUNT]);

/* How many of that level's lessons were finished. */
int junior_finished(const Junior *junior, const Lesson *lessons, int count, int level);

/* What to do next: the index of a lesson, or -1 for the question of `level`. */
typedef struct NextStep {
    int lesson, level;
    char why[160];
} NextStep;
NextStep junior_next(const Junior *junior, const Lesson *lessons, int count);

#endif
