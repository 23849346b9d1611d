/* bench_motion.c - the program's motion_arrive against GSL, in one run on one core: the same
 * averaged equations by GSL's explicit steppers, each at its loosest setting that still arrives
 * within 0.01 board (99 of 100 deliveries), and the full rigid body by GSL. All on the same
 * random deliveries that reach the pins. Figures are ratios; nothing is asserted. */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <stdio.h>
#include <time.h>

#include "core/motion/batch.h"
#include "core/motion/motion.h"
#include "helper_cases.h"
#include "helper_rigid.h"

enum { COUNT = 200 };
static const double WITHIN = 0.01; /* board */

static Case cases[COUNT];
static MotionBody bodies[COUNT];
static RigidBall balls[COUNT];
static double averaged[COUNT], full[COUNT]; /* references, boards */

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* GSL gets the program's table of friction too, so that only the integrator is raced. */
static double table(const void *with, double film_units, double ring_m)
{
    return friction_mu(with, film_units, friction_fresh(ring_m));
}

static void prepare(void)
{
    Rng rng = rng_seed(20261125);
    RigidGsl fine = {gsl_odeiv2_step_rk8pd, 1e-10, 0, false};
    for (int n = 0; n < COUNT;) {
        case_random(&rng, &cases[n]);
        motion_body(&cases[n].ball, &bodies[n]);
        RigidBall ball = rigid_ball(&cases[n].ball);
        ball.friction = table;
        ball.with = &bodies[n].friction;
        ball.creep = 0.001;
        Arrival end = motion_arrive(&bodies[n], &cases[n].oil, &cases[n].delivery);
        RigidEnd a =
            rigid_gsl(RIGID_AVERAGED, &ball, &cases[n].oil, &cases[n].delivery, 0.0, &fine);
        RigidEnd b = rigid_gsl(RIGID_FULL, &ball, &cases[n].oil, &cases[n].delivery, 0.0, &fine);
        if (end.gutter || a.gutter || b.gutter)
            continue;
        averaged[n] = a.board;
        full[n] = b.board;
        balls[n++] = ball;
    }
}

/* The 99th percentile of the errors in boards; infinite when one failed. */
static double error_of(double *errors)
{
    for (int i = 0; i < COUNT; i++)
        if (!isfinite(errors[i]))
            return INFINITY;
    return case_quantile(errors, COUNT, 0.99);
}

static double race_program(double *error)
{
    double errors[COUNT], start = seconds();
    int rounds = 0;
    do {
        for (int i = 0; i < COUNT; i++)
            errors[i] = fabs(motion_arrive(&bodies[i], &cases[i].oil, &cases[i].delivery).board -
                             averaged[i]);
        rounds++;
    } while (seconds() - start < 0.5);
    double each = (seconds() - start) / rounds / COUNT;
    *error = error_of(errors);
    return each;
}

/* As searches and the estimate do: many releases of one ball on one film, made ready once. The
 * error is that of the first of them, the bench's own delivery. */
static double race_batch(double step_ft, double *error)
{
    enum { EACH = 256 };
    static BatchThrow throws[EACH];
    static Arrival ends[EACH];
    static BatchBall ball;
    static BatchOil oil;
    double errors[COUNT], start = seconds();
    for (int i = 0; i < COUNT; i++) {
        batch_ball(&bodies[i], &ball);
        batch_oil(&cases[i].oil, step_ft, &oil);
        for (int k = 0; k < EACH; k++) {
            throws[k] =
                (BatchThrow){.delivery = cases[i].delivery, .film_scale = 1.0f, .dry_scale = 1.0f};
            throws[k].delivery.launch_deg += 0.002 * k;
        }
        batch_arrive(&ball, &oil, throws, EACH, ends);
        errors[i] = ends[0].gutter ? 0.0 : fabs(ends[0].board - averaged[i]);
    }
    double each = (seconds() - start) / COUNT / EACH;
    *error = error_of(errors);
    return each;
}

static double race_gsl(RigidKind kind, const RigidGsl *how, double creep, double *error)
{
    const double *reference = kind == RIGID_FULL ? full : averaged;
    double errors[COUNT], start = seconds();
    for (int i = 0; i < COUNT; i++) {
        RigidBall ball = balls[i];
        ball.creep = creep;
        RigidEnd end = rigid_gsl(kind, &ball, &cases[i].oil, &cases[i].delivery, 0.0, how);
        errors[i] = fabs(end.board - reference[i]);
    }
    double each = (seconds() - start) / COUNT;
    *error = error_of(errors);
    return each;
}

/* Fastest setting of any stepper that is within WITHIN; prints one line a stepper. */
static double best_gsl(RigidKind kind, double program)
{
    const struct {
        const char *name;
        const gsl_odeiv2_step_type *stepper;
    } steppers[] = {{"rk4", gsl_odeiv2_step_rk4},
                    {"rkf45", gsl_odeiv2_step_rkf45},
                    {"rkck", gsl_odeiv2_step_rkck},
                    {"rk8pd", gsl_odeiv2_step_rk8pd},
                    {"msadams", gsl_odeiv2_step_msadams}};
    const double tolerances[] = {1e-2, 3e-3, 1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 1e-6, 1e-7};
    const double creeps[] = {0.05, 0.02, 0.01};
    double best = INFINITY;
    for (int s = 0; s < 5; s++) {
        double fastest = INFINITY, its_error = NAN;
        char its[64] = "";
        for (int c = 0; c < 3; c++) {
            for (int t = 0; t < 9; t++)
                for (int whole = 0; whole < 2; whole++) {
                    RigidGsl how = {steppers[s].stepper, tolerances[t], 0, whole == 1};
                    double error, each = race_gsl(kind, &how, creeps[c], &error);
                    if (error < WITHIN && each < fastest) {
                        fastest = each;
                        its_error = error;
                        snprintf(its, sizeof its, "tolerance %.0e, creep %.0f mm/s, %s",
                                 tolerances[t], 1000 * creeps[c],
                                 whole ? "whole way" : "by station");
                    }
                }
            for (int steps = 1; steps <= 8 && steppers[s].stepper != gsl_odeiv2_step_msadams;
                 steps *= 2) {
                RigidGsl how = {steppers[s].stepper, 0.0, steps, false};
                double error, each = race_gsl(kind, &how, creeps[c], &error);
                if (error < WITHIN && each < fastest) {
                    fastest = each;
                    its_error = error;
                    snprintf(its, sizeof its, "%d fixed steps a half-foot, creep %.0f mm/s", steps,
                             1000 * creeps[c]);
                }
            }
        }
        if (isfinite(fastest))
            printf("    GSL %-8s %9.0f a second, %6.1f times slower (error %.4f; %s)\n",
                   steppers[s].name, 1.0 / fastest, fastest / program, its_error, its);
        else
            printf("    GSL %-8s never within %.2f board\n", steppers[s].name, WITHIN);
        best = fmin(best, fastest);
    }
    return best;
}

int main(void)
{
    gsl_set_error_handler_off();
    prepare();
    double error, program = race_program(&error);
    printf("one arrival, %d random deliveries, one core; error: 99th percentile, boards\n", COUNT);
    printf("  program           %9.0f a second (error %.4f)\n", 1.0 / program, error);
    double fine_error, quick_error;
    double fine = race_batch(BATCH_FINE, &fine_error);
    double quick = race_batch(BATCH_QUICK, &quick_error);
    printf("  program, batch fine  %7.0f a second, %.1f times faster (error %.4f)\n", 1.0 / fine,
           program / fine, fine_error);
    printf("  program, batch quick %7.0f a second, %.1f times faster (error %.4f)\n", 1.0 / quick,
           program / quick, quick_error);
    printf("  the same averaged equations:\n");
    double same = best_gsl(RIGID_AVERAGED, program);
    printf("  the full rigid body, one phase:\n");
    double body = best_gsl(RIGID_FULL, program);
    program = race_program(&error); /* again, near the others in time */
    fine = race_batch(BATCH_FINE, &fine_error);
    quick = race_batch(BATCH_QUICK, &quick_error);
    printf(
        "over GSL's best explicit stepper on the same equations: one at a time %.1f times, batch "
        "fine %.0f, batch quick %.0f times faster\n",
        same / program, same / fine, same / quick);
    printf("over GSL's best on the full rigid body, one phase (for the mean of 8, times 8): %.1f, "
           "%.0f, %.0f\n",
           body / program, body / fine, body / quick);
    return 0;
}
