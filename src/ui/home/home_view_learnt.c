/* home_view_learnt.c - draws what the events say of a bag's numbers. */
#include "base/text.h"
#include "core/motion/measure.h"
#include "ui/home/home_view.h"

/* "Speed 19.2 mph is learnt; before, it was 18." */
static void taken_words(const Bag *bag, const HomeLearntRow *row, char *out, size_t size)
{
    const Bowler *bowler = &bag->bowler;
    const Ball *ball = &bag->balls[row->ball];
    out[0] = '\0';
    if (row->kind == LEARNT_MPH)
        text_append(out, size, "Speed %.4g mph is learnt; before, it was %.4g.", bowler->mph,
                    bowler->before.mph);
    else if (row->kind == LEARNT_SCATTER)
        text_append(out, size, "Scatter %.1f boards is learnt; before, it was %.1f.",
                    measure_scatter_at_arrows(&bowler->scatter),
                    measure_scatter_at_arrows(&bowler->before.scatter));
    else
        text_append(out, size, "%s: cover strength %.4g is learnt; before, it was %.4g.",
                    ball->name, ball->cover_strength, ball->strength_before);
}

static void row_words(const Home *home, const HomeLearntRow *row, char *out, size_t size)
{
    if (row->offer)
        learnt_words(row->offer, &home->bag, out, size);
    else
        taken_words(&home->bag, row, out, size);
}

/* What can be done with the chosen one, and how sure it is. */
static void detail(const HomeLearntRow *row, char *out, size_t size)
{
    out[0] = '\0';
    if (row->offer)
        text_append(out, size, "95 %% confidence interval: %.1f to %.1f%s. Enter takes it over",
                    row->offer->low, row->offer->high,
                    row->kind == LEARNT_MPH ? " mph" : " boards");
    if (row->offer && row->kind == LEARNT_BALL)
        text_append(out, size, " as a cover strength of %.3g", row->offer->to);
    if (row->offer)
        text_append(out, size, ".");
    if (row->taken)
        text_append(out, size, "%sb puts back what was there before.", row->offer ? " " : "");
}

/* Why there is nothing. */
static void nothing(const HomeLearnt *learnt, char *out, size_t size)
{
    out[0] = '\0';
    if (!learnt || !learnt->current)
        text_copy(out, size, "Calculating what your events say.");
    else if (learnt->events < LEARNT_EVENTS_LEAST)
        text_append(out, size, "%d event%s so far with this bag; three are needed to say anything.",
                    learnt->events, learnt->events == 1 ? "" : "s");
    else
        text_append(out, size, "Your last %d events fit the numbers in this bag.", learnt->events);
}

static void intro(const HomeLearnt *learnt, bool compact, char *out, size_t size)
{
    out[0] = '\0';
    if (learnt && !learnt->current)
        text_copy(out, size, "Calculating what your events say ...");
    else if (learnt && learnt->events >= LEARNT_EVENTS_LEAST)
        text_append(out, size, "From your last %d events%s", learnt->events,
                    compact ? ":" : ". Nothing changes unless you take it over.");
}

void home_draw_learnt(const Home *home, Canvas *canvas)
{
    HomeLearntRow rows[LEARNT_MAX];
    const HomeLearnt *learnt = home_learnt_of(home, home->bag_name);
    bool compact = home_compact(home);
    int count = home_learnt_rows(home, rows), pitch = compact ? 2 : 1, row = compact ? 2 : 4;
    int room = (canvas->rows - row - (compact ? 2 : 6)) / pitch;
    int at = home->learnt < count ? home->learnt : count - 1;
    int top = home_top(at, count, room), columns = canvas->columns - 6;
    char text[200], right[96] = "", hint[200] = "";
    text_append(right, sizeof right, "bag %s", home->bag_name);
    if (count > 0)
        detail(&rows[at], hint, sizeof hint);
    home_frame(home, canvas, "Learnt from events", right,
               count == 0       ? ""
               : rows[at].offer ? "Enter takes it over"
                                : "b puts back what was there");
    intro(learnt, compact, text, sizeof text);
    canvas_text(canvas, compact ? 1 : 2, compact ? 1 : 3, canvas->columns - 4, ROLE_DIM, text);
    if (count == 0) {
        nothing(learnt, text, sizeof text);
        canvas_wrap(canvas, row, 3, columns, 3, ROLE_PLAIN, text);
        return;
    }
    for (int i = top; i < count && i < top + room; i++, row += pitch) {
        if (i == at)
            canvas_put(canvas, row, 1, home->host->look->glyphs->breaks_right, ROLE_ACCENT);
        row_words(home, &rows[i], text, sizeof text);
        canvas_wrap(canvas, row, 3, columns, pitch,
                    i == at         ? ROLE_ACCENT
                    : rows[i].offer ? ROLE_PLAIN
                                    : ROLE_DIM,
                    text);
    }
    if (!compact)
        canvas_wrap(canvas, row + 1, 3, columns, 3, ROLE_PLAIN, hint);
}
