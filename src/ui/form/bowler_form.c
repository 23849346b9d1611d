/* bowler_form.c - a bowler's fields on the screen, and where each value came from. */
#include "ui/form/bowler_form.h"

#include <string.h>

#include "base/text.h"
#include "core/bag/preset.h"
#include "core/bag/taken.h"
#include "core/motion/measure.h"

#define SCATTER_LOW 0.1 /* boards at the arrows */
#define SCATTER_HIGH 6.0

static const FormRow ROWS[BOWLER_ROWS] = {
    [BOWLER_NAME] = {.name = "Name", .unit = ""},
    [BOWLER_HAND] = {.name = "Hand", .unit = ""},
    [BOWLER_LEVEL] = {"Level", "", .caution = CAUTION_JUNIOR},
    [BOWLER_PLAY] = {.name = "Style", .unit = ""},
    [BOWLER_MPH] = {.name = "Speed", .unit = "mph at release"},
    [BOWLER_RPM] = {.name = "Revs", .unit = "turns a minute"},
    [BOWLER_ROTATION] = {.name = "Axis rotation", .unit = "deg"},
    [BOWLER_TILT] = {.name = "Axis tilt", .unit = "deg"},
    [BOWLER_OFFSET] = {.name = "Feet to ball", .unit = "boards"},
    [BOWLER_SCATTER] = {.name = "Scatter", .unit = "boards at the arrows"},
    [BOWLER_SPARES] = {.name = "Spare release", .unit = ""},
};

/* Of the spare release: bowler_spare_release, or as at a strike. */
static const char *const SPARE_WORDS[] = {"flat wrist", "as for strikes", NULL};

static const JsonField FIELDS[BOWLER_ROWS] = {
    [BOWLER_NAME] = {"name", JSON_TEXT, .required = true, JSON_AT(Bowler, name)},
    [BOWLER_HAND] = {"hand", JSON_WORD, JSON_AT(Bowler, hand), .of = "hand", .words = HAND_NAMES},
    [BOWLER_LEVEL] = {"level", JSON_WORD, JSON_AT(Bowler, from.level), .of = "level",
                      .words = LEVEL_NAMES},
    [BOWLER_PLAY] = {"style", JSON_WORD, JSON_AT(Bowler, from.style), .of = "style",
                     .words = PLAY_NAMES},
    [BOWLER_MPH] = {"mph", JSON_RANGE(Bowler, mph, BOWLER_MPH_LOW, BOWLER_MPH_HIGH, "mph")},
    [BOWLER_RPM] = {"rpm", JSON_RANGE(Bowler, rpm, BOWLER_RPM_LOW, BOWLER_RPM_HIGH, "rpm")},
    [BOWLER_ROTATION] = {"rotation_deg",
                         JSON_RANGE(Bowler, rotation_deg, 0, BOWLER_ROTATION_HIGH_DEG, "degrees")},
    [BOWLER_TILT] = {"tilt_deg", JSON_RANGE(Bowler, tilt_deg, 0, BOWLER_TILT_HIGH_DEG, "degrees")},
    [BOWLER_OFFSET] = {"laydown_offset_boards",
                       JSON_RANGE(Bowler, laydown_offset_boards, BOWLER_OFFSET_LOW_BOARDS,
                                  BOWLER_OFFSET_HIGH_BOARDS, "boards")},
    [BOWLER_SCATTER] = {"scatter", JSON_NUMBER, .size = 8, .min = SCATTER_LOW, .max = SCATTER_HIGH,
                        .of = "boards"},
    [BOWLER_SPARES] = {"spare_release", JSON_WORD, JSON_AT(Bowler, spare_release.said),
                       .of = "spare release", .words = SPARE_WORDS},
};

static void show(const void *subject, int row, char *out, size_t size)
{
    const Bowler *bowler = subject;
    out[0] = '\0';
    if (row == BOWLER_SCATTER)
        text_append(out, size, "%.2g", measure_scatter_at_arrows(&bowler->scatter));
    else
        json_field_show(&FIELDS[row], bowler, out, size);
}

static Source *source_of(Bowler *bowler, int row)
{
    BowlerFrom *from = &bowler->from;
    switch (row) {
    case BOWLER_MPH:
        return &from->mph;
    case BOWLER_RPM:
        return &from->rpm;
    case BOWLER_ROTATION:
        return &from->rotation;
    case BOWLER_TILT:
        return &from->tilt;
    case BOWLER_OFFSET:
        return &from->laydown_offset;
    case BOWLER_SCATTER:
        return &from->scatter;
    default:
        return NULL;
    }
}

/* What is usual for the level and style, by name; a bag that doesn't say has a league bowler's. */
static Bowler usual_for(const Bowler *bowler)
{
    const LevelPreset *level = preset_level(LEVEL_NAMES[bowler->from.level]);
    const StylePreset *play = preset_style(PLAY_NAMES[bowler->from.style]);
    level = level ? level : preset_level("league");
    return preset_bowler(level, play ? play : preset_style(level->style), bowler->hand);
}

static void take_usual(Bowler *bowler, const Bowler *usual, int row)
{
    switch (row) {
    case BOWLER_MPH:
        bowler->mph = usual->mph;
        break;
    case BOWLER_RPM:
        bowler->rpm = usual->rpm;
        break;
    case BOWLER_ROTATION:
        bowler->rotation_deg = usual->rotation_deg;
        break;
    case BOWLER_TILT:
        bowler->tilt_deg = usual->tilt_deg;
        break;
    case BOWLER_OFFSET:
        bowler->laydown_offset_boards = usual->laydown_offset_boards;
        break;
    case BOWLER_SCATTER:
        bowler->scatter = usual->scatter;
        break;
    default:
        break;
    }
}

/* The rotations that can be used must have the usual one among them. */
static void widen_rotations(Bowler *bowler)
{
    if (!bowler_turns(bowler))
        return;
    if (bowler->rotation_deg < bowler->rotation_least_deg)
        bowler->rotation_least_deg = bowler->rotation_deg;
    if (bowler->rotation_deg > bowler->rotation_most_deg)
        bowler->rotation_most_deg = bowler->rotation_deg;
}

/* After a change of level or style. */
static void settle(Bowler *bowler)
{
    Bowler usual = usual_for(bowler);
    bowler->from.level = usual.from.level;
    bowler->from.style = usual.from.style;
    bowler->style = usual.style;
    for (int row = BOWLER_MPH; row <= BOWLER_SCATTER; row++)
        if (*source_of(bowler, row) == SOURCE_PRESET)
            take_usual(bowler, &usual, row);
    widen_rotations(bowler);
}

static bool put_spares(Bowler *bowler, const char *word, Error *error)
{
    Bowler changed = *bowler;
    if (!json_field_word(&FIELDS[BOWLER_SPARES], word, word, &changed, error))
        return false;
    if (changed.spare_release.said != bowler->spare_release.said)
        bowler->spare_release = (SpareRelease){.said = changed.spare_release.said,
                                               .mph = bowler->mph,
                                               .rpm = bowler->rpm,
                                               .rotation_deg = bowler->rotation_deg,
                                               .tilt_deg = bowler->tilt_deg};
    return true;
}

static bool put(void *subject, int row, const char *typed, Error *error)
{
    Bowler *bowler = subject;
    Error why = {0};
    double boards;
    if (row == BOWLER_SPARES)
        return put_spares(bowler, typed, error);
    bool done = row == BOWLER_SCATTER ? json_field_typed(&(JsonField){.kind = JSON_NUMBER,
                                                                      .size = sizeof boards,
                                                                      .min = SCATTER_LOW,
                                                                      .max = SCATTER_HIGH,
                                                                      .of = "boards"},
                                                         typed, &boards, &why)
                                      : json_field_typed(&FIELDS[row], typed, bowler, &why);
    if (!done)
        return error_set(error, "%s: %s", ROWS[row].name, why.text);
    if (row == BOWLER_SCATTER)
        bowler->scatter = measure_scatter_of(&bowler->scatter, boards);
    if (source_of(bowler, row))
        *source_of(bowler, row) = SOURCE_SAID;
    if (row == BOWLER_LEVEL || row == BOWLER_PLAY)
        settle(bowler);
    if (row == BOWLER_ROTATION)
        widen_rotations(bowler);
    return true;
}

static void note(const void *subject, int row, char *out, size_t size)
{
    Bowler bowler = *(const Bowler *)subject;
    const Source *source = source_of(&bowler, row);
    bool by_level = row == BOWLER_MPH || row == BOWLER_SCATTER;
    bool by_style = row == BOWLER_ROTATION || row == BOWLER_TILT;
    out[0] = '\0';
    if (row == BOWLER_MPH && bowler_form_taken(&bowler, row))
        text_append(out, size, "learnt from your events; was %.4g", bowler.before.mph);
    else if (row == BOWLER_SCATTER && bowler_form_taken(&bowler, row))
        text_append(out, size, "learnt from your events; was %.2g",
                    measure_scatter_at_arrows(&bowler.before.scatter));
    else if (row == BOWLER_LEVEL && bowler.from.level > 0)
        text_copy(out, size, LEVEL_PRESETS[bowler.from.level - 1].means);
    else if (row == BOWLER_PLAY && bowler.from.style > 0)
        text_copy(out, size, STYLE_PRESETS[bowler.from.style - 1].means);
    else if (source)
        text_copy(out, size,
                  *source == SOURCE_MEASURED ? "measured"
                  : *source == SOURCE_LEARNT ? "learnt from your events"
                  : *source == SOURCE_SAID   ? "yours"
                  : by_level                 ? "usual for the level"
                  : by_style                 ? "usual for the style"
                  : row == BOWLER_RPM        ? "usual for level and style"
                                             : "usual");
}

const FormKind BOWLER_FORM = {
    .rows = ROWS, .count = BOWLER_ROWS, .fields = FIELDS, .show = show, .put = put, .note = note};

bool bowler_form_taken(const Bowler *bowler, int row)
{
    return row == BOWLER_MPH       ? taken_from_bowler(bowler, LEARNT_MPH)
           : row == BOWLER_SCATTER ? taken_from_bowler(bowler, LEARNT_SCATTER)
                                   : false;
}

void bowler_form_back(Bowler *bowler, int row)
{
    if (bowler_form_taken(bowler, row))
        taken_back_bowler(bowler, row == BOWLER_MPH ? LEARNT_MPH : LEARNT_SCATTER);
}

bool bowler_form_source(Bowler *bowler, int row, Source source)
{
    if (source_of(bowler, row))
        *source_of(bowler, row) = source;
    return true;
}

Bowler bowler_form_start(void)
{
    const LevelPreset *level = preset_level("league");
    Bowler bowler = preset_bowler(level, preset_style(level->style), HAND_RIGHT);
    text_copy(bowler.name, sizeof bowler.name, "You");
    return bowler;
}

void bowler_form_unknown(Bowler *bowler, int row)
{
    Bowler usual = usual_for(bowler);
    Source *source = source_of(bowler, row);
    if (source) {
        *source = SOURCE_PRESET;
        take_usual(bowler, &usual, row);
        widen_rotations(bowler);
    } else if (row == BOWLER_LEVEL || row == BOWLER_PLAY) {
        *(row == BOWLER_LEVEL ? &bowler->from.level : &bowler->from.style) = 0;
        settle(bowler);
    } else if (row == BOWLER_SPARES) {
        bowler->spare_release = (SpareRelease){.said = 0};
    }
}
