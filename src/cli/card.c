/* card.c - what stands on every kind of card, and the card as text for a phone. */
#include "cli/card.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "core/event/stays.h"

/* How often the bowlers change pairs. */
static int moves(const EventInfo *event)
{
    int count = 0;
    for (int game = 2; game <= event->games; game++)
        count += event_moves(event, game);
    return count;
}

const char *card_foot(const Card *card)
{
    return moves(&card->event) > 0
               ? "A forecast from the sheet: nobody has seen the lanes yet. Each new pair is taken "
                 "to be as worn as the one you left. The event's rules and a certified coach come "
                 "before this card."
               : "A forecast from the sheet: nobody has seen the lane yet. The event's rules and a "
                 "certified coach come before this card.";
}

void card_when(const Card *card, char *out, size_t size)
{
    const EventInfo *event = &card->event;
    const int *pair = event_pair(event, 1);
    out[0] = '\0';
    if (event->date[0])
        text_append(out, size, "%s, ", event->date);
    text_append(out, size, "lanes %d and %d, %d game%s, %s", pair[0], pair[1], event->games,
                event->games == 1 ? "" : "s", event->certified ? "scored" : "practice");
    if (moves(event) > 0)
        text_append(out, size, ", moving after %s",
                    moves(event) == event->games - 1 ? "each" : "some");
    if (event->bowlers_on_pair > 1)
        text_append(out, size, ", %d on the pair", event->bowlers_on_pair);
}

void card_who(const Card *card, char *out, size_t size)
{
    const Bowler *bowler = &card->bag.bowler;
    out[0] = '\0';
    text_append(out, size, "%s, %s hand, %g mph, %g rpm", bowler->name, HAND_NAMES[bowler->hand],
                bowler->mph, bowler->rpm);
}

void card_pattern(const Card *card, char *out, size_t size)
{
    out[0] = '\0';
    text_append(out, size, "%s, %g ft, %.1f ml", card->pattern.name, card->pattern.length_ft,
                card->volume_ml);
    if (isfinite(card->ratio))
        text_append(out, size, ", %.1f to 1", card->ratio);
}

double card_percent(const CardLine *line) { return fmin(99.0, 100.0 * line->chance); }

void card_escaped(const char *text, FILE *out)
{
    while (*text) {
        const char *start = text;
        uint32_t character = text_next(&text);
        const char *name = character == '&'    ? "&amp;"
                           : character == '<'  ? "&lt;"
                           : character == '>'  ? "&gt;"
                           : character == '"'  ? "&quot;"
                           : character == '\'' ? "&#39;"
                                               : NULL;
        if (name)
            fputs(name, out);
        else if (character >= ' ' && character != 0xfffe && character != 0xffff)
            fwrite(start, 1, (size_t)(text - start), out);
    }
}

/* ---- text: as narrow as a phone ---- */

enum { PHONE = 38 };

static void wrapped(const char *text, const char *indent, FILE *out)
{
    int column = 0;
    while (*text) {
        size_t bytes = strcspn(text, " ");
        char word[256];
        snprintf(word, sizeof word, "%.*s", (int)(bytes < 255 ? bytes : 255), text);
        int length = (int)text_length(word);
        if (column > 0 && column + 1 + length > PHONE) {
            fputc('\n', out);
            column = 0;
        }
        column += fprintf(out, "%s", column ? " " : indent) + length;
        fputs(word, out);
        text += bytes;
        text += strspn(text, " ");
    }
    fputc('\n', out);
}

static void text_line(const CardLine *line, FILE *out)
{
    if (line->ball)
        fprintf(out, "stand %g, aim %g, %.0f %%\n", line->stance, line->aim, card_percent(line));
    else
        fputs("no line to the pocket\n", out);
}

static void text_game(const Card *card, int game, FILE *out)
{
    const int *pair = event_pair(&card->event, game + 1);
    fprintf(out, "Game %d\n", game + 1);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        const CardLine *line = &card->game[game][lane];
        fprintf(out, "  lane %d: ", pair[lane]);
        if (line->ball)
            fprintf(out, "ball %d\n    ", line->ball->slot);
        text_line(line, out);
    }
    wrapped(card->watch[game], "  ", out);
}

void card_text(const Card *card, FILE *out)
{
    char words[256];
    wrapped(card->event.name, "", out);
    card_when(card, words, sizeof words);
    wrapped(words, "", out);
    card_who(card, words, sizeof words);
    wrapped(words, "", out);
    card_pattern(card, words, sizeof words);
    wrapped(words, "", out);
    fputs("\nBAG, on fresh oil\n", out);
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&card->bag, slot);
        char surface[32];
        if (!ball)
            continue;
        ball_surface_words(&ball->surface, surface, sizeof surface);
        fprintf(out, "%d %s, %s\n  ", slot, ball->name, surface);
        text_line(&card->fresh[slot - 1], out);
    }
    fputs("\nBLOCK\n", out);
    for (int game = 0; game < card->games; game++)
        text_game(card, game, out);
    fputs("\nSPARES\n", out);
    for (int i = 0; i < card->spare_count; i++) {
        char pins[40] = "";
        lane_pins_words(card->spare[i].left, "-", pins, sizeof pins);
        const CardLine *line = &card->spare[i].line;
        fprintf(out, "%-6s ball %d, ", pins, line->ball->slot);
        text_line(line, out);
    }
    fputc('\n', out);
    wrapped(card_foot(card), "", out);
}
