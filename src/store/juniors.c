/* juniors.c - settee-juniors/1: read, and written whole. */
#include "store/juniors.h"

#include <string.h>

#include "store/load.h"
#include "store/paths.h"

static const JsonField ROOT_FIELDS[] = {
    {"format", JSON_OTHER, .required = true}, {"juniors", JSON_OTHER, .required = true}, JSON_END};

static const char *const BALL_WORDS[] = {"straight", "hook", NULL};

typedef struct JuniorRead {
    char name[32];
    Hand hand;
    int ball;
} JuniorRead;
static const JsonField JUNIOR_FIELDS[] = {
    {"name", JSON_TEXT, .required = true, JSON_AT(JuniorRead, name)},
    {"hand", JSON_WORD, .required = true, JSON_AT(JuniorRead, hand), .of = "hand",
     .words = HAND_NAMES},
    {"ball", JSON_WORD, .required = true, JSON_AT(JuniorRead, ball), .of = "ball",
     .words = BALL_WORDS},
    {"plays", JSON_OTHER, .required = true},
    JSON_END};

#define COUNTED(member) JSON_INTEGER, JSON_AT(Play, member), .min = 0, .max = 99
static const JsonField PLAY_FIELDS[] = {
    {"lesson", JSON_ID, .required = true, JSON_AT(Play, lesson)},
    {"level", JSON_INTEGER, .required = true, JSON_AT(Play, level), .min = 1, .max = LESSON_LEVELS},
    {"skill", JSON_WORD, .required = true, JSON_AT(Play, skill), .of = "skill",
     .words = SKILL_NAMES},
    {"fresh", JSON_BOOL, JSON_AT(Play, fresh)},
    {"looked", COUNTED(looked)},
    {"chose", COUNTED(chose)},
    {"hints", COUNTED(hints)},
    JSON_END};

static bool junior_parse(const Json *value, Junior *junior)
{
    JuniorRead read = {0};
    Json plays, item;
    *junior = (Junior){0};
    if (!json_object(value, JUNIOR_FIELDS, &read) || !json_member(value, "plays", &plays) ||
        json_count(&plays, 0, PLAYS_MAX, "plays") < 0)
        return false;
    memcpy(junior->name, read.name, sizeof junior->name);
    junior->hand = read.hand;
    junior->hook = read.ball == 1;
    for (bool more = json_first(&plays, &item); more; more = json_next(&item))
        if (!json_object(&item, PLAY_FIELDS, &junior->plays[junior->play_count++]))
            return false;
    return true;
}

bool juniors_parse(const Json *root, Juniors *juniors)
{
    Json array, item;
    juniors->count = 0;
    if (!json_format(root, "settee-juniors/1") || !json_object(root, ROOT_FIELDS, NULL) ||
        !json_member(root, "juniors", &array) || json_count(&array, 0, JUNIORS_MAX, "juniors") < 0)
        return false;
    for (bool more = json_first(&array, &item); more; more = json_next(&item))
        if (!junior_parse(&item, &juniors->all[juniors->count++]))
            return false;
    return true;
}

static bool parse(const Json *root, void *into) { return juniors_parse(root, into); }

bool juniors_read(Juniors *juniors, Error *error)
{
    char path[1024];
    juniors->count = 0;
    bool good = load_kept(paths_data_look("juniors.json", path, sizeof path, NULL) ? path : "",
                          parse, juniors, error);
    if (!good)
        juniors->count = 0;
    return good;
}

static void play_out(JsonOut *out, const Play *play)
{
    json_out_object(out, NULL);
    json_out_string(out, "lesson", play->lesson);
    json_out_integer(out, "level", play->level);
    json_out_string(out, "skill", SKILL_NAMES[play->skill]);
    if (play->fresh)
        json_out_bool(out, "fresh", true);
    json_out_integer(out, "looked", play->looked);
    json_out_integer(out, "chose", play->chose);
    json_out_integer(out, "hints", play->hints);
    json_out_end(out);
}

bool juniors_write(const Juniors *juniors, Error *error)
{
    char path[1024];
    if (!paths_data_look("juniors.json", path, sizeof path, error))
        return false;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "format", "settee-juniors/1");
    json_out_array(&out, "juniors");
    for (int i = 0; i < juniors->count; i++) {
        const Junior *junior = &juniors->all[i];
        json_out_object(&out, NULL);
        json_out_string(&out, "name", junior->name);
        json_out_string(&out, "hand", HAND_NAMES[junior->hand]);
        json_out_string(&out, "ball", BALL_WORDS[junior->hook]);
        json_out_array(&out, "plays");
        for (int k = 0; k < junior->play_count; k++)
            play_out(&out, &junior->plays[k]);
        json_out_end(&out);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_end(&out);
    return load_keep(path, &out, error);
}
