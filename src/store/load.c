/* load.c - brings the bytes of a file into memory, whatever its name leads to. */
#define _XOPEN_SOURCE 700 /* realpath */
#include "store/load.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "core/lane/about.h"
#include "store/atomic.h"
#include "store/builtin.h"
#include "store/home.h"
#include "store/paths.h"

uint32_t load_crc32_zeros(uint32_t crc)
{
    static const uint32_t NIBBLE[16] = {0x00000000, 0x1db71064, 0x3b6e20c8, 0x26d930ac,
                                        0x76dc4190, 0x6b6b51f4, 0x4db26158, 0x5005713c,
                                        0xedb88320, 0xf00f9344, 0xd6d6a3e8, 0xcb61b38c,
                                        0x9b64c2b0, 0x86d3d2d4, 0xa00ae278, 0xbdbdf21c};
    crc = crc >> 4 ^ NIBBLE[crc & 15];
    return crc >> 4 ^ NIBBLE[crc & 15];
}

uint32_t load_crc32(const char *bytes, size_t size)
{
    uint32_t crc = 0xffffffffu;
    for (size_t i = 0; i < size; i++)
        crc = load_crc32_zeros(crc ^ (unsigned char)bytes[i]);
    return ~crc;
}

static bool too_large(size_t max, Error *error)
{
    return error_set(error, "found more than %zu bytes; allowed: files of at most that", max);
}

bool load_is_file(int fd, Error *error)
{
    struct stat status;
    errno = 0;
    if (fstat(fd, &status) == 0 && (S_ISREG(status.st_mode) || S_ISDIR(status.st_mode)))
        return true;
    return error_set(error, "found a pipe or a device; expected a file");
}

int load_open(const char *path, Error *error)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (fd < 0) {
        int why = errno;
        error_set(error, "can't be opened: %s", strerror(why));
        errno = why;
        return -1;
    }
    if (load_is_file(fd, error))
        return fd;
    close(fd);
    errno = 0;
    return -1;
}

char *load_descriptor(int fd, size_t max, size_t *length, Error *error)
{
    struct stat status;
    if (fstat(fd, &status) == 0 && S_ISDIR(status.st_mode)) {
        error_set(error, "found a folder; expected a file");
        return NULL;
    }
    if (fstat(fd, &status) == 0 && S_ISREG(status.st_mode) && status.st_size > (off_t)max) {
        too_large(max, error);
        return NULL;
    }
    size_t used = 0, room = 16384;
    char *text = malloc(room + 1);
    while (text) {
        if (used == room) {
            char *grown = realloc(text, room * 2 + 1);
            if (!grown)
                break;
            text = grown;
            room *= 2;
        }
        size_t wanted = room - used < max + 1 - used ? room - used : max + 1 - used;
        ssize_t got = read(fd, text + used, wanted);
        if (got < 0 && errno == EINTR)
            continue;
        if (got == 0) {
            text[used] = '\0';
            *length = used;
            return text;
        }
        if (got < 0) {
            error_set(error, "can't be read: %s", strerror(errno));
            free(text);
            return NULL;
        }
        used += (size_t)got;
        if (used > max) {
            too_large(max, error);
            free(text);
            return NULL;
        }
    }
    free(text);
    error_set(error, "out of memory");
    return NULL;
}

void load_id(const char *path, char *out, size_t size)
{
    const char *slash = strrchr(path, '/');
    const char *name = slash ? slash + 1 : path;
    size_t length = strlen(name);
    if (length > 5 && strcmp(name + length - 5, ".json") == 0)
        length -= 5;
    bool changed = length == 0;
    size_t used = 0;
    for (size_t i = 0; i < length && !changed; i++) {
        char c = name[i];
        bool fit = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                   c == '-' || c == '_';
        if (!fit || used + 1 >= size)
            changed = true;
        else
            out[used++] = c;
    }
    if (changed) { /* again, with room for the mark */
        used = 0;
        for (size_t i = 0; i < length && used + 10 < size; i++) {
            unsigned char c = (unsigned char)name[i];
            bool fit = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '-' || c == '_';
            out[used++] = fit ? (char)c : '-';
        }
        snprintf(out + used, size - used, "-%08lx", (unsigned long)load_crc32(name, length));
        return;
    }
    out[used] = '\0';
}

static void add_names(char *words, size_t size, const char *lead, const char *const *names)
{
    for (int i = 0; names[i]; i++)
        text_append(words, size, "%s %s", i ? "," : lead, names[i]);
}

bool load_missing(const char *kind, const char *name, Error *error)
{
    enum { IDS_MAX = 64, OWN_MAX = 64 };
    const char *ids[IDS_MAX + 1] = {0}, *owned[OWN_MAX + 1] = {0};
    char own[OWN_MAX][HOME_NAME_MAX];
    if (kind)
        builtin_ids(kind, ids, IDS_MAX);
    int own_count = kind ? home_names(kind, own, OWN_MAX) : 0;
    for (int i = 0; i < own_count; i++)
        owned[i] = own[i];
    const char *near_own = text_nearest(name, owned);
    const char *near_built_in = text_nearest(name, ids);
    char words[ERROR_TEXT_MAX] = "no such file";
    if (near_own) {
        text_append(words, sizeof words, "; the nearest name in your home is \"%s\"", near_own);
    } else if (near_built_in) {
        text_append(words, sizeof words, "; the nearest built-in name is \"%s\"", near_built_in);
    } else {
        add_names(words, sizeof words, "; in your home are:", owned);
        add_names(words, sizeof words, "; built in are:", ids);
    }
    return error_set(error, "%s", words);
}

/* ---- what a name leads to ---- */

static bool is_folder(const char *path)
{
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

/* A file exists, if only to be refused. A folder is not one: it hides nothing. */
static bool is_there(const char *path)
{
    struct stat status;
    if (stat(path, &status) == 0)
        return !S_ISDIR(status.st_mode);
    return errno != ENOENT && errno != ENOTDIR;
}

static bool find_home(const char *kind, const char *name, Found *found)
{
    const char *one[] = {kind, NULL};
    for (const char *const *row = kind ? one : HOME_KINDS; *row && !found->home; row++)
        found->home =
            home_path(*row, name, found->path, sizeof found->path) && is_there(found->path);
    return found->home;
}

static const BuiltinFile *find_builtin(const char *kind, const char *name)
{
    if (kind)
        return builtin_find(kind, name);
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++)
        if (strcmp(file->id, name) == 0)
            return file;
    return NULL;
}

bool load_find_carried(const char *kind, const char *name, Found *found)
{
    *found = (Found){0};
    if (find_home(kind, name, found))
        return true;
    found->builtin = find_builtin(kind, name);
    return found->builtin != NULL;
}

bool load_find(const char *kind, const char *name, Found *found, Error *error)
{
    *found = (Found){.about = kind && strcmp(kind, "patterns") == 0 && about_is(name)};
    if (!found->about && !is_there(name)) {
        if (load_find_carried(kind, name, found))
            return true;
        if (!is_folder(name))
            return load_missing(kind, name, error);
    }
    return text_copy(found->path, sizeof found->path, name)
               ? true
               : error_set(error, "the path is too long");
}

void load_place(const Found *found, char *out, size_t size)
{
    bool file = found->path[0] && !found->builtin && !found->about;
    char *real = file ? realpath(found->path, NULL) : NULL;
    const char *place = found->builtin ? found->builtin->id : found->about ? found->path : real;
    /* no path is better than half of one, or one JSON can't hold */
    if (!place || !text_clean(out, size, place))
        out[0] = '\0';
    free(real);
}

static bool take_builtin(const BuiltinFile *file, Loaded *loaded, Error *error)
{
    text_copy(error->file, sizeof error->file, "built-in ");
    text_append(error->file, sizeof error->file, "%s", file->id);
    loaded->text = malloc(file->size + 1);
    if (!loaded->text)
        return error_set(error, "out of memory");
    memcpy(loaded->text, file->bytes, file->size + 1);
    loaded->length = file->size;
    load_id(file->id, loaded->id, sizeof loaded->id);
    return true;
}

static bool take_path(const char *kind, const char *name, Loaded *loaded, Error *error)
{
    Found *found = &loaded->found;
    if (!load_find(kind, name, found, error))
        return false;
    if (found->builtin)
        return take_builtin(found->builtin, loaded, error);
    if (found->home)
        text_clean(error->file, sizeof error->file, found->path);
    int fd = load_open(found->path, error);
    if (fd < 0)
        return false;
    loaded->text = load_descriptor(fd, FILES_BYTES_MAX, &loaded->length, error);
    close(fd);
    load_id(found->path, loaded->id, sizeof loaded->id);
    const char *slash = strrchr(found->path, '/');
    if (slash)
        snprintf(loaded->folder, sizeof loaded->folder, "%.*s",
                 slash == found->path ? 1 : (int)(slash - found->path), found->path);
    return loaded->text != NULL;
}

static bool is_blank(const Loaded *loaded)
{
    return strspn(loaded->text, " \t\r\n") == loaded->length;
}

bool load_file(const char *kind, const char *name, Loaded *loaded, Error *error)
{
    static const char MARK[] = "\xef\xbb\xbf";
    *loaded = (Loaded){.folder = "."};
    *error = (Error){0};
    bool got;
    if (strcmp(name, "-") == 0) {
        text_copy(error->file, sizeof error->file, "<stdin>");
        text_copy(loaded->id, sizeof loaded->id, "stdin");
        loaded->text = load_descriptor(STDIN_FILENO, FILES_BYTES_MAX, &loaded->length, error);
        got = loaded->text != NULL;
    } else {
        text_clean(error->file, sizeof error->file, name);
        got = take_path(kind, name, loaded, error);
    }
    if (got)
        loaded->sum = load_crc32(loaded->text, loaded->length);
    if (got && loaded->length >= 3 && memcmp(loaded->text, MARK, 3) == 0) {
        loaded->length -= 3;
        memmove(loaded->text, loaded->text + 3, loaded->length + 1);
    }
    if (got && is_blank(loaded))
        got = error_set(error, "the file is empty; expected a JSON text");
    if (!got)
        load_free(loaded);
    return got;
}

void load_free(Loaded *loaded)
{
    free(loaded->text);
    loaded->text = NULL;
}

bool load_kept(const char *path, bool (*parse)(const Json *root, void *into), void *into,
               Error *error)
{
    struct stat status;
    Loaded file;
    *error = (Error){0};
    if (!path[0] || (lstat(path, &status) != 0 && (errno == ENOENT || errno == ENOTDIR)))
        return true;
    if (!load_file("", path, &file, error))
        return false;
    JsonDoc *doc = json_read(file.text, file.length, 1, error);
    Json root = doc ? json_root(doc, error) : (Json){0};
    bool good = doc && parse(&root, into);
    json_free(doc);
    load_free(&file);
    return good;
}

bool load_keep(char *path, JsonOut *out, Error *error)
{
    const char *text = json_out_text(out);
    bool done =
        text ? paths_make_folders(path, error) && atomic_write(path, text, strlen(text), error)
             : error_set(error, "out of memory");
    json_out_free(out);
    return done;
}
