/* bench_rehearse.c - every player in a world, six patterns, four bowlers: what following the advice
 * is worth. Prints the tables of docs/advice.md.
 *
 *   bench_rehearse [BLOCKS-PER-CELL [FIRST-SEED [PRACTICE [WORD...]]]]
 *
 * A word is the name of a world (kin), `every-world` (all of them, one after the other), `sights`
 * (the bowler tells the boards on the way), `quick` (without knows-the-lane, which takes most of
 * the time), or the name of a player: then only those named play, and the advisor. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cells.h"
#include "core/rehearse/rehearse.h"
#include "store/files.h"

enum { BINS = 10, GAMES = 3 };

typedef struct Sum {
    double n, sum, square;
} Sum;

static void add(Sum *s, double x)
{
    s->n += 1.0;
    s->sum += x;
    s->square += x * x;
}
static double mean(const Sum *s) { return s->n > 0.0 ? s->sum / s->n : 0.0; }
static double half_width(const Sum *s) /* of the 95 % interval of the mean */
{
    double m = mean(s);
    return s->n > 1.0 ? 1.96 * sqrt(fmax(0.0, s->square / s->n - m * m) / (s->n - 1.0)) : 0.0;
}

/* All that is summed up; numbers only, so that tables of several processes can be added. */
typedef struct Tables {
    Sum pins[PLAYER_COUNT], values[PLAYER_COUNT];
    Sum cell[CELL_PATTERN_COUNT][CELL_BOWLER_COUNT][PLAYER_COUNT];
    /* advisor less player, block by block */
    Sum over[PLAYER_COUNT], value_over[PLAYER_COUNT];
    Sum cell_over[CELL_PATTERN_COUNT][CELL_BOWLER_COUNT][PLAYER_COUNT];
    double shots[PLAYER_COUNT], pocket[PLAYER_COUNT], strike[PLAYER_COUNT];
    double bin_n[2][BINS], bin_said[2][BINS], bin_hit[2][BINS]; /* pocket, strike */
    double brier, stated, hit, intervals, inside;
} Tables;

static void add_tables(Tables *to, const Tables *from)
{
    double *a = (double *)to;
    const double *b = (const double *)from;
    for (size_t i = 0; i < sizeof *to / sizeof *a; i++)
        a[i] += b[i];
}

static void add_to_bin(Tables *t, int what, double said, bool happened)
{
    int bin = (int)fmin(BINS - 1.0, said * BINS);
    t->bin_n[what][bin] += 1.0;
    t->bin_said[what][bin] += said;
    t->bin_hit[what][bin] += happened;
}

static void add_stated(Tables *t, const RehearseShot *shot)
{
    add_to_bin(t, 0, shot->stated, shot->pocket);
    add_to_bin(t, 1, shot->stated_strike, shot->strike);
    t->brier += (shot->stated - shot->pocket) * (shot->stated - shot->pocket);
    t->hit += shot->pocket;
    t->stated += 1.0;
}

static void play_block(Tables *t, RehearseJob *job, Rehearsal *out, RehearseSetup setup, int p,
                       int b, const bool plays[PLAYER_COUNT])
{
    double score[PLAYER_COUNT] = {0}, value[PLAYER_COUNT] = {0};
    int advisor = 0;
    for (int i = 0; i < PLAYER_COUNT; i++) {
        if (!plays[i])
            continue;
        setup.player = PLAYERS[i];
        rehearse_play(job, &setup, out);
        score[i] = out->mean_pins;
        value[i] = out->value;
        add(&t->values[i], out->value);
        add(&t->pins[i], out->mean_pins);
        add(&t->cell[p][b][i], out->mean_pins);
        t->shots[i] += out->shot_count;
        t->pocket[i] += out->pockets;
        t->strike[i] += out->strikes;
        t->intervals += out->intervals;
        t->inside += out->inside;
        if (setup.player != &PLAYER_ADVISOR)
            continue;
        advisor = i;
        for (int k = 0; k < out->shot_count; k++)
            add_stated(t, &out->shots[k]);
    }
    for (int i = 0; i < PLAYER_COUNT; i++)
        if (plays[i]) {
            add(&t->over[i], score[advisor] - score[i]);
            add(&t->value_over[i], value[advisor] - value[i]);
            add(&t->cell_over[p][b][i], score[advisor] - score[i]);
        }
}

/* What was asked for on the command line. */
typedef struct Asked {
    int blocks, practice;
    unsigned long first;
    bool sights, every_world, plays[PLAYER_COUNT];
    const World *world;
} Asked;

static bool play_pattern(const Asked *asked, int p, Tables *t)
{
    static Bag bag;
    static Pattern pattern;
    static RuleSet rules;
    Error error = {0};
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    bool ready = job && out && files_bag("demo", &bag, &error) &&
                 files_rules("coach", &rules, &error) &&
                 files_pattern(CELL_PATTERNS[p], &pattern, &error);
    Bowler usual = bag.bowler;
    for (int b = 0; ready && b < CELL_BOWLER_COUNT; b++) {
        bag.bowler = cell_bowler(b, &usual);
        for (int k = 0; k < asked->blocks; k++)
            play_block(t, job, out,
                       (RehearseSetup){.bag = &bag,
                                       .pattern = &pattern,
                                       .rules = &rules,
                                       .world = asked->world,
                                       .games = GAMES,
                                       .bowlers_on_pair = cell_field(b),
                                       .practice = asked->practice,
                                       .sights = asked->sights,
                                       .seed = cell_seed(asked->first, p, b, k)},
                       p, b, asked->plays);
        fprintf(stderr, "%s, %s done\n", CELL_PATTERNS[p], CELL_BOWLERS[b]);
    }
    rehearse_free(job);
    free(out);
    return ready;
}

/* A process a pattern, so that all cores are used; the tables are added in the patterns' order. */
static bool play_all(const Asked *asked, Tables *sum)
{
    int pipes[CELL_PATTERN_COUNT][2];
    bool all = true;
    for (int p = 0; p < CELL_PATTERN_COUNT; p++) {
        if (pipe(pipes[p]) != 0)
            return false;
        fflush(stdout);
        pid_t child = fork();
        if (child < 0)
            return false;
        if (child == 0) {
            static Tables own;
            bool played = play_pattern(asked, p, &own);
            ssize_t written = played ? write(pipes[p][1], &own, sizeof own) : 0;
            _exit(written == (ssize_t)sizeof own ? 0 : 1);
        }
        close(pipes[p][1]);
    }
    for (int p = 0; p < CELL_PATTERN_COUNT; p++) {
        static Tables own;
        size_t have = 0;
        for (ssize_t got = 1; got > 0 && have < sizeof own; have += (size_t)(got > 0 ? got : 0))
            got = read(pipes[p][0], (char *)&own + have, sizeof own - have);
        all &= have == sizeof own;
        if (have == sizeof own)
            add_tables(sum, &own);
        close(pipes[p][0]);
    }
    while (wait(NULL) > 0)
        ;
    return all;
}

static void print_players(const Tables *t)
{
    printf("| player | pins a game | 95 %% +- | pocket | strikes | worth | advisor over it, pins | "
           "worth |\n|---|---|---|---|---|---|---|---|\n");
    for (int i = 0; i < PLAYER_COUNT; i++)
        if (t->shots[i] > 0.0)
            printf("| %s | %.1f | %.1f | %.1f %% | %.1f %% | %.1f %% | %+.1f +- %.1f | %+.1f +- "
                   "%.1f |\n",
                   PLAYERS[i]->name, mean(&t->pins[i]), half_width(&t->pins[i]),
                   100.0 * t->pocket[i] / t->shots[i], 100.0 * t->strike[i] / t->shots[i],
                   100.0 * mean(&t->values[i]), mean(&t->over[i]), half_width(&t->over[i]),
                   100.0 * mean(&t->value_over[i]), 100.0 * half_width(&t->value_over[i]));
}

/* Of what knowing the lane gains over holding, what the advisor gains. */
static void print_share(const Tables *t)
{
    int hold = 0, knows = 0, advisor = 0;
    for (int i = 0; i < PLAYER_COUNT; i++) {
        hold = PLAYERS[i] == &PLAYER_HOLD ? i : hold;
        knows = PLAYERS[i] == &PLAYER_KNOWS ? i : knows;
        advisor = PLAYERS[i] == &PLAYER_ADVISOR ? i : advisor;
    }
    if (t->shots[knows] > 0.0)
        printf("\nshare of what knows-the-lane gains over hold: %.0f %% of pins, %.0f %% of "
               "worth\n",
               100.0 * (mean(&t->pins[advisor]) - mean(&t->pins[hold])) /
                   (mean(&t->pins[knows]) - mean(&t->pins[hold])),
               100.0 * (mean(&t->values[advisor]) - mean(&t->values[hold])) /
                   (mean(&t->values[knows]) - mean(&t->values[hold])));
}

/* Pins of each player, and in how many cells the advisor is behind one by more than the noise. */
static void print_cells(const Tables *t)
{
    int behind[PLAYER_COUNT] = {0}, other = 0; /* the first beside the advisor */
    while (other < PLAYER_COUNT - 1 &&
           (t->shots[other] == 0.0 || PLAYERS[other] == &PLAYER_ADVISOR))
        other++;
    printf("\n| pattern | bowler |");
    for (int i = 0; i < PLAYER_COUNT; i++)
        printf(t->shots[i] > 0.0 ? " %s |" : "", PLAYERS[i]->name);
    printf(" advisor - %s |\n|---|---|---|", PLAYERS[other]->name);
    for (int i = 0; i < PLAYER_COUNT; i++)
        printf(t->shots[i] > 0.0 ? "---|" : "");
    putchar('\n');
    for (int p = 0; p < CELL_PATTERN_COUNT; p++)
        for (int b = 0; b < CELL_BOWLER_COUNT; b++) {
            printf("| %s | %s |", CELL_PATTERNS[p], CELL_BOWLERS[b]);
            for (int i = 0; i < PLAYER_COUNT; i++) {
                const Sum *over = &t->cell_over[p][b][i];
                if (t->shots[i] > 0.0)
                    printf(" %.0f |", mean(&t->cell[p][b][i]));
                behind[i] += over->n > 1.0 && mean(over) < -half_width(over);
            }
            printf(" %+.1f +- %.1f |\n", mean(&t->cell_over[p][b][other]),
                   half_width(&t->cell_over[p][b][other]));
        }
    printf("\ncells in which the advisor is behind by more than the noise:");
    for (int i = 0; i < PLAYER_COUNT; i++)
        if (t->shots[i] > 0.0 && !PLAYERS[i]->know && PLAYERS[i] != &PLAYER_ADVISOR)
            printf(" %s %d", PLAYERS[i]->name, behind[i]);
    printf(" of %d\n", CELL_PATTERN_COUNT * CELL_BOWLER_COUNT);
}

static void print_stated(const Tables *t)
{
    static const char *const WHAT[2] = {"pocket", "strike"};
    for (int what = 0; what < 2; what++) {
        double shots = 0.0, said = 0.0, hit = 0.0;
        printf("\n| stated %s chance | shots | said | happened |\n|---|---|---|---|\n", WHAT[what]);
        for (int i = 0; i < BINS; i++) {
            shots += t->bin_n[what][i];
            said += t->bin_said[what][i];
            hit += t->bin_hit[what][i];
            if (t->bin_n[what][i] > 0.0)
                printf("| %d-%d %% | %.0f | %.0f %% | %.0f %% |\n", 10 * i, 10 * (i + 1),
                       t->bin_n[what][i], 100.0 * t->bin_said[what][i] / t->bin_n[what][i],
                       100.0 * t->bin_hit[what][i] / t->bin_n[what][i]);
        }
        printf("| all | %.0f | %.1f %% | %.1f %% |\n", shots, 100.0 * said / shots,
               100.0 * hit / shots);
    }
    double base = t->hit / t->stated;
    printf(
        "\nBrier of the pocket %.3f (always saying %.0f %%: %.3f); 80 %% interval for the film in "
        "the track holds the truth %.0f %% of %.0f times\n",
        t->brier / t->stated, 100.0 * base, base * (1.0 - base),
        t->intervals > 0.0 ? 100.0 * t->inside / t->intervals : 0.0, t->intervals);
}

static void print_tables(const Asked *asked, const Tables *t)
{
    printf("%s (%s): %d blocks of %d games, %d patterns, %d bowlers, seeds from %lu, %d practice "
           "balls%s\n\n",
           asked->world->name, asked->world->sentence,
           asked->blocks * CELL_PATTERN_COUNT * CELL_BOWLER_COUNT, GAMES, CELL_PATTERN_COUNT,
           CELL_BOWLER_COUNT, asked->first, asked->practice, asked->sights ? ", boards told" : "");
    print_players(t);
    print_share(t);
    print_cells(t);
    print_stated(t);
}

static bool read_word(const char *word, Asked *asked)
{
    if (strcmp(word, "sights") == 0)
        return asked->sights = true;
    if (strcmp(word, "every-world") == 0)
        return asked->every_world = true;
    asked->world = world_find(word);
    return asked->world != NULL;
}

/* Those who are named, and the advisor; all where nobody is. */
static void choose_players(Asked *asked, char *const *words, int count)
{
    bool quick = false, named = false;
    for (int w = 0; w < count; w++) {
        quick |= strcmp(words[w], "quick") == 0;
        named |= player_find(words[w]) != NULL;
    }
    for (int i = 0; i < PLAYER_COUNT; i++) {
        asked->plays[i] = !named && !(quick && PLAYERS[i]->know);
        for (int w = 0; w < count; w++)
            asked->plays[i] |= strcmp(words[w], PLAYERS[i]->name) == 0;
        asked->plays[i] |= PLAYERS[i] == &PLAYER_ADVISOR;
    }
}

static bool play_world(const Asked *asked)
{
    static Tables tables;
    memset(&tables, 0, sizeof tables);
    if (!play_all(asked, &tables))
        return false;
    print_tables(asked, &tables);
    return true;
}

int main(int argc, char **argv)
{
    Asked asked = {.blocks = argc > 1 ? atoi(argv[1]) : 1,
                   .first = argc > 2 ? strtoul(argv[2], NULL, 10) : 1,
                   .practice = argc > 3 ? atoi(argv[3]) : 0,
                   .world = &WORLD_KIN};
    bool read = asked.blocks >= 1 && asked.practice >= 0 && asked.practice <= REHEARSE_PRACTICE_MAX;
    for (int i = 4; read && i < argc; i++)
        read = strcmp(argv[i], "quick") == 0 || player_find(argv[i]) || read_word(argv[i], &asked);
    if (!read) {
        fputs("bench_rehearse: blocks from 1, practice 0 to 40, then a world, every-world, sights, "
              "quick or players\n",
              stderr);
        return 2;
    }
    choose_players(&asked, argv + 4, argc > 4 ? argc - 4 : 0);
    bool played = true;
    for (int w = 0; played && (asked.every_world ? WORLDS[w] != NULL : w == 0); w++) {
        asked.world = asked.every_world ? WORLDS[w] : asked.world;
        printf("%s", w > 0 ? "\n" : "");
        played = play_world(&asked);
    }
    if (!played)
        fputs("bench_rehearse: a pattern was not played\n", stderr);
    return played ? 0 : 1;
}
