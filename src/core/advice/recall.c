/* recall.c - what can be kept from the previous question. */
#include "core/advice/recall.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

#define BELIEF_SEED 0x5e77ee

void memory_init(Memory *memory) { memory->seen = memory->before_seen = -1; }

/* Whether two shots were thrown with the same ball, each by its own bag, whatever the ball's name
 * and slot. */
static bool same_ball(const Shot *a, const Bag *bag_a, const Shot *b, const Bag *bag_b)
{
    Ball x = {0}, y = {0};
    if (shot_ball(a, bag_a, &x) != shot_ball(b, bag_b, &y))
        return false;
    text_copy(y.name, sizeof y.name, x.name);
    y.slot = x.slot;
    return ball_same(&x, &y);
}

/* Whether two shots are the same evidence: everything belief_see looks at. */
static bool same_evidence(const Shot *a, const Shot *b)
{
    return a->lane == b->lane && a->stance == b->stance && a->aim == b->aim && a->mph == b->mph &&
           a->arrows == b->arrows && a->breakpoint == b->breakpoint &&
           a->mph_change == b->mph_change && a->loft_change_ft == b->loft_change_ft &&
           a->rotation_change_deg == b->rotation_change_deg && a->hit == b->hit &&
           a->read == b->read && a->release == b->release && a->left_said == b->left_said &&
           a->left == b->left;
}

static bool same_start(const Memory *memory, const Bag *bag, const Shot *shots, int count)
{
    for (int i = 0; i < count; i++)
        if (!same_ball(&memory->shots[i], &memory->bag, &shots[i], bag) ||
            !same_evidence(&memory->shots[i], &shots[i]))
            return false;
    return true;
}

static bool same_mix(const FieldMix *a, const FieldMix *b)
{
    return a->right == b->right && a->left == b->left && a->two_handed == b->two_handed &&
           a->urethane == b->urethane;
}

/* Whether the lane would have been worn alike: by the ball and the line. */
static bool same_line(const Shot *a, const Shot *b)
{
    return a->stance == b->stance && a->aim == b->aim && a->mph_change == b->mph_change &&
           a->loft_change_ft == b->loft_change_ft &&
           a->rotation_change_deg == b->rotation_change_deg;
}

/* Whether a belief at `stay`, after `seen` shots, went through what is asked now. */
static bool same_played(const Memory *memory, int stay, int seen, const Played *played, int count,
                        const Bag *bag)
{
    if (stay >= count || (stay + 1 < count && played[stay + 1].shot < seen))
        return false;
    for (int i = 0; i <= stay; i++) {
        const Played *was = &memory->played[i], *is = &played[i];
        if (was->shot != is->shot || was->frames != is->frames)
            return false;
        if (was->frames > 0 &&
            !(same_ball(&was->as, &memory->bag, &is->as, bag) && same_line(&was->as, &is->as)))
            return false;
    }
    return true;
}

static bool same_about(const About *a, const About *b)
{
    return a->only == b->only && a->house == b->house && a->length_ft == b->length_ft &&
           a->volume_ml == b->volume_ml && a->ratio == b->ratio;
}

static void start_over(Memory *memory, const Oil *sheet_in_frame, const About *about,
                       int bowlers_on_pair, const FieldMix *mix)
{
    if (about->only)
        belief_begin_about(&memory->belief, about, sheet_in_frame, BELIEF_SEED);
    else
        belief_begin(&memory->belief, sheet_in_frame, BELIEF_SEED);
    memory->belief.mix = *mix;
    memory->seen = memory->stay = memory->frames_worn = 0;
    memory->unworn = false;
    memory->before_seen = -1;
    memory->sheet = *sheet_in_frame;
    memory->about = *about;
    memory->bowlers_on_pair = bowlers_on_pair;
}

void memory_recall(Memory *memory, const Bag *bag, const Oil *sheet_in_frame, const About *about,
                   int bowlers_on_pair, const FieldMix *mix, const Played *played, int played_count,
                   const Shot *shots, int count)
{
    bool same = memory->seen >= 0 && memory->bowlers_on_pair == bowlers_on_pair &&
                same_mix(&memory->belief.mix, mix) &&
                bowler_same(&memory->bag.bowler, &bag->bowler) &&
                same_about(&memory->about, about) && oil_same(&memory->sheet, sheet_in_frame);
    bool all = same && memory->seen <= count &&
               same_played(memory, memory->stay, memory->seen, played, played_count, bag) &&
               same_start(memory, bag, shots, memory->seen);
    bool but_last =
        !all && same && memory->before_seen >= 0 && memory->before_seen <= count &&
        same_played(memory, memory->before_stay, memory->before_seen, played, played_count, bag) &&
        same_start(memory, bag, shots, memory->before_seen);
    memory->bag = *bag;
    memory->played_count = played_count;
    memcpy(memory->played, played, (size_t)played_count * sizeof *played);
    if (but_last) { /* the last shot was undone or edited */
        belief_copy(&memory->belief, &memory->before);
        memory->seen = memory->before_seen;
        memory->stay = memory->before_stay;
        memory->frames_worn = played[memory->stay].frames;
        memory->unworn = false;
    }
    if (!all && !but_last)
        start_over(memory, sheet_in_frame, about, bowlers_on_pair, mix);
}

/* A shot is compared with what was intended. */
static Bowler as_meant(const Bowler *usual, const Shot *shot)
{
    Bowler bowler = *usual;
    bowler.mph += shot->mph_change;
    bowler.loft_ft = fmax(0.0, bowler.loft_ft + shot->loft_change_ft);
    bowler.rotation_deg += shot->rotation_change_deg;
    return bowler;
}

/* A frame that was played before the shots. */
static void wear_frame(Memory *memory)
{
    Shot as = memory->played[memory->stay].as;
    Ball ball;
    MotionBody body;
    as.lane = memory->frames_worn++ % 2 ? SIDE_RIGHT : SIDE_LEFT;
    if (!shot_ball(&as, &memory->bag, &ball))
        return;
    motion_body(&ball, &body);
    Bowler bowler = as_meant(&memory->bag.bowler, &as);
    belief_played(&memory->belief, &bowler, &ball, &body, &as, memory->bowlers_on_pair);
}

/* A speed that is told and is the usual one, to the tenth that is typed, is no news. */
static void forget_usual_speed(Shot *shot, const Bowler *meant)
{
    if (fabs(shot->mph - meant->mph) < 0.05)
        shot->mph = 0.0;
}

/* The shot that was taken up last, as its bowler meant it. */
typedef struct Thrown {
    Shot shot;
    Ball ball;
    MotionBody body;
    Bowler bowler;
} Thrown;

/* False: its ball is no longer in the bag. */
static bool thrown_last(const Memory *memory, Thrown *t)
{
    t->shot = memory->shots[memory->seen - 1];
    if (!shot_ball(&t->shot, &memory->bag, &t->ball))
        return false;
    motion_body(&t->ball, &t->body);
    t->bowler = as_meant(&memory->bag.bowler, &t->shot);
    forget_usual_speed(&t->shot, &t->bowler);
    return true;
}

static void weigh_shot(Memory *memory)
{
    Thrown t;
    BatchBall batch;
    if (!thrown_last(memory, &t))
        return;
    batch_ball(&t.body, &batch);
    belief_weigh(&memory->belief, &t.bowler, &t.ball, &t.body, &batch, &t.shot);
}

static void wear_shot(Memory *memory)
{
    Thrown t;
    if (thrown_last(memory, &t))
        belief_thrown(&memory->belief, &t.bowler, &t.ball, &t.body, &t.shot,
                      memory->bowlers_on_pair);
}

bool memory_weigh(Memory *memory, const Shot *shots, int count)
{
    bool frame_left = memory->frames_worn < memory->played[memory->stay].frames;
    bool moves = !frame_left && !memory->unworn && memory->stay + 1 < memory->played_count &&
                 memory->played[memory->stay + 1].shot <= memory->seen;
    if (!frame_left && !memory->unworn && !moves && memory->seen >= count)
        return false;
    if (moves) {
        belief_next_pair(&memory->belief);
        memory->stay++;
        memory->frames_worn = 0;
        return true;
    }
    if (belief_settle(&memory->belief, memory->bag.bowler.hand, memory->bowlers_on_pair))
        return true;
    if (frame_left) {
        wear_frame(memory);
        return true;
    }
    if (memory->unworn) {
        memory->unworn = false;
        wear_shot(memory);
        return true;
    }
    if (memory->seen == count - 1) {
        belief_copy(&memory->before, &memory->belief);
        memory->before_seen = memory->seen;
        memory->before_stay = memory->stay;
    }
    memory->shots[memory->seen] = shots[memory->seen];
    memory->seen++;
    memory->unworn = true;
    weigh_shot(memory);
    return true;
}
