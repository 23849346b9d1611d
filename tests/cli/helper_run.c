/* helper_run.c - runs the real program and keeps what it said. */
#include "near.h"

#include "helper_run.h"

#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/text.h"

enum { WORDS_MAX = 64 };

static char *read_back(FILE *file)
{
    assert_int_equal(fseek(file, 0, SEEK_END), 0);
    long size = ftell(file);
    assert_true(size >= 0);
    rewind(file);
    char *text = malloc((size_t)size + 1);
    assert_non_null(text);
    assert_int_equal(fread(text, 1, (size_t)size, file), (size_t)size);
    text[size] = '\0';
    fclose(file);
    return text;
}

Run run_at(const char *home, const char *input, const char *const *words)
{
    char variables[4][128];
    snprintf(variables[0], sizeof variables[0], "HOME=%s", home);
    snprintf(variables[1], sizeof variables[1], "XDG_CONFIG_HOME=%s/config", home);
    snprintf(variables[2], sizeof variables[2], "XDG_DATA_HOME=%s/data", home);
    snprintf(variables[3], sizeof variables[3], "PATH=/usr/bin:/bin");
    /* a terminal and a locale with commas: neither may show in the output */
    char *environment[] = {variables[0],          variables[1],         variables[2], variables[3],
                           "TERM=xterm-256color", "LC_ALL=de_DE.UTF-8", NULL};
    char program[] = SETTEE_BINARY;
    char *argv[WORDS_MAX + 2] = {program};
    int count = 0;
    for (; words[count]; count++) {
        assert_true(count < WORDS_MAX);
        argv[count + 1] = strdup(words[count]);
    }
    FILE *in = tmpfile(), *out = tmpfile(), *fault = tmpfile();
    assert_true(in && out && fault);
    fputs(input ? input : "", in);
    rewind(in);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, fileno(in), 0);
    posix_spawn_file_actions_adddup2(&actions, fileno(out), 1);
    posix_spawn_file_actions_adddup2(&actions, fileno(fault), 2);
    pid_t child;
    assert_int_equal(posix_spawn(&child, SETTEE_BINARY, &actions, NULL, argv, environment), 0);
    posix_spawn_file_actions_destroy(&actions);
    int ended;
    assert_int_equal(waitpid(child, &ended, 0), child);
    for (int i = 0; i < count; i++)
        free(argv[i + 1]);
    fclose(in);
    return (Run){.status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1,
                 .out = read_back(out),
                 .fault = read_back(fault)};
}

Run run_with(const char *input, const char *const *words)
{
    char home[] = "/tmp/settee-test-XXXXXX";
    assert_non_null(mkdtemp(home));
    Run run = run_at(home, input, words);
    assert_int_equal(rmdir(home), 0); /* a command writes nothing into the user's folders */
    return run;
}

void run_free(Run *run)
{
    free(run->out);
    free(run->fault);
    *run = (Run){0};
}

void run_is(const Run *run, int status)
{
    if (run->status != status)
        fail_msg("status %d, expected %d: %s", run->status, status, run->fault);
    assert_null(strchr(run->out, 0x1b));
    assert_null(strchr(run->fault, 0x1b));
    if (status == 0) {
        assert_string_equal(run->fault, "");
        return;
    }
    assert_int_equal(strncmp(run->fault, "settee: ", 8), 0);
    const char *end = strchr(run->fault, '\n');
    assert_non_null(end);
    assert_string_equal(end, "\n"); /* one line and no more */
}

cJSON *run_json(const Run *run)
{
    const char *end;
    cJSON *object = cJSON_ParseWithOpts(run->out, &end, false);
    if (!cJSON_IsObject(object))
        fail_msg("no JSON object: %.200s", run->out);
    assert_string_equal(end, "\n");
    return object;
}

double json_at(const cJSON *object, const char *path)
{
    const cJSON *at = object;
    char part[32];
    for (const char *rest = path; *rest && at;) {
        size_t length = strcspn(rest, ".");
        snprintf(part, sizeof part, "%.*s", (int)length, rest);
        at = cJSON_IsArray(at) ? cJSON_GetArrayItem(at, atoi(part))
                               : cJSON_GetObjectItemCaseSensitive(at, part);
        rest += length + (rest[length] == '.');
    }
    if (!cJSON_IsNumber(at))
        fail_msg("no number at %s", path);
    return at->valuedouble;
}

int widest_line(const char *text)
{
    int widest = 0, width = 0;
    for (uint32_t c; (c = text_next(&text)) != 0;) {
        width = c == '\n' ? 0 : width + 1;
        widest = width > widest ? width : widest;
    }
    return widest;
}
