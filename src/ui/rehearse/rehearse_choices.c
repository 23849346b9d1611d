/* rehearse_choices.c - see rehearse_choices.h. */
#include "ui/rehearse/rehearse_choices.h"

#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "base/text.h"
#include "core/rehearse/rehearse.h"
#include "ui/screens/screens.h"

enum { GAMES_MAX = 6, BOWLERS_MAX = 10, PRACTICE_STEP = 2, PRACTICE_MOST = 20 };

static const KeyPlace PLACES[] = {
    {AT_FORM, "what to bowl"}, {AT_SEED, "a block's words"}, {AT_END, "what it cost"}};

const KeyTable REHEARSE_KEYS = {.of = "Rehearse",
                                .places = PLACES,
                                .place_count = sizeof PLACES / sizeof *PLACES,
                                .rows =
                                    (const RehearseKey[]){
#define REHEARSE_KEY(where, from, to, also, act, foot, shown, name, help)                          \
    {{0, where, from, to, also, foot, shown, name, help}, act},
#include "ui/rehearse/rehearse_keys.def"
#undef REHEARSE_KEY
                                    },
                                .row_size = sizeof(RehearseKey),
                                .count = 0
#define REHEARSE_KEY(where, from, to, also, act, foot, shown, name, help) +1
#include "ui/rehearse/rehearse_keys.def"
#undef REHEARSE_KEY
                                ,
                                .titles = (const char *const[]){"Rehearse"},
                                .group_count = 1};

Choices choices_begin(const UiRehearsal *host)
{
    return (Choices){.bag = host->bag,
                     .pattern = host->pattern,
                     .games = host->games,
                     .bowlers = host->bowlers,
                     .still = host->still || host->look->still,
                     .seed = host->seed ? host->seed : host->clock % SEED_PAIRS + 1};
}

static int stepped(int value, int step, int low, int high)
{
    value += step;
    return value < low ? low : value > high ? high : value;
}

static int turned(int value, int step, int low, int high)
{
    value += step;
    return value < low ? high : value > high ? low : value;
}

static int world_count(void)
{
    int count = 0;
    while (WORLDS[count])
        count++;
    return count;
}

static void change(Choices *choices, const UiRehearsal *host, int step)
{
    switch (choices->row) {
    case CHOICE_BAG:
        choices->bag = turned(choices->bag, step, 0, host->bag_count - 1);
        break;
    case CHOICE_PATTERN:
        choices->pattern = turned(choices->pattern, step, -1, host->pattern_count - 1);
        break;
    case CHOICE_GAMES:
        choices->games = stepped(choices->games, step, 1, GAMES_MAX);
        break;
    case CHOICE_BOWLERS:
        choices->bowlers = stepped(choices->bowlers, step, 1, BOWLERS_MAX);
        break;
    case CHOICE_PRACTICE:
        choices->practice = stepped(choices->practice, PRACTICE_STEP * step, 0, PRACTICE_MOST);
        break;
    case CHOICE_WORLD:
        choices->world = turned(choices->world, step, 0, world_count() - 1);
        break;
    case CHOICE_ARM:
        choices->steady = !choices->steady;
        break;
    case CHOICE_BALL:
        choices->still = !choices->still;
        break;
    default:
        choices->seed = (choices->seed - 1 + (uint64_t)(SEED_PAIRS + step)) % SEED_PAIRS + 1;
    }
}

void choices_act(Choices *choices, const UiRehearsal *host, RehearseAct act)
{
    if (act == ACT_UP || act == ACT_DOWN)
        choices->row =
            (ChoiceRow)turned((int)choices->row, act == ACT_UP ? -1 : 1, 0, CHOICE_ROWS - 1);
    else if (act == ACT_LESS || act == ACT_MORE)
        change(choices, host, act == ACT_LESS ? -1 : 1);
}

/* Two words, or the number that they stand for. */
static bool take_seed(Choices *choices, char *message, size_t size)
{
    enum { SEED_MOST = 1000000000 }; /* as on the command line */
    uint64_t seed = strtoull(choices->typed, NULL, 10);
    char near[SEED_TEXT_MAX];
    bool figures = choices->typed[strspn(choices->typed, "0123456789")] == '\0';
    if (figures ? seed >= 1 && seed <= SEED_MOST : seed_of_text(choices->typed, &seed, near)) {
        choices->seed = seed;
        return true;
    }
    text_copy(message, size, "");
    if (!choices->typed[0] || figures)
        text_append(message, size,
                    "A block has two words, such as amber-otter, or a number from 1");
    else if (near[0])
        text_append(message, size, "No block is called %s; did you mean %s?", choices->typed, near);
    else
        text_append(message, size, "%s is no block's name; amber-otter is one", choices->typed);
    return false;
}

void choices_type(Choices *choices, RehearseAct act, uint32_t key, char *message, size_t size)
{
    size_t length = strlen(choices->typed);
    switch (act) {
    case ACT_SEED:
        choices->row = CHOICE_SEED;
        choices->typing = true;
        choices->typed[0] = '\0';
        break;
    case ACT_TYPE: /* a space stands for the hyphen */
        text_append(choices->typed, sizeof choices->typed, "%c", key == ' ' ? '-' : (char)key);
        break;
    case ACT_ERASE:
        choices->typed[length > 0 ? length - 1 : 0] = '\0';
        break;
    case ACT_TAKE:
        choices->typing = !take_seed(choices, message, size);
        break;
    default:
        choices->typing = false;
    }
}

const char *choices_pattern(const Choices *choices, const UiRehearsal *host)
{
    if (choices->pattern >= 0)
        return host->patterns[choices->pattern].name;
    Rng rng = rng_seed(choices->seed);
    int built_in = 0;
    for (int i = 0; i < host->pattern_count; i++)
        built_in += !host->patterns[i].home;
    int at = (int)(rng_uniform(&rng) * built_in);
    for (int i = 0; i < host->pattern_count; i++)
        if (!host->patterns[i].home && at-- == 0)
            return host->patterns[i].name;
    return host->patterns[0].name;
}

/* What a row says, and the sentence under the list while it is chosen. */
static void row_words(const Choices *choices, const UiRehearsal *host, ChoiceRow row,
                      char value[64], const char **sentence)
{
    value[0] = '\0';
    switch (row) {
    case CHOICE_BAG:
        text_copy(value, 64, host->bags[choices->bag].name);
        *sentence = "Whose arm and which balls: your throws scatter as that bag says.";
        break;
    case CHOICE_PATTERN:
        text_copy(value, 64, choices->pattern < 0 ? "surprise me" : choices_pattern(choices, host));
        *sentence = "The sheet you get. The lane itself differs from it, as lanes do.";
        break;
    case CHOICE_GAMES:
        text_append(value, 64, "%d", choices->games);
        *sentence = "Games of the block.";
        break;
    case CHOICE_BOWLERS:
        text_append(value, 64, "%d", choices->bowlers);
        *sentence = "Bowlers on the pair, you among them: the others wear the lanes too.";
        break;
    case CHOICE_PRACTICE:
        text_append(value, 64, "%d", choices->practice);
        *sentence = "Balls before the first game, on both lanes in turn. They don't count.";
        break;
    case CHOICE_WORLD:
        text_append(value, 64, "%s", WORLDS[choices->world]->name);
        *sentence = WORLDS[choices->world]->sentence;
        break;
    case CHOICE_ARM:
        text_copy(value, 64, choices->steady ? "goes where you mean it" : "scatters");
        *sentence = choices->steady
                        ? "Every throw goes as it was meant: you see the decisions alone."
                        : "Throws scatter as your bag says, and now and then one is bad.";
        break;
    case CHOICE_BALL:
        text_copy(value, 64, choices->still ? "not shown rolling" : "rolls in real time");
        *sentence = choices->still ? "You see at once what the ball did."
                                   : "The ball takes its time down the lane; Enter skips it.";
        break;
    default:
        if (choices->typing)
            text_copy(value, 64, choices->typed);
        else
            seed_text(choices->seed, value);
        *sentence = "The same two words and choices are the same lanes and luck for a friend.";
    }
}

void choices_draw(const Choices *choices, const UiRehearsal *host, const Glyphs *glyphs,
                  Canvas *canvas, const char *message)
{
    static const char *const NAMES[CHOICE_ROWS] = {"Bag",      "Pattern",        "Games",
                                                   "Bowlers",  "Practice balls", "Hidden lane",
                                                   "Your arm", "The ball",       "Block"};
    static const char WHAT[] =
        "You decide as in play, with the same keys. The answers stay hidden until you ask with h. "
        "At the end you see what each decision cost, and the hidden lane.";
    enum { UNDER = 4 }; /* a line free, two for the sentence, another free */
    int room = canvas->rows - 2, what = canvas_lines(canvas->columns - 8, WHAT);
    bool brief = canvas->columns < 60 || 3 + CHOICE_ROWS + UNDER + what > room;
    bool airy = 5 + 2 * CHOICE_ROWS + UNDER + what <= room;
    int top = brief ? 1 : airy ? 5 : 3, pitch = airy && !brief ? 2 : 1;
    int name_at = brief ? 2 : 4, value_at = brief ? 17 : 22;
    const char *under = "";
    screen_frame_top(canvas, brief ? "Rehearse" : "Rehearse: a block on a lane you can't see", "");
    for (int row = 0; row < CHOICE_ROWS; row++) {
        char value[64];
        const char *sentence;
        bool here = row == (int)choices->row;
        int at = top + row * pitch;
        row_words(choices, host, (ChoiceRow)row, value, &sentence);
        if (here) {
            under = sentence;
            canvas_put(canvas, at, name_at - 2, glyphs->breaks_right, ROLE_ACCENT);
            canvas->cursor_row = at;
            canvas->cursor_column = value_at + (choices->typing ? (int)strlen(value) : 0);
        }
        canvas_text(canvas, at, name_at, 16, here ? ROLE_ACCENT : ROLE_DIM, NAMES[row]);
        if (here && choices->typing)
            canvas_hline(canvas, at, value_at,
                         value_at + SEED_TEXT_MAX < canvas->columns
                             ? SEED_TEXT_MAX
                             : canvas->columns - value_at - 1,
                         ' ', ROLE_FIELD);
        canvas_text(canvas, at, value_at, canvas->columns - value_at - 1,
                    here ? ROLE_FIELD : ROLE_PLAIN, value);
    }
    int below = top + CHOICE_ROWS * pitch + 1;
    char sentence[160] = "";
    text_copy(sentence, sizeof sentence, under);
    if (sentence[0] >= 'a' && sentence[0] <= 'z') /* a world's begins small */
        sentence[0] = (char)(sentence[0] - 'a' + 'A');
    if (!brief) {
        canvas_wrap(canvas, below, 4, canvas->columns - 8, 2, ROLE_PLAIN, sentence);
        canvas_wrap(canvas, below + 3, 4, canvas->columns - 8, what, ROLE_DIM, WHAT);
    }
    canvas_hline(canvas, canvas->rows - 2, 0, canvas->columns, glyphs->rule, ROLE_DIM);
    char hint[sizeof sentence];
    widget_brief(hint, sizeof hint, sentence, canvas->columns - 4);
    if (message[0] || brief)
        canvas_print(canvas, canvas->rows - 2, 1, canvas->columns - 2,
                     message[0] ? ROLE_WARN : ROLE_DIM, " %s ", message[0] ? message : hint);
    key_footer(&REHEARSE_KEYS, choices->typing ? AT_SEED : AT_FORM, -1, canvas);
}
