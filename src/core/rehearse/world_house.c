/* world_house.c - the sheet is wrong: the oil ends two feet before or past what it says, and there
 * is a third more or less of it (assumed). */
#include "core/rehearse/world.h"

#define WRONG_FT 2.0
#define WRONG_VOLUME (1.0 / 3.0)

static void draw(Truth *truth, const Oil *sheet, Rng *rng)
{
    Oil really;
    double feet = rng_uniform(rng) < 0.5 ? -WRONG_FT : WRONG_FT;
    double volume = 1.0 + (rng_uniform(rng) < 0.5 ? -WRONG_VOLUME : WRONG_VOLUME);
    world_stretch(sheet, (sheet->length_ft + feet) / sheet->length_ft, &really);
    really.length_ft = sheet->length_ft + feet;
    oil_scale(&really, volume * sheet->length_ft / really.length_ft);
    world_draw(truth, &really, &WORLD_SPREADS, rng);
}

const World WORLD_HOUSE = {.name = "house",
                           .sentence =
                               "the sheet is wrong by two feet in length and by a third in volume",
                           .senses = &WORLD_SENSES,
                           .every = 1,
                           .draw = draw,
                           .roll = world_roll,
                           .arrive = world_arrive,
                           .aim = world_aim,
                           .wear = world_wear};
