/* journal_line.c - the lines of a journal.
 *
 *     {"format":"settee-journal/1","n":0,"event":"spring","date":"2026-05-17","sum":"xxxxxxxx"}
 *     {"n":1,"kind":"shot","lane":"left","shot":{"slot":1,...},"sum":"xxxxxxxx"}
 *
 * The sum is the CRC-32 of all of the line before `,"sum"`. Together with the number it shows a
 * flipped bit, a lost line and a line out of place. */
#include "store/journal_line.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/load.h"

#define JOURNAL_FORMAT "settee-journal/1"
#define JOURNAL_FAMILY "{\"format\":\"settee-journal/"
enum { SUM_SIZE = 18 }; /* SUM_SIZE: ,"sum":"xxxxxxxx"} */

/* ---- writing ---- */

/* A number that was not said is left out. */
static void put_number(JsonOut *out, const char *key, double value)
{
    if (isfinite(value) && value != 0.0)
        json_out_number(out, key, value);
}

static void put_pins(JsonOut *out, const char *key, Pins pins)
{
    json_out_array(out, key);
    for (int pin = 1; pin <= 10; pin++)
        if (pins & pin_bit(pin))
            json_out_integer(out, NULL, pin);
    json_out_end(out);
}

static void put_shot(JsonOut *out, const Shot *shot)
{
    json_out_object(out, "shot");
    json_out_string(out, "lane", SIDE_NAMES[shot->lane]);
    json_out_integer(out, "slot", shot->slot);
    if (shot->ball[0]) {
        json_out_string(out, "ball", shot->ball);
        surface_out(out, &shot->surface);
    }
    put_number(out, "stance", shot->stance);
    put_number(out, "aim", shot->aim);
    put_number(out, "mph", shot->mph);
    put_number(out, "arrows", shot->arrows);
    put_number(out, "breakpoint", shot->breakpoint);
    put_number(out, "mph_change", shot->mph_change);
    put_number(out, "loft_change_ft", shot->loft_change_ft);
    put_number(out, "rotation_change_deg", shot->rotation_change_deg);
    if (shot->hit != HIT_UNSAID)
        json_out_string(out, "hit", HIT_NAMES[shot->hit]);
    if (shot->read != READ_UNSAID)
        json_out_string(out, "read", READ_NAMES[shot->read]);
    if (shot->release != RELEASE_UNSAID)
        json_out_string(out, "release", RELEASE_NAMES[shot->release]);
    if (shot->left_said)
        put_pins(out, "left", shot->left);
    if (shot->spare_said)
        put_pins(out, "spare", shot->spare_left);
    if (shot->ringing)
        json_out_bool(out, "ringing", true);
    if (shot->foul)
        json_out_bool(out, "foul", true);
    if (shot->spare_foul)
        json_out_bool(out, "spare_foul", true);
    json_out_end(out);
}

static void put_plan(JsonOut *out, const Plan *plan)
{
    json_out_object(out, "plan");
    json_out_integer(out, "slot", plan->slot);
    put_number(out, "stance", plan->stance);
    put_number(out, "aim", plan->aim);
    put_number(out, "mph_change", plan->mph_change);
    put_number(out, "loft_change_ft", plan->loft_change_ft);
    put_number(out, "rotation_change_deg", plan->rotation_change_deg);
    json_out_end(out);
}

/* Puts the sum in; the line is the caller's to free. */
static char *seal(JsonOut *out)
{
    char *line = NULL;
    json_out_end(out);
    const char *text = json_out_text(out);
    if (text) {
        size_t length = strlen(text) - 1; /* without the closing brace */
        line = malloc(length + SUM_SIZE + 2);
        if (line) {
            memcpy(line, text, length);
            snprintf(line + length, SUM_SIZE + 2, ",\"sum\":\"%08lx\"}\n",
                     (unsigned long)load_crc32(text, length));
        }
    }
    json_out_free(out);
    return line;
}

static void put_text(JsonOut *out, const char *key, const char *text)
{
    if (text[0])
        json_out_string(out, key, text);
}

char *journal_header_line(const JournalHead *head)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "format", JOURNAL_FORMAT);
    json_out_integer(&out, "n", 0);
    json_out_string(&out, "event", head->event);
    json_out_string(&out, "date", head->date);
    put_text(&out, "file", head->file);
    put_text(&out, "bag", head->bag);
    put_text(&out, "pattern", head->pattern);
    put_text(&out, "bowler", head->bowler);
    return seal(&out);
}

char *journal_entry_line(int number, const Entry *entry)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_integer(&out, "n", number);
    json_out_string(&out, "kind", ENTRY_NAMES[entry->kind]);
    json_out_string(&out, "lane", SIDE_NAMES[entry->lane]);
    bool frame = entry->kind == ENTRY_FRAME || entry->kind == ENTRY_FRAME_EDIT;
    if (entry->kind == ENTRY_EDIT || entry->kind == ENTRY_TARGET || frame)
        json_out_integer(&out, "index", entry->index);
    if (frame)
        json_out_string(&out, "balls", entry->balls);
    if (frame && entry->ahead > 0)
        json_out_integer(&out, "ahead", entry->ahead);
    if (entry->kind == ENTRY_SHOT || entry->kind == ENTRY_EDIT)
        put_shot(&out, &entry->shot);
    if (entry->kind == ENTRY_PLAN)
        put_plan(&out, &entry->plan);
    if (entry->kind == ENTRY_APART || (entry->kind == ENTRY_PLAN && entry->apart))
        json_out_bool(&out, "apart", entry->apart);
    return seal(&out);
}

/* ---- reading ---- */

typedef struct HeaderLine {
    int n;
    JournalHead head;
} HeaderLine;

typedef struct EntryLine {
    int n;
    Entry entry;
} EntryLine;

/* The session has narrower limits of its own; these only keep out what is no number. */
#define WIDE JSON_NUMBER, .min = -1e9, .max = 1e9

static const JsonField HEADER_FIELDS[] = {
    {"format", JSON_OTHER, .required = true},
    {"n", JSON_INTEGER, .required = true, JSON_AT(HeaderLine, n), .min = 0, .max = 0},
    {"event", JSON_TEXT, JSON_AT(HeaderLine, head.event)},
    {"date", JSON_TEXT, JSON_AT(HeaderLine, head.date)},
    {"file", JSON_TEXT, JSON_AT(HeaderLine, head.file)},
    {"bag", JSON_TEXT, JSON_AT(HeaderLine, head.bag)},
    {"pattern", JSON_TEXT, JSON_AT(HeaderLine, head.pattern)},
    {"bowler", JSON_TEXT, JSON_AT(HeaderLine, head.bowler)},
    {.key = "sum"},
    JSON_END};

static const JsonField ENTRY_FIELDS[] = {
    {"n", JSON_INTEGER, .required = true, JSON_AT(EntryLine, n), .min = 1, .max = 1e9},
    {"kind", JSON_WORD, .required = true, JSON_AT(EntryLine, entry.kind), .of = "kind",
     .words = ENTRY_NAMES},
    {"lane", JSON_WORD, JSON_AT(EntryLine, entry.lane), .of = "lane", .words = SIDE_NAMES},
    {"index", JSON_INTEGER, JSON_AT(EntryLine, entry.index), .min = 0, .max = SESSION_SHOTS_MAX},
    {"apart", JSON_BOOL, JSON_AT(EntryLine, entry.apart)},
    {"balls", JSON_TEXT, JSON_AT(EntryLine, entry.balls)},
    {"ahead", JSON_INTEGER, JSON_AT(EntryLine, entry.ahead), .min = 0, .max = SESSION_TOLD_MAX},
    {.key = "shot"},
    {.key = "plan"},
    {.key = "sum"},
    JSON_END};

static const JsonField PLAN_FIELDS[] = {
    {"slot", JSON_INTEGER, .required = true, JSON_AT(Plan, slot), .min = 0, .max = BAG_SLOTS},
    {"stance", WIDE, JSON_AT(Plan, stance)},
    {"aim", WIDE, JSON_AT(Plan, aim)},
    {"mph_change", WIDE, JSON_AT(Plan, mph_change)},
    {"loft_change_ft", WIDE, JSON_AT(Plan, loft_change_ft)},
    {"rotation_change_deg", WIDE, JSON_AT(Plan, rotation_change_deg)},
    JSON_END};

/* What a line ends with whose other bytes have this sum. */
static void sum_text(char text[SUM_SIZE + 2], uint32_t sum)
{
    snprintf(text, SUM_SIZE + 2, ",\"sum\":\"%08lx\"}", (unsigned long)sum);
}

static bool sum_good(const char *line, size_t length)
{
    char expected[SUM_SIZE + 2];
    if (length <= SUM_SIZE || length > JOURNAL_LINE_MAX)
        return false;
    sum_text(expected, load_crc32(line, length - SUM_SIZE));
    return memcmp(line + length - SUM_SIZE, expected, SUM_SIZE) == 0;
}

static bool entry_parse(const Json *root, int *number, Entry *entry)
{
    EntryLine line = {0};
    Json child;
    if (!json_object(root, ENTRY_FIELDS, &line))
        return false;
    *number = line.n;
    *entry = line.entry;
    if (entry->kind == ENTRY_SHOT || entry->kind == ENTRY_EDIT)
        return json_member(root, "shot", &child) ? shot_parse(&child, false, &entry->shot)
                                                 : json_fail(root, "missing key \"shot\"");
    if (entry->kind == ENTRY_PLAN)
        return json_member(root, "plan", &child) ? json_object(&child, PLAN_FIELDS, &entry->plan)
                                                 : json_fail(root, "missing key \"plan\"");
    return true;
}

static bool one_bit_apart(const char *a, const char *b, size_t size)
{
    int bits = 0;
    for (size_t i = 0; i < size; i++)
        for (unsigned different = (unsigned char)(a[i] ^ b[i]); different;
             different &= different - 1)
            bits++;
    return bits == 1;
}

/* The CRC is linear: what a flipped bit does to it depends on its place alone, and no two places in
 * so short a line do the same. */
bool journal_line_mend(char *line, size_t length)
{
    char expected[SUM_SIZE + 2], said[9] = "";
    if (length <= SUM_SIZE || length > JOURNAL_LINE_MAX)
        return false;
    size_t body = length - SUM_SIZE;
    uint32_t sum = load_crc32(line, body), does[8];
    sum_text(expected, sum);
    if (one_bit_apart(line + body, expected, SUM_SIZE)) {
        memcpy(line + body, expected, SUM_SIZE);
        return true;
    }
    memcpy(said, line + body + strlen(",\"sum\":\""), sizeof said - 1);
    uint32_t difference = sum ^ (uint32_t)strtoul(said, NULL, 16);
    for (int bit = 0; bit < 8; bit++)
        does[bit] = 1u << bit;
    for (size_t i = body; i-- > 0;)
        for (int bit = 0; bit < 8; bit++) {
            does[bit] = load_crc32_zeros(does[bit]);
            if (does[bit] != difference)
                continue;
            line[i] = (char)(line[i] ^ 1 << bit);
            return sum_good(line, length);
        }
    return false;
}

/* A line as JSON, once its sum is good. */
static JsonDoc *line_open(const char *line, size_t length, Error *fault)
{
    if (sum_good(line, length))
        return json_read(line, length, fault->line, fault);
    error_set(fault, "the line does not match its checksum");
    return NULL;
}

bool journal_header_read(const char *line, size_t length, JournalHead *head, bool *foreign,
                         Error *fault)
{
    HeaderLine header = {0};
    JsonDoc *doc = line_open(line, length, fault);
    if (!doc)
        return false;
    Json root = json_root(doc, fault), first;
    const char *key = json_first_key(&root, &first);
    const char *said = key && strcmp(key, "format") == 0 ? json_string(&first) : NULL;
    *foreign = said && strcmp(said, JOURNAL_FORMAT) != 0;
    bool good = json_format(&root, JOURNAL_FORMAT) && json_object(&root, HEADER_FIELDS, &header);
    json_free(doc);
    if (good) {
        memcpy(header.head.name, head->name, sizeof head->name);
        *head = header.head;
    }
    return good;
}

bool journal_entry_read(const char *line, size_t length, int *number, Entry *entry, Error *fault)
{
    JsonDoc *doc = line_open(line, length, fault);
    if (!doc)
        return false;
    Json root = json_root(doc, fault);
    bool good = entry_parse(&root, number, entry);
    json_free(doc);
    return good;
}

bool journal_head_read(const char *text, size_t length, JournalHead *head)
{
    const char *end = memchr(text, '\n', length);
    bool foreign;
    Error unheard = {.line = 1};
    return journal_header_read(text, end ? (size_t)(end - text) : length, head, &foreign, &unheard);
}

bool journal_is(const char *text, size_t length)
{
    return length > strlen(JOURNAL_FAMILY) &&
           memcmp(text, JOURNAL_FAMILY, strlen(JOURNAL_FAMILY)) == 0;
}
