/* test_bad_files.c - malformed files: every one is refused in one clear line that says where, what
 * was found and what is allowed. Each row below is a file of tests/data/bad and a test of its own.
 */
#include "near.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "store/files.h"

typedef bool Reader(const char *name, Error *error);

/* Large results live here rather than on the stack. */
static Bag bag;
static Pattern pattern;
static EventInfo event;
static Theme theme;
static RuleSet rules;
static Lesson lesson;
static Shot shots[SESSION_SHOTS_MAX];
static int shot_count;

static bool read_bag(const char *name, Error *error) { return files_bag(name, &bag, error); }
static bool read_pattern(const char *name, Error *error)
{
    return files_pattern(name, &pattern, error);
}
static bool read_event(const char *name, Error *error) { return files_event(name, &event, error); }
static bool read_theme(const char *name, Error *error) { return files_theme(name, &theme, error); }
static bool read_rules(const char *name, Error *error) { return files_rules(name, &rules, error); }
static bool read_lesson(const char *name, Error *error)
{
    return files_lesson(name, &lesson, error);
}
/* Its form alone: which actions there are, ui knows. */
static bool read_keys(const char *name, Error *error)
{
    const char *kind;
    return files_check(name, &kind, error);
}
static bool read_shots(const char *name, Error *error)
{
    return files_shots(name, shots, SESSION_SHOTS_MAX, &shot_count, error);
}

typedef struct Case {
    const char *file;
    Reader *read;
    int line;
    const char *where;
    const char *text; /* a piece of the message */
} Case;

/* clang-format off */
static const Case CASES[] = {
    {"syntax-comma.json", read_bag, 5, "", "found a string; expected a comma or }"},
    {"syntax-trailing-comma.json", read_bag, 28, "", "no comma may stand before }"},
    {"syntax-trailing-comma-array.json", read_pattern, 7, "", "found ']'; expected a value; no comma may stand before ]"},
    {"syntax-garbage.json", read_bag, 33, "", "found more; expected nothing more after the end"},
    {"syntax-second-object.json", read_event, 12, "", "found '{'; expected nothing more"},
    {"syntax-unclosed.json", read_bag, 31, "", "found the end of the text; expected a comma or }"},
    {"syntax-unclosed-string.json", read_bag, 18, "", "found a string that does not end on its line"},
    {"syntax-never-ending-string.json", read_bag, 1, "", "found a string that never ends"},
    {"syntax-nan.json", read_bag, 8, "", "found NaN; expected a value"},
    {"syntax-infinity.json", read_bag, 8, "", "found -Infinity; expected a number as JSON writes it"},
    {"syntax-leading-zero.json", read_bag, 8, "", "found 0320; expected a number"},
    {"syntax-plus.json", read_bag, 8, "", "found +320; expected a value"},
    {"syntax-bare-point.json", read_bag, 7, "", "found 17.; expected a number"},
    {"syntax-comma-decimal.json", read_bag, 7, "", "found 5; expected a key in double quotes"},
    {"syntax-hex-number.json", read_bag, 8, "", "found 0x140; expected a number"},
    {"syntax-long-number.json", read_bag, 8, "", "more than 60 characters"},
    {"syntax-comment.json", read_bag, 7, "", "found '/'; expected a key in double quotes"},
    {"syntax-comment-first.json", read_bag, 1, "", "JSON has no comments"},
    {"syntax-single-quotes.json", read_bag, 4, "", "found '''; expected a value"},
    {"syntax-bare-key.json", read_bag, 5, "", "found hand; expected a key in double quotes"},
    {"syntax-no-colon.json", read_bag, 5, "", "expected a colon after the key"},
    {"syntax-escape.json", read_bag, 4, "", "found an escape that JSON does not have"},
    {"syntax-escape-zero.json", read_bag, 4, "", "found \\u0000; text must not contain it"},
    {"syntax-escape-short.json", read_bag, 4, "", "without four hexadecimal digits"},
    {"syntax-lone-surrogate.json", read_bag, 4, "", "first half of a surrogate pair"},
    {"syntax-surrogate-letter.json", read_bag, 4, "", "first half of a surrogate pair"},
    {"syntax-surrogate-past.json", read_bag, 4, "", "first half of a surrogate pair"},
    {"syntax-low-surrogate.json", read_bag, 4, "", "second half of a surrogate pair"},
    {"syntax-control.json", read_bag, 4, "", "found a raw control character 0x1b in a string"},
    {"syntax-tab.json", read_bag, 4, "", "raw control character 0x09"},
    {"syntax-word.json", read_event, 10, "", "found True; expected a value"},
    {"syntax-wrong-bracket.json", read_pattern, 7, "", "found '}'; expected a comma or ]"},
    {"syntax-only-text.json", read_bag, 1, "", "found a; expected a value"},
    {"syntax-unit-behind-number.json", read_bag, 8, "", "found 320rpm; expected a number"},
    {"format-missing.json", read_bag, 2, "$.bowler", "the first key must be \"format\": \"settee-bag/1\""},
    {"format-second.json", read_event, 2, "$.name", "the first key must be \"format\""},
    {"format-other-kind.json", read_bag, 2, "$.format", "found \"settee-event/1\"; this program reads \"settee-bag/1\" here"},
    {"format-newer.json", read_pattern, 2, "$.format", "found \"settee-pattern/2\"; this program reads \"settee-pattern/1\" here"},
    {"format-number.json", read_theme, 2, "$.format", "found 1; this program reads \"settee-theme/1\""},
    {"format-array.json", read_bag, 1, "$", "found an array; allowed: an object whose first key is"},
    {"format-empty-object.json", read_rules, 1, "$", "the first key must be \"format\""},
    {"format-twice.json", read_event, 3, "$", "found the key \"format\" twice"},
    {"bag-unknown-key.json", read_bag, 20, "$.balls[0]", "unknown key \"rg\"; did you mean \"rg_in\"?"},
    {"bag-unknown-key-far.json", read_bag, 5, "$.bowler", "unknown key \"favourite_snack\"; known: name, hand, style, mph"},
    {"bag-unknown-key-apart.json", read_bag, 5, "$.bowler", "unknown key \"favourite_snack\""}, /* the key's line, not the value's */
    {"bag-unknown-top.json", read_bag, 15, "$", "unknown key \"ball\"; did you mean \"balls\"?"},
    {"bag-unknown-scatter.json", read_bag, 13, "$.bowler.scatter", "did you mean \"launch_deg\"?"},
    {"bag-twice-key.json", read_bag, 10, "$.bowler", "found the key \"rpm\" twice"},
    {"bag-rg-high.json", read_bag, 20, "$.balls[0].rg_in", "found 2.95; allowed: a number from 2.43 to 2.8 inches"},
    {"bag-rg-text.json", read_bag, 20, "$.balls[0].rg_in", "found \"2.48\"; allowed: a number from 2.43"},
    {"bag-rg-null.json", read_bag, 20, "$.balls[0].rg_in", "found null; allowed: a number"},
    {"bag-differential.json", read_bag, 21, "$.balls[0].differential_in", "found 0.5; allowed: a number from 0 to 0.08 inches"},
    {"bag-intermediate.json", read_bag, 22, "$.balls[0].intermediate_in", "found 0.06; allowed: at most the differential, 0.05 inches"},
    {"bag-pounds.json", read_bag, 19, "$.balls[0].pounds", "found 17; allowed: a number from 6 to 16 pounds"},
    {"bag-huge.json", read_bag, 8, "$.bowler.rpm", "found 1e999; allowed: a number from 50 to 650 rpm"},
    {"bag-slow.json", read_bag, 7, "$.bowler.mph", "found 7.9; allowed: a number from 8 to 28 mph"},
    {"bag-rotations-one.json", read_bag, 10, "$.bowler.rotation_range_deg", "found 1 numbers; allowed: exactly 2"},
    {"bag-rotations-order.json", read_bag, 10, "$.bowler.rotation_range_deg", "found 62 to 35 degrees; allowed: the smaller first"},
    {"bag-rotations-outside.json", read_bag, 10, "$.bowler.rotation_range_deg", "found 50 to 62 degrees; allowed: a range with rotation_deg, 48, in it"},
    {"bag-rotations-over.json", read_bag, 10, "$.bowler.rotation_range_deg[1]", "found 111; allowed: a number from 0 to 110 degrees"},
    {"bag-rotations-text.json", read_bag, 10, "$.bowler.rotation_range_deg", "found \"35-62\""},
    {"bag-rotation.json", read_bag, 9, "$.bowler.rotation_deg", "found -1; allowed: a number from 0 to 110 degrees"},
    {"bag-scatter-negative.json", read_bag, 13, "$.bowler.scatter.rpm", "found -9; allowed: a number from 0 to 100 rpm"},
    {"bag-hand.json", read_bag, 5, "$.bowler.hand", "unknown hand \"rihgt\"; did you mean \"right\"? Allowed: right, left"},
    {"bag-style.json", read_bag, 6, "$.bowler.style", "found 1; allowed: one-handed, two-handed, no-thumb"},
    {"bag-from.json", read_bag, 14, "$.bowler.from.mph", "unknown source \"guessed\"; allowed: said, preset, measured, learnt"},
    {"bag-kind.json", read_bag, 19, "$.balls[0].kind", "unknown kind of ball \"benchmak\"; did you mean \"benchmark\"?"},
    {"bag-cover.json", read_bag, 23, "$.balls[0].cover", "unknown cover \"solit\"; did you mean \"solid\"?"},
    {"bag-strength.json", read_bag, 24, "$.balls[0].cover_strength", "found 1.2; allowed: a number from 0.8 to 1.1"},
    {"bag-grit.json", read_bag, 25, "$.balls[0].surface.grit", "found 60; allowed: a number from 180 to 5000 grit"},
    {"bag-surface-both.json", read_bag, 25, "$.balls[0].surface", "found both \"grit\" and \"finish\"; allowed: one of them"},
    {"bag-surface-neither.json", read_bag, 25, "$.balls[0].surface", "found neither \"grit\" nor \"finish\""},
    {"bag-surface-word.json", read_bag, 25, "$.balls[0].surface", "found \"2000 grit\"; allowed: an object"},
    {"bag-finish.json", read_bag, 29, "$.balls[1].surface.finish", "unknown finish \"\"; allowed: compound, polish"},
    {"bag-layout.json", read_bag, 26, "$.balls[0].layout.pin_to_pap_in", "found 7; allowed: a number from 0 to 6.75 inches"},
    {"bag-slot-zero.json", read_bag, 27, "$.balls[0].slot", "found 0; allowed: a whole number from 1 to 6"},
    {"bag-slot-half.json", read_bag, 27, "$.balls[0].slot", "found 1.5; allowed: a whole number from 1 to 6"},
    {"bag-slot-twice.json", read_bag, 29, "$.balls[1].slot", "found \"glint\" in slot 1, where \"ember\" is"},
    {"bag-id-twice.json", read_bag, 29, "$.balls[1].id", "found the id \"ember\" a second time; $.balls[0] has it"},
    {"bag-id-space.json", read_bag, 17, "$.balls[0].id", "found \"em ber\"; allowed: 1 to 31 letters, digits, - or _"},
    {"bag-id-empty.json", read_bag, 17, "$.balls[0].id", "found \"\"; allowed: 1 to 31 letters"},
    {"bag-id-path.json", read_bag, 17, "$.balls[0].id", "letters, digits, - or _"},
    {"bag-id-missing.json", read_bag, 29, "$.balls[1]", "missing key \"id\""},
    {"bag-name-missing.json", read_bag, 3, "$.bowler", "missing key \"name\""},
    {"bag-name-long.json", read_bag, 4, "$.bowler.name", "found text of 48 bytes; allowed: at most 47"},
    {"bag-name-blank.json", read_bag, 4, "$.bowler.name", "allowed: text that is not empty"},
    {"bag-name-controls.json", read_bag, 4, "$.bowler.name", "allowed: text that is not empty"},
    {"bag-name-object.json", read_bag, 4, "$.bowler.name", "found an empty object; allowed: text of at most 47 bytes"},
    {"bag-no-balls.json", read_bag, 3, "$.balls", "found 0 balls; allowed: 1 to 40"},
    {"bag-balls-missing.json", read_bag, 1, "$", "missing key \"balls\""},
    {"bag-balls-object.json", read_bag, 3, "$.balls", "found an object; allowed: an array of balls"},
    {"bag-ball-number.json", read_bag, 4, "$.balls[0]", "found 7; allowed: an object"},
    {"bag-many-balls.json", read_bag, 3, "$.balls", "found 41 balls; allowed: 1 to 40"},
    {"pattern-no-oil.json", read_pattern, 1, "$", "found neither \"strokes\" nor \"readings\""},
    {"pattern-both.json", read_pattern, 1, "$", "found both \"strokes\" and \"readings\""},
    {"pattern-length.json", read_pattern, 5, "$.length_ft", "found 75; allowed: a number from 20 to 60 feet"},
    {"pattern-length-missing.json", read_pattern, 1, "$", "missing key \"length_ft\""},
    {"pattern-board-zero.json", read_pattern, 7, "$.strokes[0].boards[0]", "found 0; allowed: a whole number from 1 to 39"},
    {"pattern-board-half.json", read_pattern, 7, "$.strokes[0].boards[1]", "found 37.5; allowed: a whole number from 1 to 39"},
    {"pattern-board-order.json", read_pattern, 8, "$.strokes[1].boards", "found boards 29 to 11; allowed: the lower board first"},
    {"pattern-board-three.json", read_pattern, 8, "$.strokes[1].boards", "found 3 numbers; allowed: exactly 2"},
    {"pattern-feet-past.json", read_pattern, 7, "$.strokes[0].feet[1]", "found 41; allowed: a number from 0 to 40 feet, the length"},
    {"pattern-feet-order.json", read_pattern, 8, "$.strokes[1].feet", "found 35.5 to 35.5 feet; allowed: a start before the end"},
    {"pattern-units.json", read_pattern, 7, "$.strokes[0].units[1]", "found 201; allowed: a number from 0 to 200 units"},
    {"pattern-units-missing.json", read_pattern, 7, "$.strokes[0]", "missing key \"units\""},
    {"pattern-strokes-empty.json", read_pattern, 2, "$.strokes", "found 0 strokes; allowed: 1 to 64"},
    {"pattern-many-strokes.json", read_pattern, 2, "$.strokes", "found 65 strokes; allowed: 1 to 64"},
    {"pattern-readings-order.json", read_pattern, 7, "$.readings[1].ft", "found 8 feet after 8; allowed: readings by rising distance"},
    {"pattern-readings-38.json", read_pattern, 7, "$.readings[1].units", "found 38 numbers; allowed: exactly 39"},
    {"pattern-readings-negative.json", read_pattern, 6, "$.readings[0].units[2]", "found -7; allowed: a number from 0 to 200 units"},
    {"pattern-readings-past.json", read_pattern, 8, "$.readings[2].ft", "found 39; allowed: a number from 0 to 38.5 feet, the length"},
    {"event-date.json", read_event, 4, "$.date", "found \"2026-02-29\"; allowed: a date such as 2026-05-17"},
    {"event-date-words.json", read_event, 4, "$.date", "allowed: a date such as"},
    {"event-date-controls.json", read_event, 4, "$.date", "allowed: a date such as"},
    {"event-pair-same.json", read_event, 7, "$.pair", "found lane 11 twice"},
    {"event-pair-one.json", read_event, 7, "$.pair", "found 1 lanes; allowed: exactly 2"},
    {"event-pair-zero.json", read_event, 7, "$.pair[0]", "found 0; allowed: a whole number from 1 to 99"},
    {"event-about-key.json", read_event, 4, "$.pattern.about", "unknown key \"lenght_ft\"; did you mean \"length_ft\"?"},
    {"event-about-length.json", read_event, 4, "$.pattern.about.length_ft", "found 75; allowed: a number from 20 to 60 feet"},
    {"event-about-name.json", read_event, 4, "$.pattern", "found '41 ft'; allowed: about:nothing, about:house, or a length"},
    {"event-about-number.json", read_event, 4, "$.pattern.about", "found 41; allowed: an object"},
    {"event-about-other.json", read_event, 4, "$.pattern", "unknown key \"sheet\"; known: about"},
    {"event-about-ratio.json", read_event, 4, "$.pattern", "found ratio 20; allowed: a number from 1 to 12"},
    {"event-pairs-and-pair.json", read_event, 8, "$.pairs", "found \"pairs\" and \"pair\"; allowed: one of them"},
    {"event-pairs-many.json", read_event, 7, "$.pairs", "found 5 pairs; allowed: 1 to 4"},
    {"event-pairs-none.json", read_event, 7, "$.pairs", "found 0 pairs; allowed: 1 to 4"},
    {"event-pairs-same.json", read_event, 7, "$.pairs[1]", "found lane 13 twice; a pair has two"},
    {"event-pairs-three.json", read_event, 7, "$.pairs[1]", "found 3 lanes; allowed: exactly 2"},
    {"event-move-house.json", read_event, 8, "$.move", "lanes 11 and 12 are not in a house of 10 lanes"},
    {"event-move-lanes.json", read_event, 8, "$.move", "missing key \"lanes\""},
    {"event-move-past.json", read_event, 8, "$.move", "game 4 would be on lane -1; allowed: 1 to 99"},
    {"event-move-side.json", read_event, 8, "$.move.to", "unknown side \"up\"; allowed: right, left"},
    {"event-warm-up.json", read_event, 8, "$.warm_up", "found 10; allowed: true or false"},
    {"event-games.json", read_event, 8, "$.games", "found 25; allowed: a whole number from 1 to 24"},
    {"bag-spare-release.json", read_bag, 14, "$.bowler.spare_release.rotation_deg", "found 160; allowed: a number from 0 to 110 degrees"},
    {"event-field.json", read_event, 9, "$.field", "found 3 others; allowed: at most 2, since 3 share the pair"},
    {"event-field-urethane.json", read_event, 9, "$.field", "found 3 with urethane; allowed: at most 2, the others on the pair"},
    {"event-bowlers.json", read_event, 9, "$.bowlers_on_pair", "found 11; allowed: a whole number from 1 to 10"},
    {"event-certified.json", read_event, 10, "$.certified", "found \"yes\"; allowed: true or false"},
    {"event-certified-missing.json", read_event, 1, "$", "missing key \"certified\""},
    {"event-no-bag.json", read_event, 6, "$.bag", "no such file"},
    {"event-no-pattern.json", read_event, 5, "$.pattern", "found \"no-such-pattern\": no such file"},
    {"theme-role.json", read_theme, 6, "$.roles", "unknown key \"acent\"; did you mean \"accent\"?"},
    {"theme-colour.json", read_theme, 5, "$.roles.plain.foreground", "unknown colour \"wite\"; did you mean \"white\"? Allowed: default, black"},
    {"theme-hex.json", read_theme, 6, "$.roles.accent.foreground", "found \"#20A0f\"; allowed: # and six hexadecimal digits"},
    {"theme-hex-controls.json", read_theme, 6, "$.roles.accent.foreground", "allowed: # and six hexadecimal digits"},
    {"theme-colour-number.json", read_theme, 7, "$.roles.bad.foreground", "found 16711680; allowed: a colour such as"},
    {"theme-weight.json", read_theme, 7, "$.roles.bad.weight", "unknown weight \"blink\"; allowed: plain, bold, underline, reverse"},
    {"keys-place.json", read_keys, 5, "$.keys[1].in", "unknown place \"lanes\""},
    {"keys-reserved.json", read_keys, 5, "$.keys[1].key", "found \"Esc\"; allowed: one ASCII character, Space"},
    {"keys-help.json", read_keys, 5, "$.keys[1].key", "found \"?\"; allowed: one ASCII character"},
    {"keys-long.json", read_keys, 5, "$.keys[1].key", "found \"xx\"; allowed: one ASCII character"},
    {"keys-number.json", read_keys, 5, "$.keys[1].key", "found 7; allowed: one ASCII character"},
    {"keys-missing.json", read_keys, 5, "$.keys[1]", "\"key\""},
    {"keys-id.json", read_keys, 5, "$.keys[1].action", "found \"look bag\""},
    {"keys-object.json", read_keys, 1, "$.keys", "found an object"},
    {"theme-weight-item.json", read_theme, 6, "$.roles.accent.weight[1]", "found 7; allowed: plain, bold, underline, reverse"},
    {"theme-style-key.json", read_theme, 5, "$.roles.plain", "unknown key \"back\"; did you mean \"background\"?"},
    {"theme-roles-array.json", read_theme, 2, "$.roles", "found an empty array; allowed: an object"},
    {"rules-sign.json", read_rules, 6, "$.rules[0].when[0]", "unknown sign \"high-twise\"; did you mean \"high-twice\"?"},
    {"rules-action.json", read_rules, 8, "$.rules[0].try[1]", "unknown action \"balldown\"; did you mean \"ball-down\"?"},
    {"rules-try-avoid.json", read_rules, 9, "$.rules[0].avoid[0]", "found \"move-in\" in \"try\" and in \"avoid\""},
    {"rules-when-unless.json", read_rules, 7, "$.rules[0].unless[0]", "found \"worn\" in \"when\" and in \"unless\""},
    {"rules-sign-twice.json", read_rules, 6, "$.rules[0].when[1]", "found \"worn\" twice in \"when\""},
    {"rules-when-empty.json", read_rules, 6, "$.rules[0].when", "found 0 signs; allowed: 1 to 8"},
    {"rules-when-many.json", read_rules, 6, "$.rules[0].when", "found 9 signs; allowed: 1 to 8"},
    {"rules-try-missing.json", read_rules, 14, "$.rules[1]", "missing key \"try\""},
    {"rules-weight.json", read_rules, 10, "$.rules[0].weight", "found 6; allowed: a whole number from 1 to 5"},
    {"rules-id-twice.json", read_rules, 15, "$.rules[1].id", "found the id \"high-twice-move\" a second time; $.rules[0] has it"},
    {"rules-source-empty.json", read_rules, 12, "$.rules[0].source", "allowed: text that is not empty"},
    {"lesson-level.json", read_lesson, 4, "$.level", "found 6; allowed: a whole number from 1 to 5"},
    {"lesson-skill.json", read_lesson, 5, "$.skill", "unknown skill \"feets\"; did you mean \"feet\"? Allowed: aim, feet, speed, read, pins, ball, m"},
    {"lesson-brace.json", read_lesson, 6, "$.words", "found a brace that means nothing here; allowed: {in}, {out} and {pin 1} to {pin 10}"},
    {"lesson-brace-pin.json", read_lesson, 20, "$.question.answers[0].say", "found a brace that means nothing here; allowed: {in}, {out} and {pin 1} to {pin 10}"},
    {"lesson-brace-open.json", read_lesson, 28, "$.why", "found a brace that means nothing here; allowed: {in}, {out} and {pin 1} to {pin 10}"},
    {"lesson-for-empty.json", read_lesson, 7, "$.for", "found 0 kinds of ball; allowed: 1 to 2"},
    {"lesson-for-twice.json", read_lesson, 7, "$.for[1]", "found \"hook\" twice"},
    {"lesson-for-word.json", read_lesson, 7, "$.for[0]", "unknown kind of ball \"hooks\"; did you mean \"hook\"? Allowed: straight, hook"},
    {"lesson-lane-missing.json", read_lesson, 1, "$", "missing key \"lane\""},
    {"lesson-lane-both.json", read_lesson, 8, "$.lane", "found both \"oil_by\" and \"suits\"; allowed: one of them"},
    {"lesson-ball.json", read_lesson, 8, "$.lane.ball", "unknown ball \"strongest\"; did you mean \"strong\"? Allowed: strong, middle, weak, spare"},
    {"lesson-oil.json", read_lesson, 8, "$.lane.oil_by", "found -9; allowed: a number from -8 to 8 boards"},
    {"lesson-worn.json", read_lesson, 8, "$.lane.worn_by", "found -1; allowed: a number from 0 to 8 boards"},
    {"lesson-start-key.json", read_lesson, 9, "$.start", "unknown key \"foot\"; did you mean \"feet\"?"},
    {"lesson-start-ball.json", read_lesson, 9, "$.start", "unknown key \"ball\"; known: feet, eyes, mph, loft_ft, rotation_deg"},
    {"lesson-loft.json", read_lesson, 9, "$.start.loft_ft", "found 3; allowed: a number from -3 to 1 feet"},
    {"lesson-shots-missing.json", read_lesson, 1, "$", "missing key \"shots\""},
    {"lesson-shots-four.json", read_lesson, 13, "$.shots", "found 4 shots; allowed: 1 to 3"},
    {"lesson-shot-pin.json", read_lesson, 15, "$.shots[1].left[1]", "found 11; allowed: a whole number from 1 to 10"},
    {"lesson-shot-pin-twice.json", read_lesson, 15, "$.shots[1].left[1]", "found pin 2 twice"},
    {"lesson-question-missing.json", read_lesson, 1, "$", "missing key \"question\""},
    {"lesson-answer-one.json", read_lesson, 19, "$.question.answers", "found 1 answers; allowed: 2 to 4"},
    {"lesson-answer-right.json", read_lesson, 19, "$.question.answers", "found no right answer; one has \"right\": true"},
    {"lesson-answer-two-right.json", read_lesson, 21, "$.question.answers[1]", "found a second right answer; allowed: one"},
    {"lesson-answer-is.json", read_lesson, 20, "$.question.answers[0].is", "unknown sight \"thin\"; allowed: gutter, light, pocket, high, mixed, early, late, slow, fast"},
    {"lesson-answer-no-shot.json", read_lesson, 10, "$.question.answers[0]", "found \"is\", but no shot rolls"},
    {"lesson-choices-one.json", read_lesson, 24, "$.choices", "found 1 choices; allowed: 2 to 4"},
    {"lesson-choice-right.json", read_lesson, 24, "$.choices", "found no right choice; one has \"right\": true"},
    {"lesson-choice-two-right.json", read_lesson, 26, "$.choices[1]", "found a second right choice; allowed: one"},
    {"lesson-choice-key.json", read_lesson, 26, "$.choices[1]", "unknown key \"dose\"; did you mean \"does\"?"},
    {"lesson-choice-say.json", read_lesson, 25, "$.choices[0]", "missing key \"say\""},
    {"lesson-choice-pin.json", read_lesson, 25, "$.choices[0].pin", "\"pin\" is for spare lessons, which have \"left\""},
    {"lesson-choice-marks.json", read_lesson, 25, "$.choices[0].marks", "\"marks\" is for score lessons"},
    {"lesson-choice-beside.json", read_lesson, 12, "$.choices[1].beside", "\"beside\" needs \"pin\""},
    {"lesson-choice-other-pin.json", read_lesson, 12, "$.choices[1]", "found pin 7, which is not among those left"},
    {"lesson-claim-missing.json", read_lesson, 1, "$", "missing key \"claim\""},
    {"lesson-claim-points.json", read_lesson, 31, "$.claim.points", "found 0; allowed: a number from 1 to 100 points"},
    {"lesson-claim-count.json", read_lesson, 31, "$.claim.count", "found \"spare\"; allowed without \"left\": not spare"},
    {"lesson-claim-pocket.json", read_lesson, 16, "$.claim.count", "found \"pocket\"; allowed in a spare lesson: spare"},
    {"lesson-caution.json", read_lesson, 30, "$.caution", "unknown caution \"warmup\"; did you mean \"warm-up\"? Allowed: weight, fit, warm-up, pain, ret"},
    {"lesson-left-empty.json", read_lesson, 9, "$.left", "found no pin; allowed: 1 to 10 pins"},
    {"lesson-left-shot.json", read_lesson, 10, "$.shots[0].left", "a spare lesson says once what was left, in $.left"},
    {"lesson-left-score.json", read_lesson, 10, "$.score", "found both \"left\" and \"score\"; allowed: one of them"},
    {"lesson-score-lane.json", read_lesson, 8, "$.lane", "a score lesson has no \"lane\": nothing is thrown in it"},
    {"lesson-score-balls.json", read_lesson, 8, "$.score.balls", "frame 3, ball 2: 3 pins, but only 1 stands"},
    {"lesson-score-target.json", read_lesson, 8, "$.score.target", "found 301; allowed: a whole number from 1 to 300"},
    {"lesson-score-marks.json", read_lesson, 10, "$.choices[0]", "missing key \"marks\": a score lesson's choices say how many"},
    {"lesson-steady.json", read_lesson, 11, "$.steady", "found 1.5; allowed: a number from 0.1 to 1 times the scatter"},
    {"lesson-format.json", read_lesson, 2, "$.format", "found \"settee-lesson/2\"; this program reads \"settee-lesson/1\" here"},
    {"shots-no-slot.json", read_shots, 3, "$[1]", "missing key \"slot\""},
    {"shots-nothing-seen.json", read_shots, 3, "$[1]", "found neither \"hit\" nor \"left\""},
    {"shots-pin-eleven.json", read_shots, 4, "$[2].left[0]", "found 11; allowed: a whole number from 1 to 10"},
    {"shots-spare-of-nothing.json", read_shots, 2, "$[0].spare", "found what a spare left; allowed: only after"},
    {"shots-spare-foul.json", read_shots, 3, "$[1]", "found a \"spare_foul\"; allowed: only with"},
    {"shots-spare-pin.json", read_shots, 3, "$[1].spare", "found pin 10, which is not among"},
    {"shots-pin-twice.json", read_shots, 4, "$[2].left[2]", "found pin 7 twice"},
    {"shots-flush-head-pin.json", read_shots, 3, "$[1]", "that hit takes the 1 pin down; allowed with the 1: wide, thin or crossed"},
    {"shots-wide-strike.json", read_shots, 3, "$[1]", "wide misses the head pin, so no strike; allowed: thin"},
    {"shots-gutter-three.json", read_shots, 3, "$[1]", "a gutter ball leaves all ten; allowed: 1 to 10"},
    {"shots-ringing-two.json", read_shots, 3, "$[1]", "only a 7 or a 10 that stands alone can be ringing"},
    {"shots-hit.json", read_shots, 3, "$[1].hit", "unknown hit \"ligth\"; did you mean \"light\"? Allowed: gutter, wide, thin"},
    {"shots-hit-empty.json", read_shots, 3, "$[1].hit", "unknown hit \"\"; allowed: gutter"},
    {"shots-stance.json", read_shots, 2, "$[0].stance", "found 61; allowed: a number from -10 to 60 boards"},
    {"shots-mph.json", read_shots, 2, "$[0].mph", "found 4; allowed: a number from 5 to 35 mph"},
    {"shots-arrows.json", read_shots, 2, "$[0].arrows", "found 39.5; allowed: a number from 1 to 39 boards"},
    {"shots-breakpoint.json", read_shots, 3, "$[1].breakpoint", "found 0; allowed: a number from 1 to 39 boards"},
    {"shots-lane.json", read_shots, 4, "$[2].lane", "unknown lane \"middle\"; allowed: left, right"},
    {"shots-word.json", read_shots, 1, "$", "found \"none\"; allowed: an array of shots, or one object per line"},
    {"shots-lines-slot.jsonl", read_shots, 3, "$.slot", "found 7; allowed: a whole number from 1 to 6"},
    {"shots-lines-syntax.jsonl", read_shots, 3, "", "found a string; expected a comma or }"},
    {"shots-lines-key.jsonl", read_shots, 3, "$", "unknown key \"am\"; did you mean \"aim\"?"},
    {"shots-lines-two-on-one.jsonl", read_shots, 1, "", "found '{'; expected nothing more"},
};
/* clang-format on */
enum { CASE_COUNT = sizeof CASES / sizeof CASES[0] };

/* What a terminal may be given: one line, valid, without control characters. */
static void assert_one_line(const Error *error)
{
    char line[ERROR_LINE_MAX], clean[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    assert_true(strlen(line) > 0);
    assert_true(text_clean(clean, sizeof clean, line));
    assert_null(strchr(line, '\n'));
}

static void assert_fault(const Error *error, int line, const char *where, const char *text)
{
    assert_one_line(error);
    if (!strstr(error->text, text))
        fail_msg("\"%s\" does not hold \"%s\"", error->text, text);
    assert_string_equal(error->where, where);
    assert_int_equal(error->line, line);
}

static void test_case(void **state)
{
    const Case *row = *state;
    char path[512];
    snprintf(path, sizeof path, "%s/tests/data/bad/%s", SETTEE_SOURCE_DIR, row->file);
    Error error = {0};
    assert_false(row->read(path, &error));
    assert_string_equal(error.file, path);
    assert_fault(&error, row->line, row->where, row->text);
    assert_false(row->read(path, NULL)); /* nobody has to listen */
}

/* `settee check` must refuse the same files, whatever kind it takes them for. */
static void test_check(void **state)
{
    const Case *row = *state;
    char path[512];
    const char *kind = NULL;
    snprintf(path, sizeof path, "%s/tests/data/bad/%s", SETTEE_SOURCE_DIR, row->file);
    Error error = {0};
    assert_false(files_check(path, &kind, &error));
    assert_non_null(kind);
    assert_one_line(&error);
    if (strncmp(row->file, "format", 6) != 0) /* those are read as what they say they are */
        assert_int_equal(error.line, row->line);
}

/* ---- files that are made here ---- */

static char folder[64];
static char made[128];

static const char *write_made(const char *name, const void *bytes, size_t size)
{
    snprintf(made, sizeof made, "%s/%s", folder, name);
    FILE *file = fopen(made, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
    return made;
}

static int make_folder(void **state)
{
    (void)state;
    strcpy(folder, "/tmp/settee-bad-XXXXXX");
    return mkdtemp(folder) ? 0 : 1;
}

static int remove_folder(void **state)
{
    (void)state;
    if (made[0])
        unlink(made);
    return rmdir(folder);
}

static void assert_made(const void *bytes, size_t size, int line, const char *text)
{
    Error error = {0};
    const char *kind;
    write_made("made.json", bytes, size);
    assert_false(files_bag(made, &bag, &error));
    assert_fault(&error, line, "", text);
    assert_false(files_check(made, &kind, &error));
    assert_one_line(&error);
}

static void test_empty(void **state)
{
    (void)state;
    assert_made("", 0, 0, "the file is empty; expected a JSON text");
}

static void test_blank(void **state)
{
    (void)state;
    assert_made(" \n\t\r\n", 5, 0, "the file is empty");
}

static void test_only_a_mark(void **state)
{
    (void)state;
    assert_made("\xef\xbb\xbf", 3, 0, "the file is empty");
}

static void test_nul(void **state)
{
    (void)state;
    assert_made("{\n\"format\":\0\"settee-bag/1\"}", 27, 2, "found a NUL byte at offset 11");
}

static void test_wide_characters(void **state)
{
    (void)state;
    assert_made("\xff\xfe{\0}\0", 6, 1, "found byte 0xff at offset 0, which is not UTF-8");
}

static void test_not_utf8(void **state)
{
    (void)state;
    const char text[] = "{\"format\": \"settee-bag/1\",\n\n \"name\": \"Caf\xe9\"}";
    assert_made(text, sizeof text - 1, 3, "found byte 0xe9 at offset 41, which is not UTF-8");
}

static void test_overlong(void **state)
{
    (void)state;
    assert_made("{\"\xc0\xaf\": 1}", 9, 1, "found byte 0xc0 at offset 2");
}

static void test_surrogate_bytes(void **state)
{
    (void)state;
    assert_made("{\"\xed\xa0\x80\": 1}", 10, 1, "found byte 0xed at offset 2");
}

static void test_binary(void **state)
{
    (void)state;
    unsigned char bytes[4096];
    for (size_t i = 0; i < sizeof bytes; i++)
        bytes[i] = (unsigned char)(i * 37 + 129);
    assert_made(bytes, sizeof bytes, 1, "found byte 0x81 at offset 0, which is not UTF-8");
}

static void test_deep(void **state)
{
    (void)state;
    char text[33];
    memset(text, '[', sizeof text);
    assert_made(text, 33, 1, "found values nested more than 32 deep");
    assert_made(text, 32, 1, "found the end of the text");
}

/* Half a million of them would run a recursive reader out of stack. */
static void test_very_deep(void **state)
{
    (void)state;
    size_t size = FILES_BYTES_MAX / 2;
    char *text = malloc(size);
    assert_non_null(text);
    memset(text, '[', size);
    assert_made(text, size, 1, "found values nested more than 32 deep");
    for (size_t i = 0; i + 5 <= size; i += 5)
        memcpy(text + i, "{\"a\":", 5);
    assert_made(text, size, 1, "found values nested more than 32 deep");
    free(text);
}

/* A hundred thousand unknown keys, and as many of one name: refused at the first. */
static void test_many_keys(void **state)
{
    (void)state;
    size_t used = 0, room = FILES_BYTES_MAX;
    char *text = malloc(room);
    assert_non_null(text);
    used = (size_t)sprintf(text, "{\"format\": \"settee-bag/1\"");
    for (int i = 0; i < 60000; i++)
        used += (size_t)sprintf(text + used, ",\n\"k%d\": 1", i);
    text[used++] = '}';
    Error error = {0};
    write_made("made.json", text, used);
    assert_false(files_bag(made, &bag, &error));
    assert_fault(&error, 2, "$", "unknown key \"k0\"");
    free(text);
}

static void test_too_large(void **state)
{
    (void)state;
    Error error = {0};
    const char *kind;
    write_made("made.json", "", 0);
    assert_int_equal(truncate(made, 100L << 20), 0); /* 100 MB of holes */
    assert_false(files_bag(made, &bag, &error));
    assert_fault(&error, 0, "", "found more than 1048576 bytes; allowed: files of at most that");
    assert_false(files_check(made, &kind, &error));
    assert_fault(&error, 0, "", "found more than 1048576 bytes");
    assert_int_equal(truncate(made, FILES_BYTES_MAX + 1), 0);
    assert_false(files_bag(made, &bag, &error));
    assert_fault(&error, 0, "", "found more than 1048576 bytes");
    assert_int_equal(truncate(made, FILES_BYTES_MAX), 0);
    assert_false(files_bag(made, &bag, &error));
    assert_fault(&error, 1, "", "found a NUL byte at offset 0");
}

static void test_endless_device(void **state)
{
    (void)state;
    Error error = {0};
    assert_false(files_bag("/dev/zero", &bag, &error));
    assert_fault(&error, 0, "", "found a pipe or a device");
}

static void test_endless_pipe(void **state)
{
    (void)state;
    Error error = {0};
    int keep = dup(STDIN_FILENO), zero = open("/dev/zero", O_RDONLY);
    assert_true(keep >= 0 && zero >= 0 && dup2(zero, STDIN_FILENO) >= 0);
    bool read = files_bag("-", &bag, &error);
    dup2(keep, STDIN_FILENO);
    close(keep);
    close(zero);
    assert_false(read);
    assert_string_equal(error.file, "<stdin>");
    assert_fault(&error, 0, "", "found more than 1048576 bytes");
}

static void test_folder(void **state)
{
    (void)state;
    Error error = {0};
    assert_false(files_bag(folder, &bag, &error));
    assert_fault(&error, 0, "", "found a folder; expected a file");
}

static void test_missing(void **state)
{
    (void)state;
    Error error = {0};
    assert_false(files_bag("/no/such/bag.json", &bag, &error));
    assert_string_equal(error.file, "/no/such/bag.json");
    assert_fault(&error, 0, "", "no such file");
    assert_false(files_bag("", &bag, &error));
    assert_one_line(&error);
}

/* A name is shown too, and may hold anything. */
static void test_name_with_controls(void **state)
{
    (void)state;
    Error error = {0};
    assert_false(files_bag("/no/such\x1b[2J\n.json", &bag, &error));
    assert_fault(&error, 0, "", "no such file");
    char name[5000];
    memset(name, 'n', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    assert_false(files_bag(name, &bag, &error));
    assert_one_line(&error);
}

/* A long line of rubbish is not repeated in full. */
static void test_long_value(void **state)
{
    (void)state;
    char text[8192];
    int used =
        sprintf(text, "{\"format\": \"settee-bag/1\", \"bowler\": {\"name\": \"A\", \"hand\": \"");
    memset(text + used, 'x', 4000);
    strcpy(text + used + 4000, "\"}, \"balls\": []}");
    Error error = {0};
    write_made("made.json", text, strlen(text));
    assert_false(files_bag(made, &bag, &error));
    assert_fault(&error, 1, "$.bowler.hand", "xxx...; allowed: right, left");
}

static void test_too_many_shots(void **state)
{
    (void)state;
    char text[512];
    int used = 0, count;
    for (int i = 0; i < 4; i++)
        used += sprintf(text + used, "{\"slot\": 1, \"hit\": \"flush\"}\n");
    Error error = {0};
    write_made("made.json", text, (size_t)used);
    assert_false(files_shots(made, shots, 3, &count, &error));
    assert_fault(&error, 4, "", "found more than 3 shots; allowed: at most that");
    assert_true(files_shots(made, shots, 4, &count, &error));
    assert_int_equal(count, 4);
}

#define MADE(function)                                                                             \
    {                                                                                              \
#function, function, NULL, NULL, NULL                                                      \
    }

int main(void)
{
    static const struct CMUnitTest MADE_TESTS[] = {
        MADE(test_empty),      MADE(test_blank),           MADE(test_only_a_mark),
        MADE(test_nul),        MADE(test_wide_characters), MADE(test_not_utf8),
        MADE(test_overlong),   MADE(test_surrogate_bytes), MADE(test_binary),
        MADE(test_deep),       MADE(test_very_deep),       MADE(test_many_keys),
        MADE(test_too_large),  MADE(test_endless_device),  MADE(test_endless_pipe),
        MADE(test_folder),     MADE(test_missing),         MADE(test_name_with_controls),
        MADE(test_long_value), MADE(test_too_many_shots)};
    enum { MADE_COUNT = sizeof MADE_TESTS / sizeof MADE_TESTS[0] };
    static struct CMUnitTest tests[2 * CASE_COUNT + MADE_COUNT];
    static char check_names[CASE_COUNT][64];
    for (int i = 0; i < CASE_COUNT; i++) {
        snprintf(check_names[i], sizeof check_names[i], "check %s", CASES[i].file);
        void *row = (void *)(uintptr_t)&CASES[i];
        tests[2 * i] = (struct CMUnitTest){CASES[i].file, test_case, NULL, NULL, row};
        tests[2 * i + 1] = (struct CMUnitTest){check_names[i], test_check, NULL, NULL, row};
    }
    memcpy(tests + 2 * CASE_COUNT, MADE_TESTS, sizeof MADE_TESTS);
    return cmocka_run_group_tests_name("bad files", tests, make_folder, remove_folder);
}
