/* helper_shots.h - shots in a line of words, for tables of situations.
 *
 * A shot: [lane:]hit[/read][!release][=pins][*][@mph][#slot][^feet], lanes in turn from the left
 * unless said; hit "?" is not said; read e, o, l or n; release good unless said; pins "x" a strike,
 * "*" ringing; feet against the plan's. */
#ifndef SETTEE_TESTS_HELPER_SHOTS_H
#define SETTEE_TESTS_HELPER_SHOTS_H

#include "core/event/session.h"

/* The next word of a list, from *at on; false at its end. */
bool next_word(const char **at, char word[64]);

/* Returns how many; *next: the lane after the last one, across from it. */
int shots_of(const char *words, const Plan *plan, Shot *shots, int max, Side *next);

#endif
