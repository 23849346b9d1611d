/* cmd_card.c - settee card: the figures of a card for an event. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/card.h"
#include "cli/cmd.h"
#include "core/event/stays.h"
#include "core/spare/spare.h"
#include "store/files.h"

#define PIN(number) (Pins)(1 << ((number)-1))
/* What a bowler meets most, and what is thrown from the same places. */
static const Pins LEAVES[] = {PIN(7),           PIN(4),           PIN(2),
                              PIN(1),           PIN(3),           PIN(6),
                              PIN(10),          PIN(2) | PIN(8),  PIN(4) | PIN(7),
                              PIN(6) | PIN(10), PIN(3) | PIN(10), PIN(3) | PIN(6) | PIN(10)};
enum { LEAVES_COUNT = sizeof LEAVES / sizeof *LEAVES };
_Static_assert((int)LEAVES_COUNT <= (int)CARD_SPARES_MAX, "the card has room for them");

static CardLine card_line(const Ball *ball, const Line *line)
{
    if (!ball || !line->found)
        return (CardLine){0};
    return (CardLine){.ball = ball,
                      .stance = lane_half_board(line->stance),
                      .aim = lane_half_board(line->aim),
                      .chance = line->pocket};
}

static void find_fresh(Card *card)
{
    const Bowler *bowler = &card->bag.bowler;
    Delivery usual = delivery_of(bowler, 20.0, 10.0); /* its line is ignored */
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&card->bag, slot);
        MotionBody body;
        if (!ball)
            continue;
        motion_body(ball, &body);
        Line line =
            line_best(&body, &card->oil, bowler, &usual, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
        card->fresh[slot - 1] = card_line(ball, &line);
        card->hook_ft[slot - 1] = line.found ? line.hook_ft : (double)NAN;
    }
}

/* The ball of the first game as it is thrown. */
static void roll_first(Card *card)
{
    const CardLine *line = &card->game[0][SIDE_LEFT];
    MotionBody body;
    if (!line->ball)
        return;
    Delivery delivery = delivery_of(&card->bag.bowler, line->stance, line->aim);
    motion_body(line->ball, &body);
    motion_roll(&body, &card->oil, &delivery, &card->first);
}

static bool find_block(Card *card)
{
    BlockJob *job = block_job_new();
    if (!job)
        return false;
    BlockInput input = {.bag = &card->bag,
                        .pattern = &card->pattern,
                        .games = card->games,
                        .bowlers = card->event.bowlers_on_pair,
                        .mix = card->event.field};
    block_begin(job, &input);
    while (!block_step(job))
        ;
    const Block *block = block_result(job);
    for (int game = 0; game < card->games; game++) {
        for (int lane = 0; lane < SIDE_COUNT; lane++) {
            const BlockGame *plan = &block->game[PACE_USUAL][lane][game];
            card->game[game][lane] = card_line(bag_slot(&card->bag, plan->slot), &plan->line);
        }
        block_watch(block, &card->bag, SIDE_LEFT, game, card->watch[game], CARD_WATCH_SIZE);
    }
    block_job_free(job);
    return true;
}

static void find_spares(Card *card)
{
    const CardLine *strike = &card->game[0][SIDE_LEFT];
    SpareInput input = {.bag = &card->bag,
                        .film = &card->oil,
                        .slot = strike->ball ? strike->ball->slot : 0,
                        .stance = strike->stance,
                        .aim = strike->aim};
    for (int i = 0; i < LEAVES_COUNT; i++) {
        Spare spare;
        input.left = LEAVES[i];
        spare_find(&input, &spare);
        if (!spare.found)
            continue;
        card->spare[card->spare_count++] = (CardSpare){.left = LEAVES[i],
                                                       .line = {.ball = spare.line.ball,
                                                                .stance = spare.line.stance,
                                                                .aim = spare.line.aim,
                                                                .chance = spare.line.chance}};
    }
}

static void line_json(JsonOut *out, const char *key, const CardLine *line)
{
    json_out_object(out, key);
    if (line->ball) {
        json_slot(out, line->ball);
        json_out_string(out, "ball", line->ball->id);
        json_out_rounded(out, "stance", line->stance, 2);
        json_out_rounded(out, "aim", line->aim, 2);
        json_out_rounded(out, "chance", line->chance, 4);
    } else {
        json_out_null(out, "slot");
    }
    json_out_end(out);
}

static int card_json(const Card *card)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "event", card->event.name);
    json_out_string(&out, "date", card->event.date);
    json_out_string(&out, "bowler", card->bag.bowler.name);
    json_out_string(&out, "pattern", card->pattern.name);
    json_out_array(&out, "bag");
    for (int slot = 0; slot < BAG_SLOTS; slot++)
        if (bag_slot(&card->bag, slot + 1))
            line_json(&out, NULL, &card->fresh[slot]);
    json_out_end(&out);
    json_out_array(&out, "games");
    for (int game = 0; game < card->games; game++) {
        json_out_object(&out, NULL);
        json_out_array(&out, "lanes");
        for (int lane = 0; lane < SIDE_COUNT; lane++)
            json_out_integer(&out, NULL, event_pair(&card->event, game + 1)[lane]);
        json_out_end(&out);
        line_json(&out, "left", &card->game[game][SIDE_LEFT]);
        line_json(&out, "right", &card->game[game][SIDE_RIGHT]);
        json_out_string(&out, "watch", card->watch[game]);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_array(&out, "spares");
    for (int i = 0; i < card->spare_count; i++) {
        json_out_object(&out, NULL);
        json_pins(&out, "pins", card->spare[i].left);
        line_json(&out, "line", &card->spare[i].line);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_end(&out);
    return cmd_json(&out);
}

static int show(const Options *options, Card *card)
{
    find_fresh(card);
    if (!find_block(card))
        return cmd_say(CMD_FAULT, "out of memory");
    roll_first(card);
    find_spares(card);
    if (options->json)
        return card_json(card);
    if (options->svg)
        card_svg(card, stdout);
    else if (options->html)
        card_html(card, stdout);
    else
        card_text(card, stdout);
    return CMD_DONE;
}

int cmd_card(const Options *options)
{
    const char *name = options->word_count > 0 ? options->words[0] : "demo";
    Error error = {0};
    if (options->svg + options->html + options->json > 1)
        return cmd_say(CMD_USAGE, "one of --svg, --html and --json at a time");
    Card *card = calloc(1, sizeof *card);
    if (!card)
        return cmd_say(CMD_FAULT, "out of memory");
    int status = CMD_DONE;
    if (!files_event(name, &card->event, &error) ||
        (options->bag && !files_event_bag(options->bag, &card->event, &error)) ||
        !files_bag(card->event.bag, &card->bag, &error) ||
        !files_pattern(card->event.pattern, &card->pattern, &error))
        status = cmd_fault(CMD_FAULT, &error);
    if (status == CMD_DONE && !bag_filled(&card->bag))
        status = cmd_say(CMD_FAULT, "no ball of this bag is in a slot: give one ball \"slot\": 1");
    if (status == CMD_DONE) {
        Oil sheet;
        card->games = card->event.games;
        oil_lay(&card->pattern, &sheet);
        oil_for_hand(&sheet, card->bag.bowler.hand, &card->oil);
        card->volume_ml = oil_volume_ml(&sheet);
        card->ratio = oil_ratio(&sheet);
        status = show(options, card);
    }
    free(card);
    return status;
}
