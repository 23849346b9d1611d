/* test_again.c - an event played again: the day that is drawn is the day that is believed, doing
 * the same again is the same to the pin, and a better way is told from a worse one. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/advice/recall.h"
#include "core/rehearse/again.h"
#include "core/rehearse/world_day.h"
#include "store/files.h"

static Bag BAG;
static Pattern PATTERN;
static RuleSet RULES;
static Session *SESSION; /* two games, bowled on one line */
static Plan LINE;

/* Bowls it on a hidden lane and enters what was seen. */
static void bowl(void)
{
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    RehearseSetup setup = {.bag = &BAG,
                           .pattern = &PATTERN,
                           .rules = &RULES,
                           .world = &WORLD_KIN,
                           .player = &PLAYER_HOLD,
                           .games = 2,
                           .bowlers_on_pair = 2,
                           .seed = 16510};
    EventInfo event = {.id = "spring", .name = "Spring", .pair = {7, 8}, .games = 2};
    event.bowlers_on_pair = 2;
    event.certified = true;
    assert_true(job && out);
    rehearse_play(job, &setup, out);
    LINE = shot_plan(&out->shots[0].shot);
    session_begin(SESSION, &event, &BAG, &PATTERN, &LINE);
    for (int i = 0; i < out->shot_count; i++) {
        Entry entry = {
            .kind = ENTRY_SHOT, .lane = out->shots[i].shot.lane, .shot = out->shots[i].shot};
        assert_true(session_restore(SESSION, &entry));
    }
    Score score;
    for (int game = 1; game <= 2; game++) {
        assert_true(session_score(SESSION, game, &score) && score.over);
        assert_int_equal(score.total, out->score[game - 1]);
    }
    free(out);
    rehearse_free(job);
}

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    SESSION = calloc(1, sizeof *SESSION);
    if (!SESSION || !files_bag("demo", &BAG, &error) || !files_pattern("apron", &PATTERN, &error) ||
        !files_rules("coach", &RULES, &error))
        return -1;
    bowl();
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    free(SESSION);
    return 0;
}

static Again again(AgainSetup setup)
{
    AgainJob *job = again_new();
    Again out;
    Error error = {0};
    assert_non_null(job);
    setup.session = SESSION;
    setup.rules = &RULES;
    if (!again_begin(job, &setup, &out, &error))
        fail_msg("%s", error.text);
    while (!again_step(job))
        ;
    again_free(job);
    return out;
}

static AgainSetup setup_of(int game, int frame, const Player *player)
{
    return (AgainSetup){.game = game,
                        .frame = frame,
                        .draws = 12,
                        .stance = NAN,
                        .aim = NAN,
                        .player = player,
                        .seed = 1};
}

/* The mean over the drawn days of what a line does is what the forecast says of it. */
static void check_day(const About *about)
{
    enum { DRAWS = 256 };
    Oil sheet;
    Memory *memory = malloc(sizeof *memory);
    Forecast *forecast = malloc(sizeof *forecast);
    Day *day = malloc(sizeof *day);
    Truth *truth = truth_new();
    World every = WORLD_DAY;
    int particles[DRAWS];
    assert_true(memory && forecast && day && truth);
    every.every = 1;
    oil_lay(&PATTERN, &sheet);
    oil_for_hand(&sheet, BAG.bowler.hand, &sheet);
    memory_init(memory);
    memory_recall(memory, &BAG, &sheet, about, 2, &(FieldMix){0}, &(Played){0}, 1, SESSION->shots,
                  SESSION->shot_count);
    while (memory_weigh(memory, SESSION->shots, SESSION->shot_count))
        ;
    day->after = &memory->belief;
    memcpy(day->film, memory->belief.film, sizeof day->film);
    belief_draw(day->after, particles, DRAWS);
    for (int lane = 0; lane < SIDE_COUNT; lane++)
        for (int other = 0; other < 2;
             other++) { /* the line that was thrown, and one that wasn't */
            Plan plan = {.slot = other ? 4 : LINE.slot,
                         .stance = LINE.stance + 4.0 * other,
                         .aim = LINE.aim + 2.0 * other};
            const Ball *ball = bag_slot(&BAG, plan.slot);
            MotionBody body;
            BatchBall batch;
            motion_body(ball, &body);
            batch_ball(&body, &batch);
            Delivery meant = plan_delivery(&BAG.bowler, &plan);
            forecast_prepare(forecast, day->after, (Side)lane, &BAG.bowler);
            Outlook believed =
                forecast_delivery(forecast, belief_ball(day->after, ball->id), &batch, &meant);
            double strike = 0.0, board = 0.0;
            for (int i = 0; i < DRAWS; i++) {
                day->particle = particles[i];
                truth->given = day;
                truth_draw(truth, &every, &BAG, &sheet, (uint64_t)i);
                truth_prepare(truth, (Side)lane, 1);
                Outlook drawn = truth_outlook(truth, (Side)lane, plan.slot, &meant);
                strike += drawn.strike / DRAWS;
                board += drawn.board / DRAWS;
                Roll roll;
                Rng luck = rng_seed(1);
                every.roll(truth, (Side)lane, plan.slot, &meant, &luck, &roll);
                if (!roll.gutter) /* the path that is drawn ends where it is said to hit */
                    assert_near(roll.path[roll.count - 1].board, roll.entry_board, 1e-6);
            }
            assert_near(strike, believed.strike, 0.04);
            assert_near(board, believed.board, 0.4);
        }
    truth_free(truth);
    free(day);
    free(forecast);
    free(memory);
}

static void test_day_is_as_believed(void **state)
{
    (void)state;
    check_day(&(About){0});
}

static void test_day_without_a_sheet(void **state)
{
    (void)state;
    check_day(&(About){.only = true});
}

/* Holding the line that was held is what was bowled, on every draw. */
static void test_the_same_again(void **state)
{
    (void)state;
    Again same = again(setup_of(1, 4, &PLAYER_HOLD));
    assert_int_equal(same.draws, 12);
    assert_int_equal(same.first_game, 1);
    assert_int_equal(same.last_game, 2);
    assert_int_equal(same.shots, SESSION->shot_count);
    assert_near(same.difference.mean, 0.0, 0.0);
    assert_near(same.difference.error, 0.0, 0.0);
    assert_near(same.better, 0.0, 0.0);
    assert_near(same.strike_gain, 0.0, 0.0);
    assert_true(same.bowled.low <= same.bowled.mean && same.bowled.mean <= same.bowled.high);
    assert_less(same.bowled.low, same.bowled.high); /* lanes and luck differ */
    Again once_more = again(setup_of(1, 4, &PLAYER_HOLD));
    assert_memory_equal(&same, &once_more, sizeof same);
}

/* This line was light all day. Another ball half a lane out is worse; what the day told is better
 * used by who follows the advice. */
static void test_better_and_worse(void **state)
{
    (void)state;
    AgainSetup setup = setup_of(2, 1, &PLAYER_HOLD);
    setup.aim = LINE.aim - 7.0;
    Again worse = again(setup);
    assert_less(worse.difference.mean + 2.0 * worse.difference.error, 0.0);
    assert_less(worse.strike_gain, -0.02);
    setup = setup_of(2, 1, &PLAYER_ADVISOR);
    Again better = again(setup);
    assert_less(0.0, better.difference.mean - 2.0 * better.difference.error);
    assert_less(0.1, better.strike_gain);
    assert_near(worse.bowled.mean, better.bowled.mean, 0.0); /* the same lanes and luck */
    assert_near(better.other.mean - better.bowled.mean, better.difference.mean, 1e-9);
}

/* A frame deep in a game keeps the score that led to it. */
static void test_from_the_last_frame(void **state)
{
    (void)state;
    Score score;
    assert_true(session_score(SESSION, 2, &score));
    Again last = again(setup_of(2, 10, &PLAYER_COACH));
    int before = 0;
    for (int i = 0; i < score.frames[9].first; i++)
        before += score.balls[i].pins;
    assert_true(last.bowled.low >= before && last.bowled.high <= before + 90);
    assert_int_equal(last.first_game, 2);
}

/* Where the pattern has no sheet, each draw has one of those that it may have been. */
static void test_without_a_sheet(void **state)
{
    (void)state;
    Error error = {0};
    Pattern sheet = SESSION->pattern;
    assert_true(files_pattern("about:nothing", &SESSION->pattern, &error));
    Again some = again(setup_of(2, 6, &PLAYER_HOLD));
    assert_int_equal(some.draws, 12);
    assert_near(some.difference.mean, 0.0, 0.0);
    assert_true(some.strikes[0] > 0.0 && some.strikes[0] < 1.0);
    SESSION->pattern = sheet;
    for (int film = 0; film < BELIEF_FILMS_MAX; film++) { /* of every sheet the same rates */
        WearRate rate = belief_rate(film), first = belief_rate(film % BELIEF_FILMS);
        assert_near(rate.pick, first.pick, 0.0);
        assert_near(rate.carry, first.carry, 0.0);
    }
}

static void refused(int game, int frame, const char *why)
{
    AgainJob *job = again_new();
    AgainSetup setup = setup_of(game, frame, &PLAYER_HOLD);
    Again out;
    Error error = {0};
    assert_non_null(job);
    setup.session = SESSION;
    setup.rules = &RULES;
    assert_false(again_begin(job, &setup, &out, &error));
    assert_non_null(strstr(error.text, why));
    again_free(job);
}

static void test_what_cannot_be_played_again(void **state)
{
    (void)state;
    refused(3, 1, "no first ball was entered in game 3, frame 1");
    bool said = SESSION->shots[1].left_said;
    SESSION->shots[1].left_said = false;
    refused(1, 5, "the score of game 1 before frame 5 isn't known");
    SESSION->shots[1].left_said = said;
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_day_is_as_believed),
                                       cmocka_unit_test(test_day_without_a_sheet),
                                       cmocka_unit_test(test_the_same_again),
                                       cmocka_unit_test(test_better_and_worse),
                                       cmocka_unit_test(test_from_the_last_frame),
                                       cmocka_unit_test(test_without_a_sheet),
                                       cmocka_unit_test(test_what_cannot_be_played_again)};
    return cmocka_run_group_tests_name("again", tests, set_up, tear_down);
}
