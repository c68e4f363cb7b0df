/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tubs and judges over all tests of a folder, in words, as charts, and for machines.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/calendar.h"
#include "base/language.h"
#include "document/say.h"
#include "document/text.h"
#include "log/shelf/drift.h"

static const double CHART_HEIGHT = 150.0; /* points */

static int day_of(const sl_drift_point *point)
{
    return sl_day_of_instant(&(sl_instant){.wall_ns = point->wall_ns});
}

static int outside_of(const sl_drift_row *row, size_t *last)
{
    int n = 0;
    for (size_t i = 0; i < row->n; i++) {
        if (sl_drift_outside(row, i)) {
            n++;
            *last = i;
        }
    }
    return n;
}

/* ---- for people ---------------------------------------------------------------------------------------- */

static void say_shift(sl_document *document, const sl_drift *drift, const sl_drift_row *row)
{
    const sl_drift_shift shift = sl_drift_shift_of(drift, row);
    const bool higher = shift.steps > 0.0;
    char steps[24], day[SL_DAY_TEXT];
    if (shift.kind == SL_SHIFT_NONE) {
        return;
    }
    sl_day_words(day_of(&row->point[shift.since]), day);
    sl_short_number(fabs(shift.steps), 1, steps, sizeof steps);
    if (shift.kind == SL_SHIFT_FOLLOWS) {
        sl_document_say(document,
                        _("In the same tests %s has moved further beside the others: what lies outside here "
                          "follows from that."),
                        shift.whose->code);
    } else if (shift.kind == SL_SHIFT_OWN) {
        sl_document_say(document,
                        higher ? _("%s grades higher (more colour left) by %s steps since %s than in the "
                                   "first %d tests.")
                               : _("%s grades lower (less colour left) by %s steps since %s than in the "
                                   "first %d tests."),
                        row->code, steps, day, SL_INDIVIDUALS_FIRST);
    } else {
        sl_document_say(document,
                        higher ? _("Beside %s, %s grades higher by %s steps since %s than in the first %d "
                                   "tests; which of the two has shifted, two alone cannot tell.")
                               : _("Beside %s, %s grades lower by %s steps since %s than in the first %d "
                                   "tests; which of the two has shifted, two alone cannot tell."),
                        row->point[0].what, row->code, steps, day, SL_INDIVIDUALS_FIRST);
    }
}

static void say_limits(sl_document *document, const sl_drift *drift, const sl_drift_row *row)
{
    const sl_individuals *const control = &row->control;
    const bool tub = row->kind == SL_DRIFT_TUB, offset = row->kind == SL_DRIFT_OFFSET;
    const double scale = sl_drift_scale(row);
    char low[24], high[24], day[SL_DAY_TEXT];
    size_t last = 0;
    const int n = outside_of(row, &last);
    sl_short_number(scale * (tub ? fmax(control->low, 0.0) : control->low), offset ? 2 : 0, low, sizeof low);
    sl_short_number(scale * control->high, offset ? 2 : 0, high, sizeof high);
    if (!control->known) {
        sl_document_say(document,
                        control->alike ? _("%d in all. The first %d are all alike: there are no limits.")
                                       : _("%d so far. Limits come from the first %d: there are none yet."),
                        (int)row->n, SL_INDIVIDUALS_FIRST);
        return;
    }
    sl_document_say(document,
                    tub      ? _("Limits from the first %d: %s to %s %% of the colour left.")
                    : offset ? _("Limits from the first %d: %s to %s steps of the grades beside the others.")
                             : _("Limits from the first %d: %s to %s points of 100 against the first look."),
                    SL_INDIVIDUALS_FIRST, low, high);
    if (n == 0) {
        sl_document_say(document, _("All %d lie within them."), (int)row->n);
        return;
    }
    sl_day_words(day_of(&row->point[last]), day);
    sl_document_say(
        document, _("Outside, or further from the one before than the first were: %d of %d, the last on %s."),
        n, (int)row->n, day);
    if (offset) {
        say_shift(document, drift, row);
        return;
    }
    sl_document_say(
        document, "%s",
        tub ? _("More left than before may be the tub, or hair, dye, warmth or time: do one more "
                "beside a new packet.")
            : _("Grades may have shifted, or the swatch has: look at it together, and at a kept one."));
}

static void say_points(sl_document *document, const sl_drift_row *row)
{
    static const sl_text_column columns[] = {{N_("day"), 1.6, SL_NAME},     {N_("log"), 2.4, 0},
                                             {N_("swatch"), 1.2, 0},        {"%", 1.0, SL_RIGHT | SL_OWN},
                                             {N_("change"), 1.0, SL_RIGHT}, {N_("limits"), 1.4, 0}};
    char day[SL_DAY_TEXT], file[SL_SHELF_SHOWN];
    sl_document_table(document, "", 6, columns, 0.0);
    for (size_t i = 0; i < row->n; i++) {
        const sl_drift_point *const point = &row->point[i];
        sl_day_words(day_of(point), day);
        sl_document_cell(document, "%s", day);
        sl_document_cell(document, "%s", sl_shelf_shown(point->file, file));
        sl_document_cell(document, "%s", point->swatch);
        sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_FIXED, .value = 100.0 * point->value});
        if (i > 0) {
            sl_document_entry(document,
                              (sl_entry){.kind = SL_ENTRY_FIXED, .value = 100.0 * sl_drift_range(row, i)});
        } else {
            sl_document_cell(document, "%s", "");
        }
        sl_document_cell(document, "%s", sl_drift_outside(row, i) ? _("outside") : "");
    }
}

static void say_offsets(sl_document *document, const sl_drift_row *row)
{
    static const sl_text_column columns[] = {{N_("day"), 1.6, SL_NAME},    {N_("log"), 2.4, 0},
                                             {N_("beside"), 2.4, 0},       {N_("steps"), 1.0, SL_RIGHT},
                                             {N_("error"), 1.0, SL_RIGHT}, {N_("change"), 1.0, SL_RIGHT},
                                             {N_("limits"), 1.4, 0}};
    char day[SL_DAY_TEXT], file[SL_SHELF_SHOWN];
    sl_document_table(document, "", 7, columns, 0.0);
    for (size_t i = 0; i < row->n; i++) {
        const sl_drift_point *const point = &row->point[i];
        const sl_entry_kind change = i > 0 ? SL_ENTRY_FIXED : SL_ENTRY_NONE;
        sl_day_words(day_of(point), day);
        sl_document_cell(document, "%s", day);
        sl_document_cell(document, "%s", sl_shelf_shown(point->file, file));
        sl_document_cell(document, "%s", point->what);
        sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_FIXED, .value = point->value, .decimals = 2});
        sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_FIXED, .value = point->error, .decimals = 2});
        sl_document_entry(
            document,
            (sl_entry){.kind = change, .value = i > 0 ? sl_drift_range(row, i) : 0.0, .decimals = 2});
        sl_document_cell(document, "%s", sl_drift_outside(row, i) ? _("outside") : "");
    }
}

static void say_row(sl_document *document, const sl_drift *drift, const sl_drift_row *row)
{
    const sl_graph *charts[SL_CHARTS_ABREAST];
    const int n = row->n > 1 ? 2 : 1;
    sl_document_part(document,
                     row->kind == SL_DRIFT_TUB     ? _("Powder lot %s, by its check swatches")
                     : row->kind == SL_DRIFT_JUDGE ? _("%s, against the first look at the same")
                                                   : _("%s, beside the other judges of each test"),
                     row->code);
    say_limits(document, drift, row);
    if (row->unlike) {
        sl_document_say(
            document, "%s",
            row->kind == SL_DRIFT_OFFSET
                ? _("The others were not the same in all tests: how they differ stands in this row, too, and "
                    "no shift is told.")
                : _("Not all of them are of one strip: what differs between strips stands in this row, "
                    "too."));
    }
    for (int i = 0; i < n; i++) {
        charts[i] = sl_graph_of_drift(&document->arena, row, i > 0, document->error);
    }
    sl_document_charts(document, "", CHART_HEIGHT, n, charts);
    if (row->kind == SL_DRIFT_OFFSET) {
        say_offsets(document, row);
    } else {
        say_points(document, row);
    }
}

static void say_alone(sl_document *document, const sl_drift *drift)
{
    char codes[400] = "";
    for (size_t i = 0; i < drift->n; i++) {
        if (drift->row[i].n == 0) {
            sl_append_item(codes, sizeof codes, ", ", "%s", drift->row[i].code);
        }
    }
    if (codes[0] != '\0') {
        sl_document_say(document,
                        _("Nobody graded the same as these, and they have no row beside others: %s."), codes);
    }
}

void sl_drift_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_drift *const drift = of;
    bool any = false;
    sl_document_begin(document, "drift", _("Do tubs weaken, do grades shift?"), error);
    for (size_t i = 0; i < drift->n; i++) {
        if (drift->row[i].n > 0) {
            say_row(document, drift, &drift->row[i]);
            any = true;
        }
    }
    sl_document_apart(document);
    if (!any) {
        sl_document_say(
            document, "%s",
            _("No check swatch was graded, and nobody looked twice, or beside somebody, at the same, in the "
              "logs of this folder."));
    } else {
        sl_document_say(
            document, "%s",
            _("Single values in turn, and how far each lies from the one before; limits are three standard "
              "deviations of the first ten, by their mean change (control charts for individuals). A "
              "filled diamond lies outside."));
    }
    say_alone(document, drift);
    SL_DOCUMENT_COUNT(document, drift->without_lot,
                      "%d check swatch is left out: nobody said which lot its powder was of.",
                      "%d check swatches are left out: nobody said which lot their powder was of.");
    sl_shelf_say_unread(document, drift->n_unread);
    sl_document_end(document, SL_ON_SWATCHES | SL_ON_KEEPING);
}

/* ---- for machines ---------------------------------------------------------------------------------------
 */

static const char *const kind_words[] = {
    [SL_DRIFT_TUB] = "tub", [SL_DRIFT_JUDGE] = "judge", [SL_DRIFT_OFFSET] = "offset"};
static const char *const shift_words[] = {
    [SL_SHIFT_OWN] = "own", [SL_SHIFT_OF_TWO] = "of two", [SL_SHIFT_FOLLOWS] = "follows"};

#define POINT(SAY)                                                                                           \
    SAY(let, const sl_drift_point *const point = &row_of->point[table->place])                               \
    SAY(let, char day[SL_DAY_TEXT])                                                                          \
    SAY(let, sl_day_words(day_of(point), day))                                                               \
    SAY(words, "day", "%s", day)                                                                             \
    SAY(let, char file[SL_SHELF_SHOWN])                                                                      \
    SAY(words, "file", "%s", sl_shelf_shown(point->file, file))                                              \
    SAY(text, "test", point->test)                                                                           \
    SAY(let, const bool offset = row_of->kind == SL_DRIFT_OFFSET)                                            \
    SAY(text, "swatch", offset ? NULL : point->swatch)                                                       \
    SAY(number, "zones", sl_if_known(!offset, point->n))                                                     \
    SAY(number, "value", point->value)                                                                       \
    SAY(number, "moving_range",                                                                              \
        sl_if_known(table->place > 0,                                                                        \
                    table->place > 0 ? sl_drift_range(row_of, (size_t)table->place) : 0.0))                  \
    SAY(yes, "outside", sl_drift_outside(row_of, (size_t)table->place))                                      \
    SAY(text, "beside", offset ? point->what : NULL)                                                         \
    SAY(number, "grades", sl_if_known(offset, point->n))                                                     \
    SAY(number, "standard_error", sl_if_known(offset, point->error))
SL_FLAT_TABLE(points, POINT, sl_drift_row, row_of);

/* Of no point: nothing. */
static void say_since(sl_row *row, const sl_drift_point *point)
{
    char day[SL_DAY_TEXT];
    if (point) {
        sl_day_words(day_of(point), day);
        sl_row_words(row, "shift_since", "%s", day);
    } else {
        sl_row_null(row, "shift_since");
    }
}

#define SL_COLUMN_since(point) {.key = "shift_since"},
#define SL_SAY_since(point) say_since(row, point);
#define ROW(SAY)                                                                                             \
    SAY(let, const sl_drift_row *const one = &drift->row[table->place])                                      \
    SAY(let, const sl_individuals *const control = &one->control)                                            \
    SAY(text, "kind", kind_words[one->kind])                                                                 \
    SAY(text, "code", one->code)                                                                             \
    SAY(let, const sl_drift_shift shift = sl_drift_shift_of(drift, one))                                     \
    SAY(let, const bool shifted = shift.kind != SL_SHIFT_NONE)                                               \
    SAY(yes, "several_strips", one->kind != SL_DRIFT_OFFSET && one->unlike)                                  \
    SAY(number, "mean", sl_if_known(control->known, control->centre))                                        \
    SAY(number, "low", sl_if_known(control->known, control->low))                                            \
    SAY(number, "high", sl_if_known(control->known, control->high))                                          \
    SAY(number, "mean_range", sl_if_known(control->known, control->range))                                   \
    SAY(number, "range_high", sl_if_known(control->known, control->range_high))                              \
    SAY(rows, "points", points, one, 0, (long)one->n)                                                        \
    SAY(yes, "several_others", one->kind == SL_DRIFT_OFFSET && one->unlike)                                  \
    SAY(text, "shift", shift_words[shift.kind])                                                              \
    SAY(number, "shift_steps", sl_if_known(shifted, shift.steps))                                            \
    SAY(since, shifted ? &one->point[shift.since] : NULL)                                                    \
    SAY(text, "shift_of", shift.kind == SL_SHIFT_FOLLOWS ? shift.whose->code : NULL)
SL_TABLE(rows, ROW, sl_drift, drift);

#define DRIFT(SAY)                                                                                           \
    SAY(rows, "rows", rows, drift, 0, (long)drift->n)                                                        \
    SAY(number, "without_lot", drift->without_lot)                                                           \
    SAY(number, "unread", drift->n_unread)                                                                   \
    SAY(cautions, SL_ON_SWATCHES | SL_ON_KEEPING)
SL_TABLE(drift_record, DRIFT, sl_drift, drift);

/* A line for each point. */
static sl_told tell_line(sl_row *row, const sl_table *table)
{
    const sl_drift *const drift = table->of;
    long place = table->place;
    size_t i = 0;
    while (i < drift->n && place >= (long)drift->row[i].n) {
        place -= (long)drift->row[i++].n;
    }
    if (i == drift->n) {
        return SL_NO_MORE;
    }
    sl_row_text(row, "kind", kind_words[drift->row[i].kind]);
    sl_row_text(row, "code", drift->row[i].code);
    return tell_points(row, &(sl_table){.of = &drift->row[i], .place = place});
}
#define LINE(SAY) SAY(text, "kind", NULL) SAY(text, "code", NULL) POINT(SAY)
static const sl_columns lines = SL_COLUMNS(LINE(SL_COLUMN), .tell = tell_line);

const sl_export sl_drift_export = {"drift", 1, &drift_record, &lines};
