/* keys_file.c - settee-keys/1: own keys for the screen's actions. What the actions are, ui knows.
 */
#include "store/keys_file.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "store/load.h"
#include "store/paths.h"

static const JsonField ROOT_FIELDS[] = {
    {"format", JSON_OTHER, .required = true}, {"keys", JSON_OTHER, .required = true}, JSON_END};
static const JsonField FIELDS[] = {{"in", JSON_WORD, .required = true, JSON_AT(Binding, place),
                                    .of = "place", .words = PLACE_NAMES},
                                   {"action", JSON_ID, .required = true, JSON_AT(Binding, action)},
                                   {"key", JSON_OTHER, .required = true},
                                   JSON_END};

/* One character that shows, but ?, or a named key. */
static bool can_be_bound(const char *key)
{
    if (key && strlen(key) == 1)
        return key[0] > ' ' && key[0] <= '~' && key[0] != '?';
    for (int i = 0; key && i < NAMED_COUNT; i++)
        if (strcmp(key, NAMED_KEYS[i]) == 0)
            return true;
    return false;
}

static bool binding_parse(const Json *item, Binding *binding)
{
    Json key;
    char found[64];
    if (!json_object(item, FIELDS, binding) || !json_member(item, "key", &key))
        return false;
    if (!can_be_bound(json_string(&key)))
        return json_fail(
            &key,
            "found %s; allowed: one ASCII character, Space, Tab, Up, Down, Left, Right, "
            "PgUp, PgDn, Home, End, Delete; Esc, Enter, Backspace and ? stay as they are",
            json_found(&key, found));
    strcpy(binding->key, json_string(&key));
    return true;
}

/* `refuses` NULL: the form alone is checked. */
static bool parse(const Json *root, Bindings *bindings, BindingsRefuse *refuses)
{
    Json keys, item, at[BINDINGS_MAX];
    char why[256];
    *bindings = (Bindings){0};
    if (!json_format(root, "settee-keys/1") || !json_object(root, ROOT_FIELDS, bindings) ||
        !json_member(root, "keys", &keys) || json_count(&keys, 0, BINDINGS_MAX, "keys") < 0)
        return false;
    for (bool more = json_first(&keys, &item); more; more = json_next(&item)) {
        at[bindings->count] = item;
        if (!binding_parse(&item, &bindings->item[bindings->count]))
            return false;
        bindings->count++;
    }
    int bad = refuses ? refuses(bindings, why, sizeof why) : -1;
    return bad < 0 || json_fail(&at[bad], "%s", why);
}

bool keys_parse(const Json *root, Bindings *bindings) { return parse(root, bindings, NULL); }

bool keys_read(Bindings *bindings, BindingsRefuse *refuses, Error *error)
{
    char path[1024];
    struct stat status;
    Loaded file;
    *bindings = (Bindings){0};
    *error = (Error){0};
    if (!paths_config("keys.json", path, sizeof path, NULL) ||
        (lstat(path, &status) != 0 && (errno == ENOENT || errno == ENOTDIR)))
        return true;
    if (!load_file("", path, &file, error))
        return false;
    JsonDoc *doc = json_read(file.text, file.length, 1, error);
    Json root = doc ? json_root(doc, error) : (Json){0};
    bool good = doc && parse(&root, bindings, refuses);
    if (!good)
        *bindings = (Bindings){0};
    json_free(doc);
    load_free(&file);
    return good;
}
