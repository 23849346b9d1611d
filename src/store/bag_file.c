/* bag_file.c - settee-bag/1: a bowler and their balls. Ranges are those of core/bag/ball.h and
 * core/bag/bag.h; what is left out keeps bowler_default and ball_default. */
#include <string.h>

#include "core/bag/preset.h"
#include "store/load.h"

#define SCATTER_LAUNCH_MAX_DEG 3.0 /* assumed maxima: beyond them nobody hits an arrow */
#define SCATTER_MPH_MAX 5.0
#define SCATTER_RPM_MAX 100.0
#define SCATTER_LAYDOWN_MAX_BOARDS 10.0

static const JsonField ROOT_FIELDS[] = {{"format", JSON_OTHER, .required = true},
                                        {"bowler", JSON_OTHER, .required = true},
                                        {"balls", JSON_OTHER, .required = true},
                                        JSON_END};

static const JsonField BOWLER_FIELDS[] = {
    {"name", JSON_TEXT, .required = true, JSON_AT(Bowler, name)},
    {"hand", JSON_WORD, JSON_AT(Bowler, hand), .of = "hand", .words = HAND_NAMES},
    {"style", JSON_WORD, JSON_AT(Bowler, style), .of = "style", .words = STYLE_NAMES},
    {"mph", JSON_RANGE(Bowler, mph, BOWLER_MPH_LOW, BOWLER_MPH_HIGH, "mph")},
    {"rpm", JSON_RANGE(Bowler, rpm, BOWLER_RPM_LOW, BOWLER_RPM_HIGH, "rpm")},
    {"rotation_deg", JSON_RANGE(Bowler, rotation_deg, 0, BOWLER_ROTATION_HIGH_DEG, "degrees")},
    {.key = "rotation_range_deg"},
    {"tilt_deg", JSON_RANGE(Bowler, tilt_deg, 0, BOWLER_TILT_HIGH_DEG, "degrees")},
    {"loft_ft", JSON_RANGE(Bowler, loft_ft, 0, BOWLER_LOFT_HIGH_FT, "feet")},
    {"laydown_offset_boards", JSON_RANGE(Bowler, laydown_offset_boards, BOWLER_OFFSET_LOW_BOARDS,
                                         BOWLER_OFFSET_HIGH_BOARDS, "boards")},
    {.key = "scatter"},
    {.key = "spare_release"},
    {.key = "from"},
    {.key = "before"},
    JSON_END};

#define FROM(key, member)                                                                          \
    {                                                                                              \
        key, JSON_WORD, JSON_AT(BowlerFrom, member), .of = "source", .words = SOURCE_NAMES         \
    }
static const JsonField FROM_FIELDS[] = {
    {"level", JSON_WORD, JSON_AT(BowlerFrom, level), .of = "level", .words = LEVEL_NAMES},
    {"style", JSON_WORD, JSON_AT(BowlerFrom, style), .of = "style", .words = PLAY_NAMES},
    FROM("mph", mph),
    FROM("rpm", rpm),
    FROM("rotation_deg", rotation),
    FROM("tilt_deg", tilt),
    FROM("loft_ft", loft),
    FROM("laydown_offset_boards", laydown_offset),
    FROM("scatter", scatter),
    JSON_END};

static const JsonField BEFORE_FIELDS[] = {
    {"mph", JSON_RANGE(BowlerBefore, mph, BOWLER_MPH_LOW, BOWLER_MPH_HIGH, "mph")},
    {"mph_from", JSON_WORD, JSON_AT(BowlerBefore, mph_from), .of = "source", .words = SOURCE_NAMES},
    {.key = "scatter"},
    {"scatter_from", JSON_WORD, JSON_AT(BowlerBefore, scatter_from), .of = "source",
     .words = SOURCE_NAMES},
    JSON_END};

static const JsonField SPARE_RELEASE_FIELDS[] = {
    {"mph", JSON_RANGE(SpareRelease, mph, BOWLER_MPH_LOW, BOWLER_MPH_HIGH, "mph")},
    {"rpm", JSON_RANGE(SpareRelease, rpm, 0, BOWLER_RPM_HIGH, "rpm")},
    {"rotation_deg",
     JSON_RANGE(SpareRelease, rotation_deg, 0, BOWLER_ROTATION_HIGH_DEG, "degrees")},
    {"tilt_deg", JSON_RANGE(SpareRelease, tilt_deg, 0, BOWLER_TILT_HIGH_DEG, "degrees")},
    JSON_END};

static const JsonField SCATTER_FIELDS[] = {
    {"launch_deg", JSON_RANGE(Scatter, launch_deg, 0, SCATTER_LAUNCH_MAX_DEG, "degrees")},
    {"mph", JSON_RANGE(Scatter, mph, 0, SCATTER_MPH_MAX, "mph")},
    {"rpm", JSON_RANGE(Scatter, rpm, 0, SCATTER_RPM_MAX, "rpm")},
    {"laydown_boards",
     JSON_RANGE(Scatter, laydown_boards, 0, SCATTER_LAYDOWN_MAX_BOARDS, "boards")},
    JSON_END};

bool surface_parse(const Json *value, Surface *surface)
{
    Json grit, finish;
    Surface read = {.finish = FINISH_GRIT};
    if (!json_object(value, SURFACE_FIELDS, &read))
        return false;
    bool has_grit = json_member(value, "grit", &grit);
    bool has_finish = json_member(value, "finish", &finish);
    if (has_grit && has_finish)
        return json_fail(value, "found both \"grit\" and \"finish\"; allowed: one of them");
    if (!has_grit && !has_finish)
        return json_fail(value, "found neither \"grit\" nor \"finish\"; one of them must be there");
    *surface = read;
    return true;
}

static bool ball_parse(const Json *value, Ball *ball)
{
    char found[64];
    Json child;
    *ball = ball_default();
    if (!json_object(value, BALL_FIELDS, ball))
        return false;
    ball->surface = ball_usual_surface(ball->cover);
    ball->surface_usual = !json_member(value, "surface", &child);
    if (!ball->surface_usual && !surface_parse(&child, &ball->surface))
        return false;
    if (json_member(value, "layout", &child) && !json_object(&child, LAYOUT_FIELDS, ball))
        return false;
    Error why = {0};
    if (json_member(value, "intermediate_in", &child) &&
        !ball_sound(ball, json_found(&child, found), &why))
        return json_fail(&child, "%s", why.text);
    return true;
}

/* Compares a ball with those before it: no id twice, no slot twice. */
static bool ball_fits(const Json *value, const Bag *bag, const Ball *ball)
{
    Json child;
    for (int i = 0; i < bag->count; i++) {
        const Ball *other = &bag->balls[i];
        if (strcmp(other->id, ball->id) == 0 && json_member(value, "id", &child))
            return json_fail(&child, "found the id \"%s\" a second time; $.balls[%d] has it",
                             ball->id, i);
        if (ball->slot > 0 && other->slot == ball->slot && json_member(value, "slot", &child))
            return json_fail(&child, "found \"%s\" in slot %d, where \"%s\" is; one ball a slot",
                             ball->id, ball->slot, other->id);
    }
    return true;
}

/* The rotations that the bowler can release at; their usual one is among them. */
static bool rotations_parse(const Json *value, Bowler *bowler)
{
    const JsonField degrees = {
        .kind = JSON_NUMBER, .max = BOWLER_ROTATION_HIGH_DEG, .of = "degrees"};
    Json range;
    if (!json_member(value, "rotation_range_deg", &range))
        return true;
    double *least = &bowler->rotation_least_deg, *most = &bowler->rotation_most_deg;
    if (!json_pair(value, "rotation_range_deg", &degrees, least, most))
        return false;
    if (*least > *most)
        return json_fail(&range, "found %.10g to %.10g degrees; allowed: the smaller first", *least,
                         *most);
    if (bowler->rotation_deg < *least || bowler->rotation_deg > *most)
        return json_fail(&range,
                         "found %.10g to %.10g degrees; allowed: a range with rotation_deg, %.10g, "
                         "in it",
                         *least, *most, bowler->rotation_deg);
    return true;
}

/* What it leaves out stays as is usual for this bowler. */
static bool spare_release_parse(const Json *value, Bowler *bowler)
{
    Json release;
    if (!json_member(value, "spare_release", &release))
        return true;
    SpareRelease said = bowler_spare_release(bowler);
    said.said = true;
    bool ok = json_object(&release, SPARE_RELEASE_FIELDS, &said);
    bowler->spare_release = said;
    return ok;
}

/* What stood where something was learnt. */
static bool before_parse(const Json *value, Bowler *bowler)
{
    Json before, scatter;
    BowlerBefore *stood = &bowler->before;
    if (!json_member(value, "before", &before))
        return true;
    if (!json_object(&before, BEFORE_FIELDS, stood))
        return false;
    stood->has_scatter = json_member(&before, "scatter", &scatter);
    stood->scatter = bowler_default().scatter;
    if (!stood->has_scatter)
        stood->scatter = (Scatter){0};
    return !stood->has_scatter || json_object(&scatter, SCATTER_FIELDS, &stood->scatter);
}

static bool bowler_parse(const Json *value, Bowler *bowler)
{
    Json scatter, from;
    *bowler = bowler_default();
    return json_object(value, BOWLER_FIELDS, bowler) && rotations_parse(value, bowler) &&
           spare_release_parse(value, bowler) &&
           (!json_member(value, "scatter", &scatter) ||
            json_object(&scatter, SCATTER_FIELDS, &bowler->scatter)) &&
           (!json_member(value, "from", &from) || json_object(&from, FROM_FIELDS, &bowler->from)) &&
           before_parse(value, bowler);
}

bool bag_parse(const Json *root, Bag *bag)
{
    Json child, item;
    *bag = (Bag){0};
    if (!json_format(root, "settee-bag/1") || !json_object(root, ROOT_FIELDS, NULL))
        return false;
    if (!json_member(root, "bowler", &child) || !bowler_parse(&child, &bag->bowler))
        return false;
    if (!json_member(root, "balls", &child) || json_count(&child, 1, BAG_BALLS_MAX, "balls") < 0)
        return false;
    for (bool more = json_first(&child, &item); more; more = json_next(&item)) {
        Ball ball;
        if (!ball_parse(&item, &ball) || !ball_fits(&item, bag, &ball))
            return false;
        bag->balls[bag->count++] = ball;
    }
    return true;
}
