/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The answers read back in words, what nobody knew, what cannot work, and what comes next.
 */
#include <stdio.h>

#include "ask/ask.h"
#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/plan/plan.h"

enum { LINE = 600 };

static void say_hair(sl_document *document, const sl_new_test *asked)
{
    const char *const label = _("hair");
    const double level = asked->level, natural = asked->natural_level;
    const int root = asked->root_level;
    if (level == natural && root == 0) {
        sl_document_row(document, label, _("natural, level %g; no root"), level);
    } else if (level == natural) {
        sl_document_row(document, label, _("natural, level %g; a brown root on level %d"), level, root);
    } else if (root == 0) {
        sl_document_row(document, label, _("level %g, lightened from level %g; no root"), level, natural);
    } else {
        sl_document_row(document, label, _("level %g, lightened from level %g; a brown root on level %d"),
                        level, natural, root);
    }
}

static void say_place(sl_document *document, const sl_new_test *asked)
{
    const char *const label = _("whose");
    if (asked->whose == 1) {
        sl_document_row(document, label, _("cut swatches on a bench at %g °C"), asked->room_c);
    } else if (asked->whose == 2) {
        sl_document_row(document, label, _("a strand cut from one person, on a bench at %g °C"),
                        asked->room_c);
    } else {
        sl_document_row(document, label, _("hair on a head, in a room of %g °C"), asked->room_c);
    }
}

static void say_colours(sl_document *document, const sl_new_test *asked)
{
    char line[LINE] = "";
    for (int i = 0; i < asked->n_colours; i++) {
        sl_append_item(line, sizeof line, ", ", "%s (%s)", _(sl_ask_colours[asked->colour[i]]),
                       _(sl_strength_words[asked->strength[i]]));
    }
    sl_document_row(document, _("colours"), _("%s; then an undyed end"), line);
}

static void say_mixes(sl_document *document, const sl_new_test *asked)
{
    char line[LINE] = "";
    for (int i = 0; i < asked->n_bowls; i++) {
        const sl_ask_bowl *const bowl = &asked->bowl[i];
        char label[64];
        sl_minute_words(SL_MINUTE_PLANNED, label, sizeof label, _("label %g min"), bowl->label_min);
        sl_append_item(line, sizeof line, "; ", "%s %g:%g, %s", _(sl_ask_mixes[bowl->mix].arm), bowl->powder,
                       bowl->liquid, bowl->label_min > 0.0 ? label : _("label not read"));
    }
    sl_document_row(document, _("mixes"), "%s", line);
}

static void say_time(sl_document *document, const sl_new_test *asked)
{
    char line[LINE] = "", time[64];
    for (int i = 0; i < SL_ASK_CONTROLS; i++) {
        if (asked->control[i]) {
            sl_append_item(line, sizeof line, ", ", "%s", _(sl_ask_controls[i]));
        }
    }
    sl_minute_words(SL_MINUTE_PLANNED, time, sizeof time, "%g min", asked->time_min);
    sl_document_row(document, _("time on hair"), _("%s; controls: %s"), time, line[0] ? line : _("none"));
}

static void say_aims(sl_document *document, const sl_new_test *asked)
{
    char line[LINE] = "", longest[64];
    for (int i = 0; i < asked->n_colours; i++) {
        const char *const colour = _(sl_ask_colours[asked->colour[i]]);
        if (asked->left[i] < 1.0) {
            sl_append_item(line, sizeof line, ", ", "%s %g %%", colour, 100.0 * asked->left[i]);
        } else {
            sl_append_item(line, sizeof line, ", ", _("%s as it comes"), colour);
        }
    }
    sl_minute_words(SL_MINUTE_PLANNED, longest, sizeof longest, "%g min", asked->longest_min);
    sl_document_row(document, _("may stay"), "%s", line);
    sl_document_row(document, _("too much"),
                    asked->base_levels == 1.0 ? _("base %g level lighter, hair stress %g %%, %s")
                                              : _("base %g levels lighter, hair stress %g %%, %s"),
                    asked->base_levels, 100.0 * asked->stress, longest);
}

/* ---- what cannot work ----------------------------------------------------------------------------- */

static void say_work(sl_document *document, const sl_made *made)
{
    if (made->fit.swatches > 0) {
        sl_plan_fit_say(document, &made->fit);
    }
}

/* A label that ends before the planned time, or nothing that could go on. */
static void say_labels(sl_document *document, const sl_new_test *asked)
{
    for (int i = 0; i < asked->n_bowls; i++) {
        const sl_ask_bowl *const bowl = &asked->bowl[i];
        if (bowl->label_min > 0.0 && bowl->label_min - SL_ASK_MIXED_MIN < asked->time_min) {
            sl_document_say(
                document,
                _("That cannot work: the label of %s ends before the time on hair is over. The label holds."),
                _(sl_ask_mixes[bowl->mix].arm));
        }
    }
    if (asked->longest_min < asked->time_min) {
        sl_document_say(document, "%s",
                        _("That cannot work: the longest time is shorter than the time on hair."));
    }
    if (asked->whose != 1) {
        sl_document_say(
            document, "%s",
            _("For a person's hair no minutes come of this, without the label's time, a clear form "
              "and a strand of that person's own hair."));
    }
}

void sl_made_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_made *const made = of;
    const sl_new_test *const asked = &made->asked;
    char class_[64], word[4 * SL_ASK_PATH];
    sl_plan_hours(60.0 * asked->class_min, class_, sizeof class_);
    sl_document_begin(document, "new", sl_asked_title(asked), error);
    say_place(document, asked);
    say_hair(document, asked);
    say_colours(document, asked);
    say_mixes(document, asked);
    say_time(document, asked);
    say_aims(document, asked);
    sl_document_row(document, _("class"),
                    sl_plural("%d of each strip, %g g, %d pair of hands, %s",
                              "%d of each strip, %g g, %d pairs of hands, %s", asked->hands),
                    asked->swatches, asked->hair_g, asked->hands,
                    asked->class_min > 0.0 ? class_ : _("no end"));
    sl_document_apart(document);
    sl_document_say(document,
                    sl_plural("%d number was given by nobody; it is marked \"# assumed\" in the files.",
                              "%d numbers were given by nobody; each is marked \"# assumed\" in the files.",
                              made->n_assumed),
                    made->n_assumed);
    say_work(document, made);
    say_labels(document, asked);
    sl_shell_word(asked->file, word, sizeof word);
    sl_document_row(document, _("Next"), "slowlift answer %s", word);
    sl_document_end(document, SL_ON_MIXING);
}
