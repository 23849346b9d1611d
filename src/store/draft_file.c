/* draft_file.c - settee-draft/1: read, and written whole. */
#include "store/draft_file.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/json_out.h"
#include "store/atomic.h"
#include "store/load.h"
#include "store/paths.h"

static const JsonField FIELDS[] = {
    {"format", JSON_OTHER, .required = true},
    {"form", JSON_WORD, .required = true, JSON_AT(Draft, form), .of = "form", .words = DRAFT_FORMS},
    {"of", JSON_TEXT, JSON_AT(Draft, of)},
    {"part", JSON_TEXT, JSON_AT(Draft, part)},
    {"starting", JSON_BOOL, JSON_AT(Draft, starting)},
    {"rows", JSON_OTHER, .required = true},
    JSON_END};
static const JsonField ROW_FIELDS[] = {{"key", JSON_TEXT, .required = true, JSON_AT(DraftRow, key)},
                                       {"value", JSON_TEXT, JSON_AT(DraftRow, value)},
                                       JSON_END};

bool draft_parse(const Json *root, Draft *draft)
{
    Json rows, item;
    *draft = (Draft){.count = 0};
    if (!json_format(root, "settee-draft/1") || !json_object(root, FIELDS, draft) ||
        !json_member(root, "rows", &rows) || json_count(&rows, 0, DRAFT_ROWS_MAX, "rows") < 0)
        return false;
    for (bool more = json_first(&rows, &item); more; more = json_next(&item))
        if (!json_object(&item, ROW_FIELDS, &draft->rows[draft->count++]))
            return false;
    return true;
}

static bool place(char *path, size_t size, Error *error)
{
    return paths_config("draft.json", path, size, error);
}

bool draft_read(Draft *draft, Error *error)
{
    char path[1024];
    struct stat status;
    Loaded file;
    *draft = (Draft){.count = 0};
    *error = (Error){0};
    if (!place(path, sizeof path, NULL) ||
        (lstat(path, &status) != 0 && (errno == ENOENT || errno == ENOTDIR)))
        return true;
    if (!load_file("", path, &file, error))
        return false;
    JsonDoc *doc = json_read(file.text, file.length, 1, error);
    Json root = doc ? json_root(doc, error) : (Json){0};
    bool good = doc && draft_parse(&root, draft);
    if (!good)
        *draft = (Draft){.count = 0};
    json_free(doc);
    load_free(&file);
    return good;
}

bool draft_write(const Draft *draft, Error *error)
{
    char path[1024];
    JsonOut out = json_out_start();
    out.lines = 2;
    json_out_object(&out, NULL);
    json_out_string(&out, "format", "settee-draft/1");
    json_out_string(&out, "form", DRAFT_FORMS[draft->form]);
    json_out_string(&out, "of", draft->of);
    json_out_string(&out, "part", draft->part);
    json_out_bool(&out, "starting", draft->starting);
    json_out_array(&out, "rows");
    for (int i = 0; i < draft->count; i++) {
        json_out_object(&out, NULL);
        json_out_string(&out, "key", draft->rows[i].key);
        json_out_string(&out, "value", draft->rows[i].value);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_end(&out);
    const char *text = json_out_text(&out);
    bool done = text ? place(path, sizeof path, error) && paths_make_folders(path, error) &&
                           atomic_write(path, text, strlen(text), error)
                     : error_set(error, "out of memory");
    json_out_free(&out);
    return done;
}

void draft_remove(void)
{
    char path[1024];
    if (place(path, sizeof path, NULL))
        unlink(path);
}
