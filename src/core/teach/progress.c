/* progress.c - counts over what a junior has done. */
#include "core/teach/progress.h"

#include <string.h>

#include "base/text.h"

bool play_at_once(const Play *play)
{
    return play->looked <= 1 && play->chose == 1 && play->hints == 0;
}

void junior_add_play(Junior *junior, const Play *play)
{
    if (junior->play_count == PLAYS_MAX) {
        memmove(junior->plays, junior->plays + 1, sizeof *junior->plays * (PLAYS_MAX - 1));
        junior->play_count--;
    }
    junior->plays[junior->play_count++] = *play;
}

bool junior_did(const Junior *junior, const char *lesson, bool *at_once)
{
    bool did = false;
    *at_once = false;
    for (int i = 0; i < junior->play_count; i++) {
        const Play *play = &junior->plays[i];
        if (play->fresh || strcmp(play->lesson, lesson) != 0)
            continue;
        did = true;
        *at_once = *at_once || play_at_once(play);
    }
    return did;
}

bool junior_passed(const Junior *junior, int level)
{
    bool passed = false;
    for (int i = 0; i < junior->play_count; i++)
        passed = passed || (junior->plays[i].fresh && junior->plays[i].level == level &&
                            play_at_once(&junior->plays[i]));
    return passed;
}

void junior_tally(const Junior *junior, SkillTally tally[SKILL_COUNT])
{
    memset(tally, 0, sizeof *tally * SKILL_COUNT);
    for (int i = 0; i < junior->play_count; i++) {
        const Play *play = &junior->plays[i];
        SkillTally *of = &tally[play->skill];
        of->plays++;
        of->at_once += play_at_once(play);
        of->looked_wrong += play->looked > 1 ? play->looked - 1 : 0;
        of->chose_wrong += play->chose > 1 ? play->chose - 1 : 0;
        of->hints += play->hints;
    }
}

int junior_finished(const Junior *junior, const Lesson *lessons, int count, int level)
{
    int finished = 0;
    bool at_once;
    for (int i = 0; i < count; i++)
        finished += lessons[i].level == level && junior_did(junior, lessons[i].id, &at_once);
    return finished;
}

static int hesitations(const SkillTally *tally)
{
    return tally->looked_wrong + tally->chose_wrong + tally->hints;
}

/* The skill with the most hesitations for each lesson, if that is one or more; -1: none. */
static int weakest(const SkillTally tally[SKILL_COUNT])
{
    int weak = -1;
    for (int i = 0; i < SKILL_COUNT; i++) {
        const SkillTally *of = &tally[i];
        if (of->plays == 0 || hesitations(of) < of->plays)
            continue;
        if (weak < 0 || hesitations(of) * tally[weak].plays > hesitations(&tally[weak]) * of->plays)
            weak = i;
    }
    return weak;
}

/* A lesson of that skill which has not yet gone right at once, on a level that was begun. */
static int lesson_of(const Junior *junior, const Lesson *lessons, int count, int skill)
{
    for (int i = 0; i < count; i++) {
        bool at_once;
        junior_did(junior, lessons[i].id, &at_once);
        if ((int)lessons[i].skill == skill && !at_once &&
            junior_finished(junior, lessons, count, lessons[i].level) > 0)
            return i;
    }
    return -1;
}

NextStep junior_next(const Junior *junior, const Lesson *lessons, int count)
{
    SkillTally tally[SKILL_COUNT];
    NextStep next = {.lesson = -1, .level = LESSON_LEVELS};
    junior_tally(junior, tally);
    int weak = weakest(tally);
    int practise = weak < 0 ? -1 : lesson_of(junior, lessons, count, weak);
    if (practise >= 0) {
        next = (NextStep){.lesson = practise, .level = lessons[practise].level};
        text_append(next.why, sizeof next.why, "hesitated %d time%s in %d lesson%s about %s",
                    hesitations(&tally[weak]), hesitations(&tally[weak]) == 1 ? "" : "s",
                    tally[weak].plays, tally[weak].plays == 1 ? "" : "s", SKILL_WORDS[weak]);
        return next;
    }
    for (int level = 1; level <= LESSON_LEVELS; level++) {
        for (int i = 0; i < count; i++) {
            bool at_once;
            if (lessons[i].level != level || junior_did(junior, lessons[i].id, &at_once))
                continue;
            next = (NextStep){.lesson = i, .level = level};
            text_append(next.why, sizeof next.why, "it comes next");
            return next;
        }
        if (!junior_passed(junior, level)) {
            next.level = level;
            text_append(next.why, sizeof next.why, "level %d is done but for its question", level);
            return next;
        }
    }
    text_append(next.why, sizeof next.why, "everything is done: a fresh question keeps it fresh");
    return next;
}
