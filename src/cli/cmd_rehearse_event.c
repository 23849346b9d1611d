/* cmd_rehearse_event.c - settee rehearse --event: a past event again, another way from one frame.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/rehearse/again.h"
#include "core/rehearse/progress.h"
#include "core/rehearse/seed.h"
#include "store/files.h"
#include "store/logbook.h"

/* "2.5": game and frame; false: it is none. */
static bool read_place(const char *text, int *game, int *frame)
{
    char end;
    return sscanf(text, "%2d.%2d%c", game, frame, &end) == 2 && *game >= 1 &&
           *game <= SESSION_GAMES_MAX && *frame >= 1 && *frame <= SCORE_FRAMES;
}

/* "4 Thaw Pulley, feet 22, aim 10, then hold" */
static void way_words(const AgainSetup *setup, char *out, size_t size)
{
    const Ball *ball = bag_slot(&setup->session->bag, setup->slot);
    out[0] = '\0';
    if (ball)
        text_append(out, size, "%d %s, ", setup->slot, ball->name);
    if (!isnan(setup->stance))
        text_append(out, size, "feet %g, ", setup->stance);
    if (!isnan(setup->aim))
        text_append(out, size, "aim %g, ", setup->aim);
    text_append(out, size, "%s%s", out[0] ? "then " : "", setup->player->name);
}

static void json_spread(JsonOut *json, const char *key, const AgainSpread *spread)
{
    json_out_object(json, key);
    json_out_rounded(json, "mean", spread->mean, 2);
    json_out_rounded(json, "low", spread->low, 2);
    json_out_rounded(json, "high", spread->high, 2);
    json_out_rounded(json, "mean_error", spread->error, 3);
    json_out_end(json);
}

static int again_json(const AgainSetup *setup, const Again *again)
{
    char words[SEED_TEXT_MAX], way[128];
    JsonOut json = json_out_start();
    json_out_object(&json, NULL);
    json_out_string(&json, "event", setup->session->event.name);
    json_out_integer(&json, "game", setup->game);
    json_out_integer(&json, "frame", setup->frame);
    json_out_integer(&json, "last_game", again->last_game);
    way_words(setup, way, sizeof way);
    json_out_string(&json, "way", way);
    json_out_string(&json, "player", setup->player->name);
    json_out_integer(&json, "seed", (long)setup->seed);
    seed_text(setup->seed, words);
    json_out_string(&json, "seed_words", words);
    json_out_integer(&json, "draws", again->draws);
    json_out_integer(&json, "shots", again->shots);
    json_spread(&json, "as_bowled", &again->bowled);
    json_spread(&json, "other_way", &again->other);
    json_spread(&json, "difference", &again->difference);
    json_out_rounded(&json, "better_share", again->better, 4);
    json_out_rounded(&json, "strike_as_bowled", again->strikes[0], 4);
    json_out_rounded(&json, "strike_other_way", again->strikes[1], 4);
    json_out_rounded(&json, "strike_gain", again->strike_gain, 4);
    json_out_rounded(&json, "strike_gain_error", again->strike_gain_error, 4);
    json_out_end(&json);
    return cmd_json(&json);
}

static void print_row(const char *name, const AgainSpread *spread, double strike, bool sign)
{
    print_cell(name, 44);
    if (sign)
        printf("  %+6.1f  %+5.0f to %+-5.0f  %+5.0f %%\n", spread->mean, spread->low, spread->high,
               100.0 * strike);
    else
        printf("  %6.1f  %5.0f to %-5.0f  %5.0f %%\n", spread->mean, spread->low, spread->high,
               100.0 * strike);
}

static void print_again(const AgainSetup *setup, const Again *again)
{
    char way[128], line[512] = "";
    const AgainSpread *by = &again->difference;
    double t = progress_t95(again->draws - 1);
    double low = by->mean - t * by->error, high = by->mean + t * by->error;
    way_words(setup, way, sizeof way);
    printf("%s from game %d, frame %d, on %d pairs of lanes as your %d shots tell of them\n\n",
           setup->session->event.name, setup->game, setup->frame, again->draws, again->shots);
    if (again->first_game == again->last_game)
        printf("Pins of game %-33d   mean  8 of 10 draws strikes\n", again->first_game);
    else
        printf("Pins of games %d to %-28d   mean  8 of 10 draws strikes\n", again->first_game,
               again->last_game);
    print_row("as you bowled", &again->bowled, again->strikes[0], false);
    print_row(way, &again->other, again->strikes[1], false);
    print_row("difference, on the same lane and luck", by, again->strike_gain, true);
    putchar('\n');
    text_append(line, sizeof line, "It scores more on %.0f of 100 draws. ", 100.0 * again->better);
    if (low > 0.0 || high < 0.0)
        text_append(line, sizeof line,
                    "On average it is %.1f pins %s (between %.1f and %.1f, 95 %%).", fabs(by->mean),
                    by->mean > 0.0 ? "better" : "worse", fmin(fabs(low), fabs(high)),
                    fmax(fabs(low), fabs(high)));
    else
        text_append(line, sizeof line,
                    "These draws can't tell whether it is better on average: between %+.1f and "
                    "%+.1f pins (95 %%).",
                    low, high);
    print_wrapped(line, 0);
    print_wrapped(
        "Strikes: their mean chance on those lanes, whatever luck did. Both ways have the "
        "same lanes, releases and racks; what was really bowled had other luck.",
        0);
}

static int play(const Options *options, AgainSetup *setup)
{
    AgainJob *job = again_new();
    Again again;
    Error error = {0};
    int status = CMD_DONE;
    if (!job) {
        status = cmd_say(CMD_FAULT, "out of memory");
    } else if (!again_begin(job, setup, &again, &error)) {
        status = cmd_fault(CMD_FAULT, &error);
    } else {
        while (!again_step(job))
            ;
        if (options->json)
            status = again_json(setup, &again);
        else
            print_again(setup, &again);
    }
    again_free(job);
    return status;
}

static int open_session(const Options *options, Session *session)
{
    JournalHead head;
    char notice[ERROR_LINE_MAX] = "";
    Error error = {0};
    if (!logbook_find(options->event, options->bag, &head, &error) ||
        !logbook_open(&head, session, notice, sizeof notice, &error))
        return cmd_fault(CMD_FAULT, &error);
    if (options->slot != 0 && !bag_slot(&session->bag, options->slot))
        return cmd_say(CMD_FAULT, "no ball of this bag is in slot %d", options->slot);
    return notice[0] ? cmd_say(CMD_FAULT, "journal %s: %s", head.name, notice) : CMD_DONE;
}

int cmd_rehearse_event(const Options *options)
{
    static RuleSet rules;
    Error error = {0};
    AgainSetup setup = {.rules = &rules,
                        .game = 1,
                        .frame = 1,
                        .draws = options->draws > 0 ? options->draws : AGAIN_DRAWS_USUAL,
                        .slot = options->slot,
                        .stance = options->stance,
                        .aim = options->aim,
                        .player = options->player ? player_find(options->player) : &PLAYER_HOLD,
                        .seed = options->seed > 0 ? (uint64_t)options->seed : 1};
    if (options->from && !read_place(options->from, &setup.game, &setup.frame))
        return cmd_say(CMD_USAGE, "--from: found '%.20s'; allowed is GAME.FRAME, as 2.1",
                       options->from);
    if (!setup.player || setup.player->know)
        return cmd_say(CMD_USAGE,
                       "--player: '%.40s' can't play an event again; 'settee rehearse "
                       "--list' names those who can, but for knows-the-lane",
                       options->player);
    if (!files_rules("coach", &rules, &error))
        return cmd_fault(CMD_FAULT, &error);
    Session *session = calloc(1, sizeof *session);
    if (!session)
        return cmd_say(CMD_FAULT, "out of memory");
    setup.session = session;
    int status = open_session(options, session);
    if (status == CMD_DONE)
        status = play(options, &setup);
    free(session);
    return status;
}
