/* glyphs.h - the characters the screens are drawn with, in two tables: UTF-8 and ASCII. */
#ifndef SETTEE_UI_DRAW_GLYPHS_H
#define SETTEE_UI_DRAW_GLYPHS_H

#include <stdbool.h>
#include <stdint.h>

enum {
    GLYPH_PHASES = 3,
    GLYPH_FILMS = 6,
    GLYPH_DIGITS = 10,
    GLYPH_DIGIT_ROWS = 3,
    GLYPH_DIGIT_COLUMNS = 3
};

typedef struct Glyphs {
    bool ascii;
    uint32_t path, path2, both; /* current plan, suggestion, both on one cell */
    /* The same along the lane, by Phase: while it skids, hooks, rolls. */
    uint32_t path_at[GLYPH_PHASES], path2_at[GLYPH_PHASES];
    uint32_t area_left, area_right; /* the edges of what may be missed by */
    uint32_t film[GLYPH_FILMS];     /* none, then a trace .. most; different even without colour */
    uint32_t gutter, foul, arrow, pin_down, rule;
    uint32_t breaks_left, breaks_right; /* at a gutter, pointing at the breakpoint */
    uint32_t caution, wait;
    uint32_t bar, bar_gain, bar_loss, bar_rest;
    const char *digit[GLYPH_DIGITS]; /* figures 3 by 3 cells, row after row */
} Glyphs;

extern const Glyphs GLYPHS_UTF8, GLYPHS_ASCII;

/* The ASCII character that stands for one of ours, '?' for any other. */
uint32_t glyphs_ascii(uint32_t glyph);

#endif
