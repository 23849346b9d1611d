/* card.h - one page for an event: bag, pattern, plan for the block, spares; as text for a phone,
 * HTML, SVG. Knows what is on the card and how it looks; cmd_card.c finds the figures. */
#ifndef SETTEE_CLI_CARD_H
#define SETTEE_CLI_CARD_H

#include <stdio.h>

#include "core/arsenal/block.h"
#include "core/event/session.h"
#include "core/motion/motion.h"

enum { CARD_SPARES_MAX = 16, CARD_WATCH_SIZE = 300 };

/* Where to stand and what to roll it over. */
typedef struct CardLine {
    const Ball *ball; /* the bag's; NULL: nothing is found */
    double stance, aim;
    double chance; /* of the pocket, or of the spare */
} CardLine;

typedef struct CardSpare {
    Pins left;
    CardLine line;
} CardSpare;

typedef struct Card {
    EventInfo event;
    Bag bag;
    Pattern pattern;
    Oil oil; /* from the bowler's own side */
    double volume_ml, ratio;
    CardLine fresh[BAG_SLOTS]; /* by slot: the best line on the sheet's oil */
    double hook_ft[BAG_SLOTS]; /* NAN: never */
    int games;
    CardLine game[BLOCK_GAMES_MAX][SIDE_COUNT];
    char watch[BLOCK_GAMES_MAX][CARD_WATCH_SIZE]; /* what tells that the lane has changed */
    Roll first; /* the first game's ball on the left lane; count 0: none */
    int spare_count;
    CardSpare spare[CARD_SPARES_MAX];
} Card;

void card_text(const Card *card, FILE *out);
void card_html(const Card *card, FILE *out);
void card_svg(const Card *card, FILE *out);

/* Words that stand on every kind of card. */
void card_when(const Card *card, char *out, size_t size);    /* date, lanes, games, scored or not */
void card_who(const Card *card, char *out, size_t size);     /* bowler and release */
void card_pattern(const Card *card, char *out, size_t size); /* name, length, volume, ratio */
const char *card_foot(const Card *card);                     /* what the figures are, and are not */

double card_percent(const CardLine *line); /* 99 at most: a forecast is not surer than that */

/* Prints text as XML and HTML take it: marks escaped, characters left out that XML has not. */
void card_escaped(const char *text, FILE *out);

#endif
