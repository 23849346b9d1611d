/* caution.c - names and sentences. */
#include "core/advice/caution.h"

const char *const CAUTION_NAMES[CAUTION_COUNT + 1] = {"",        "loft",   "speed",    "hand",
                                                      "surface", "junior", "approach", 0};

const char *const CAUTION_WORDS[CAUTION_COUNT] = {
    "",
    "Loft: ask what the house allows; a lofted ball can hurt the lane and a back.",
    "Speed from the legs, not the arm; stop at any pain in wrist, elbow, knee or back.",
    "Never force the wrist; stop at pain and ask a certified coach or a physician.",
    "Surface: only when the event's rules allow it; mind the dust; a pro shop does it best.",
    "A junior's ball must be light enough to swing freely; ask a certified coach or pro shop.",
    "Dry your shoes and the approach first: oil or water there can throw you."};
