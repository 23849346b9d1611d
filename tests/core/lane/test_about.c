/* Patterns without a sheet: their names, and the sheets that they may be. */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/lane/about.h"

static const char *const NAMES[] = {"about:nothing",     "about:house",         "about:41ft",
                                    "about:41.5ft,25ml", "about:41ft,25ml,3:1", "about:house,39ft",
                                    "about:28ml",        "about:7.5:1"};
enum { NAME_COUNT = sizeof NAMES / sizeof NAMES[0] };

static About read(const char *name)
{
    About about;
    Error error = {0};
    assert_true(about_is(name));
    if (!about_read(name, &about, &error))
        fail_msg("%s: %s", name, error.text);
    assert_true(about.only);
    return about;
}

static void test_names(void **state)
{
    (void)state;
    char written[64];
    for (int i = 0; i < NAME_COUNT; i++) {
        About about = read(NAMES[i]);
        about_write(&about, written, sizeof written);
        assert_string_equal(written, NAMES[i]);
    }
    About about = read("about:41.5ft,25ml,3:1");
    assert_near(about.length_ft, 41.5, 1e-12);
    assert_near(about.volume_ml, 25.0, 1e-12);
    assert_near(about.ratio, 3.0, 1e-12);
    assert_false(about.house);
    assert_true(read("about:house").house);
    assert_false(about_is("apron"));
    assert_false(about_is("about"));
}

static void test_no_names(void **state)
{
    (void)state;
    static const char *const BAD[] = {"about:",
                                      "about:41",
                                      "about:41ft,",
                                      "about:ft",
                                      "about:41 ft",
                                      "about:41ft,42ft",
                                      "about:-41ft",
                                      "about:0x29ft",
                                      "about:19.9ft",
                                      "about:61ft",
                                      "about:41ft,9ml",
                                      "about:41ft,41ml",
                                      "about:0.5:1",
                                      "about:13:1",
                                      "about:3:2",
                                      "about:housework",
                                      "about:.5ft",
                                      "about:1e1ft",
                                      "about:inft",
                                      "about:nothing,41ft",
                                      "about:11111111111111111111111111111111111111111111ft"};
    for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
        About about;
        Error error = {0};
        if (about_read(BAD[i], &about, &error))
            fail_msg("%s was taken", BAD[i]);
        assert_non_null(strstr(error.text, "allowed: "));
    }
}

/* Whatever is known holds for every sheet that it may be, as the film itself is measured. */
static void test_sheets(void **state)
{
    (void)state;
    for (int i = 0; i < NAME_COUNT; i++) {
        About about = read(NAMES[i]);
        AboutSheets sheets;
        double sum = 0.0;
        about_sheets(&about, &sheets);
        assert_true(sheets.count >= 1 && sheets.count <= ABOUT_SHEETS_MAX);
        for (int k = 0; k < sheets.count; k++) {
            const AboutSheet *sheet = &sheets.one[k];
            Oil oil, mirrored;
            about_lay(sheet, &oil);
            oil_for_hand(&oil, HAND_LEFT, &mirrored);
            assert_near(oil_length_ft(&oil), sheet->length_ft, 0.5);
            assert_near(oil_volume_ml(&oil), sheet->volume_ml, 1e-9);
            assert_near(oil_ratio(&oil), sheet->ratio, 1e-9);
            for (int j = 0; j < OIL_STATIONS; j++)
                for (int b = 0; b < LANE_BOARDS; b++) {
                    assert_near(oil.units[j][b], mirrored.units[j][b], 1e-12);
                    assert_true(oil.units[j][b] >= 0.0 && oil.units[j][b] < 100.0);
                }
            assert_true(about.length_ft == 0.0 || sheet->length_ft == about.length_ft);
            assert_true(about.volume_ml == 0.0 || sheet->volume_ml == about.volume_ml);
            assert_true(about.ratio == 0.0 || sheet->ratio == about.ratio);
            assert_true(!about.house || sheet->ratio >= 4.0);
            sum += sheet->share;
        }
        assert_near(sum, 1.0, 1e-12);
    }
}

static void test_middle(void **state)
{
    (void)state;
    for (int i = 0; i < NAME_COUNT; i++) {
        About about = read(NAMES[i]);
        Pattern pattern;
        Oil oil;
        about_pattern(&about, &pattern);
        assert_true(pattern.about.only);
        assert_true(pattern.name[0] && pattern.note[0]);
        assert_true(about.length_ft == 0.0 || pattern.length_ft == about.length_ft);
        oil_lay(&pattern, &oil);
        assert_near(oil_volume_ml(&oil), about.volume_ml > 0.0 ? about.volume_ml : 24.0, 1e-9);
    }
}

static void assert_words(const char *name, const char *words)
{
    About about = read(name);
    Pattern pattern;
    char found[96] = "";
    about_pattern(&about, &pattern);
    pattern_words(&pattern, found, sizeof found);
    assert_string_equal(found, words);
}

static void test_words(void **state)
{
    (void)state;
    char words[40];
    assert_words("about:nothing", "Unknown pattern");
    assert_words("about:house", "House shot, no sheet");
    assert_words("about:41ft", "No sheet, 41 ft");
    assert_words("about:house,39ft", "House shot, no sheet, 39 ft");
    about_sheet_words(&(AboutSheet){.length_ft = 41.0, .ratio = 1.8}, words, sizeof words);
    assert_string_equal(words, "41 ft, flat");
    about_sheet_words(&(AboutSheet){.length_ft = 39.0, .ratio = 8.0}, words, sizeof words);
    assert_string_equal(words, "39 ft, house shot");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_names),  cmocka_unit_test(test_no_names),
        cmocka_unit_test(test_sheets), cmocka_unit_test(test_middle),
        cmocka_unit_test(test_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
