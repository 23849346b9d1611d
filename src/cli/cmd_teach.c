/* cmd_teach.c - settee teach: the lessons there are, one in full, and whether the engine bears out
 * what a lesson claims. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/teach/coach.h"
#include "core/teach/teach.h"
#include "store/files.h"
#include "store/juniors.h"

enum { LESSONS_MAX = 256, LABEL_COLUMNS = 12 };

/* A lesson with the patterns it names. */
typedef struct Taught {
    Lesson lesson;
    Pattern pattern, learned;
} Taught;

/* Somebody a lesson is checked for. */
typedef struct Reader {
    char name[64];
    Bag bag;
} Reader;
enum { READERS_MAX = 4 };

static bool taught_read(const char *name, Taught *taught, Error *error)
{
    Lesson *lesson = &taught->lesson;
    if (!files_lesson(name, lesson, error))
        return false;
    return lesson->kind == LESSON_SCORE ||
           (files_pattern(lesson->pattern, &taught->pattern, error) &&
            files_pattern(lesson->learned[0] ? lesson->learned : lesson->pattern, &taught->learned,
                          error));
}

/* The four a lesson is written for, as far as it holds for them; or the one whose bag was named. */
static int readers_of(const Lesson *lesson, const Bag *named, Reader readers[READERS_MAX])
{
    int count = 0;
    if (named) {
        readers[0].bag = *named;
        text_copy(readers[0].name, sizeof readers[0].name, named->bowler.name);
        return 1;
    }
    for (int hook = 0; hook < 2; hook++)
        for (Hand hand = HAND_RIGHT; hand <= HAND_LEFT; hand++) {
            if (!(hook ? lesson->hook : lesson->straight))
                continue;
            Reader *reader = &readers[count++];
            teach_own_bag(hook, hand, &reader->bag);
            reader->name[0] = '\0';
            text_append(reader->name, sizeof reader->name, "%s hand, %s", HAND_NAMES[hand],
                        hook ? "hook" : "straight ball");
        }
    return count;
}

/* A lesson is for straight balls, hooks or both; a bag throws one of them. */
static bool is_for(const Lesson *lesson, const Bag *bag, Error *error)
{
    bool hooks = teach_hooks(bag);
    if (hooks ? lesson->hook : lesson->straight)
        return true;
    return error_set(error, "the lesson is for %s ball; this bag's bowler throws %s",
                     hooks ? "a straight" : "a hooking", hooks ? "a hook" : "it straight");
}

static bool check_reader(const Taught *taught, const Reader *reader, TeachScene *scene,
                         TeachCheck *check, Error *error)
{
    TeachInput input = {&taught->lesson, &reader->bag, &taught->pattern, &taught->learned};
    *check = (TeachCheck){0};
    return is_for(&taught->lesson, &reader->bag, error) && teach_scene(&input, scene, error) &&
           teach_check(scene, check, error);
}

/* ---- list ---- */

static const char *balls_of(const Lesson *lesson)
{
    return !lesson->hook ? "straight" : !lesson->straight ? "hook" : "any ball";
}

static void list_row_json(JsonOut *out, const FileName *name, const Lesson *lesson)
{
    json_out_object(out, NULL);
    json_out_string(out, "id", name->name);
    json_out_string(out, "name", lesson->name);
    json_out_integer(out, "level", lesson->level);
    json_out_string(out, "skill", SKILL_NAMES[lesson->skill]);
    json_out_bool(out, "straight", lesson->straight);
    json_out_bool(out, "hook", lesson->hook);
    json_out_bool(out, "yours", name->home);
    json_out_end(out);
}

/* Reads every lesson; those that can't be read are told on standard error. */
static int lessons_read(Lesson *lessons, FileName *names, int *status)
{
    int count = files_names("lessons", names, LESSONS_MAX), kept = 0;
    Error error = {0};
    if (!files_names_known("lessons", &error))
        *status = cmd_fault(CMD_FAULT, &error);
    for (int i = 0; i < count; i++) {
        if (files_lesson(names[i].name, &lessons[kept], &error))
            names[kept++] = names[i];
        else
            *status = cmd_fault(CMD_FAULT, &error);
    }
    return kept;
}

static int list(bool json)
{
    static Lesson lessons[LESSONS_MAX];
    static FileName names[LESSONS_MAX];
    int order[LESSONS_MAX], status = CMD_DONE, count = lessons_read(lessons, names, &status);
    for (int i = 0, at; i < count; i++) {
        for (at = i; at > 0 && lesson_before(&lessons[i], &lessons[order[at - 1]]); at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "lessons");
    for (int level = 1; level <= LESSON_LEVELS; level++) {
        if (!json)
            printf("%s%d  %s\n", level > 1 ? "\n" : "", level, LESSON_LEVEL_NAMES[level - 1]);
        for (int k = 0; k < count; k++) {
            int i = order[k];
            if (lessons[i].level != level)
                continue;
            list_row_json(&out, &names[i], &lessons[i]);
            if (json)
                continue;
            printf("   ");
            print_cell(names[i].name, 20);
            printf("  ");
            print_cell(lessons[i].name, 38);
            printf("  %s%s\n", balls_of(&lessons[i]), names[i].home ? ", yours" : "");
        }
    }
    json_out_end(&out);
    json_out_end(&out);
    if (json) {
        int written = cmd_json(&out);
        return written != CMD_DONE ? written : status;
    }
    json_out_free(&out);
    return status;
}

/* ---- show ---- */

static void print_said(const char *label, const char *text, Hand hand)
{
    char said[LESSON_TEXT_MAX + 64];
    lesson_say(text, hand, said, sizeof said);
    print_entry(label, said, LABEL_COLUMNS);
}

static void json_said(JsonOut *out, const char *key, const char *text, Hand hand)
{
    char said[LESSON_TEXT_MAX + 64];
    lesson_say(text, hand, said, sizeof said);
    json_out_string(out, key, said);
}

static Pins shown_pins(Pins pins, Hand hand)
{
    return hand == HAND_LEFT ? lane_mirror_pins(pins) : pins;
}

static void print_shot(const TeachScene *scene, int nth)
{
    TeachShot shot;
    char pins[48] = "";
    Hand hand = scene->bowler.hand;
    teach_shot(scene, nth, &shot);
    lane_pins_words(shown_pins(shot.left, hand), "-", pins, sizeof pins);
    printf("Shot %d      ", nth + 1);
    if (shot.roll.gutter)
        printf("in the gutter, %.1f mph\n", shot.delivery.mph);
    else
        printf("board %.1f at the pins (%s), %.1f mph, leaves %s\n", shot.roll.entry_board,
               HIT_NAMES[shot_hit_of_board(shot.roll.entry_board)], shot.delivery.mph,
               shot.left ? pins : "nothing: a strike");
}

static void shot_json(JsonOut *out, const TeachScene *scene, int nth)
{
    TeachShot shot;
    teach_shot(scene, nth, &shot);
    json_out_object(out, NULL);
    json_entry(out, shot.roll.entry_board, shot.roll.entry_deg, shot.roll.entry_mph);
    json_out_rounded(out, "hook_ft", shot.roll.hook_ft, 3);
    json_out_rounded(out, "mph", shot.delivery.mph, 3);
    json_pins(out, "left", shown_pins(shot.left, scene->bowler.hand));
    json_out_end(out);
}

static void check_json(JsonOut *out, const Lesson *lesson, const TeachCheck *check)
{
    json_out_bool(out, "holds", check->holds);
    json_out_array(out, "points");
    for (int i = 0; i < lesson->choice_count; i++)
        json_out_rounded(out, NULL, check->points[i], 1);
    json_out_end(out);
    json_out_rounded(out, "margin", check->margin, 1);
    json_out_rounded(out, "shown_margin", check->shown_margin, 1);
}

static void show_json(const TeachScene *scene, const TeachCheck *check, JsonOut *out)
{
    const Lesson *lesson = scene->lesson;
    Hand hand = scene->bowler.hand;
    json_out_object(out, NULL);
    json_out_string(out, "id", lesson->id);
    json_out_string(out, "name", lesson->name);
    json_out_integer(out, "level", lesson->level);
    json_out_string(out, "skill", SKILL_NAMES[lesson->skill]);
    json_said(out, "words", lesson->words, hand);
    if (lesson->kind == LESSON_SCORE) {
        json_out_null(out, "line");
    } else {
        json_out_object(out, "line");
        json_stand(out, scene->plan.stance, scene->plan.aim,
                   scene->plan.stance - scene->bowler.laydown_offset_boards);
        json_out_string(out, "ball", bag_slot(scene->bag, scene->plan.slot)->name);
        json_out_end(out);
    }
    json_out_array(out, "shots");
    for (int i = 0; i < lesson->shot_count; i++)
        shot_json(out, scene, i);
    json_out_end(out);
    json_said(out, "ask", lesson->ask, hand);
    json_out_array(out, "answers");
    for (int i = 0; i < lesson->answer_count; i++) {
        json_out_object(out, NULL);
        json_said(out, "say", lesson->answers[i].say, hand);
        json_out_bool(out, "right", i == lesson->answer_right);
        json_out_end(out);
    }
    json_out_end(out);
    json_out_array(out, "choices");
    for (int i = 0; i < lesson->choice_count; i++) {
        json_out_object(out, NULL);
        json_said(out, "say", lesson->choices[i].say, hand);
        json_said(out, "does", lesson->choices[i].does, hand);
        json_out_bool(out, "right", i == lesson->choice_right);
        json_out_rounded(out, "points", check->points[i], 1);
        json_out_end(out);
    }
    json_out_end(out);
    json_said(out, "why", lesson->why, hand);
    json_said(out, "hint", lesson->hint, hand);
    json_out_string(out, "caution", LESSON_CAUTION_WORDS[lesson->caution]);
    json_out_string(out, "count", COUNT_NAMES[lesson->count]);
    json_out_number(out, "claims", lesson->points);
    check_json(out, lesson, check);
    json_out_end(out);
}

static const char *counted(Count count)
{
    static const char *const WORDS[COUNT_COUNT] = {"pocket hits in 100 throws",
                                                   "in the pocket or near it, of 100 throws",
                                                   "hits on the head pin in 100 throws",
                                                   "tenths of a pin, the first ball",
                                                   "strikes in 100 throws",
                                                   "spares in 100 throws"};
    return WORDS[count];
}

static void print_thrown(const TeachScene *scene, const char *reader)
{
    char pins[48] = "";
    const Lesson *lesson = scene->lesson;
    lane_pins_words(shown_pins(lesson->left, scene->bowler.hand), "-", pins, sizeof pins);
    printf("\nThrown by   %s", reader);
    if (lesson->steady < 1.0)
        printf(", %g times the scatter", lesson->steady);
    printf("\nLine        %s, stand on %.1f, aim at %.1f\n",
           bag_slot(scene->bag, scene->plan.slot)->name, scene->plan.stance, scene->plan.aim);
    if (pins[0])
        printf("Left        %s\n", pins);
}

static void show_text(const TeachScene *scene, const TeachCheck *check, const char *reader)
{
    const Lesson *lesson = scene->lesson;
    Hand hand = scene->bowler.hand;
    printf("%s  (level %d: %s)\n\n", lesson->name, lesson->level,
           LESSON_LEVEL_NAMES[lesson->level - 1]);
    print_said("", lesson->words, hand);
    if (lesson->kind == LESSON_SCORE)
        printf("\nScore       %s, to reach %d\n", lesson->score, lesson->target);
    else
        print_thrown(scene, reader);
    for (int i = 0; i < lesson->shot_count; i++)
        print_shot(scene, i);
    if (lesson->answer_count)
        print_said("Question", lesson->ask, hand);
    for (int i = 0; i < lesson->answer_count; i++)
        print_said(i == lesson->answer_right ? "     right" : "", lesson->answers[i].say, hand);
    printf("\nChoices     ");
    puts(lesson->kind == LESSON_SCORE ? "marks still needed" : counted(lesson->count));
    for (int i = 0; i < lesson->choice_count; i++) {
        char label[32];
        snprintf(label, sizeof label, "%s%3.0f", i == lesson->choice_right ? " right " : "       ",
                 lesson->kind == LESSON_SCORE ? lesson->choices[i].marks : check->points[i]);
        print_said(label, lesson->choices[i].say, hand);
        if (lesson->choices[i].does[0])
            print_said("", lesson->choices[i].does, hand);
    }
    putchar('\n');
    print_said("Why", lesson->why, hand);
    print_said("Hint", lesson->hint, hand);
    if (lesson->caution)
        print_said("Caution", LESSON_CAUTION_WORDS[lesson->caution], hand);
}

static int show(const Options *options, const Bag *named)
{
    static Taught taught;
    static Reader readers[READERS_MAX];
    static TeachScene scene;
    TeachCheck check;
    Error error = {0};
    if (!taught_read(options->words[1], &taught, &error))
        return cmd_fault(CMD_FAULT, &error);
    readers_of(&taught.lesson, named, readers);
    TeachInput input = {&taught.lesson, &readers[0].bag, &taught.pattern, &taught.learned};
    if (!is_for(&taught.lesson, &readers[0].bag, &error) || !teach_scene(&input, &scene, &error))
        return cmd_fault(CMD_FAULT, &error);
    int status = CMD_DONE;
    bool holds = teach_check(&scene, &check, &error);
    if (options->json) {
        JsonOut out = json_out_start();
        show_json(&scene, &check, &out);
        status = cmd_json(&out);
    } else {
        show_text(&scene, &check, readers[0].name);
    }
    fflush(stdout);
    return holds || status != CMD_DONE ? status : cmd_fault(CMD_FAULT, &error);
}

/* ---- check ---- */

/* One lesson for its readers; false: it doesn't hold for one of them. */
static bool check_one(const char *name, const Bag *named, bool json, JsonOut *out)
{
    static Taught taught;
    static Reader readers[READERS_MAX];
    static TeachScene scene;
    Error error = {0};
    char line[ERROR_LINE_MAX];
    bool all = taught_read(name, &taught, &error);
    json_out_object(out, NULL);
    json_out_string(out, "file", name);
    if (!all) {
        fflush(stdout);
        cmd_fault(CMD_FAULT, &error);
        error_line(&error, line, sizeof line);
    }
    json_out_array(out, "readers");
    int count = all ? readers_of(&taught.lesson, named, readers) : 0;
    for (int i = 0; i < count; i++) {
        TeachCheck check;
        Error why = {0};
        bool holds = check_reader(&taught, &readers[i], &scene, &check, &why);
        all = all && holds;
        json_out_object(out, NULL);
        json_out_string(out, "reader", readers[i].name);
        json_out_string(out, "hand", HAND_NAMES[readers[i].bag.bowler.hand]);
        check_json(out, &taught.lesson, &check);
        json_out_string(out, "fault", holds ? NULL : why.text);
        json_out_end(out);
        if (!holds) {
            error_set(&error, "%s: %s", readers[i].name, why.text);
            text_copy(error.file, sizeof error.file, name);
            fflush(stdout);
            cmd_fault(CMD_FAULT, &error);
        } else if (!json && taught.lesson.kind == LESSON_SCORE) {
            printf("%s: %s: holds\n", name, readers[i].name);
        } else if (!json) {
            printf("%s: %s: holds, by %.0f points (claims %g)\n", name, readers[i].name,
                   fmin(check.margin, check.shown_margin), taught.lesson.points);
        }
    }
    json_out_end(out);
    json_out_bool(out, "ok", all);
    json_out_string(out, "fault", count == 0 && !all ? line : NULL);
    json_out_end(out);
    return all;
}

static int check(const Options *options, const Bag *named)
{
    int status = CMD_DONE;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "lessons");
    for (int i = 1; i < options->word_count; i++)
        if (!check_one(options->words[i], named, options->json, &out))
            status = CMD_FAULT;
    json_out_end(&out);
    json_out_end(&out);
    if (options->json) {
        int written = cmd_json(&out);
        return written != CMD_DONE ? written : status;
    }
    json_out_free(&out);
    return status;
}

/* ---- report ---- */

static void print_coach_line(void *context, CoachLine kind, const char *text)
{
    (void)context;
    if (kind == COACH_SENTENCE)
        print_wrapped(text, 0);
    else
        puts(text);
}

static void junior_json(JsonOut *out, const Junior *junior, const Lesson *lessons, int count)
{
    SkillTally tally[SKILL_COUNT];
    NextStep next = junior_next(junior, lessons, count);
    json_out_object(out, NULL);
    json_out_string(out, "junior", junior->name);
    json_out_string(out, "hand", HAND_NAMES[junior->hand]);
    json_out_bool(out, "hook", junior->hook);
    json_out_array(out, "levels");
    for (int level = 1; level <= LESSON_LEVELS; level++) {
        json_out_object(out, NULL);
        json_out_integer(out, "level", level);
        json_out_integer(out, "finished", junior_finished(junior, lessons, count, level));
        json_out_bool(out, "passed", junior_passed(junior, level));
        json_out_end(out);
    }
    json_out_end(out);
    junior_tally(junior, tally);
    json_out_array(out, "skills");
    for (int i = 0; i < SKILL_COUNT; i++) {
        if (tally[i].plays == 0)
            continue;
        json_out_object(out, NULL);
        json_out_string(out, "skill", SKILL_NAMES[i]);
        json_out_integer(out, "finished", tally[i].plays);
        json_out_integer(out, "at_once", tally[i].at_once);
        json_out_integer(out, "looked_wrong", tally[i].looked_wrong);
        json_out_integer(out, "chose_wrong", tally[i].chose_wrong);
        json_out_integer(out, "hints", tally[i].hints);
        json_out_end(out);
    }
    json_out_end(out);
    json_out_object(out, "next");
    json_out_string(out, "lesson", next.lesson < 0 ? NULL : lessons[next.lesson].id);
    json_out_integer(out, "level", next.level);
    json_out_string(out, "why", next.why);
    json_out_end(out);
    json_out_end(out);
}

/* Every junior of this home, or the one of that name. */
static int report(const char *name, bool json)
{
    static Lesson lessons[LESSONS_MAX];
    static FileName names[LESSONS_MAX];
    static Juniors juniors; /* large */
    Error error = {0};
    int status = CMD_DONE, told = 0;
    if (!juniors_read(&juniors, &error))
        return cmd_fault(CMD_FAULT, &error);
    int count = lessons_read(lessons, names, &status);
    lessons_sort(lessons, count);
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "juniors");
    for (int i = 0; i < juniors.count; i++) {
        const Junior *junior = &juniors.all[i];
        if (name && strcmp(name, junior->name) != 0)
            continue;
        junior_json(&out, junior, lessons, count);
        if (!json && told > 0)
            puts("");
        if (!json)
            coach_page(junior, lessons, count, print_coach_line, NULL);
        told++;
    }
    json_out_end(&out);
    json_out_end(&out);
    if (told > 0 && json) {
        int written = cmd_json(&out);
        return written != CMD_DONE ? written : status;
    }
    json_out_free(&out);
    if (told > 0)
        return status;
    return name ? cmd_say(CMD_FAULT, "no junior '%.40s' in this home", name)
                : cmd_say(CMD_FAULT, "no junior in this home yet: settee teach begins with a name");
}

int cmd_teach(const Options *options)
{
    const char *what = options->word_count > 0 ? options->words[0] : "list";
    static Bag bag;
    Error error = {0};
    if (options->bag && !files_bag(options->bag, &bag, &error))
        return cmd_fault(CMD_FAULT, &error);
    const Bag *named = options->bag ? &bag : NULL;
    if (strcmp(what, "show") == 0 && options->word_count == 2)
        return show(options, named);
    if (strcmp(what, "show") == 0)
        return cmd_say(CMD_USAGE, "teach show needs one lesson: settee teach show three-for-one");
    if (strcmp(what, "check") == 0 && options->word_count >= 2)
        return check(options, named);
    if (strcmp(what, "check") == 0)
        return cmd_say(CMD_USAGE, "teach check needs a lesson: settee teach check my-lesson.json");
    if (strcmp(what, "report") == 0 && options->word_count <= 2)
        return report(options->word_count == 2 ? options->words[1] : NULL, options->json);
    if (strcmp(what, "list") != 0 || options->word_count > 1)
        return cmd_say(CMD_USAGE,
                       "teach: found '%.40s'; allowed is list, show LESSON, check "
                       "FILE... or report [NAME]",
                       options->words[options->word_count > 1 && strcmp(what, "list") == 0]);
    return list(options->json);
}
