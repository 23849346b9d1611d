/* card_svg.c - the card as a drawing, a sheet of A4: a unit is a millimetre. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "cli/card.h"
#include "core/event/stays.h"

#define WIDTH 210.0
#define HEIGHT 297.0
#define LEFT 14.0
#define RIGHT 146.0 /* of the tables; the lane is beyond */
#define INK "#1b1b1b"
#define SOFT "#6a6a6a"
#define GREEN "#245d4e"

typedef enum Anchor { START, END } Anchor;

static void put(FILE *out, double x, double y, double size, const char *fill, Anchor anchor,
                const char *text)
{
    fprintf(out, "<text x=\"%.1f\" y=\"%.1f\" font-size=\"%.1f\" fill=\"%s\"%s>", x, y, size, fill,
            anchor == END ? " text-anchor=\"end\"" : "");
    card_escaped(text, out);
    fputs("</text>\n", out);
}

static void put_number(FILE *out, double x, double y, double size, double value, const char *unit)
{
    char text[32];
    snprintf(text, sizeof text, "%g%s", value, unit);
    put(out, x, y, size, INK, END, text);
}

static void rule(FILE *out, double x1, double x2, double y)
{
    fprintf(out,
            "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"#ddd\" "
            "stroke-width=\"0.2\"/>\n",
            x1, y, x2, y);
}

/* Stand, aim and chance, each at its right edge. */
static void put_line(FILE *out, const CardLine *line, const double at[3], double y, double size)
{
    if (!line->ball) {
        put(out, at[2], y, size, SOFT, END, "no line");
        return;
    }
    put_number(out, at[0], y, size, line->stance, "");
    put_number(out, at[1], y, size, line->aim, "");
    put_number(out, at[2], y, size, round(card_percent(line)), " %");
}

static void ball_words(const Ball *ball, char *out, size_t size)
{
    out[0] = '\0';
    if (ball)
        text_append(out, size, "%d  %.28s", ball->slot, ball->name);
}

static double bag_part(const Card *card, double y, FILE *out)
{
    static const double AT[3] = {100.0, 113.0, 128.0};
    put(out, LEFT, y, 4.2, GREEN, START, "Bag, on fresh oil");
    put(out, AT[0], y, 2.8, SOFT, END, "stand");
    put(out, AT[1], y, 2.8, SOFT, END, "aim");
    put(out, AT[2], y, 2.8, SOFT, END, "pocket");
    put(out, RIGHT, y, 2.8, SOFT, END, "hooks at");
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&card->bag, slot);
        char words[64];
        if (!ball)
            continue;
        rule(out, LEFT, RIGHT, y + 1.6);
        y += 5.6;
        ball_words(ball, words, sizeof words);
        put(out, LEFT, y, 3.5, INK, START, words);
        ball_surface_words(&ball->surface, words, sizeof words);
        put(out, 66.0, y, 3.5, SOFT, START, words);
        put_line(out, &card->fresh[slot - 1], AT, y, 3.5);
        text_copy(words, sizeof words, "-");
        if (isfinite(card->hook_ft[slot - 1]))
            snprintf(words, sizeof words, "%.0f ft", card->hook_ft[slot - 1]);
        put(out, RIGHT, y, 3.5, INK, END, words);
    }
    return y + 10.0;
}

static double block_part(const Card *card, double y, FILE *out)
{
    static const double AT[SIDE_COUNT][3] = {{57.0, 67.0, 79.0}, {124.0, 134.0, RIGHT}};
    static const double BALL_AT[SIDE_COUNT] = {22.0, 88.0}, LANE_AT[SIDE_COUNT] = {21.0, 87.0};
    const double high = card->games > 8 ? 4.1 : 5.6, size = card->games > 8 ? 2.9 : 3.3;
    put(out, LEFT, y, 4.2, GREEN, START, "Block");
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        put(out, AT[lane][0] - 30.5, y, 2.8, SOFT, START, "lane, ball");
        put(out, AT[lane][0], y, 2.8, SOFT, END,
            lane == SIDE_LEFT ? "left: stand" : "right: stand");
        put(out, AT[lane][1], y, 2.8, SOFT, END, "aim");
        put(out, AT[lane][2], y, 2.8, SOFT, END, "pocket");
    }
    for (int game = 0; game < card->games; game++) {
        char words[64];
        rule(out, LEFT, RIGHT, y + 1.5);
        y += high;
        snprintf(words, sizeof words, "%d", game + 1);
        put(out, LEFT, y, size, SOFT, START, words);
        for (int lane = 0; lane < SIDE_COUNT; lane++) {
            const CardLine *line = &card->game[game][lane];
            snprintf(words, sizeof words, "%d", event_pair(&card->event, game + 1)[lane]);
            put(out, LANE_AT[lane], y, 2.6, SOFT, END, words);
            words[0] = '\0';
            if (line->ball)
                snprintf(words, sizeof words, "%d  %.13s", line->ball->slot, line->ball->name);
            put(out, BALL_AT[lane], y, size, INK, START, words);
            put_line(out, line, AT[lane], y, size);
        }
    }
    return y + 9.0;
}

/* Ten dots, those that stand filled. */
static void deck(FILE *out, double x, double y, Pins left)
{
    static const double ACROSS[10] = {0, -0.5, 0.5, -1, 0, 1, -1.5, -0.5, 0.5, 1.5};
    static const int ROW[10] = {0, 1, 1, 2, 2, 2, 3, 3, 3, 3};
    for (int pin = 1; pin <= 10; pin++)
        fprintf(out,
                "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"0.62\" fill=\"%s\" stroke=\"#bbb\" "
                "stroke-width=\"0.12\"/>\n",
                x + 1.9 * ACROSS[pin - 1], y - 1.6 * ROW[pin - 1],
                left & pin_bit(pin) ? GREEN : "#fff");
}

static double spare_part(const Card *card, double y, FILE *out)
{
    const int rows = (card->spare_count + 1) / 2;
    put(out, LEFT, y, 4.2, GREEN, START, "Spares");
    for (int i = 0; i < card->spare_count; i++) {
        const CardSpare *spare = &card->spare[i];
        const int column = i / rows;
        double x = LEFT + column * 68.0, row = y + 8.0 + (i % rows) * 7.4;
        const double at[3] = {x + 40.0, x + 50.0, x + 62.0};
        char pins[40] = "", ball[24];
        lane_pins_words(spare->left, "-", pins, sizeof pins);
        snprintf(ball, sizeof ball, "ball %d", spare->line.ball->slot);
        deck(out, x + 3.2, row + 0.6, spare->left);
        put(out, x + 9.0, row, 3.3, INK, START, pins);
        put(out, x + 31.0, row, 3.3, SOFT, END, ball);
        put_line(out, &spare->line, at, row, 3.3);
        rule(out, x, x + 62.0, row + 1.7);
    }
    for (int half = 0; half < 2; half++) {
        put(out, LEFT + 40.0 + half * 68.0, y, 2.8, SOFT, END, "stand");
        put(out, LEFT + 50.0 + half * 68.0, y, 2.8, SOFT, END, "aim");
        put(out, LEFT + 62.0 + half * 68.0, y, 2.8, SOFT, END, "makes");
    }
    return y + 8.0 + rows * 7.4 + 4.0;
}

/* As many lines of the text as go to a width of characters; returns where the next would be. */
static double paragraph(const char *text, double x, double y, double size, int width, FILE *out)
{
    char line[160] = "";
    while (*text) {
        size_t bytes = strcspn(text, " ");
        char word[128];
        snprintf(word, sizeof word, "%.*s", (int)(bytes < 127 ? bytes : 127), text);
        if (line[0] && (int)(text_length(line) + 1 + text_length(word)) > width) {
            put(out, x, y, size, SOFT, START, line);
            y += 1.35 * size;
            line[0] = '\0';
        }
        text_append(line, sizeof line, "%s%s", line[0] ? " " : "", word);
        text += bytes;
        text += strspn(text, " ");
    }
    put(out, x, y, size, SOFT, START, line);
    return y + 1.35 * size;
}

static void watch_part(const Card *card, double y, FILE *out)
{
    enum { WIDE = 84, ROOM = CARD_WATCH_SIZE + 16 };
    for (int game = 0; game < card->games; game++) {
        char words[ROOM];
        snprintf(words, sizeof words, "Game %d. %s", game + 1, card->watch[game]);
        double lines = ceil((double)text_length(words) / (WIDE - 12));
        if (y + 4.0 * lines > HEIGHT - 18.0)
            return;
        y = paragraph(words, LEFT, y, 2.9, WIDE, out) + 0.6;
    }
}

/* ---- the lane from above, pins at the top; across wider than it is ---- */

#define LANE_X 160.0
#define LANE_Y 40.0
#define BOARD_WIDE 0.95
#define FOOT_HIGH 3.6

static double lane_x(const Card *card, double board)
{
    double from_left =
        card->bag.bowler.hand == HAND_RIGHT ? LANE_BOARDS + 0.5 - board : board - 0.5;
    return LANE_X + BOARD_WIDE * from_left;
}

static double lane_y(double ft) { return LANE_Y + FOOT_HIGH * (60.0 - ft); }

static void lane_part(const Card *card, FILE *out)
{
    enum { FEET = 2 };
    const double wide = BOARD_WIDE * LANE_BOARDS;
    double most = 1.0;
    for (int at = 0; at < OIL_STATIONS; at++)
        for (int board = 0; board < LANE_BOARDS; board++)
            most = fmax(most, card->oil.units[at][board]);
    put(out, LANE_X, LANE_Y - 4.0, 2.8, SOFT, START, "oil, and the ball of game 1");
    fprintf(out, "<rect x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\" fill=\"#f3ead8\"/>\n",
            LANE_X, LANE_Y, wide, 60.0 * FOOT_HIGH);
    fputs("<g fill=\"#2f7d9c\" shape-rendering=\"crispEdges\">\n", out);
    for (int ft = 0; ft < 60; ft += FEET)
        for (int board = 1; board <= LANE_BOARDS; board++) {
            double share = card->oil.units[2 * ft + FEET][board - 1] / most;
            if (share < 0.01)
                continue;
            fprintf(out,
                    "<rect x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\" "
                    "fill-opacity=\"%.2f\"/>\n",
                    lane_x(card, board) - 0.5 * BOARD_WIDE, lane_y(ft + FEET), BOARD_WIDE,
                    FEET * FOOT_HIGH, 0.85 * sqrt(share));
        }
    fputs("</g>\n", out);
    for (int arrow = 5; arrow <= 35; arrow += 5) {
        double x = lane_x(card, arrow), y = lane_y(16.0 - fabs(arrow - 20.0) / 5.0);
        fprintf(out, "<path d=\"M%.2f %.2fl0.8 2.2h-1.6z\" fill=\"#8a5a2b\"/>\n", x, y);
    }
    if (card->first.count > 1) {
        fputs("<polyline fill=\"none\" stroke=\"#b3261e\" stroke-width=\"0.9\" points=\"", out);
        for (int i = 0; i < card->first.count; i++)
            fprintf(out, "%.2f,%.2f ", lane_x(card, card->first.path[i].board),
                    lane_y(card->first.path[i].ft));
        fputs("\"/>\n", out);
    }
    for (int ft = 0; ft <= 60; ft += 10) {
        char words[16];
        snprintf(words, sizeof words, "%d", ft);
        put(out, LANE_X - 1.5, lane_y(ft) + 1.0, 2.6, SOFT, END, words);
    }
    deck(out, LANE_X + 0.5 * wide, LANE_Y - 10.0, PINS_ALL);
}

void card_svg(const Card *card, FILE *out)
{
    char words[256];
    fprintf(out,
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%gmm\" height=\"%gmm\" "
            "viewBox=\"0 0 %g %g\" font-family=\"Helvetica, Arial, sans-serif\">\n<title>",
            WIDTH, HEIGHT, WIDTH, HEIGHT);
    card_escaped(card->event.name, out);
    fprintf(out, "</title>\n<rect width=\"%g\" height=\"%g\" fill=\"#fff\"/>\n", WIDTH, HEIGHT);
    put(out, LEFT, 21.0, 7.5, INK, START, card->event.name);
    card_when(card, words, sizeof words);
    put(out, LEFT, 28.5, 3.7, SOFT, START, words);
    card_who(card, words, sizeof words);
    put(out, LEFT, 34.0, 3.7, SOFT, START, words);
    card_pattern(card, words, sizeof words);
    put(out, LEFT, 39.5, 3.7, SOFT, START, words);
    double y = bag_part(card, 52.0, out);
    y = block_part(card, y, out);
    y = spare_part(card, y, out);
    watch_part(card, y, out);
    lane_part(card, out);
    paragraph(card_foot(card), LEFT, HEIGHT - 10.0, 2.8, 140, out);
    fputs("</svg>\n", out);
}
