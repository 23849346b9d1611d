/* signs.c - reading the last shots. Thresholds are common practice, no source: two alike mean
 * something, one does not; shots with another ball or line say nothing about this one. */
#include "core/advice/signs.h"

#include <math.h>
#include <string.h>

#include "core/advice/leaves.h"

const char *const SIGN_NAMES[SIGN_COUNT + 1] = {
#define SIGN(id, name, words) name,
#include "core/advice/signs.def"
#undef SIGN
    0};
static const char *const WORDS[SIGN_COUNT] = {
#define SIGN(id, name, words) words,
#include "core/advice/signs.def"
#undef SIGN
};
static const char *const LEFT_WORDS[SIGN_COUNT] = {
#define SIGN(id, name, words) words,
#define SIGN_BY_HAND(id, name, right, left) left,
#include "core/advice/signs.def"
#undef SIGN
};

const char *sign_words(Sign sign, Hand hand)
{
    return (hand == HAND_LEFT ? LEFT_WORDS : WORDS)[sign];
}

enum {
    RECENT_MAX = 6,        /* shots of this line to look at */
    MEMORY_MAX = 24,       /* how many shots to look back for them */
    FRESH_DELIVERIES = 40, /* on the pair: about a game of two bowlers */
    WORN_DELIVERIES = 100,
    WORN_GAME = 3,
    CROWDED_BOWLERS = 4
};
#define SHORT_FT 36.0
#define LONG_FT 43.0
#define FLAT_RATIO 2.0
#define HOUSE_RATIO 4.5
/* A ball comes back from deeper inside the more revs it has for its speed: from 29 at 19 rpm for
 * each mph, as a tournament's bowler throws, by 0.4 board for each one more or less (assumed). */
#define DEEP_LAYDOWN 29.0
#define DEEP_REVS_PER_MPH 19.0
#define DEEP_BOARDS_PER_REV 0.4
#define NO_RECOVERY_SHARE 0.9 /* as much oil outside as in the track, or nearly (assumed) */
#define PAIR_BOARDS 1.0       /* mean hits this far apart: the two lanes differ */
#define SPEED_MPH 0.3         /* mean speeds this far apart: a trend */

/* The good shots with the plan's ball and line, newest first: all that count for the next shot (on
 * both lanes, or only on its own if the lanes differ), and those on its lane. */
typedef struct Recent {
    const Shot *shots;
    int count, lane_count;
    short all[RECENT_MAX], lane[RECENT_MAX];
    bool own; /* what one shot says is read off its own lane's: each lane has a plan of its own */
    const Shot *last; /* the last shot on those lanes, good or not, any ball or line; or NULL */
} Recent;

static void see(Signs *signs, Sign sign, const short *indices, int count)
{
    signs->seen[sign] = true;
    for (int i = 0; i < count && signs->shot_count[sign] < SIGN_SHOTS_MAX; i++)
        signs->shots[sign][signs->shot_count[sign]++] = indices[i];
}

static bool is_high(const Shot *s) { return shot_side(s->hit) > 0; }
static bool is_light(const Shot *s) { return shot_side(s->hit) < 0 && s->hit != HIT_GUTTER; }

static Recent recent_of(const SignsContext *context, bool differ, const Shot *shots, int count)
{
    Recent recent = {.shots = shots};
    for (int i = count - 1; i >= 0 && i >= count - MEMORY_MAX; i--) {
        bool here = shots[i].lane == context->lane;
        bool on_line = shot_of_line(&shots[i], &context->plan);
        if (!here && (differ || (context->apart && !on_line)))
            continue;
        if (!recent.last && (here || !context->apart))
            recent.last = &shots[i];
        if (!shot_good(&shots[i]) || !on_line)
            continue;
        if (recent.count < RECENT_MAX)
            recent.all[recent.count++] = (short)i;
        if (here && recent.lane_count < RECENT_MAX)
            recent.lane[recent.lane_count++] = (short)i;
    }
    recent.own = context->apart;
    return recent;
}

/* Those that tell one by one, newest first. */
static const short *singly(const Recent *recent, int *count)
{
    *count = recent->own ? recent->lane_count : recent->count;
    return recent->own ? recent->lane : recent->all;
}

/* Whether the newest two fit, on this lane alone or else on both. */
static bool twice(const Recent *recent, bool (*fits)(const Shot *), Signs *signs, Sign sign)
{
    for (int way = 0; way < 2; way++) {
        const short *order = way == 0 ? recent->lane : recent->all;
        int count = way == 0 ? recent->lane_count : recent->count;
        if (count >= 2 && fits(&recent->shots[order[0]]) && fits(&recent->shots[order[1]])) {
            see(signs, sign, order, 2);
            return true;
        }
    }
    return false;
}

static bool high_early(const Shot *s) { return is_high(s) && s->read == READ_EARLY; }
static bool high_late(const Shot *s) { return is_high(s) && s->read == READ_LATE; }
static bool light_early(const Shot *s) { return is_light(s) && s->read == READ_EARLY; }
static bool light_late(const Shot *s)
{
    return is_light(s) && (s->read == READ_LATE || s->read == READ_NONE);
}
static bool flush(const Shot *s) { return s->hit == HIT_FLUSH; }

/* Two highs, on the mean within what the mean of two throws scatters by, are no news of the lane.
 */
static void read_own_scatter(const Recent *recent, double scatter_boards, Signs *signs)
{
    const short *two = signs->shots[SIGN_HIGH_TWICE];
    double off = 0.0;
    for (int i = 0; i < 2; i++)
        off += 0.5 * (shot_hit_board(recent->shots[two[i]].hit) - LANE_POCKET_BEST);
    if (off < scatter_boards / sqrt(2.0))
        see(signs, SIGN_OWN_SCATTER, two, 2);
}

/* High, light or in the pocket, and whether twice in a row. */
static void read_sides(const Recent *recent, double scatter_boards, Signs *signs)
{
    int count;
    const short *order = singly(recent, &count);
    const Shot *last = &recent->shots[order[0]];
    if (twice(recent, is_high, signs, SIGN_HIGH_TWICE))
        read_own_scatter(recent, scatter_boards, signs);
    else if (is_high(last))
        see(signs, SIGN_HIGH_ONCE, order, 1);
    if (!twice(recent, is_light, signs, SIGN_LIGHT_TWICE) && is_light(last))
        see(signs, SIGN_LIGHT_ONCE, order, 1);
    if (!twice(recent, flush, signs, SIGN_POCKET_TWICE) && flush(last))
        see(signs, SIGN_POCKET_ONCE, order, 1);
}

/* A hit and its read together mean something even once: the two explain each other. */
static void read_hit_with_read(const Recent *recent, Signs *signs)
{
    static const struct {
        bool (*fits)(const Shot *);
        Sign sign;
    } PAIRS[] = {{high_early, SIGN_HIGH_EARLY},
                 {high_late, SIGN_HIGH_LATE},
                 {light_early, SIGN_LIGHT_EARLY},
                 {light_late, SIGN_LIGHT_LATE}};
    int count;
    const short *order = singly(recent, &count);
    for (size_t k = 0; k < sizeof PAIRS / sizeof PAIRS[0]; k++) {
        int n = 0;
        while (n < 2 && n < count && PAIRS[k].fits(&recent->shots[order[n]]))
            n++;
        if (n > 0)
            see(signs, PAIRS[k].sign, order, n);
    }
}

static void read_hits(const SignsContext *context, const Recent *recent, Signs *signs)
{
    int count;
    const short *order = singly(recent, &count);
    if (count == 0)
        return;
    const Shot *last = &recent->shots[order[0]];
    const struct {
        bool seen;
        Sign sign;
    } NEWS[] = {{last->read == READ_EARLY, SIGN_EARLY},
                {last->read == READ_LATE, SIGN_LATE},
                {last->read == READ_NONE, SIGN_NEVER_READ},
                {last->hit == HIT_WIDE || last->hit == HIT_GUTTER, SIGN_WIDE},
                {last->hit == HIT_CROSSED, SIGN_CROSSED}};
    read_sides(recent, context->scatter_boards, signs);
    read_hit_with_read(recent, signs);
    for (size_t k = 0; k < sizeof NEWS / sizeof NEWS[0]; k++)
        if (NEWS[k].seen)
            see(signs, NEWS[k].sign, order, 1);
}

/* High and light by turns: at least two changes of side within the last four misses. */
static void read_alternating(const Recent *recent, Signs *signs)
{
    int changes = 0, side = 0, used = 0, count;
    const short *order = singly(recent, &count);
    short stands_on[RECENT_MAX];
    for (int i = 0; i < count && used < 4; i++) {
        const Shot *shot = &recent->shots[order[i]];
        int now = is_high(shot) ? 1 : is_light(shot) ? -1 : 0;
        if (now == 0)
            continue;
        changes += side != 0 && now != side;
        side = now;
        stands_on[used++] = order[i];
    }
    if (changes >= 2)
        see(signs, SIGN_ALTERNATING, stands_on, used);
}

static Pins in_frame(const SignsContext *context, Pins left)
{
    return context->hand == HAND_LEFT ? lane_mirror_pins(left) : left;
}

/* What adds up on flush hits, pins as a right-hander sees them. A stone eight is no fault of the
 * ball's. */
static const struct {
    Pins left;
    bool ringing;
    Sign sign;
} KINDS[] = {
    {1 << 9, false, SIGN_FLAT_TENS},
    {1 << 9, true, SIGN_RINGING_TENS},
    {1 << 3, false, SIGN_FOURS},
    {1 << 8, false, SIGN_NINES},
    {1 << 6, false, SIGN_SEVENS},
    {1 << 7 | 1 << 9, false, SIGN_EIGHT_TENS},
    {1 << 6 | 1 << 9, false, SIGN_SEVEN_TENS},
    {1 << 7, false, SIGN_STONE_EIGHTS},
};
enum { KINDS_COUNT = sizeof KINDS / sizeof KINDS[0] };

static int kind_of(Pins left, bool ringing)
{
    int kind = 0;
    while (kind < KINDS_COUNT && (KINDS[kind].left != left || KINDS[kind].ringing != ringing))
        kind++;
    return kind;
}

/* Kind by kind: two or more, half or more of the flush hits that are looked at; a strike since ends
 * it. */
static void read_counts(const SignsContext *context, const Recent *recent, Signs *signs)
{
    int hits = 0, counts[KINDS_COUNT + 1] = {0};
    short stands_on[KINDS_COUNT + 1][RECENT_MAX];
    for (int i = 0; i < recent->count; i++) {
        const Shot *shot = &recent->shots[recent->all[i]];
        if (shot->hit != HIT_FLUSH || !shot->left_said)
            continue;
        if (hits == 0 && shot->left == 0)
            return;
        int kind = kind_of(in_frame(context, shot->left), shot->ringing);
        stands_on[kind][counts[kind]++] = recent->all[i];
        hits++;
    }
    for (int kind = 0; kind < KINDS_COUNT; kind++) {
        if (counts[kind] < 2 || 2 * counts[kind] < hits)
            continue;
        see(signs, KINDS[kind].sign, stands_on[kind], counts[kind]);
        if (KINDS[kind].sign != SIGN_STONE_EIGHTS)
            see(signs, SIGN_ADDS_UP, stands_on[kind], counts[kind]);
    }
}

/* The pin behind stands in a straight line with the one in front. */
static bool double_wood(Pins left)
{
    static const Pins PAIRS[] = {1 << 0 | 1 << 4, 1 << 1 | 1 << 7, 1 << 2 | 1 << 8};
    for (size_t i = 0; i < sizeof PAIRS / sizeof PAIRS[0]; i++)
        if ((left & PAIRS[i]) == PAIRS[i])
            return true;
    return false;
}

static void read_leaves(const SignsContext *context, const Recent *recent, Signs *signs)
{
    if (recent->count == 0)
        return;
    short newest = recent->all[0];
    const Shot *shot = &recent->shots[newest];
    if (!shot->left_said || shot->left == 0)
        return;
    Pins left = in_frame(context, shot->left);
    Told told = leave_tells(left, NULL);
    bool pocket = shot->hit == HIT_UNSAID || shot_pocket(shot) || shot->hit == HIT_HIGH;
    if (left == pin_bit(10) && pocket)
        see(signs, shot->ringing ? SIGN_CORNER_RING : SIGN_CORNER_FLAT, &newest, 1);
    /* The hit that was seen comes before what the leave suggests. */
    if (told == TOLD_LIGHT && is_light(shot))
        see(signs, SIGN_LIGHT_LEAVE, &newest, 1);
    if (told == TOLD_HIGH && is_high(shot))
        see(signs, SIGN_HIGH_LEAVE, &newest, 1);
    if (double_wood(left))
        see(signs, SIGN_DOUBLE_WOOD, &newest, 1);
    if (lane_split(left))
        see(signs, SIGN_SPLIT, &newest, 1);
}

static void read_releases(const Shot *shots, int count, Signs *signs)
{
    if (count == 0)
        return;
    short bad[4] = {0};
    int bads = 0;
    for (int i = count - 1; i >= 0 && i >= count - 4; i--)
        if (!shot_good(&shots[i]))
            bad[bads++] = (short)i;
    if (!shot_good(&shots[count - 1]))
        see(signs, SIGN_BAD_RELEASE, bad, 1);
    short off[4] = {0};
    int offs = 0;
    for (int i = 0; i < bads; i++)
        if (shots[bad[i]].release == RELEASE_INSIDE || shots[bad[i]].release == RELEASE_OUTSIDE)
            off[offs++] = bad[i];
    if (offs >= 2)
        see(signs, SIGN_OFF_TARGET, off, offs);
    if (bads >= 2 && count >= 3 && !shot_good(&shots[count - 1]))
        see(signs, SIGN_BAD_RELEASES, bad, bads);
}

static void read_speed(const Shot *shots, int count, Signs *signs)
{
    double late = 0.0, early = 0.0;
    int lates = 0, earlies = 0, slow = 0, fast = 0;
    short stands_on[SIGN_SHOTS_MAX];
    for (int i = count - 1; i >= 0 && i >= count - MEMORY_MAX; i--) {
        if (i >= count - 4) {
            slow += shots[i].release == RELEASE_SLOW;
            fast += shots[i].release == RELEASE_FAST;
        }
        if (shots[i].mph <= 0.0)
            continue;
        double mph = shots[i].mph - shots[i].mph_change; /* an intended change is no trend */
        if (lates < 3) {
            stands_on[lates] = (short)i;
            late += mph;
            lates++;
        } else if (earlies < 3) {
            early += mph;
            earlies++;
        }
    }
    double change = lates == 3 && earlies >= 2 ? late / lates - early / earlies : 0.0;
    short last = (short)(count - 1);
    if (change < -SPEED_MPH)
        see(signs, SIGN_SPEED_FALLING, stands_on, 3);
    else if (slow >= 2)
        see(signs, SIGN_SPEED_FALLING, &last, 1);
    if (change > SPEED_MPH)
        see(signs, SIGN_SPEED_RISING, stands_on, 3);
    else if (fast >= 2)
        see(signs, SIGN_SPEED_RISING, &last, 1);
}

/* Where the last three good shots of this line hit on one lane. */
typedef struct OnLane {
    int count;
    short shots[3];
    double mean, low, high; /* boards */
} OnLane;

static OnLane hits_on(const SignsContext *context, const Shot *shots, int count, Side lane)
{
    OnLane on = {.low = LANE_BOARDS, .high = 0.0};
    double sum = 0.0;
    for (int i = count - 1; i >= 0 && i >= count - MEMORY_MAX && on.count < 3; i--) {
        double board = shot_hit_board(shots[i].hit);
        if (shots[i].lane != lane || !shot_good(&shots[i]) || isnan(board) ||
            !shot_of_line(&shots[i], &context->plan))
            continue;
        on.shots[on.count++] = (short)i;
        on.low = fmin(on.low, board);
        on.high = fmax(on.high, board);
        sum += board;
    }
    on.mean = on.count > 0 ? sum / on.count : 0.0;
    return on;
}

/* Two lanes differ when every shot says so: a mean alone may come from what changed in between on
 * both, the bowler's speed or the oil. */
static void read_pair(const SignsContext *context, const Shot *shots, int count, Signs *signs)
{
    Side other = context->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    OnLane here = hits_on(context, shots, count, context->lane);
    OnLane there = hits_on(context, shots, count, other);
    bool tighter = here.mean <= there.mean - PAIR_BOARDS && here.high <= there.low;
    bool looser = here.mean >= there.mean + PAIR_BOARDS && here.low >= there.high;
    if (here.count < 2 || there.count < 2 || (!tighter && !looser))
        return;
    Sign sign = tighter ? SIGN_LANE_TIGHTER : SIGN_LANE_LOOSER;
    see(signs, sign, here.shots, here.count);
    see(signs, sign, there.shots, there.count);
}

static void read_carrydown(const Recent *recent, Signs *signs)
{
    if (recent->count < 3 || !light_late(&recent->shots[recent->all[0]]))
        return;
    int flushes = 0, lights = 0;
    for (int i = 0; i < recent->count; i++) {
        lights += flushes == 0 && light_late(&recent->shots[recent->all[i]]);
        flushes += flush(&recent->shots[recent->all[i]]);
    }
    if (flushes >= 1 && lights >= 2)
        see(signs, SIGN_CARRYDOWN, recent->all, recent->count);
}

/* The shot in hand is the first of this line, flush, and was thrown after something else. */
static void read_change(const SignsContext *context, const Recent *recent, const Shot *shots,
                        Signs *signs)
{
    int of_line;
    const short *order = singly(recent, &of_line);
    bool first = of_line == 1 && recent->last == &shots[order[0]] && flush(recent->last);
    for (int i = 0; first && i < order[0]; i++)
        if (shot_good(&shots[i]) && (!context->apart || shots[i].lane == context->lane)) {
            see(signs, SIGN_CHANGE_FLUSH, order, 1);
            return;
        }
}

static void read_place(const SignsContext *context, const Recent *recent, const Shot *shots,
                       int count, Signs *signs)
{
    int on_lane = 0;
    for (int i = 0; i < count; i++)
        on_lane += shots[i].lane == context->lane;
    signs->seen[SIGN_FIRST_SHOTS] = on_lane < 2;
    signs->seen[SIGN_JUST_CHANGED] = recent->last &&
                                     (context->apart ? recent->lane_count : recent->count) == 0 &&
                                     !shot_of_line(recent->last, &context->plan);
    signs->seen[SIGN_FRESH] = context->game <= 1 && context->deliveries < FRESH_DELIVERIES;
    signs->seen[SIGN_WORN] = context->game >= WORN_GAME || context->deliveries >= WORN_DELIVERIES;
    signs->seen[SIGN_LAST_FRAMES] = context->frame >= 9;
    signs->seen[SIGN_PRACTICE] = context->practice;
    signs->seen[SIGN_NEW_PAIR] = context->game > 1 && count == 0;
    signs->seen[SIGN_CROWDED] = context->bowlers_on_pair >= CROWDED_BOWLERS;
    signs->seen[SIGN_URETHANE] = context->urethane_others > 0;
}

static double deep_from(const SignsContext *context)
{
    double more = context->revs_per_mph > 0.0 ? context->revs_per_mph - DEEP_REVS_PER_MPH : 0.0;
    return DEEP_LAYDOWN + DEEP_BOARDS_PER_REV * more;
}

static void read_lane_and_ball(const SignsContext *context, Signs *signs)
{
    signs->seen[SIGN_SHORT_OIL] = context->length_ft <= SHORT_FT;
    signs->seen[SIGN_LONG_OIL] = context->length_ft >= LONG_FT;
    signs->seen[SIGN_FLAT_OIL] = context->ratio <= FLAT_RATIO;
    signs->seen[SIGN_HOUSE_OIL] = context->ratio >= HOUSE_RATIO;
    signs->seen[SIGN_NO_RECOVERY] = context->outside_share >= NO_RECOVERY_SHARE;
    signs->seen[SIGN_DEEP_INSIDE] =
        context->plan.stance - context->laydown_offset_boards >= deep_from(context);
    signs->seen[SIGN_STRONG_BALL] = context->strongest;
    signs->seen[SIGN_WEAK_BALL] = context->weakest;
}

/* A copy in which a hit that was not said is the one its leave tells. */
static void tell_hits(const SignsContext *context, const Shot *shots, int count, Shot *out)
{
    for (int i = 0; i < count; i++) {
        out[i] = shots[i];
        if (i >= count - MEMORY_MAX && out[i].hit == HIT_UNSAID && out[i].left_said)
            out[i].hit = leave_hit(in_frame(context, out[i].left));
    }
}

void signs_read(const SignsContext *context, const Shot *as_said, int count, Signs *signs)
{
    Shot shots[SESSION_SHOTS_MAX];
    tell_hits(context, as_said, count, shots);
    memset(signs, 0, sizeof *signs);
    read_pair(context, shots, count, signs);
    bool differ = signs->seen[SIGN_LANE_TIGHTER] || signs->seen[SIGN_LANE_LOOSER];
    Recent recent = recent_of(context, differ, shots, count);
    read_place(context, &recent, shots, count, signs);
    read_lane_and_ball(context, signs);
    read_change(context, &recent, shots, signs);
    read_hits(context, &recent, signs);
    read_alternating(&recent, signs);
    read_leaves(context, &recent, signs);
    read_counts(context, &recent, signs);
    read_releases(shots, count, signs);
    read_speed(shots, count, signs);
    read_carrydown(&recent, signs);
}
