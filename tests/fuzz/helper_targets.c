/* helper_targets.c - see helper_targets.h. */
#define _XOPEN_SOURCE 700 /* setenv */
#include "helper_targets.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "cli/cli.h"
#include "store/journal_line.h"
#include "store/journal_tale.h"
#include "store/load.h"

#define PROMISE(holds)                                                                             \
    do {                                                                                           \
        if (!(holds)) {                                                                            \
            fprintf(stderr, "%s:%d: broken: %s\n", __FILE__, __LINE__, #holds);                    \
            abort();                                                                               \
        }                                                                                          \
    } while (0)

#define GOOD SETTEE_SOURCE_DIR "/tests/data/good"

/* Of its own size, so that a sanitizer sees a read past its end. */
static char *copy_of(const char *bytes, size_t size)
{
    char *text = malloc(size + 1);
    PROMISE(text);
    if (size)
        memcpy(text, bytes, size);
    text[size] = '\0';
    return text;
}

static bool is_clean(const char *text)
{
    char clean[4096];
    return strlen(text) < sizeof clean && text_clean(clean, sizeof clean, text) &&
           text_utf8_fault(text, strlen(text)) == strlen(text);
}

/* A fault is one line that no terminal obeys, and says where. */
static void fault_is_one_line(const Error *error, const char *text, size_t size)
{
    char line[ERROR_LINE_MAX];
    int lines = 1;
    for (size_t i = 0; i < size; i++)
        lines += text[i] == '\n';
    error_line(error, line, sizeof line);
    PROMISE(error->text[0] && is_clean(line));
    PROMISE(error->line >= 0 && error->line <= lines);
    PROMISE(strcmp(error->text, "out of memory") != 0);
}

/* ---- files of one JSON value ---- */

static Bag bag;
static Pattern pattern;
static EventInfo event;
static Theme theme;
static RuleSet rules;
static Lesson lesson;
static Juniors juniors;
static Settings settings;
static Draft draft;
static Bindings bindings;
static Shot shots[SESSION_SHOTS_MAX];

static bool try_json(const char *bytes, size_t size, bool (*parse)(const Json *, const Loaded *))
{
    Error error = {0};
    Loaded file = {.text = copy_of(bytes, size), .length = size, .id = "fuzz", .folder = GOOD};
    JsonDoc *doc = json_read(file.text, size, 1, &error);
    Json root = doc ? json_root(doc, &error) : (Json){0};
    bool good = doc && parse(&root, &file);
    if (!good)
        fault_is_one_line(&error, bytes, size);
    json_free(doc);
    free(file.text);
    return good;
}

static bool parse_bag(const Json *root, const Loaded *file)
{
    (void)file;
    return bag_parse(root, &bag);
}

/* A bag that was read can be written, and is the same when it is read again. */
static void try_bag(const char *bytes, size_t size)
{
    static Bag first;
    if (!try_json(bytes, size, parse_bag))
        return;
    Error error = {0};
    JsonOut out = json_out_start();
    PROMISE(bag_out(&out, &bag, &error));
    first = bag;
    const char *text = json_out_text(&out);
    PROMISE(text && try_json(text, strlen(text), parse_bag));
    PROMISE(first.count == bag.count && is_clean(bag.bowler.name));
    for (int i = 0; i < bag.count; i++)
        PROMISE(ball_same(&first.balls[i], &bag.balls[i]) && is_clean(bag.balls[i].name));
    json_out_free(&out);
}

static bool parse_pattern(const Json *root, const Loaded *file)
{
    return pattern_parse(root, file, &pattern);
}

static void try_pattern(const char *bytes, size_t size)
{
    static Oil oil;
    if (!try_json(bytes, size, parse_pattern))
        return;
    PROMISE(is_clean(pattern.name) && is_clean(pattern.note));
    oil_lay(&pattern, &oil);
    PROMISE(oil_volume_ml(&oil) >= 0.0);
}

static bool parse_event(const Json *root, const Loaded *file)
{
    return event_parse(root, file, &event);
}

static void try_event(const char *bytes, size_t size)
{
    if (!try_json(bytes, size, parse_event))
        return;
    PROMISE(is_clean(event.name) && (!event.date[0] || files_date(event.date)));
    PROMISE(event.pair[0] != event.pair[1] && event.games >= 1);
}

static bool parse_theme(const Json *root, const Loaded *file)
{
    return theme_parse(root, file, &theme);
}

static void try_theme(const char *bytes, size_t size) { try_json(bytes, size, parse_theme); }

static bool parse_rules(const Json *root, const Loaded *file)
{
    (void)file;
    return rules_parse(root, &rules);
}

static void try_rules(const char *bytes, size_t size)
{
    if (!try_json(bytes, size, parse_rules))
        return;
    for (int i = 0; i < rules.count; i++)
        PROMISE(is_clean(rules.rules[i].because) && is_clean(rules.rules[i].source));
}

static bool parse_lesson(const Json *root, const Loaded *file)
{
    return lesson_parse(root, file, &lesson);
}

static void try_lesson(const char *bytes, size_t size)
{
    char said[LESSON_TEXT_MAX + 64];
    if (!try_json(bytes, size, parse_lesson))
        return;
    PROMISE(is_clean(lesson.name) && is_clean(lesson.why));
    for (int i = 0; i < lesson.choice_count; i++)
        PROMISE(lesson_say(lesson.choices[i].say, HAND_LEFT, said, sizeof said));
    PROMISE(lesson.choice_right >= 0 && lesson.choice_right < lesson.choice_count);
}

static bool parse_juniors(const Json *root, const Loaded *file)
{
    (void)file;
    return juniors_parse(root, &juniors);
}

static void try_juniors(const char *bytes, size_t size)
{
    if (!try_json(bytes, size, parse_juniors))
        return;
    for (int i = 0; i < juniors.count; i++)
        PROMISE(is_clean(juniors.all[i].name));
}

static bool parse_keys(const Json *root, const Loaded *file)
{
    (void)file;
    return keys_parse(root, &bindings);
}

static void try_keys(const char *bytes, size_t size)
{
    if (!try_json(bytes, size, parse_keys))
        return;
    for (int i = 0; i < bindings.count; i++)
        PROMISE(is_clean(bindings.item[i].action) && bindings.item[i].key[0]);
}

static bool parse_draft(const Json *root, const Loaded *file)
{
    (void)file;
    return draft_parse(root, &draft);
}

static void try_draft(const char *bytes, size_t size)
{
    if (!try_json(bytes, size, parse_draft))
        return;
    PROMISE(draft.form != DRAFT_NONE && is_clean(draft.of) && is_clean(draft.part));
    for (int i = 0; i < draft.count; i++)
        PROMISE(is_clean(draft.rows[i].key) && is_clean(draft.rows[i].value));
}

static bool parse_settings(const Json *root, const Loaded *file)
{
    (void)file;
    return settings_parse(root, &settings);
}

static void try_settings(const char *bytes, size_t size)
{
    if (try_json(bytes, size, parse_settings))
        PROMISE(is_clean(settings.theme));
}

static bool parse_rehearsal(const Json *root, const Loaded *file)
{
    static RehearsalRecord record;
    (void)file;
    return rehearsal_parse(root, &record);
}

static void try_rehearsal(const char *bytes, size_t size)
{
    try_json(bytes, size, parse_rehearsal);
}

/* ---- shots ---- */

static void try_shots(const char *bytes, size_t size)
{
    Error error = {0};
    int count;
    Loaded file = {.text = copy_of(bytes, size), .length = size, .id = "fuzz", .folder = "."};
    shots_are_lines(&file);
    if (!shots_parse(&file, shots, SESSION_SHOTS_MAX, &count, &error))
        fault_is_one_line(&error, bytes, size);
    else
        for (int i = 0; i < count; i++)
            PROMISE(!shot_impossible(&shots[i]) && (shots[i].hit || shots[i].left_said));
    free(file.text);
}

/* ---- journals ---- */

enum { SUM_SIZE = 18 }; /* ,"sum":"xxxxxxxx"} */

/* Gives every line that has a sum the right one: else hardly any line gets past it. */
static void mend_sums(char *text, size_t size)
{
    for (char *line = text, *end; line < text + size; line = end + 1) {
        end = memchr(line, '\n', (size_t)(text + size - line));
        end = end ? end : text + size;
        size_t length = (size_t)(end - line);
        if (length <= SUM_SIZE || memcmp(end - SUM_SIZE, ",\"sum\":\"", 8) != 0)
            continue;
        char sum[9];
        snprintf(sum, sizeof sum, "%08lx", (unsigned long)load_crc32(line, length - SUM_SIZE));
        memcpy(end - 10, sum, 8);
        end[-2] = '"';
        end[-1] = '}';
    }
}

static Session *begun(void)
{
    static Session *session;
    Error error = {0};
    if (!session) {
        session = calloc(1, sizeof *session);
        PROMISE(session && files_event("demo", &event, &error) && files_bag("demo", &bag, &error) &&
                files_pattern("apron", &pattern, &error));
    }
    session_begin(session, &event, &bag, &pattern, &(Plan){0});
    return session;
}

/* Whatever a journal holds, what goes on from it is whole, and says the same. */
static void tell(const char *text, size_t size)
{
    Session *session = begun();
    JournalTale tale, again;
    JournalHead head = {0};
    Error error = {0};
    bool good = journal_check(text, size, &error);
    if (!good)
        fault_is_one_line(&error, text, size);
    bool has_head = journal_head_read(text, size, &head);
    journal_tell(text, size, session, &tale);
    PROMISE(!tale.no_memory);
    if (has_head && !tale.foreign && !tale.other_day) {
        size_t length;
        char *mended = journal_mend(text, &tale, &head, &length);
        PROMISE(mended && journal_check(mended, length, &error));
        journal_tell(mended, length, NULL, &again);
        PROMISE(again.entries == tale.entries && !again.bad && !again.torn);
        journal_tale_free(&again);
        free(mended);
    }
    journal_tale_free(&tale);
}

/* Mostly with the sums put right; as it is where the last byte says so. */
static void try_journal(const char *bytes, size_t size)
{
    char *text = copy_of(bytes, size);
    if (size && bytes[size - 1] % 4 != 1)
        mend_sums(text, size);
    tell(text, size);
    free(text);
}

/* ---- a command line: a word a line; the first byte chooses the command ---- */

static void try_options(const char *bytes, size_t size)
{
    enum { WORDS_MAX = 300 };
    char *words[WORDS_MAX], *text = copy_of(bytes, size), *rest = text;
    CliCommand command;
    Options options;
    Error error = {0};
    int count = 0, commands = 0;
    while (cli_command(commands, &command))
        commands++;
    PROMISE(cli_command(size ? (unsigned char)*bytes % commands : 0, &command));
    while (count < WORDS_MAX && (size_t)(rest - text) < size) {
        words[count++] = rest;
        rest += strcspn(rest, "\n");
        *rest++ = '\0';
    }
    int first = count > 0;
    int most = command.words[0] ? OPTIONS_WORDS_MAX : 0;
    if (!options_read(command.name, command.options, most, count - first, words + first, &options,
                      &error))
        PROMISE(error.text[0]);
    else
        PROMISE(options.word_count <= most && options.at_count <= OPTIONS_AT_MAX);
    free(text);
}

/* ---- text for a terminal ---- */

static void try_text(const char *bytes, size_t size)
{
    char *text = copy_of(bytes, size), out[64];
    for (size_t room = 1; room <= sizeof out; room += 21) {
        text_clean(out, room, text);
        PROMISE(is_clean(out));
        text_copy(out, room, text);
        PROMISE(strlen(out) < room);
    }
    free(text);
}

const Target TARGETS[] = {
    {"bag", "bag.json", try_bag},
    {"pattern", "sandbar.json taped.json", try_pattern},
    {"event", "event.json", try_event},
    {"shots", "shots.json shots.jsonl shots-meant.jsonl", try_shots},
    {"theme", "theme.json", try_theme},
    {"rules", "rules.json", try_rules},
    {"lesson", "lesson.json lesson-spare.json lesson-score.json", try_lesson},
    {"juniors", "juniors.json", try_juniors},
    {"draft", "draft.json", try_draft},
    {"settings", "settings.json", try_settings},
    {"rehearsal", "rehearsal.json", try_rehearsal},
    {"keys", "keys.json", try_keys},
    {"journal", "whole.journal", try_journal},
    {"options", "", try_options},
    {"text", "bag.json", try_text},
    {NULL, NULL, NULL},
};

const Target *target_find(const char *name)
{
    for (const Target *target = TARGETS; target->name; target++)
        if (strcmp(target->name, name) == 0)
            return target;
    return NULL;
}

void targets_begin(void)
{
    setenv("XDG_CONFIG_HOME", "/nonexistent/settee-fuzz", 1);
    setenv("XDG_DATA_HOME", "/nonexistent/settee-fuzz", 1);
}
