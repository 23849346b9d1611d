/* bench_rehearse.c - four players, six patterns, four bowlers: what following the advice is worth.
 * Usage: bench_rehearse [BLOCKS-PER-CELL [FIRST-SEED]]. Prints the tables of docs/advice.md. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/rehearse.h"
#include "store/files.h"

enum { PATTERNS = 6, BOWLERS = 4, BINS = 10, GAMES = 3, FIELD = 4 };
static const char *const PATTERN_IDS[PATTERNS] = {"apron",    "latch", "lintel",
                                                  "tabletop", "kerb",  "parlour"};
static const char *const BOWLER_WORDS[BOWLERS] = {"tournament", "two-handed", "low revs",
                                                  "left-handed"};

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

static Bowler bowler_of(int kind, const Bowler *usual)
{
    Bowler b = *usual;
    switch (kind) {
    case 1:
        b.style = STYLE_TWO_HANDED;
        b.mph = 17.8;
        b.rpm = 460.0;
        b.rotation_deg = 45.0;
        b.tilt_deg = 8.0;
        b.scatter = (Scatter){.launch_deg = 0.14, .mph = 0.18, .rpm = 10.0, .laydown_boards = 0.4};
        break;
    case 2:
        b.mph = 16.5;
        b.rpm = 240.0;
        b.rotation_deg = 45.0;
        b.scatter = (Scatter){.launch_deg = 0.18, .mph = 0.25, .rpm = 8.0, .laydown_boards = 0.5};
        break;
    case 3:
        b.hand = HAND_LEFT;
        break;
    default:
        break;
    }
    return b;
}

int main(int argc, char **argv)
{
    int blocks = argc > 1 ? atoi(argv[1]) : 1;
    unsigned long first = argc > 2 ? strtoul(argv[2], NULL, 10) : 1;
    Bag bag;
    Pattern pattern;
    static RuleSet rules;
    Error error = {0};
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    if (!job || !out || !files_bag("demo", &bag, &error) || !files_rules("coach", &rules, &error))
        return 1;
    Bowler usual = bag.bowler;
    static Sum pins[PLAYER_COUNT], cell[PATTERNS][BOWLERS][PLAYER_COUNT],
        over_hold[PATTERNS][BOWLERS];
    static Sum gain_advisor, gain_knows, over_rules, worth_advisor, worth_knows;
    static Sum worths[PLAYER_COUNT];
    double shots[PLAYER_COUNT] = {0}, pocket[PLAYER_COUNT] = {0}, strike[PLAYER_COUNT] = {0};
    double bin_n[BINS] = {0}, bin_said[BINS] = {0}, bin_hit[BINS] = {0}, brier = 0.0, stated = 0.0;
    double base = 0.0;
    long intervals = 0, inside = 0;
    for (int p = 0; p < PATTERNS; p++) {
        if (!files_pattern(PATTERN_IDS[p], &pattern, &error))
            return 1;
        for (int b = 0; b < BOWLERS; b++) {
            bag.bowler = bowler_of(b, &usual);
            for (int k = 0; k < blocks; k++) {
                double score[PLAYER_COUNT], worth[PLAYER_COUNT];
                for (int player = 0; player < PLAYER_COUNT; player++) {
                    RehearseSetup setup = {.bag = &bag,
                                           .pattern = &pattern,
                                           .rules = &rules,
                                           .games = GAMES,
                                           .bowlers_on_pair = b == 3 ? 2 : FIELD,
                                           .player = (Player)player,
                                           .seed =
                                               first + (unsigned long)(k + 1000 * (b + 10 * p))};
                    rehearse_play(job, &setup, out);
                    score[player] = out->mean_pins;
                    worth[player] = out->worth;
                    add(&worths[player], out->worth);
                    add(&pins[player], out->mean_pins);
                    add(&cell[p][b][player], out->mean_pins);
                    shots[player] += out->shot_count;
                    pocket[player] += out->pockets;
                    strike[player] += out->strikes;
                    intervals += out->intervals;
                    inside += out->inside;
                    for (int i = 0; player == PLAYER_ADVISOR && i < out->shot_count; i++) {
                        const RehearseShot *shot = &out->shots[i];
                        int bin = (int)fmin(BINS - 1.0, shot->stated * BINS);
                        bin_n[bin] += 1.0;
                        bin_said[bin] += shot->stated;
                        bin_hit[bin] += shot->pocket;
                        brier += (shot->stated - shot->pocket) * (shot->stated - shot->pocket);
                        base += shot->pocket;
                        stated += 1.0;
                    }
                }
                add(&gain_advisor, score[PLAYER_ADVISOR] - score[PLAYER_HOLD]);
                add(&gain_knows, score[PLAYER_KNOWS] - score[PLAYER_HOLD]);
                add(&worth_advisor, worth[PLAYER_ADVISOR] - worth[PLAYER_HOLD]);
                add(&worth_knows, worth[PLAYER_KNOWS] - worth[PLAYER_HOLD]);
                add(&over_rules, score[PLAYER_ADVISOR] - score[PLAYER_RULES]);
                add(&over_hold[p][b], score[PLAYER_ADVISOR] - score[PLAYER_HOLD]);
            }
            fprintf(stderr, "%s, %s done\n", PATTERN_IDS[p], BOWLER_WORDS[b]);
        }
    }
    printf("%d blocks of %d games, %d patterns, %d bowlers, seeds from %lu\n\n",
           blocks * PATTERNS * BOWLERS, GAMES, PATTERNS, BOWLERS, first);
    printf("| player | pins a game | 95 %% +- | pocket | strikes | worth "
           "|\n|---|---|---|---|---|---|\n");
    for (int i = 0; i < PLAYER_COUNT; i++)
        printf("| %s | %.1f | %.1f | %.1f %% | %.1f %% | %.1f %% |\n", PLAYER_NAMES[i],
               mean(&pins[i]), half_width(&pins[i]), 100.0 * pocket[i] / shots[i],
               100.0 * strike[i] / shots[i], 100.0 * mean(&worths[i]));
    printf(
        "\nadvisor over hold %.1f +- %.1f; knows-the-lane over hold %.1f +- %.1f; share %.0f %%\n",
        mean(&gain_advisor), half_width(&gain_advisor), mean(&gain_knows), half_width(&gain_knows),
        100.0 * mean(&gain_advisor) / mean(&gain_knows));
    printf("by worth (chance of a strike of what was chosen, under the truth): share %.0f %%\n",
           100.0 * mean(&worth_advisor) / mean(&worth_knows));
    printf("advisor over rules %.1f +- %.1f\n\n", mean(&over_rules), half_width(&over_rules));
    printf("| pattern | bowler | hold | rules | advisor | knows | advisor - hold "
           "|\n|---|---|---|---|---|---|---|\n");
    for (int p = 0; p < PATTERNS; p++)
        for (int b = 0; b < BOWLERS; b++)
            printf("| %s | %s | %.0f | %.0f | %.0f | %.0f | %+.1f +- %.1f |\n", PATTERN_IDS[p],
                   BOWLER_WORDS[b], mean(&cell[p][b][0]), mean(&cell[p][b][1]),
                   mean(&cell[p][b][2]), mean(&cell[p][b][3]), mean(&over_hold[p][b]),
                   half_width(&over_hold[p][b]));
    printf("\n| stated pocket chance | shots | said | happened |\n|---|---|---|---|\n");
    for (int i = 0; i < BINS; i++)
        if (bin_n[i] > 0.0)
            printf("| %d-%d %% | %.0f | %.0f %% | %.0f %% |\n", 10 * i, 10 * (i + 1), bin_n[i],
                   100.0 * bin_said[i] / bin_n[i], 100.0 * bin_hit[i] / bin_n[i]);
    base /= stated;
    printf("\nBrier %.3f (always saying %.0f %%: %.3f); 80 %% interval for the film in the track "
           "holds the truth %.0f %% of %ld times\n",
           brier / stated, 100.0 * base, base * (1.0 - base),
           intervals ? 100.0 * (double)inside / (double)intervals : 0.0, intervals);
    rehearse_free(job);
    free(out);
    return 0;
}
