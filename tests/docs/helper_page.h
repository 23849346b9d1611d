/* helper_page.h - pages of the documents as text: reading one, its sections and fenced blocks. */
#ifndef SETTEE_TESTS_DOCS_HELPER_PAGE_H
#define SETTEE_TESTS_DOCS_HELPER_PAGE_H

#include <stdbool.h>
#include <stddef.h>

enum { PAGE_SIZE_MAX = 1 << 18, PAGES_MAX = 32 };

/* README.md, DEVELOPERS.md and docs/ *.md, as paths from the project's top; ends with "". */
typedef struct PageNames {
    char name[PAGES_MAX][64];
} PageNames;
PageNames page_names(void);

/* A file's text; heap of PAGE_SIZE_MAX bytes. Fails the test when it is missing or empty. */
char *page_read(const char *name);
void page_write(const char *name, const char *text);

/* The text from after `title` ("\n## Rules\n") to the next title of that level; heap. */
char *page_section(const char *page, const char *title);

/* A fenced block: its text, and the two words behind the opening fence. */
typedef struct Block {
    const char *start, *end; /* the end is the closing fence */
    char language[16], name[64];
} Block;

/* The next block from *at on, which is moved past it; false: there is none. */
bool page_block(const char **at, Block *block);

#endif
