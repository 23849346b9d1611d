/* cmd_score.c - settee score: a game from its balls, like a score sheet. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/event/score.h"

enum { CELL = 7, LABEL = 7 };

/* "7 2", "8s /", "X X 8" */
static void frame_words(const Score *score, const ScoreFrame *frame, char *out, size_t size)
{
    text_copy(out, size, "");
    for (int k = 0; k < frame->balls; k++) {
        char ball[8];
        score_ball_words(score, frame->first + k, ball, sizeof ball);
        text_append(out, size, "%s%s", k ? " " : "", ball);
    }
}

void print_sheet(const Score *score)
{
    if (score->ball_count == 0)
        return;
    printf("%-*s", LABEL, "frame");
    for (int i = 1; i <= SCORE_FRAMES; i++)
        printf("%*d", CELL, i);
    printf("\n%-*s", LABEL, "balls");
    for (int i = 0; i < score->frame_count; i++) {
        char cell[24];
        frame_words(score, &score->frames[i], cell, sizeof cell);
        printf("%*s", CELL, cell);
    }
    printf("\n%-*s", LABEL, "total");
    for (int i = 0; i < score->frame_count; i++) {
        if (score->frames[i].total == SCORE_UNKNOWN)
            printf("%*s", CELL, ".");
        else
            printf("%*d", CELL, score->frames[i].total);
    }
    putchar('\n');
}

static void print_state(const Score *score)
{
    bool split = false;
    for (int i = 0; i < score->frame_count; i++)
        split = split || score->frames[i].split;
    if (score->over) {
        printf("Score          %d\n", score->total);
    } else {
        if (score->pins_so_far != score->total)
            printf("Score          %d decided, %d if no other pin falls\n", score->total,
                   score->pins_so_far);
        else
            printf("Score          %d\n", score->total);
        printf("Best possible  %d\n", score->best);
        printf("Next           frame %d, ball %d, at %d pin%s\n", score->frame, score->ball,
               score->standing, score->standing == 1 ? "" : "s");
    }
    if (split)
        puts("s: a split");
}

static void ball_json(JsonOut *out, const Score *score, int index)
{
    const ScoreBall *ball = &score->balls[index];
    char word[8];
    score_ball_words(score, index, word, sizeof word);
    word[strcspn(word, "s")] = '\0'; /* told apart below */
    json_out_object(out, NULL);
    json_out_string(out, "ball", word);
    json_out_integer(out, "pins", ball->pins);
    json_out_bool(out, "foul", ball->foul);
    json_out_bool(out, "split", ball->split);
    json_out_end(out);
}

static void json_known(JsonOut *out, const char *key, int value)
{
    if (value == SCORE_UNKNOWN)
        json_out_null(out, key);
    else
        json_out_integer(out, key, value);
}

static void need_json(JsonOut *out, const ScoreNeed *need, int target)
{
    json_out_object(out, "target");
    json_out_integer(out, "score", target);
    json_out_bool(out, "possible", need->possible);
    if (need->possible) {
        json_out_integer(out, "marks", need->marks);
        json_out_integer(out, "strikes", need->strikes);
        json_out_integer(out, "spares", need->spares);
        json_out_string(out, "way", need->way);
    }
    json_out_string(out, "words", need->words);
    json_out_end(out);
}

static int score_json(const Score *score, int target)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "frames");
    for (int i = 0; i < score->frame_count; i++) {
        const ScoreFrame *frame = &score->frames[i];
        json_out_object(&out, NULL);
        json_out_integer(&out, "frame", i + 1);
        json_out_array(&out, "balls");
        for (int k = 0; k < frame->balls; k++)
            ball_json(&out, score, frame->first + k);
        json_out_end(&out);
        json_out_bool(&out, "strike", frame->strike);
        json_out_bool(&out, "spare", frame->spare);
        json_out_bool(&out, "split", frame->split);
        json_known(&out, "score", frame->score);
        json_known(&out, "total", frame->total);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_integer(&out, "total", score->total);
    json_out_integer(&out, "pins_so_far", score->pins_so_far);
    json_out_integer(&out, "best_possible", score->best);
    json_out_bool(&out, "over", score->over);
    if (score->over) {
        json_out_null(&out, "next");
    } else {
        json_out_object(&out, "next");
        json_out_integer(&out, "frame", score->frame);
        json_out_integer(&out, "ball", score->ball);
        json_out_integer(&out, "standing", score->standing);
        json_out_end(&out);
    }
    if (target) {
        ScoreNeed need = score_need(score, target);
        need_json(&out, &need, target);
    }
    json_out_end(&out);
    return cmd_json(&out);
}

int cmd_score(const Options *options)
{
    Score score = score_begin();
    char why[160];
    for (int i = 0; i < options->word_count; i++)
        if (!score_read(&score, options->words[i], why, sizeof why))
            return cmd_say(CMD_FAULT, "%s", why);
    if (options->json)
        return score_json(&score, options->target);
    print_sheet(&score);
    if (score.ball_count > 0)
        putchar('\n');
    print_state(&score);
    if (options->target) {
        ScoreNeed need = score_need(&score, options->target);
        print_wrapped(need.words, 0);
    }
    return CMD_DONE;
}
