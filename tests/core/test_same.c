/* test_same.c - comparing two values member by member: every member counts, to its last byte, and
 * none is missing from the lists below. */
#include "near.h"

#include <stdbool.h>
#include <string.h>

#include "core/bag/bag.h"
#include "core/lane/oil.h"
#include "core/motion/delivery.h"

typedef struct Member {
    size_t at, size;
} Member;
#define MEMBER(type, member)                                                                       \
    {                                                                                              \
        offsetof(type, member), sizeof((type *)0)->member                                          \
    }
#define TEXT(type, member) /* without the NUL that ends it at the latest */                        \
    {                                                                                              \
        offsetof(type, member), sizeof((type *)0)->member - 1                                      \
    }

typedef union Value {
    Surface surface;
    Ball ball;
    Bowler bowler;
    Plan plan;
    Oil oil;
    unsigned char bytes[sizeof(Oil)];
} Value;

typedef struct Type {
    const char *name;
    bool (*same)(const Value *, const Value *);
    size_t size;
    int count;
    Member members[40]; /* in their order */
} Type;

static bool same_surface(const Value *a, const Value *b)
{
    return surface_same(&a->surface, &b->surface);
}
static bool same_ball(const Value *a, const Value *b) { return ball_same(&a->ball, &b->ball); }
static bool same_bowler(const Value *a, const Value *b)
{
    return bowler_same(&a->bowler, &b->bowler);
}
static bool same_plan(const Value *a, const Value *b) { return plan_same(&a->plan, &b->plan); }
static bool same_oil(const Value *a, const Value *b) { return oil_same(&a->oil, &b->oil); }

static const Type TYPES[] = {
    {"Surface",
     same_surface,
     sizeof(Surface),
     3,
     {MEMBER(Surface, finish), MEMBER(Surface, grit), MEMBER(Surface, games_since)}},
    {"Ball",
     same_ball,
     sizeof(Ball),
     17,
     {TEXT(Ball, id), TEXT(Ball, name), MEMBER(Ball, kind), MEMBER(Ball, pounds),
      MEMBER(Ball, rg_in), MEMBER(Ball, differential_in), MEMBER(Ball, intermediate_in),
      MEMBER(Ball, cover), MEMBER(Ball, cover_strength), MEMBER(Ball, strength_before),
      MEMBER(Ball, surface.finish), MEMBER(Ball, surface.grit), MEMBER(Ball, surface.games_since),
      MEMBER(Ball, surface_usual), MEMBER(Ball, pin_to_pap_in), MEMBER(Ball, mass_bias_deg),
      MEMBER(Ball, slot)}},
    {"Bowler",
     same_bowler,
     sizeof(Bowler),
     37,
     {TEXT(Bowler, name),
      MEMBER(Bowler, hand),
      MEMBER(Bowler, style),
      MEMBER(Bowler, mph),
      MEMBER(Bowler, rpm),
      MEMBER(Bowler, rotation_deg),
      MEMBER(Bowler, rotation_least_deg),
      MEMBER(Bowler, rotation_most_deg),
      MEMBER(Bowler, tilt_deg),
      MEMBER(Bowler, loft_ft),
      MEMBER(Bowler, laydown_offset_boards),
      MEMBER(Bowler, scatter.launch_deg),
      MEMBER(Bowler, scatter.mph),
      MEMBER(Bowler, scatter.rpm),
      MEMBER(Bowler, scatter.laydown_boards),
      MEMBER(Bowler, spare_release.said),
      MEMBER(Bowler, spare_release.mph),
      MEMBER(Bowler, spare_release.rpm),
      MEMBER(Bowler, spare_release.rotation_deg),
      MEMBER(Bowler, spare_release.tilt_deg),
      MEMBER(Bowler, from.level),
      MEMBER(Bowler, from.style),
      MEMBER(Bowler, from.mph),
      MEMBER(Bowler, from.rpm),
      MEMBER(Bowler, from.rotation),
      MEMBER(Bowler, from.tilt),
      MEMBER(Bowler, from.loft),
      MEMBER(Bowler, from.laydown_offset),
      MEMBER(Bowler, from.scatter),
      MEMBER(Bowler, before.mph),
      MEMBER(Bowler, before.mph_from),
      MEMBER(Bowler, before.has_scatter),
      MEMBER(Bowler, before.scatter.launch_deg),
      MEMBER(Bowler, before.scatter.mph),
      MEMBER(Bowler, before.scatter.rpm),
      MEMBER(Bowler, before.scatter.laydown_boards),
      MEMBER(Bowler, before.scatter_from)}},
    {"Plan",
     same_plan,
     sizeof(Plan),
     6,
     {MEMBER(Plan, slot), MEMBER(Plan, stance), MEMBER(Plan, aim), MEMBER(Plan, mph_change),
      MEMBER(Plan, loft_change_ft), MEMBER(Plan, rotation_change_deg)}},
    {"Oil", same_oil, sizeof(Oil), 2, {MEMBER(Oil, units), MEMBER(Oil, length_ft)}},
};
enum { TYPE_COUNT = sizeof TYPES / sizeof TYPES[0] };

/* Between the listed members there is no room for one that the list lacks. */
static void test_lists_are_complete(void **state)
{
    (void)state;
    const size_t least = _Alignof(double);
    for (int t = 0; t < TYPE_COUNT; t++) {
        size_t at = 0;
        for (int i = 0; i < TYPES[t].count; i++) {
            const Member *member = &TYPES[t].members[i];
            if (member->at < at || member->at - at >= least)
                fail_msg("%s: a member is missing before byte %zu", TYPES[t].name, member->at);
            at = member->at + member->size;
        }
        if (TYPES[t].size - at >= least)
            fail_msg("%s: a member is missing after byte %zu", TYPES[t].name, at);
    }
}

/* Changing the lowest bit of any byte makes it a different value. Texts are full, so that each of
 * their bytes counts. */
static void test_every_member_counts(void **state)
{
    (void)state;
    static Value a, b;
    for (int t = 0; t < TYPE_COUNT; t++) {
        const Type *type = &TYPES[t];
        memset(&a, 0, sizeof a);
        for (int i = 0; i < type->count; i++)
            memset(a.bytes + type->members[i].at, 'x', type->members[i].size);
        b = a;
        assert_true(type->same(&a, &b));
        for (int i = 0; i < type->count; i++)
            for (size_t k = 0; k < type->members[i].size; k++) {
                unsigned char *byte = &b.bytes[type->members[i].at + k];
                *byte ^= 1;
                if (type->same(&a, &b))
                    fail_msg("%s: byte %zu of member %d does not count", type->name, k, i);
                *byte ^= 1;
            }
    }
}

/* Padding, and bytes past the end of a text, don't count. */
static void test_nothing_else_counts(void **state)
{
    (void)state;
    static Value a, b;
    for (int t = 0; t < TYPE_COUNT; t++) {
        const Type *type = &TYPES[t];
        memset(&a, 0, sizeof a);
        memset(&b, 0xff, sizeof b);
        for (int i = 0; i < type->count; i++)
            memset(b.bytes + type->members[i].at, 0, type->members[i].size);
        if (type->same == same_ball) {
            memcpy(a.ball.name, "Kiln\0left over", 15);
            memcpy(b.ball.name, "Kiln", 5);
        }
        if (!type->same(&a, &b))
            fail_msg("%s: what is no member counts", type->name);
    }
}

/* A bag is the same as its copy, and none with any ball changed, one more or one fewer. */
static void test_bags(void **state)
{
    (void)state;
    static Bag bag, other;
    bag.bowler = bowler_default();
    bag.count = 5;
    for (int i = 0; i < bag.count; i++)
        bag.balls[i] = ball_default();
    other = bag;
    assert_true(bag_same(&bag, &other));
    for (int i = 0; i < bag.count; i++) {
        other.balls[i].pounds += 1.0;
        assert_false(bag_same(&bag, &other));
        other = bag;
    }
    other.count--;
    assert_false(bag_same(&bag, &other));
    assert_false(bag_same(&other, &bag));
    other = bag;
    other.bowler.mph += 1.0;
    assert_false(bag_same(&bag, &other));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bags), cmocka_unit_test(test_lists_are_complete),
        cmocka_unit_test(test_every_member_counts), cmocka_unit_test(test_nothing_else_counts)};
    return cmocka_run_group_tests_name("same", tests, NULL, NULL);
}
