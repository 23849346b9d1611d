/* rehearsals.c - settee-rehearsal/1: read by tables of keys, written whole. */
#include "store/rehearsals.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/text.h"
#include "store/atomic.h"
#include "store/load.h"
#include "store/paths.h"

#define FORMAT "settee-rehearsal/1"
#define SCORE(member) JSON_RANGE(RecordGame, member, 0, SCORE_PERFECT, "pins"), .required = true

static const JsonField GAME_FIELDS[] = {{"score", JSON_INTEGER, .required = true,
                                         JSON_AT(RecordGame, score), .max = SCORE_PERFECT,
                                         .of = "pins"},
                                        {"expected", SCORE(expected)},
                                        {"best", SCORE(best)},
                                        {"expected_as_known", SCORE(expected_as_known)},
                                        {"best_as_known", SCORE(best_as_known)},
                                        JSON_END};

static const JsonField ROOT_FIELDS[] = {
    {"format", JSON_OTHER, .required = true},
    {"date", JSON_TEXT, JSON_AT(RehearsalRecord, date)},
    {"bowler", JSON_TEXT, .required = true, JSON_AT(RehearsalRecord, bowler)},
    {"player", JSON_TEXT, .required = true, JSON_AT(RehearsalRecord, player)},
    {"pattern", JSON_TEXT, .required = true, JSON_AT(RehearsalRecord, pattern)},
    {"length_ft", JSON_RANGE(RehearsalRecord, length_ft, 0, LANE_LENGTH_FT, "ft"),
     .required = true},
    {"world", JSON_TEXT, .required = true, JSON_AT(RehearsalRecord, world)},
    {"seed", JSON_RANGE(RehearsalRecord, seed, 1, 1e15, ""), .required = true},
    {"bowlers_on_pair", JSON_INTEGER, JSON_AT(RehearsalRecord, bowlers_on_pair), .min = 1,
     .max = 10},
    {"practice", JSON_INTEGER, JSON_AT(RehearsalRecord, practice), .max = REHEARSE_PRACTICE_MAX},
    {"steady", JSON_BOOL, JSON_AT(RehearsalRecord, steady)},
    {"help", JSON_INTEGER, JSON_AT(RehearsalRecord, help), .max = 1e6},
    {"games", JSON_OTHER, .required = true},
    JSON_END};

bool rehearsal_parse(const Json *root, RehearsalRecord *record)
{
    Json games, item;
    *record = (RehearsalRecord){.bowlers_on_pair = 1};
    if (!json_format(root, FORMAT) || !json_object(root, ROOT_FIELDS, record) ||
        !json_member(root, "games", &games) ||
        (record->games = json_count(&games, 1, SESSION_GAMES_MAX, "games")) < 0)
        return false;
    if (record->date[0] && !files_date(record->date)) {
        Json date;
        return json_member(root, "date", &date) &&
               json_fail(&date, "found \"%s\"; allowed: a date such as 2026-05-17", record->date);
    }
    for (bool more = json_first(&games, &item); more; more = json_next(&item))
        if (!json_object(&item, GAME_FIELDS, &record->game[item.index]))
            return false;
    return true;
}

static void game_out(JsonOut *out, const RecordGame *game)
{
    json_out_object(out, NULL);
    json_out_integer(out, "score", game->score);
    json_out_rounded(out, "expected", game->expected, 3);
    json_out_rounded(out, "best", game->best, 3);
    json_out_rounded(out, "expected_as_known", game->expected_as_known, 3);
    json_out_rounded(out, "best_as_known", game->best_as_known, 3);
    json_out_end(out);
}

static void record_out(JsonOut *out, const RehearsalRecord *record)
{
    out->lines = 2;
    json_out_object(out, NULL);
    json_out_string(out, "format", FORMAT);
    if (record->date[0])
        json_out_string(out, "date", record->date);
    json_out_string(out, "bowler", record->bowler);
    json_out_string(out, "player", record->player);
    json_out_string(out, "pattern", record->pattern);
    json_out_number(out, "length_ft", record->length_ft);
    json_out_string(out, "world", record->world);
    json_out_number(out, "seed", record->seed);
    json_out_integer(out, "bowlers_on_pair", record->bowlers_on_pair);
    json_out_integer(out, "practice", record->practice);
    json_out_bool(out, "steady", record->steady);
    json_out_integer(out, "help", record->help);
    json_out_array(out, "games");
    for (int i = 0; i < record->games; i++)
        game_out(out, &record->game[i]);
    json_out_end(out);
    json_out_end(out);
}

/* The next free name of that day. */
static bool next_path(const char *date, char *path, size_t size, Error *error)
{
    char name[64];
    struct stat status;
    for (int i = 1; i < 1000; i++) {
        name[0] = '\0';
        text_append(name, sizeof name, "rehearsals/%s-%03d.json", date[0] ? date : "0000-00-00", i);
        if (!paths_data_look(name, path, size, error))
            return false;
        if (lstat(path, &status) != 0)
            return paths_make_folders(path, error);
    }
    return error_set(error, "a thousand rehearsals of one day are kept already");
}

bool rehearsals_keep(const RehearsalRecord *record, char *path, size_t size, Error *error)
{
    JsonOut out = json_out_start();
    record_out(&out, record);
    const char *text = json_out_text(&out);
    bool done = text ? next_path(record->date, path, size, error) &&
                           atomic_write_new(path, text, strlen(text), error)
                     : error_set(error, "out of memory");
    json_out_free(&out);
    return done;
}

static bool read_one(const char *path, RehearsalRecord *record, Error *error)
{
    Loaded file;
    if (!load_file("", path, &file, error))
        return false;
    JsonDoc *doc = json_read(file.text, file.length, 1, error);
    Json root = doc ? json_root(doc, error) : (Json){0};
    bool good = doc && rehearsal_parse(&root, record);
    json_free(doc);
    load_free(&file);
    return good;
}

static int by_name(const void *a, const void *b) { return strcmp(a, b); }

enum { NAME_SIZE = 64 };

/* The folder's files, sorted; heap. -1: it can't be read. */
static int names_of(const char *folder, char (**names)[NAME_SIZE], Error *error)
{
    DIR *dir = opendir(folder);
    int count = 0, room = 0;
    *names = NULL;
    if (!dir && (errno == ENOENT || errno == ENOTDIR))
        return 0;
    if (!dir) {
        text_clean(error->file, sizeof error->file, folder);
        error_set(error, "the folder can't be read: %s", strerror(errno));
        return -1;
    }
    for (struct dirent *row; (row = readdir(dir));) {
        size_t length = strlen(row->d_name);
        if (row->d_name[0] == '.' || length < 6 || length >= NAME_SIZE ||
            strcmp(row->d_name + length - 5, ".json") != 0)
            continue;
        if (count == room) {
            room = room ? 2 * room : 64;
            char(*grown)[NAME_SIZE] = realloc(*names, (size_t)room * NAME_SIZE);
            if (!grown) {
                closedir(dir);
                error_set(error, "out of memory");
                return -1;
            }
            *names = grown;
        }
        text_copy((*names)[count++], NAME_SIZE, row->d_name);
    }
    closedir(dir);
    if (count > 0)
        qsort(*names, (size_t)count, NAME_SIZE, by_name);
    return count;
}

RehearsalRecord *rehearsals_read(int *count, void (*fault)(const Error *error), Error *error)
{
    char folder[1024], path[1200], (*names)[NAME_SIZE] = NULL;
    *count = 0;
    *error = (Error){0};
    if (!paths_data_look("rehearsals", folder, sizeof folder, NULL))
        return NULL;
    int found = names_of(folder, &names, error);
    RehearsalRecord *records = found > 0 ? malloc((size_t)found * sizeof *records) : NULL;
    if (found < 0 || (found > 0 && !records)) {
        if (found > 0)
            error_set(error, "out of memory");
        *count = -1;
        found = 0;
    }
    for (int i = 0; i < found; i++) {
        Error why = {0};
        path[0] = '\0';
        text_append(path, sizeof path, "%s/%s", folder, names[i]);
        if (read_one(path, &records[*count], &why))
            ++*count;
        else
            fault(&why);
    }
    free(names);
    return records;
}
