/* glyphs.c - the two tables. */
#include "ui/draw/glyphs.h"

/* Figures of 3 by 5 squares, two squares to a cell; the lowest half-row stays free. */
const Glyphs GLYPHS_UTF8 = {
    .path = 0x25cf,                       /* black circle */
    .path2 = 0x25cb,                      /* white circle */
    .both = 0x25c9,                       /* fisheye */
    .path_at = {0x25cf, 0x25c6, 0x25a0},  /* circle, diamond, square */
    .path2_at = {0x25cb, 0x25c7, 0x25a1}, /* hollow */
    .area_left = '(',
    .area_right = ')',
    .film = {' ', 0xb7, ':', '+', 0x2591, 0x2592},
    .gutter = 0x2502,
    .foul = 0x2500,
    .arrow = 0x25b4,
    .pin_down = 0xb7,
    .rule = 0x2500,
    .breaks_left = 0x25c2,
    .breaks_right = 0x25b8,
    .caution = '!',
    .wait = 0x2026,
    .bar = 0x2501,      /* heavy line */
    .bar_gain = 0x2550, /* double line */
    .bar_loss = 0x254c, /* dashes */
    .bar_rest = 0xb7,
    .digit = {"█▀██ █▀▀▀", "▄█  █ ▀▀▀", "▀▀██▀▀▀▀▀", "▀▀█ ▀█▀▀▀", "█ █▀▀█  ▀", "█▀▀▀▀█▀▀▀",
              "█▀▀█▀█▀▀▀", "▀▀█  █  ▀", "█▀██▀█▀▀▀", "█▀█▀▀█▀▀▀"},
};

const Glyphs GLYPHS_ASCII = {
    .ascii = true,
    .path = '*',
    .path2 = 'o',
    .both = '@',
    .path_at = {'*', 'H', 'R'},
    .path2_at = {'o', 'h', 'r'},
    .area_left = '(',
    .area_right = ')',
    .film = {' ', '.', ':', '-', '=', '#'},
    .gutter = '|',
    .foul = '_',
    .arrow = '^',
    .pin_down = '.',
    .rule = '-',
    .breaks_left = '<',
    .breaks_right = '>',
    .caution = '!',
    .wait = '.',
    .bar = '#',
    .bar_gain = '+',
    .bar_loss = '-',
    .bar_rest = '.',
    .digit = {" _ | ||_|", "     |  |", " _  _||_ ", " _  _| _|", "   |_|  |", " _ |_  _|",
              " _ |_ |_|", " _   |  |", " _ |_||_|", " _ |_| _|"},
};

uint32_t glyphs_ascii(uint32_t glyph)
{
    static const struct {
        uint32_t from, to;
    } PAIRS[] = {{0x2026, '.'}, {0xb0, ' '},   {0xb1, '~'},    {0xd7, 'x'},    {0xb7, '.'},
                 {0x2190, '<'}, {0x2192, '>'}, {0x2191, '^'},  {0x2193, 'v'},  {0x2013, '-'},
                 {0x2014, '-'}, {0x2212, '-'}, {0x2018, '\''}, {0x2019, '\''}, {0x201c, '"'},
                 {0x201d, '"'}, {0xa0, ' '}};
    if (glyph < 0x7f)
        return glyph;
    for (unsigned i = 0; i < sizeof PAIRS / sizeof *PAIRS; i++)
        if (PAIRS[i].from == glyph)
            return PAIRS[i].to;
    return '?';
}
