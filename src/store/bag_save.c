/* bag_save.c - a bag as settee-bag/1, checked as any file is before a byte is written. */
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/json_out.h"
#include "base/text.h"
#include "core/bag/preset.h"
#include "core/bag/taken.h"
#include "store/atomic.h"
#include "store/load.h"
#include "store/paths.h"

static void scatter_out(JsonOut *out, const Scatter *scatter)
{
    json_out_object(out, "scatter");
    json_out_number(out, "launch_deg", scatter->launch_deg);
    json_out_number(out, "mph", scatter->mph);
    json_out_number(out, "rpm", scatter->rpm);
    json_out_number(out, "laydown_boards", scatter->laydown_boards);
    json_out_end(out);
}

/* What somebody simply said is not written: that is what a key left out means. */
static void source_out(JsonOut *out, const char *key, Source source)
{
    if (source != SOURCE_SAID)
        json_out_string(out, key, SOURCE_NAMES[source]);
}

static void from_out(JsonOut *out, const BowlerFrom *from)
{
    json_out_object(out, "from");
    if (from->level > 0)
        json_out_string(out, "level", LEVEL_NAMES[from->level]);
    if (from->style > 0)
        json_out_string(out, "style", PLAY_NAMES[from->style]);
    source_out(out, "mph", from->mph);
    source_out(out, "rpm", from->rpm);
    source_out(out, "rotation_deg", from->rotation);
    source_out(out, "tilt_deg", from->tilt);
    source_out(out, "loft_ft", from->loft);
    source_out(out, "laydown_offset_boards", from->laydown_offset);
    source_out(out, "scatter", from->scatter);
    json_out_end(out);
}

/* Only of what is still as it was learnt. */
static void before_out(JsonOut *out, const Bowler *bowler)
{
    const BowlerBefore *before = &bowler->before;
    bool mph = taken_from_bowler(bowler, LEARNT_MPH);
    bool scatter = taken_from_bowler(bowler, LEARNT_SCATTER);
    if (!mph && !scatter)
        return;
    json_out_object(out, "before");
    if (mph) {
        json_out_number(out, "mph", before->mph);
        source_out(out, "mph_from", before->mph_from);
    }
    if (scatter) {
        scatter_out(out, &before->scatter);
        source_out(out, "scatter_from", before->scatter_from);
    }
    json_out_end(out);
}

static void bowler_out(JsonOut *out, const Bowler *bowler)
{
    json_out_object(out, "bowler");
    json_out_string(out, "name", bowler->name);
    json_out_string(out, "hand", HAND_NAMES[bowler->hand]);
    json_out_string(out, "style", STYLE_NAMES[bowler->style]);
    json_out_number(out, "mph", bowler->mph);
    json_out_number(out, "rpm", bowler->rpm);
    json_out_number(out, "rotation_deg", bowler->rotation_deg);
    if (bowler_turns(bowler)) {
        json_out_array(out, "rotation_range_deg");
        json_out_number(out, NULL, bowler->rotation_least_deg);
        json_out_number(out, NULL, bowler->rotation_most_deg);
        json_out_end(out);
    }
    json_out_number(out, "tilt_deg", bowler->tilt_deg);
    json_out_number(out, "loft_ft", bowler->loft_ft);
    json_out_number(out, "laydown_offset_boards", bowler->laydown_offset_boards);
    scatter_out(out, &bowler->scatter);
    if (bowler->spare_release.said) {
        json_out_object(out, "spare_release");
        json_out_number(out, "mph", bowler->spare_release.mph);
        json_out_number(out, "rpm", bowler->spare_release.rpm);
        json_out_number(out, "rotation_deg", bowler->spare_release.rotation_deg);
        json_out_number(out, "tilt_deg", bowler->spare_release.tilt_deg);
        json_out_end(out);
    }
    if (!bowler_from_nothing(&bowler->from))
        from_out(out, &bowler->from);
    before_out(out, bowler);
    json_out_end(out);
}

void surface_out(JsonOut *out, const Surface *surface)
{
    json_out_object(out, "surface");
    if (surface->finish == FINISH_GRIT)
        json_out_number(out, "grit", surface->grit);
    else
        json_out_string(out, "finish", FINISH_NAMES[surface->finish]);
    json_out_number(out, "games_since", surface->games_since);
    json_out_end(out);
}

static void ball_out(JsonOut *out, const Ball *ball)
{
    json_out_object(out, NULL);
    json_out_string(out, "id", ball->id);
    json_out_string(out, "name", ball->name);
    if (ball->kind > 0)
        json_out_string(out, "kind", BALL_KIND_NAMES[ball->kind]);
    json_out_number(out, "pounds", ball->pounds);
    json_out_number(out, "rg_in", ball->rg_in);
    json_out_number(out, "differential_in", ball->differential_in);
    json_out_number(out, "intermediate_in", ball->intermediate_in);
    json_out_string(out, "cover", COVER_NAMES[ball->cover]);
    json_out_number(out, "cover_strength", ball->cover_strength);
    if (taken_from_ball(ball))
        json_out_number(out, "cover_strength_before", ball->strength_before);
    Surface usual = ball_usual_surface(ball->cover);
    if (!ball->surface_usual || !surface_same(&ball->surface, &usual))
        surface_out(out, &ball->surface);
    json_out_object(out, "layout");
    json_out_number(out, "pin_to_pap_in", ball->pin_to_pap_in);
    json_out_number(out, "mass_bias_deg", ball->mass_bias_deg);
    json_out_end(out);
    if (ball->slot > 0)
        json_out_integer(out, "slot", ball->slot);
    json_out_end(out);
}

/* The same checks as when a file is read; and reading it back must give the same bag. */
static bool reads_back(const char *text, size_t size, const Bag *bag, Error *error)
{
    JsonDoc *doc = json_read(text, size, 1, error);
    if (!doc)
        return false;
    Json root = json_root(doc, error);
    Bag back;
    bool good = bag_parse(&root, &back);
    json_free(doc);
    if (good && back.count != bag->count)
        return error_set(error, "the bag would not read back as it is");
    return good;
}

/* One ball per line: people read and edit these files. */
bool bag_out(JsonOut *out, const Bag *bag, Error *error)
{
    out->lines = 2;
    json_out_object(out, NULL);
    json_out_string(out, "format", "settee-bag/1");
    bowler_out(out, &bag->bowler);
    json_out_array(out, "balls");
    for (int i = 0; i < bag->count; i++)
        ball_out(out, &bag->balls[i]);
    json_out_end(out);
    json_out_end(out);
    const char *text = json_out_text(out);
    return text ? reads_back(text, strlen(text), bag, error) : error_set(error, "out of memory");
}

bool files_save_bag(const char *path, const Bag *bag, Error *error)
{
    JsonOut out = json_out_start();
    bool done = bag_out(&out, bag, error) &&
                atomic_write(path, json_out_text(&out), strlen(json_out_text(&out)), error);
    json_out_free(&out);
    return done;
}

/* Whether the file is unchanged; if it is gone, there is nothing left to protect. */
static bool unchanged(const BagFile *file, Error *error)
{
    size_t length;
    int fd = open(file->path, O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return errno == ENOENT || errno == ENOTDIR
                   ? true
                   : error_set(error, "can't be opened: %s", strerror(errno));
    char *text = load_descriptor(fd, FILES_BYTES_MAX, &length, error);
    close(fd);
    bool same = text && file->there && load_crc32(text, length) == file->sum;
    if (text && !same)
        error_set(error, "the file changed on disk: restart settee to read it");
    free(text);
    return same;
}

bool files_bag_keep(BagFile *file, const Bag *bag, Error *error)
{
    Error unheard;
    error = error ? error : &unheard;
    *error = (Error){0};
    if (!file->path[0])
        return error_set(error, "neither XDG_CONFIG_HOME nor HOME is an absolute path: nowhere to "
                                "save the bag");
    text_clean(error->file, sizeof error->file, file->path);
    JsonOut out = json_out_start();
    bool done = bag_out(&out, bag, error) && unchanged(file, error) &&
                paths_make_folders(file->path, error);
    if (done) {
        const char *text = json_out_text(&out);
        done = atomic_write(file->path, text, strlen(text), error);
        file->there = file->there || done;
        file->sum = done ? load_crc32(text, strlen(text)) : file->sum;
    }
    json_out_free(&out);
    return done;
}
