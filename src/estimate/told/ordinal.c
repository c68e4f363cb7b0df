/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See ordinal.h. Every parameter moves the two edges of a row against what is seen: a term both alike, an
 * edge itself alone. So a row has five derivatives, whatever its parameters are.
 */
#include "estimate/told/ordinal.h"

#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"

/* ---- quadrature -----------------------------------------------------------------------------------------
 */

/* Hermite polynomials of unit norm under exp(-x * x), of which [n] changes sign at the nodes. */
static double hermite(int n, double x, double *squares)
{
    double before = 0.0, at = pow(M_PI, -0.25);
    *squares = 0.0;
    for (int k = 0; k < n; k++) {
        const double next = x * sqrt(2.0 / (k + 1.0)) * at - sqrt(k / (k + 1.0)) * before;
        *squares += at * at;
        before = at;
        at = next;
    }
    return at;
}

/* Those of n lie between those of n - 1. */
void sl_hermite_nodes(int n, double *node, double *weight)
{
    enum { HALVINGS = 60 };
    double between[SL_ORDINAL_NODES + 2], squares = 0.0;
    for (int degree = 1; degree <= n; degree++) {
        between[0] = -sqrt(2.0 * degree + 1.0);
        between[degree] = -between[0];
        for (int i = 0; i < degree; i++) {
            double low = between[i], high = between[i + 1];
            const bool rises = hermite(degree, low, &squares) < 0.0;
            for (int k = 0; k < HALVINGS; k++) {
                const double middle = 0.5 * (low + high);
                if ((hermite(degree, middle, &squares) < 0.0) == rises) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            node[i] = 0.5 * (low + high);
        }
        memcpy(between + 1, node, (size_t)degree * sizeof *node);
    }
    for (int i = 0; i < n; i++) {
        (void)hermite(n, node[i], &squares);
        weight[i] = 1.0 / squares;
    }
}

/* ---- a row ----------------------------------------------------------------------------------------------
 */

/* The logarithm of its chance, and derivatives by its upper and lower edge. */
typedef struct sl_row_at {
    double log_chance, up, low, up_up, low_low, up_low;
} sl_row_at;

static double density(sl_link link, double x)
{
    if (link == SL_PROBIT) {
        return exp(-0.5 * x * x) / sqrt(2.0 * M_PI);
    }
    const double e = exp(-fabs(x));
    return e / ((1.0 + e) * (1.0 + e));
}

/* Of a density that is so high. */
static double slope(sl_link link, double x, double high)
{
    return link == SL_PROBIT ? -x * high : -tanh(0.5 * x) * high;
}

static double above(sl_link link, double x)
{
    return link == SL_PROBIT ? 0.5 * erfc(x * M_SQRT1_2) : 1.0 / (1.0 + exp(x));
}

/* Edges as a judge sees them who sees `sum`: how far off, the chance of what lies beyond, away from 0, and
 * how dense it is there. Rows of a group mostly share all of them. */
typedef struct sl_edges_at {
    const sl_judge *judge; /* NULL: none yet */
    double sum, spread;
    unsigned known; /* a bit for each edge */
    double x[SL_ORDINAL_GRADES + 1], beyond[SL_ORDINAL_GRADES + 1], dense[SL_ORDINAL_GRADES + 1];
} sl_edges_at;

static void know_edge(const sl_ordinal *of, sl_edges_at *edges, int i)
{
    if ((edges->known & (1u << i)) == 0) {
        const double x = (of->edge[i] - edges->sum - edges->judge->offset) / edges->spread;
        edges->known |= 1u << i;
        edges->x[i] = x;
        edges->beyond[i] = above(of->link, fabs(x));
        edges->dense[i] = density(of->link, x);
    }
}

/* by: what the row's group adds to the judge's error, the same for all rows that share `edges`. */
static sl_row_at row_at(const sl_ordinal *of, const sl_ordinal_row *row, double sum, double by,
                        sl_edges_at *edges)
{
    static const double LEAST = 1e-300;
    const sl_judge *const judge = row->judge;
    const int i = row->grade, k = i + 1;
    if (edges->judge != judge || islessgreater(edges->sum, sum)) {
        edges->judge = judge;
        edges->sum = sum;
        edges->spread = by > 0.0 ? hypot(judge->spread, by) : judge->spread;
        edges->known = 0;
    }
    know_edge(of, edges, i);
    know_edge(of, edges, k);
    const double spread = edges->spread, up = edges->x[i], low = edges->x[k];
    const double between = low > 0.0   ? edges->beyond[k] - edges->beyond[i]
                           : up <= 0.0 ? edges->beyond[i] - edges->beyond[k]
                                       : 1.0 - edges->beyond[i] - edges->beyond[k];
    const double told = 1.0 - judge->lapse;
    const double chance = fmax(told * between + judge->lapse / of->grades, LEAST);
    const double high = told * edges->dense[i] / (spread * chance);
    const double deep = told * edges->dense[k] / (spread * chance);
    return (sl_row_at){.log_chance = log(chance),
                       .up = high,
                       .low = -deep,
                       .up_up = slope(of->link, up, high) / spread - high * high,
                       .low_low = -slope(of->link, low, deep) / spread - deep * deep,
                       .up_low = high * deep};
}
/* ---- a group --------------------------------------------------------------------------------------------
 */

typedef struct sl_slopes {
    double log_likelihood, *first, *second; /* [n], [n][n] */
} sl_slopes;

typedef struct sl_fitting {
    sl_ordinal *of;
    int n;                      /* parameters */
    int at_sd;                  /* of the group's; -1 */
    int *slot;                  /* [n] of a parameter among the group's; -1 */
    int own, *param;            /* the group's */
    sl_slopes all, group, here; /* of the likelihood; of a group; of a node */
    double *parameter, *tried, *step, *decomposed;
} sl_fitting;

static double sum_of(const sl_ordinal *of, const sl_ordinal_row *row)
{
    return (row->term[0] >= 0 ? of->term[row->term[0]] : 0.0) +
           (row->term[1] >= 0 ? of->term[row->term[1]] : 0.0);
}

/* How each of its parameters moves a row's edges; returns how many there are. */
typedef struct sl_moved {
    int param;
    double up, low;
} sl_moved;
enum { MOST_MOVED = 5 };

static int moved_by(const sl_fitting *fitting, const sl_ordinal_row *row, double effect,
                    sl_moved moved[MOST_MOVED])
{
    const sl_ordinal *const of = fitting->of;
    int n = 0;
    for (int i = 0; i < 2; i++) {
        if (row->term[i] >= 0) {
            moved[n++] = (sl_moved){row->term[i], -1.0, -1.0};
        }
    }
    if (of->free_edges && row->grade > 0) {
        moved[n++] = (sl_moved){of->terms + row->grade - 1, 1.0, 0.0};
    }
    if (of->free_edges && row->grade < of->grades - 1) {
        moved[n++] = (sl_moved){of->terms + row->grade, 0.0, 1.0};
    }
    if (fitting->at_sd >= 0) {
        moved[n++] = (sl_moved){fitting->at_sd, -effect, -effect};
    }
    return n;
}

/* effect: of the group, in units of what is seen. */
static void add_row(const sl_fitting *fitting, const sl_ordinal_row *row, double effect, double by,
                    sl_edges_at *edges, sl_slopes *to)
{
    sl_moved moved[MOST_MOVED];
    const sl_row_at at = row_at(fitting->of, row, sum_of(fitting->of, row) + effect, by, edges);
    const int n = moved_by(fitting, row, effect, moved);
    to->log_likelihood += row->many * at.log_chance;
    for (int i = 0; i < n; i++) {
        const int slot = fitting->slot[moved[i].param];
        to->first[slot] += row->many * (moved[i].up * at.up + moved[i].low * at.low);
        for (int k = 0; k < n; k++) {
            to->second[slot * fitting->own + fitting->slot[moved[k].param]] +=
                row->many * (moved[i].up * moved[k].up * at.up_up + moved[i].low * moved[k].low * at.low_low +
                             (moved[i].up * moved[k].low + moved[i].low * moved[k].up) * at.up_low);
        }
        if (moved[i].param == fitting->at_sd) {
            to->second[slot * (fitting->own + 1)] -= row->many * effect * (at.up + at.low);
        }
    }
}

static void clear(sl_slopes *slopes, int n)
{
    slopes->log_likelihood = 0.0;
    memset(slopes->first, 0, (size_t)n * sizeof *slopes->first);
    memset(slopes->second, 0, (size_t)(n * n) * sizeof *slopes->second);
}

/* The effect, in its standard deviations, at which the group is likeliest, and how wide it is there. */
static double mode_of(const sl_ordinal *of, const sl_ordinal_row *row, int n, double from, double *wide)
{
    enum { STEPS = 50 };
    double mode = from, bend = 1.0;
    for (int k = 0; k < STEPS; k++) {
        double first = -mode, second = -1.0;
        sl_edges_at edges = {.judge = NULL};
        for (int i = 0; i < n; i++) {
            const sl_row_at at = row_at(of, &row[i], sum_of(of, &row[i]) + of->group_sd * mode, 0.0, &edges);
            first -= of->group_sd * row[i].many * (at.up + at.low);
            second += of->group_sd * of->group_sd * row[i].many * (at.up_up + at.low_low + 2.0 * at.up_low);
        }
        bend = fmax(-second, 1.0); /* of a lapse the logarithm is no hill everywhere */
        mode += first / bend;
        if (fabs(first / bend) < 1e-8) {
            break;
        }
    }
    *wide = M_SQRT2 / sqrt(bend);
    return mode;
}

/* The integral over its effect: each node adds what it weighs, and with it its slopes. */
static void integrate(sl_fitting *fitting, const sl_ordinal_row *row, int n)
{
    const sl_ordinal *const of = fitting->of;
    const int own = fitting->own;
    double wide = 0.0, weighs = 0.0, most = 0.0,
           looks = 0.0, *const kept = of->mode ? &of->mode[row->group] : NULL;
    const double mode = mode_of(of, row, n, kept ? *kept : 0.0, &wide);
    for (int i = 0; i < n; i++) {
        looks += row[i].many;
    }
    if (kept) {
        *kept = mode;
    }
    const bool one = of->laplace_from > 0.0 && looks >= of->laplace_from;
    for (int k = 0; k < (one ? 1 : of->nodes); k++) {
        const double node = one ? 0.0 : of->node[k], at = mode + wide * node;
        sl_edges_at edges = {.judge = NULL};
        clear(&fitting->here, own);
        for (int i = 0; i < n; i++) {
            add_row(fitting, &row[i], of->group_sd * at, 0.0, &edges, &fitting->here);
        }
        const double here = fitting->here.log_likelihood - 0.5 * at * at + node * node;
        most = k == 0 ? here : most;
        const double weight = exp(here - most) * (one ? sqrt(M_PI) : of->weight[k]);
        weighs += weight;
        for (int i = 0; i < own; i++) {
            fitting->group.first[i] += weight * fitting->here.first[i];
            for (int j = 0; j < own; j++) {
                fitting->group.second[i * own + j] +=
                    weight *
                    (fitting->here.second[i * own + j] + fitting->here.first[i] * fitting->here.first[j]);
            }
        }
    }
    for (int i = 0; i < own; i++) {
        fitting->group.first[i] /= weighs;
    }
    for (int i = 0; i < own * own; i++) {
        fitting->group.second[i] =
            fitting->group.second[i] / weighs - fitting->group.first[i / own] * fitting->group.first[i % own];
    }
    fitting->group.log_likelihood = most + log(weighs * wide / sqrt(2.0 * M_PI));
}

static void take_params(sl_fitting *fitting, const sl_ordinal_row *row, int n)
{
    sl_moved moved[MOST_MOVED];
    for (int i = 0; i < fitting->own; i++) {
        fitting->slot[fitting->param[i]] = -1;
    }
    fitting->own = 0;
    for (int i = 0; i < n; i++) {
        const int many = moved_by(fitting, &row[i], 0.0, moved);
        for (int k = 0; k < many; k++) {
            if (fitting->slot[moved[k].param] < 0) {
                fitting->slot[moved[k].param] = fitting->own;
                fitting->param[fitting->own++] = moved[k].param;
            }
        }
    }
}

static void add_group(sl_fitting *fitting, const sl_ordinal_row *row, int n)
{
    const sl_ordinal *const of = fitting->of;
    take_params(fitting, row, n);
    clear(&fitting->group, fitting->own);
    if (of->group_sd > 0.0 && (of->free_sd || n > 1 || row->many > 1.0 || of->link != SL_PROBIT)) {
        integrate(fitting, row, n);
    } else { /* one look: two normal errors are one */
        sl_edges_at edges = {.judge = NULL};
        for (int i = 0; i < n; i++) {
            add_row(fitting, &row[i], 0.0, of->group_sd, &edges, &fitting->group);
        }
    }
    fitting->all.log_likelihood += fitting->group.log_likelihood;
    if (of->of_group) {
        of->of_group[row->group] = fitting->group.log_likelihood;
    }
    for (int i = 0; i < fitting->own; i++) {
        fitting->all.first[fitting->param[i]] += fitting->group.first[i];
        for (int k = 0; k < fitting->own; k++) {
            fitting->all.second[fitting->param[i] * fitting->n + fitting->param[k]] +=
                fitting->group.second[i * fitting->own + k];
        }
    }
}

/* ---- all of it ------------------------------------------------------------------------------------------
 */

static void take(sl_fitting *fitting, const double *parameter)
{
    sl_ordinal *const of = fitting->of;
    memcpy(of->term, parameter, (size_t)of->terms * sizeof *parameter);
    for (int i = 1; of->free_edges && i < of->grades; i++) {
        of->edge[i] = parameter[of->terms + i - 1];
    }
    of->group_sd = fitting->at_sd >= 0 ? exp(parameter[fitting->at_sd]) : of->group_sd;
}

static double evaluate(sl_fitting *fitting, const double *parameter)
{
    const sl_ordinal *const of = fitting->of;
    take(fitting, parameter);
    clear(&fitting->all, fitting->n);
    for (int begin = 0, end = 0; begin < of->n; begin = end) {
        while (end < of->n && of->row[end].group == of->row[begin].group) {
            end++;
        }
        add_group(fitting, of->row + begin, end - begin);
    }
    for (int i = of->shares; i < of->terms; i++) {
        fitting->all.log_likelihood -= 0.5 * of->precision * of->term[i] * of->term[i];
        fitting->all.first[i] -= of->precision * of->term[i];
        fitting->all.second[i * (fitting->n + 1)] -= of->precision;
    }
    return fitting->all.log_likelihood;
}

/* A share at an end that would go further stays there. */
static bool is_held(const sl_fitting *fitting, int i)
{
    const double at = fitting->parameter[i], first = fitting->all.first[i];
    return i < fitting->of->shares && ((at <= 0.0 && first <= 0.0) || (at >= 1.0 && first >= 0.0));
}

/* Into decomposed: Cholesky's of the negative second derivatives and `more` on the diagonal; false: these are
 * no hill's. */
static bool decomposes(sl_fitting *fitting, double more)
{
    const int n = fitting->n;
    double *const to = fitting->decomposed;
    for (int row = 0; row < n; row++) {
        for (int column = 0; column <= row; column++) {
            const bool held = is_held(fitting, row) || is_held(fitting, column);
            double rest = held ? 0.0 : -fitting->all.second[row * n + column];
            rest += row == column ? (held ? 1.0 : more) : 0.0;
            for (int k = 0; k < column; k++) {
                rest -= to[row * n + k] * to[column * n + k];
            }
            if (row == column && !(rest > 0.0)) {
                return false;
            }
            to[row * n + column] = row == column ? sqrt(rest) : rest / to[column * n + column];
        }
    }
    return true;
}

static void decompose(sl_fitting *fitting)
{
    for (double more = 0.0; !decomposes(fitting, more) && more < 1e12;) {
        more = fmax(10.0 * more, 1e-3);
    }
}

/* One of Newton's steps, halved until nothing is lost; returns how far it went, -1: nowhere. */
static double go(sl_fitting *fitting)
{
    enum { HALVINGS = 30 };
    const int n = fitting->n;
    const double before = fitting->all.log_likelihood, slack = 1e-12 * (1.0 + fabs(before));
    decompose(fitting);
    for (int i = 0; i < n; i++) {
        fitting->step[i] = is_held(fitting, i) ? 0.0 : fitting->all.first[i];
    }
    const gsl_matrix_view matrix = gsl_matrix_view_array(fitting->decomposed, (size_t)n, (size_t)n);
    gsl_vector_view step = gsl_vector_view_array(fitting->step, (size_t)n);
    gsl_linalg_cholesky_svx(&matrix.matrix, &step.vector);
    for (int k = 0; k < HALVINGS; k++) {
        double far = 0.0;
        for (int i = 0; i < n; i++) {
            const double to = fitting->parameter[i] + ldexp(fitting->step[i], -k);
            fitting->tried[i] = i < fitting->of->shares ? fmin(fmax(to, 0.0), 1.0) : to;
            far = fmax(far, fabs(fitting->tried[i] - fitting->parameter[i]));
        }
        if (evaluate(fitting, fitting->tried) >= before - slack) {
            memcpy(fitting->parameter, fitting->tried, (size_t)n * sizeof *fitting->tried);
            return far;
        }
    }
    return -1.0;
}

static bool room_for(sl_fitting *fitting, sl_error *error)
{
    const size_t n = (size_t)fitting->n, squares = n * n;
    double *const room = sl_new(4 * squares + 6 * n, sizeof *room, "comparing grades", error);
    fitting->slot = sl_new(2 * n, sizeof *fitting->slot, "comparing grades", error);
    if (!room || !fitting->slot) {
        sl_free(room);
        return false;
    }
    fitting->param = fitting->slot + n;
    fitting->decomposed = room;
    fitting->all.second = room + squares;
    fitting->group.second = room + 2 * squares;
    fitting->here.second = room + 3 * squares;
    fitting->all.first = room + 4 * squares;
    fitting->group.first = fitting->all.first + n;
    fitting->here.first = fitting->all.first + 2 * n;
    fitting->parameter = fitting->all.first + 3 * n;
    fitting->tried = fitting->all.first + 4 * n;
    fitting->step = fitting->all.first + 5 * n;
    for (size_t i = 0; i < n; i++) {
        fitting->slot[i] = -1;
    }
    return true;
}

static void begin(sl_fitting *fitting)
{
    const sl_ordinal *const of = fitting->of;
    memcpy(fitting->parameter, of->term, (size_t)of->terms * sizeof *of->term);
    for (int i = 1; of->free_edges && i < of->grades; i++) {
        fitting->parameter[of->terms + i - 1] = of->edge[i];
    }
    if (fitting->at_sd >= 0) {
        fitting->parameter[fitting->at_sd] = log(of->group_sd);
    }
    (void)evaluate(fitting, fitting->parameter);
}

bool sl_ordinal_fit(sl_ordinal *ordinal, sl_error *error)
{
    enum { STEPS = 100 };
    sl_fitting fitting = {.of = ordinal, .at_sd = -1, .n = ordinal->terms};
    fitting.n += ordinal->free_edges ? ordinal->grades - 1 : 0;
    fitting.at_sd = ordinal->free_sd ? fitting.n++ : -1;
    if (!room_for(&fitting, error)) {
        sl_free(fitting.slot);
        return false;
    }
    double far = HUGE_VAL;
    int steps = 0;
    begin(&fitting);
    while (far > ordinal->nearer && steps < STEPS) {
        far = go(&fitting);
        steps++;
    }
    if (far < 0.0) {
        (void)evaluate(&fitting, fitting.parameter);
    }
    ordinal->log_likelihood = fitting.all.log_likelihood;
    if (ordinal->covariance) {
        gsl_matrix_view matrix =
            gsl_matrix_view_array(fitting.decomposed, (size_t)fitting.n, (size_t)fitting.n);
        decompose(&fitting);
        gsl_linalg_cholesky_invert(&matrix.matrix);
        memcpy(ordinal->covariance, fitting.decomposed,
               (size_t)(fitting.n * fitting.n) * sizeof *fitting.decomposed);
    }
    sl_free(fitting.slot);
    sl_free(fitting.decomposed);
    ordinal->settled = far <= ordinal->nearer;
    return true;
}
