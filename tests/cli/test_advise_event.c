/* settee advise --event: what the screen answers, from the journal. */
#define _XOPEN_SOURCE 700
#include "played.h"

#include "cli/helper_run.h"
#include "core/line/first.h"
#include "ui/draw/glyphs.h"
#include "ui/model.h"

#define AT(...) run_at(played_home, NULL, (const char *const[]){__VA_ARGS__, NULL})

/* The question as the screen has it after it has found the first line, and its answers. */
static AdviceJob *on_the_screen(const char *event, Session *session, RuleSet *rules)
{
    static EventInfo info;
    static Bag bag;
    static Pattern pattern;
    static Theme theme;
    char notice[512];
    Error error = {0};
    Model *model = calloc(1, sizeof *model);
    AdviceJob *job = advice_job_new();
    assert_true(model && job);
    assert_true(files_event(event, &info, &error) && files_bag(info.bag, &bag, &error) &&
                files_pattern(info.pattern, &pattern, &error) &&
                files_rules("coach", rules, &error));
    session_begin(session, &info, &bag, &pattern, &(Plan){0});
    assert_true(journal_read(session, notice, sizeof notice, &error));
    model_init(model, session, rules, &theme, 1, &GLYPHS_UTF8);
    Plan first = first_plan(&session->bag, &model->shown.film);
    update(model, (Msg){.kind = MSG_FIRST, .plan = &first});
    AdviceInput input = model_advice_input(model);
    advice_begin(job, &input);
    while (!advice_step(job))
        continue;
    free(model);
    return job;
}

static void assert_same(const char *event)
{
    static RuleSet rules;
    Session *session = calloc(1, sizeof *session);
    assert_non_null(session);
    AdviceJob *job = on_the_screen(event, session, &rules);
    const Advice *advice = advice_result(job);
    Run run = AT("advise", "--event", event, "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run), *answers = cJSON_GetObjectItem(object, "answers");
    assert_true(advice->adjustment_count > 0);
    assert_int_equal(cJSON_GetArraySize(answers), advice->adjustment_count);
    for (int i = 0; i < advice->adjustment_count; i++) {
        const cJSON *answer = cJSON_GetArrayItem(answers, i);
        const Adjustment *mine = &advice->adjustments[i];
        assert_string_equal(cJSON_GetObjectItem(answer, "words")->valuestring, mine->words);
        assert_near(json_at(answer, "strike_after"), mine->strike_after, 5e-5);
        assert_near(json_at(answer, "pocket_after"), mine->pocket_after, 5e-5);
    }
    assert_near(json_at(object, "belief.deliveries"), advice->lane.deliveries, 0.0);
    cJSON_Delete(object);
    run_free(&run);
    advice_job_free(job);
    free(session);
}

static void as_on_the_screen(void **state)
{
    (void)state;
    played_event("config/settee/events/club.json", "Club night", "2026-11-05", "apron", "demo");
    played_shots("club", NULL, "xhsxnhh", NULL);
    assert_same("club");
}

/* Warm-up, then two pairs, on a pattern without a sheet. */
static void as_on_the_screen_after_a_move(void **state)
{
    (void)state;
    played_write(
        "config/settee/events/tour.json",
        "{\"format\": \"settee-event/1\", \"name\": \"Tour\", \"pattern\": "
        "{\"about\": {\"length_ft\": 40}}, \"bag\": \"demo\", \"pairs\": [[1, 2], [5, 6]], "
        "\"games\": 2, \"bowlers_on_pair\": 2, \"warm_up\": true, \"certified\": true}\n");
    Session *session = calloc(1, sizeof *session);
    char notice[512];
    Error error = {0};
    assert_non_null(session);
    played_shots("tour", NULL, "hx", NULL); /* warm-up, in which nothing is scored */
    Run warm = AT("advise", "--event", "tour");
    run_is(&warm, 0);
    assert_null(strstr(warm.out, ", certified"));
    assert_non_null(strstr(warm.out, "practice: nothing is scored yet"));
    run_free(&warm);
    for (int pair = 0; pair < 2; pair++) {
        played_load("tour", NULL, session);
        Journal *journal = journal_open(session, notice, sizeof notice, &error);
        assert_non_null(journal);
        assert_int_equal(session->warm_up, pair == 0);
        Entry entry = {.kind = ENTRY_GAME};
        assert_true(session_apply(session, &entry));
        assert_true(journal_append(journal, &entry, &error));
        assert_int_equal(journal_close(journal), 0);
        played_shots("tour", NULL, pair == 0 ? "xxnhs" : "hh", NULL);
    }
    played_load("tour", NULL, session);
    assert_true(journal_read(session, notice, sizeof notice, &error));
    assert_int_equal(session->game, 2);
    assert_int_equal(session->pair[0], 5);
    assert_int_equal(session->warm_up_count, 2);
    assert_int_equal(session->shot_game[2], 1);
    free(session);
    assert_same("tour");
    Run run = AT("log", "show", "tour");
    run_is(&run, 0);
    assert_non_null(strstr(run.out, "lanes 1 and 2, 5 and 6"));
    assert_non_null(strstr(run.out, "\nWarm-up\n"));
    run_free(&run);
}

static void an_event_that_nobody_bowled_yet(void **state)
{
    (void)state;
    Run run = AT("advise", "--event", "demo");
    run_is(&run, 0);
    assert_non_null(strstr(run.out, "left lane, game 1, frame 1"));
    run_free(&run);
}

static void the_journal_alone_says_it(void **state)
{
    (void)state;
    Run run = AT("advise", "--event", "demo", "--pattern", "apron");
    run_is(&run, 2);
    assert_non_null(strstr(run.fault, "its journal says what --pattern would"));
    run_free(&run);
    run = AT("advise", "--event", "no-such");
    run_is(&run, 1);
    run_free(&run);
    run = AT("advise", "--event", "demo", "--lane", "right", "--need", "clean");
    run_is(&run, 0);
    assert_non_null(strstr(run.out, "right lane, game 1, frame 1"));
    run_free(&run);
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, played_begin, played_end)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(as_on_the_screen), TEST(as_on_the_screen_after_a_move),
                                       TEST(an_event_that_nobody_bowled_yet),
                                       TEST(the_journal_alone_says_it)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
