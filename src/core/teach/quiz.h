/* quiz.h - the question at the end of a level, drawn fresh by seed: a lesson of its own that is on
 * no file, so that it can't be learnt by heart. */
#ifndef SETTEE_CORE_TEACH_QUIZ_H
#define SETTEE_CORE_TEACH_QUIZ_H

#include <stdint.h>

#include "core/teach/lesson.h"

#define QUIZ_ID "question"

/* A question of that level for a reader who throws a hook or a straight ball. Its patterns are
 * built-in ones. Not every question suits every bag: check it (teach_check), and draw with the next
 * seed if it doesn't hold; at most one in five draws does not. */
void quiz_draw(int level, bool hook, uint64_t seed, Lesson *out);

#endif
