/* cmd_review.c - settee review: how the shots of all events turned out, bag by bag. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/sort.h"
#include "base/text.h"
#include "cli/cmd.h"
#include "core/advice/learnt.h"
#include "core/event/review.h"
#include "store/files.h"
#include "store/logbook.h"

/* What one bag did. */
typedef struct BagHistory {
    char bag[1024]; /* as files_place names it */
    char bowler[48];
    Hand hand;
    Review review;
} BagHistory;

/* The question and its results. */
typedef struct Work {
    const char *month; /* NULL: all */
    const char *bag;   /* as files_place names it; NULL: all */
    int count;
    BagHistory *parts; /* heap */
    JsonOut out;       /* "unread" is being written */
    int status;
    bool demo; /* a demo's shots were left out */
} Work;

static void unread(Work *work, const char *journal, const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    json_out_object(&work->out, NULL);
    json_out_string(&work->out, "journal", journal);
    json_out_string(&work->out, "fault", line);
    json_out_end(&work->out);
    work->status = cmd_fault(CMD_FAULT, error);
}

static void unread_words(Work *work, const char *journal, const char *words)
{
    Error error = {0};
    error_set(&error, "journal %s: %s", journal, words);
    unread(work, journal, &error);
}

static BagHistory *part_of(Work *work, const Session *session)
{
    for (int i = 0; i < work->count; i++)
        if (strcmp(work->parts[i].bag, session->event.bag) == 0)
            return &work->parts[i];
    BagHistory *grown = realloc(work->parts, (size_t)(work->count + 1) * sizeof *grown);
    if (!grown)
        return NULL;
    work->parts = grown;
    BagHistory *part = &grown[work->count++];
    review_begin(&part->review);
    text_copy(part->bag, sizeof part->bag, session->event.bag);
    text_copy(part->bowler, sizeof part->bowler, session->bag.bowler.name);
    part->hand = session->bag.bowler.hand;
    return part;
}

static void add_one(Work *work, const JournalHead *head, Session *session)
{
    char notice[ERROR_LINE_MAX], month[8];
    Error error;
    if (!logbook_open(head, session, notice, sizeof notice, &error)) {
        unread(work, head->name, &error);
        return;
    }
    review_month(session->event.date, month);
    if ((work->bag && strcmp(work->bag, session->event.bag) != 0) ||
        (work->month && strcmp(work->month, month) != 0))
        return;
    if (notice[0])
        unread_words(work, head->name, notice);
    if (session->shot_count == 0)
        return;
    if (event_is_demo(&session->event) && !work->bag) { /* nobody bowled it */
        work->demo = true;
        return;
    }
    BagHistory *part = part_of(work, session);
    if (!part || !review_add(&part->review, session))
        unread_words(work, head->name, "there is no room for more months, balls or patterns");
}

/* ---- for people ---- */

static void print_rate(int hits, int of)
{
    if (of == 0)
        printf("%7s", "-");
    else
        printf("%5.0f %%", 100.0 * hits / of);
}

static void print_pins(const ReviewTally *tally)
{
    if (tally->leaves == 0)
        printf("%7s", "-");
    else
        printf("%7.2f", (double)tally->pins / tally->leaves);
}

static void print_month(const char *title, const ReviewMonth *month)
{
    const ReviewTally *tally = &month->tally;
    printf("%-10s  %6d  %5d", title, month->events, month->games);
    if (month->complete > 0)
        printf("  %7.1f of %-3d", (double)month->score_sum / month->complete, month->complete);
    else
        printf("  %7s       ", "-");
    printf("  %11d", tally->shots);
    print_rate(tally->pockets, tally->hits);
    print_rate(tally->strikes, tally->leaves);
    print_pins(tally);
    putchar('\n');
}

static void print_months(const Review *review)
{
    puts("\nmonth       events  games        average  first balls pocket strike   pins");
    for (int i = 0; i < review->month_count; i++)
        print_month(review->months[i].month[0] ? review->months[i].month : "no date",
                    &review->months[i]);
    if (review->month_count > 1)
        print_month("all", &review->total);
}

/* "1-3 5": the games of an event in which a ball was thrown. */
static void games_words(const ReviewBall *ball, char *out, size_t size)
{
    out[0] = '\0';
    for (int game = 1; game <= SESSION_GAMES_MAX; game++) {
        int last = game;
        if (ball->in_game[game - 1] == 0)
            continue;
        while (last < SESSION_GAMES_MAX && ball->in_game[last] > 0)
            last++;
        text_append(out, size, "%s%d", out[0] ? " " : "", game);
        if (last > game)
            text_append(out, size, "-%d", last);
        game = last;
    }
}

/* A ball's index in the review, and the shots it is sorted by. */
typedef struct BallShots {
    int place, shots;
} BallShots;

static bool more_shots(const void *a, const void *b)
{
    return ((const BallShots *)a)->shots > ((const BallShots *)b)->shots;
}

/* The balls thrown on one pattern, or on all (NULL), most shots first, equal ones in the bag's
 * order. Returns how many. */
static int most_first(const Review *review, const ReviewPattern *on,
                      BallShots order[REVIEW_BALLS_MAX])
{
    int count = 0;
    for (int i = 0; i < review->ball_count; i++) {
        int shots = on ? on->of_ball[i] : review->balls[i].tally.shots;
        if (shots > 0)
            order[count++] = (BallShots){i, shots};
    }
    sort_items(order, (size_t)count, sizeof *order, more_shots);
    return count;
}

static bool print_balls(const Review *review)
{
    BallShots order[REVIEW_BALLS_MAX];
    int count = most_first(review, NULL, order);
    bool little = false;
    puts("\nball              slot  shots  share pocket   95 % range strike   pins  games");
    for (int i = 0; i < count; i++) {
        const ReviewBall *ball = &review->balls[order[i].place];
        const ReviewTally *tally = &ball->tally;
        double low, high;
        char games[64], slot[8] = "-";
        review_interval(tally->pockets, tally->hits, &low, &high);
        games_words(ball, games, sizeof games);
        bool few = review_says_little(tally->pockets, tally->hits);
        little = little || few;
        if (ball->slot)
            snprintf(slot, sizeof slot, "%d", ball->slot);
        print_cell(ball->name, 16);
        printf("  %4s  %5d  %3.0f %%", slot, tally->shots,
               100.0 * tally->shots / review->total.tally.shots);
        print_rate(tally->pockets, tally->hits);
        char range[16] = "";
        if (tally->hits > 0)
            snprintf(range, sizeof range, "%.0f to %.0f%s", 100.0 * low, 100.0 * high,
                     few ? "?" : " ");
        printf("  %11s", range);
        print_rate(tally->strikes, tally->leaves);
        print_pins(tally);
        printf("  %s\n", games);
    }
    return little;
}

static void print_never(const Review *review)
{
    char line[1024] = "Balls you never threw: ";
    bool any = false;
    for (int i = 0; i < review->ball_count; i++) {
        const ReviewBall *ball = &review->balls[i];
        if (ball->tally.shots > 0)
            continue;
        text_append(line, sizeof line, "%s%s", any ? ", " : "", ball->name);
        if (ball->slot)
            text_append(line, sizeof line, " (slot %d)", ball->slot);
        any = true;
    }
    putchar('\n');
    if (any)
        text_append(line, sizeof line, ".");
    print_wrapped(any ? line : "You threw every ball in a slot.", 0);
}

static void print_patterns(const Review *review)
{
    puts("\npattern               feet  shots pocket strike  balls");
    for (int i = 0; i < review->pattern_count; i++) {
        const ReviewPattern *pattern = &review->patterns[i];
        char balls[256] = "";
        print_cell(pattern->name, 20);
        printf("  %4g  %5d", pattern->length_ft, pattern->tally.shots);
        print_rate(pattern->tally.pockets, pattern->tally.hits);
        print_rate(pattern->tally.strikes, pattern->tally.leaves);
        BallShots order[REVIEW_BALLS_MAX];
        int count = most_first(review, pattern, order);
        for (int k = 0; k < count; k++) {
            const ReviewBall *ball = &review->balls[order[k].place];
            text_append(balls, sizeof balls, "%s%d ", k ? ", " : "", order[k].shots);
            if (ball->slot)
                text_append(balls, sizeof balls, "of slot %d", ball->slot);
            else
                text_append(balls, sizeof balls, "%s", ball->name);
        }
        printf("  %s\n", balls);
    }
}

static bool print_part(const BagHistory *part)
{
    char bag[256];
    files_short("bags", part->bag, bag, sizeof bag);
    printf("%s, %s hand, bag %s\n", part->bowler, HAND_NAMES[part->hand], bag);
    print_months(&part->review);
    bool little = print_balls(&part->review);
    print_never(&part->review);
    print_patterns(&part->review);
    if (part->review.total.events >= LEARNT_EVENTS_LEAST)
        printf("\nWhere these events differ from the bag's numbers: settee learn %s\n", bag);
    return little;
}

static void print_work(const Work *work)
{
    bool little = false;
    for (int i = 0; i < work->count; i++) {
        if (i > 0)
            putchar('\n');
        little = print_part(&work->parts[i]) || little;
    }
    putchar('\n');
    print_wrapped(
        "Pocket: light or flush, of the first balls whose hit was entered; strike and pins: "
        "of those whose leave was entered; average: of games entered to their end. 95 % "
        "range: the 95 % confidence interval of the pocket rate. Two balls whose ranges "
        "overlap can't be told apart by these shots.",
        0);
    if (little)
        print_wrapped("?: too few shots for the rate to mean much.", 0);
}

/* ---- JSON ---- */

static void share_json(JsonOut *out, const char *key, int part, int of)
{
    if (of > 0)
        json_out_rounded(out, key, (double)part / of, 4);
    else
        json_out_null(out, key);
}

static void tally_json(JsonOut *out, const ReviewTally *tally)
{
    json_out_integer(out, "first_balls", tally->shots);
    json_out_integer(out, "hits_told", tally->hits);
    share_json(out, "pocket", tally->pockets, tally->hits);
    json_out_integer(out, "leaves_told", tally->leaves);
    share_json(out, "strike", tally->strikes, tally->leaves);
    share_json(out, "pins", tally->pins, tally->leaves);
}

static void month_json(JsonOut *out, const char *key, const ReviewMonth *month)
{
    json_out_object(out, key);
    if (!key)
        json_out_string(out, "month", month->month[0] ? month->month : NULL);
    json_out_integer(out, "events", month->events);
    json_out_integer(out, "games", month->games);
    json_out_integer(out, "complete_games", month->complete);
    share_json(out, "average", month->score_sum, month->complete);
    tally_json(out, &month->tally);
    json_out_end(out);
}

static void ball_json(JsonOut *out, const Review *review, const ReviewBall *ball)
{
    double low, high;
    json_out_object(out, NULL);
    json_out_string(out, "id", ball->id);
    json_out_string(out, "name", ball->name);
    json_out_integer(out, "slot", ball->slot);
    share_json(out, "share", ball->tally.shots, review->total.tally.shots);
    tally_json(out, &ball->tally);
    review_interval(ball->tally.pockets, ball->tally.hits, &low, &high);
    json_out_rounded(out, "pocket_low", low, 4);
    json_out_rounded(out, "pocket_high", high, 4);
    json_out_bool(out, "says_little", review_says_little(ball->tally.pockets, ball->tally.hits));
    json_out_array(out, "games");
    for (int game = 1; game <= SESSION_GAMES_MAX; game++) {
        if (ball->in_game[game - 1] == 0)
            continue;
        json_out_object(out, NULL);
        json_out_integer(out, "game", game);
        json_out_integer(out, "first_balls", ball->in_game[game - 1]);
        json_out_end(out);
    }
    json_out_end(out);
    json_out_end(out);
}

static void patterns_json(JsonOut *out, const Review *review)
{
    json_out_array(out, "patterns");
    for (int i = 0; i < review->pattern_count; i++) {
        const ReviewPattern *pattern = &review->patterns[i];
        json_out_object(out, NULL);
        json_out_string(out, "name", pattern->name);
        json_out_rounded(out, "length_ft", pattern->length_ft, 3);
        tally_json(out, &pattern->tally);
        json_out_array(out, "balls");
        for (int k = 0; k < review->ball_count; k++) {
            if (pattern->of_ball[k] == 0)
                continue;
            json_out_object(out, NULL);
            json_out_string(out, "id", review->balls[k].id);
            json_out_integer(out, "first_balls", pattern->of_ball[k]);
            json_out_end(out);
        }
        json_out_end(out);
        json_out_end(out);
    }
    json_out_end(out);
}

static void part_json(JsonOut *out, const BagHistory *part)
{
    const Review *review = &part->review;
    json_out_object(out, NULL);
    json_out_string(out, "bowler", part->bowler);
    json_out_string(out, "hand", HAND_NAMES[part->hand]);
    json_out_string(out, "bag", part->bag);
    json_out_array(out, "months");
    for (int i = 0; i < review->month_count; i++)
        month_json(out, NULL, &review->months[i]);
    json_out_end(out);
    month_json(out, "total", &review->total);
    json_out_array(out, "balls");
    for (int i = 0; i < review->ball_count; i++)
        if (review->balls[i].tally.shots > 0)
            ball_json(out, review, &review->balls[i]);
    json_out_end(out);
    json_out_array(out, "never_left");
    for (int i = 0; i < review->ball_count; i++)
        if (review->balls[i].tally.shots == 0)
            json_out_string(out, NULL, review->balls[i].id);
    json_out_end(out);
    patterns_json(out, review);
    json_out_end(out);
}

/* ---- the command ---- */

static bool is_month(const char *text)
{
    return strlen(text) == 7 && strspn(text, "0123456789") == 4 && text[4] == '-' &&
           strspn(text + 5, "0123456789") == 2 && strcmp(text + 5, "01") >= 0 &&
           strcmp(text + 5, "12") <= 0;
}

/* Prints what was found, or why there is nothing; the exit status. */
static int finish(const Options *options, Work *work)
{
    if (work->count == 0)
        return work->status != CMD_DONE
                   ? work->status
                   : cmd_say(CMD_FAULT, "nothing to review: no journal holds a shot%s%s%s",
                             work->month ? " of that month" : "",
                             work->month && work->bag ? " and" : "",
                             work->bag     ? " of that bag"
                             : work->demo  ? " but the demo's"
                             : work->month ? ""
                                           : " yet");
    if (!options->json) {
        print_work(work);
        return work->status;
    }
    json_out_end(&work->out);
    json_out_array(&work->out, "bags");
    for (int i = 0; i < work->count; i++)
        part_json(&work->out, &work->parts[i]);
    json_out_end(&work->out);
    json_out_end(&work->out);
    const char *text = json_out_text(&work->out);
    if (!text)
        return cmd_say(CMD_FAULT, "out of memory");
    puts(text);
    return work->status;
}

int cmd_review(const Options *options)
{
    char bag[1024];
    Error error;
    if (options->month && !is_month(options->month))
        return cmd_say(CMD_USAGE, "--month: found '%.40s'; allowed is a month as 2026-05",
                       options->month);
    if (options->bag && !files_place("bags", options->bag, bag, sizeof bag, &error))
        return cmd_fault(CMD_FAULT, &error);
    Session *session = calloc(1, sizeof *session);
    int count;
    JournalHead *heads = journal_list(&count, &error);
    Work work = {.month = options->month,
                 .bag = options->bag ? bag : NULL,
                 .out = json_out_start(),
                 .status = CMD_DONE};
    json_out_object(&work.out, NULL);
    json_out_array(&work.out, "unread");
    for (int i = 0; session && i < count; i++)
        add_one(&work, &heads[i], session);
    int status = !session    ? cmd_say(CMD_FAULT, "out of memory")
                 : count < 0 ? cmd_fault(CMD_FAULT, &error)
                             : finish(options, &work);
    json_out_free(&work.out);
    free(work.parts);
    free(heads);
    free(session);
    return status;
}
