/* cmd_advise.c - settee advise: from the shots so far to what to change next. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/cmd.h"
#include "core/advice/advice.h"
#include "core/lane/about.h"
#include "core/line/first.h"
#include "core/motion/delivery.h"
#include "core/motion/motion.h"
#include "store/files.h"
#include "store/journal.h"

enum { SHOTS_MAX = SESSION_SHOTS_MAX };

static int shots_read(const Options *options, const Setup *setup, Shot *shots, int *count)
{
    Error error = {0};
    *count = 0;
    if (!options->shots)
        return CMD_DONE;
    if (!files_shots(options->shots, shots, SHOTS_MAX, count, &error))
        return cmd_fault(CMD_FAULT, &error);
    for (int i = 0; i < *count; i++)
        if (!bag_slot(&setup->bag, shots[i].slot))
            return cmd_say(CMD_FAULT, "%s: shot %d is with slot %d, which is empty in this bag",
                           options->shots, i + 1, shots[i].slot);
    return CMD_DONE;
}

/* The lane whose turn it is: the other lane after each shot, unless all were on one. */
static Side lane_due(const Shot *shots, int count)
{
    bool both = false;
    for (int i = 1; i < count; i++)
        both = both || shots[i].lane != shots[0].lane;
    if (count == 0)
        return SIDE_LEFT;
    Side last = shots[count - 1].lane;
    return both ? (Side)!last : last;
}

/* The feet and aim of a plan whose ball is known: as given, else as in `last`, else the ball's own
 * line to the pocket in half boards, from the given feet if any. */
static int line_read(const Options *options, const Setup *setup, const Ball *ball, const Shot *last,
                     Plan *plan)
{
    bool stance = !isnan(options->stance), aim = !isnan(options->aim);
    plan->stance = stance ? options->stance : last ? last->stance : 0.0;
    plan->aim = aim ? options->aim : last ? last->aim : 0.0;
    stance = stance || plan->stance != 0.0; /* 0 in a shot: not given */
    aim = aim || plan->aim != 0.0;
    if (stance && aim)
        return CMD_DONE;
    if (aim)
        return cmd_say(CMD_USAGE, "--aim needs --stance");
    MotionBody body;
    motion_body(ball, &body);
    double offset = setup->bag.bowler.laydown_offset_boards;
    Line line = setup_line(setup, &body, stance ? plan->stance - offset : (double)NAN);
    if (!line.found)
        return cmd_say(CMD_FAULT, "%s can't reach the pocket here; give --stance and --aim",
                       ball->name);
    if (!stance)
        plan->stance = lane_half_board(line.stance); /* what a bowler can stand on and see */
    plan->aim = lane_half_board(line.aim);
    return CMD_DONE;
}

/* What would be thrown next: as given, else as in the last shot on that lane (or the last of all).
 */
static int plan_read(const Options *options, const Setup *setup, const Shot *shots, int count,
                     Side lane, Plan *plan)
{
    const Shot *last = count > 0 ? &shots[count - 1] : NULL;
    for (int i = 0; i < count; i++)
        if (shots[i].lane == lane)
            last = &shots[i];
    *plan = (Plan){.slot = options->slot ? options->slot : last ? last->slot : 0};
    if (last) {
        plan->mph_change = last->mph_change;
        plan->loft_change_ft = last->loft_change_ft;
        plan->rotation_change_deg = last->rotation_change_deg;
    }
    Error error = {0};
    Options pick = {.slot = plan->slot};
    const Ball *ball = setup_ball(&pick, setup, &error);
    if (!ball)
        return cmd_fault(CMD_FAULT, &error);
    plan->slot = ball->slot;
    return line_read(options, setup, ball, last, plan);
}

static int need_read(const Options *options, Need *need)
{
    *need = NEED_SCORE;
    for (int i = NEED_STRIKE; options->need && i < NEED_COUNT; i++)
        if (strcmp(options->need, NEED_NAMES[i]) == 0)
            *need = (Need)i;
    if (options->need && *need == NEED_SCORE)
        return cmd_say(CMD_USAGE, "--need: found '%.40s'; allowed is strike or clean",
                       options->need);
    return CMD_DONE;
}

static void signs_json(JsonOut *out, const Signs *signs, Hand hand)
{
    json_out_array(out, "signs");
    for (int sign = 0; sign < SIGN_COUNT; sign++) {
        if (!signs->seen[sign])
            continue;
        json_out_object(out, NULL);
        json_out_string(out, "sign", SIGN_NAMES[sign]);
        json_out_string(out, "words", sign_words((Sign)sign, hand));
        json_out_array(out, "shots");
        for (int i = 0; i < signs->shot_count[sign]; i++)
            json_out_integer(out, NULL, signs->shots[sign][i] + 1);
        json_out_end(out);
        json_out_end(out);
    }
    json_out_end(out);
}

static void adjustment_json(JsonOut *out, const Adjustment *adjustment, const RuleSet *rules)
{
    json_out_object(out, NULL);
    json_out_string(out, "action", ADJUST_NAMES[adjustment->kind]);
    if (adjustment->with != ADJUST_HOLD)
        json_out_string(out, "with", ADJUST_NAMES[adjustment->with]);
    json_out_string(out, "words", adjustment->words);
    json_out_integer(out, "slot", adjustment->plan.slot);
    json_out_rounded(out, "stance", adjustment->plan.stance, 2);
    json_out_rounded(out, "aim", adjustment->plan.aim, 2);
    json_out_rounded(out, "mph_change", adjustment->plan.mph_change, 2);
    json_out_rounded(out, "loft_change_ft", adjustment->plan.loft_change_ft, 2);
    json_out_rounded(out, "rotation_change_deg", adjustment->plan.rotation_change_deg, 2);
    if (adjustment->surface_grit > 0.0)
        json_out_rounded(out, "surface_grit", adjustment->surface_grit, 0);
    json_out_rounded(out, "pocket_now", adjustment->pocket_now, 4);
    json_out_rounded(out, "pocket_after", adjustment->pocket_after, 4);
    json_out_rounded(out, "pocket_if_known", adjustment->pocket_known, 4);
    json_out_rounded(out, "strike_now", adjustment->strike_now, 4);
    json_out_rounded(out, "strike_after", adjustment->strike_after, 4);
    json_out_rounded(out, "clean_now", adjustment->frame_now.clean, 4);
    json_out_rounded(out, "clean_after", adjustment->frame_after.clean, 4);
    json_out_rounded(out, "frame_now", adjustment->frame_now.score, 2);
    json_out_rounded(out, "frame_after", adjustment->frame_after.score, 2);
    json_out_rounded(out, "hit_boards", adjustment->hit_boards, 2);
    json_out_string(out, "hits", adjustment->hits);
    json_out_rounded(out, "entry_deg", adjustment->entry_deg, 3);
    json_out_rounded(out, "room_in", adjustment->margin_in, 2);
    json_out_rounded(out, "room_out", adjustment->margin_out, 2);
    json_out_array(out, "rules");
    for (int i = 0; i < adjustment->rule_count; i++)
        json_out_string(out, NULL, rules->rules[adjustment->rules[i]].id);
    json_out_end(out);
    json_out_bool(out, "disagrees", adjustment->disagrees);
    json_out_string(out, "because", adjustment->because);
    json_out_string(out, "caution", CAUTION_WORDS[adjustment->caution]);
    json_out_end(out);
}

static void estimate_json(JsonOut *out, const char *name, double mean, double sd)
{
    json_out_object(out, name);
    json_out_rounded(out, "mean", mean, 4);
    json_out_rounded(out, "sd", sd, 4);
    json_out_end(out);
}

/* What a pattern without a sheet may be. */
static void sheets_json(JsonOut *out, const LaneNow *now)
{
    json_out_array(out, "sheets");
    for (int i = 0; i < now->sheet_count; i++) {
        const AboutSheet *sheet = &now->sheets[i].sheet;
        json_out_object(out, NULL);
        json_out_rounded(out, "length_ft", sheet->length_ft, 1);
        json_out_rounded(out, "ratio", sheet->ratio, 1);
        json_out_rounded(out, "p", sheet->share, 4);
        json_out_end(out);
    }
    json_out_end(out);
}

static void belief_json(JsonOut *out, Side lane, const LaneNow *now)
{
    json_out_object(out, "belief");
    json_out_string(out, "lane", SIDE_NAMES[lane]);
    json_out_string(out, "words", now->words);
    estimate_json(out, "film_of_sheet", now->scale, now->scale_sd);
    estimate_json(out, "dry_friction", now->dry.mean, now->dry.sd);
    estimate_json(out, "wear_rate", now->wear.mean, now->wear.sd);
    estimate_json(out, "mph_today", now->mph.mean, now->mph.sd);
    estimate_json(out, "ball_off_boards", now->off.mean, now->off.sd);
    json_out_integer(out, "deliveries", now->deliveries);
    if (now->sheet_count > 0)
        sheets_json(out, now);
    json_out_end(out);
}

static int advice_json(const AdviceInput *input, const Advice *advice)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    signs_json(&out, &advice->signs, input->bag->bowler.hand);
    belief_json(&out, input->lane, &advice->lane);
    json_out_array(&out, "answers");
    for (int i = 0; i < advice->adjustment_count; i++)
        adjustment_json(&out, &advice->adjustments[i], input->rules);
    json_out_end(&out);
    json_out_end(&out);
    return cmd_json(&out);
}

static void print_signs(const Signs *signs, Hand hand)
{
    puts("\nWhat the lane and the shots say");
    bool any = false;
    for (int sign = 0; sign < SIGN_COUNT; sign++) {
        if (!signs->seen[sign])
            continue;
        any = true;
        printf("  ");
        const char *words = sign_words((Sign)sign, hand);
        int count = signs->shot_count[sign];
        if (count == 0) {
            puts(words);
            continue;
        }
        print_cell(words, 48);
        printf("shot%s ", count == 1 ? "" : "s");
        for (int i = count - 1; i >= 0; i--) /* oldest first */
            printf("%d%s", signs->shots[sign][i] + 1, i > 0 ? ", " : "\n");
    }
    if (!any)
        puts("  nothing yet");
}

/* Both where they differ: the chance if the lane is as it is thought to be, and with all doubt. */
static void print_pocket(const Adjustment *adjustment, bool fresh)
{
    double now = 100.0 * adjustment->pocket_now, after = 100.0 * adjustment->pocket_after;
    if (adjustment->pocket_known < adjustment->pocket_after + 0.01)
        printf("    Pocket %.0f %% now, %.0f %% after\n", now, after);
    else
        printf("    Pocket %.0f %% if the lane is as %s, %.0f %% as sure as we are; now %.0f %%\n",
               100.0 * adjustment->pocket_known, fresh ? "on the sheet" : "estimated", after, now);
}

static void print_adjustment(int place, const Adjustment *adjustment, const Advice *advice,
                             Need need, const RuleSet *rules)
{
    printf("\n%2d. %s\n", place, adjustment->words);
    printf("    Strike %.0f %% now, %.0f %% after; entry ", 100.0 * adjustment->strike_now,
           100.0 * adjustment->strike_after);
    print_number(adjustment->entry_deg, 1, 1);
    printf(" deg; area in %.1f, out %.1f boards\n", adjustment->margin_in, adjustment->margin_out);
    print_pocket(adjustment, advice->lane.deliveries == 0 && advice->lane.sheet_count == 0);
    if (need == NEED_CLEAN || advice->strikes_rare)
        printf("    Clean %.0f %% now, %.0f %% after; frame %.1f pins now, %.1f after\n",
               100.0 * adjustment->frame_now.clean, 100.0 * adjustment->frame_after.clean,
               adjustment->frame_now.score, adjustment->frame_after.score);
    if (adjustment->hits[0])
        printf("    It %s\n", adjustment->hits);
    printf("    Slot %d, stance %.1f, aim %.1f", adjustment->plan.slot, adjustment->plan.stance,
           adjustment->plan.aim);
    if (adjustment->plan.mph_change != 0.0)
        printf(", %+.1f mph", adjustment->plan.mph_change);
    if (adjustment->plan.loft_change_ft != 0.0)
        printf(", loft %+.0f ft", adjustment->plan.loft_change_ft);
    if (adjustment->plan.rotation_change_deg != 0.0)
        printf(", rotation %+.0f deg", adjustment->plan.rotation_change_deg);
    if (adjustment->surface_grit > 0.0)
        printf(", surface to %.0f grit", adjustment->surface_grit);
    putchar('\n');
    if (adjustment->disagrees)
        puts("    Rules and forecast disagree here.");
    if (adjustment->because[0])
        print_wrapped(adjustment->because, 4);
    if (adjustment->caution)
        print_wrapped(CAUTION_WORDS[adjustment->caution], 4);
    for (int i = 0; i < adjustment->rule_count; i++)
        printf("%s%s%s", i == 0 ? "    Rule: " : ", ", rules->rules[adjustment->rules[i]].id,
               i == adjustment->rule_count - 1 ? "\n" : "");
}

static void print_advice(const AdviceInput *input, const Advice *advice)
{
    const Plan *plan = &input->plan;
    char on[96] = "";
    pattern_words(input->pattern, on, sizeof on);
    printf("%s; %s lane, game %d, frame %d%s\n", on, SIDE_NAMES[input->lane], input->game,
           input->frame, input->certified ? ", certified" : "");
    printf("Current ball: ");
    print_ball(bag_slot(input->bag, plan->slot));
    printf(", stance %.1f, aim %.1f\n", plan->stance, plan->aim);
    if (advice->lane.off_words[0])
        printf("Ball: %s\n", advice->lane.off_words);
    printf("Lane: %s\n", advice->lane.words);
    if (advice->lane.sheet_count == 0)
        printf("Oil: %.0f %% of the worn sheet, give or take %.0f, after %d deliveries\n",
               100.0 * advice->lane.scale, 100.0 * advice->lane.scale_sd, advice->lane.deliveries);
    print_signs(&advice->signs, input->bag->bowler.hand);
    puts("\nWhat to throw next");
    for (int i = 0; i < advice->adjustment_count; i++)
        print_adjustment(i + 1, &advice->adjustments[i], advice, input->need, input->rules);
}

/* What the journal says, it alone says. */
static int alone(const Options *options)
{
    const struct {
        bool said;
        const char *name;
    } others[] = {{options->pattern != NULL, "pattern"}, {options->shots != NULL, "shots"},
                  {options->slot != 0, "slot"},          {!isnan(options->stance), "stance"},
                  {!isnan(options->aim), "aim"},         {options->certified, "certified"},
                  {options->game != 0, "game"},          {options->frame != 0, "frame"},
                  {options->bowlers != 0, "bowlers"}};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (others[i].said)
            return cmd_say(CMD_USAGE, "with --event its journal says what --%s would: leave it out",
                           others[i].name);
    return CMD_DONE;
}

/* The event as the screen would open it: its files, its journal's entries if there are any, and
 * before the first plan the best line on the sheet. */
static bool session_open(const Options *options, Session *session, char *notice, size_t size,
                         Error *error)
{
    static EventInfo event; /* large, as are bag and pattern */
    static Bag bag;
    static Pattern pattern;
    JournalHead head;
    Oil sheet;
    if (!files_event(options->event, &event, error) ||
        (options->bag && !files_event_bag(options->bag, &event, error)) ||
        !files_bag(event.bag, &bag, error) || !files_pattern(event.pattern, &pattern, error))
        return false;
    session_begin(session, &event, &bag, &pattern, &(Plan){0});
    if (journal_find(session, &head) && !journal_read(session, notice, size, error))
        return false;
    oil_lay(&session->pattern, &sheet);
    oil_for_hand(&sheet, bag.bowler.hand, &sheet);
    Plan first = first_plan(&session->bag, &sheet);
    session_say_first(session, &first);
    return first.slot != 0 || error_set(error, "no ball of this bag is in a slot");
}

static int advise(const AdviceInput *input, bool json)
{
    AdviceJob *job = advice_job_new();
    int status = CMD_DONE;
    if (!job)
        return cmd_say(CMD_FAULT, "out of memory");
    advice_begin(job, input);
    while (!advice_step(job))
        ;
    const Advice *advice = advice_result(job);
    if (advice->adjustment_count == 0)
        status = cmd_say(CMD_FAULT, "no answer: nothing in the bag does better or as well here");
    else if (json)
        status = advice_json(input, advice);
    else
        print_advice(input, advice);
    advice_job_free(job);
    return status;
}

static int advise_event(const Options *options, const RuleSet *rules)
{
    char notice[ERROR_LINE_MAX] = "";
    Error error = {0};
    int status = alone(options);
    if (status != CMD_DONE)
        return status;
    Session *session = calloc(1, sizeof *session);
    if (!session)
        return cmd_say(CMD_FAULT, "out of memory");
    if (!session_open(options, session, notice, sizeof notice, &error)) {
        status = cmd_fault(CMD_FAULT, &error);
    } else {
        Side lane = options->lane_said ? options->lane : session->lane;
        AdviceInput input = advice_input(session, lane, &session->plan[lane], rules);
        status = need_read(options, &input.need);
        if (status == CMD_DONE)
            status = advise(&input, options->json);
        if (status == CMD_DONE && notice[0])
            status = cmd_say(CMD_FAULT, "journal: %s", notice);
    }
    free(session);
    return status;
}

int cmd_advise(const Options *options)
{
    static Setup setup; /* large, as are the shots and rules */
    static Shot shots[SHOTS_MAX];
    static RuleSet rules;
    Error error = {0};
    if (options->event)
        return files_rules("coach", &rules, &error) ? advise_event(options, &rules)
                                                    : cmd_fault(CMD_FAULT, &error);
    int status = setup_read(options, &setup);
    if (status != CMD_DONE)
        return status;
    int count;
    status = shots_read(options, &setup, shots, &count);
    if (status != CMD_DONE)
        return status;
    if (!files_rules("coach", &rules, &error))
        return cmd_fault(CMD_FAULT, &error);
    AdviceInput input = {.bag = &setup.bag,
                         .pattern = &setup.pattern,
                         .rules = &rules,
                         .shots = shots,
                         .shot_count = count,
                         .lane = options->lane_said ? options->lane : lane_due(shots, count),
                         .game = options->game ? options->game : 1 + count / 10,
                         .frame = options->frame ? options->frame : 1 + count % 10,
                         .bowlers_on_pair = options->bowlers ? options->bowlers : 4,
                         .certified = options->certified};
    status = need_read(options, &input.need);
    if (status != CMD_DONE)
        return status;
    status = plan_read(options, &setup, shots, count, input.lane, &input.plan);
    return status != CMD_DONE ? status : advise(&input, options->json);
}
