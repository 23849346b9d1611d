/* bag_save.c - a bag as settee-bag/1, checked as any file is before a byte of it is written. */
#include <string.h>

#include "base/json_out.h"
#include "store/atomic.h"
#include "store/load.h"

static void scatter_out(JsonOut *out, const Scatter *scatter)
{
    json_out_object(out, "scatter");
    json_out_number(out, "launch_deg", scatter->launch_deg);
    json_out_number(out, "mph", scatter->mph);
    json_out_number(out, "rpm", scatter->rpm);
    json_out_number(out, "laydown_boards", scatter->laydown_boards);
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
    json_out_number(out, "pounds", ball->pounds);
    json_out_number(out, "rg_in", ball->rg_in);
    json_out_number(out, "differential_in", ball->differential_in);
    json_out_number(out, "intermediate_in", ball->intermediate_in);
    json_out_string(out, "cover", COVER_NAMES[ball->cover]);
    json_out_number(out, "cover_strength", ball->cover_strength);
    surface_out(out, &ball->surface);
    json_out_object(out, "layout");
    json_out_number(out, "pin_to_pap_in", ball->pin_to_pap_in);
    json_out_number(out, "mass_bias_deg", ball->mass_bias_deg);
    json_out_end(out);
    if (ball->slot > 0)
        json_out_integer(out, "slot", ball->slot);
    json_out_end(out);
}

/* The same checks as when a file is read; and what is read back must be what was meant. */
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
        return error_set(error, "the bag did not read back");
    return good;
}

bool files_save_bag(const char *path, const Bag *bag, Error *error)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "format", "settee-bag/1");
    bowler_out(&out, &bag->bowler);
    json_out_array(&out, "balls");
    for (int i = 0; i < bag->count; i++)
        ball_out(&out, &bag->balls[i]);
    json_out_end(&out);
    json_out_end(&out);
    const char *text = json_out_text(&out);
    bool done = text ? reads_back(text, strlen(text), bag, error) &&
                           atomic_write(path, text, strlen(text), error)
                     : error_set(error, "memory ran short");
    json_out_free(&out);
    return done;
}
