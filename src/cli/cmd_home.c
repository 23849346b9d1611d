/* cmd_home.c - settee home: which bags, events and patterns there are, and copies of them. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "store/files.h"
#include "store/paths.h"

enum { NAMES_MAX = 320 };

typedef struct KindRow {
    const char *word, *kind, *title;
} KindRow;
static const KindRow KINDS[] = {{"bag", "bags", "Bags"},
                                {"event", "events", "Events"},
                                {"pattern", "patterns", "Patterns"},
                                {"theme", "themes", "Themes"},
                                {"rules", "rules", "Rules"},
                                {"lesson", "lessons", "Lessons"}};
enum { KIND_COUNT = sizeof KINDS / sizeof *KINDS, LISTED = 3 /* of them, from the first */ };

/* Item one at a time, for its row. */
typedef struct Item {
    Bag bag;
    EventInfo event;
    Pattern pattern;
} Item;

static const char *whose(const FileName *name)
{
    return !name->home ? "built in" : name->built_in ? "yours, hides a built-in one" : "yours";
}

static bool read_one(int kind, const char *name, Item *item, Error *error)
{
    if (kind == 0)
        return files_bag(name, &item->bag, error);
    if (kind == 1)
        return files_event(name, &item->event, error);
    return files_pattern(name, &item->pattern, error);
}

static int in_slots(const Bag *bag)
{
    int count = 0;
    for (int i = 0; i < bag->count; i++)
        count += bag->balls[i].slot > 0;
    return count;
}

static void print_title(int kind)
{
    printf("\n%-18s", KINDS[kind].title);
    if (kind == 0)
        puts("  bowler              hand   balls  in slots  whose");
    else if (kind == 1)
        puts("  date        pattern     bag         whose");
    else
        puts("  feet   whose");
}

static void print_row(int kind, const FileName *name, const Item *item)
{
    char pattern[256], bag[256];
    printf("  ");
    print_cell(name->name, 18);
    if (kind == 0) {
        print_cell(item->bag.bowler.name, 20);
        printf("%-5s  %5d  %8d", HAND_NAMES[item->bag.bowler.hand], item->bag.count,
               in_slots(&item->bag));
    } else if (kind == 1) {
        files_short("patterns", item->event.pattern, pattern, sizeof pattern);
        files_short("bags", item->event.bag, bag, sizeof bag);
        printf("%-12s", item->event.date[0] ? item->event.date : "-");
        print_cell(pattern, 12);
        print_cell(bag, 10);
    } else {
        printf("%5g", item->pattern.length_ft);
    }
    printf("  %s\n", whose(name));
}

static void row_json(JsonOut *out, int kind, const FileName *name, const Item *item)
{
    json_out_object(out, NULL);
    json_out_string(out, "name", name->name);
    json_out_bool(out, "yours", name->home);
    json_out_bool(out, "hides_built_in", name->home && name->built_in);
    if (kind == 0) {
        json_out_string(out, "bowler", item->bag.bowler.name);
        json_out_string(out, "hand", HAND_NAMES[item->bag.bowler.hand]);
        json_out_integer(out, "balls", item->bag.count);
        json_out_integer(out, "in_slots", in_slots(&item->bag));
    } else if (kind == 1) {
        json_out_string(out, "title", item->event.name);
        json_out_string(out, "date", item->event.date[0] ? item->event.date : NULL);
        json_out_string(out, "pattern", item->event.pattern);
        json_out_string(out, "bag", item->event.bag);
    } else {
        json_out_string(out, "title", item->pattern.name);
        json_out_rounded(out, "length_ft", item->pattern.length_ft, 3);
    }
    json_out_end(out);
}

/* The home's lessons alone: `settee teach list` has all there are. */
static int list_lessons(bool json, JsonOut *out)
{
    FileName names[NAMES_MAX];
    Lesson lesson;
    Error error = {0};
    int status = CMD_DONE, count = files_names("lessons", names, NAMES_MAX), listed = 0;
    json_out_array(out, "lessons");
    if (!files_names_known("lessons", &error)) {
        fflush(stdout);
        status = cmd_fault(CMD_FAULT, &error);
    }
    for (int i = 0; i < count && names[i].home; i++) {
        if (!files_lesson(names[i].name, &lesson, &error)) {
            fflush(stdout);
            status = cmd_fault(CMD_FAULT, &error);
            continue;
        }
        json_out_object(out, NULL);
        json_out_string(out, "name", names[i].name);
        json_out_bool(out, "hides_built_in", names[i].built_in);
        json_out_string(out, "title", lesson.name);
        json_out_integer(out, "level", lesson.level);
        json_out_end(out);
        if (json)
            continue;
        if (listed++ == 0)
            puts("\nLessons             level  whose");
        printf("  ");
        print_cell(names[i].name, 18);
        printf("%5d  %s\n", lesson.level, whose(&names[i]));
    }
    json_out_end(out);
    return status;
}

static int list(bool json)
{
    static Item item; /* large */
    FileName names[NAMES_MAX];
    char home[1024];
    Error error = {0};
    int status = CMD_DONE;
    bool has_home = paths_config("", home, sizeof home, &error);
    if (has_home)
        home[strlen(home) - 1] = '\0'; /* the slash before no name */
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "home", has_home ? home : NULL);
    if (!json)
        printf("Your home is %s\n", has_home ? home : "nowhere: HOME is not set");
    for (int kind = 0; kind < LISTED; kind++) {
        int count = files_names(KINDS[kind].kind, names, NAMES_MAX);
        json_out_array(&out, KINDS[kind].kind);
        if (!json)
            print_title(kind);
        error = (Error){0};
        if (!files_names_known(KINDS[kind].kind, &error)) {
            fflush(stdout);
            status = cmd_fault(CMD_FAULT, &error);
        }
        for (int i = 0; i < count; i++) {
            if (!read_one(kind, names[i].name, &item, &error)) {
                fflush(stdout); /* keep the order when both go to one place */
                status = cmd_fault(CMD_FAULT, &error);
                continue;
            }
            row_json(&out, kind, &names[i], &item);
            if (!json)
                print_row(kind, &names[i], &item);
        }
        json_out_end(&out);
    }
    int lessons = list_lessons(json, &out);
    status = lessons != CMD_DONE ? lessons : status;
    json_out_end(&out);
    if (json) {
        int written = cmd_json(&out);
        return written != CMD_DONE ? written : status;
    }
    json_out_free(&out);
    return status;
}

static const KindRow *kind_of(const char *word)
{
    for (int i = 0; i < KIND_COUNT; i++)
        if (strcmp(KINDS[i].word, word) == 0 || strcmp(KINDS[i].kind, word) == 0)
            return &KINDS[i];
    return NULL;
}

static int copy(const Options *options)
{
    char path[1024];
    Error error = {0};
    const KindRow *row = options->word_count > 1 ? kind_of(options->words[1]) : NULL;
    if (options->word_count > 1 && !row)
        return cmd_say(CMD_USAGE,
                       "home copy: found '%.40s'; allowed is bag, event, pattern, theme, "
                       "rules or lesson",
                       options->words[1]);
    if (options->word_count != 4)
        return cmd_say(CMD_USAGE, "home copy needs a kind, what to copy and a new name: settee "
                                  "home copy bag demo mine");
    const char *from = options->words[2], *to = options->words[3];
    if (!files_copy(row->kind, from, to, path, sizeof path, &error))
        return cmd_fault(CMD_FAULT, &error);
    if (options->json) {
        JsonOut out = json_out_start();
        json_out_object(&out, NULL);
        json_out_string(&out, "kind", row->word);
        json_out_string(&out, "name", to);
        json_out_string(&out, "file", path);
        json_out_end(&out);
        return cmd_json(&out);
    }
    printf("%s %s is now %s\n", row->title[0] == 'R' ? "Rules" : row->word, to, path);
    return CMD_DONE;
}

int cmd_home(const Options *options)
{
    const char *what = options->word_count > 0 ? options->words[0] : "list";
    if (strcmp(what, "copy") == 0)
        return copy(options);
    if (strcmp(what, "list") != 0 || options->word_count > 1)
        return cmd_say(CMD_USAGE, "home: found '%.40s'; allowed is list, or copy KIND FROM NAME",
                       options->words[options->word_count > 1 && strcmp(what, "list") == 0]);
    return list(options->json);
}
