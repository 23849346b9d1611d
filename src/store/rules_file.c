/* rules_file.c - settee-rules/1: the advice rules as text. */
#include <stdio.h>
#include <string.h>

#include "store/load.h"

static const JsonField ROOT_FIELDS[] = {
    {"format", JSON_OTHER, .required = true}, {"rules", JSON_OTHER, .required = true}, JSON_END};

static const JsonField RULE_FIELDS[] = {
    {"id", JSON_ID, .required = true, JSON_AT(Rule, id)},
    {"when", JSON_OTHER, .required = true},
    {.key = "unless"},
    {"try", JSON_OTHER, .required = true},
    {.key = "avoid"},
    {"weight", JSON_INTEGER, .required = true, JSON_AT(Rule, weight), .min = 1, .max = 5},
    {"because", JSON_TEXT, .required = true, JSON_AT(Rule, because)},
    {"source", JSON_TEXT, .required = true, JSON_AT(Rule, source)},
    JSON_END};

/* A list of words of a rule, as places in the table of their names. */
typedef struct WordList {
    const char *key, *of; /* "try", "action" */
    const char *const *names;
    int min, max; /* how many there may be */
    int count, place[RULE_ADJUSTMENTS_MAX];
} WordList;
_Static_assert((int)RULE_SIGNS_MAX <= (int)RULE_ADJUSTMENTS_MAX, "a list holds either");

static bool has_word(const WordList *list, int place)
{
    bool has = false;
    for (int i = 0; i < list->count; i++)
        has = has || list->place[i] == place;
    return has;
}

/* Reads a list that may be left out. No word may be there twice, or in `other` (NULL: none). */
static bool words_parse(const Json *rule, WordList *list, const WordList *other)
{
    const JsonField field = {.kind = JSON_WORD, .of = list->of, .words = list->names};
    Json array, item;
    char plural[16];
    snprintf(plural, sizeof plural, "%ss", list->of);
    if (!json_member(rule, list->key, &array))
        return true;
    if (json_count(&array, list->min, list->max, plural) < 0)
        return false;
    for (bool more = json_first(&array, &item); more; more = json_next(&item)) {
        int place;
        if (!json_value(&item, &field, &place))
            return false;
        if (has_word(list, place))
            return json_fail(&item, "found \"%s\" twice in \"%s\"", list->names[place], list->key);
        if (other && has_word(other, place))
            return json_fail(&item, "found \"%s\" in \"%s\" and in \"%s\"; allowed: one of them",
                             list->names[place], other->key, list->key);
        list->place[list->count++] = place;
    }
    return true;
}

static void take_signs(const WordList *list, Sign *out, int *count)
{
    for (*count = 0; *count < list->count; ++*count)
        out[*count] = (Sign)list->place[*count];
}

static void take_actions(const WordList *list, AdjustmentKind *out, int *count)
{
    for (*count = 0; *count < list->count; ++*count)
        out[*count] = (AdjustmentKind)list->place[*count];
}

static bool rule_parse(const Json *value, Rule *rule)
{
    WordList when = {"when", "sign", SIGN_NAMES, .min = 1, .max = RULE_SIGNS_MAX};
    WordList unless = {"unless", "sign", SIGN_NAMES, .max = RULE_SIGNS_MAX};
    WordList tried = {"try", "action", ADJUST_NAMES, .min = 1, .max = RULE_ADJUSTMENTS_MAX};
    WordList avoid = {"avoid", "action", ADJUST_NAMES, .max = RULE_ADJUSTMENTS_MAX};
    *rule = (Rule){0};
    if (!json_object(value, RULE_FIELDS, rule) || !words_parse(value, &when, NULL) ||
        !words_parse(value, &unless, &when) || !words_parse(value, &tried, NULL) ||
        !words_parse(value, &avoid, &tried))
        return false;
    take_signs(&when, rule->when, &rule->when_count);
    take_signs(&unless, rule->unless, &rule->unless_count);
    take_actions(&tried, rule->try_, &rule->try_count);
    take_actions(&avoid, rule->avoid, &rule->avoid_count);
    return true;
}

bool rules_parse(const Json *root, RuleSet *rules)
{
    Json array, item, id;
    rules->count = 0;
    if (!json_format(root, "settee-rules/1") || !json_object(root, ROOT_FIELDS, NULL) ||
        !json_member(root, "rules", &array) || json_count(&array, 1, RULES_MAX, "rules") < 0)
        return false;
    for (bool more = json_first(&array, &item); more; more = json_next(&item)) {
        Rule *rule = &rules->rules[rules->count];
        if (!rule_parse(&item, rule))
            return false;
        for (int i = 0; i < rules->count; i++)
            if (strcmp(rules->rules[i].id, rule->id) == 0 && json_member(&item, "id", &id))
                return json_fail(&id, "found the id \"%s\" a second time; $.rules[%d] has it",
                                 rule->id, i);
        rules->count++;
    }
    return true;
}
