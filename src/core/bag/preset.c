/* preset.c - the tables of usual bowlers and balls. */
#include "core/bag/preset.h"

#include <string.h>

#include "base/text.h"

#define STRIKE_BALLS "strong-solid,hybrid,weak-pearl,spare"
const LevelPreset LEVEL_PRESETS[] = {
    {"junior",
     "a child or beginner with a light ball",
     13.0,
     0.6,
     10.0,
     {0.45, 0.6, 20.0, 0.8},
     "spare",
     "straight"},
    {"senior",
     "steady, but slower than before",
     15.0,
     0.8,
     14.0,
     {0.25, 0.4, 12.0, 0.5},
     STRIKE_BALLS,
     "stroker"},
    {"league",
     "once or twice a week",
     16.5,
     0.9,
     15.0,
     {0.30, 0.4, 15.0, 0.5},
     STRIKE_BALLS,
     "tweener"},
    {"tournament",
     "bowls events on sport patterns",
     18.0,
     1.0,
     15.0,
     {0.15, 0.2, 8.0, 0.3},
     "strong-asymmetric,strong-solid,hybrid,pearl,weak-pearl,spare",
     "tweener"},
    {.name = NULL}};

const StylePreset STYLE_PRESETS[] = {
    {"straight", "little side spin: it hardly hooks", STYLE_ONE_HANDED, 150.0, 10.0, 15.0},
    {"stroker", "smooth, fewer revs", STYLE_ONE_HANDED, 260.0, 45.0, 14.0},
    {"tweener", "between the two", STYLE_ONE_HANDED, 340.0, 50.0, 12.0},
    {"cranker", "many revs with one hand", STYLE_ONE_HANDED, 430.0, 60.0, 14.0},
    {"two-handed", "both hands on the ball, many revs", STYLE_TWO_HANDED, 460.0, 45.0, 8.0},
    {"no-thumb", "one hand without the thumb", STYLE_NO_THUMB, 420.0, 45.0, 8.0},
    {.name = NULL}};

const BallPreset BALL_PRESETS[] = {
    {"strong-asymmetric", "the most hook, for heavy oil", 2.48, 0.052, 0.018, COVER_SOLID},
    {"strong-solid", "much hook, smooth, for heavy oil", 2.49, 0.050, 0.0, COVER_SOLID},
    {"benchmark", "the one to begin with: even and easy to read", 2.51, 0.042, 0.0, COVER_SOLID},
    {"hybrid", "between solid and pearl", 2.52, 0.046, 0.0, COVER_HYBRID},
    {"asymmetric-pearl", "late and sharp, for lanes that begin to dry", 2.50, 0.050, 0.015,
     COVER_PEARL},
    {"pearl", "late, for lanes that begin to dry", 2.53, 0.044, 0.0, COVER_PEARL},
    {"weak-pearl", "late and gentle, for dry lanes", 2.57, 0.032, 0.0, COVER_PEARL},
    {"urethane", "early and smooth, for short or dry patterns", 2.60, 0.018, 0.0, COVER_URETHANE},
    {"spare", "polyester: goes straight, for spares and dry lanes", 2.68, 0.008, 0.0,
     COVER_POLYESTER},
    {.name = NULL}};

const char *const LEVEL_NAMES[] = {"", "junior", "senior", "league", "tournament", NULL};
const char *const PLAY_NAMES[] = {"",        "straight",   "stroker",  "tweener",
                                  "cranker", "two-handed", "no-thumb", NULL};
const char *const BALL_KIND_NAMES[] = {
    "",      "strong-asymmetric", "strong-solid", "benchmark", "hybrid", "asymmetric-pearl",
    "pearl", "weak-pearl",        "urethane",     "spare",     NULL};

const LevelPreset *preset_level(const char *name)
{
    for (const LevelPreset *row = LEVEL_PRESETS; row->name; row++)
        if (strcmp(row->name, name) == 0)
            return row;
    return NULL;
}

const StylePreset *preset_style(const char *name)
{
    for (const StylePreset *row = STYLE_PRESETS; row->name; row++)
        if (strcmp(row->name, name) == 0)
            return row;
    return NULL;
}

const BallPreset *preset_ball(const char *name)
{
    if (strcmp(name, "plastic") == 0 || strcmp(name, "polyester") == 0)
        name = "spare";
    for (const BallPreset *row = BALL_PRESETS; row->name; row++)
        if (strcmp(row->name, name) == 0)
            return row;
    return NULL;
}

Bowler preset_bowler(const LevelPreset *level, const StylePreset *style, Hand hand)
{
    Bowler bowler = bowler_default();
    bowler.hand = hand;
    bowler.style = style->style;
    bowler.mph = level->mph;
    bowler.rpm = level->revs * style->rpm;
    bowler.rotation_deg = style->rotation_deg;
    bowler.tilt_deg = style->tilt_deg;
    bowler.scatter = level->scatter;
    bowler.from = (BowlerFrom){.level = 1 + (int)(level - LEVEL_PRESETS),
                               .style = 1 + (int)(style - STYLE_PRESETS),
                               .mph = SOURCE_PRESET,
                               .rpm = SOURCE_PRESET,
                               .rotation = SOURCE_PRESET,
                               .tilt = SOURCE_PRESET,
                               .loft = SOURCE_PRESET,
                               .laydown_offset = SOURCE_PRESET,
                               .scatter = SOURCE_PRESET};
    return bowler;
}

static void check(Source *source, bool same)
{
    if (*source == SOURCE_PRESET && !same)
        *source = SOURCE_SAID;
}

void preset_check(Bowler *bowler)
{
    BowlerFrom *from = &bowler->from;
    if (from->level == 0 || from->style == 0)
        return;
    Bowler usual = preset_bowler(&LEVEL_PRESETS[from->level - 1], &STYLE_PRESETS[from->style - 1],
                                 bowler->hand);
    check(&from->mph, bowler->mph == usual.mph);
    check(&from->rpm, bowler->rpm == usual.rpm);
    check(&from->rotation, bowler->rotation_deg == usual.rotation_deg);
    check(&from->tilt, bowler->tilt_deg == usual.tilt_deg);
    check(&from->loft, bowler->loft_ft == usual.loft_ft);
    check(&from->laydown_offset, bowler->laydown_offset_boards == usual.laydown_offset_boards);
}

/* "weak-pearl" as a name: "Weak pearl"; with a number from the second of a kind on. */
static void name_ball(const Bag *bag, const BallPreset *kind, Ball *ball)
{
    int nth = 1;
    text_copy(ball->id, sizeof ball->id, kind->name);
    while (bag_find(bag, ball->id)) {
        text_copy(ball->id, sizeof ball->id, kind->name);
        text_append(ball->id, sizeof ball->id, "-%d", ++nth);
    }
    text_copy(ball->name, sizeof ball->name, kind->name);
    for (char *at = ball->name; *at; at++)
        *at = *at == '-' ? ' ' : *at;
    ball->name[0] = (char)(ball->name[0] - 'a' + 'A');
    if (nth > 1)
        text_append(ball->name, sizeof ball->name, " %d", nth);
}

Ball preset_ball_for(const Bag *bag, const BallPreset *kind, double pounds)
{
    Ball ball = ball_default();
    ball.kind = 1 + (int)(kind - BALL_PRESETS);
    ball.pounds = pounds;
    ball.rg_in = kind->rg_in;
    ball.differential_in = kind->differential_in;
    ball.intermediate_in = kind->intermediate_in;
    ball.cover = kind->cover;
    ball.surface = ball_usual_surface(kind->cover);
    ball.surface_usual = true;
    ball.slot = 0;
    for (int slot = BAG_SLOTS; slot >= 1; slot--)
        ball.slot = bag_slot(bag, slot) ? ball.slot : slot;
    name_ball(bag, kind, &ball);
    return ball;
}

bool preset_balls(const char *kinds, double pounds, Bag *bag, Error *error)
{
    bag->count = 0;
    for (const char *at = kinds;; at++) {
        char word[40] = "";
        size_t length = 0;
        while (at[length] && at[length] != ',' && at[length] != ' ')
            length++;
        text_append(word, sizeof word, "%.*s", (int)(length < 39 ? length : 39), at);
        at += length;
        if (word[0]) {
            const BallPreset *kind = preset_ball(word);
            if (!kind) {
                const char *names[24];
                int count = 0;
                for (const BallPreset *row = BALL_PRESETS; row->name; row++)
                    names[count++] = row->name;
                names[count] = NULL;
                const char *near = text_nearest(word, names);
                return error_set(error, "no kind of ball '%s'; did you mean '%s'?", word,
                                 near ? near : names[0]);
            }
            if (bag->count == BAG_BALLS_MAX)
                return error_set(error, "found more than %d balls", BAG_BALLS_MAX);
            bag->balls[bag->count] = preset_ball_for(bag, kind, pounds);
            bag->count++;
        }
        if (!*at)
            break;
    }
    return bag->count > 0 || error_set(error, "found no ball; allowed: kinds such as spare");
}
