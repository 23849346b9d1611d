/* helper_shots.c - shots from words. */
#include "helper_shots.h"

#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool next_word(const char **at, char word[64])
{
    *at += strspn(*at, " ");
    size_t length = strcspn(*at, " ");
    assert_true(length < 64);
    memcpy(word, *at, length);
    word[length] = '\0';
    *at += length;
    return length > 0;
}

static int word_in(const char *const *words, const char *word)
{
    for (int i = 1; words[i]; i++)
        if (strcmp(words[i], word) == 0)
            return i;
    fail_msg("no such word: %s", word);
    return 0;
}

static Pins pins_of(const char *text)
{
    Pins pins = 0;
    while (*text >= '0' && *text <= '9') {
        pins |= pin_bit((int)strtol(text, (char **)&text, 10));
        text += *text == '-';
    }
    return pins;
}

static Shot shot_of(const char *text, Side lane, const Plan *plan)
{
    char word[24];
    Shot shot = session_shot(lane, plan);
    if (text[1] == ':') {
        shot.lane = text[0] == 'L' ? SIDE_LEFT : SIDE_RIGHT;
        text += 2;
    }
    size_t length = strcspn(text, "/!=*@#^");
    snprintf(word, sizeof word, "%.*s", (int)length, text);
    shot.hit = word[0] == '?' ? HIT_UNSAID : (Hit)word_in(HIT_NAMES, word);
    for (text += length; *text; text += length) {
        char mark = *text++;
        length = strcspn(text, "/!=*@#^");
        snprintf(word, sizeof word, "%.*s", (int)length, text);
        switch (mark) {
        case '/':
            shot.read = word[0] == 'e'   ? READ_EARLY
                        : word[0] == 'o' ? READ_ON_TIME
                        : word[0] == 'l' ? READ_LATE
                                         : READ_NONE;
            break;
        case '!':
            shot.release = (Release)word_in(RELEASE_NAMES, word);
            break;
        case '=':
            shot.left_said = true;
            shot.left = pins_of(word);
            break;
        case '*':
            shot.ringing = true;
            break;
        case '@':
            shot.mph = strtod(word, NULL);
            break;
        case '#':
            shot.slot = atoi(word);
            break;
        default:
            shot.stance += strtod(word, NULL);
        }
    }
    if (shot.release == RELEASE_UNSAID && shot.hit != HIT_GUTTER)
        shot.release = RELEASE_GOOD;
    return shot;
}

int shots_of(const char *words, const Plan *plan, Shot *shots, int max, Side *next)
{
    char word[64];
    int count = 0;
    *next = SIDE_LEFT;
    while (next_word(&words, word)) {
        assert_true(count < max);
        shots[count] = shot_of(word, *next, plan);
        *next = shots[count++].lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    }
    return count;
}
