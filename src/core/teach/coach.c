/* coach.c - who did what, where they hesitate, what to do next. */
#include "core/teach/coach.h"

#include "base/text.h"

typedef void Put(void *context, CoachLine kind, const char *text);

static void levels(const Junior *junior, const Lesson *lessons, int count, Put *put, void *context)
{
    put(context, COACH_HEAD, "level                               finished  at once  question");
    for (int level = 1; level <= LESSON_LEVELS; level++) {
        char row[128] = "";
        int all = 0, once = 0;
        for (int i = 0; i < count; i++) {
            bool at_once;
            if (lessons[i].level != level)
                continue;
            all++;
            once += junior_did(junior, lessons[i].id, &at_once) && at_once;
        }
        text_append(row, sizeof row, "%d  %-32s %2d of %2d  %7d  %s", level,
                    LESSON_LEVEL_NAMES[level - 1], junior_finished(junior, lessons, count, level),
                    all, once, junior_passed(junior, level) ? "right" : "not yet");
        put(context, COACH_ROW, row);
    }
}

static void skills(const Junior *junior, Put *put, void *context)
{
    SkillTally tally[SKILL_COUNT];
    junior_tally(junior, tally);
    put(context, COACH_HEAD,
        "skill                finished  at once  looked wrong  chose wrong  hints");
    for (int i = 0; i < SKILL_COUNT; i++) {
        const SkillTally *of = &tally[i];
        char row[128] = "";
        if (of->plays == 0)
            continue;
        text_append(row, sizeof row, "%-21s %7d  %7d  %12d  %11d  %5d", SKILL_WORDS[i], of->plays,
                    of->at_once, of->looked_wrong, of->chose_wrong, of->hints);
        put(context, COACH_ROW, row);
    }
}

void coach_page(const Junior *junior, const Lesson *lessons, int count, Put *put, void *context)
{
    char text[256] = "";
    text_append(text, sizeof text, "%s: %s hand, %s", junior->name, HAND_NAMES[junior->hand],
                junior->hook ? "a hook" : "a straight ball");
    put(context, COACH_TITLE, text);
    put(context, COACH_ROW, "");
    levels(junior, lessons, count, put, context);
    put(context, COACH_ROW, "");
    if (junior->play_count > 0) {
        skills(junior, put, context);
        put(context, COACH_ROW, "");
    }
    NextStep next = junior_next(junior, lessons, count);
    text[0] = '\0';
    if (next.lesson >= 0)
        text_append(text, sizeof text, "Next: \"%s\" (%s), level %d: %s.",
                    lessons[next.lesson].name, lessons[next.lesson].id, next.level, next.why);
    else
        text_append(text, sizeof text, "Next: the question of level %d: %s.", next.level, next.why);
    put(context, COACH_SENTENCE, text);
}
