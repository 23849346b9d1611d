/* cmd_log.c - settee log: what was entered, event by event. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "cli/cmd.h"
#include "core/advice/candidates.h"
#include "core/event/stays.h"
#include "store/files.h"
#include "store/logbook.h"

static int games_of(const Session *session)
{
    int last = session->shot_count > 0 ? session->shot_game[session->shot_count - 1] : 0;
    for (int i = 0; i < session->told_count; i++)
        if (session->told[i].game > last)
            last = session->told[i].game;
    return last;
}

/* Says what was found wrong with a journal; the rest goes on. */
static int journal_fault(const char *name, const char *words)
{
    fflush(stdout); /* keep the order when both go to one place */
    return cmd_say(CMD_FAULT, "journal %s: %s", name, words);
}

/* CMD_DONE: the session is complete. CMD_FAULT with `usable`: as far as it could be read. */
static int open_one(const JournalHead *head, Session *session, bool *usable)
{
    char notice[ERROR_LINE_MAX];
    Error error;
    *usable = logbook_open(head, session, notice, sizeof notice, &error);
    if (!*usable) {
        fflush(stdout);
        return cmd_fault(CMD_FAULT, &error);
    }
    return notice[0] ? journal_fault(head->name, notice) : CMD_DONE;
}

/* Names the files that were set aside: they hold what the journals may have lost. */
static void say_set_aside(const Options *options, JsonOut *out)
{
    int count;
    JournalHead *files = journal_set_aside(&count, NULL);
    json_out_array(out, "set_aside");
    for (int i = 0; i < count; i++) {
        json_out_string(out, NULL, files[i].name);
        if (!options->json)
            printf("%s%s%s", i == 0 ? "\nSet aside, beside the journals: " : ", ", files[i].name,
                   i + 1 == count ? "\n" : "");
    }
    json_out_end(out);
    free(files);
}

/* ---- list ---- */

static void game_words(const Session *session, int game, char *out, size_t size)
{
    Score score;
    bool known = session_score(session, game, &score);
    out[0] = '\0';
    if (known && score.over)
        text_append(out, size, "%d", score.total);
    else if (known)
        text_append(out, size, "(%d)", score.pins_so_far);
    else
        text_append(out, size, "?");
}

static void game_json(JsonOut *out, const Session *session, int game)
{
    Score score;
    bool known = session_score(session, game, &score);
    json_out_object(out, NULL);
    json_out_integer(out, "game", game);
    json_out_bool(out, "known", known);
    json_out_bool(out, "over", known && score.over);
    if (known)
        json_out_integer(out, "score", score.over ? score.total : score.pins_so_far);
    else
        json_out_null(out, "score");
    json_out_end(out);
}

static void head_json(JsonOut *out, const JournalHead *head, const Session *session)
{
    json_out_string(out, "journal", head->name);
    json_out_string(out, "event", session->event.name);
    json_out_string(out, "date", session->event.date[0] ? session->event.date : NULL);
    json_out_string(out, "bowler", session->bag.bowler.name);
    json_out_string(out, "bag", session->event.bag);
    json_out_string(out, "pattern", session->pattern.name);
    json_out_integer(out, "first_balls", session->shot_count);
}

static void list_row(const JournalHead *head, const Session *session, bool *open, bool *unknown)
{
    char word[16], games[48] = "";
    for (int game = 1; game <= games_of(session); game++) {
        game_words(session, game, word, sizeof word);
        *open = *open || word[0] == '(';
        *unknown = *unknown || word[0] == '?';
        text_append(games, sizeof games, "%s%s", game > 1 ? " " : "", word);
    }
    print_cell(head->name, 22);
    printf("  %-10s  ", session->event.date[0] ? session->event.date : "no date");
    print_cell(session->bag.bowler.name, 18);
    printf("  %5d  %s\n", session->shot_count, games);
}

static int log_list(const Options *options, const JournalHead *heads, int count, Session *session)
{
    int status = CMD_DONE;
    bool usable, open = false, unknown = false, any = false;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "journals");
    for (int i = 0; i < count; i++) {
        if (open_one(&heads[i], session, &usable) != CMD_DONE)
            status = CMD_FAULT;
        if (!usable)
            continue;
        json_out_object(&out, NULL);
        head_json(&out, &heads[i], session);
        json_out_array(&out, "games");
        for (int game = 1; game <= games_of(session); game++)
            game_json(&out, session, game);
        json_out_end(&out);
        json_out_end(&out);
        if (!options->json && !any)
            puts("journal                 date        bowler              shots  games");
        any = true;
        if (!options->json)
            list_row(&heads[i], session, &open, &unknown);
    }
    json_out_end(&out);
    if (!options->json && !any && status == CMD_DONE)
        puts("No event has a journal yet.");
    if (!options->json && (open || unknown))
        printf("\n%s%s%s\n", open ? "( ): not over, if no other pin falls" : "",
               open && unknown ? "; " : "", unknown ? "?: a leave or a spare was not entered" : "");
    say_set_aside(options, &out);
    json_out_end(&out);
    if (options->json) {
        int written = cmd_json(&out);
        return written != CMD_DONE ? written : status;
    }
    json_out_free(&out);
    return status;
}

/* ---- show ---- */

static void pins_words(bool said, Pins pins, const char *none, char *out, size_t size)
{
    out[0] = '\0';
    if (said && pins == 0)
        text_copy(out, size, none);
    else if (said)
        lane_pins_words(pins, " ", out, size);
}

static const char *word_or_dash(const char *word) { return word[0] ? word : "-"; }

static void number_words(double value, char *out, size_t size)
{
    out[0] = '\0';
    if (value == 0.0)
        text_copy(out, size, "-");
    else
        text_append(out, size, "%.1f", value);
}

/* Planned changes to the usual release, and what was seen on the way: a line each. */
static void print_more(const Shot *shot)
{
    const Plan usual = {0}, meant = {.mph_change = shot->mph_change,
                                     .loft_change_ft = shot->loft_change_ft,
                                     .rotation_change_deg = shot->rotation_change_deg};
    char changes[96], seen[96] = "";
    candidate_changes(&usual, &meant, changes, sizeof changes);
    if (changes[0])
        printf("             meant %s\n", changes);
    if (shot->mph != 0.0)
        text_append(seen, sizeof seen, ", %.1f mph", shot->mph);
    if (shot->arrows != 0.0)
        text_append(seen, sizeof seen, ", at the arrows on %g", shot->arrows);
    if (shot->breakpoint != 0.0)
        text_append(seen, sizeof seen, ", breakpoint on %g", shot->breakpoint);
    if (seen[0])
        printf("             seen%s\n", seen + 1);
}

static void print_shot(const Session *session, int index)
{
    const Shot *shot = &session->shots[index];
    const Ball *ball = session_ball(session, shot);
    char left[32], spare[32], stance[16], aim[16];
    pins_words(shot->left_said, shot->left, shot->foul ? "" : "strike", left, sizeof left);
    pins_words(shot->spare_said, shot->spare_left, "spare", spare, sizeof spare);
    if (shot->foul)
        text_append(left, sizeof left, "%sfoul", left[0] ? ", " : "");
    if (shot->spare_foul)
        text_append(spare, sizeof spare, ", foul");
    number_words(shot->stance, stance, sizeof stance);
    number_words(shot->aim, aim, sizeof aim);
    printf("%5d %-5s %c ", session->shot_frame[index], SIDE_NAMES[shot->lane],
           shot->slot ? '0' + shot->slot : '-'); /* in the locker now */
    print_cell(ball ? ball->name : shot->ball[0] ? shot->ball : "?", 13);
    printf(" %4s %4s %-7s %-7s %-7s ", stance, aim, word_or_dash(HIT_NAMES[shot->hit]),
           word_or_dash(READ_NAMES[shot->read]), word_or_dash(RELEASE_NAMES[shot->release]));
    if (spare[0])
        printf("%-8s %s\n", word_or_dash(left), spare);
    else
        printf("%s\n", word_or_dash(left));
    print_more(shot);
}

/* The frames of a game that were thrown between two shots and known only by their pins. */
static void print_told(const Session *session, int game, int before)
{
    int at[SESSION_TOLD_MAX], count = session_told(session, game, before, at);
    for (int i = 0; i < count; i++) {
        const ToldFrame *told = &session->told[at[i]];
        printf("%5d %-5s %s (pins only)\n", told->frame, SIDE_NAMES[told->lane], told->balls);
    }
}

static void print_game(const Session *session, int game)
{
    Score score;
    char title[16] = "Warm-up";
    if (game > 0)
        snprintf(title, sizeof title, "Game %d", game);
    printf("\n%s\n\nframe lane  ball            feet  aim hit     read    release left     "
           "spare\n",
           title);
    for (int i = 0; i <= session->shot_count; i++) {
        print_told(session, game, i);
        if (i < session->shot_count && session->shot_game[i] == game)
            print_shot(session, i);
    }
    if (game == 0)
        return;
    bool known = session_score(session, game, &score);
    if (score.ball_count > 0)
        putchar('\n');
    print_sheet(&score);
    if (!known)
        puts("From there on a leave or a spare was not entered: no score.");
}

static void print_head(const JournalHead *head, const Session *session)
{
    char bag[256];
    const EventInfo *event = &session->event;
    files_short("bags", event->bag, bag, sizeof bag);
    const int *pair = event_pair(event, 1);
    printf("%s%s%s, on %s, %g ft; lanes %d and %d", event->name, event->date[0] ? ", " : "",
           event->date, session->pattern.name, session->pattern.length_ft, pair[0], pair[1]);
    for (int game = 2; game <= event->games; game++)
        if (event_moves(event, game)) {
            pair = event_pair(event, game);
            printf(", %d and %d", pair[0], pair[1]);
        }
    putchar('\n');
    printf("%s, %s hand, bag %s; journal %s\n", session->bag.bowler.name,
           HAND_NAMES[session->bag.bowler.hand], bag, head->name);
    if (session->shot_count == 0 && session->told_count == 0)
        puts("\nNo shot was entered yet.");
}

static void said_pins_json(JsonOut *out, const char *key, bool said, Pins pins)
{
    if (said)
        json_pins(out, key, pins);
    else
        json_out_null(out, key);
}

static void said_json(JsonOut *out, const char *key, double value, bool said)
{
    if (said)
        json_out_number(out, key, value);
    else
        json_out_null(out, key);
}

static void shot_json(JsonOut *out, const Session *session, int index)
{
    const Shot *shot = &session->shots[index];
    const Ball *ball = session_ball(session, shot);
    json_out_object(out, NULL);
    json_out_integer(out, "game", session->shot_game[index]);
    json_out_integer(out, "frame", session->shot_frame[index]);
    json_out_string(out, "lane", SIDE_NAMES[shot->lane]);
    json_out_integer(out, "slot", shot->slot);
    json_out_string(out, "ball", ball ? ball->id : shot->ball[0] ? shot->ball : NULL);
    said_json(out, "stance", shot->stance, shot->stance != 0.0);
    said_json(out, "aim", shot->aim, shot->aim != 0.0);
    said_json(out, "mph", shot->mph, shot->mph != 0.0);
    json_out_number(out, "mph_change", shot->mph_change);
    json_out_number(out, "loft_change_ft", shot->loft_change_ft);
    json_out_number(out, "rotation_change_deg", shot->rotation_change_deg);
    said_json(out, "arrows", shot->arrows, shot->arrows != 0.0);
    said_json(out, "breakpoint", shot->breakpoint, shot->breakpoint != 0.0);
    json_out_string(out, "hit", shot->hit ? HIT_NAMES[shot->hit] : NULL);
    json_out_string(out, "read", shot->read ? READ_NAMES[shot->read] : NULL);
    json_out_string(out, "release", shot->release ? RELEASE_NAMES[shot->release] : NULL);
    said_pins_json(out, "left", shot->left_said, shot->left);
    json_out_bool(out, "ringing", shot->ringing);
    said_pins_json(out, "spare", shot->spare_said, shot->spare_left);
    json_out_bool(out, "foul", shot->foul);
    json_out_bool(out, "spare_foul", shot->spare_foul);
    json_out_end(out);
}

static void told_json(JsonOut *out, const ToldFrame *told)
{
    json_out_object(out, NULL);
    json_out_integer(out, "game", told->game);
    json_out_integer(out, "frame", told->frame);
    json_out_string(out, "lane", SIDE_NAMES[told->lane]);
    json_out_integer(out, "before_shot", told->before);
    json_out_string(out, "balls", told->balls);
    json_out_end(out);
}

static int event_json(const JournalHead *head, const Session *session)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    head_json(&out, head, session);
    json_out_array(&out, "games");
    for (int game = 1; game <= games_of(session); game++)
        game_json(&out, session, game);
    json_out_end(&out);
    json_out_array(&out, "shots");
    for (int i = 0; i < session->shot_count; i++)
        shot_json(&out, session, i);
    json_out_end(&out);
    json_out_array(&out, "pins_only");
    for (int i = 0; i < session->told_count; i++)
        if (session->told[i].game > 0)
            told_json(&out, &session->told[i]);
    json_out_end(&out);
    json_out_end(&out);
    return cmd_json(&out);
}

/* ---- export ---- */

/* Whether a spreadsheet would take what begins here for a formula; the last four are the same signs
 * at full width. */
static bool begins_formula(const char *text)
{
    static const char *const SIGNS[] = {"=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20"};
    for (size_t i = 0; i < sizeof SIGNS / sizeof *SIGNS; i++)
        if (strncmp(text, SIGNS[i], strlen(SIGNS[i])) == 0)
            return true;
    return false;
}

/* One field of RFC 4180: in quotes where it must be. What a spreadsheet would take for a formula
 * has a ' before it, which says that it is none: a text, and what follows a ; in it, since some
 * languages' spreadsheets part cells there. */
static void csv_text(const char *text, char end)
{
    bool quoted = begins_formula(text) || text[strcspn(text, ",;\"\r\n")] != '\0';
    if (quoted)
        putchar('"');
    for (const char *c = text; *c; c++) {
        if ((c == text || c[-1] == ';') && begins_formula(c))
            putchar('\'');
        if (*c == '"')
            putchar('"');
        putchar(*c);
    }
    if (quoted)
        putchar('"');
    putchar(end);
}

static void csv_number(double value, bool said)
{
    if (said)
        printf("%g", value);
    putchar(',');
}

static void csv_head(void)
{
    fputs("journal,event,date,bowler,bag,pattern,shot,game,frame,side,lane,slot,ball,ball_name,"
          "stance,aim,mph,mph_change,loft_change_ft,rotation_change_deg,arrows,breakpoint,hit,read,"
          "release,left_count,left,ringing,spare_count,spare_left,foul,spare_foul\r\n",
          stdout);
}

static void csv_shot(const JournalHead *head, const Session *session, int index)
{
    const Shot *shot = &session->shots[index];
    const Ball *ball = session_ball(session, shot);
    char left[32], spare[32], bag[256];
    files_short("bags", session->event.bag, bag, sizeof bag);
    pins_words(shot->left_said, shot->left, "", left, sizeof left);
    pins_words(shot->spare_said, shot->spare_left, "", spare, sizeof spare);
    csv_text(head->name, ',');
    csv_text(session->event.name, ',');
    csv_text(session->event.date, ',');
    csv_text(session->bag.bowler.name, ',');
    csv_text(bag, ',');
    csv_text(session->pattern.name, ',');
    printf("%d,%d,%d,%s,%d,%d,", index + 1, session->shot_game[index], session->shot_frame[index],
           SIDE_NAMES[shot->lane],
           event_pair(&session->event, session->shot_game[index])[shot->lane], shot->slot);
    csv_text(ball ? ball->id : shot->ball, ',');
    csv_text(ball ? ball->name : "", ',');
    csv_number(shot->stance, shot->stance != 0.0);
    csv_number(shot->aim, shot->aim != 0.0);
    csv_number(shot->mph, shot->mph != 0.0);
    csv_number(shot->mph_change, true);
    csv_number(shot->loft_change_ft, true);
    csv_number(shot->rotation_change_deg, true);
    csv_number(shot->arrows, shot->arrows != 0.0);
    csv_number(shot->breakpoint, shot->breakpoint != 0.0);
    printf("%s,%s,%s,", HIT_NAMES[shot->hit], READ_NAMES[shot->read], RELEASE_NAMES[shot->release]);
    csv_number(lane_pin_count(shot->left), shot->left_said);
    printf("%s,%s,", left, shot->ringing ? "true" : "false");
    csv_number(lane_pin_count(shot->spare_left), shot->spare_said);
    printf("%s,%s,%s\r\n", spare, shot->foul ? "true" : "false",
           shot->spare_foul ? "true" : "false");
}

static void export_one(const JournalHead *head, const Session *session)
{
    for (int i = 0; i < session->shot_count; i++)
        csv_shot(head, session, i);
}

/* ---- verify ---- */

static int log_verify(const Options *options, const JournalHead *heads, int count)
{
    int status = CMD_DONE;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_array(&out, "journals");
    for (int i = 0; i < count; i++) {
        int entries;
        Error error;
        bool good = journal_verify(heads[i].name, &entries, &error);
        json_out_object(&out, NULL);
        json_out_string(&out, "journal", heads[i].name);
        json_out_bool(&out, "ok", good);
        if (good) {
            json_out_integer(&out, "entries", entries);
            if (!options->json)
                printf("%s: %d entr%s, ok\n", heads[i].name, entries, entries == 1 ? "y" : "ies");
        } else {
            char line[ERROR_LINE_MAX];
            error_line(&error, line, sizeof line);
            json_out_string(&out, "fault", line);
            fflush(stdout);
            status = cmd_fault(CMD_FAULT, &error);
        }
        json_out_end(&out);
    }
    json_out_end(&out);
    if (!options->json && count == 0)
        puts("No event has a journal yet.");
    say_set_aside(options, &out);
    json_out_end(&out);
    if (options->json) {
        int written = cmd_json(&out);
        return written != CMD_DONE ? written : status;
    }
    json_out_free(&out);
    return status;
}

/* ---- repair ---- */

static int log_repair(const Options *options, const JournalHead *head, Session *session)
{
    char notice[ERROR_LINE_MAX];
    Error error;
    if (!logbook_repair(head, session, notice, sizeof notice, &error))
        return cmd_fault(CMD_FAULT, &error);
    if (!options->json) {
        printf("%s: %s\n", head->name, notice[0] ? notice : "nothing to repair");
        return CMD_DONE;
    }
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "journal", head->name);
    json_out_integer(&out, "entries", session->entry_count);
    json_out_string(&out, "repaired", notice[0] ? notice : NULL);
    json_out_end(&out);
    return cmd_json(&out);
}

/* ---- which of them ---- */

static int with_event(const Options *options, bool repair, Session *session)
{
    JournalHead head;
    Error error = {0};
    bool usable;
    if (!logbook_find(options->words[1], options->bag, &head, &error))
        return cmd_fault(CMD_FAULT, &error);
    if (repair)
        return log_repair(options, &head, session);
    int status = open_one(&head, session, &usable);
    if (!usable)
        return status;
    if (options->json) {
        int written = event_json(&head, session);
        return written != CMD_DONE ? written : status;
    }
    if (options->csv) {
        csv_head();
        export_one(&head, session);
        return status;
    }
    print_head(&head, session);
    for (int game = session->warm_up_count > 0 ? 0 : 1; game <= games_of(session); game++)
        print_game(session, game);
    return status;
}

static int export_all(const JournalHead *heads, int count, Session *session)
{
    int status = CMD_DONE;
    bool usable;
    csv_head();
    for (int i = 0; i < count; i++) {
        if (open_one(&heads[i], session, &usable) != CMD_DONE)
            status = CMD_FAULT;
        if (usable)
            export_one(&heads[i], session);
    }
    return status;
}

int cmd_log(const Options *options)
{
    static const char *const WHATS[] = {"list", "show", "export", "verify", "repair", NULL};
    enum { LIST, SHOW, EXPORT, VERIFY, REPAIR, WHAT_COUNT };
    const char *word = options->word_count > 0 ? options->words[0] : WHATS[LIST];
    int what = 0;
    while (what < WHAT_COUNT && strcmp(WHATS[what], word) != 0)
        what++;
    bool one = options->word_count > 1;
    if (what == WHAT_COUNT)
        return cmd_say(CMD_USAGE,
                       "log: found '%.40s'; allowed is list, show, export, verify or repair", word);
    if (one && (what == LIST || what == VERIFY))
        return cmd_say(CMD_USAGE, "log %s takes no event, found '%.60s'", word, options->words[1]);
    if (!one && (what == SHOW || what == REPAIR))
        return cmd_say(CMD_USAGE, "log %s needs an event: settee log %s EVENT", word, word);
    if (!one && options->bag)
        return cmd_say(CMD_USAGE, "log %s takes --bag with an event only", word);
    if (what == EXPORT && options->csv == options->json)
        return cmd_say(CMD_USAGE, "log export: say either --csv or --json");
    if (what == EXPORT && options->json && !one)
        return cmd_say(CMD_USAGE, "log export --json needs an event");
    if (what != EXPORT && options->csv)
        return cmd_say(CMD_USAGE, "log %s has no --csv, export has", word);
    Session *session = calloc(1, sizeof *session);
    int count;
    Error error;
    JournalHead *heads = journal_list(&count, &error);
    int status;
    if (!session)
        status = cmd_say(CMD_FAULT, "out of memory");
    else if (count < 0)
        status = cmd_fault(CMD_FAULT, &error);
    else if (one)
        status = with_event(options, what == REPAIR, session);
    else if (what == LIST)
        status = log_list(options, heads, count, session);
    else if (what == EXPORT)
        status = export_all(heads, count, session);
    else
        status = log_verify(options, heads, count);
    free(heads);
    free(session);
    return status;
}
