/* draft_file.c - settee-draft/1: read, and written whole. */
#include "store/draft_file.h"

#include <unistd.h>

#include "base/json_out.h"
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

static bool parse(const Json *root, void *into) { return draft_parse(root, into); }

bool draft_read(Draft *draft, Error *error)
{
    char path[1024];
    *draft = (Draft){.count = 0};
    bool good = load_kept(place(path, sizeof path, NULL) ? path : "", parse, draft, error);
    if (!good)
        *draft = (Draft){.count = 0};
    return good;
}

bool draft_write(const Draft *draft, Error *error)
{
    char path[1024];
    if (!place(path, sizeof path, error))
        return false;
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
    return load_keep(path, &out, error);
}

void draft_remove(void)
{
    char path[1024];
    if (place(path, sizeof path, NULL))
        unlink(path);
}
