/* event_form.h - the fields of a new event on the screen. */
#ifndef SETTEE_UI_FORM_EVENT_FORM_H
#define SETTEE_UI_FORM_EVENT_FORM_H

#include "core/event/session.h"
#include "ui/form/form.h"

enum {
    EVENT_NAME,
    EVENT_DATE,
    EVENT_PATTERN,
    EVENT_LENGTH, /* of oil that nobody has a sheet of */
    EVENT_VOLUME,
    EVENT_BAG,
    EVENT_LANES,
    EVENT_MOVE,
    EVENT_GAMES,
    EVENT_WARM_UP,
    EVENT_BOWLERS,
    EVENT_RIGHT,
    EVENT_LEFT,
    EVENT_TWO_HANDED,
    EVENT_URETHANE,
    EVENT_SCORED,
    EVENT_ROWS
};

/* Of an EventInfo; pattern and bag are names, chosen from their lists. */
extern const FormKind EVENT_FORM;

#endif
