/* The belief about a pattern without a sheet; with one nothing of this is there. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/advice/belief_parts.h"
#include "core/advice/recall.h"
#include "helper_demo.h"

static const About NOTHING = {.only = true};

static Belief *begin_about(const About *about, uint64_t seed)
{
    Pattern pattern;
    Oil middle;
    Belief *belief = malloc(sizeof *belief);
    assert_non_null(belief);
    about_pattern(about, &pattern);
    oil_lay(&pattern, &middle);
    belief_begin_about(belief, about, &middle, seed);
    return belief;
}

static void assert_whole(const Belief *belief)
{
    SheetLeft left[ABOUT_SHEETS_MAX];
    double sum = 0.0;
    int count = belief_sheets(belief, left);
    assert_int_equal(count, belief->may_be.count);
    for (int i = 0; i < count; i++) {
        sum += left[i].sheet.share;
        assert_true(i == 0 || left[i].sheet.share <= left[i - 1].sheet.share);
        assert_true(left[i].sheet.length_ft > 20.0 && left[i].sheet.length_ft < 60.0);
    }
    assert_near(sum, 1.0, 1e-9);
    for (int i = 1; i < BELIEF_PARTICLES; i++)
        assert_true(belief->particles[i - 1].film <= belief->particles[i].film);
}

/* What the sheets say one by one, by how likely each is, is what the belief says. */
static void assert_adds_up(const Belief *belief)
{
    double share[ABOUT_SHEETS_MAX], mean[PART_COUNT], offsets[OFFSETS_COUNT], all = 0.0;
    double part[PART_COUNT] = {0}, off[OFFSETS_COUNT] = {0}, told[OFFSETS_COUNT], feet = 0.0;
    belief_sheet_shares(belief, share);
    belief_offsets(belief, told);
    for (int sheet = 0; sheet < belief->may_be.count; sheet++) {
        belief_sheet_means(belief, sheet, mean, offsets);
        all += share[sheet];
        feet += share[sheet] * belief->may_be.one[sheet].length_ft;
        for (int k = 0; k < PART_COUNT; k++)
            part[k] += share[sheet] * mean[k];
        for (int k = 0; k < OFFSETS_COUNT; k++)
            off[k] += share[sheet] * offsets[k];
    }
    assert_near(all, 1.0, 1e-9);
    assert_near(belief_length_ft(belief), feet, 1e-9);
    for (int k = 0; k < PART_COUNT; k++)
        assert_near(part[k], belief_part(belief, k).mean, 1e-9);
    for (int k = 0; k < OFFSETS_COUNT; k++)
        assert_near(off[k], told[k], 1e-9);
}

static void test_with_a_sheet(void **state)
{
    (void)state;
    SheetLeft left[ABOUT_SHEETS_MAX];
    char words[80];
    Oil sheet;
    Belief *belief = begin(1);
    assert_int_equal(belief_sheets(belief, left), 0);
    belief_sheet_words(belief, words, sizeof words);
    assert_string_equal(words, "");
    belief_likely_sheet(belief, &sheet);
    assert_memory_equal(&sheet, &SHEET, sizeof sheet);
    assert_int_equal(belief_film_count(belief), BELIEF_FILMS);
    free(belief);
}

/* What is known is one sheet: then there is one, and nothing to tell. */
static void test_one_left(void **state)
{
    (void)state;
    char words[80];
    Belief *belief = begin_about(&(About){true, false, 41.0, 25.0, 3.0}, 1);
    assert_int_equal(belief->may_be.count, 1);
    belief_sheet_words(belief, words, sizeof words);
    assert_string_equal(words, "most like a 41 ft, medium");
    assert_whole(belief);
    free(belief);
}

static void test_begins_with_the_shares(void **state)
{
    (void)state;
    char words[80];
    Belief *belief = begin_about(&NOTHING, 1);
    AboutSheets sheets;
    about_sheets(&NOTHING, &sheets);
    for (int i = 0; i < sheets.count; i++) {
        double share = 0.0;
        for (int k = 0; k < BELIEF_PARTICLES; k++)
            if (particle_sheet(&belief->particles[k]) == i)
                share += belief->particles[k].weight;
        assert_near(share, sheets.one[i].share, 0.06);
    }
    belief_sheet_words(belief, words, sizeof words);
    assert_string_equal(words, "one of 8 patterns of its kind; shots will tell");
    assert_whole(belief);
    free(belief);
}

static void test_shots_weigh(void **state)
{
    (void)state;
    Belief *belief = begin_about(&NOTHING, 1), *copy = calloc(1, sizeof *copy);
    assert_non_null(copy);
    double volume_before = oil_volume_ml(&belief->film[SIDE_LEFT][0]);
    for (int i = 0; i < 8; i++) {
        Shot shot = shot_on(SIDE_LEFT, 1, i % 2 ? HIT_HIGH : HIT_FLUSH, READ_EARLY, RELEASE_GOOD);
        see(belief, &shot);
        assert_whole(belief);
        assert_adds_up(belief);
    }
    SheetLeft left[ABOUT_SHEETS_MAX];
    belief_sheets(belief, left);
    assert_less(0.25, left[0].sheet.share); /* at first 0.15 at most */
    /* films that particles are on have worn, on that lane alone */
    const Particle *last = &belief->particles[BELIEF_PARTICLES - 1];
    int sheet = particle_sheet(last);
    Oil fresh;
    about_lay(&belief->may_be.one[sheet], &fresh);
    assert_less(oil_volume_ml(&belief->film[SIDE_LEFT][last->film]), volume_before);
    assert_memory_equal(&belief->film[SIDE_RIGHT][last->film], &fresh, sizeof fresh);
    for (int f = BELIEF_FILMS; f < belief_film_count(belief); f++) { /* alike on every sheet */
        assert_near(belief_rate(f).pick, belief_rate(f % BELIEF_FILMS).pick, 0.0);
        assert_near(belief_rate(f).carry, belief_rate(f % BELIEF_FILMS).carry, 0.0);
    }

    belief_copy(copy, belief);
    Oil film, same;
    belief_film(belief, SIDE_LEFT, &film);
    belief_film(copy, SIDE_LEFT, &same);
    assert_memory_equal(&film, &same, sizeof film);
    assert_int_equal(copy->shots, 8);
    free(belief);
    free(copy);
}

/* Continued, gone back to, and begun again: always as from the start. */
static void test_recall(void **state)
{
    (void)state;
    enum { SHOTS = 3 };
    Shot shots[SHOTS];
    Memory *kept = calloc(1, sizeof *kept), *new = calloc(1, sizeof *new);
    assert_true(kept && new);
    const Played none = {0};
    for (int i = 0; i < SHOTS; i++)
        shots[i] =
            shot_on((Side)(i % 2), 1, i == 1 ? HIT_LIGHT : HIT_HIGH, READ_ON_TIME, RELEASE_GOOD);
    memory_init(kept);
    for (int count = 1; count <= SHOTS; count++) {
        memory_recall(kept, &BAG, &SHEET, &NOTHING, 2, &(FieldMix){0}, &none, 1, shots, count);
        while (memory_weigh(kept, shots, count))
            continue;
    }
    shots[SHOTS - 1].hit = HIT_FLUSH; /* the last one is edited */
    memory_recall(kept, &BAG, &SHEET, &NOTHING, 2, &(FieldMix){0}, &none, 1, shots, SHOTS);
    assert_int_equal(kept->seen, SHOTS - 1);
    while (memory_weigh(kept, shots, SHOTS))
        continue;
    memory_init(new);
    memory_recall(new, &BAG, &SHEET, &NOTHING, 2, &(FieldMix){0}, &none, 1, shots, SHOTS);
    while (memory_weigh(new, shots, SHOTS))
        continue;
    assert_memory_equal(&kept->belief, &new->belief, sizeof kept->belief);
    /* other knowledge is another belief */
    About house = {.only = true, .house = true};
    memory_recall(kept, &BAG, &SHEET, &house, 2, &(FieldMix){0}, &none, 1, shots, SHOTS);
    assert_int_equal(kept->seen, 0);
    assert_int_equal(kept->belief.may_be.count, 6);
    free(kept);
    free(new);
}

/* The answer's lane tells it, and the words that compare with a sheet stay away. */
static void test_advice(void **state)
{
    (void)state;
    Asked *asked = ask();
    Pattern pattern;
    about_pattern(&(About){.only = true, .length_ft = 41.0}, &pattern);
    asked->in.pattern = &pattern;
    say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    AdviceJob *job = answer(&asked->in);
    const Advice *advice = advice_result(job);
    assert_int_equal(advice->lane.sheet_count, 4);
    assert_true(advice->adjustment_count > 0);
    assert_string_equal(advice->lane.words, advice->lane.sheet_words);
    assert_non_null(strstr(advice->lane.words, "most like a 4"));
    advice_job_free(job);
    asked->in.pattern = &PATTERN;
    job = answer(&asked->in);
    assert_int_equal(advice_result(job)->lane.sheet_count, 0);
    assert_string_equal(advice_result(job)->lane.sheet_words, "");
    advice_job_free(job);
    free(asked);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_with_a_sheet),
        cmocka_unit_test(test_one_left),
        cmocka_unit_test(test_begins_with_the_shares),
        cmocka_unit_test(test_shots_weigh),
        cmocka_unit_test(test_recall),
        cmocka_unit_test(test_advice),
    };
    return cmocka_run_group_tests(tests, demo_set_up, NULL);
}
