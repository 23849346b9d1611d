/* cmd_words.c - settee words: what the words of the trade mean. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/words/glossary.h"

enum { LABEL_COLUMNS = 16 };

static void word_json(JsonOut *out, const Word *word)
{
    json_out_object(out, NULL);
    json_out_string(out, "word", word->word);
    json_out_string(out, "means", word->means);
    json_out_array(out, "like");
    for (const char *at = word->like; *at;) {
        char like[32];
        size_t length = strcspn(at, ",");
        snprintf(like, sizeof like, "%.*s", (int)length, at);
        json_out_string(out, NULL, like);
        at += length + strspn(at + length, ", ");
    }
    json_out_end(out);
    json_out_end(out);
}

/* All of them, or `one`. */
static int words_json(const Word *one)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "words");
    for (int i = 0; i < WORD_COUNT; i++)
        if (!one || one == &WORDS[i])
            word_json(&out, &WORDS[i]);
    json_out_end(&out);
    json_out_end(&out);
    return cmd_json(&out);
}

/* "ten" is part of "flat ten"; a typing mistake is near one word. */
static int unknown(const char *asked)
{
    char near[256] = "";
    for (int i = 0; i < WORD_COUNT; i++)
        if (strlen(asked) > 1 && strstr(WORDS[i].word, asked))
            text_append(near, sizeof near, "%s%s", near[0] ? ", " : "", WORDS[i].word);
    const char *nearest = text_nearest(asked, WORD_NAMES);
    if (!near[0] && nearest)
        text_copy(near, sizeof near, nearest);
    if (near[0])
        return cmd_say(CMD_FAULT, "no word '%.60s'; did you mean: %s?", asked, near);
    return cmd_say(CMD_FAULT, "no word '%.60s'; 'settee words' lists them all", asked);
}

int cmd_words(const Options *options)
{
    const Word *one = NULL;
    char asked[128] = "";
    for (int i = 0; i < options->word_count; i++)
        text_append(asked, sizeof asked, "%s%s", i ? " " : "", options->words[i]);
    if (options->word_count > 0 && !(one = word_find(asked)))
        return unknown(asked);
    if (options->json)
        return words_json(one);
    if (one) {
        print_entry(one->word, one->means, LABEL_COLUMNS);
        print_entry("  see also", one->like, LABEL_COLUMNS);
        return CMD_DONE;
    }
    for (int i = 0; i < WORD_COUNT; i++)
        print_entry(WORDS[i].word, WORDS[i].means, LABEL_COLUMNS);
    return CMD_DONE;
}
