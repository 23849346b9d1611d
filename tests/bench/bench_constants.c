/* bench_constants.c - what 20 % more or less of each constant does: the tables of docs/model.md.
 *
 * The files with the constants are compiled in here with the constants as variables; they take the
 * place of the same files of the core's archive. A ball keeps the stance and aim that are its own
 * with the constants as they are. A cell is boards at the pins, degrees of entry. Prints Markdown.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/bag/ball.h"

static double gravity = 9.80665, rolling = 0.01;
static double lane_roughness = 0.25, fresh_length = 0.35 * 0.0254, fade_lambda = 0.8,
              fade_power = 1.3;
static double worn_um = 0.5, worn_half_games = 12.0;
static double pick_share = 0.09, cling_units = 1.0, track_boards = 0.6, carry_per_ft = 0.002,
              carry_hard_per_ft = 0.008;
static double roughness_share = 1.0;

#define SETTEE_CONSTANTS_VARY
#define GRAVITY_MPS2 gravity
#define MOTION_ROLLING_RESISTANCE rolling
#define LANE_ROUGHNESS_UM lane_roughness
#define FRESH_LENGTH_M fresh_length
#define FADE_LAMBDA fade_lambda
#define FADE_POWER fade_power
#define WORN_UM worn_um
#define WORN_HALF_GAMES worn_half_games
#define PICK_SHARE pick_share
#define CLING_UNITS cling_units
#define TRACK_BOARDS track_boards
#define CARRY_PER_FT carry_per_ft
#define CARRY_HARD_PER_FT carry_hard_per_ft

#include "../../src/core/bag/ball.c"
#include "../../src/core/motion/motion.c"
#include "../../src/core/motion/wear.c"

#define ball_roughness_um(surface) (roughness_share * (ball_roughness_um)(surface))
#include "../../src/core/motion/friction.c"
#undef ball_roughness_um

#include "base/error.h"
#include "core/line/line.h"
#include "store/files.h"

enum { BALLS = 2, WEAR_DELIVERIES = 60 };
static const int SLOTS[BALLS] = {1, 4};

static Bag bag;
static Oil lane;
static Delivery own[BALLS]; /* each ball's own line, constants as they are */

/* What a constant can be: a variable above, or a change to a prepared ball. */
typedef struct Row {
    const char *name, *value, *source;
    double *variable;
    void (*change)(MotionBody *body, Delivery *delivery, double factor);
} Row;

static void film(MotionBody *body, Delivery *d, double f)
{
    (void)d;
    body->friction.mu_film *= f;
}
static void dry(MotionBody *body, Delivery *d, double f)
{
    (void)d;
    body->friction.mu_dry *= f;
}
static void chi(MotionBody *body, Delivery *d, double f)
{
    (void)d;
    body->friction.reach_units *= f; /* as the roughness that stands through the film */
}
static void unit(MotionBody *body, Delivery *d, double f)
{
    (void)d;
    body->friction.reach_units /= f;
}
static void dry_base(MotionBody *body, Delivery *d, double f)
{
    (void)d;
    body->friction.dry_base *= f;
}
static void dry_fresh(MotionBody *body, Delivery *d, double f)
{
    (void)d;
    body->friction.dry_fresh *= f;
}
static void radius(MotionBody *body, Delivery *d, double f)
{
    (void)d;
    body->radius_m *= f;
}
static void arrows(MotionBody *body, Delivery *d, double f)
{
    (void)body;
    d->launch_deg = deg_from_rad(atan(tan(rad_from_deg(d->launch_deg)) / f));
}

static const Row MOTION_ROWS[] = {
    {"gravity", "9.80665 m/s2", "standard", &gravity, NULL},
    {"ball's radius", "4.2975 in", "USBC manual (largest allowed)", NULL, radius},
    {"distance of the arrows", "15 ft", "common practice (12.5 to 16)", NULL, arrows},
    {"film of one unit", "0.18 um", "0.0167 mL a square foot, from memory", NULL, unit},
    {"mu_film of the cover", "0.015 to 0.040", "assumed", NULL, film},
    {"mu_dry of the cover", "0.100 to 0.200", "assumed", NULL, dry},
    {"chi of the cover", "0.5 to 1.0", "assumed", NULL, chi},
    {"roughness of the surface", "0.1 to 1.27 um", "assumed (cap 1.27: USBC manual)",
     &roughness_share, NULL},
    {"roughness of the lane", "0.25 um", "assumed", &lane_roughness, NULL},
    {"ring distance of fresh cover", "0.35 in", "assumed", &fresh_length, NULL},
    {"dry share without fresh cover", "0.60 to 0.85", "assumed", NULL, dry_base},
    {"dry share of fresh cover", "0.15 to 0.40", "assumed", NULL, dry_fresh},
    {"lambda of the fade", "0.8", "assumed", &fade_lambda, NULL},
    {"power of the fade", "1.3", "assumed", &fade_power, NULL},
    {"rolling resistance", "0.01 g", "assumed", &rolling, NULL},
};

static const Row USE_ROWS[] = {
    {"roughness that use ends at", "0.5 um", "assumed", &worn_um, NULL},
    {"games to half of it", "12", "assumed", &worn_half_games, NULL},
};

static const Row WEAR_ROWS[] = {
    {"share taken up", "0.09", "assumed", &pick_share, NULL},
    {"film that no ball takes", "1 unit", "assumed: within the roughness of the lane", &cling_units,
     NULL},
    {"deviation of the track", "0.6 board", "assumed", &track_boards, NULL},
    {"share carried on", "0.002 a foot", "assumed", &carry_per_ft, NULL},
};
static const Row HARD_ROWS[] = {
    {"share carried on, urethane and polyester", "0.008 a foot", "assumed", &carry_hard_per_ft,
     NULL},
};
#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* Arrival of one ball with one row's constant changed. `worn_with`: NULL for the fresh lane, else
 * the ball that wears it first, on the same line. */
static Arrival arrive(int k, const Ball *ball, const Row *row, double factor, const Ball *worn_with)
{
    double before = row && row->variable ? *row->variable : 0.0;
    if (row && row->variable)
        *row->variable *= factor;
    Oil oil = lane;
    MotionBody body;
    Delivery delivery = own[k];
    if (worn_with) {
        Roll roll;
        motion_body(worn_with, &body);
        for (int i = 0; i < WEAR_DELIVERIES; i++) {
            motion_roll(&body, &oil, &delivery, &roll);
            wear_delivery(&oil, &roll, worn_with->cover, 0.0);
        }
    }
    motion_body(ball, &body);
    if (row && row->change)
        row->change(&body, &delivery, factor);
    Arrival arrival = motion_arrive(&body, &oil, &delivery);
    if (row && row->variable)
        *row->variable = before;
    return arrival;
}

static void cell(Arrival now, Arrival then)
{
    double boards = then.board - now.board, degrees = then.degrees - now.degrees;
    if (then.gutter)
        printf(" gutter |");
    else /* nothing is nothing, not -0.00 */
        printf(" %+.2f, %+.2f |", fabs(boards) < 0.005 ? 0.0 : boards,
               fabs(degrees) < 0.005 ? 0.0 : degrees);
}

static void heading_of(const char *title)
{
    printf("\n**%s**\n\n| constant | value | source |", title);
    for (int k = 0; k < BALLS; k++)
        printf(" slot %d, less 20 %% | slot %d, more 20 %% |", SLOTS[k], SLOTS[k]);
    printf("\n|---|---|---|");
    for (int k = 0; k < 2 * BALLS; k++)
        printf("---|");
    puts("");
}

typedef enum Lane { FRESH, WORN_BY_ITSELF, WORN_BY_URETHANE } Lane;

static void table(const char *title, const Row *rows, size_t count, Lane how,
                  void (*alter)(Ball *ball))
{
    Ball balls[BALLS];
    const Ball *wears[BALLS];
    Arrival now[BALLS];
    for (int k = 0; k < BALLS; k++) {
        balls[k] = *bag_slot(&bag, SLOTS[k]);
        if (alter)
            alter(&balls[k]);
        wears[k] = how == FRESH ? NULL : how == WORN_BY_ITSELF ? &balls[k] : bag_slot(&bag, 2);
        now[k] = arrive(k, &balls[k], NULL, 1.0, wears[k]);
    }
    heading_of(title);
    printf("| as it is | | |");
    for (int k = 0; k < BALLS; k++)
        printf(" %.2f, %.2f | |", now[k].board, now[k].degrees);
    puts("");
    for (size_t i = 0; i < count; i++) {
        printf("| %s | %s | %s |", rows[i].name, rows[i].value, rows[i].source);
        for (int k = 0; k < BALLS; k++) {
            cell(now[k], arrive(k, &balls[k], &rows[i], 0.8, wears[k]));
            cell(now[k], arrive(k, &balls[k], &rows[i], 1.2, wears[k]));
        }
        puts("");
    }
}

static void used_surface(Ball *ball)
{
    ball->surface = (Surface){.finish = FINISH_GRIT, .grit = 1000.0, .games_since = 12.0};
}

/* Says so when a source file's constant is no longer what stands here. */
static bool as_in_source(const char *file, const char *name, double here)
{
    char path[512], wanted[64], line[256];
    snprintf(path, sizeof path, "%s/src/core/%s", SETTEE_SOURCE_DIR, file);
    snprintf(wanted, sizeof wanted, "#define %s", name);
    FILE *source = fopen(path, "r");
    double there = NAN;
    while (source && isnan(there) && fgets(line, sizeof line, source)) {
        size_t size = strlen(wanted);
        if (strncmp(line, wanted, size) != 0 || line[size] != ' ')
            continue;
        const char *at = line + size + strspn(line + size, " (");
        if (*at == '\\' && fgets(line, sizeof line, source)) /* the value is on the next line */
            at = line + strspn(line, " (");
        there = strtod(at, NULL);
    }
    if (source)
        fclose(source);
    if (fabs(there - here) < 1e-12)
        return true;
    fprintf(stderr, "%s of %s is %g there and %g in bench_constants.c\n", name, file, there, here);
    return false;
}

static bool all_as_in_source(void)
{
    const struct {
        const char *file, *name;
        double here;
    } held[] = {{"../base/units.h", "UNITS_GRAVITY_MPS2", gravity},
                {"motion/motion.h", "MOTION_ROLLING_RESISTANCE", rolling},
                {"motion/friction.c", "LANE_ROUGHNESS_UM", lane_roughness},
                {"motion/friction.c", "FRESH_LENGTH_M", fresh_length / 0.0254},
                {"motion/friction.c", "FADE_LAMBDA", fade_lambda},
                {"motion/friction.c", "FADE_POWER", fade_power},
                {"bag/ball.c", "WORN_UM", worn_um},
                {"bag/ball.c", "WORN_HALF_GAMES", worn_half_games},
                {"motion/wear.c", "PICK_SHARE", pick_share},
                {"motion/wear.c", "CLING_UNITS", cling_units},
                {"motion/wear.c", "TRACK_BOARDS", track_boards},
                {"motion/wear.c", "CARRY_PER_FT", carry_per_ft},
                {"motion/wear.c", "CARRY_HARD_PER_FT", carry_hard_per_ft}};
    bool all = true;
    for (size_t i = 0; i < COUNT(held); i++)
        all &= as_in_source(held[i].file, held[i].name, held[i].here);
    return all;
}

int main(void)
{
    if (!all_as_in_source())
        return 1;
    Error error = {0};
    Pattern pattern;
    char line[ERROR_LINE_MAX];
    if (!files_bag("demo", &bag, &error) || !files_pattern("apron", &pattern, &error)) {
        error_line(&error, line, sizeof line);
        fprintf(stderr, "%s\n", line);
        return 1;
    }
    Oil sheet;
    oil_lay(&pattern, &sheet);
    oil_for_hand(&sheet, bag.bowler.hand, &lane);
    for (int k = 0; k < BALLS; k++) {
        MotionBody body;
        motion_body(bag_slot(&bag, SLOTS[k]), &body);
        Delivery usual = delivery_of(&bag.bowler, 20.0, 12.0);
        Line best = line_best(&body, &lane, &bag.bowler, &usual, 14.0, 26.0);
        own[k] = usual;
        own[k].laydown_board = best.laydown_board;
        own[k].launch_deg = best.launch_deg;
        printf("Slot %d: stance %.1f, aim %.1f, arrives on board %.2f at %.2f degrees\n", SLOTS[k],
               best.stance, best.aim, best.entry_board, best.entry_deg);
    }
    table("Motion and friction, fresh lane", MOTION_ROWS, COUNT(MOTION_ROWS), FRESH, NULL);
    table("A surface in use: 1000 grit, 12 games", USE_ROWS, COUNT(USE_ROWS), FRESH, used_surface);
    table("Wear, after 60 deliveries of the ball itself on the line", WEAR_ROWS, COUNT(WEAR_ROWS),
          WORN_BY_ITSELF, NULL);
    table("Wear, after 60 deliveries of the slot 2 urethane on the line", HARD_ROWS,
          COUNT(HARD_ROWS), WORN_BY_URETHANE, NULL);
    return 0;
}
