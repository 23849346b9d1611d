/* rules.c - when a rule fires. */
#include "core/advice/rules.h"

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
