/* The layering, held by reading the sources and the core's archive: who may include whom, what the
 * core may call, how long a file may get, what lies at the top, and that links lead somewhere.
 * The rules are our own; no source outside. */
#include "near.h"

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH_SIZE = 1024, LINE_SIZE = 4096, LINES_MAX = 900 };

static int problems; /* of the test that runs */

#define problem(...)                                                                               \
    do {                                                                                           \
        print_error(__VA_ARGS__);                                                                  \
        print_error("\n");                                                                         \
        problems++;                                                                                \
    } while (0)

static int none_yet(void **state)
{
    (void)state;
    problems = 0;
    return 0;
}

static bool ends_with(const char *text, const char *end)
{
    size_t length = strlen(text), wanted = strlen(end);
    return length >= wanted && strcmp(text + length - wanted, end) == 0;
}

static bool starts_with(const char *text, const char *start)
{
    return strncmp(text, start, strlen(start)) == 0;
}

static bool is_source(const char *path) { return ends_with(path, ".c") || ends_with(path, ".h"); }

/* Calls visit on every file below `folder` (a path from the project's top). Returns how many. */
static int walk(const char *folder, void (*visit)(const char *path))
{
    char full[3 * PATH_SIZE], path[2 * PATH_SIZE];
    snprintf(full, sizeof full, "%s/%s", SETTEE_SOURCE_DIR, folder);
    DIR *dir = opendir(full);
    int count = 0;
    if (!dir)
        return 0;
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        struct stat about;
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        snprintf(full, sizeof full, "%s/%s", SETTEE_SOURCE_DIR, path);
        if (stat(full, &about) != 0)
            continue;
        if (S_ISDIR(about.st_mode)) {
            count += walk(path, visit);
        } else {
            visit(path);
            count++;
        }
    }
    closedir(dir);
    return count;
}

static FILE *open_source(const char *path)
{
    char full[3 * PATH_SIZE];
    snprintf(full, sizeof full, "%s/%s", SETTEE_SOURCE_DIR, path);
    FILE *file = fopen(full, "r");
    if (!file)
        problem("%s can't be read", path);
    return file;
}

/* What a line includes, core/lane.h or math.h without their marks; false when nothing. */
static bool included(const char *line, char *what, size_t size, bool *system)
{
    line += strspn(line, " \t");
    if (*line != '#')
        return false;
    line += 1 + strspn(line + 1, " \t");
    if (!starts_with(line, "include"))
        return false;
    line += strlen("include");
    line += strspn(line, " \t");
    *system = *line == '<';
    if (*line != '<' && *line != '"')
        return false;
    snprintf(what, size, "%.*s", (int)strcspn(line + 1, ">\""), line + 1);
    return true;
}

typedef void CheckInclude(const char *path, const char *what, bool system);

static void for_each_include(const char *path, CheckInclude *check)
{
    if (!is_source(path) && !ends_with(path, ".def"))
        return;
    FILE *file = open_source(path);
    char line[LINE_SIZE], what[256];
    bool system;
    while (file && fgets(line, sizeof line, file))
        if (included(line, what, sizeof what, &system))
            check(path, what, system);
    if (file)
        fclose(file);
}

/* Which layers each may see. */
static const struct {
    const char *layer;
    const char *sees[5];
} LAYERS[] = {
    {"src/base/", {"base/"}},
    {"src/core/", {"base/", "core/"}},
    {"src/store/", {"base/", "core/", "store/"}},
    {"src/ui/", {"base/", "core/", "ui/"}},
    {"src/cli/", {"base/", "core/", "store/", "cli/"}},
    {"src/app/", {"base/", "store/", "ui/", "app/"}},
};
enum { LAYERS_COUNT = sizeof LAYERS / sizeof LAYERS[0] };

static int own_includes;

static void check_direction(const char *path, const char *what, bool system)
{
    if (system)
        return;
    own_includes++;
    if (!strchr(what, '/'))
        problem("%s includes \"%s\" without its layer", path, what);
    for (int i = 0; i < LAYERS_COUNT; i++) {
        if (!starts_with(path, LAYERS[i].layer))
            continue;
        bool allowed = false;
        for (int k = 0; k < 5 && LAYERS[i].sees[k]; k++)
            allowed |= starts_with(what, LAYERS[i].sees[k]);
        if (!allowed)
            problem("%s includes \"%s\", which its layer may not see", path, what);
    }
}

/* The rooms of the core, and the rooms that each may see besides itself. */
static const struct {
    const char *room;
    const char *sees[9];
} ROOMS[] = {
    {"lane", {0}},
    {"bag", {"lane", 0}},
    {"motion", {"lane", "bag", 0}},
    {"pins", {"lane", 0}},
    {"line", {"lane", "bag", "motion", "pins", 0}},
    {"spare", {"lane", "bag", "motion", "pins", 0}},
    {"event", {"lane", "bag", "motion", 0}},
    {"advice", {"lane", "bag", "motion", "pins", "line", "spare", "event", 0}},
    {"arsenal", {"lane", "bag", "motion", "pins", "line", "event", 0}},
    {"rehearse", {"lane", "bag", "motion", "pins", "line", "spare", "event", "advice", 0}},
    {"teach", {"lane", "bag", "motion", "pins", "line", "spare", "event", 0}},
    {"words", {0}},
};
enum { ROOMS_COUNT = sizeof ROOMS / sizeof ROOMS[0] };

/* Whether `path`, "core/ROOM/...", lies in that room. */
static bool in_room(const char *path, const char *room)
{
    size_t length = strlen(room);
    return starts_with(path, "core/") && strncmp(path + 5, room, length) == 0 &&
           path[5 + length] == '/';
}

static void check_room(const char *path, const char *what, bool system)
{
    if (system || !starts_with(path, "src/core/") || !starts_with(what, "core/"))
        return;
    for (int i = 0; i < ROOMS_COUNT; i++) {
        if (!in_room(path + 4, ROOMS[i].room))
            continue;
        bool allowed = in_room(what, ROOMS[i].room);
        for (int k = 0; ROOMS[i].sees[k]; k++)
            allowed |= in_room(what, ROOMS[i].sees[k]);
        if (!allowed)
            problem("%s includes \"%s\", which its room may not see", path, what);
        return;
    }
    problem("%s lies in no room of the core", path);
}

static void visit_room(const char *path) { for_each_include(path, check_room); }

/* Each room sees only rooms above it in the table, so there are no cycles. */
static void test_rooms(void **state)
{
    (void)state;
    for (int i = 0; i < ROOMS_COUNT; i++)
        for (int k = 0; ROOMS[i].sees[k]; k++) {
            bool above = false;
            for (int j = 0; j < i; j++)
                above |= strcmp(ROOMS[j].room, ROOMS[i].sees[k]) == 0;
            if (!above)
                problem("%s sees %s, which is not above it", ROOMS[i].room, ROOMS[i].sees[k]);
        }
    assert_true(walk("src/core", visit_room) > 50);
    assert_int_equal(problems, 0);
}

static void visit_direction(const char *path) { for_each_include(path, check_direction); }

static void test_direction(void **state)
{
    (void)state;
    own_includes = 0;
    assert_true(walk("src", visit_direction) > 50);
    assert_true(own_includes > 100); /* it did read them */
    assert_int_equal(problems, 0);
}

/* Curses in one file of the ui, cJSON in the store, and in the core only what the language has. */
static char with_curses[2 * PATH_SIZE];
static int curses_files;

static void check_system(const char *path, const char *what, bool system)
{
    if (system && strstr(what, "curses") && strcmp(with_curses, path) != 0) {
        curses_files++;
        snprintf(with_curses, sizeof with_curses, "%s", path);
        if (!starts_with(path, "src/ui/"))
            problem("%s includes curses", path);
    }
    if (strstr(what, "cJSON") && !starts_with(path, "src/store/"))
        problem("%s includes cJSON", path);
    if (!system || !starts_with(path, "src/core/"))
        return;
    static const char *const LANGUAGE[] = {"math.h",   "stdbool.h", "stddef.h", "stdint.h",
                                           "stdlib.h", "string.h",  "float.h",  "limits.h"};
    for (size_t i = 0; i < sizeof LANGUAGE / sizeof LANGUAGE[0]; i++)
        if (strcmp(what, LANGUAGE[i]) == 0)
            return;
    problem("%s includes <%s>", path, what);
}

static void visit_system(const char *path) { for_each_include(path, check_system); }

static void test_libraries(void **state)
{
    (void)state;
    curses_files = 0;
    with_curses[0] = '\0';
    walk("src", visit_system);
    if (curses_files > 1)
        problem("%d files include curses; the last is %s", curses_files, with_curses);
    assert_int_equal(problems, 0);
}

static void visit_length(const char *path)
{
    if (!is_source(path) && !ends_with(path, ".def"))
        return;
    FILE *file = open_source(path);
    int lines = 0;
    for (int c = file ? fgetc(file) : EOF; c != EOF; c = fgetc(file))
        lines += c == '\n';
    if (lines > LINES_MAX)
        problem("%s has %d lines; allowed: %d", path, lines, LINES_MAX);
    if (file)
        fclose(file);
}

static void test_lengths(void **state)
{
    (void)state;
    walk("src", visit_length);
    assert_int_equal(problems, 0);
}

/* The guard a header should have: src/core/lane.h is SETTEE_CORE_LANE_H. */
static void guard_of(const char *path, char *out, size_t size)
{
    snprintf(out, size, "#ifndef SETTEE_%s", path + strlen("src/"));
    for (char *at = out + strlen("#ifndef SETTEE_"); *at; at++)
        if (*at >= 'a' && *at <= 'z')
            *at = (char)(*at - 'a' + 'A');
        else if (*at == '/' || *at == '.' || *at == '-')
            *at = '_';
}

/* A file says at its head what it is for; a header by its own name, and guards itself. */
static void visit_head(const char *path)
{
    if (!is_source(path))
        return;
    FILE *file = open_source(path);
    char line[LINE_SIZE] = "", expected[256], guard[256];
    if (!file || !fgets(line, sizeof line, file) || !starts_with(line, "/* "))
        problem("%s has no head comment", path);
    if (file && ends_with(path, ".h")) {
        snprintf(expected, sizeof expected, "/* %s - ", strrchr(path, '/') + 1);
        if (!starts_with(line, expected))
            problem("%s does not begin with \"%s...\"", path, expected);
        bool guarded = false;
        guard_of(path, guard, sizeof guard);
        while (fgets(line, sizeof line, file))
            guarded |= starts_with(line, guard);
        if (!guarded)
            problem("%s lacks \"%s\"", path, guard);
    }
    if (file)
        fclose(file);
}

static void test_heads(void **state)
{
    (void)state;
    walk("src", visit_head);
    assert_int_equal(problems, 0);
}

/* Symbols of archives, as nm tells them. */

enum { SYMBOLS_MAX = 8000, SYMBOL_SIZE = 96, SECTION_SIZE = 32 };

typedef struct Symbols {
    int count;
    char name[SYMBOLS_MAX][SYMBOL_SIZE];
    char section[SYMBOLS_MAX][SECTION_SIZE];
} Symbols;

/* Takes name and section from a line of nm's sysv format: name|value|class|type|size|line|section.
 */
static void add_symbol(Symbols *symbols, char *line)
{
    char *bar = strchr(line, '|'), *section = strrchr(line, '|');
    if (!bar || symbols->count == SYMBOLS_MAX)
        return;
    *bar = '\0';
    line[strcspn(line, " ")] = '\0';
    section++;
    section[strcspn(section, " \t\n")] = '\0';
    snprintf(symbols->name[symbols->count], SYMBOL_SIZE, "%.*s", SYMBOL_SIZE - 1, line);
    snprintf(symbols->section[symbols->count], SECTION_SIZE, "%.*s", SECTION_SIZE - 1, section);
    symbols->count++;
}

static Symbols *symbols_of(const char *flags, const char *archive)
{
    Symbols *symbols = calloc(1, sizeof *symbols);
    char command[2 * PATH_SIZE], line[LINE_SIZE];
    assert_non_null(symbols);
    snprintf(command, sizeof command, "nm -f sysv %s '%s/%s' 2>/dev/null", flags, SETTEE_BINARY_DIR,
             archive);
    FILE *nm = popen(command, "r");
    assert_non_null(nm);
    while (fgets(line, sizeof line, nm))
        add_symbol(symbols, line);
    if (pclose(nm) != 0 || symbols->count == 0 || symbols->count == SYMBOLS_MAX)
        fail_msg("%s gives nothing, or too much", command);
    return symbols;
}

static bool has(const Symbols *symbols, const char *name)
{
    for (int i = 0; i < symbols->count; i++)
        if (strcmp(symbols->name[i], name) == 0)
            return true;
    return false;
}

/* What the core may call besides itself and base: mathematics and memory, nothing that knows of a
 * file, a clock, the environment or a language. */
static const char *const MATHEMATICS[] = {
    "acos",   "asin",      "atan",  "atan2",     "cbrt", "ceil",   "copysign", "cos",
    "cosh",   "erf",       "erfc",  "exp",       "exp2", "expm1",  "fabs",     "fdim",
    "floor",  "fma",       "fmax",  "fmin",      "fmod", "frexp",  "hypot",    "ldexp",
    "lgamma", "log",       "log10", "log1p",     "log2", "lrint",  "lround",   "modf",
    "nan",    "nearbyint", "pow",   "remainder", "rint", "round",  "scalbn",   "sin",
    "sincos", "sinh",      "sqrt",  "tan",       "tanh", "tgamma", "trunc",    0};
static const char *const MEMORY[] = {"bcmp",   "memcpy",  "memset",  "memmove", "memcmp",
                                     "strlen", "strcmp",  "strncmp", "qsort",   "calloc",
                                     "free",   "bsearch", 0};
/* What a compiler puts in: sanitizers, the stack protector, coverage, the choice among vectors, and
 * division of 64 bits where a word has 32. */
static const char *const COMPILER[] = {"__asan_",
                                       "__ubsan_",
                                       "__stack_chk_",
                                       "__odr_asan",
                                       "__gcov_",
                                       "__llvm_",
                                       "__sanitizer_",
                                       "__cpu_model",
                                       "__cpu_indicator_init",
                                       "_GLOBAL_OFFSET_TABLE_",
                                       "__udivdi3",
                                       "__umoddi3",
                                       0};

static bool among(const char *name, const char *const *names)
{
    for (; *names; names++)
        if (strcmp(name, *names) == 0)
            return true;
    return false;
}

static bool core_may_call(const char *name)
{
    for (int i = 0; COMPILER[i]; i++)
        if (starts_with(name, COMPILER[i]))
            return true;
    static const char *const WRAPPED[] = {"_chk", "_finite"}; /* __memcpy_chk, __exp_finite */
    char plain[SYMBOL_SIZE];
    snprintf(plain, sizeof plain, "%s", name);
    for (int i = 0; i < 2; i++)
        if (starts_with(name, "__") && ends_with(name, WRAPPED[i]))
            snprintf(plain, sizeof plain, "%.*s", (int)(strlen(name) - 2 - strlen(WRAPPED[i])),
                     name + 2);
    if (among(plain, MATHEMATICS) || among(plain, MEMORY))
        return true;
    size_t length = strlen(plain);
    if (length > 1 && plain[length - 1] == 'f') /* in single precision */
        plain[length - 1] = '\0';
    return among(plain, MATHEMATICS);
}

static void test_list_of_calls(void **state)
{
    (void)state;
    static const char *const YES[] = {"sqrt",
                                      "sqrtf",
                                      "exp2",
                                      "erf",
                                      "modff",
                                      "memcpy",
                                      "__memcpy_chk",
                                      "qsort",
                                      "__asan_report_load8",
                                      "__stack_chk_fail",
                                      "__exp_finite"};
    static const char *const NO[] = {
        "fopen",        "printf", "snprintf",         "time",    "clock_gettime", "getenv",
        "setlocale",    "rand",   "malloc",           "realloc", "memcpyf",       "write",
        "__printf_chk", "stderr", "__errno_location", "qsort_r", "strtod",        "f"};
    for (size_t i = 0; i < sizeof YES / sizeof YES[0]; i++)
        if (!core_may_call(YES[i]))
            problem("%s should be allowed", YES[i]);
    for (size_t i = 0; i < sizeof NO / sizeof NO[0]; i++)
        if (core_may_call(NO[i]))
            problem("%s should not be allowed", NO[i]);
    assert_int_equal(problems, 0);
}

static void test_core_is_pure(void **state)
{
    (void)state;
    Symbols *needed = symbols_of("-u", "libsettee_core.a");
    Symbols *own = symbols_of("--defined-only -g", "libsettee_core.a");
    Symbols *base = symbols_of("--defined-only -g", "libsettee_base.a");
    assert_true(has(own, "motion_arrive") && has(base, "text_copy"));
    for (int i = 0; i < needed->count; i++) {
        const char *name = needed->name[i];
        if (!has(own, name) && !has(base, name) && !core_may_call(name))
            problem("the core calls %s", name);
    }
    free(needed);
    free(own);
    free(base);
    assert_int_equal(problems, 0);
}

static bool writable(const char *section)
{
    return starts_with(section, ".bss") || starts_with(section, ".tbss") ||
           starts_with(section, ".tdata") || starts_with(section, "*COM*") ||
           (starts_with(section, ".data") && !starts_with(section, ".data.rel.ro"));
}

/* No state that outlives a call: all that core and base keep is read-only. */
static void test_no_global_state(void **state)
{
    (void)state;
    static const char *const ARCHIVES[] = {"libsettee_core.a", "libsettee_base.a"};
    for (int k = 0; k < 2; k++) {
        Symbols *defined = symbols_of("--defined-only", ARCHIVES[k]);
        for (int i = 0; i < defined->count; i++) {
            const char *name = defined->name[i], *section = defined->section[i];
            /* but for the sanitizers' own: __odr_asan.NAME, __unnamed_1 */
            if (writable(section) && !starts_with(name, "__") && !starts_with(name, "."))
                problem("%s keeps %s in %s", ARCHIVES[k], name, section);
        }
        free(defined);
    }
    assert_int_equal(problems, 0);
}

static void test_top_level(void **state)
{
    (void)state;
    static const char *const ALLOWED[] = {"README.md", "DEVELOPERS.md", "CMakeLists.txt",
                                          "src",       "tests",         "patterns",
                                          "themes",    "docs",          0};
    DIR *dir = opendir(SETTEE_SOURCE_DIR);
    assert_non_null(dir);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir))
        if (entry->d_name[0] != '.' && !starts_with(entry->d_name, "build") &&
            !among(entry->d_name, ALLOWED))
            problem("%s does not belong at the top", entry->d_name);
    closedir(dir);
    assert_int_equal(problems, 0);
}

/* A link's target as written in `path`: a local one must lead to a file or folder. */
static void check_link(const char *path, const char *target, size_t length)
{
    char folder[PATH_SIZE], full[3 * PATH_SIZE], local[PATH_SIZE];
    if (length >= sizeof local)
        return;
    snprintf(local, sizeof local, "%.*s", (int)length, target);
    local[strcspn(local, "# ")] = '\0'; /* a place inside the page; a title */
    if (local[0] == '\0' || strstr(local, "://") || starts_with(local, "mailto:"))
        return;
    snprintf(folder, sizeof folder, "%s", path);
    char *slash = strrchr(folder, '/');
    *(slash ? slash : folder) = '\0';
    snprintf(full, sizeof full, "%s/%s/%s", SETTEE_SOURCE_DIR, folder, local);
    if (local[0] == '/' || access(full, F_OK) != 0)
        problem("%s links to %s, which is not there", path, local);
}

static void visit_links(const char *path)
{
    if (!ends_with(path, ".md"))
        return;
    FILE *file = open_source(path);
    char line[LINE_SIZE];
    bool code = false;
    while (file && fgets(line, sizeof line, file)) {
        if (starts_with(line + strspn(line, " "), "```"))
            code = !code;
        bool quoted = false;
        for (const char *at = line; *at && !code; at++) {
            quoted ^= *at == '`';
            if (!quoted && at[0] == ']' && at[1] == '(')
                check_link(path, at + 2, strcspn(at + 2, ")\n"));
        }
    }
    if (file)
        fclose(file);
}

static void test_links(void **state)
{
    (void)state;
    static const char *const PAGES[] = {"README.md", "DEVELOPERS.md"};
    for (int i = 0; i < 2; i++) {
        char full[PATH_SIZE];
        snprintf(full, sizeof full, "%s/%s", SETTEE_SOURCE_DIR, PAGES[i]);
        if (access(full, F_OK) == 0)
            visit_links(PAGES[i]);
    }
    walk("docs", visit_links);
    assert_int_equal(problems, 0);
}

/* The readers themselves: they do see what is wrong. */
static void test_readers(void **state)
{
    (void)state;
    char what[64];
    bool system = false;
    assert_true(included("#include \"core/lane.h\"\n", what, sizeof what, &system));
    assert_string_equal(what, "core/lane.h");
    assert_false(system);
    assert_true(included("  #  include <math.h> /* sqrt */\n", what, sizeof what, &system));
    assert_string_equal(what, "math.h");
    assert_true(system);
    assert_false(included("/* #include <math.h> */\n", what, sizeof what, &system));
    assert_false(included("#define INCLUDE \"x.h\"\n", what, sizeof what, &system));
    guard_of("src/core/lane.h", what, sizeof what);
    assert_string_equal(what, "#ifndef SETTEE_CORE_LANE_H");
    assert_true(writable(".data") && writable(".bss") && !writable(".data.rel.ro.local") &&
                !writable(".rodata") && !writable(".text"));
}

static void test_readers_complain(void **state)
{
    (void)state;
    print_message("(what follows is meant to be seen wrong)\n");
    check_direction("src/core/a.c", "store/files.h", false);
    check_direction("src/base/a.c", "core/lane.h", false);
    check_direction("src/ui/a.c", "cli/cmd.h", false);
    check_direction("src/cli/a.c", "ui/ui.h", false);
    check_direction("src/core/a.c", "lane.h", false); /* twice: no layer, and not to be seen */
    assert_int_equal(problems, 6);
    check_direction("src/store/a.c", "core/lane.h", false);
    check_direction("src/main.c", "ui/ui.h", false);
    assert_int_equal(problems, 6);
    check_room("src/core/lane/a.c", "core/bag/bag.h", false);
    check_room("src/core/a.c", "core/lane/lane.h", false);
    assert_int_equal(problems, 8);
    check_room("src/core/bag/a.c", "core/bag/bag.h", false);
    check_room("src/core/bag/a.c", "core/lane/lane.h", false);
    assert_int_equal(problems, 8);
    problems = 6;
    check_system("src/core/a.c", "stdio.h", true);
    check_system("src/cli/a.c", "cjson/cJSON.h", true);
    assert_int_equal(problems, 8);
    check_link("CMakeLists.txt", "no-such-file.md", strlen("no-such-file.md"));
    assert_int_equal(problems, 9);
    check_link("CMakeLists.txt", "src/main.c", strlen("src/main.c"));
    check_link("src/main.c", "core#part", strlen("core#part"));
    check_link("src/main.c", "#part", strlen("#part"));
    assert_int_equal(problems, 9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(test_direction, none_yet),
        cmocka_unit_test_setup(test_rooms, none_yet),
        cmocka_unit_test_setup(test_libraries, none_yet),
        cmocka_unit_test_setup(test_lengths, none_yet),
        cmocka_unit_test_setup(test_heads, none_yet),
        cmocka_unit_test_setup(test_list_of_calls, none_yet),
        cmocka_unit_test_setup(test_core_is_pure, none_yet),
        cmocka_unit_test_setup(test_no_global_state, none_yet),
        cmocka_unit_test_setup(test_top_level, none_yet),
        cmocka_unit_test_setup(test_links, none_yet),
        cmocka_unit_test_setup(test_readers, none_yet),
        cmocka_unit_test_setup(test_readers_complain, none_yet),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
