/* card_html.c - the card as a page for a browser, a sheet of paper wide. */
#include <math.h>

#include "cli/card.h"
#include "core/event/stays.h"

static const char HEAD[] =
    "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>";
static const char STYLE[] =
    "</title>\n<style>\n"
    "@page { size: A4; margin: 12mm }\n"
    "body { font: 15px/1.4 system-ui, sans-serif; color: #1b1b1b; max-width: 46em;\n"
    "       margin: 1.5em auto; padding: 0 1em }\n"
    "h1 { font-size: 1.7em; margin: 0 }\n"
    "h2 { font-size: 1em; margin: 1.4em 0 .3em; color: #245d4e }\n"
    "p { margin: .1em 0 }\n"
    "table { border-collapse: collapse; width: 100% }\n"
    "th { text-align: left; font-weight: normal; color: #6a6a6a; font-size: .85em }\n"
    ".b { white-space: nowrap }\n"
    "td, th { padding: .2em .6em .2em 0; border-bottom: 1px solid #ddd; vertical-align: top }\n"
    ".n { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap }\n"
    ".soft, small { color: #6a6a6a }\n"
    ".two { columns: 2; column-gap: 2em }\n"
    ".two tr { break-inside: avoid }\n"
    "@media print { body { font-size: 11px; margin: 0; padding: 0 } }\n"
    "</style>\n</head>\n<body>\n";

static void element(FILE *out, const char *name, const char *text)
{
    fprintf(out, "<%s>", name);
    card_escaped(text, out);
    fprintf(out, "</%s>\n", name);
}

static void numbers(FILE *out, const CardLine *line)
{
    if (line->ball)
        fprintf(out,
                "<td class=\"n\">%g</td><td class=\"n\">%g</td><td class=\"n\">%.0f&nbsp;%%</td>",
                line->stance, line->aim, card_percent(line));
    else
        fputs("<td class=\"soft\" colspan=\"3\">no line to the pocket</td>", out);
}

static void put_ball(FILE *out, const Ball *ball)
{
    fputs("<td class=\"b\">", out);
    if (ball) {
        fprintf(out, "%d&nbsp;&nbsp;", ball->slot);
        card_escaped(ball->name, out);
    }
    fputs("</td>", out);
}

static void bag_table(const Card *card, FILE *out)
{
    fputs("<h2>Bag, on fresh oil</h2>\n<table>\n<tr><th>Ball</th><th>Surface</th>"
          "<th class=\"n\">Stand</th><th class=\"n\">Aim</th><th class=\"n\">Pocket</th>"
          "<th class=\"n\">Hooks at</th></tr>\n",
          out);
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&card->bag, slot);
        char surface[32];
        if (!ball)
            continue;
        ball_surface_words(&ball->surface, surface, sizeof surface);
        fputs("<tr>", out);
        put_ball(out, ball);
        fprintf(out, "<td>%s</td>", surface);
        numbers(out, &card->fresh[slot - 1]);
        if (isfinite(card->hook_ft[slot - 1]))
            fprintf(out, "<td class=\"n\">%.0f ft</td></tr>\n", card->hook_ft[slot - 1]);
        else
            fputs("<td class=\"n soft\">-</td></tr>\n", out);
    }
    fputs("</table>\n", out);
}

static void block_table(const Card *card, FILE *out)
{
    fputs("<h2>Block</h2>\n<table>\n<tr><th>Game</th><th>Lane</th><th>Ball</th>"
          "<th class=\"n\">Stand</th><th class=\"n\">Aim</th><th class=\"n\">Pocket</th>"
          "<th>What to watch for</th></tr>\n",
          out);
    for (int game = 0; game < card->games; game++)
        for (int lane = 0; lane < SIDE_COUNT; lane++) {
            fputs("<tr>", out);
            if (lane == SIDE_LEFT)
                fprintf(out, "<td rowspan=\"2\">%d</td>", game + 1);
            fprintf(out, "<td>%d</td>", event_pair(&card->event, game + 1)[lane]);
            put_ball(out, card->game[game][lane].ball);
            numbers(out, &card->game[game][lane]);
            if (lane == SIDE_LEFT) {
                fputs("<td rowspan=\"2\"><small>", out);
                card_escaped(card->watch[game], out);
                fputs("</small></td>", out);
            }
            fputs("</tr>\n", out);
        }
    fputs("</table>\n", out);
}

static void spare_table(const Card *card, FILE *out)
{
    fputs("<h2>Spares</h2>\n<div class=\"two\">\n<table>\n", out);
    for (int i = 0; i < card->spare_count; i++) {
        const CardSpare *spare = &card->spare[i];
        char pins[40] = "";
        lane_pins_words(spare->left, "-", pins, sizeof pins);
        fprintf(out,
                "<tr><td><b>%s</b></td><td>ball&nbsp;%d</td><td class=\"n\">stand&nbsp;%g</td>",
                pins, spare->line.ball->slot, spare->line.stance);
        fprintf(out, "<td class=\"n\">aim&nbsp;%g</td><td class=\"n\">%.0f&nbsp;%%</td></tr>\n",
                spare->line.aim, card_percent(&spare->line));
    }
    fputs("</table>\n</div>\n", out);
}

void card_html(const Card *card, FILE *out)
{
    char words[256];
    fputs(HEAD, out);
    card_escaped(card->event.name, out);
    fputs(STYLE, out);
    element(out, "h1", card->event.name);
    card_when(card, words, sizeof words);
    element(out, "p", words);
    card_who(card, words, sizeof words);
    element(out, "p", words);
    card_pattern(card, words, sizeof words);
    element(out, "p", words);
    bag_table(card, out);
    block_table(card, out);
    spare_table(card, out);
    fputs("<p><br><small>", out);
    card_escaped(card_foot(card), out);
    fputs("</small></p>\n</body>\n</html>\n", out);
}
