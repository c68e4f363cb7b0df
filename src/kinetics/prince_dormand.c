/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See prince_dormand.h. Prince & Dormand (1981), J. Comput. Appl. Math. 7:67, RK8(7)13M: thirteen stages,
 * order eight, the error by order seven. The order of every sum is that of GSL's rk8pd, so that steps fall on
 * the same bits (a suite holds the one to the other).
 */
#include "kinetics/prince_dormand.h"

#include <gsl/gsl_errno.h>
#include <string.h>

#include "base/memory.h"
#include "kinetics/states.h"
#include "kinetics/wide.h"

enum { STAGES = 13 };

typedef struct stages {
    double k[STAGES][REDUCING_STATES];
    double trial[REDUCING_STATES], before[REDUCING_STATES];
} stages;

/* The state of a stage, and its slope at a share of the step. */
#define STAGE(to, share, ...)                                                                                \
    for (size_t i = 0; i < n; i++) {                                                                         \
        trial[i] = y[i] + h * (__VA_ARGS__);                                                                 \
    }                                                                                                        \
    if ((status = GSL_ODEIV_FN_EVAL(system, t + (share)*h, trial, k[to])) != GSL_SUCCESS) {                  \
        return status;                                                                                       \
    }

/* n: of states; a constant where it is known, so that loops over it need no end of their own. */
static inline __attribute__((always_inline)) int step_of(const size_t n, stages *restrict at, double t,
                                                         double h, double *restrict y, double *restrict off,
                                                         const double *first, double *last,
                                                         const gsl_odeiv2_system *system)
{
    double(*const restrict k)[REDUCING_STATES] = at->k;
    double *const restrict trial = at->trial;
    int status = GSL_SUCCESS;
    memcpy(at->before, y, n * sizeof *y);
    if (first) {
        memcpy(k[0], first, n * sizeof *y);
    } else if ((status = GSL_ODEIV_FN_EVAL(system, t, y, k[0])) != GSL_SUCCESS) {
        return status;
    }
    for (size_t i = 0; i < n; i++) {
        trial[i] = y[i] + 1.0 / 18.0 * h * k[0][i];
    }
    if ((status = GSL_ODEIV_FN_EVAL(system, t + 1.0 / 18.0 * h, trial, k[1])) != GSL_SUCCESS) {
        return status;
    }
    STAGE(2, 1.0 / 12.0, (1.0 / 48.0) * k[0][i] + (1.0 / 16.0) * k[1][i])
    STAGE(3, 1.0 / 8.0, (1.0 / 32.0) * k[0][i] + (3.0 / 32.0) * k[2][i])
    STAGE(4, 5.0 / 16.0, (5.0 / 16.0) * k[0][i] + (-75.0 / 64.0) * k[2][i] + (75.0 / 64.0) * k[3][i])
    STAGE(5, 3.0 / 8.0, (3.0 / 80.0) * k[0][i] + (3.0 / 16.0) * k[3][i] + (3.0 / 20.0) * k[4][i])
    STAGE(6, 59.0 / 400.0,
          (29443841.0 / 614563906.0) * k[0][i] + (77736538.0 / 692538347.0) * k[3][i] +
              (-28693883.0 / 1125000000.0) * k[4][i] + (23124283.0 / 1800000000.0) * k[5][i])
    STAGE(7, 93.0 / 200.0,
          (16016141.0 / 946692911.0) * k[0][i] + (61564180.0 / 158732637.0) * k[3][i] +
              (22789713.0 / 633445777.0) * k[4][i] + (545815736.0 / 2771057229.0) * k[5][i] +
              (-180193667.0 / 1043307555.0) * k[6][i])
    STAGE(8, 5490023248.0 / 9719169821.0,
          (39632708.0 / 573591083.0) * k[0][i] + (-433636366.0 / 683701615.0) * k[3][i] +
              (-421739975.0 / 2616292301.0) * k[4][i] + (100302831.0 / 723423059.0) * k[5][i] +
              (790204164.0 / 839813087.0) * k[6][i] + (800635310.0 / 3783071287.0) * k[7][i])
    STAGE(9, 13.0 / 20.0,
          (246121993.0 / 1340847787.0) * k[0][i] + (-37695042795.0 / 15268766246.0) * k[3][i] +
              (-309121744.0 / 1061227803.0) * k[4][i] + (-12992083.0 / 490766935.0) * k[5][i] +
              (6005943493.0 / 2108947869.0) * k[6][i] + (393006217.0 / 1396673457.0) * k[7][i] +
              (123872331.0 / 1001029789.0) * k[8][i])
    STAGE(10, 1201146811.0 / 1299019798.0,
          (-1028468189.0 / 846180014.0) * k[0][i] + (8478235783.0 / 508512852.0) * k[3][i] +
              (1311729495.0 / 1432422823.0) * k[4][i] + (-10304129995.0 / 1701304382.0) * k[5][i] +
              (-48777925059.0 / 3047939560.0) * k[6][i] + (15336726248.0 / 1032824649.0) * k[7][i] +
              (-45442868181.0 / 3398467696.0) * k[8][i] + (3065993473.0 / 597172653.0) * k[9][i])
    STAGE(11, 1.0,
          (185892177.0 / 718116043.0) * k[0][i] + (-3185094517.0 / 667107341.0) * k[3][i] +
              (-477755414.0 / 1098053517.0) * k[4][i] + (-703635378.0 / 230739211.0) * k[5][i] +
              (5731566787.0 / 1027545527.0) * k[6][i] + (5232866602.0 / 850066563.0) * k[7][i] +
              (-4093664535.0 / 808688257.0) * k[8][i] + (3962137247.0 / 1805957418.0) * k[9][i] +
              (65686358.0 / 487910083.0) * k[10][i])
    STAGE(12, 1.0,
          (403863854.0 / 491063109.0) * k[0][i] + (-5068492393.0 / 434740067.0) * k[3][i] +
              (-411421997.0 / 543043805.0) * k[4][i] + (652783627.0 / 914296604.0) * k[5][i] +
              (11173962825.0 / 925320556.0) * k[6][i] + (-13158990841.0 / 6184727034.0) * k[7][i] +
              (3936647629.0 / 1978049680.0) * k[8][i] + (-160528059.0 / 685178525.0) * k[9][i] +
              (248638103.0 / 1413531060.0) * k[10][i])
    for (size_t i = 0; i < n; i++) {
        const double eighth = (14005451.0 / 335480064.0) * k[0][i] + (-59238493.0 / 1068277825.0) * k[5][i] +
                              (181606767.0 / 758867731.0) * k[6][i] + (561292985.0 / 797845732.0) * k[7][i] +
                              (-1041891430.0 / 1371343529.0) * k[8][i] +
                              (760417239.0 / 1151165299.0) * k[9][i] +
                              (118820643.0 / 751138087.0) * k[10][i] +
                              (-528747749.0 / 2220607170.0) * k[11][i] + (1.0 / 4.0) * k[12][i];
        const double seventh =
            (13451932.0 / 455176623.0) * k[0][i] + (-808719846.0 / 976000145.0) * k[5][i] +
            (1757004468.0 / 5645159321.0) * k[6][i] + (656045339.0 / 265891186.0) * k[7][i] +
            (-3867574721.0 / 1518517206.0) * k[8][i] + (465885868.0 / 322736535.0) * k[9][i] +
            (53011238.0 / 667516719.0) * k[10][i] + (2.0 / 45.0) * k[11][i];
        y[i] += h * eighth;
        off[i] = h * (seventh - eighth);
    }
    if (last && (status = GSL_ODEIV_FN_EVAL(system, t + h, y, last)) != GSL_SUCCESS) {
        memcpy(y, at->before, n * sizeof *y);
    }
    return status;
}
#undef STAGE

static inline __attribute__((always_inline)) int sized(void *state, size_t n, double t, double h, double y[],
                                                       double off[], const double first[], double last[],
                                                       const gsl_odeiv2_system *system)
{
    switch (n) {
    case SHARED_STATES:
        return step_of(SHARED_STATES, state, t, h, y, off, first, last, system);
    case MIX_STATES:
        return step_of(MIX_STATES, state, t, h, y, off, first, last, system);
    default:
        return step_of(n, state, t, h, y, off, first, last, system);
    }
}

#if defined(HAS_WIDE)
WIDE static int apply_wide(void *state, size_t n, double t, double h, double y[], double off[],
                           const double first[], double last[], const gsl_odeiv2_system *system)
{
    return sized(state, n, t, h, y, off, first, last, system);
}
#endif

static int apply(void *state, size_t n, double t, double h, double y[], double off[], const double first[],
                 double last[], const gsl_odeiv2_system *system)
{
#if defined(HAS_WIDE)
    if (__builtin_cpu_supports("avx2")) {
        return apply_wide(state, n, t, h, y, off, first, last, system);
    }
#endif
    return sized(state, n, t, h, y, off, first, last, system);
}

static void *make(size_t n)
{
    (void)n;
    return sl_new(1, sizeof(stages), "making a solver", NULL);
}

static int take_driver(void *state, const gsl_odeiv2_driver *driver)
{
    (void)state, (void)driver;
    return GSL_SUCCESS;
}

static int forget(void *state, size_t n)
{
    (void)state, (void)n; /* every step writes all that it reads */
    return GSL_SUCCESS;
}

static unsigned order(void *state)
{
    (void)state;
    return 8;
}

static const gsl_odeiv2_step_type type = {.name = "rk8pd in vectors",
                                          .can_use_dydt_in = 1,
                                          .gives_exact_dydt_out = 1,
                                          .alloc = make,
                                          .apply = apply,
                                          .set_driver = take_driver,
                                          .reset = forget,
                                          .order = order,
                                          .free = sl_free};
const gsl_odeiv2_step_type *const prince_dormand = &type;
