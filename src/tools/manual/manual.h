/* manual.h - the manual page and the shells' completions, made from the tables of commands and
 * options. */
#ifndef SETTEE_TOOLS_MANUAL_MANUAL_H
#define SETTEE_TOOLS_MANUAL_MANUAL_H

#include <stdio.h>

void manual_page(FILE *out, const char *version);
void manual_bash(FILE *out);
void manual_zsh(FILE *out);
void manual_fish(FILE *out);

/* The words that a command's first plain word may be, separated by spaces; "": none are fixed. */
const char *manual_first_words(const char *command);

#endif
