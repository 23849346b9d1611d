/* measure_form.c - the ways to measure a bowler's numbers, a small form each. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "core/motion/measure.h"
#include "ui/form/bowler_form.h"

enum { BY_STOPWATCH, BY_MONITOR_RELEASE, BY_MONITOR_PINS };
static const char *const SPEED_WORDS[] = {"stopwatch", "monitor, at release",
                                          "monitor, near the pins", NULL};

typedef struct Way {
    FormKind kind;
    FormRow rows[MEASURE_FIGURES];
    JsonField fields[MEASURE_FIGURES];
    double start[MEASURE_FIGURES];
    double (*result)(const Measure *measure);
    const char *words;
} Way;

#define FIGURE(i, low, high, unit)                                                                 \
    {                                                                                              \
        "figure", JSON_NUMBER, .offset = offsetof(Measure, figure) + (i) * sizeof(double),         \
                               .size = 8, .min = (low), .max = (high), .of = (unit)                \
    }

static double mph(const Measure *m)
{
    return m->how == BY_STOPWATCH      ? measure_mph_of_seconds(&m->bowler, m->figure[1])
           : m->how == BY_MONITOR_PINS ? measure_mph_of_pins(&m->bowler, m->figure[1])
                                       : m->figure[1];
}
static double rpm(const Measure *m)
{
    return measure_rpm(m->figure[0], m->figure[1], m->figure[2]);
}
static double rotation(const Measure *m) { return measure_rotation_deg(m->figure[0]); }
static double tilt(const Measure *m) { return measure_tilt_deg(m->figure[0]); }
static double offset(const Measure *m) { return m->figure[0] - m->figure[1]; }
static double scatter(const Measure *m) { return measure_arrows_sd((int)m->figure[0], 10); }

static const Way WAYS[BOWLER_ROWS]; /* a row's form is of the row itself */
static const Way WAYS[BOWLER_ROWS] = {
    [BOWLER_MPH] =
        {{.rows = WAYS[BOWLER_MPH].rows, .count = 2, .fields = WAYS[BOWLER_MPH].fields},
         {{.name = "Read by", .unit = ""},
          {"Figure", "", .allowed = "seconds, or mph of the monitor"}},
         {{"how", JSON_WORD, JSON_AT(Measure, how), .of = "way", .words = SPEED_WORDS},
          FIGURE(1, 1, 40, "")},
         {0, 2.5},
         mph,
         "Stopwatch: from the moment the ball touches the lane to the head pin. Time five strike "
         "balls and take the middle one. A monitor: ask whether it reads as the ball leaves the "
         "hand or near the pins, where it is some 3 mph slower; the figure is turned into what "
         "left your hand."},
    [BOWLER_RPM] =
        {{.rows = WAYS[BOWLER_RPM].rows, .count = 3, .fields = WAYS[BOWLER_RPM].fields},
         {{.name = "Whole turns", .unit = ""},
          {.name = "Frames", .unit = ""},
          {.name = "Frames a second", .unit = ""}},
         {FIGURE(0, 0.5, 10, "turns"), FIGURE(1, 1, 2000, "frames"), FIGURE(2, 10, 1000, "")},
         {1, 48, 240},
         rpm,
         "Put a strip of white tape on the ball and film it from behind as it leaves your hand. "
         "Step through the video and count the frames for one whole turn of the tape, or for two "
         "or three. Slow motion (120 or 240 frames a second) makes it exact."},
    [BOWLER_ROTATION] =
        {{.rows = WAYS[BOWLER_ROTATION].rows, .count = 1, .fields = WAYS[BOWLER_ROTATION].fields},
         {{.name = "Hours", .unit = "from sideways"}},
         {FIGURE(0, 0, 3.5, "hours")},
         {1.5},
         rotation,
         "Mark your axis point with tape (a pro shop finds it). Film from above or behind as the "
         "ball leaves your hand and read the tape as a clock seen from above, pins at 12: pointing "
         "straight sideways is 0 hours, half way back toward you 1.5, straight back at you 3."},
    [BOWLER_TILT] =
        {{.rows = WAYS[BOWLER_TILT].rows, .count = 1, .fields = WAYS[BOWLER_TILT].fields},
         {{.name = "Ring across", .unit = "in"}},
         {FIGURE(0, 4, 8.6, "inches")},
         {8.4},
         tilt,
         "Throw one ball on fresh oil and look at the first ring of oil on it, the one nearest "
         "your thumb. Measure straight across the ball from one side of that ring to the other, "
         "as with a calliper. A ring as wide as the ball has no tilt."},
    [BOWLER_OFFSET] =
        {{.rows = WAYS[BOWLER_OFFSET].rows, .count = 2, .fields = WAYS[BOWLER_OFFSET].fields},
         {{.name = "Feet", .unit = "board of your slide shoe"},
          {.name = "Ball", .unit = "board it was laid down on"}},
         {FIGURE(0, 1, 50, "boards"), FIGURE(1, 1, 39, "boards")},
         {25, 19},
         offset,
         "Boards count from your own side. Have somebody watch the foul line: the board under the "
         "inside of your slide shoe where you stood at the start, and the board the middle of the "
         "ball was laid down on. Walk as you always do."},
    [BOWLER_SCATTER] =
        {{.rows = WAYS[BOWLER_SCATTER].rows, .count = 1, .fields = WAYS[BOWLER_SCATTER].fields},
         {{.name = "Of ten balls", .unit = "crossed within a board"}},
         {FIGURE(0, 0, 10, "balls")},
         {7},
         scatter,
         "Throw ten balls at one arrow with somebody watching. How many crossed within a board of "
         "it, left or right? Ten are few: take it again another day."},
};
const FormKind *measure_form(int row) { return WAYS[row].result ? &WAYS[row].kind : NULL; }
const char *measure_words(int row) { return WAYS[row].words; }

Measure measure_start(const Bowler *bowler, int row)
{
    Measure measure = {.row = row, .bowler = *bowler};
    memcpy(measure.figure, WAYS[row].start, sizeof measure.figure);
    return measure;
}

double measure_result(const Measure *measure) { return WAYS[measure->row].result(measure); }

bool measure_take(const Measure *measure, Bowler *bowler, Error *error)
{
    char typed[32] = "";
    double result = measure_result(measure);
    bool fine = measure->row == BOWLER_MPH || measure->row == BOWLER_SCATTER;
    text_append(typed, sizeof typed, "%.10g",
                fine ? round(10.0 * result) / 10.0 : round(result)); /* nobody reads it closer */
    return BOWLER_FORM.put(bowler, measure->row, typed, error) &&
           bowler_form_source(bowler, measure->row, SOURCE_MEASURED);
}
