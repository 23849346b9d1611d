/* eyes_field.c - see eyes_field.h. */
#include "eyes_field.h"

#include <math.h>
#include <string.h>

#define LEVEL_STEP 0.25 /* of log volume; the middle level is 0 */

/* One field of people on one film. */
static void look(EyesField *field, const EyesField *before, Others *others, const Oil *film, int f,
                 int level)
{
    for (int who = 0; who < others->count; who++)
        if (before) {
            others->who[who].laydown = before->who[f][level][who].laydown;
            others->who[who].aim = before->who[f][level][who].aim;
            others->who[who].settled = true;
        }
    others_seek(others, film);
    for (int who = 0; who < others->count; who++) {
        field->who[f][level][who].cover = others->who[who].ball.cover;
        field->who[f][level][who].laydown = others->who[who].laydown;
        field->who[f][level][who].aim = others->who[who].aim;
        for (int i = 0; i < EYES_THROWS; i++)
            others_track(others, film, who, &field->who[f][level][who].track[i]);
    }
}

void eyes_field(EyesField *field, const EyesField *before, const FieldMix *mix, int count,
                Hand hand, const Oil *film, uint64_t seed)
{
    static Others drawn, others; /* one block a process */
    field->count = count;
    for (int f = 0; count > 0 && f < EYES_FIELDS; f++) {
        others_begin(&drawn, mix, count, hand, seed + (uint64_t)f, 0);
        for (int b = 0; b < LANE_BOARDS; b++) /* each particle has a grain of its own */
            drawn.grain.share[b] = 1.0f;
        for (int level = 0; level < EYES_LEVELS; level++) {
            Oil scaled = *film;
            oil_scale(&scaled, exp(LEVEL_STEP * (level - EYES_LEVELS / 2)));
            others = drawn;
            look(field, before, &others, &scaled, f, level);
        }
    }
}

const Track *eyes_track(const EyesField *field, int one, int who, double log_volume, double u,
                        double v)
{
    double at = log_volume / LEVEL_STEP + EYES_LEVELS / 2;
    at = fmax(0.0, fmin(at, EYES_LEVELS - 1.0));
    int level = (int)at;
    level += u < at - level; /* between two levels: either, by how near it is */
    return &field->who[one][level][who].track[(int)(v * EYES_THROWS)];
}
