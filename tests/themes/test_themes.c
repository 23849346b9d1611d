/* test_themes.c - every theme that the program carries can be read, and its meanings told apart,
 * with any colour vision. It prints what it measures. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "helper_colour.h"
#include "store/builtin.h"
#include "store/files.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* WCAG 2, success criterion 1.4.3: text; 1.4.6, the stricter one, holds for the high contrast. */
static const double TEXT_LEAST = 4.5, HIGH_LEAST = 7.0;
/* WCAG 2, 1.4.11: marks that are not text. */
static const double MARK_LEAST = 3.0;
/* CIE 1976 differences. One of about 2.3 can just be seen, side by side (Mahy and others 1994,
 * from memory); for words read apart from each other, eight times that and more is asked: our
 * choice. */
static const double APART = 20.0, SAFE_APART = 25.0, JUST_SEEN = 2.3;

static const Role TEXT[] = {ROLE_PLAIN, ROLE_DIM, ROLE_TITLE, ROLE_ACCENT, ROLE_GOOD,  ROLE_WARN,
                            ROLE_BAD,   ROLE_KEY, ROLE_FIELD, ROLE_PATH,   ROLE_PATH2, ROLE_PIN};

/* What must not be taken for one another. The first MEANINGS are what a figure or word means. */
enum { MEANINGS = 10 };
static const Role PAIRS[][2] = {
    {ROLE_GOOD, ROLE_WARN},    {ROLE_GOOD, ROLE_BAD},    {ROLE_WARN, ROLE_BAD},
    {ROLE_GOOD, ROLE_PLAIN},   {ROLE_WARN, ROLE_PLAIN},  {ROLE_BAD, ROLE_PLAIN},
    {ROLE_ACCENT, ROLE_PLAIN}, {ROLE_ACCENT, ROLE_GOOD}, {ROLE_ACCENT, ROLE_WARN},
    {ROLE_ACCENT, ROLE_BAD},   {ROLE_DIM, ROLE_PLAIN},   {ROLE_KEY, ROLE_DIM},
    {ROLE_PATH, ROLE_PATH2}};

static const char MONO[] = "mono", SIXTEEN[] = "sixteen";

static const Theme *theme_of(const char *id)
{
    static Theme theme;
    Error error = {0};
    char line[ERROR_LINE_MAX];
    bool done = files_theme(id, &theme, &error);
    error_line(&error, line, sizeof line);
    if (!done)
        fail_msg("themes/%s: %s", id, line);
    return &theme;
}

/* Calls it for every theme but one (NULL: every one). */
static void each(void (*hold)(const Theme *theme), const char *but)
{
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++)
        if (strcmp(file->kind, "themes") == 0 && (!but || strcmp(file->id, but) != 0))
            hold(theme_of(file->id));
}

static bool weight_differs(const RoleStyle *a, const RoleStyle *b)
{
    return a->bold != b->bold || a->underline != b->underline || a->reverse != b->reverse;
}

static void there_are_six_and_the_plain_one(void **state)
{
    (void)state;
    static const char *const IDS[] = {"dark",       "light", "contrast", "safe-dark",
                                      "safe-light", MONO,    SIXTEEN};
    for (size_t i = 0; i < COUNT(IDS); i++)
        assert_string_equal(theme_of(IDS[i])->id, IDS[i]);
}

static void hold_contrast(const Theme *theme)
{
    double least = strcmp(theme->id, "contrast") == 0 ? HIGH_LEAST : TEXT_LEAST, lowest = 21.0;
    Role at = ROLE_PLAIN;
    for (size_t i = 0; i < COUNT(TEXT); i++) {
        const RoleStyle *style = &theme->role[TEXT[i]];
        if (style->foreground < 0 || style->background < 0)
            continue; /* the terminal's own */
        double ratio = colour_contrast(style->foreground, style->background);
        if (ratio < least)
            fail_msg("%s: %s has contrast %.2f", theme->id, ROLE_NAMES[TEXT[i]], ratio);
        if (ratio < lowest) {
            lowest = ratio;
            at = TEXT[i];
        }
    }
    if (theme->role[ROLE_PLAIN].background >= 0)
        print_message("%-10s contrast at least %5.2f (%s)\n", theme->id, lowest, ROLE_NAMES[at]);
}

static void text_can_be_read(void **state)
{
    (void)state;
    each(hold_contrast, NULL);
}

static void hold_marks(const Theme *theme)
{
    int pin = theme->role[ROLE_PIN].foreground;
    for (int role = ROLE_BOARD; role <= ROLE_OIL5; role++) {
        double ratio = colour_contrast(pin, theme->role[role].background);
        if (ratio < MARK_LEAST)
            fail_msg("%s: an arrow on %s has contrast %.2f", theme->id, ROLE_NAMES[role], ratio);
    }
}

/* Arrows lie on the oil. */
static void arrows_show_on_oil(void **state)
{
    (void)state;
    each(hold_marks, SIXTEEN);
}

/* Told apart by colour in every vision; without colours, by weight or by brightness. */
static void hold_meanings(const Theme *theme)
{
    bool safe = strncmp(theme->id, "safe-", 5) == 0 || strcmp(theme->id, "contrast") == 0;
    bool mono = strcmp(theme->id, MONO) == 0;
    print_message("%-10s differs at least", theme->id);
    for (int vision = 0; vision < VISION_COUNT; vision++) {
        double lowest = 1000.0;
        size_t at = 0;
        for (size_t i = 0; i < COUNT(PAIRS); i++) {
            const RoleStyle *a = &theme->role[PAIRS[i][0]], *b = &theme->role[PAIRS[i][1]];
            double apart = colour_difference(a->foreground, b->foreground, (Vision)vision);
            if (mono && weight_differs(a, b))
                continue;
            if (apart < (safe && i < MEANINGS ? SAFE_APART : APART))
                fail_msg("%s: %s and %s differ by %.1f in %s vision", theme->id,
                         ROLE_NAMES[PAIRS[i][0]], ROLE_NAMES[PAIRS[i][1]], apart,
                         VISION_NAMES[vision]);
            if (apart < lowest) {
                lowest = apart;
                at = i;
            }
        }
        print_message(" %5.1f %s (%s, %s)", lowest, VISION_NAMES[vision], ROLE_NAMES[PAIRS[at][0]],
                      ROLE_NAMES[PAIRS[at][1]]);
    }
    print_message("\n");
}

static void meanings_differ_in_any_vision(void **state)
{
    (void)state;
    each(hold_meanings, SIXTEEN);
}

static void mono_has_no_colours(void **state)
{
    (void)state;
    const Theme *theme = theme_of(MONO);
    for (int role = 0; role < ROLE_COUNT; role++) {
        int ground = theme->role[role].background, colour = theme->role[role].foreground;
        assert_int_equal(colour, (colour & 255) * 0x010101);
        assert_int_equal(ground, (ground & 255) * 0x010101);
    }
}

/* More oil goes one way only, in brightness, whatever the vision; the next shade can be seen. */
static void hold_oil(const Theme *theme)
{
    for (int vision = 0; vision < VISION_COUNT; vision++) {
        double way = 0.0;
        for (int role = ROLE_OIL1; role <= ROLE_OIL5; role++) {
            int now = theme->role[role].background, before = theme->role[role - 1].background;
            double step = colour_lab(now, (Vision)vision).l - colour_lab(before, (Vision)vision).l;
            if (role == ROLE_OIL2)
                way = step;
            if (role >= ROLE_OIL2 && step * way <= 0.0)
                fail_msg("%s: %s goes back in %s vision", theme->id, ROLE_NAMES[role],
                         VISION_NAMES[vision]);
            assert_less(JUST_SEEN, colour_difference(now, before, (Vision)vision));
        }
    }
}

static void oil_reads_as_depth(void **state)
{
    (void)state;
    each(hold_oil, SIXTEEN);
    /* in sixteen colours two neighbours share one and part by weight */
    const Theme *theme = theme_of(SIXTEEN);
    for (int role = ROLE_OIL2; role <= ROLE_OIL5; role++) {
        const RoleStyle *now = &theme->role[role], *before = &theme->role[role - 1];
        double step = colour_luminance(now->foreground) - colour_luminance(before->foreground);
        assert_true(step > 0.0 || (step == 0.0 && now->bold && !before->bold));
    }
}

/* The two paths part in brightness and weight. */
static void hold_paths(const Theme *theme)
{
    const RoleStyle *path = &theme->role[ROLE_PATH], *path2 = &theme->role[ROLE_PATH2];
    if (path->foreground >= 0 && path2->foreground >= 0)
        assert_less(1.5, colour_contrast(path->foreground, path2->foreground));
    assert_true(path->bold && !path2->bold);
}

static void paths_part(void **state)
{
    (void)state;
    each(hold_paths, NULL);
}

/* Whether a terminal of 256 colours has this very one: the colour cube or the greys. */
static bool in_256(int rgb)
{
    static const int LEVELS[6] = {0, 95, 135, 175, 215, 255};
    int c[3] = {rgb >> 16 & 255, rgb >> 8 & 255, rgb & 255}, found = 0;
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 6; k++)
            found += c[i] == LEVELS[k];
    bool grey = c[0] == c[1] && c[1] == c[2] && c[0] >= 8 && c[0] <= 238 && (c[0] - 8) % 10 == 0;
    return found == 3 || grey;
}

static void hold_256(const Theme *theme)
{
    for (int role = 0; role < ROLE_COUNT; role++) {
        const RoleStyle *style = &theme->role[role];
        if (!in_256(style->foreground) || !in_256(style->background))
            fail_msg("%s: %s is %06x on %06x", theme->id, ROLE_NAMES[role],
                     (unsigned)style->foreground, (unsigned)style->background);
    }
}

/* What is measured here is what most terminals show. */
static void colours_are_exact_on_256(void **state)
{
    (void)state;
    each(hold_256, SIXTEEN); /* has the sixteen for its palette */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(there_are_six_and_the_plain_one),
        cmocka_unit_test(text_can_be_read),
        cmocka_unit_test(arrows_show_on_oil),
        cmocka_unit_test(meanings_differ_in_any_vision),
        cmocka_unit_test(mono_has_no_colours),
        cmocka_unit_test(oil_reads_as_depth),
        cmocka_unit_test(paths_part),
        cmocka_unit_test(colours_are_exact_on_256),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
