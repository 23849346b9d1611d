/* session.c - an event, recomputed from what was entered. */
#include "core/event/session.h"

#include <string.h>

#include "core/event/stays.h"

const char *const ENTRY_NAMES[ENTRY_KINDS + 1] = {"shot",  "edit",       "plan",   "apart",
                                                  "game",  "undo",       "redo",   "gap",
                                                  "frame", "frame-edit", "target", 0};

/* The number in `count` digits; -1: something else stands there. */
static int digits(const char *text, int count)
{
    int number = 0;
    for (int i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        number = 10 * number + (text[i] - '0');
    }
    return number;
}

bool event_is_date(const char *date)
{
    static const int DAYS[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (strlen(date) != 10 || date[4] != '-' || date[7] != '-')
        return false;
    int year = digits(date, 4), month = digits(date + 5, 2), day = digits(date + 8, 2);
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return year >= 1 && month >= 1 && month <= 12 && day >= 1 &&
           day <= DAYS[month - 1] + (month == 2 && leap);
}

void session_begin(Session *session, const EventInfo *event, const Bag *bag, const Pattern *pattern,
                   const Plan *first)
{
    session->event = *event;
    session->bag = session->bag_log.first = *bag;
    session->bag_log.count = session->bag_log.standing = 0;
    session->pattern = *pattern;
    session->first = *first;
    session->entry_count = 0;
    session->standing_count = 0;
    session->taken_count = 0;
    session_fold(session);
}

void session_say_first(Session *session, const Plan *first)
{
    session->first = *first;
    session_fold(session);
}

/* Frames alternate between the lanes of the pair; fill balls of the tenth stay on its lane. A spare
 * not entered counts as missed: it adds no fill ball. */
static void next_frame(Session *session, const Shot *shot)
{
    bool strike = shot_strike(shot);
    session->lane = shot->lane; /* the bowler may have changed lanes out of turn, in practice */
    if (session->frame < 10) {
        session->frame++;
        session->lane = session->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    } else if (!session->last_ball &&
               (strike || (shot_spare(shot) && session->ball_of_tenth == 1))) {
        session->ball_of_tenth++; /* a full rack again */
        session->last_ball = !strike || session->ball_of_tenth == 3;
    } else {
        session->game_over = true;
        if (session->game < session->event.games)
            session->lane = SIDE_LEFT; /* where the next game begins */
    }
}

/* On other lanes what one lane of the last pair needed apart says nothing. */
static void move_on(Session *session)
{
    Side last = session->shot_count > 0 ? session->shots[session->shot_count - 1].lane : SIDE_LEFT;
    session->plan[!last] = session->plan[last];
    session->apart = false;
}

/* Never past the last game: an edit may end it before some of the balls thrown in it; they stay in
 * its tenth frame. */
static void next_game(Session *session)
{
    bool warm_up = session->warm_up;
    session->warm_up = false;
    if (!warm_up && session->game >= session->event.games)
        return;
    session->game += warm_up ? 0 : 1;
    session->frame = 1;
    session->ball_of_tenth = 1;
    session->last_ball = session->game_over = false;
    session->lane = SIDE_LEFT;
    if (!warm_up && event_moves(&session->event, session->game))
        move_on(session);
}

static void throw_shot(Session *session, const Shot *thrown)
{
    int at = session->shot_count++;
    session->shots[at] = *thrown;
    session_find_slot(session, &session->shots[at]);
    session->shot_game[at] = session->shot_frame[at] = 0;
    session->shot_second[at] = false;
    if (session->warm_up) {
        session->warm_up_count++;
        session->lane = thrown->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
        return;
    }
    session->shot_game[at] = (unsigned char)session->game;
    session->shot_frame[at] = (unsigned char)session->frame;
    session->shot_second[at] = shot_leaves(thrown) && !session->last_ball;
    next_frame(session, thrown);
}

/* All of its balls are told, so the next ball begins a frame. */
static void apply_told(Session *session, const Entry *entry, int number)
{
    ToldFrame *told = &session->told[number];
    *told = (ToldFrame){.lane = entry->lane, .before = session->shot_count};
    memcpy(told->balls, entry->balls, sizeof told->balls);
    if (!entry->balls[0])
        return;
    if (session->game_over || session->warm_up) /* a scored frame ends the warm-up */
        next_game(session);
    told->game = session->game;
    told->frame = session->frame;
    session->lane = entry->lane;
    if (session->frame < SCORE_FRAMES) {
        session->frame++;
        session->lane = session->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    } else {
        session->game_over = true;
        if (session->game < session->event.games)
            session->lane = SIDE_LEFT;
    }
}

static void apply_standing(Session *session, const Entry *entry)
{
    switch (entry->kind) {
    case ENTRY_SHOT:
        if (session->game_over) /* a shot after the last frame begins the next game */
            next_game(session);
        throw_shot(session, &entry->shot);
        break;
    case ENTRY_PLAN:
        session->plan[entry->lane] = entry->plan;
        session->apart |= entry->apart;
        if (!session->apart)
            session->plan[!entry->lane] = entry->plan;
        break;
    case ENTRY_APART:
        session->apart = entry->apart;
        if (!session->apart)
            session->plan[!entry->lane] = session->plan[entry->lane];
        break;
    case ENTRY_GAME:
        next_game(session);
        break;
    case ENTRY_TARGET:
        session->target = entry->index;
        break;
    default:
        break;
    }
}

/* What is edited or out of order: of each shot and told frame the entry of its latest edit, -1:
 * none; and the entries that told of frames, whether each was applied, and which of them comes
 * right ahead of it, -1: none. */
typedef struct Later {
    short shot[SESSION_SHOTS_MAX], told[SESSION_TOLD_MAX];
    short frame[SESSION_TOLD_MAX], ahead[SESSION_TOLD_MAX];
    bool applied[SESSION_TOLD_MAX];
    int frame_count;
} Later;

/* A frame goes in ahead of one that was told earlier, behind those that already are. */
static void look_frame(const Session *session, Later *later, short at)
{
    short number = (short)later->frame_count++;
    int of = session->entries[at].ahead - 1;
    later->frame[number] = at;
    later->ahead[number] = -1;
    if (of < 0 || of >= number)
        return;
    later->ahead[number] = later->ahead[of];
    later->ahead[of] = number;
}

static Later look_later(const Session *session)
{
    Later later = {0};
    for (int i = 0; i < SESSION_SHOTS_MAX; i++)
        later.shot[i] = -1;
    for (int i = 0; i < SESSION_TOLD_MAX; i++)
        later.told[i] = -1;
    for (int i = 0; i < session->standing_count; i++) {
        short at = session->standing[i];
        const Entry *entry = &session->entries[at];
        if (entry->kind == ENTRY_EDIT && entry->index >= 0 && entry->index < SESSION_SHOTS_MAX)
            later.shot[entry->index] = at;
        if (entry->kind == ENTRY_FRAME_EDIT && entry->index >= 0 && entry->index < SESSION_TOLD_MAX)
            later.told[entry->index] = at;
        if (entry->kind == ENTRY_FRAME && later.frame_count < SESSION_TOLD_MAX)
            look_frame(session, &later, at);
    }
    return later;
}

/* Each shot's latest edit takes its place and keeps the game, frame and lane as entered, so that it
 * can change what became of the frame. */
static void apply_shot(Session *session, const Later *later, const Entry *entry)
{
    Entry as_edited = *entry;
    short edit = later->shot[session->shot_count];
    if (edit >= 0)
        as_edited.shot = session->entries[edit].shot;
    apply_standing(session, &as_edited);
}

static void apply_one(Session *session, Later *later, int number)
{
    Entry as_edited = session->entries[later->frame[number]];
    short edit = later->told[number];
    if (edit >= 0)
        memcpy(as_edited.balls, session->entries[edit].balls, sizeof as_edited.balls);
    apply_told(session, &as_edited, number);
    later->applied[number] = true;
}

/* With those right ahead of it, the first of them first. */
static void apply_frame(Session *session, Later *later, int number)
{
    short chain[SESSION_TOLD_MAX];
    int count = 0;
    for (int at = number; at >= 0; at = later->ahead[at])
        chain[count++] = (short)at;
    while (count > 0)
        if (!later->applied[chain[--count]])
            apply_one(session, later, chain[count]);
}

/* What follows from the rest: the same however often it is done. */
static void settle(Session *session)
{
    for (int lane = 0; lane < SIDE_COUNT; lane++)
        if (session->plan[lane].slot != 0 || session->first.slot != 0)
            session_fill_plan(session, &session->plan[lane]);
    memcpy(session->pair, event_pair(&session->event, session->game), sizeof session->pair);
    session->can_undo = session->standing_count > 0;
    session->can_redo = session->taken_count > 0;
}

/* A frame may be told long after it was thrown: it comes before the shot it names. */
void session_fold(Session *session)
{
    Later later = look_later(session);
    int told = 0;
    session->plan[SIDE_LEFT] = session->plan[SIDE_RIGHT] = session->first;
    session->apart = false;
    session->warm_up = session->event.warm_up;
    session->warm_up_count = 0;
    session->lane = SIDE_LEFT;
    session->game = 1;
    session->frame = 1;
    session->ball_of_tenth = 1;
    session->last_ball = session->game_over = false;
    session->shot_count = 0;
    session->target = 0;
    for (int i = 0; i < session->standing_count; i++) {
        const Entry *entry = &session->entries[session->standing[i]];
        if (entry->kind == ENTRY_SHOT) {
            for (int k = told; k < later.frame_count; k++)
                if (!later.applied[k] &&
                    session->entries[later.frame[k]].index == session->shot_count)
                    apply_frame(session, &later, k);
            apply_shot(session, &later, entry);
        } else if (entry->kind == ENTRY_FRAME) {
            if (!later.applied[told] && entry->index == session->shot_count)
                apply_frame(session, &later, told);
            told++;
        } else {
            apply_standing(session, entry);
        }
    }
    session->told_count = told;
    settle(session);
}

/* The limits of a number in a plan, and the message for one outside them. */
typedef struct Limit {
    double low, high;
    const char *fault;
} Limit;
#define SPELL(number) #number
#define LIMIT(what, low, high, unit)                                                               \
    {                                                                                              \
        low, high, what " outside " SPELL(low) " to " SPELL(high) unit                             \
    }
static const Limit STANCE = LIMIT("stance", PLAN_BOARD_LOW, PLAN_BOARD_HIGH, "");
static const Limit AIM = LIMIT("aim", PLAN_BOARD_LOW, PLAN_BOARD_HIGH, "");
static const Limit MPH_CHANGE =
    LIMIT("speed change", PLAN_MPH_CHANGE_LOW, PLAN_MPH_CHANGE_HIGH, " mph");
static const Limit LOFT_CHANGE =
    LIMIT("loft change", PLAN_LOFT_CHANGE_LOW, PLAN_LOFT_CHANGE_HIGH, " ft");
static const Limit ROTATION_CHANGE =
    LIMIT("rotation change", PLAN_ROTATION_CHANGE_LOW, PLAN_ROTATION_CHANGE_HIGH, " degrees");

/* NAN is outside of everything. */
static const char *outside(double value, const Limit *limit)
{
    return value >= limit->low && value <= limit->high ? NULL : limit->fault;
}

/* What is wrong with the planned changes to the usual release. */
static const char *release_fault(double mph, double loft_ft, double rotation_deg)
{
    const char *fault = outside(mph, &MPH_CHANGE);
    fault = fault ? fault : outside(loft_ft, &LOFT_CHANGE);
    return fault ? fault : outside(rotation_deg, &ROTATION_CHANGE);
}

static const char *plan_fault(const Plan *plan)
{
    const char *fault = outside(plan->stance, &STANCE);
    fault = fault ? fault : outside(plan->aim, &AIM);
    return fault ? fault
                 : release_fault(plan->mph_change, plan->loft_change_ft, plan->rotation_change_deg);
}

static const char *shot_fault(const Shot *shot)
{
    if ((unsigned)shot->lane >= SIDE_COUNT || (unsigned)shot->hit >= HIT_COUNT ||
        (unsigned)shot->read >= READ_COUNT || (unsigned)shot->release >= RELEASE_COUNT ||
        (shot->left & ~PINS_ALL))
        return "no such word for a shot";
    if (shot->hit == HIT_UNSAID && !shot->left_said)
        return "neither hit nor leave";
    if (shot->spare_said && !shot_leaves(shot))
        return "nothing was left to spare";
    if (shot->spare_said && (shot->spare_left & ~shot_standing(shot)))
        return "a pin stands that was not left";
    if (shot->spare_foul && (!shot->spare_said || shot->spare_left != shot_standing(shot)))
        return "a foul counts no pins";
    return release_fault(shot->mph_change, shot->loft_change_ft, shot->rotation_change_deg);
}

/* A shot of a ball that has left its slot may still be edited. */
static const char *slot_fault(const Session *session, const Entry *entry)
{
    bool plan = entry->kind == ENTRY_PLAN;
    if (!plan && entry->kind != ENTRY_SHOT && entry->kind != ENTRY_EDIT)
        return NULL;
    if (!plan && entry->shot.slot == 0 && entry->shot.ball[0])
        return NULL;
    return bag_slot(&session->bag, plan ? entry->plan.slot : entry->shot.slot)
               ? NULL
               : "no ball in that slot";
}

/* Scored play always has room: see SESSION_SHOTS_MAX. */
static const char *room_fault(const Session *session, const Entry *entry)
{
    bool shot = entry->kind == ENTRY_SHOT || entry->kind == ENTRY_GAME;
    int left = SESSION_ENTRIES_MAX - session->entry_count;
    if (left <= 0 || (entry->kind == ENTRY_SHOT && session->shot_count >= SESSION_SHOTS_MAX))
        return "the event's log is full";
    if (!shot && left <= SESSION_ROOM_FOR_SHOTS)
        return "the log is full but for shots";
    if (entry->kind == ENTRY_SHOT && session->warm_up &&
        session->shot_count >= SESSION_SHOTS_MAX - SESSION_GAMES_MAX * SESSION_GAME_SHOTS_MAX)
        return "the warm-up is full: start game 1";
    return NULL;
}

/* What is wrong with an entry, whatever is in the bag now. */
static const char *entry_fault(const Session *session, const Entry *entry)
{
    const char *full = room_fault(session, entry);
    if (full)
        return full;
    if ((unsigned)entry->lane >= SIDE_COUNT)
        return "no such lane";
    switch (entry->kind) {
    case ENTRY_SHOT:
        if (session->game_over && session->game >= session->event.games)
            return "the last game is over";
        return shot_fault(&entry->shot);
    case ENTRY_EDIT:
        if (entry->index < 0 || entry->index >= session->shot_count)
            return "no such shot";
        return shot_fault(&entry->shot);
    case ENTRY_PLAN:
        return plan_fault(&entry->plan);
    case ENTRY_APART:
        return entry->apart == session->apart ? "nothing would change" : NULL;
    case ENTRY_GAME:
        return !session->warm_up && session->game >= session->event.games ? "that was the last game"
                                                                          : NULL;
    case ENTRY_UNDO:
        return session->can_undo ? NULL : "nothing to undo";
    case ENTRY_REDO:
        return session->can_redo ? NULL : "nothing to redo";
    case ENTRY_GAP:
        return NULL;
    case ENTRY_TARGET:
        return entry->index >= 0 && entry->index <= SCORE_PERFECT
                   ? NULL
                   : "a score to aim for: 1 to 300, or 0 for none";
    case ENTRY_FRAME:
    case ENTRY_FRAME_EDIT:
        return session_told_fault(session, entry);
    default:
        return "no such entry";
    }
}

/* What is typed now must be possible; what an old log holds is kept as it is. */
const char *session_refuses(const Session *session, const Entry *entry)
{
    bool shot = entry->kind == ENTRY_SHOT || entry->kind == ENTRY_EDIT;
    const char *why = entry_fault(session, entry);
    why = why ? why : slot_fault(session, entry);
    if (!why && (entry->kind == ENTRY_FRAME || entry->kind == ENTRY_FRAME_EDIT))
        return session_told_misplaced(session, entry);
    return why || !shot ? why : shot_impossible(&entry->shot);
}

/* The others only go on from the state that there is. */
static bool changes_earlier(EntryKind kind)
{
    return kind != ENTRY_SHOT && kind != ENTRY_PLAN && kind != ENTRY_APART && kind != ENTRY_GAME &&
           kind != ENTRY_GAP && kind != ENTRY_TARGET;
}

static void add(Session *session, Entry entry)
{
    int at = session->entry_count++;
    session->entries[at] = entry;
    if (entry.kind == ENTRY_UNDO) {
        session->taken[session->taken_count++] = session->standing[--session->standing_count];
    } else if (entry.kind == ENTRY_REDO) {
        session->standing[session->standing_count++] = session->taken[--session->taken_count];
    } else {
        session->standing[session->standing_count++] = (short)at;
        session->taken_count = 0; /* a new entry clears what could be redone */
    }
    if (changes_earlier(entry.kind)) {
        session_fold(session);
    } else {
        apply_standing(session, &entry);
        settle(session);
    }
}

bool session_apply(Session *session, const Entry *entry)
{
    if (session_refuses(session, entry))
        return false;
    Entry named = *entry;
    if (entry->kind == ENTRY_SHOT || entry->kind == ENTRY_EDIT)
        session_say_ball(session, &named.shot);
    add(session, named);
    return true;
}

bool session_restore(Session *session, const Entry *entry)
{
    Entry named = *entry;
    if (entry->kind == ENTRY_FRAME && entry->index > session->shot_count)
        named.index = session->shot_count; /* shots before it were lost */
    if (entry->kind == ENTRY_FRAME && entry->ahead > 0 &&
        (entry->ahead > session->told_count ||
         session->told[entry->ahead - 1].before != named.index))
        named.ahead = 0; /* and what it was ahead of, too */
    if (entry_fault(session, &named))
        return false;
    if ((entry->kind == ENTRY_SHOT || entry->kind == ENTRY_EDIT) && !entry->shot.ball[0])
        session_say_ball(session, &named.shot); /* written before shots named their ball */
    add(session, named);
    return true;
}

Shot session_shot(Side lane, const Plan *plan)
{
    return (Shot){.lane = lane,
                  .slot = plan->slot,
                  .stance = plan->stance,
                  .aim = plan->aim,
                  .mph_change = plan->mph_change,
                  .loft_change_ft = plan->loft_change_ft,
                  .rotation_change_deg = plan->rotation_change_deg};
}

const Ball *session_ball(const Session *session, const Shot *shot)
{
    return shot->ball[0] ? bag_find(&session->bag, shot->ball)
                         : bag_slot(&session->bag, shot->slot);
}

Shot session_next_shot(const Session *session)
{
    return session_shot(session->lane, &session->plan[session->lane]);
}
