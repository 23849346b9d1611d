/* bench_rehearse.c - every player in a world, six patterns, eight bowlers: what following the
 * advice is worth. Prints the tables of docs/advice.md.
 *
 *   bench_rehearse [BLOCKS-PER-CELL [FIRST-SEED [PRACTICE [WORD...]]]]
 *
 * A word is the name of a world (kin, where none is named), `every-world`, `sights` (the bowler
 * tells the boards on the way), `quick` (without knows-the-lane, which takes most of the time), or
 * the name of a player: then only those named play, and the advisor. The blocks are played in
 * rounds of one a cell; `each-round` prints the tables after every round. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cells.h"
#include "core/rehearse/rehearse.h"
#include "store/files.h"

enum { BINS = 10, GAMES = 3, WORLDS_MAX = 8 };

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

/* Stated chances of a strike against what happened. */
typedef struct Stated {
    double shots, said, happened;
} Stated;

/* All that is summed up of a world; numbers only, so that tables can be added. */
typedef struct Tables {
    Sum pins[PLAYER_COUNT], values[PLAYER_COUNT];
    Sum kind[CELL_BOWLER_COUNT][PLAYER_COUNT];
    /* advisor less player, block by block */
    Sum over[PLAYER_COUNT], value_over[PLAYER_COUNT];
    Sum kind_over[CELL_BOWLER_COUNT][PLAYER_COUNT];
    Sum cell_over[CELL_PATTERN_COUNT][CELL_BOWLER_COUNT][PLAYER_COUNT];
    double shots[PLAYER_COUNT], pocket[PLAYER_COUNT], strike[PLAYER_COUNT];
    Stated strikes, by_kind[CELL_BOWLER_COUNT];
    Stated bin[2][BINS]; /* pocket, strike */
    double brier, stated, hit, intervals, inside;
} Tables;

static void add_tables(Tables *to, const Tables *from)
{
    double *a = (double *)to;
    const double *b = (const double *)from;
    for (size_t i = 0; i < sizeof *to / sizeof *a; i++)
        a[i] += b[i];
}

static void add_said(Stated *to, double said, bool happened)
{
    to->shots += 1.0;
    to->said += said;
    to->happened += happened;
}

static void add_to_bin(Tables *t, int what, double said, bool happened)
{
    add_said(&t->bin[what][(int)fmin(BINS - 1.0, said * BINS)], said, happened);
}

static void add_stated(Tables *t, int b, const RehearseShot *shot)
{
    add_to_bin(t, 0, shot->stated, shot->pocket);
    add_to_bin(t, 1, shot->stated_strike, shot->strike);
    add_said(&t->strikes, shot->stated_strike, shot->strike);
    add_said(&t->by_kind[b], shot->stated_strike, shot->strike);
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
        add(&t->kind[b][i], out->mean_pins);
        t->shots[i] += out->shot_count;
        t->pocket[i] += out->pockets;
        t->strike[i] += out->strikes;
        t->intervals += out->intervals;
        t->inside += out->inside;
        if (setup.player != &PLAYER_ADVISOR)
            continue;
        advisor = i;
        for (int k = 0; k < out->shot_count; k++)
            add_stated(t, b, &out->shots[k]);
    }
    for (int i = 0; i < PLAYER_COUNT; i++)
        if (plays[i]) {
            add(&t->over[i], score[advisor] - score[i]);
            add(&t->value_over[i], value[advisor] - value[i]);
            add(&t->kind_over[b][i], score[advisor] - score[i]);
            add(&t->cell_over[p][b][i], score[advisor] - score[i]);
        }
}

/* What was asked for on the command line. */
typedef struct Asked {
    int blocks, practice;
    unsigned long first;
    bool sights, each_round, plays[PLAYER_COUNT];
    bool in[WORLDS_MAX]; /* by index of WORLDS */
} Asked;

static int world_count(void)
{
    int count = 0;
    while (WORLDS[count] && count < WORLDS_MAX)
        count++;
    return count;
}

/* A round on one pattern: a block of every bowler in every world. */
static bool play_pattern(const Asked *asked, int p, int round, Tables tables[WORLDS_MAX])
{
    static Bag demo, bag;
    static Pattern pattern;
    static RuleSet rules;
    Error error = {0};
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    bool ready = job && out && files_bag("demo", &demo, &error) &&
                 files_rules("coach", &rules, &error) &&
                 files_pattern(CELL_PATTERNS[p], &pattern, &error);
    for (int b = 0; ready && b < CELL_BOWLER_COUNT; b++) {
        ready = cell_bag(b, &demo, &bag);
        for (int w = 0; ready && w < world_count(); w++)
            if (asked->in[w])
                play_block(&tables[w], job, out,
                           (RehearseSetup){.bag = &bag,
                                           .pattern = &pattern,
                                           .rules = &rules,
                                           .world = WORLDS[w],
                                           .games = GAMES,
                                           .bowlers_on_pair = cell_field(b),
                                           .practice = asked->practice,
                                           .sights = asked->sights,
                                           .seed = cell_seed(asked->first, p, b, round)},
                           p, b, asked->plays);
    }
    rehearse_free(job);
    free(out);
    return ready;
}

/* Adds what another process has written. */
static bool read_tables(int pipe_end, Tables sums[WORLDS_MAX])
{
    static Tables own[WORLDS_MAX];
    size_t have = 0;
    for (ssize_t got = 1; got > 0 && have < sizeof own; have += (size_t)(got > 0 ? got : 0))
        got = read(pipe_end, (char *)own + have, sizeof own - have);
    for (int w = 0; have == sizeof own && w < WORLDS_MAX; w++)
        add_tables(&sums[w], &own[w]);
    return have == sizeof own;
}

static bool write_tables(int pipe_end, const Tables own[WORLDS_MAX])
{
    size_t all = sizeof *own * WORLDS_MAX, done = 0;
    for (ssize_t put = 1; put > 0 && done < all; done += (size_t)(put > 0 ? put : 0))
        put = write(pipe_end, (const char *)own + done, all - done);
    return done == all;
}

/* A process a pattern, so that all cores are used; the tables are added in the patterns' order. */
static bool play_round(const Asked *asked, int round, Tables sums[WORLDS_MAX])
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
            static Tables own[WORLDS_MAX];
            bool played = play_pattern(asked, p, round, own);
            _exit(played && write_tables(pipes[p][1], own) ? 0 : 1);
        }
        close(pipes[p][1]);
    }
    for (int p = 0; p < CELL_PATTERN_COUNT; p++) {
        all &= read_tables(pipes[p][0], sums);
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

static int index_of(const Player *player)
{
    int i = 0;
    while (PLAYERS[i] != player)
        i++;
    return i;
}

/* Of what knowing the lane gains over holding, what the advisor gains. */
static void print_share(const Tables *t)
{
    int hold = index_of(&PLAYER_HOLD), knows = index_of(&PLAYER_KNOWS);
    int advisor = index_of(&PLAYER_ADVISOR);
    if (t->shots[knows] > 0.0)
        printf("\nshare of what knows-the-lane gains over hold: %.0f %% of pins, %.0f %% of "
               "worth\n",
               100.0 * (mean(&t->pins[advisor]) - mean(&t->pins[hold])) /
                   (mean(&t->pins[knows]) - mean(&t->pins[hold])),
               100.0 * (mean(&t->values[advisor]) - mean(&t->values[hold])) /
                   (mean(&t->values[knows]) - mean(&t->values[hold])));
}

static bool compared(const Tables *t, int player)
{
    return t->shots[player] > 0.0 && PLAYERS[player] != &PLAYER_ADVISOR;
}

static void print_said(const Stated *stated)
{
    printf(" %.1f %% | %.1f %% |", 100.0 * stated->said / stated->shots,
           100.0 * stated->happened / stated->shots);
}

/* The titles of a table of pins, and what the advisor is over each player. */
static void print_head(const Tables *t, const char *first, const char *last)
{
    int columns = 1;
    printf("| %s |", first);
    for (int i = 0; i < PLAYER_COUNT; i++)
        if (t->shots[i] > 0.0)
            columns += printf(" %s |", PLAYERS[i]->name) > 0;
    for (int i = 0; i < PLAYER_COUNT; i++)
        if (compared(t, i))
            columns += printf(" over %s |", PLAYERS[i]->name) > 0;
    printf("%s\n|", last);
    for (const char *at = last; *at; at++)
        columns += *at == '|';
    for (int i = 0; i < columns; i++)
        printf("---|");
    putchar('\n');
}

/* By kind of bowler, on all patterns. */
static void print_kinds(const Tables *t)
{
    putchar('\n');
    print_head(t, "bowler", " strikes said | happened |");
    for (int b = 0; b < CELL_BOWLER_COUNT; b++) {
        printf("| %s |", CELL_BOWLERS[b]);
        for (int i = 0; i < PLAYER_COUNT; i++)
            if (t->shots[i] > 0.0)
                printf(" %.1f |", mean(&t->kind[b][i]));
        for (int i = 0; i < PLAYER_COUNT; i++)
            if (compared(t, i))
                printf(" %+.1f +- %.1f |", mean(&t->kind_over[b][i]),
                       half_width(&t->kind_over[b][i]));
        print_said(&t->by_kind[b]);
        putchar('\n');
    }
}

/* Cells in which the advisor is behind a player by more than the noise. */
static void print_cells(int rounds, const Tables *t)
{
    if (rounds < 2) /* no noise to compare with */
        return;
    printf("\ncells, of %d, in which the advisor is behind by more than the noise:",
           CELL_PATTERN_COUNT * CELL_BOWLER_COUNT);
    for (int i = 0; i < PLAYER_COUNT; i++) {
        int behind = 0;
        for (int p = 0; p < CELL_PATTERN_COUNT; p++)
            for (int b = 0; b < CELL_BOWLER_COUNT; b++) {
                const Sum *over = &t->cell_over[p][b][i];
                behind += mean(over) < -half_width(over);
            }
        if (compared(t, i) && !PLAYERS[i]->know)
            printf(" %s %d", PLAYERS[i]->name, behind);
    }
    putchar('\n');
}

static void print_stated(const Tables *t)
{
    static const char *const WHAT[2] = {"pocket", "strike"};
    for (int what = 0; what < 2; what++) {
        printf("\n| stated %s chance | shots | said | happened |\n|---|---|---|---|\n", WHAT[what]);
        for (int i = 0; i < BINS; i++) {
            const Stated *bin = &t->bin[what][i];
            if (bin->shots > 0.0) {
                printf("| %d-%d %% | %.0f |", 10 * i, 10 * (i + 1), bin->shots);
                print_said(bin);
                putchar('\n');
            }
        }
    }
    double base = t->hit / t->stated;
    printf(
        "\nBrier of the pocket %.3f (always saying %.0f %%: %.3f); 80 %% interval for the film in "
        "the track holds the truth %.0f %% of %.0f times\n",
        t->brier / t->stated, 100.0 * base, base * (1.0 - base),
        t->intervals > 0.0 ? 100.0 * t->inside / t->intervals : 0.0, t->intervals);
}

static void print_tables(const Asked *asked, int rounds, const World *world, const Tables *t)
{
    printf("\n%s (%s): %d blocks of %d games, %d patterns, %d bowlers, seeds from %lu, %d practice "
           "balls%s\n\n",
           world->name, world->sentence, rounds * CELL_PATTERN_COUNT * CELL_BOWLER_COUNT, GAMES,
           CELL_PATTERN_COUNT, CELL_BOWLER_COUNT, asked->first, asked->practice,
           asked->sights ? ", boards told" : "");
    print_players(t);
    print_share(t);
    print_kinds(t);
    print_cells(rounds, t);
    print_stated(t);
}

/* All worlds in one table: pins, worth of the advisor over each player, strikes as said, as they
 * happened, and their true chance. */
static void print_worlds(const Asked *asked, const Tables tables[WORLDS_MAX])
{
    static Tables all;
    memset(&all, 0, sizeof all);
    for (int w = 0; w < world_count(); w++)
        add_tables(&all, &tables[w]);
    printf("\nEvery world; pins a game\n\n");
    print_head(&all, "world", " strikes said | happened | true |");
    for (int w = 0; w < world_count(); w++) {
        const Tables *t = &tables[w];
        if (!asked->in[w])
            continue;
        printf("| %s |", WORLDS[w]->name);
        for (int i = 0; i < PLAYER_COUNT; i++)
            if (t->shots[i] > 0.0)
                printf(" %.1f |", mean(&t->pins[i]));
        for (int i = 0; i < PLAYER_COUNT; i++)
            if (compared(t, i))
                printf(" %+.1f +- %.1f |", mean(&t->over[i]), half_width(&t->over[i]));
        print_said(&t->strikes);
        printf(" %.1f %% |\n", 100.0 * mean(&t->values[index_of(&PLAYER_ADVISOR)]));
    }
    print_kinds(&all);
}

static void print_all(const Asked *asked, int rounds, const Tables tables[WORLDS_MAX])
{
    int count = 0;
    for (int w = 0; w < world_count(); w++)
        if (asked->in[w]) {
            print_tables(asked, rounds, WORLDS[w], &tables[w]);
            count++;
        }
    if (count > 1)
        print_worlds(asked, tables);
    fflush(stdout);
}

static bool read_word(const char *word, Asked *asked)
{
    if (strcmp(word, "quick") == 0 || player_find(word)) /* choose_players reads these */
        return true;
    if (strcmp(word, "sights") == 0)
        return asked->sights = true;
    if (strcmp(word, "each-round") == 0)
        return asked->each_round = true;
    bool every = strcmp(word, "every-world") == 0, known = every;
    for (int w = 0; w < world_count(); w++)
        if (every || strcmp(WORLDS[w]->name, word) == 0)
            known = asked->in[w] = true;
    return known;
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

int main(int argc, char **argv)
{
    static Tables tables[WORLDS_MAX];
    Asked asked = {.blocks = argc > 1 ? atoi(argv[1]) : 1,
                   .first = argc > 2 ? strtoul(argv[2], NULL, 10) : 1,
                   .practice = argc > 3 ? atoi(argv[3]) : 0};
    bool read = asked.blocks >= 1 && asked.practice >= 0 && asked.practice <= REHEARSE_PRACTICE_MAX;
    for (int i = 4; read && i < argc; i++)
        read = read_word(argv[i], &asked);
    if (!read) {
        fputs("bench_rehearse: blocks from 1, practice 0 to 40, then worlds, every-world, sights, "
              "quick, each-round or players\n",
              stderr);
        return 2;
    }
    bool any = false;
    for (int w = 0; w < world_count(); w++)
        any |= asked.in[w];
    asked.in[0] |= !any;
    choose_players(&asked, argv + 4, argc > 4 ? argc - 4 : 0);
    for (int round = 0; round < asked.blocks; round++) {
        if (!play_round(&asked, round, tables)) {
            fputs("bench_rehearse: a pattern was not played\n", stderr);
            return 1;
        }
        fprintf(stderr, "round %d of %d done\n", round + 1, asked.blocks);
        if (asked.each_round || round + 1 == asked.blocks)
            print_all(&asked, round + 1, tables);
    }
    return 0;
}
