/* update_bowl.c - a rehearsal: throwing, seeing what the ball did, asking for the answers. */
#include "base/text.h"
#include "ui/draw/widgets.h"
#include "ui/input/update.h"

void key_bowl(Model *model, Effects *effects, int argument, uint32_t key)
{
    const Session *session = model->session;
    if (session->game_over && session->game >= session->event.games) {
        effects->bowl = true; /* nothing is left to throw: the stage goes on */
        return;
    }
    if (model->lane != session->lane) {
        update_refuse(model, effects, "It is the other lane's turn: Tab goes there");
        return;
    }
    effects->bowl = update_enter_draft(model, effects);
}

void key_land(Model *model, Effects *effects, int argument, uint32_t key) { effects->land = true; }

void key_reveal(Model *model, Effects *effects, int argument, uint32_t key)
{
    Rehearsing *now = &model->rehearsing;
    now->help += !now->answers;
    now->answers = true;
}

void update_roll(Model *model, const Roll *roll, double ft)
{
    model->mode = MODE_THROW;
    model->message[0] = '\0';
    model->rehearsing.roll = *roll;
    model->rehearsing.ft = ft;
    model->rehearsing.fell = false;
}

static const char *move_words(Read read)
{
    return read == READ_ON_TIME ? "moved on time"
           : read == READ_EARLY ? "moved early"
           : read == READ_LATE  ? "moved late"
                                : "never moved";
}

/* "Light, moved late, 17.9 mph. Left: 10; spare made." */
static void say_shot(Model *model, const Shot *shot)
{
    char words[sizeof model->message] = "", leave[48];
    text_append(words, sizeof words, "%s", HIT_NAMES[shot->hit]);
    words[0] = (char)(words[0] - 'a' + 'A');
    if (shot->read)
        text_append(words, sizeof words, ", %s", move_words(shot->read));
    if (shot->release > RELEASE_GOOD)
        text_append(words, sizeof words, ", released %s", RELEASE_NAMES[shot->release]);
    if (shot->mph > 0.0)
        text_append(words, sizeof words, ", %.1f mph", shot->mph);
    widget_leave(leave, sizeof leave, &(Shot){.left_said = true, .left = shot->left}, 24);
    if (shot->left == 0)
        text_append(words, sizeof words, ". Strike!");
    else if (!shot->spare_said)
        text_append(words, sizeof words, ". Left: %s.", leave);
    else
        text_append(words, sizeof words, ". Left: %s; spare %s.", leave,
                    shot->spare_left == 0 ? "made" : "missed");
    update_say(model, shot->left == 0 || shot_spare(shot) ? ROLE_GOOD : ROLE_ACCENT, words);
}

void update_seen(Model *model, Effects *effects, const Shot *shot, bool last)
{
    Entry entry = {.kind = ENTRY_SHOT, .lane = shot->lane, .shot = *shot};
    Entry game = {.kind = ENTRY_GAME, .lane = SIDE_LEFT};
    model->mode = MODE_LANE;
    model->rehearsing.answers = false;
    model->rehearsing.fell = true;
    model->rehearsing.left = shot->left;
    if (update_enter(model, effects, &entry))
        say_shot(model, shot);
    if (last)
        update_enter(model, effects, &game);
}
