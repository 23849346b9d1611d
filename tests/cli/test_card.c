/* test_card.c - settee card: the text fits a phone, the drawing and the page are what a strict
 * parser takes (Python's, of XML and of HTML), whatever names the files hold, and everything drawn
 * is on the sheet. The figures are those of block and spare. */
#define _XOPEN_SOURCE 700
#include "played.h"

#include "helper_run.h"

#include "base/text.h"

#define HOME "config/settee/"
#define AT(...) run_at(played_home, NULL, (const char *const[]){__VA_ARGS__, NULL})

enum { PHONE = 40 };

/* Names with all that XML and HTML treat as their own, and characters that XML has not. */
#define NASTY "<i>Lo & \\\"x\\\" 'y' ]]> \\uffff \\u202e"

static int begin(void **state)
{
    if (played_begin(state) != 0)
        return 1;
    played_bag(HOME "bags/left.json", NASTY, "left");
    played_bag(HOME "bags/plain.json", "Odile Farrow", "right");
    played_write(HOME "events/nasty.json",
                 "{\"format\": \"settee-event/1\", \"name\": \"" NASTY
                 "\", \"pattern\": \"latch\", "
                 "\"bag\": \"left\", \"games\": 2, \"certified\": false}");
    played_event(HOME "events/four.json", "Four games", "2026-04-18", "apron", "plain");
    played_write(HOME "events/long.json",
                 "{\"format\": \"settee-event/1\", \"name\": \"Long\", \"pattern\": \"apron\", "
                 "\"bag\": \"plain\", \"games\": 24, \"bowlers_on_pair\": 2, \"certified\": true}");
    played_write(HOME "events/moves.json",
                 "{\"format\": \"settee-event/1\", \"name\": \"Moves\", \"pattern\": \"apron\", "
                 "\"bag\": \"plain\", \"games\": 3, \"pairs\": [[7, 8], [7, 8], [21, 22]], "
                 "\"certified\": true}");
    return 0;
}

/* What Python's parsers say of the text; 0: well-formed, with the words in it. */
static int parsed(const char *script, const char *text)
{
    char command[2048];
    played_write("card", text);
    assert_true((size_t)snprintf(command, sizeof command, "python3 -c '%s' < '%s'", script,
                                 played_path("card")) < sizeof command);
    return system(command);
}

/* Exits with 1 where something is not on the sheet, raises where it is not well-formed. */
static const char XML[] =
    "import sys, xml.etree.ElementTree as e\n"
    "top = e.fromstring(sys.stdin.buffer.read())\n"
    "side = {\"x\": 210, \"cx\": 210, \"x1\": 210, \"x2\": 210, \"y\": 297, \"cy\": 297}\n"
    "for node in top.iter():\n"
    "    for key, most in side.items():\n"
    "        if not 0 <= float(node.get(key, 1)) <= most:\n"
    "            sys.exit(1)\n"
    "words = [node.text for node in top.iter() if node.tag.endswith(\"text\")]\n"
    "sys.exit(len(words) < 40 or not all(words))\n";
static const char HTML[] =
    "import sys, html.parser as h\n"
    "class P(h.HTMLParser):\n"
    "    open, words = [], []\n"
    "    def handle_starttag(self, tag, given):\n"
    "        if tag not in (\"meta\", \"br\"):\n"
    "            self.open.append(tag)\n"
    "    def handle_endtag(self, tag):\n"
    "        assert self.open.pop() == tag, tag\n"
    "    def handle_data(self, text):\n"
    "        self.words.append(text.strip())\n"
    "p = P()\n"
    "p.feed(sys.stdin.buffer.read().decode(\"utf-8\"))\n"
    "p.close()\n"
    "sys.exit(bool(p.open) or len([w for w in p.words if w]) < 60 or \"i\" in p.open)\n";

static void every_kind_is_well_formed(void **state)
{
    (void)state;
    static const char *const EVENTS[] = {"four", "nasty"};
    for (size_t i = 0; i < sizeof EVENTS / sizeof *EVENTS; i++) {
        Run svg = AT("card", EVENTS[i], "--svg"), html = AT("card", EVENTS[i], "--html");
        Run text = AT("card", EVENTS[i]);
        run_is(&svg, 0);
        run_is(&html, 0);
        run_is(&text, 0);
        if (parsed(XML, svg.out) != 0 || parsed(HTML, html.out) != 0)
            fail_msg("the card of %s is not well-formed", EVENTS[i]);
        if (strstr(svg.out, "<i>") || strstr(html.out, "<i>"))
            fail_msg("a name of %s became an element", EVENTS[i]);
        assert_in_range(widest_line(text.out), 20, PHONE);
        run_free(&svg);
        run_free(&html);
        run_free(&text);
    }
}

static void the_longest_event_is_on_one_sheet(void **state)
{
    (void)state;
    Run svg = AT("card", "long", "--svg");
    run_is(&svg, 0);
    assert_int_equal(parsed(XML, svg.out), 0);
    run_free(&svg);
}

/* The parsers do refuse: a test that never fails holds nothing. */
static void the_parsers_refuse_what_is_broken(void **state)
{
    (void)state;
    assert_int_not_equal(parsed(XML, "<svg><text>a</svg>"), 0);
    assert_int_not_equal(parsed(HTML, "<p><b>a</p></b>"), 0);
}

static void figures_are_those_of_block_and_spare(void **state)
{
    (void)state;
    Run card = AT("card", "four", "--json");
    Run block = AT("block", "--bag", "plain", "--pattern", "apron", "--games", "4", "--bowlers",
                   "1", "--json");
    cJSON *on_card = run_json(&card), *planned = run_json(&block);
    for (int game = 0; game < 4; game++)
        for (int lane = 0; lane < 2; lane++) {
            static const char *const KEYS[] = {"stance", "aim"};
            for (int i = 0; i < 2; i++) {
                char path[64], other[64];
                snprintf(path, sizeof path, "games.%d.%s.%s", game, lane ? "right" : "left",
                         KEYS[i]);
                snprintf(other, sizeof other, "games.%d.lanes.%d.%s", game, lane, KEYS[i]);
                assert_near(json_at(on_card, path), json_at(planned, other), 1e-9);
            }
        }
    char slot[16], stance[16], aim[16];
    snprintf(slot, sizeof slot, "%g", json_at(on_card, "games.0.left.slot"));
    snprintf(stance, sizeof stance, "%g", json_at(on_card, "games.0.left.stance"));
    snprintf(aim, sizeof aim, "%g", json_at(on_card, "games.0.left.aim"));
    Run spare = AT("spare", "7", "--bag", "plain", "--pattern", "apron", "--slot", slot, "--stance",
                   stance, "--aim", aim, "--json");
    cJSON *seven = run_json(&spare);
    assert_near(json_at(on_card, "spares.0.pins.0"), 7, 0);
    assert_near(json_at(on_card, "spares.0.line.stance"), json_at(seven, "stance"), 1e-9);
    assert_near(json_at(on_card, "spares.0.line.aim"), json_at(seven, "aim"), 1e-9);
    assert_near(json_at(on_card, "spares.0.line.chance"), json_at(seven, "chance"), 1e-3);
    cJSON_Delete(on_card);
    cJSON_Delete(planned);
    cJSON_Delete(seven);
    run_free(&card);
    run_free(&block);
    run_free(&spare);
}

/* Every kind names the lanes of each game, and says what is assumed of the new pair. */
static void an_event_that_moves(void **state)
{
    (void)state;
    static const char *const KINDS[] = {"--svg", "--html", NULL};
    for (int i = 0; i < 3; i++) {
        Run moves = AT("card", "moves", KINDS[i]), stays = AT("card", "four", KINDS[i]);
        run_is(&moves, 0);
        run_is(&stays, 0);
        for (char *end = moves.out; (end = strchr(end, '\n'));) /* a phone's lines are short */
            *end = ' ';
        assert_non_null(strstr(moves.out, "moving after some"));
        assert_non_null(strstr(moves.out, "as worn as the one"));
        assert_non_null(strstr(moves.out, i == 2 ? "lane 21" : ">21<"));
        assert_null(strstr(stays.out, "as worn as the one"));
        run_free(&moves);
        run_free(&stays);
    }
    Run card = AT("card", "moves", "--json");
    cJSON *json = run_json(&card);
    assert_near(json_at(json, "games.1.lanes.1"), 8, 0);
    assert_near(json_at(json, "games.2.lanes.0"), 21, 0);
    cJSON_Delete(json);
    run_free(&card);
}

static void wrong_usage_is_told(void **state)
{
    (void)state;
    Run two = AT("card", "four", "--svg", "--html"), none = AT("card", "no-such-event");
    run_is(&two, 2);
    run_is(&none, 1);
    Run empty = AT("card", "four", "--bag", FIXTURE("empty-slots.json"));
    run_is(&empty, 1);
    run_free(&two);
    run_free(&none);
    run_free(&empty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_kind_is_well_formed),
        cmocka_unit_test(the_longest_event_is_on_one_sheet),
        cmocka_unit_test(the_parsers_refuse_what_is_broken),
        cmocka_unit_test(figures_are_those_of_block_and_spare),
        cmocka_unit_test(an_event_that_moves),
        cmocka_unit_test(wrong_usage_is_told),
    };
    return cmocka_run_group_tests_name("card", tests, begin, played_end);
}
