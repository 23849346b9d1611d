/* rehearse_choices.h - what is chosen before a rehearsal: fields, their words, and the page. Pure.
 */
#ifndef SETTEE_UI_REHEARSE_REHEARSE_CHOICES_H
#define SETTEE_UI_REHEARSE_REHEARSE_CHOICES_H

#include <stdbool.h>

#include "core/rehearse/seed.h"
#include "ui/draw/canvas.h"
#include "ui/draw/glyphs.h"
#include "ui/rehearse/rehearse_keys.h"
#include "ui/ui_rehearse.h"

typedef enum ChoiceRow {
    CHOICE_BAG,
    CHOICE_PATTERN,
    CHOICE_GAMES,
    CHOICE_BOWLERS,
    CHOICE_PRACTICE,
    CHOICE_WORLD,
    CHOICE_ARM,
    CHOICE_BALL,
    CHOICE_SEED,
    CHOICE_ROWS
} ChoiceRow;

typedef struct Choices {
    ChoiceRow row;
    int bag, pattern; /* of the host's names; pattern -1: "surprise me" */
    int games, bowlers, practice, world;
    bool steady, still; /* no scatter; the ball is not shown rolling */
    uint64_t seed;
    bool typing; /* the block's words, so far: */
    char typed[SEED_TEXT_MAX];
} Choices;

Choices choices_begin(const UiRehearsal *host);
void choices_act(Choices *choices, const UiRehearsal *host, RehearseAct act);
/* A key while the words are typed; `message` receives why they are refused, or stays. */
void choices_type(Choices *choices, RehearseAct act, uint32_t key, char *message, size_t size);
void choices_draw(const Choices *choices, const UiRehearsal *host, const Glyphs *glyphs,
                  Canvas *canvas, const char *message);

/* The pattern's name; "surprise me" is the same for everybody who has the seed. */
const char *choices_pattern(const Choices *choices, const UiRehearsal *host);

#endif
