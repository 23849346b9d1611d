/* helper_same.c - comparing member by member. */
#include "helper_same.h"

#include "near.h"

#include <string.h>

void assert_same_number(double a, double b)
{
    if (!(a == b || (isnan(a) && isnan(b))))
        fail_msg("%.17g is not %.17g", a, b);
}

void assert_same_line(const Line *a, const Line *b)
{
    assert_int_equal(a->found, b->found);
    assert_same_number(a->laydown_board, b->laydown_board);
    assert_same_number(a->launch_deg, b->launch_deg);
    assert_same_number(a->stance, b->stance);
    assert_same_number(a->aim, b->aim);
    assert_same_number(a->entry_board, b->entry_board);
    assert_same_number(a->entry_deg, b->entry_deg);
    assert_same_number(a->first_move_ft, b->first_move_ft);
    assert_same_number(a->breakpoint_board, b->breakpoint_board);
    assert_same_number(a->breakpoint_ft, b->breakpoint_ft);
    assert_same_number(a->pocket, b->pocket);
    assert_same_number(a->margin_in, b->margin_in);
    assert_same_number(a->margin_out, b->margin_out);
}

void assert_same_roll(const Roll *a, const Roll *b)
{
    assert_int_equal(a->count, b->count);
    for (int i = 0; i < a->count; i++) {
        const PathPoint *p = &a->path[i], *q = &b->path[i];
        const double of_p[] = {p->ft,  p->board,    p->degrees, p->mph,
                               p->rpm, p->slip_mps, p->mu,      p->units};
        const double of_q[] = {q->ft,  q->board,    q->degrees, q->mph,
                               q->rpm, q->slip_mps, q->mu,      q->units};
        for (size_t k = 0; k < sizeof of_p / sizeof of_p[0]; k++)
            assert_same_number(of_p[k], of_q[k]);
        assert_int_equal(p->phase, q->phase);
    }
    assert_same_number(a->first_move_ft, b->first_move_ft);
    assert_same_number(a->breakpoint_board, b->breakpoint_board);
    assert_same_number(a->breakpoint_ft, b->breakpoint_ft);
    assert_same_number(a->roll_ft, b->roll_ft);
    assert_same_number(a->entry_board, b->entry_board);
    assert_same_number(a->entry_deg, b->entry_deg);
    assert_same_number(a->entry_mph, b->entry_mph);
    assert_same_number(a->flare_in, b->flare_in);
    assert_same_number(a->revs, b->revs);
    assert_same_number(a->seconds, b->seconds);
    assert_int_equal(a->gutter, b->gutter);
}

void assert_same_plan(const Plan *a, const Plan *b)
{
    assert_int_equal(a->slot, b->slot);
    assert_same_number(a->stance, b->stance);
    assert_same_number(a->aim, b->aim);
    assert_same_number(a->mph_change, b->mph_change);
    assert_same_number(a->loft_change_ft, b->loft_change_ft);
    assert_same_number(a->rotation_change_deg, b->rotation_change_deg);
}

void assert_same_shot(const Shot *a, const Shot *b)
{
    assert_int_equal(a->lane, b->lane);
    assert_int_equal(a->slot, b->slot);
    assert_same_number(a->stance, b->stance);
    assert_same_number(a->aim, b->aim);
    assert_same_number(a->mph, b->mph);
    assert_same_number(a->arrows, b->arrows);
    assert_same_number(a->breakpoint, b->breakpoint);
    assert_same_number(a->mph_change, b->mph_change);
    assert_same_number(a->loft_change_ft, b->loft_change_ft);
    assert_same_number(a->rotation_change_deg, b->rotation_change_deg);
    assert_int_equal(a->hit, b->hit);
    assert_int_equal(a->read, b->read);
    assert_int_equal(a->release, b->release);
    assert_int_equal(a->left_said, b->left_said);
    assert_int_equal(a->ringing, b->ringing);
    assert_int_equal(a->left, b->left);
    assert_int_equal(a->spare_said, b->spare_said);
    assert_int_equal(a->spare_left, b->spare_left);
}

static void assert_same_adjustment(const Adjustment *a, const Adjustment *b)
{
    assert_int_equal(a->kind, b->kind);
    assert_int_equal(a->with, b->with);
    assert_same_plan(&a->plan, &b->plan);
    assert_same_number(a->surface_grit, b->surface_grit);
    assert_same_number(a->pocket_now, b->pocket_now);
    assert_same_number(a->pocket_after, b->pocket_after);
    assert_same_number(a->entry_deg, b->entry_deg);
    assert_same_number(a->margin_in, b->margin_in);
    assert_same_number(a->margin_out, b->margin_out);
    assert_same_number(a->vote, b->vote);
    assert_same_number(a->score, b->score);
    assert_int_equal(a->rule_count, b->rule_count);
    for (int i = 0; i < a->rule_count; i++)
        assert_int_equal(a->rules[i], b->rules[i]);
    assert_int_equal(a->caution, b->caution);
    assert_int_equal(a->disagrees, b->disagrees);
    assert_string_equal(a->words, b->words);
    assert_string_equal(a->because, b->because);
}

void assert_same_advice(const Advice *a, const Advice *b)
{
    assert_memory_equal(a->signs.seen, b->signs.seen, sizeof a->signs.seen);
    assert_memory_equal(a->signs.shot_count, b->signs.shot_count, sizeof a->signs.shot_count);
    assert_memory_equal(a->signs.shots, b->signs.shots, sizeof a->signs.shots);
    assert_memory_equal(a->film.units, b->film.units, sizeof a->film.units);
    assert_int_equal(a->lane.deliveries, b->lane.deliveries);
    assert_string_equal(a->lane.words, b->lane.words);
    assert_string_equal(a->lane.off_words, b->lane.off_words);
    assert_same_number(a->lane.off.mean, b->lane.off.mean);
    assert_same_number(a->lane.wear.mean, b->lane.wear.mean);
    assert_same_number(a->lane.scale, b->lane.scale);
    assert_same_number(a->lane.scale_sd, b->lane.scale_sd);
    for (int i = 0; i < BAG_SLOTS; i++) {
        assert_int_equal(a->slot[i].filled, b->slot[i].filled);
        assert_int_equal(a->slot[i].ready, b->slot[i].ready);
        if (a->slot[i].ready)
            assert_same_line(&a->slot[i].line, &b->slot[i].line);
    }
    assert_same_line(&a->now, &b->now);
    assert_same_roll(&a->now_roll, &b->now_roll);
    assert_int_equal(a->adjustment_count, b->adjustment_count);
    for (int i = 0; i < a->adjustment_count; i++)
        assert_same_adjustment(&a->adjustments[i], &b->adjustments[i]);
    assert_int_equal(a->ready, b->ready);
    assert_int_equal(a->done, b->done);
}
