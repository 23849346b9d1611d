/* score.c - frames, totals and what a target needs. */
#include "core/event/score.h"

#include <string.h>

#include "base/text.h"

enum { PINS = 10, LAST = SCORE_FRAMES - 1 };

ScoreBall score_ball_of(Pins before, Pins left)
{
    left &= before;
    return (ScoreBall){
        .pins = lane_pin_count(before) - lane_pin_count(left), .left_said = true, .left = left};
}

/* A game between two balls: only what the rules need. Bonuses are added as balls are thrown: `once`
 * and `twice` say how often the next ball and the one after it count again for earlier frames. */
typedef struct State {
    int frame, ball; /* 0..9, 0..2; frame 10: over */
    int standing;
    int once, twice;
    int points;
    bool spare_ball; /* the next ball is thrown at what an earlier one left, even all ten */
    bool mark;       /* the tenth frame has a mark: three balls */
} State;

static State state_begin(void) { return (State){.standing = PINS}; }

static void next_frame(State *s)
{
    s->frame++;
    s->ball = 0;
    s->standing = PINS;
    s->mark = s->spare_ball = false;
}

/* A ball with that many pins; the caller has checked that they stand. */
static void state_throw(State *s, int pins)
{
    bool strike = s->ball == 0 && pins == PINS;
    bool all = pins == s->standing;
    int again = s->once;
    s->once = s->twice;
    s->twice = 0;
    s->points += pins * (1 + again);
    s->standing -= pins;
    if (s->frame < LAST) {
        if (strike) {
            s->once++;
            s->twice = 1;
        } else if (all) {
            s->once++;
        }
        if (strike || s->ball == 1) {
            next_frame(s);
        } else {
            s->ball = 1;
            s->spare_ball = true;
        }
        return;
    }
    s->spare_ball = !all;
    if (all) { /* fill balls count once, for the frame itself */
        s->mark = true;
        s->standing = PINS;
    }
    s->ball++;
    if (s->ball == 3 || (s->ball == 2 && !s->mark))
        next_frame(s);
}

/* Frames: a frame's score looks ahead to later balls, as the rules say. */

static bool frame_is_spare(const Score *score, const ScoreFrame *frame)
{
    return frame->balls >= 2 && !frame->strike &&
           score->balls[frame->first].pins + score->balls[frame->first + 1].pins == PINS;
}

static void add_up(Score *score)
{
    int total = 0;
    score->total = 0;
    for (int i = 0; i < score->frame_count; i++) {
        ScoreFrame *frame = &score->frames[i];
        int counted = frame->strike || frame->spare ? 3 : 2, sum = 0;
        bool known = total != SCORE_UNKNOWN && frame->first + counted <= score->ball_count;
        for (int k = 0; known && k < counted; k++)
            sum += score->balls[frame->first + k].pins;
        frame->score = known ? sum : SCORE_UNKNOWN;
        frame->total = total = known ? total + sum : SCORE_UNKNOWN;
        if (known)
            score->total = total;
    }
}

static State replay(const Score *score)
{
    State state = state_begin();
    for (int i = 0; i < score->ball_count; i++)
        state_throw(&state, score->balls[i].pins);
    return state;
}

static void look(Score *score)
{
    State now = replay(score), best = now;
    score->over = now.frame == SCORE_FRAMES;
    score->frame = score->over ? SCORE_FRAMES : now.frame + 1;
    score->ball = score->over ? score->frames[LAST].balls : now.ball + 1;
    score->standing = score->over ? 0 : now.standing;
    score->pins_so_far = now.points;
    while (best.frame < SCORE_FRAMES)
        state_throw(&best, best.standing);
    score->best = best.points;
}

Score score_begin(void)
{
    Score score = {0};
    look(&score);
    return score;
}

bool score_add(Score *score, ScoreBall ball, char *why, size_t size)
{
    text_copy(why, size, "");
    if (score->over) {
        text_append(why, size, "the game is over after %d balls: a ball too many",
                    score->ball_count);
        return false;
    }
    if (ball.pins < 0 || ball.pins > PINS) {
        text_append(why, size, "frame %d, ball %d: %d pins; there are ten", score->frame,
                    score->ball, ball.pins);
        return false;
    }
    if (ball.foul && ball.pins != 0) {
        text_append(why, size, "frame %d, ball %d: a foul counts no pins", score->frame,
                    score->ball);
        return false;
    }
    if (ball.pins > score->standing) {
        text_append(why, size, "frame %d, ball %d: %d pin%s, but only %d stand%s", score->frame,
                    score->ball, ball.pins, ball.pins == 1 ? "" : "s", score->standing,
                    score->standing == 1 ? "s" : "");
        return false;
    }
    if (ball.left_said && lane_pin_count(ball.left) != score->standing - ball.pins) {
        text_append(why, size, "frame %d, ball %d: %d of %d pins down leave %d, not %d",
                    score->frame, score->ball, ball.pins, score->standing,
                    score->standing - ball.pins, lane_pin_count(ball.left));
        return false;
    }
    if (score->ball == 1)
        score->frames[score->frame_count++] = (ScoreFrame){.first = score->ball_count};
    ScoreFrame *frame = &score->frames[score->frame_count - 1];
    bool first = score->ball == 1;
    if (score->standing < PINS)
        ball.split = false;
    else if (ball.left_said)
        ball.split = lane_split(ball.left);
    frame->split = frame->split || ball.split;
    score->balls[score->ball_count++] = ball;
    frame->balls++;
    if (first)
        frame->strike = ball.pins == PINS;
    frame->spare = frame_is_spare(score, frame);
    add_up(score);
    look(score);
    frame->done = score->over || score->frame > score->frame_count;
    return true;
}

/* How a sheet is written. */

void score_ball_words(const Score *score, int index, char *out, size_t size)
{
    State state = state_begin();
    for (int i = 0; i < index; i++)
        state_throw(&state, score->balls[i].pins);
    const ScoreBall *ball = &score->balls[index];
    text_copy(out, size, "");
    if (ball->foul)
        text_append(out, size, "F");
    else if (ball->pins == state.standing)
        text_append(out, size, state.spare_ball ? "/" : "X");
    else if (ball->pins == 0)
        text_append(out, size, "-");
    else
        text_append(out, size, "%d", ball->pins);
    if (ball->split)
        text_append(out, size, "s");
}

static bool is_gap(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '|' || c == ','; }

/* The pins after a colon, "7-10" or "7,0"; moves past them. False: no such pin. */
static bool read_pins(const char **at, Pins *pins)
{
    *pins = 0;
    do {
        ++*at; /* the colon or a separator */
        int pin = **at >= '0' && **at <= '9' ? **at - '0' : -1;
        if (pin < 0)
            return false;
        ++*at;
        if (pin == 1 && **at == '0') {
            pin = 10;
            ++*at;
        }
        Pins bit = pin_bit(pin == 0 ? 10 : pin);
        if (*pins & bit)
            return false;
        *pins |= bit;
    } while (**at == '-' || **at == ',');
    return !(**at >= '0' && **at <= '9');
}

/* One ball and what follows it; moves past it. */
static bool read_ball(const Score *score, const char **at, ScoreBall *ball, char *why, size_t size)
{
    char c = **at;
    State state = replay(score);
    *ball = (ScoreBall){0};
    if (c >= '0' && c <= '9')
        ball->pins = c - '0';
    else if (c == 'X' || c == 'x')
        ball->pins = PINS;
    else if (c == 'F' || c == 'f')
        ball->foul = true;
    else if (c == '/')
        ball->pins = score->standing;
    else if (c != '-') {
        text_append(why, size, "no ball is written '%c'; X / - F and 0 to 9 are", c);
        return false;
    }
    bool spare = !score->over && state.spare_ball;
    if (!score->over && (c == '/' || ball->pins == PINS) && spare != (c == '/')) {
        text_append(why, size, "frame %d, ball %d: %s", score->frame, score->ball,
                    spare ? "what an earlier ball left is cleared with /, not X"
                          : "/ is a spare, and this is a first ball at ten pins");
        return false;
    }
    ++*at;
    if (**at == 's' || **at == 'S') {
        ball->split = true;
        ++*at;
    }
    if (**at == ':') {
        ball->left_said = true;
        if (!read_pins(at, &ball->left)) {
            text_append(why, size,
                        "frame %d, ball %d: pins behind a colon are 1 to 10 (or 0), "
                        "each once: 8:7-10",
                        score->frame, score->ball);
            return false;
        }
    }
    return true;
}

bool score_read(Score *score, const char *text, char *why, size_t size)
{
    text_copy(why, size, "");
    for (const char *at = text; *at;) {
        if (is_gap(*at)) {
            at++;
            continue;
        }
        bool starts = at == text || is_gap(at[-1]);
        if (starts && at[0] == '1' && at[1] == '0' && (!at[2] || is_gap(at[2]))) {
            text_append(why, size, "'10' may be ten or 1 and 0: write X (or /), or 1 -");
            return false;
        }
        ScoreBall ball;
        if (!read_ball(score, &at, &ball, why, size) || !score_add(score, ball, why, size))
            return false;
    }
    return true;
}

/* What a target needs: tries every way to go on in which each ball takes all or all but one, fewest
 * marks first. Ten frames of three ways each are few enough to try them all. */

enum { WAY_BALLS = SCORE_BALLS_MAX };
typedef struct Search {
    int target;
    int marks, strikes; /* of the best way so far */
    bool found;
    int length, best_length;
    unsigned char way[WAY_BALLS], best_way[WAY_BALLS];
} Search;

/* The most that can still be added with every ball a strike. */
static int most(const State *state)
{
    State s = *state;
    while (s.frame < SCORE_FRAMES)
        state_throw(&s, s.standing);
    return s.points;
}

static void search(Search *find, const State *state, int marks, int strikes)
{
    if (find->found && (marks > find->marks || (marks == find->marks && strikes >= find->strikes)))
        return;
    if (state->points >= find->target || state->frame == SCORE_FRAMES) {
        if (state->points < find->target)
            return;
        find->found = true;
        find->marks = marks;
        find->strikes = strikes;
        find->best_length = find->length;
        memcpy(find->best_way, find->way, sizeof find->way);
        return;
    }
    if (most(state) < find->target)
        return;
    for (int miss = 0; miss < 2; miss++) {
        State next = *state;
        int pins = state->standing - miss;
        state_throw(&next, pins);
        find->way[find->length++] = (unsigned char)pins;
        search(find, &next, marks + !miss, strikes + (!miss && !state->spare_ball));
        find->length--;
    }
}

static void way_words(const State *from, const Search *found, char *out, size_t size)
{
    State s = *from;
    text_copy(out, size, "");
    for (int i = 0; i < found->best_length; i++) {
        int pins = found->best_way[i];
        bool second = s.spare_ball;
        if (i > 0 && !second)
            text_append(out, size, " ");
        if (second && pins == s.standing)
            text_append(out, size, "/");
        else if (pins == PINS)
            text_append(out, size, "X");
        else if (pins == 0)
            text_append(out, size, "-");
        else
            text_append(out, size, "%d", pins);
        state_throw(&s, pins);
    }
}

static void count_words(char *out, size_t size, int count, const char *one)
{
    static const char *const NUMBERS[] = {"no",   "one",    "two",   "three", "four",
                                          "five", "six",    "seven", "eight", "nine",
                                          "ten",  "eleven", "twelve"};
    text_append(out, size, "%s %s%s", count <= 12 ? NUMBERS[count] : "many", one,
                count == 1 ? "" : "s");
}

ScoreNeed score_need(const Score *score, int target)
{
    ScoreNeed need = {0};
    State from = replay(score);
    Search find = {.target = target};
    search(&find, &from, 0, 0);
    need.possible = find.found;
    text_append(need.words, sizeof need.words, "%d: ", target);
    if (!find.found) {
        text_append(need.words, sizeof need.words, "out of reach, %d is the best from here",
                    score->best);
        return need;
    }
    need.marks = find.marks;
    need.strikes = find.strikes;
    need.spares = find.marks - find.strikes;
    way_words(&from, &find, need.way, sizeof need.way);
    if (score->pins_so_far >= target)
        text_append(need.words, sizeof need.words, "already there");
    else if (need.marks == 0)
        text_append(need.words, sizeof need.words, "no mark needed, nine a frame is enough");
    else {
        if (need.strikes > 0)
            count_words(need.words, sizeof need.words, need.strikes, "strike");
        if (need.strikes > 0 && need.spares > 0)
            text_append(need.words, sizeof need.words, " and ");
        if (need.spares > 0)
            count_words(need.words, sizeof need.words, need.spares, "spare");
        text_append(need.words, sizeof need.words, " at the least, the rest nines: %s, for one",
                    need.way);
    }
    return need;
}
