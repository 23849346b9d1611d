/* eyes_field.h - tracks of the other bowlers, drawn once for all particles. */
#ifndef SETTEE_TESTS_BENCH_EYES_FIELD_H
#define SETTEE_TESTS_BENCH_EYES_FIELD_H

#include "core/line/others.h"

enum { EYES_FIELDS = 48, EYES_LEVELS = 5, EYES_THROWS = 5 };

/* The others on one lane in one game: who they may be, on films of several volumes. */
typedef struct EyesField {
    int count; /* of others */
    struct {
        Cover cover;
        double laydown, aim;
        Track track[EYES_THROWS];
    } who[EYES_FIELDS][EYES_LEVELS][OTHERS_MAX];
} EyesField;

/* The lines of a game on `film` of usual volume. `before`: of the game before; NULL: the first. */
void eyes_field(EyesField *field, const EyesField *before, const FieldMix *mix, int count,
                Hand hand, const Oil *film, uint64_t seed);

/* The track of the `who`th of a field's throw on a film of that log volume; `u`, `v`: two
 * uniforms. */
const Track *eyes_track(const EyesField *field, int one, int who, double log_volume, double u,
                        double v);

#endif
