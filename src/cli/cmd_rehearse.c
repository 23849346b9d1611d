/* cmd_rehearse.c - a block against a hidden lane, shot by shot. */
#include <stdio.h>
#include <stdlib.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/rehearse/rehearse.h"
#include "store/files.h"

enum { USUAL_GAMES = 3, USUAL_BOWLERS = 4 };

static void add_named(JsonOut *json, const char *name, const char *sentence)
{
    json_out_object(json, NULL);
    json_out_string(json, "name", name);
    json_out_string(json, "sentence", sentence);
    json_out_end(json);
}

/* Worlds and players by name, each with its sentence. */
static int list_all(bool as_json)
{
    if (!as_json) {
        puts("Worlds");
        for (const World *const *world = WORLDS; *world; world++)
            printf("  %-15s %s\n", (*world)->name, (*world)->sentence);
        puts("\nPlayers");
        for (const Player *const *player = PLAYERS; *player; player++)
            printf("  %-15s %s\n", (*player)->name, (*player)->sentence);
        return CMD_DONE;
    }
    JsonOut json = json_out_start();
    json_out_object(&json, NULL);
    json_out_array(&json, "worlds");
    for (const World *const *world = WORLDS; *world; world++)
        add_named(&json, (*world)->name, (*world)->sentence);
    json_out_end(&json);
    json_out_array(&json, "players");
    for (const Player *const *player = PLAYERS; *player; player++)
        add_named(&json, (*player)->name, (*player)->sentence);
    json_out_end(&json);
    json_out_end(&json);
    return cmd_json(&json);
}

static int rehearsal_json(const Rehearsal *out, const RehearseSetup *plan, bool say_world)
{
    JsonOut json = json_out_start();
    json_out_object(&json, NULL);
    json_out_string(&json, "player", plan->player->name);
    if (say_world)
        json_out_string(&json, "world", plan->world->name);
    json_out_integer(&json, "seed", (long)plan->seed);
    json_out_integer(&json, "practice", plan->practice);
    json_out_rounded(&json, "mean_pins", out->mean_pins, 2);
    json_out_array(&json, "games");
    for (int i = 0; i < out->games; i++)
        json_out_integer(&json, NULL, out->score[i]);
    json_out_end(&json);
    json_out_rounded(&json, "strikes", (double)out->strikes / out->shot_count, 4);
    json_out_rounded(&json, "pocket", (double)out->pockets / out->shot_count, 4);
    json_out_rounded(&json, "worth", out->value, 4);
    json_out_array(&json, "decisions");
    for (int i = 0; i < out->shot_count; i++) {
        const RehearseShot *s = &out->shots[i];
        json_out_object(&json, NULL);
        json_out_integer(&json, "game", s->game);
        json_out_integer(&json, "frame", s->frame);
        json_out_string(&json, "lane", SIDE_NAMES[s->shot.lane]);
        json_out_string(&json, "action", ADJUST_NAMES[s->kind]);
        json_out_integer(&json, "slot", s->shot.slot);
        json_out_rounded(&json, "stance", s->shot.stance, 2);
        json_out_rounded(&json, "aim", s->shot.aim, 2);
        json_out_rounded(&json, "stated_pocket", s->stated, 4);
        json_out_rounded(&json, "worth", s->value, 4);
        json_out_string(&json, "hit", HIT_NAMES[s->shot.hit]);
        json_out_string(&json, "read", READ_NAMES[s->shot.read]);
        json_out_string(&json, "release", RELEASE_NAMES[s->shot.release]);
        json_out_rounded(&json, "board", s->board, 2);
        json_out_bool(&json, "strike", s->strike);
        json_out_end(&json);
    }
    json_out_end(&json);
    json_out_end(&json);
    return cmd_json(&json);
}

static void print_rehearsal(const Rehearsal *out, const RehearseSetup *plan, bool say_world)
{
    printf("%s on %s, %g ft: player %s", plan->bag->bowler.name, plan->pattern->name,
           plan->pattern->length_ft, plan->player->name);
    if (say_world)
        printf(", world %s", plan->world->name);
    puts("\n");
    puts("game frame lane   ball  feet   aim  what was done    hit      read     worth");
    for (int i = 0; i < out->shot_count; i++) {
        const RehearseShot *s = &out->shots[i];
        printf("%4d %5d %-5s %5d %5.1f %5.1f  %-15s  %-7s  %-7s  %3.0f %%%s\n", s->game, s->frame,
               SIDE_NAMES[s->shot.lane], s->shot.slot, s->shot.stance, s->shot.aim,
               ADJUST_WORDS[s->kind], HIT_NAMES[s->shot.hit], READ_NAMES[s->shot.read],
               100.0 * s->value, s->strike ? "  X" : "");
    }
    printf("\nGames  ");
    for (int i = 0; i < out->games; i++)
        printf(" %d", out->score[i]);
    printf("\nMean    %.1f; pocket %.0f %%, strikes %.0f %%\n", out->mean_pins,
           100.0 * out->pockets / out->shot_count, 100.0 * out->strikes / out->shot_count);
    printf("Worth   %.0f %%: chance of a strike with the chosen throws, on the hidden lane\n",
           100.0 * out->value);
}

/* "hold, rules or advisor" of the names seen so far, one more. */
static void add_name(char *out, size_t size, const char *name, bool last)
{
    text_append(out, size, "%s%s", !out[0] ? "" : last ? " or " : ", ", name);
}

/* The player and the world that were asked for; false, said, when there is none of that name. */
static bool read_names(const Options *options, RehearseSetup *plan)
{
    char names[256] = "";
    plan->player = options->player ? player_find(options->player) : &PLAYER_ADVISOR;
    plan->world = options->world ? world_find(options->world) : &WORLD_KIN;
    if (!plan->player) {
        for (const Player *const *player = PLAYERS; *player; player++)
            add_name(names, sizeof names, (*player)->name, !player[1]);
        cmd_say(CMD_USAGE, "--player is %s, not \"%s\"", names, options->player);
    } else if (!plan->world) {
        for (const World *const *world = WORLDS; *world; world++)
            add_name(names, sizeof names, (*world)->name, !world[1]);
        cmd_say(CMD_USAGE, "--world is %s, not \"%s\"", names, options->world);
    }
    return plan->player && plan->world;
}

static int play(const RehearseSetup *plan, const Options *options)
{
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    int status = CMD_DONE;
    if (!job || !out) {
        status = cmd_say(CMD_FAULT, "out of memory");
    } else {
        rehearse_play(job, plan, out);
        if (options->json)
            status = rehearsal_json(out, plan, options->world != NULL);
        else
            print_rehearsal(out, plan, options->world != NULL);
    }
    rehearse_free(job);
    free(out);
    return status;
}

int cmd_rehearse(const Options *options)
{
    static Setup setup;
    static RuleSet rules;
    Error error = {0};
    RehearseSetup plan = {.bag = &setup.bag,
                          .pattern = &setup.pattern,
                          .rules = &rules,
                          .games = options->games ? options->games : USUAL_GAMES,
                          .bowlers_on_pair = options->bowlers ? options->bowlers : USUAL_BOWLERS,
                          .practice = options->practice,
                          .sights = options->sights,
                          .seed = options->seed > 0 ? (uint64_t)options->seed : 1};
    if (options->list)
        return list_all(options->json);
    if (!read_names(options, &plan))
        return CMD_USAGE;
    int read = setup_read(options, &setup);
    if (read != CMD_DONE)
        return read;
    if (!files_rules("coach", &rules, &error))
        return cmd_fault(CMD_FAULT, &error);
    for (int slot = 1; !bag_slot(&setup.bag, slot); slot++)
        if (slot == BAG_SLOTS)
            return cmd_say(CMD_FAULT, "no ball of this bag is in a slot");
    return play(&plan, options);
}
