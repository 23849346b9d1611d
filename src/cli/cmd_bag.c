/* cmd_bag.c - settee bag: what each ball is for, which do the same, and the best of the locker. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/advice/rules.h"
#include "core/arsenal/arsenal.h"
#include "store/files.h"

enum { GAMES_USUAL = 6, BOWLERS_USUAL = 4, GAME_COLUMNS = 7 };
enum { MAP_ROWS = 9, MAP_COLUMNS = 61 };
#define MAP_FT_FIRST 28.0
#define MAP_FT_STEP 0.5
#define MAP_DEG_TOP 7.0
#define MAP_DEG_STEP 0.5

typedef struct Report {
    const Options *options;
    const Setup *setup;
    const Bag *bag;
    const Arsenal *arsenal;
} Report;

/* "fresh=3,burnt=1" */
static bool read_weights(const char *text, double weight[LANE_STATE_COUNT], Error *error)
{
    double sum = 0.0;
    for (const char *at = text; *at;) {
        char name[24];
        size_t size = strcspn(at, "=,");
        snprintf(name, sizeof name, "%.*s", size < 23 ? (int)size : 23, at);
        int state = 0;
        while (state < LANE_STATE_COUNT && strcmp(LANE_STATE_NAMES[state], name) != 0)
            state++;
        if (state == LANE_STATE_COUNT) {
            const char *near = text_nearest(name, LANE_STATE_NAMES);
            return error_set(error, "--weights: no lane '%s'; did you mean '%s'?", name,
                             near ? near : LANE_STATE_NAMES[0]);
        }
        at += size;
        char *end = NULL;
        double value = *at == '=' && strspn(at + 1, "0123456789.") > 0 ? strtod(at + 1, &end) : -1;
        if (!end || (*end && *end != ',') || !(value >= 0.0 && value <= 1000.0))
            return error_set(error, "--weights: '%s' needs a number from 0 to 1000: %s=2", name,
                             name);
        weight[state] = value;
        sum += value;
        at = *end ? end + 1 : end;
    }
    return sum > 0.0 ? true : error_set(error, "--weights: all of them are 0");
}

static double hundredth(double value) { return 100.0 * value; }

static void title(const Report *report)
{
    const Bowler *bowler = &report->bag->bowler;
    printf("%s's bag on %s, %g ft: %d game%s, %d bowler%s on the pair\n%s hand: ", bowler->name,
           report->setup->pattern.name, report->setup->pattern.length_ft, report->arsenal->games,
           report->arsenal->games == 1 ? "" : "s", report->arsenal->bowlers,
           report->arsenal->bowlers == 1 ? "" : "s", HAND_NAMES[bowler->hand]);
    print_release(bowler);
    puts("\n");
}

static void print_name(const Ball *ball)
{
    if (ball->slot)
        printf("%3d  ", ball->slot);
    else
        printf("  -  ");
    print_cell(ball->name, 16);
}

static void print_fresh(const Report *report)
{
    puts("Each ball on its own best line, fresh");
    puts("                       hooks     break-   entry  boards           pocket");
    puts("slot ball                 at      point     deg  crossed  flare   chance   area");
    for (int i = 0; i < report->bag->count; i++) {
        const Ball *ball = &report->bag->balls[i];
        const Showing *show = &report->arsenal->ball[i].at[0];
        print_name(ball);
        if (!show->found) {
            puts("  no line brings it to the pocket");
            continue;
        }
        const Line *line = &show->line;
        print_number(line->hook_ft, 3, 0);
        printf(" ft");
        print_breakpoint(line, 11);
        printf("%8.1f%9.1f%4.1f in%6.0f %%%7.1f\n", line->entry_deg, show->crossed_boards,
               show->flare_in, 100.0 * line->pocket, line->margin_in + line->margin_out);
    }
}

/* The games with a column: all, or some at even distances; and the lane after the last. */
static int columns_of(int games, int column[GAME_COLUMNS])
{
    int count = games + 1 < GAME_COLUMNS ? games + 1 : GAME_COLUMNS;
    for (int i = 0; i < count; i++)
        column[i] = count < 2 ? 0 : (int)lround((double)games * i / (count - 1));
    return count;
}

static void print_games(const Report *report)
{
    int column[GAME_COLUMNS], count = columns_of(report->arsenal->games, column);
    puts("\nThrough the block: pocket chance, and @ the board it is laid down on");
    printf("%-21s", "slot ball");
    for (int i = 0; i < count; i++)
        if (column[i] < report->arsenal->games)
            printf("  game%2d", column[i] + 1);
        else
            printf("   after");
    putchar('\n');
    for (int b = 0; b < report->bag->count; b++) {
        print_name(&report->bag->balls[b]);
        for (int i = 0; i < count; i++) {
            const Showing *show = &report->arsenal->ball[b].at[column[i]];
            if (show->found)
                printf("%4.0f @%2.0f", 100.0 * show->line.pocket, show->line.laydown_board);
            else
                printf("       -");
        }
        putchar('\n');
    }
}

static void print_map(const Report *report)
{
    char map[MAP_ROWS + 1][MAP_COLUMNS + 1];
    memset(map, ' ', sizeof map);
    for (int i = 0; i < report->bag->count; i++) {
        const Showing *show = &report->arsenal->ball[i].at[0];
        int slot = report->bag->balls[i].slot;
        if (!show->found || isnan(show->line.hook_ft))
            continue;
        int x = (int)lround((show->line.hook_ft - MAP_FT_FIRST) / MAP_FT_STEP);
        int y = (int)lround((MAP_DEG_TOP - show->line.entry_deg) / MAP_DEG_STEP);
        x = x < 0 ? 0 : x > MAP_COLUMNS - 1 ? MAP_COLUMNS - 1 : x;
        y = y < 0 ? 0 : y > MAP_ROWS - 1 ? MAP_ROWS - 1 : y;
        while (x < MAP_COLUMNS - 1 && map[y][x] != ' ')
            x++;
        map[y][x] = slot ? (char)('0' + slot) : '.';
    }
    puts("\nEntry angle over where it hooks, fresh: slots by number, locker as a point");
    for (int row = 0; row < MAP_ROWS; row++) {
        map[row][MAP_COLUMNS] = '\0';
        for (int end = MAP_COLUMNS - 1; end >= 0 && map[row][end] == ' '; end--)
            map[row][end] = '\0';
        printf("%4.1f deg | %s\n", MAP_DEG_TOP - MAP_DEG_STEP * row, map[row]);
    }
    printf("           28 ft     33        38        43        48        53        58\n");
}

static const char *slot_name(const Report *report, int ball, char out[64])
{
    const Ball *one = &report->bag->balls[ball];
    if (one->slot)
        snprintf(out, 64, "%d %s", one->slot, one->name);
    else
        snprintf(out, 64, "%s", one->name);
    return out;
}

/* "+1.5", or "-" if one of the two has none. */
static const char *signed_words(double value, char out[16])
{
    if (isnan(value))
        snprintf(out, 16, "-");
    else
        snprintf(out, 16, "%+.1f", value);
    return out;
}

static void print_overlaps(const Report *report)
{
    const Arsenal *arsenal = report->arsenal;
    char a[64], b[64], move[16], entry[16];
    puts("\nPairs: on what share of the lanes either does about as well as the other");
    for (int i = 0; i < arsenal->overlap_count; i++) {
        const Overlap *pair = &arsenal->overlap[i];
        if (pair->share < 0.10 && i >= 3)
            break; /* "none" of the rest */
        printf("%4.0f %%  %-6s  %s and %s: hooks %s ft, entry %s\n", 100.0 * pair->share,
               arsenal_overlap_word(pair->share), slot_name(report, pair->a, a),
               slot_name(report, pair->b, b), signed_words(pair->move_ft, move),
               signed_words(pair->entry_deg, entry));
    }
}

static void print_gaps(const Report *report)
{
    char name[64];
    puts("\nLanes, and the best answer to each (strikes in a hundred, with a bit for area)");
    puts("lane        share  best of the bag          of all   ideal   short by");
    for (int s = 0; s < LANE_STATE_COUNT; s++) {
        const Gap *gap = &report->arsenal->gap[s];
        printf("%-11s%4.0f %%  ", LANE_STATE_NAMES[s], 100.0 * report->arsenal->weight[s]);
        print_cell(gap->ball < 0 ? "none" : slot_name(report, gap->ball, name), 18);
        printf("%5.1f%9.1f%8.1f%9.1f%s\n", hundredth(gap->best), hundredth(gap->locker),
               hundredth(gap->ideal), hundredth(gap->ideal - gap->best), gap->open ? "  gap" : "");
    }
    for (int s = 0; s < LANE_STATE_COUNT; s++) {
        const Gap *gap = &report->arsenal->gap[s];
        if (!gap->open)
            continue;
        GapAnswer answer = arsenal_gap_answer(gap);
        char text[240] = "";
        text_append(text, sizeof text, "Gap, %s (%s): ", LANE_STATE_NAMES[s], LANE_STATE_WORDS[s]);
        if (answer == GAP_BY_LOCKER)
            text_append(text, sizeof text, "%s in the locker would answer it.",
                        report->bag->balls[gap->locker_ball].name);
        else if (answer == GAP_BY_IDEAL)
            text_append(text, sizeof text, "nothing in the locker does; a %s would.",
                        arsenal_ideals()[gap->ideal_ball].words);
        else
            text_append(text, sizeof text, "no single ball answers it; two would share it.");
        print_wrapped(text, 0);
    }
}

static void surface_words(const Report *report, const SurfaceAdvice *advice, char *out, size_t size)
{
    char surface[32], name[64], other[64];
    ball_surface_words(&SURFACE_SET[advice->surface], surface, sizeof surface);
    out[0] = '\0';
    text_append(out, size, "%s to %s: ", slot_name(report, advice->ball, name), surface);
    if (advice->other >= 0)
        text_append(out, size, "does the same as %s on %.0f %% of lanes instead of %.0f",
                    slot_name(report, advice->other, other), 100.0 * advice->after,
                    100.0 * advice->before);
    else
        text_append(out, size, "short by %.1f instead of %.1f on a lane %s",
                    hundredth(advice->after), hundredth(advice->before),
                    LANE_STATE_NAMES[advice->state]);
    text_append(out, size, "; the bag %+.1f", hundredth(advice->value_gain));
}

static void print_surfaces(const Report *report)
{
    const Arsenal *arsenal = report->arsenal;
    char text[240];
    if (report->options->certified) {
        puts("\nSurfaces: none, scored play: a ball is thrown as it is");
        return;
    }
    puts("\nSurfaces, fresh lane: where it hooks in ft, and pocket chance");
    printf("%-21s%8s%8s%8s%8s%8s%8s%8s\n", "slot ball", "500", "1000", "2000", "3000", "4000",
           "compnd", "polish");
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(report->bag, slot);
        if (!ball || !arsenal->ball[ball - report->bag->balls].surface[0].ready)
            continue;
        print_name(ball);
        for (int k = 0; k < SURFACES; k++) {
            const SurfaceShow *show = &arsenal->ball[ball - report->bag->balls].surface[k];
            print_number(show->hook_ft, 4, 0);
            printf("/%3.0f", 100.0 * show->pocket);
        }
        putchar('\n');
    }
    if (arsenal->advice_count == 0) {
        puts("No small change sets a pair apart or closes a gap.");
        return;
    }
    puts("Smallest changes that set a pair apart or close a gap, only before scoring:");
    for (int i = 0; i < arsenal->advice_count; i++) {
        surface_words(report, &arsenal->advice[i], text, sizeof text);
        print_wrapped(text, 2);
    }
    print_wrapped(CAUTION_WORDS[CAUTION_SURFACE], 2);
}

static void print_set(const Report *report, const Set *set)
{
    for (int i = 0; i < set->count; i++) {
        const SetBall *place = &set->place[i];
        const Ball *ball = &report->bag->balls[place->ball];
        char surface[32], text[320] = "";
        ball_surface_words(place->surface < 0 ? &ball->surface : &SURFACE_SET[place->surface],
                           surface, sizeof surface);
        printf("%2d  %s, %s%s%s\n", i + 1, ball->name, place->surface < 0 ? "" : "put on ", surface,
               ball->slot ? "" : " (from the locker)");
        text_append(text, sizeof text, "%s", place->job);
        if (place->game_from && place->game_from == place->game_to)
            text_append(text, sizeof text, "; game %d", place->game_from);
        else if (place->game_from)
            text_append(text, sizeof text, "; games %d to %d", place->game_from, place->game_to);
        if (place->stand_in >= 0)
            text_append(text, sizeof text, ". Stand-in: %s, %s %.1f",
                        report->bag->balls[place->stand_in].name,
                        place->loss < 0.0 ? "gains" : "costs", hundredth(fabs(place->loss)));
        print_wrapped(text, 4);
    }
}

static void print_report(const Report *report)
{
    const Arsenal *arsenal = report->arsenal;
    title(report);
    print_fresh(report);
    print_games(report);
    print_map(report);
    print_overlaps(report);
    print_gaps(report);
    print_surfaces(report);
    printf("\nJobs in the bag as it is, worth %.1f, as they come out\n",
           hundredth(arsenal->bag.value));
    print_set(report, &arsenal->bag);
    if (report->options->pick > 0) {
        printf("\nThe best %d of %d for these lanes, worth %.1f\n", arsenal->picked.count,
               report->bag->count, hundredth(arsenal->picked.value));
        print_set(report, &arsenal->picked);
        if (report->options->surfaces && !report->options->certified)
            print_wrapped(CAUTION_WORDS[CAUTION_SURFACE], 2);
    }
}

static void id_json(const Report *report, JsonOut *out, const char *key, int ball)
{
    json_out_string(out, key, ball < 0 ? NULL : report->bag->balls[ball].id);
}

static void surface_json(JsonOut *out, const Surface *surface)
{
    char words[32];
    ball_surface_words(surface, words, sizeof words);
    json_out_string(out, "surface", words);
}

static void showing_json(JsonOut *out, const Showing *show, int game)
{
    const Line *line = &show->line;
    json_out_object(out, NULL);
    json_out_integer(out, "after_games", game);
    json_out_bool(out, "found", show->found);
    json_out_rounded(out, "worth", show->value, 4);
    if (show->found) {
        json_stand(out, line->stance, line->aim, line->laydown_board);
        json_motion(out, line);
        json_out_rounded(out, "crossed_boards", show->crossed_boards, 2);
        json_out_rounded(out, "flare_in", show->flare_in, 2);
        json_pocket(out, line);
    }
    json_out_end(out);
}

static void balls_json(const Report *report, JsonOut *out)
{
    json_out_array(out, "balls");
    for (int i = 0; i < report->bag->count; i++) {
        const Ball *ball = &report->bag->balls[i];
        json_out_object(out, NULL);
        json_out_string(out, "id", ball->id);
        json_slot(out, ball);
        json_out_rounded(out, "worth", report->arsenal->ball[i].mean, 4);
        json_out_array(out, "games");
        for (int game = 0; game <= report->arsenal->games; game++)
            showing_json(out, &report->arsenal->ball[i].at[game], game);
        json_out_end(out);
        if (report->arsenal->ball[i].surface[0].ready) {
            json_out_array(out, "surfaces");
            for (int k = 0; k < SURFACES; k++) {
                const SurfaceShow *show = &report->arsenal->ball[i].surface[k];
                json_out_object(out, NULL);
                surface_json(out, &SURFACE_SET[k]);
                json_out_rounded(out, "first_move_ft", show->first_move_ft, 2);
                json_out_rounded(out, "hook_ft", show->hook_ft, 2);
                json_out_rounded(out, "entry_deg", show->entry_deg, 3);
                json_out_rounded(out, "pocket", show->pocket, 4);
                json_out_rounded(out, "worth", show->mean, 4);
                json_out_end(out);
            }
            json_out_end(out);
        }
        json_out_end(out);
    }
    json_out_end(out);
}

static void compare_json(const Report *report, JsonOut *out)
{
    const Arsenal *arsenal = report->arsenal;
    json_out_array(out, "overlaps");
    for (int i = 0; i < arsenal->overlap_count; i++) {
        json_out_object(out, NULL);
        id_json(report, out, "a", arsenal->overlap[i].a);
        id_json(report, out, "b", arsenal->overlap[i].b);
        json_out_rounded(out, "share", arsenal->overlap[i].share, 4);
        json_out_string(out, "word", arsenal_overlap_word(arsenal->overlap[i].share));
        json_out_rounded(out, "later_ft", arsenal->overlap[i].move_ft, 2);
        json_out_rounded(out, "more_entry_deg", arsenal->overlap[i].entry_deg, 3);
        json_out_end(out);
    }
    json_out_end(out);
    json_out_array(out, "lanes");
    for (int s = 0; s < LANE_STATE_COUNT; s++) {
        const Gap *gap = &arsenal->gap[s];
        json_out_object(out, NULL);
        json_out_string(out, "lane", LANE_STATE_NAMES[s]);
        json_out_rounded(out, "weight", arsenal->weight[s], 4);
        id_json(report, out, "ball", gap->ball);
        json_out_rounded(out, "best", gap->best, 4);
        id_json(report, out, "locker_ball", gap->locker_ball);
        json_out_rounded(out, "locker", gap->locker, 4);
        json_out_string(out, "ideal_ball",
                        gap->ideal_ball < 0 ? NULL : arsenal_ideals()[gap->ideal_ball].words);
        json_out_rounded(out, "ideal", gap->ideal, 4);
        json_out_bool(out, "gap", gap->open);
        json_out_end(out);
    }
    json_out_end(out);
    json_out_array(out, "surface_changes");
    for (int i = 0; i < arsenal->advice_count; i++) {
        const SurfaceAdvice *advice = &arsenal->advice[i];
        char text[240];
        json_out_object(out, NULL);
        id_json(report, out, "id", advice->ball);
        surface_json(out, &SURFACE_SET[advice->surface]);
        id_json(report, out, "apart_from", advice->other);
        json_out_string(out, "lane", advice->other < 0 ? LANE_STATE_NAMES[advice->state] : NULL);
        json_out_rounded(out, "before", advice->before, 4);
        json_out_rounded(out, "after", advice->after, 4);
        json_out_rounded(out, "worth_gain", advice->value_gain, 4);
        surface_words(report, advice, text, sizeof text);
        json_out_string(out, "words", text);
        json_out_string(out, "caution", CAUTION_WORDS[CAUTION_SURFACE]);
        json_out_end(out);
    }
    json_out_end(out);
}

static void set_json(const Report *report, JsonOut *out, const char *key, const Set *set)
{
    json_out_array(out, key);
    for (int i = 0; i < set->count; i++) {
        const SetBall *place = &set->place[i];
        const Ball *ball = &report->bag->balls[place->ball];
        json_out_object(out, NULL);
        json_out_string(out, "id", ball->id);
        json_out_integer(out, "slot", i + 1);
        surface_json(out, place->surface < 0 ? &ball->surface : &SURFACE_SET[place->surface]);
        json_out_bool(out, "surface_changed", place->surface >= 0);
        json_out_bool(out, "spare", place->spare);
        json_out_string(out, "job", place->job);
        json_out_rounded(out, "best_on", place->share, 4);
        json_out_rounded(out, "gives", place->gives, 4);
        if (place->game_from) {
            json_out_integer(out, "game_from", place->game_from);
            json_out_integer(out, "game_to", place->game_to);
        }
        if (place->stand_in >= 0) {
            json_out_object(out, "stand_in");
            id_json(report, out, "id", place->stand_in);
            json_out_rounded(out, "loss", place->loss, 4);
            json_out_end(out);
        } else {
            json_out_null(out, "stand_in");
        }
        json_out_end(out);
    }
    json_out_end(out);
}

static int report_json(const Report *report)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_integer(&out, "games", report->arsenal->games);
    json_out_integer(&out, "bowlers", report->arsenal->bowlers);
    balls_json(report, &out);
    compare_json(report, &out);
    set_json(report, &out, "jobs", &report->arsenal->bag);
    json_out_rounded(&out, "worth", report->arsenal->bag.value, 4);
    if (report->options->pick > 0) {
        set_json(report, &out, "pick", &report->arsenal->picked);
        json_out_rounded(&out, "pick_worth", report->arsenal->picked.value, 4);
    }
    json_out_end(&out);
    return cmd_json(&out);
}

/* The bag with the picked balls in its slots, as they come out, all others in the locker. */
static int save(const Report *report)
{
    static Bag bag;
    Error error = {0};
    const Set *set = &report->arsenal->picked;
    bag = *report->bag;
    for (int i = 0; i < bag.count; i++)
        bag.balls[i].slot = 0;
    for (int i = 0; i < set->count; i++) {
        Ball *ball = &bag.balls[set->place[i].ball];
        ball->slot = i + 1;
        if (set->place[i].surface >= 0)
            ball->surface = SURFACE_SET[set->place[i].surface];
    }
    if (!files_save_bag(report->options->save, &bag, &error))
        return cmd_fault(CMD_FAULT, &error);
    return CMD_DONE;
}

int cmd_bag(const Options *options)
{
    Setup setup;
    Error error = {0};
    ArsenalInput input = {.games = options->games ? options->games : GAMES_USUAL,
                          .bowlers = options->bowlers ? options->bowlers : BOWLERS_USUAL,
                          .pick = options->pick,
                          .spare_free = options->no_spare,
                          .surfaces = !options->certified,
                          .pick_surfaces = options->surfaces && !options->certified};
    if (options->weights && !read_weights(options->weights, input.weight, &error))
        return cmd_fault(CMD_USAGE, &error);
    if (options->surfaces && options->certified)
        return cmd_say(CMD_USAGE, "--surfaces and --certified: no surface may change once scored");
    if (options->save && (options->pick < 1 || options->pick > BAG_SLOTS))
        return cmd_say(CMD_USAGE, "--save needs --pick 1 to 6: a bag has six slots");
    int status = setup_read(options, &setup);
    if (status != CMD_DONE)
        return status;
    ArsenalJob *job = arsenal_job_new();
    if (!job)
        return cmd_say(CMD_FAULT, "out of memory");
    input.bag = &setup.bag;
    input.pattern = &setup.pattern;
    arsenal_begin(job, &input);
    while (!arsenal_step(job))
        ;
    Report report = {options, &setup, &setup.bag, arsenal_result(job)};
    if (options->json)
        status = report_json(&report);
    else
        print_report(&report);
    if (options->save && status == CMD_DONE)
        status = save(&report);
    arsenal_job_free(job);
    return status;
}
