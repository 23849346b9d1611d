/* search.h - the search of actions, from the help of any stage: first that stage's own, then those
 * of the others. */
#ifndef SETTEE_UI_SEARCH_H
#define SETTEE_UI_SEARCH_H

#include "ui/input/keytable.h"

typedef struct Search {
    char sought[24];       /* what was typed */
    int top;               /* the first line shown of what was found */
    const KeyTable *event; /* the event's actions as the bowler bound them; NULL: as usual */
} Search;

/* A letter more; false: no more fit. None, from the top. One less. */
bool search_type(Search *search, uint32_t key);
void search_clear(Search *search);
void search_back(Search *search);

/* Lines or pages up or down in what was found; `here`: the table of the stage that asks. */
void search_lines(Search *search, const KeyTable *here, int columns, int rows, int lines);
void search_pages(Search *search, const KeyTable *here, int columns, int rows, int pages);

/* Draws the field and what was found between the stage's frame; `right` receives what goes to the
 * top right: "5 of 144". */
void search_draw(const Search *search, const KeyTable *here, Canvas *canvas, char *right,
                 size_t size);

#define SEARCH_TITLE "All actions"
#define SEARCH_FULL "No more letters fit; Bksp deletes one"

#endif
