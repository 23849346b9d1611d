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

/* Signs and actions are both enums, read as numbers. */
_Static_assert(sizeof(Sign) == sizeof(int) && sizeof(AdjustmentKind) == sizeof(int),
               "enums are ints");

static int place_of(const int *list, int count, int wanted)
{
    for (int i = 0; i < count; i++)
        if (list[i] == wanted)
            return i;
    return -1;
}

/* Reads an array of words into `list`. None may be there twice, or in `other`. */
static bool words_parse(const Json *rule, const char *key, const char *of, const char *const *words,
                        int min, int max, int *list, int *count, const int *other, int other_count,
                        const char *other_key)
{
    const JsonField field = {.kind = JSON_WORD, .of = of, .words = words};
    Json array, item;
    char plural[16];
    snprintf(plural, sizeof plural, "%ss", of);
    *count = 0;
    if (!json_member(rule, key, &array))
        return true;
    if (json_count(&array, min, max, plural) < 0)
        return false;
    for (bool more = json_first(&array, &item); more; more = json_next(&item)) {
        int index;
        if (!json_value(&item, &field, &index))
            return false;
        if (place_of(list, *count, index) >= 0)
            return json_fail(&item, "found \"%s\" twice in \"%s\"", words[index], key);
        if (place_of(other, other_count, index) >= 0)
            return json_fail(&item, "found \"%s\" in \"%s\" and in \"%s\"; allowed: one of them",
                             words[index], other_key, key);
        list[(*count)++] = index;
    }
    return true;
}

static bool rule_parse(const Json *value, Rule *rule)
{
    int when[RULE_SIGNS_MAX], unless[RULE_SIGNS_MAX], tried[RULE_ADJUSTMENTS_MAX],
        avoid[RULE_ADJUSTMENTS_MAX];
    *rule = (Rule){0};
    if (!json_object(value, RULE_FIELDS, rule) ||
        !words_parse(value, "when", "sign", SIGN_NAMES, 1, RULE_SIGNS_MAX, when, &rule->when_count,
                     NULL, 0, NULL) ||
        !words_parse(value, "unless", "sign", SIGN_NAMES, 0, RULE_SIGNS_MAX, unless,
                     &rule->unless_count, when, rule->when_count, "when") ||
        !words_parse(value, "try", "action", ADJUST_NAMES, 1, RULE_ADJUSTMENTS_MAX, tried,
                     &rule->try_count, NULL, 0, NULL) ||
        !words_parse(value, "avoid", "action", ADJUST_NAMES, 0, RULE_ADJUSTMENTS_MAX, avoid,
                     &rule->avoid_count, tried, rule->try_count, "try"))
        return false;
    for (int i = 0; i < rule->when_count; i++)
        rule->when[i] = (Sign)when[i];
    for (int i = 0; i < rule->unless_count; i++)
        rule->unless[i] = (Sign)unless[i];
    for (int i = 0; i < rule->try_count; i++)
        rule->try_[i] = (AdjustmentKind)tried[i];
    for (int i = 0; i < rule->avoid_count; i++)
        rule->avoid[i] = (AdjustmentKind)avoid[i];
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
