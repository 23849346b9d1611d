/* bench_frame.c - how long a picture takes while a rehearsal's ball rolls: drawn into the canvas,
 * by size of the screen. Processor time; a terminal has its own. Asserts nothing. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "store/files.h"
#include "ui/input/keys.h"
#include "ui/ui_rehearse.h"

static double cpu_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

static bool load(void *context, const char *bag, const char *pattern, Bag *into_bag,
                 Pattern *into_pattern, Error *error)
{
    (void)context;
    return files_bag(bag, into_bag, error) && files_pattern(pattern, into_pattern, error);
}

/* Rolls one ball at that size and prints the mean and the longest of a step and its picture. */
static void measure(UiRehearsal *host, int columns, int rows)
{
    Stage *stage = rehearse_stage_new(host);
    Canvas canvas = {0};
    double sum = 0.0, most = 0.0;
    int frames = 0;
    if (!stage || !canvas_init(&canvas, columns, rows))
        exit(1);
    stage->kind->size(stage, columns, rows);
    stage->kind->key(stage, PRESS_ENTER);
    while (stage->busy)
        stage->kind->step(stage);
    stage->kind->key(stage, PRESS_ENTER);
    while (stage->tick_ms > 0) {
        double began = cpu_ms();
        stage->kind->tick(stage, stage->tick_ms);
        canvas_erase(&canvas);
        stage->kind->draw(stage, &canvas);
        double took = cpu_ms() - began;
        sum += took;
        most = took > most ? took : most;
        frames++;
    }
    printf("%3dx%-3d  %5d pictures  %6.3f ms on the mean, %6.3f ms at most\n", columns, rows,
           frames, sum / frames, most);
    canvas_fini(&canvas);
    rehearse_stage_free(stage);
}

int main(void)
{
    static RuleSet rules;
    static Theme theme;
    static const UiName BAGS[] = {{"demo", false}}, PATTERNS[] = {{"apron", false}};
    static const int SIZES[][2] = {{80, 24}, {120, 40}, {200, 60}, {500, 200}};
    Error error = {0};
    theme = theme_plain();
    StageLook look = {.themes = &theme, .theme_count = 1, .glyphs = &GLYPHS_UTF8};
    UiRehearsal host = {.look = &look,
                        .rules = &rules,
                        .bags = BAGS,
                        .patterns = PATTERNS,
                        .bag_count = 1,
                        .pattern_count = 1,
                        .games = 1,
                        .bowlers = 4,
                        .seed = 16510,
                        .load = load};
    if (!files_rules("coach", &rules, &error))
        return 1;
    puts("a picture of a rolling ball (16 ms is the goal)");
    for (size_t i = 0; i < sizeof SIZES / sizeof *SIZES; i++)
        measure(&host, SIZES[i][0], SIZES[i][1]);
    return 0;
}
