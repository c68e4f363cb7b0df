/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The head of a page, and its foot with the cautions that always stand.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "paper/draw/page.h"
#include "report/reading.h"
#include "slowlift/caution.h"
#include "slowlift/edition.h"
#include "slowlift/estimate.h"
#include "slowlift/report.h"

static const double moment_width = 150.0;
static const sl_paper_face title_face = {.size = 17.0, .bold = true, .grey = 0.08, .align = PANGO_ALIGN_LEFT};
static const sl_paper_face moment_face = {
    .size = 24.0, .bold = true, .grey = 0.08, .align = PANGO_ALIGN_RIGHT};
static const sl_paper_face question_face = {.size = 10.5, .grey = 0.2, .align = PANGO_ALIGN_LEFT};
const sl_paper_face sl_small_face = {.size = 7.6, .grey = 0.3, .align = PANGO_ALIGN_LEFT};

static void write_down(sl_paper_pen *pen, double x, double width, sl_paper_face face, double after,
                       const char *text)
{
    pen->y += after + (pen->draws ? sl_canvas_text(pen->canvas, x, pen->y, width, 0, face, text)
                                  : sl_canvas_measure(pen->canvas, width, 0, face, text));
}

void sl_moment_words(const sl_scene *scene, double time_min, int number, char *text, size_t size)
{
    if (sl_reading_has_minutes(scene)) {
        sl_minute_words(SL_MINUTE_PLANNED, text, size, _("%.4g min"), time_min);
    } else {
        snprintf(text, size, _("moment %d"), number);
    }
}

/* Light, observer, look, and whose eyes when they are not the usual ones. */
static void seen_words(const sl_paper_view *view, char *text, size_t size)
{
    const bool lies = view->viewing.look == SL_LOOK_UNDER_MIX;
    const bool usual = view->vision == SL_VISION_FULL;
    snprintf(text, size, "%s, %s, %s%s%s", _(sl_light_word(view->viewing.light)),
             _(sl_observer_word(view->viewing.observer)),
             lies ? _("hair as it lies at its moment: wet under its mix or water, else dry; the plates show "
                      "the hair with the mix wiped aside")
                  : _(sl_look_word(view->viewing.look)),
             usual ? "" : _("; seen as: "), usual ? "" : _(sl_vision_word(view->vision)));
}

double sl_page_head(const sl_sheet_page *page, sl_paper_pen pen)
{
    const sl_scene *scene = page->scene;
    const double all = page->width - 2.0 * page->margin, width = page->single ? all - moment_width : all;
    const double celsius = sl_settled_c(scene);
    char line[512], note[320];
    if (page->single) {
        sl_moment_words(scene, page->times_min[0], page->number, line, sizeof line);
        sl_paper_pen beside = pen;
        write_down(&beside, page->margin + width, moment_width, moment_face, 0.0, line);
    }
    write_down(&pen, page->margin, width, title_face, 2.0, sl_scene_title(scene));
    if (sl_scene_question(scene)) {
        write_down(&pen, page->margin, width, question_face, 4.0, sl_scene_question(scene));
    }
    sl_example_note(scene, note, sizeof note);
    snprintf(line, sizeof line, _("Lies: %s, %.0f °C (%.0f °F); %s."), _(sl_place_word(scene->place)),
             celsius, 32.0 + 1.8 * celsius, note);
    write_down(&pen, page->margin, all, sl_small_face, 2.0, line);
    snprintf(line, sizeof line,
             _("Numbers in the strips: %% of the zone's colour left. Below them, in the undyed zone \"%s\": "
               "how far the base moved and the hair stress, %%. %s"),
             sl_zone_title(&scene->zones[sl_reference_zone(scene, 0)]),
             sl_reading_has_minutes(scene)
                 ? ""
                 : _("Moments in order; this program gives no minutes for a head."));
    write_down(&pen, page->margin, all, sl_small_face, 10.0, line);
    return pen.y;
}

/* The cautions that always stand, in two columns of about the same length. */
double sl_page_foot(const sl_sheet_page *page, sl_paper_pen pen)
{
    const double gap = 18.0, signal = 40.0, all = page->width - 2.0 * page->margin, width = 0.5 * (all - gap);
    const sl_paper_face face = {.size = 6.6, .grey = 0.2, .align = PANGO_ALIGN_LEFT};
    sl_paper_face bold = face;
    bold.bold = true;
    char line[512], viewing[256];
    seen_words(page->view, viewing, sizeof viewing);
    snprintf(line, sizeof line, _("Classroom example by model %d of %s; %s. Colours are for %s."),
             sl_edition_now, sl_edition_day(), _(sl_not_calibrated), viewing);
    write_down(&pen, page->margin, all, sl_small_face, 4.0, line);
    sl_paper_pen column[2] = {pen, pen};
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *caution = sl_caution_text((sl_caution_id)id);
        if (!caution->always) {
            continue;
        }
        const int shorter = column[1].y < column[0].y ? 1 : 0;
        const double x = page->margin + shorter * (width + gap);
        sl_paper_pen beside = column[shorter];
        write_down(&beside, x, signal, bold, 0.0, _(caution->signal));
        write_down(&column[shorter], x + signal, width - signal, face, 3.0, _(caution->text));
    }
    return fmax(column[0].y, column[1].y);
}
