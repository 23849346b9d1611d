/* cmd.h - what the commands share: loading, the chosen ball, printing faults and JSON.
 *
 * A command prints its answer on standard output and returns the exit status. Faults are one line
 * on standard error. */
#ifndef SETTEE_CLI_CMD_H
#define SETTEE_CLI_CMD_H

#include "base/json_out.h"
#include "cli/options.h"
#include "core/bag/bag.h"
#include "core/event/score.h"
#include "core/lane/oil.h"
#include "core/line/line.h"
#include "core/pins/rack.h"

#define CMD_PATTERN_DEFAULT "apron"
#define CMD_BAG_DEFAULT "demo"

enum { CMD_DONE = 0, CMD_FAULT = 1, CMD_USAGE = 2 };

int cmd_roll(const Options *options);
int cmd_line(const Options *options);
int cmd_oil(const Options *options);
int cmd_advise(const Options *options);
int cmd_spare(const Options *options);
int cmd_score(const Options *options);
int cmd_rack(const Options *options);
int cmd_bag(const Options *options);
int cmd_block(const Options *options);
int cmd_card(const Options *options);
int cmd_rehearse(const Options *options);
int cmd_rehearse_event(const Options *options);   /* with --event */
int cmd_rehearse_history(const Options *options); /* with --history */
int cmd_home(const Options *options);
int cmd_log(const Options *options);
int cmd_learn(const Options *options);
int cmd_review(const Options *options);
int cmd_check(const Options *options);
int cmd_words(const Options *options);
int cmd_teach(const Options *options);
int cmd_new(const Options *options);

/* The lane, the bowler and the balls that the options name. */
typedef struct Setup {
    Pattern pattern;
    Bag bag;   /* the bowler's speed and hand as the options change them */
    Oil sheet; /* from the right edge, as in the file */
    Oil oil;   /* from the bowler's own side */
} Setup;

/* CMD_DONE, or the exit status after the fault was printed. */
int setup_read(const Options *options, Setup *setup);

/* The ball that --slot or --ball names, else the first of the bag; NULL: fault in `error`. */
const Ball *setup_ball(const Options *options, const Setup *setup, Error *error);

/* The ball's line to the pocket: the one with the best chance from that laydown board, or, if it is
 * NAN, the best line from anywhere (line_best). */
Line setup_line(const Setup *setup, const MotionBody *body, double laydown_board);

/* Prints "settee: ..." on standard error and returns `status`. */
int cmd_fault(int status, const Error *error);
int cmd_say(int status, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Today as 2026-05-17; "" where there is no clock. */
void cmd_today(char *out, size_t size);

/* Prints the object and frees it. */
int cmd_json(JsonOut *out);

/* Prints `text` in lines of at most 78 characters, each after `indent` spaces. */
void print_wrapped(const char *text, int indent);
/* The same with a label, shorter than the indent, before the first line. */
void print_entry(const char *label, const char *text, int indent);

/* Prints `text` in a column of that many characters, cut or filled with spaces. */
void print_cell(const char *text, int width);

/* A game like a score sheet: frames, balls, running totals; nothing if no ball was thrown. */
void print_sheet(const Score *score);

/* "Tarn Ledger (slot 1, 2000 grit)" */
void print_ball(const Ball *ball);

/* "18.3 mph, 350 rpm, rotation 50, tilt 12, loft 1 ft" */
void print_release(const Bowler *bowler);

/* Members of the open object. slot: null in the locker. */
void json_slot(JsonOut *out, const Ball *ball);
/* stance, aim, laydown. */
void json_stand(JsonOut *out, double stance, double aim, double laydown);
/* first_move_ft, breakpoint, entry. */
void json_motion(JsonOut *out, const Line *line);
/* pocket, room_in, room_out. */
void json_pocket(JsonOut *out, const Line *line);
/* An array of pin numbers. */
void json_pins(JsonOut *out, const char *key, Pins pins);

/* Writes entry {board, degrees[, mph]} or null in the gutter, breakpoint {board, ft}. */
void json_entry(JsonOut *out, double board, double degrees, double mph);
/* Members strike, pinfall, leaves of the open object; pins as that hand's bowler sees them. */
void json_rack(JsonOut *out, const RackChances *chances, Hand hand);
void json_breakpoint(JsonOut *out, double board, double ft);

/* "-" for NAN, else the number with that many decimals, right-aligned. */
void print_number(double value, int width, int decimals);

/* "6.1 @ 38" right-aligned, "-" in its place where there is none to speak of (motion_breaks). */
void print_breakpoint(const Line *line, int width);
void print_breakpoint_line(double board, double ft); /* "Breakpoint  board 6.1 at 38 ft\n" */

#endif
