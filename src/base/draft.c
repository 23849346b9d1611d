/* draft.c - rows of a half-filled form. */
#include "base/draft.h"

#include <string.h>

#include "base/text.h"

const char *const DRAFT_FORMS[] = {"", "event", "bowler", "ball", "sheet", NULL};

void draft_add(Draft *draft, const char *key, const char *value)
{
    if (draft->count == DRAFT_ROWS_MAX)
        return;
    DraftRow *row = &draft->rows[draft->count++];
    text_copy(row->key, sizeof row->key, key);
    text_copy(row->value, sizeof row->value, value);
}

void draft_note(Draft *draft, const char *key, const char *value)
{
    int kept = 0;
    for (int i = 0; i < draft->count; i++)
        if (strcmp(draft->rows[i].key, key) != 0)
            draft->rows[kept++] = draft->rows[i];
    draft->count = kept;
    draft_add(draft, key, value);
}
