#!/usr/bin/env python3
"""Writes src/ui/draw/widths.inc: which characters take no column, and which take two.

    python3 src/tools/widthgen/widthgen.py > src/ui/draw/widths.inc

Source: the Unicode Character Database as python3 carries it (unicodedata; 14.0.0 in Debian 12), by
UAX 11's East_Asian_Width and the general category. Run on request; no part of the build.
"""

import unicodedata

# Marks that stand before a number and are drawn: format characters all the same.
DRAWN_FORMATS = {0xAD, *range(0x600, 0x606), 0x6DD, 0x70F, 0x890, 0x891, 0x8E2, 0x110BD, 0x110CD}
# Wide in glibc (and so to a terminal that asks it) though 14.0.0 does not call them so.
WIDE_TOO = [(0x3248, 0x324F), (0x4DC0, 0x4DFF)]


def width(code):
    """0, 1 or 2 columns; None: not assigned, as good as its neighbours."""
    char = chr(code)
    category = unicodedata.category(char)
    if category == "Cn":
        return None
    if category in ("Mn", "Me", "Zl", "Zp") or (category == "Cf" and code not in DRAWN_FORMATS):
        return 0
    # vowels and final consonants that join the syllable before them
    if 0x1160 <= code <= 0x11FF or 0xD7B0 <= code <= 0xD7FB:
        return 0
    if unicodedata.east_asian_width(char) in "WF" or any(a <= code <= b for a, b in WIDE_TOO):
        return 2
    return 1


def ranges(wanted):
    """Spans of that width; what is not assigned joins two spans that it lies between."""
    spans, last = [], None
    for code in range(0x300, 0x110000):
        now = width(code)
        if now is None:
            continue
        if now == wanted:
            if last == wanted:
                spans[-1][1] = code
            else:
                spans.append([code, code])
        last = now
    return spans


def rows(name, spans):
    print(f"static const uint32_t {name}[][2] = {{")
    line = "   "
    for first, last in spans:
        row = f" {{{first:#x}, {last:#x}}},"
        if len(line) + len(row) > 100:
            print(line)
            line = "   "
        line += row
    print(line + "};")


print(
    f"""/* widths.inc - characters from U+0300 on that take no column, and those that take two.
 * Made by src/tools/widthgen/widthgen.py from Unicode {unicodedata.unidata_version}; not written by hand. */"""
)
rows("NO_COLUMN", ranges(0))
rows("TWO_COLUMNS", ranges(2))

