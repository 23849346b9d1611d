/* keys_file.c - settee-keys/1: own keys for the screen's actions. What the actions are, ui knows.
 */
#include "store/keys_file.h"

#include <string.h>

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

typedef struct KeysTold {
    Bindings *bindings;
    BindingsRefuse *refuses;
} KeysTold;

static bool parse_refused(const Json *root, void *into)
{
    const KeysTold *told = into;
    return parse(root, told->bindings, told->refuses);
}

bool keys_read(Bindings *bindings, BindingsRefuse *refuses, Error *error)
{
    char path[1024];
    KeysTold told = {bindings, refuses};
    *bindings = (Bindings){0};
    bool good = load_kept(paths_config("keys.json", path, sizeof path, NULL) ? path : "",
                          parse_refused, &told, error);
    if (!good)
        *bindings = (Bindings){0};
    return good;
}
