/* json.c - reads JSON by tables of fields. The only file that includes cJSON. Knows nothing of
 * bowling. */
#include "store/json.h"

#include <cJSON.h>

#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/json_scan.h"

struct JsonDoc {
    const char *text;
    size_t length;
    int first_line;
    cJSON *root;
};

/* ---- documents ---- */

static bool fault_at(Error *error, const char *text, size_t offset, int first_line,
                     const char *words)
{
    error->line = first_line - 1 + json_line(text, offset);
    error->where[0] = '\0';
    return error_set(error, "%s", words);
}

/* What no JSON text may contain; the other checks rely on it. */
static bool text_fit(const char *text, size_t length, int first_line, Error *error)
{
    char words[128];
    const char *nul = memchr(text, '\0', length);
    size_t bad = text_utf8_fault(text, length);
    if (nul && (size_t)(nul - text) < bad) {
        bad = (size_t)(nul - text);
        snprintf(words, sizeof words, "found a NUL byte at offset %zu; is this a JSON text?", bad);
    } else if (bad < length) {
        snprintf(words, sizeof words, "found byte 0x%02x at offset %zu, which is not UTF-8",
                 (unsigned)(unsigned char)text[bad], bad);
    }
    if (bad < length)
        return fault_at(error, text, bad, first_line, words);
    return true;
}

JsonDoc *json_read(const char *text, size_t length, int first_line, Error *error)
{
    JsonSpot spot;
    if (!text_fit(text, length, first_line, error))
        return NULL;
    if (!json_scan(text, length, JSON_SCAN_ALL, &spot)) {
        fault_at(error, text, spot.fault, first_line, spot.words);
        return NULL;
    }
    JsonDoc *doc = malloc(sizeof *doc);
    cJSON *tree = doc ? cJSON_ParseWithLength(text, length) : NULL;
    if (!tree) { /* the scan found nothing wrong with the text, so this is memory */
        free(doc);
        error->line = 0;
        error->where[0] = '\0';
        error_set(error, "out of memory");
        return NULL;
    }
    *doc = (JsonDoc){.text = text, .length = length, .first_line = first_line, .root = tree};
    return doc;
}

void json_free(JsonDoc *doc)
{
    if (doc)
        cJSON_Delete(doc->root);
    free(doc);
}

Json json_root(const JsonDoc *doc, Error *error)
{
    return (Json){.doc = doc, .node = doc->root, .error = error, .path = "$"};
}

/* ---- where a value is, and what it says ---- */

/* Values in the tree come in the order in which they begin in the text, so a value's number leads
 * back to its place. The scan has bounded the depth. */
static bool number_of(const cJSON *node, const cJSON *wanted, size_t *index)
{
    for (; node; node = node->next) {
        if (node == wanted)
            return true;
        ++*index;
        if (number_of(node->child, wanted, index))
            return true;
    }
    return false;
}

static JsonSpot spot_of(const Json *value)
{
    size_t index = 0;
    JsonSpot spot = {0};
    if (number_of(value->doc->root, value->node, &index))
        json_scan(value->doc->text, value->doc->length, index, &spot);
    return spot;
}

bool json_fail(const Json *value, const char *format, ...)
{
    char words[ERROR_TEXT_MAX];
    va_list args;
    va_start(args, format);
    vsnprintf(words, sizeof words, format, args);
    va_end(args);
    value->error->line =
        value->doc->first_line - 1 + json_line(value->doc->text, spot_of(value).value);
    text_copy(value->error->where, sizeof value->error->where, value->path);
    return error_set(value->error, "%s", words);
}

const char *json_found(const Json *value, char out[64])
{
    enum { SHOWN = 44 };
    const cJSON *node = value->node;
    if (cJSON_IsObject(node))
        return node->child ? "an object" : "an empty object";
    if (cJSON_IsArray(node))
        return node->child ? "an array" : "an empty array";
    size_t at = spot_of(value).value;
    size_t size = json_scalar_size(value->doc->text, value->doc->length, at);
    bool cut = size > SHOWN;
    snprintf(out, 64, "%.*s%s", (int)(cut ? SHOWN : size), value->doc->text + at, cut ? "..." : "");
    return out;
}

/* ---- moving around ---- */

bool json_is_object(const Json *value) { return cJSON_IsObject((const cJSON *)value->node); }
bool json_is_array(const Json *value) { return cJSON_IsArray((const cJSON *)value->node); }
const char *json_string(const Json *value)
{
    return cJSON_GetStringValue((const cJSON *)value->node);
}

static Json child_of(const Json *parent, const cJSON *node, const char *key)
{
    Json child = *parent;
    child.node = node;
    if (key)
        text_append(child.path, sizeof child.path, ".%s", key);
    return child;
}

bool json_member(const Json *object, const char *key, Json *member)
{
    const cJSON *node = cJSON_GetObjectItemCaseSensitive(object->node, key);
    if (node)
        *member = child_of(object, node, key);
    return node != NULL;
}

const char *json_first_key(const Json *object, Json *member)
{
    const cJSON *node = object->node;
    if (!cJSON_IsObject(node) || !node->child)
        return NULL;
    *member = child_of(object, node->child, node->child->string);
    return node->child->string;
}

int json_count(const Json *array, int min, int max, const char *items)
{
    char found[64];
    if (!json_is_array(array)) {
        json_fail(array, "found %s; allowed: an array of %s", json_found(array, found), items);
        return -1;
    }
    int count = cJSON_GetArraySize(array->node);
    if (count >= min && count <= max)
        return count;
    if (min == max)
        json_fail(array, "found %d %s; allowed: exactly %d", count, items, min);
    else
        json_fail(array, "found %d %s; allowed: %d to %d", count, items, min, max);
    return -1;
}

static void name_item(Json *item)
{
    item->path[item->stem] = '\0';
    text_append(item->path, sizeof item->path, "[%d]", item->index);
}

bool json_first(const Json *array, Json *item)
{
    const cJSON *node = array->node;
    if (!node->child)
        return false;
    *item = child_of(array, node->child, NULL);
    item->index = 0;
    item->stem = strlen(item->path);
    name_item(item);
    return true;
}

bool json_next(Json *item)
{
    const cJSON *node = item->node;
    if (!node->next)
        return false;
    item->node = node->next;
    item->index++;
    name_item(item);
    return true;
}

/* ---- values ---- */

static bool read_bool(const Json *value, void *at)
{
    char found[64];
    if (!cJSON_IsBool((const cJSON *)value->node))
        return json_fail(value, "found %s; allowed: true or false", json_found(value, found));
    bool flag = cJSON_IsTrue((const cJSON *)value->node);
    memcpy(at, &flag, sizeof flag);
    return true;
}

/* `found` is what stands there in the file's words, for `why`. */
static bool read_scalar(const cJSON *node, const JsonField *field, const char *found, void *into,
                        Error *why)
{
    const char *text = cJSON_IsString(node) ? node->valuestring : NULL;
    double number = cJSON_IsNumber(node) ? node->valuedouble : (double)NAN;
    switch (field->kind) {
    case JSON_WORD:
        return json_field_word(field, text, found, into, why);
    case JSON_TEXT:
        return json_field_text(field, text, found, into, why);
    case JSON_ID:
        return json_field_id(field, text, found, into, why);
    default:
        return json_field_number(field, number, found, into, why);
    }
}

bool json_value(const Json *value, const JsonField *field, void *into)
{
    char found[64];
    Error why = {0};
    if (field->kind == JSON_OTHER)
        return true;
    if (field->kind == JSON_BOOL)
        return read_bool(value, (char *)into + field->offset);
    if (read_scalar(value->node, field, "", into, &why))
        return true;
    /* only now: looking for the file's words walks the text from its start */
    read_scalar(value->node, field, json_found(value, found), into, &why);
    return json_fail(value, "%s", why.text);
}

/* ---- objects ---- */

static int field_of(const JsonField *fields, const char *key)
{
    for (int i = 0; fields[i].key; i++)
        if (strcmp(fields[i].key, key) == 0)
            return i;
    return -1;
}

/* At the key rather than the value: its line, and the object's path. */
static bool key_fault(const Json *object, const cJSON *member, const char *words)
{
    Json place = child_of(object, member, NULL);
    json_fail(&place, "%s", words);
    object->error->line =
        object->doc->first_line - 1 + json_line(object->doc->text, spot_of(&place).key);
    return false;
}

static bool unknown_key(const Json *object, const cJSON *member, const JsonField *fields)
{
    enum { NAMES_MAX = 32 };
    const char *names[NAMES_MAX + 1] = {0};
    for (int i = 0; i < NAMES_MAX && fields[i].key; i++)
        names[i] = fields[i].key;
    const char *nearest = text_nearest(member->string, names);
    char words[ERROR_TEXT_MAX];
    snprintf(words, sizeof words, "unknown key \"%.48s\"", member->string);
    if (nearest) {
        text_append(words, sizeof words, "; did you mean \"%s\"?", nearest);
    } else {
        text_append(words, sizeof words, "; known:");
        for (int i = 0; names[i]; i++)
            text_append(words, sizeof words, "%s %s", i ? "," : "", names[i]);
    }
    return key_fault(object, member, words);
}

/* Every key is known and given once, and none is missing that must be there. Stops at the first
 * fault, so an object of a million keys costs nothing. */
static bool check_keys(const Json *object, const JsonField *fields)
{
    char found[64], words[128];
    if (!json_is_object(object))
        return json_fail(object, "found %s; allowed: an object", json_found(object, found));
    uint64_t seen = 0;
    const cJSON *member = ((const cJSON *)object->node)->child;
    for (; member; member = member->next) {
        int i = field_of(fields, member->string);
        if (i < 0)
            return unknown_key(object, member, fields);
        if (seen >> i & 1) {
            snprintf(words, sizeof words, "found the key \"%s\" twice", fields[i].key);
            return key_fault(object, member, words);
        }
        seen |= UINT64_C(1) << i;
    }
    for (int i = 0; fields[i].key; i++)
        if (fields[i].required && !(seen >> i & 1))
            return json_fail(object, "missing key \"%s\"", fields[i].key);
    return true;
}

bool json_object(const Json *value, const JsonField *fields, void *into)
{
    if (!check_keys(value, fields))
        return false;
    for (const JsonField *field = fields; field->key; field++) {
        Json member;
        if (field->kind != JSON_OTHER && json_member(value, field->key, &member) &&
            !json_value(&member, field, into))
            return false;
    }
    return true;
}

bool json_pair(const Json *object, const char *key, const JsonField *field, void *first,
               void *second)
{
    Json pair, item;
    return json_member(object, key, &pair) && json_count(&pair, 2, 2, "numbers") == 2 &&
           json_first(&pair, &item) && json_value(&item, field, first) && json_next(&item) &&
           json_value(&item, field, second);
}

bool json_format(const Json *root, const char *format)
{
    char found[64];
    Json first = *root;
    if (!json_is_object(root))
        return json_fail(root, "found %s; allowed: an object whose first key is \"format\": \"%s\"",
                         json_found(root, found), format);
    const char *key = json_first_key(root, &first);
    if (!key || strcmp(key, "format") != 0)
        return json_fail(&first, "the first key must be \"format\": \"%s\"", format);
    const cJSON *node = first.node;
    if (!cJSON_IsString(node) || strcmp(node->valuestring, format) != 0)
        return json_fail(&first, "found %s; this program reads \"%s\" here",
                         json_found(&first, found), format);
    return true;
}
