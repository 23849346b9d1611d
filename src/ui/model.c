/* model.c - reading the model. */
#include "ui/model.h"

#include <stddef.h>

#include "ui/input/commands.h"

/* What makes an answer sure; all assumed, and explained on the help screen. */
#define KNOWN_SD                                                                                   \
    0.125 /* a lane is well known if its film estimate spreads no more, share of the sheet */
#define CLEAR_LEAD 0.02  /* of the score over the next answer's */
#define RULE_ASKS 0.4    /* with this vote or more the rules ask for an answer */
#define GAIN_SEEN 0.02   /* pocket chance a change must gain in the forecast */
#define HOLD_SPARES 0.05 /* pocket chance another answer may gain while holding is still right */

void model_init(Model *model, Session *session, const RuleSet *rules, const Theme *themes,
                int theme_count, const Glyphs *glyphs)
{
    *model = (Model){.session = session,
                     .rules = rules,
                     .themes = themes,
                     .theme_count = theme_count,
                     .glyphs = glyphs,
                     .keys = &COMMAND_TABLE,
                     .columns = SCREEN_COLUMNS_MIN,
                     .rows = SCREEN_ROWS_MIN,
                     .lane = session->lane,
                     .typing = {.index = -1},
                     .oil_ft = 25,
                     .revision = 1,
                     .asked = {1, 1, 1, 1, 1, 1}};
    Oil sheet;
    oil_lay(&session->pattern, &sheet);
    oil_for_hand(&sheet, session->bag.bowler.hand, &model->shown.film);
}

const SeenRow SEEN_ROWS[SEEN_COUNT] = {
    [SEEN_SPEED] = {"mph", "", " mph", SHOT_MPH_LOW, SHOT_MPH_HIGH,
                    "speed: 5 to 35 mph, or 0 if you did not see it"},
    [SEEN_ARROWS] = {"arrows", "over ", "", SHOT_BOARD_LOW, SHOT_BOARD_HIGH,
                     "arrows: board 1 to 39, or 0 if you did not see it"},
    [SEEN_BREAKPOINT] = {"breaks", "breakpoint ", "", SHOT_BOARD_LOW, SHOT_BOARD_HIGH,
                         "breakpoint: board 1 to 39, or 0 if you did not see it"}};

double *model_seen(Shot *shot, Seen seen)
{
    return seen == SEEN_SPEED    ? &shot->mph
           : seen == SEEN_ARROWS ? &shot->arrows
                                 : &shot->breakpoint;
}

bool model_small(const Model *model)
{
    return model->columns < COMPACT_COLUMNS_MIN || model->rows < COMPACT_ROWS_MIN;
}

bool model_compact(const Model *model)
{
    return !model_small(model) &&
           (model->columns < SCREEN_COLUMNS_MIN || model->rows < SCREEN_ROWS_MIN);
}

bool model_may_follow(const Model *model)
{
    bool help = model->mode == MODE_HELP || model->mode == MODE_WORDS || model->mode == MODE_SEARCH;
    switch (help ? model->mode_before : model->mode) {
    case MODE_LANE:
    case MODE_SPARES:
    case MODE_BAG:
    case MODE_BLOCK:
    case MODE_OIL:
    case MODE_LOG:
        return true;
    default:
        return false;
    }
}

unsigned model_where(const Model *model)
{
    static const unsigned FIELDS[] = {
        [FIELD_HIT] = IN_HIT,     [FIELD_READ] = IN_READ,   [FIELD_RELEASE] = IN_RELEASE,
        [FIELD_LEAVE] = IN_LEAVE, [FIELD_SPARE] = IN_SPARE, [FIELD_SLOT] = IN_NUMBER,
        [FIELD_SEEN] = IN_NUMBER};
    if (model->mode == MODE_ASK)
        return IN_ASK;
    if (model_small(model))
        return IN_SMALL;
    switch (model->mode) {
    case MODE_ENTRY:
        return FIELDS[model->typing.field];
    case MODE_PICK:
        return IN_PICK;
    case MODE_SPARES:
        return IN_SPARES;
    case MODE_HELP:
        return IN_HELP;
    case MODE_WORDS:
        return IN_WORDS;
    case MODE_SEARCH:
        return IN_SEARCH;
    case MODE_BAG:
        return IN_BAG;
    case MODE_KINDS:
        return IN_KINDS;
    case MODE_BALL: {
        JsonKind kind = form_holds(&model->form);
        return kind == JSON_TEXT ? IN_FORM_NAME : kind == JSON_WORD ? IN_FORM_WORD : IN_FORM_FIGURE;
    }
    case MODE_BLOCK:
        return IN_BLOCK;
    case MODE_OIL:
        return IN_OIL;
    case MODE_SUPPOSE:
        return IN_SUPPOSE;
    case MODE_LOG:
        return IN_LOG;
    case MODE_TOLD:
        return IN_TOLD;
    case MODE_TARGET:
        return IN_TARGET;
    case MODE_THROW:
        return IN_ROLL;
    default:
        return model->rehearsing.on ? IN_BOWL : IN_LANE;
    }
}

Plan model_plan(const Model *model)
{
    return model->draft_on ? model->draft : model->session->plan[model->lane];
}

AdviceInput model_advice_input(const Model *model)
{
    Plan plan = model_plan(model);
    AdviceInput input = advice_input(model->session, model->lane, &plan, model->rules);
    if (model->supposed.count > 0) {
        input.shots = model->supposed.shots;
        input.shot_count = model->supposed.count;
    }
    input.revision = model->asked.advice;
    return input;
}

bool model_advice_current(const Model *model)
{
    return model->shown.done && model->shown.revision == model->asked.advice;
}

/* An answer to a later question counts too, if that question changed nothing here. */
bool model_slot_current(const Model *model, int slot)
{
    return model->slot[slot - 1].revision >= model->asked.slots;
}

bool model_paths_current(const Model *model) { return model->paths_revision == model->asked.paths; }

bool model_spare_current(const Model *model) { return model->spare_revision == model->asked.spare; }

SpareInput model_spare_input(const Model *model)
{
    const Bag *bag = &model->session->bag;
    Plan plan = model_plan(model);
    return (SpareInput){.bag = bag,
                        .film = &model->shown.film,
                        .left = model->spare_pins,
                        .slot = plan.slot,
                        .stance = plan.stance,
                        .aim = plan.aim,
                        .ball = bag_slot(bag, model->spare_slot)};
}

bool model_roll(const Model *model, const Plan *plan, double surface_grit, Roll *roll)
{
    const Bag *bag = &model->session->bag;
    if (!bag_slot(bag, plan->slot))
        return false;
    advice_roll(&model->shown, bag, plan, surface_grit, roll);
    return true;
}

void model_roll_spare(const Model *model, const SpareLine *line, Roll *roll)
{
    MotionBody body;
    motion_body(line->ball, &body);
    motion_roll(&body, &model->shown.film, &line->delivery, roll);
}

const SpareLine *model_spare_line(const Model *model)
{
    if (!model_spare_current(model) || model->spare_pins == 0 || !model->spare.found)
        return NULL;
    return model->spare.take ? &model->spare.sure : &model->spare.line;
}

bool model_surfaces_free(const Model *model) { return session_surfaces_free(model->session); }

int model_bag_order(const Model *model, int out[BAG_BALLS_MAX])
{
    return bag_order(&model->session->bag, out);
}

bool model_at_bag(const Model *model)
{
    return model->mode == MODE_BAG || model->mode == MODE_BALL;
}

ArsenalInput model_arsenal_input(const Model *model)
{
    const Session *session = model->session;
    return (ArsenalInput){.bag = &session->bag,
                          .pattern = &session->pattern,
                          .games = session->event.games,
                          .bowlers = session->event.bowlers_on_pair,
                          .mix = session->event.field,
                          .pick = BAG_SLOTS,
                          .surfaces = model->arsenal_surfaces,
                          .revision = model->asked.arsenal};
}

const Arsenal *model_arsenal(const Model *model)
{
    const Arsenal *arsenal = model->arsenal;
    return arsenal && arsenal->revision == model->asked.arsenal ? arsenal : NULL;
}

BlockInput model_block_input(const Model *model)
{
    const Session *session = model->session;
    return (BlockInput){.bag = &session->bag,
                        .pattern = &session->pattern,
                        .games = session->event.games,
                        .bowlers = session->event.bowlers_on_pair,
                        .mix = session->event.field,
                        .revision = model->asked.block};
}

const Block *model_block(const Model *model)
{
    const Block *block = model->block;
    return block && block->revision == model->asked.block ? block : NULL;
}

bool model_hides(const Model *model) { return model->rehearsing.on && !model->rehearsing.answers; }

const Adjustment *model_adjustment(const Model *model, int index)
{
    if (model_hides(model))
        return NULL;
    if (!model->shown.done || index < 0 || index >= model->shown.adjustment_count)
        return NULL;
    return &model->shown.adjustments[index];
}

/* Rules and forecast agree: a change is asked for and gains, or nothing else gains much. */
static bool in_accord(const Model *model, const Adjustment *best)
{
    if (best->disagrees)
        return false;
    if (best->kind != ADJUST_HOLD)
        return best->vote >= RULE_ASKS && best->pocket_after - best->pocket_now >= GAIN_SEEN;
    for (int i = 1; i < model->shown.adjustment_count; i++)
        if (model->shown.adjustments[i].pocket_after - best->pocket_after > HOLD_SPARES)
            return false;
    return true;
}

int model_sureness(const Model *model)
{
    const Adjustment *best = model_adjustment(model, 0), *next = model_adjustment(model, 1);
    if (!best)
        return -1;
    if (!in_accord(model, best))
        return 0;
    return (model->shown.lane.scale_sd < KNOWN_SD) +
           (!next || best->score - next->score >= CLEAR_LEAD);
}
