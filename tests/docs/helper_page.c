/* helper_page.c - see helper_page.h. */
#include "near.h"

#include "docs/helper_page.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

PageNames page_names(void)
{
    PageNames names = {0};
    int count = 0;
    FILE *list = popen("cd '" SETTEE_SOURCE_DIR "' && ls README.md DEVELOPERS.md docs/*.md", "r");
    assert_non_null(list);
    while (count < PAGES_MAX - 1 && fgets(names.name[count], sizeof names.name[0], list)) {
        names.name[count][strcspn(names.name[count], "\n")] = '\0';
        count++;
    }
    names.name[count][0] = '\0';
    pclose(list);
    assert_true(count > 8 && count < PAGES_MAX - 1);
    return names;
}

static FILE *page_open(const char *name, const char *how)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s", SETTEE_SOURCE_DIR, name);
    FILE *file = fopen(path, how);
    if (!file)
        fail_msg("%s can't be opened", path);
    return file;
}

char *page_read(const char *name)
{
    FILE *file = page_open(name, "rb");
    char *text = calloc(1, PAGE_SIZE_MAX);
    assert_non_null(text);
    size_t size = fread(text, 1, PAGE_SIZE_MAX - 1, file);
    assert_true(size > 0 && size < PAGE_SIZE_MAX - 1);
    fclose(file);
    return text;
}

void page_write(const char *name, const char *text)
{
    FILE *file = page_open(name, "wb");
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

char *page_section(const char *page, const char *title)
{
    const char *start = strstr(page, title);
    if (!start)
        fail_msg("no section \"%s\"", title);
    start += strlen(title);
    const char *end = strstr(start - 1, "\n## ");
    size_t size = end && end > start ? (size_t)(end - start) : end ? 0 : strlen(start);
    char *text = calloc(1, size + 1);
    assert_non_null(text);
    memcpy(text, start, size);
    return text;
}

bool page_block(const char **at, Block *block)
{
    const char *fence = strncmp(*at, "```", 3) == 0 ? *at : strstr(*at, "\n```");
    if (!fence)
        return false;
    fence += *fence == '\n';
    *block = (Block){.start = strchr(fence, '\n')};
    assert_non_null(block->start);
    block->start++;
    if (sscanf(fence + 3, "%15[^ \n] %63[^ \n]", block->language, block->name) < 1)
        block->language[0] = '\0';
    block->end = strstr(block->start, "\n```");
    assert_non_null(block->end);
    block->end++;
    *at = block->end + 3;
    return true;
}
