/* rules.c - names of answers and cautions; when a rule fires. */
#include "core/advice/rules.h"

const char *const ADJUST_NAMES[ADJUST_COUNT + 1] = {
#define ADJUSTMENT(id, name, words) name,
#include "core/advice/adjustments.def"
#undef ADJUSTMENT
    0};

const char *const ADJUST_WORDS[ADJUST_COUNT] = {
#define ADJUSTMENT(id, name, words) words,
#include "core/advice/adjustments.def"
#undef ADJUSTMENT
};

const char *const CAUTION_NAMES[CAUTION_COUNT + 1] = {"",        "loft",   "speed",    "hand",
                                                      "surface", "junior", "approach", 0};

const char *const CAUTION_WORDS[CAUTION_COUNT] = {
    "",
    "Loft: ask what the house allows; a lofted ball can hurt the lane and a back.",
    "Speed from the legs, not the arm; stop at any pain in wrist, elbow, knee or back.",
    "Never force the wrist; stop at pain and ask a certified coach or a physician.",
    "Surface: only when the event's rules allow it; mind the dust; a pro shop does it best.",
    "A junior's ball must be light enough to swing freely; ask a certified coach or pro shop.",
    "Dry your shoes and the approach first: oil or water there can throw you."};

bool rule_fires(const Rule *rule, const Signs *signs)
{
    for (int i = 0; i < rule->when_count; i++)
        if (!signs->seen[rule->when[i]])
            return false;
    for (int i = 0; i < rule->unless_count; i++)
        if (signs->seen[rule->unless[i]])
            return false;
    return true;
}
