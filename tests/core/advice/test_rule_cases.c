/* test_rule_cases.c - the coach's rules on shots as they are bowled: for each row one history on
 * which the rule fires and a near one on which it does not. The judgments are common practice, no
 * source. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/advice/rules.h"
#include "helper_shots.h"
#include "store/files.h"

/* Settings, words: g3 (game, else 2), short (34 ft), alone (one bowler, else 4), urethane, wet (as
 * much oil outside), wide (a league's scatter, else a tournament's), deep (feet on 38). */
typedef struct Row {
    const char *rule;
    const char *setting, *fires;
    const char *other, *silent;
} Row;

static const Row ROWS[] = {
    {"pocket-hold", "", "flush=x flush=x", "", "flush=9 flush=9"},
    {"pocket-last-frames", "f10", "flush=x flush=x", "f10", "flush=10 flush=10"},
    {"flat-tens", "", "flush/o=10 flush/o=10", "", "flush/o=10 flush/o=10*"},
    {"flat-tens-early", "", "flush/e=10 flush/e=10", "", "flush/e=10 flush/o=10"},
    {"flat-tens-late", "", "flush/l=10 flush/l=10", "", "flush/l=10 flush/l=x"},
    {"ringing-tens", "", "flush=10* flush=10*", "", "flush=10* flush=x"},
    {"fours", "", "flush=4 flush=x flush=4", "", "flush=4 flush=4 flush=x"},
    {"nines", "", "flush=9 flush=9", "", "flush=9 light=9"},
    {"sevens", "", "flush=7 flush=7", "", "flush=7 flush=10"},
    {"eight-tens", "", "flush/e=8-10 flush/e=8-10", "", "flush/l=8-10 flush/l=8-10"},
    {"eight-tens-late", "", "flush/l=8-10 flush/l=8-10", "", "flush/e=8-10 flush/e=8-10"},
    {"seven-tens", "", "flush=7-10 flush=7-10", "", "flush=7-10 ?=7-10"},
    {"stone-eights", "", "flush=8 flush=8", "", "flush=8 flush=x"},
    {"double-wood", "", "light=2-8", "", "light=2-4"},
    {"high-leave", "", "?=4-6-7-10", "", "flush=9"},
    {"light-leave", "", "?=8-10", "", "?=7"},
    {"split-high", "", "?=4-6-7-10", "", "?=7-10"},
    {"high-twice", "", "high/o high/o", "wide", "high/o high/o"},
    {"high-twice-own-scatter", "wide", "high/o high/o", "wide", "nose/o nose/o"},
    {"crossed-over-map", "", "crossed/o", "", "crossed/o!inside"},
    {"off-target-nearer", "", "flush wide!outside nose!inside", "", "flush wide!fast nose!inside"},
    {"speed-falling-look-farther", "", "high!slow flush high!slow flush", "", "high!slow flush"},
    {"pocket-once", "", "high flush", "", "flush flush"},
    {"just-changed-watch", "", "high#2 high#2", "", "high#2 flush"},
    {"change-flush-hold", "", "high#2 high#2 flush", "", "flush"},
    {"deep-inside-high", "deep", "high/e high/e", "deep revs", "high/e high/e"},
    {"no-recovery-late", "wet", "light/l", "", "light/l"},
    {"no-recovery-light", "wet", "light/o light/o", "wet", "light/o flush/o"},
    {"no-recovery-wide", "wet", "wide/l", "wet", "wide/l!outside"},
    {"no-recovery-high", "wet", "high/o high/o", "", "high/o high/o"},
    {"short-oil-start", "short", "", "", ""},
    {"short-oil-high", "short", "high/o high/o", "", "high/o high/o"},
    {"short-oil-early", "short", "high/e", "short", "high/l"},
    {"short-oil-swing", "short", "high light light high", "short", "high high light light"},
    {"new-pair-start", "g3", "", "g1", ""},
    {"crowded-early", "", "flush/e flush/e", "alone", "flush/e flush/e"},
    {"crowded-high", "", "high/e", "alone", "high/e"},
    {"urethane-late", "urethane", "light/l", "", "light/l"},
    {"urethane-early", "urethane", "high/e", "urethane", "high/o"},
    {"first-shots-look", "", "flush/o", "", "high/o high/o"},
};

static SignsContext context_of(const char *setting)
{
    char word[64];
    SignsContext context = {.laydown_offset_boards = 6.0,
                            .length_ft = 40.0,
                            .ratio = 3.0,
                            .plan = {.slot = 1, .stance = 26.0, .aim = 15.0},
                            .game = 2,
                            .frame = 5,
                            .deliveries = 60,
                            .bowlers_on_pair = 4,
                            .revs_per_mph = 19.0,
                            .scatter_boards = 1.4,
                            .outside_share = 0.3};
    while (next_word(&setting, word)) {
        if (word[0] == 'g')
            context.game = atoi(word + 1);
        else if (word[0] == 'f')
            context.frame = atoi(word + 1);
        else if (strcmp(word, "short") == 0)
            context.length_ft = 34.0;
        else if (strcmp(word, "alone") == 0)
            context.bowlers_on_pair = 1;
        else if (strcmp(word, "urethane") == 0)
            context.urethane_others = 1;
        else if (strcmp(word, "wet") == 0)
            context.outside_share = 1.1;
        else if (strcmp(word, "wide") == 0)
            context.scatter_boards = 2.5;
        else if (strcmp(word, "deep") == 0)
            context.plan.stance = 36.0;
        else if (strcmp(word, "revs") == 0)
            context.revs_per_mph = 26.0;
        else
            fail_msg("no such setting: %s", word);
    }
    return context;
}

static bool fires(const RuleSet *rules, const char *id, const char *setting, const char *words)
{
    enum { SHOTS_MAX = 8 };
    Shot shots[SHOTS_MAX];
    SignsContext context = context_of(setting);
    int count = shots_of(words, &context.plan, shots, SHOTS_MAX, &context.lane);
    Signs signs;
    signs_read(&context, shots, count, &signs);
    for (int i = 0; i < rules->count; i++)
        if (strcmp(rules->rules[i].id, id) == 0)
            return rule_fires(&rules->rules[i], &signs);
    fail_msg("no rule is called %s", id);
    return false;
}

static void test_rows(void **state)
{
    (void)state;
    RuleSet *rules = calloc(1, sizeof *rules);
    Error error = {0};
    assert_non_null(rules);
    if (!files_rules("coach", rules, &error))
        fail_msg("%s", error.text);
    int wrong = 0;
    for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
        const Row *row = &ROWS[i];
        if (!fires(rules, row->rule, row->setting, row->fires)) {
            print_error("%s does not fire on %s\n", row->rule, row->fires);
            wrong++;
        }
        if (fires(rules, row->rule, row->other, row->silent)) {
            print_error("%s fires on %s\n", row->rule, row->silent);
            wrong++;
        }
    }
    free(rules);
    assert_int_equal(wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_rows)};
    return cmocka_run_group_tests_name("rule cases", tests, NULL, NULL);
}
