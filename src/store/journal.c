/* journal.c - the journal's file: opened, locked, repaired, appended to.
 *
 * Whatever happens, every byte that was once reported as saved stays in some file of the folder. */
#include "store/journal.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "store/atomic.h"
#include "store/journal_line.h"
#include "store/journal_tale.h"
#include "store/load.h"
#include "store/paths.h"

#define ENDING ".journal"
#define EARLIER ".earlier-"
enum { PATH_BYTES_MAX = 1024, JOURNAL_BYTES_MAX = 1 << 24, SET_ASIDE_MAX = 10000 };

struct Journal {
    int fd;
    char *text; /* all of the journal, so that it can be written again where its file is lost */
    size_t length;
    size_t kept;   /* how much of it is whole in the file; the lines after that wait */
    bool nameless; /* no entry yet, and the folder may not have its name on disk */
    bool ragged;   /* there may be more in the file, to be cut off before the next write */
    bool lame;     /* an entry could not even be kept in memory, so no later one may follow */
    int next;      /* number of the next entry */
    int waiting;   /* entries not on disk yet */
    char path[PATH_BYTES_MAX];
    char news[ERROR_TEXT_MAX];
};

/* ---- names ---- */

bool journal_file(const char *name, char *out, size_t size)
{
    const char *earlier = strstr(name, EARLIER);
    int length = earlier ? (int)(earlier - name) : (int)strlen(name);
    out[0] = '\0';
    return text_append(out, size, "events/%.*s" ENDING "%s", length, name, earlier ? earlier : "");
}

bool journal_path(const char *name, char *out, size_t size, Error *error)
{
    char file[256];
    return journal_file(name, file, sizeof file) && paths_data_look(file, out, size, error);
}

/* The whole text of the journal of that name, heap; NULL with `error` and errno. */
static char *slurp(const char *name, size_t *length, Error *error)
{
    char path[PATH_BYTES_MAX];
    errno = 0;
    if (!journal_path(name, path, sizeof path, error))
        return NULL;
    text_clean(error->file, sizeof error->file, path);
    int fd = load_open(path, error);
    if (fd < 0) {
        if (errno == ENOENT)
            error_set(error, "this event has no journal yet");
        return NULL;
    }
    char *text = load_descriptor(fd, JOURNAL_BYTES_MAX, length, error);
    close(fd);
    errno = 0;
    return text;
}

/* The file of that kind, as the header names it. */
static void place_of(const char *kind, const char *name, char *out, size_t size)
{
    Found found;
    out[0] = '\0';
    if (name[0] && load_find(kind, name, &found, NULL))
        load_place(&found, out, size);
}

static void head_of(const Session *session, JournalHead *head)
{
    const EventInfo *event = &session->event;
    *head = (JournalHead){0};
    text_copy(head->event, sizeof head->event, event->id);
    text_copy(head->date, sizeof head->date, event->date);
    text_copy(head->file, sizeof head->file, event->file);
    text_copy(head->bowler, sizeof head->bowler, session->bag.bowler.name);
    place_of("bags", event->bag, head->bag, sizeof head->bag);
    place_of("patterns", event->pattern, head->pattern, sizeof head->pattern);
}

static bool differ(const char *a, const char *b) { return a[0] && b[0] && strcmp(a, b) != 0; }

/* An event whose file has been moved continues in its journal; a copy of it is another event. A
 * bowler may change the bag, or the spelling of the name, but not both at once. */
static bool is_others(const JournalHead *is, const JournalHead *ours)
{
    struct stat status;
    if (differ(is->file, ours->file) && (is->file[0] != '/' || stat(is->file, &status) == 0))
        return true;
    return differ(is->bowler, ours->bowler) && differ(is->bag, ours->bag);
}

bool journal_find(const Session *session, JournalHead *head)
{
    const EventInfo *event = &session->event;
    JournalHead ours;
    head_of(session, &ours);
    for (int n = 1;; n++) {
        size_t length;
        Error unheard;
        *head = (JournalHead){0};
        text_append(head->name, sizeof head->name, "%s%s%s", event->id,
                    event->other_bag[0] ? "+" : "", event->other_bag);
        if (n > 1)
            text_append(head->name, sizeof head->name, ".%d", n);
        char *text = slurp(head->name, &length, &unheard);
        if (!text)
            return errno != ENOENT;
        bool ends = !journal_head_read(text, length, head) || !is_others(head, &ours);
        free(text);
        if (ends || n == SET_ASIDE_MAX)
            return true;
    }
}

/* ---- writing ---- */

/* Adds a line to those waiting, and frees it. */
static bool keep_line(Journal *journal, char *line)
{
    size_t size = line ? strlen(line) : 0;
    char *grown = line ? realloc(journal->text, journal->length + size + 1) : NULL;
    if (grown) {
        memcpy(grown + journal->length, line, size + 1);
        journal->text = grown;
        journal->length += size;
    }
    free(line);
    return grown != NULL;
}

static bool disk_refuses(Journal *journal, Error *error, int why)
{
    text_clean(error->file, sizeof error->file, journal->path);
    /* short, so that 80 columns have room for all of it */
    return error_set(error, "can't be written: %s; kept in memory", strerror(why));
}

/* Brings the file's name to the disk, and those of the folders that may have been made for it. */
static bool sync_names(const Journal *journal)
{
    char path[PATH_BYTES_MAX];
    if (!atomic_sync_folder(journal->path))
        return false;
    text_copy(path, sizeof path, journal->path);
    for (int above = 0; above < 2; above++) { /* events in settee, settee in its own folder */
        char *slash = strrchr(path, '/');
        if (!slash || slash == path)
            break;
        *slash = '\0';
        atomic_sync_folder(path); /* one that may not be opened was not made here */
    }
    return true;
}

static bool sync_file(const Journal *journal)
{
    return fdatasync(journal->fd) == 0 && (!journal->nameless || sync_names(journal));
}

/* Writes the lines waiting, all or nothing: a part that got through is cut off again, so that it
 * can't become part of a later line. `safe`: true only once they are on disk. Else errno. */
static bool write_waiting(Journal *journal, bool safe)
{
    off_t kept = (off_t)journal->kept;
    size_t size = journal->length - journal->kept;
    if (journal->ragged && ftruncate(journal->fd, kept) != 0)
        return false;
    journal->ragged = false;
    if (size == 0 || (atomic_write_all(journal->fd, journal->text + journal->kept, size) &&
                      (!safe || sync_file(journal))))
        return true;
    int why = errno;
    journal->ragged = ftruncate(journal->fd, kept) != 0;
    errno = why;
    return false;
}

static void all_kept(Journal *journal)
{
    journal->kept = journal->length;
    journal->waiting = 0;
}

/* Whether the open file is still the one that the journal's name leads to, and has what was written
 * to it: another program may delete it, move it or put another in its place. */
static bool in_place(const Journal *journal, size_t size)
{
    struct stat opened, named;
    return fstat(journal->fd, &opened) == 0 && stat(journal->path, &named) == 0 &&
           opened.st_ino == named.st_ino && opened.st_dev == named.st_dev &&
           opened.st_size >= (off_t)size;
}

static bool write_again(Journal *journal, Error *error);

static bool flush(Journal *journal, Error *error)
{
    bool there = in_place(journal, journal->kept);
    if (there && !write_waiting(journal, true))
        return disk_refuses(journal, error, errno);
    if (!there || !in_place(journal, journal->length))
        return write_again(journal, error);
    journal->nameless = journal->nameless && journal->kept == journal->length;
    all_kept(journal);
    return true;
}

bool journal_append(Journal *journal, const Entry *entry, Error *error)
{
    Error unheard;
    error = error ? error : &unheard;
    *error = (Error){0};
    journal->news[0] = '\0';
    if (!journal->lame && !keep_line(journal, journal_entry_line(journal->next, entry)))
        journal->lame = true;
    if (journal->lame)
        return error_set(error, "out of memory: entries from here on are not kept");
    journal->next++;
    journal->waiting++;
    return flush(journal, error);
}

int journal_waiting(const Journal *journal) { return journal->waiting; }

const char *journal_news(const Journal *journal) { return journal->news; }

int journal_close(Journal *journal)
{
    Error unheard;
    if (!journal)
        return 0;
    if (journal->fd >= 0) {
        if (journal->next > 1)
            flush(journal, &unheard);
        close(journal->fd); /* this releases the lock too */
    }
    int lost = journal->waiting;
    free(journal->text);
    free(journal);
    return lost;
}

/* ---- setting aside ---- */

/* Gives the file at `path` a second name that is not used yet: `base`.SUFFIX-1, -2, ... Where the
 * file system has no links it is renamed: the lock keeps every other settee away meanwhile. */
static bool name_again(const char *path, const char *base, const char *suffix, char *out,
                       size_t size)
{
    for (int n = 1; n <= SET_ASIDE_MAX; n++) {
        struct stat status;
        if (snprintf(out, size, "%s.%s-%d", base, suffix, n) >= (int)size) {
            errno = ENAMETOOLONG;
            return false;
        }
        if (link(path, out) == 0)
            return true;
        if (errno == EEXIST)
            continue;
        if (errno != EPERM && errno != EACCES && errno != ENOTSUP && errno != ENOSYS &&
            errno != EMLINK)
            return false;
        if (lstat(out, &status) != 0 && errno == ENOENT)
            return rename(path, out) == 0;
    }
    errno = EEXIST;
    return false;
}

/* A new, locked file with all of the journal, beside it. */
static int write_fresh(const Journal *journal, const char *temp)
{
    unlink(temp); /* of a program that died; or a link that leads to somebody's file */
    int fd = open(temp, O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_APPEND | O_CLOEXEC, 0600);
    if (fd < 0)
        return -1;
    if (atomic_write_all(fd, journal->text, journal->length) && fsync(fd) == 0) {
        (void)flock(fd, LOCK_EX | LOCK_NB); /* nobody else has it open */
        return fd;
    }
    int why = errno;
    close(fd);
    unlink(temp);
    errno = why;
    return -1;
}

/* Whether the file at the journal's place is one that another settee has open. */
static bool is_in_use(const Journal *journal)
{
    struct stat opened, named;
    int fd = open(journal->path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    bool used = fd >= 0 && fstat(journal->fd, &opened) == 0 && fstat(fd, &named) == 0 &&
                (opened.st_ino != named.st_ino || opened.st_dev != named.st_dev) &&
                flock(fd, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK;
    if (fd >= 0)
        close(fd);
    return used;
}

/* Writes the whole journal into a new file that takes its place at once; what is there now keeps a
 * name at every moment, told in `aside` ("": nothing was there). Where another settee uses it, it
 * stays, and the journal goes on under the second name. False with errno. */
static bool take_place(Journal *journal, const char *suffix, char *aside, size_t size)
{
    char temp[PATH_BYTES_MAX + 8];
    struct stat status;
    Error unheard;
    snprintf(temp, sizeof temp, "%s.new", journal->path);
    aside[0] = '\0';
    int fd = write_fresh(journal, temp);
    if (fd < 0 && errno == ENOENT && paths_make_folders(journal->path, &unheard))
        fd = write_fresh(journal, temp);
    if (fd < 0)
        return false;
    bool there = lstat(journal->path, &status) == 0, used = there && is_in_use(journal);
    bool done =
        !there || name_again(used ? temp : journal->path, journal->path, suffix, aside, size);
    if (done && !used)
        done = rename(temp, journal->path) == 0;
    int why = errno;
    if (!done || used)
        unlink(temp);
    if (!done || (used && !text_copy(journal->path, sizeof journal->path, aside))) {
        close(fd);
        errno = why;
        return false;
    }
    close(journal->fd);
    journal->fd = fd;
    journal->ragged = false;
    journal->nameless = !sync_names(journal);
    why = errno;
    if (!journal->nameless)
        all_kept(journal);
    else
        journal->kept = journal->length; /* but told as waiting, until its name is on disk too */
    errno = why;
    return !journal->nameless;
}

static const char *name_in(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

/* The file is gone, moved, or another. */
static bool write_again(Journal *journal, Error *error)
{
    char aside[PATH_BYTES_MAX + 32];
    int entries = journal->next - 1;
    if (!take_place(journal, "replaced", aside, sizeof aside))
        return disk_refuses(journal, error, errno);
    journal->news[0] = '\0';
    if (!aside[0])
        text_append(journal->news, sizeof journal->news,
                    "The journal's file was gone: all %d entries are written again", entries);
    else if (strcmp(aside, journal->path) == 0)
        text_append(journal->news, sizeof journal->news,
                    "Another settee took this journal: all %d entries of this one are in %s",
                    entries, name_in(aside));
    else
        text_append(journal->news, sizeof journal->news,
                    "The journal was replaced: it is written again; the other is %s",
                    name_in(aside));
    return true;
}

/* ---- opening ---- */

/* Opens and locks. Another settee may set the file aside between the two; then the locked file is
 * no longer the journal, and this tries again. */
static bool open_locked(Journal *journal, bool *unlocked, JournalRefusal *refusal, Error *error)
{
    for (int attempt = 0; attempt < 8; attempt++) {
        struct stat opened, named;
        journal->fd =
            open(journal->path, O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC | O_NONBLOCK, 0600);
        if (journal->fd < 0) {
            *refusal = JOURNAL_NO_PLACE;
            return error_set(error, "the journal can't be opened: %s", strerror(errno));
        }
        if (!load_is_file(journal->fd, error))
            return false;
        *unlocked = flock(journal->fd, LOCK_EX | LOCK_NB) != 0;
        if (*unlocked && errno == EWOULDBLOCK) {
            *refusal = JOURNAL_IN_USE;
            return error_set(error, "this event is open in another settee; close that one first");
        }
        if (fstat(journal->fd, &opened) == 0 && stat(journal->path, &named) == 0 &&
            opened.st_ino == named.st_ino && opened.st_dev == named.st_dev)
            return true;
        close(journal->fd);
        journal->fd = -1;
    }
    return error_set(error, "the journal is being replaced by another program; try again");
}

static void notice_add(char *notice, size_t size, const char *words)
{
    text_append(notice, size, "%s%s", notice[0] ? "; " : "", words);
}

/* Sets the journal aside and continues in a new one that holds the good entries. */
static bool start_over(Journal *journal, const JournalHead *head, const JournalTale *tale,
                       char *aside, size_t size)
{
    char *text = journal_mend(journal->text, tale, head, &journal->length);
    free(journal->text);
    journal->text = text;
    journal->kept = 0;
    if (!text)
        errno = ENOMEM;
    return text && take_place(journal, tale->bad ? "damaged" : "earlier", aside, size);
}

/* Repairs the file according to what was found in it. */
static bool repair(Journal *journal, const JournalHead *head, const JournalTale *tale, char *notice,
                   size_t notice_size)
{
    char kept[PATH_BYTES_MAX + 32], words[ERROR_LINE_MAX] = "";
    if (tale->bad || tale->other_day) {
        if (!start_over(journal, head, tale, kept, sizeof kept))
            return false;
        if (tale->bad) {
            journal_tale_words(tale, words, sizeof words);
            text_append(words, sizeof words, "; the damaged file is %s", name_in(kept));
        } else {
            text_append(words, sizeof words,
                        "the journal of %s is kept as %s; a new one starts for %s", tale->date,
                        name_in(kept), head->date);
        }
        notice_add(notice, notice_size, words);
        return true;
    }
    size_t length = journal->length;
    journal->length = journal->kept = tale->good;
    if (tale->torn) {
        if (ftruncate(journal->fd, (off_t)tale->good) != 0)
            return false;
        snprintf(words, sizeof words,
                 "the journal's last line was never finished: %zu bytes were cut off, %d entries "
                 "remain",
                 length - tale->good, tale->entries);
        notice_add(notice, notice_size, words);
    } else if (tale->unended) {
        journal->text[journal->length++] = '\n'; /* where the text's closing 0 was */
        if (!write_waiting(journal, true))
            return false;
        all_kept(journal);
    }
    return true;
}

/* No entry is written yet: until then there is nothing to lose, and the screen doesn't have to
 * wait. On a full disk the header waits for the first entry. */
static bool begin(Journal *journal, const JournalHead *head, char *notice, size_t notice_size,
                  Error *error)
{
    char words[ERROR_LINE_MAX] = "";
    if (!keep_line(journal, journal_header_line(head)))
        return error_set(error, "out of memory");
    if (write_waiting(journal, false)) {
        all_kept(journal);
        return true;
    }
    text_append(words, sizeof words, "can't write: %s; what you log is kept in memory",
                strerror(errno));
    notice_add(notice, notice_size, words);
    return true;
}

static bool open_all(Journal *journal, Session *session, char *notice, size_t notice_size,
                     JournalRefusal *refusal, Error *error)
{
    bool unlocked = false;
    if (!open_locked(journal, &unlocked, refusal, error))
        return false;
    if (unlocked)
        notice_add(notice, notice_size,
                   "the journal can't be locked here; don't open this event twice");
    journal->text = load_descriptor(journal->fd, JOURNAL_BYTES_MAX, &journal->length, error);
    if (!journal->text)
        return false;
    JournalTale tale;
    JournalHead head;
    journal_tell(journal->text, journal->length, session, &tale);
    head_of(session, &head);
    bool done;
    if (tale.no_memory) { /* not the file's fault: leave it alone */
        done = error_set(error, "%s", tale.fault.text);
    } else if (tale.foreign) {
        error->line = tale.fault.line;
        done = error_set(error, "%s; rename the file to start a new journal", tale.fault.text);
    } else {
        done = repair(journal, &head, &tale, notice, notice_size);
        if (!done)
            error_set(error, "the journal can't be repaired: %s", strerror(errno));
    }
    journal->next = tale.entries + 1;
    journal->nameless = tale.entries == 0;
    journal_tale_free(&tale);
    if (!done || journal->length > 0)
        return done;
    return begin(journal, &head, notice, notice_size, error);
}

/* A new journal, where another event or bowler had the name first. */
static void notice_other(const JournalHead *head, char *notice, size_t size)
{
    char words[ERROR_LINE_MAX] = "";
    text_append(words, sizeof words,
                "a new journal starts, %s: %.*s is another event's or bowler's", head->name,
                (int)strcspn(head->name, "."), head->name);
    notice_add(notice, size, words);
}

static Journal *open_name(const char *name, Session *session, char *notice, size_t notice_size,
                          JournalRefusal *refusal, Error *error)
{
    char file[256];
    *refusal = JOURNAL_FAULT;
    *error = (Error){0};
    notice[0] = '\0';
    Journal *journal = calloc(1, sizeof *journal);
    if (!journal) {
        error_set(error, "out of memory");
        return NULL;
    }
    journal->fd = -1;
    if (journal_file(name, file, sizeof file) &&
        !paths_data(file, journal->path, sizeof journal->path, error)) {
        *refusal = JOURNAL_NO_PLACE;
    } else if (journal->path[0]) {
        text_clean(error->file, sizeof error->file, journal->path);
        if (open_all(journal, session, notice, notice_size, refusal, error)) {
            *error = (Error){0};
            return journal;
        }
    }
    journal->next = 0; /* a journal that was never begun leaves no file */
    journal_close(journal);
    return NULL;
}

Journal *journal_open(Session *session, char *notice, size_t notice_size, Error *error)
{
    JournalRefusal unheard;
    return journal_try(session, notice, notice_size, &unheard, error);
}

Journal *journal_try(Session *session, char *notice, size_t notice_size, JournalRefusal *why,
                     Error *error)
{
    JournalHead head;
    Error unheard;
    bool begun = journal_find(session, &head);
    Journal *journal =
        open_name(head.name, session, notice, notice_size, why, error ? error : &unheard);
    if (journal && !begun && strchr(head.name, '.'))
        notice_other(&head, notice, notice_size);
    return journal;
}

bool journal_repair(const char *name, Session *session, char *notice, size_t notice_size,
                    Error *error)
{
    JournalRefusal unheard;
    Journal *journal = open_name(name, session, notice, notice_size, &unheard, error);
    journal_close(journal);
    return journal != NULL;
}

/* ---- reading only ---- */

bool journal_read_name(const char *name, Session *session, char *notice, size_t notice_size,
                       Error *error)
{
    Error unheard;
    size_t length;
    error = error ? error : &unheard;
    *error = (Error){0};
    notice[0] = '\0';
    char *text = slurp(name, &length, error);
    if (!text)
        return false;
    JournalTale tale;
    journal_tell(text, length, session, &tale);
    journal_tale_free(&tale);
    free(text);
    if (tale.bad)
        journal_tale_words(&tale, notice, notice_size);
    else if (tale.torn)
        snprintf(notice, notice_size, "line %d of the journal can't be used: %s", tale.fault.line,
                 tale.fault.text);
    else if (tale.other_day)
        snprintf(notice, notice_size, "the journal is dated %s, the event %s", tale.date,
                 session->event.date);
    return !tale.foreign && !tale.no_memory ? true : error_set(error, "%s", tale.fault.text);
}

bool journal_read(Session *session, char *notice, size_t notice_size, Error *error)
{
    JournalHead head;
    journal_find(session, &head);
    return journal_read_name(head.name, session, notice, notice_size, error);
}

bool journal_verify(const char *name, int *entries, Error *error)
{
    size_t length;
    *entries = 0;
    *error = (Error){0};
    char *text = slurp(name, &length, error);
    if (!text)
        return false;
    bool good = journal_check(text, length, error);
    for (size_t i = 1; good && i < length; i++)
        *entries += text[i - 1] == '\n'; /* lines after the first, which is the header */
    free(text);
    return good;
}

#define DAMAGED ".damaged-"
#define REPLACED ".replaced-"

/* The journal's name from a file's; false if it is not one. A file set aside as damaged is not one:
 * its good entries continued in another. */
static bool journal_name(const char *file, char *out, size_t size)
{
    const char *ending = strstr(file, ENDING);
    const char *rest = ending ? ending + strlen(ENDING) : NULL;
    const char *day =
        rest && strncmp(rest, EARLIER, strlen(EARLIER)) == 0 ? rest + strlen(EARLIER) : NULL;
    out[0] = '\0';
    return rest && (rest[0] == '\0' || (day && day[strspn(day, "0123456789")] == '\0')) &&
           text_append(out, size, "%.*s%s", (int)(ending - file), file, rest);
}

static bool aside_name(const char *file, char *out, size_t size)
{
    const char *ending = strstr(file, ENDING);
    return ending && (strstr(ending, DAMAGED) || strstr(ending, REPLACED)) &&
           text_copy(out, size, file);
}

/* From its first line, or from its name where that can't be read. */
static void look_at(JournalHead *head)
{
    Error unheard;
    size_t length;
    char *text = slurp(head->name, &length, &unheard);
    if (!text || !journal_head_read(text, length, head))
        text_append(head->event, sizeof head->event, "%.*s", (int)strcspn(head->name, "+."),
                    head->name);
    free(text);
}

static int by_date(const void *a, const void *b)
{
    const JournalHead *first = a, *second = b;
    int order = strcmp(first->date, second->date);
    return order ? order : strcmp(first->name, second->name);
}

static JournalHead *no_list(int *count, Error *error, const char *path, int why)
{
    *count = -1;
    if (why == ENOMEM) {
        error_set(error, "out of memory");
    } else {
        text_clean(error->file, sizeof error->file, path);
        error_set(error, "the folder can't be read: %s", strerror(why));
    }
    return NULL;
}

/* The names in the folder of journals that `take` takes. */
static JournalHead *list_names(bool (*take)(const char *file, char *name, size_t size), int *count,
                               Error *error)
{
    char path[PATH_BYTES_MAX], name[sizeof((JournalHead *)0)->name];
    JournalHead *heads = NULL;
    int room = 0;
    Error unheard;
    error = error ? error : &unheard;
    *error = (Error){0};
    *count = -1;
    if (!paths_data_look("events", path, sizeof path, error))
        return NULL;
    DIR *folder = opendir(path);
    if (!folder && errno != ENOENT)
        return no_list(count, error, path, errno);
    *count = 0;
    for (struct dirent *row; folder && (row = readdir(folder));) {
        if (!take(row->d_name, name, sizeof name))
            continue;
        if (*count == room) {
            room = room ? 2 * room : 16;
            JournalHead *grown = realloc(heads, (size_t)room * sizeof *heads);
            if (!grown) {
                free(heads);
                closedir(folder);
                return no_list(count, error, path, ENOMEM);
            }
            heads = grown;
        }
        heads[*count] = (JournalHead){0};
        text_clean(heads[(*count)++].name, sizeof heads->name, name);
    }
    if (folder)
        closedir(folder);
    return heads;
}

JournalHead *journal_list(int *count, Error *error)
{
    JournalHead *heads = list_names(journal_name, count, error);
    for (int i = 0; i < *count; i++)
        look_at(&heads[i]);
    if (heads)
        qsort(heads, (size_t)*count, sizeof *heads, by_date);
    return heads;
}

JournalHead *journal_set_aside(int *count, Error *error)
{
    JournalHead *heads = list_names(aside_name, count, error);
    if (heads)
        qsort(heads, (size_t)*count, sizeof *heads, by_date);
    return heads;
}
