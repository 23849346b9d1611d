/* event_stage.h - an event as a stage: for who runs it, or has it inside a stage of its own. */
#ifndef SETTEE_UI_EVENT_STAGE_H
#define SETTEE_UI_EVENT_STAGE_H

#include "ui/model.h"
#include "ui/ui.h"

/* What a rehearsal's keys asked for; each is told once. */
typedef struct EventAsks {
    bool bowl, land;
} EventAsks;

/* Heap, owned by the caller; NULL: there is no memory for it. The host must outlive it. Its first
 * member is a Stage. */
Stage *event_stage_new(UiHost *host);
void event_stage_free(Stage *stage);

const Model *event_stage_model(const Stage *stage);
void event_stage_send(Stage *stage, Msg msg);
EventAsks event_stage_asks(Stage *stage);

#endif
