/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What was seen of hair beside colour, in a document: what is read aloud, and a table of each zone. See
 * compare_page.h.
 */
#include <math.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "log/compare/compare_page.h"
#include "slowlift/estimate.h"

enum { TEXT = 900, NAMES = 600 };

bool sl_compare_page_hair(const sl_compare_page *page, int hair)
{
    const sl_compare *const compare = page->compare;
    const int zone = compare->hair[hair].zone;
    return page->only < 0 || zone == page->only || zone == sl_reference_zone(compare->scene, page->only);
}

/* ---- numbers and names ------------------------------------------------------------------------------ */

static const char *measure_title(const sl_seen_hair *hair)
{
    switch (hair->measure) {
    case SL_HAIR_LEVEL:
        return hair->since_start ? _("levels lifted") : _("level");
    case SL_HAIR_BASE:
        return hair->since_start ? _("base moved, ΔE*ab") : _("lightness, L*");
    case SL_HAIR_OFF:
        return _("off undyed, ΔE*ab");
    case SL_HAIR_STRETCH:
        return _("stretch");
    case SL_HAIR_FEEL:
    case SL_HAIR_MEASURES:
    default:
        return _("wet feel");
    }
}

/* "1.2 (0.7 to 1.7)". */
static void range_words(double middle, double half, char *text, size_t size)
{
    char number[24], low[24], high[24];
    sl_short_number(middle, 1, number, sizeof number);
    if (half < 0.0) {
        snprintf(text, size, "%s", number);
        return;
    }
    sl_short_number(middle - half, 1, low, sizeof low);
    sl_short_number(middle + half, 1, high, sizeof high);
    snprintf(text, size, _("%s (%s to %s)"), number, low, high);
}

/* "2 slow, 1 stays long". */
static void counts_words(const sl_seen_hair *hair, int arm, char *text, size_t size)
{
    const sl_said list = hair->measure == SL_HAIR_STRETCH ? SL_SAID_STRETCH : SL_SAID_FEEL;
    text[0] = '\0';
    for (int i = 0; i < SL_HAIR_WORDS && sl_said_word(list, i); i++) {
        if (hair->swatches[arm][i] > 0) {
            sl_append_item(text, size, ", ", "%d %s", hair->swatches[arm][i], _(sl_said_word(list, i)));
        }
    }
}

static const char *arm_title(const sl_compare *compare, int arm)
{
    return sl_arm_title(&compare->scene->arms[arm]);
}

/* ---- the same colour left --------------------------------------------------------------------------- */

/* What is told of a zone: its base, by the instrument since the start or else by eye. */
static bool is_its_base(const sl_compare *compare, int paid)
{
    const sl_seen_paid *const of = &compare->paid[paid];
    int best = -1;
    for (int i = 0; i < compare->n_paid; i++) {
        const sl_seen_hair *const hair = &compare->hair[compare->paid[i].hair];
        if (compare->paid[i].zone == of->zone && !sl_hair_in_words(hair->measure) &&
            (best < 0 || (hair->measure == SL_HAIR_BASE && hair->since_start))) {
            best = i;
        }
    }
    return best == paid;
}

static bool shows_paid(const sl_compare_page *page, int paid)
{
    return page->only < 0 || page->compare->paid[paid].zone == page->only;
}

static bool model_apart(const sl_seen_paid *paid, double *apart)
{
    *apart = paid->model[paid->fast] - paid->model[paid->slow];
    return paid->model[paid->fast] > SL_NOT_READ && paid->model[paid->slow] > SL_NOT_READ;
}

static void model_words(const sl_compare *compare, const sl_seen_paid *paid, bool turned, char *text,
                        size_t size)
{
    char number[24];
    double model = 0.0;
    if (model_apart(paid, &model)) {
        sl_short_number(turned ? -model : model, 1, number, sizeof number);
        sl_append_item(text, size, " ", _("The model expects %s."), number);
    } else if (sl_timeline_predicted(compare->timeline, paid->fast) &&
               sl_timeline_predicted(compare->timeline, paid->slow)) {
        sl_append_item(text, size, " ", "%s", _("By the model no more than one of them gets there."));
    }
}

/* Whose hair paid more than whose, by how much, and what the model expects. */
static void paid_words(const sl_compare *compare, int at, char *text, size_t size)
{
    const sl_seen_paid *const paid = &compare->paid[at];
    const sl_seen_hair *const hair = &compare->hair[paid->hair];
    const char *const zone = sl_zone_title(&compare->scene->zones[paid->zone]);
    double half = 0.0;
    const double by = sl_paid_apart(paid, paid->slow, &half);
    const char *const more_of = arm_title(compare, by < 0.0 ? paid->slow : paid->fast);
    const char *const less_of = arm_title(compare, by < 0.0 ? paid->fast : paid->slow);
    char left[16], apart[80];
    sl_percent(paid->left, left, sizeof left);
    range_words(fabs(by), half, apart, sizeof apart);
    if (fabs(by) < 0.05) { /* told as 0 */
        snprintf(text, size, _("With %s %% of %s left, hair of \"%s\" and \"%s\" was alike, %s: %s apart."),
                 left, zone, more_of, less_of, measure_title(hair), apart);
    } else {
        snprintf(
            text, size,
            hair->measure == SL_HAIR_STRETCH
                ? _("With %s %% of %s left, hair of \"%s\" stretched worse than that of \"%s\", by %s steps.")
            : hair->measure == SL_HAIR_FEEL
                ? _("With %s %% of %s left, hair of \"%s\" felt worse than that of \"%s\", by %s steps.")
            : hair->measure == SL_HAIR_LEVEL
                ? _("With %s %% of %s left, \"%s\" had lifted its hair more than \"%s\", by %s levels.")
            : hair->since_start
                ? _("With %s %% of %s left, \"%s\" had moved its base more than \"%s\", by a ΔE*ab of %s.")
                : _("With %s %% of %s left, hair of \"%s\" was lighter than that of \"%s\", by an L* of %s."),
            left, zone, more_of, less_of, apart);
        if (sl_paid_told(compare, at) == 0) {
            sl_append_item(text, size, " ", "%s", _("That may be luck."));
        }
    }
    if (!sl_hair_in_words(hair->measure)) {
        model_words(compare, paid, by < 0.0, text, size);
    }
}

/* Zones by why nothing is told of them. */
typedef enum sl_untold { EVEN, ONCE, APART, UNTOLD } sl_untold;

static sl_untold untold_of(const sl_seen_paid *paid)
{
    double half = -1.0;
    if (paid->fast < 0) {
        return APART;
    }
    sl_paid_apart(paid, paid->slow, &half);
    return half < 0.0 ? ONCE : EVEN;
}

static void say_paid(sl_document *document, const sl_compare_page *page)
{
    const sl_compare *const compare = page->compare;
    char zones[UNTOLD][NAMES] = {""}, text[TEXT];
    for (int i = 0; i < compare->n_paid; i++) {
        if (shows_paid(page, i) && sl_paid_told(compare, i) != 0 &&
            (is_its_base(compare, i) || sl_hair_in_words(compare->hair[compare->paid[i].hair].measure))) {
            paid_words(compare, i, text, sizeof text);
            sl_document_say(document, "%s", text);
        } else if (shows_paid(page, i) && is_its_base(compare, i) &&
                   sl_compare_shows(compare, compare->paid[i].zone)) {
            sl_append_item(zones[untold_of(&compare->paid[i])], NAMES, ", ", "%s",
                           sl_zone_title(&compare->scene->zones[compare->paid[i].zone]));
        }
    }
    for (int i = 0; i < UNTOLD; i++) {
        if (zones[i][0] != '\0') {
            sl_document_say(
                document,
                i == EVEN ? _("At the same colour left no strip is told to have lifted its hair more, in %s.")
                : i == ONCE
                    ? _("What hair paid at the same colour left cannot be told, nothing was repeated: %s.")
                    : _("What hair paid at the same colour left cannot be told, no strips were read with as "
                        "much left: %s."),
                zones[i]);
        }
    }
}

/* All, with their doubt. */
static void say_meetings(sl_document *document, const sl_compare_page *page)
{
    char text[TEXT];
    bool any = false;
    for (int i = 0; i < page->compare->n_paid; i++) {
        if (shows_paid(page, i) && is_its_base(page->compare, i) && page->compare->paid[i].fast >= 0) {
            if (!any) {
                sl_document_heading(document, _("At the same colour left, fastest and slowest strip there"));
            }
            any = true;
            paid_words(page->compare, i, text, sizeof text);
            sl_document_item(document, "%s", text);
        }
    }
}

/* ---- read aloud ------------------------------------------------------------------------------------- */

int sl_compare_gummy(const sl_compare *compare)
{
    int n = 0;
    for (int i = 0; i < compare->n_deviations; i++) {
        n += compare->deviations[i].kind == SL_DEVIATION_GUMMY ? 1 : 0;
    }
    return n;
}

bool sl_compare_page_has_hair(const sl_compare_page *page)
{
    bool any = false;
    for (int i = 0; i < page->compare->n_hair; i++) {
        any = any || sl_compare_page_hair(page, i);
    }
    return any;
}

void sl_compare_read_hair(sl_document *document, const sl_compare_page *page)
{
    const int gummy = sl_compare_gummy(page->compare);
    SL_DOCUMENT_COUNT(document, gummy,
                      "%d swatch was gummy or broke: a reason to stop, whatever the colour does.",
                      "%d swatches were gummy or broke: a reason to stop, whatever the colour does.");
    say_paid(document, page);
}

/* ---- a zone ----------------------------------------------------------------------------------------- */

/* Of which others the strip's hair lies before. */
static bool before_words(const sl_compare *compare, int at, int arm, char *text, size_t size)
{
    const sl_hair_measure measure = compare->hair[at].measure;
    char names[NAMES] = "";
    for (int other = 0; other < compare->scene->n_arms; other++) {
        if (sl_hair_before(compare, at, arm, other)) {
            sl_append_item(names, sizeof names, ", ", "\"%s\"", arm_title(compare, other));
        }
    }
    snprintf(text, size,
             measure == SL_HAIR_LEVEL     ? _("\"%s\" lifted less than %s, by eye.")
             : measure == SL_HAIR_BASE    ? _("\"%s\" lifted less than %s, by the instrument.")
             : measure == SL_HAIR_OFF     ? _("\"%s\" came nearer to undyed than %s, by the instrument.")
             : measure == SL_HAIR_STRETCH ? _("\"%s\" stretched better than %s.")
                                          : _("\"%s\" felt better than %s."),
             arm_title(compare, arm), names);
    return names[0] != '\0';
}

/* Hair of the zone that is told by columns: their places in the compare's list. */
static int hair_in(const sl_compare_page *page, int zone, int at[SL_HAIR_MEASURES])
{
    int n = 0;
    for (int i = 0; i < page->compare->n_hair; i++) {
        if (page->compare->hair[i].zone == zone && sl_compare_page_hair(page, i)) {
            at[n++] = i;
        }
    }
    return n;
}

static void say_row(sl_document *document, const sl_compare *compare, int arm, const int *at, int n)
{
    sl_document_cell(document, "%s", arm_title(compare, arm));
    for (int i = 0; i < n; i++) {
        const sl_seen_hair *const hair = &compare->hair[at[i]];
        char text[200] = "-";
        if (hair->blocks.n[arm] > 0 && sl_hair_in_words(hair->measure)) {
            counts_words(hair, arm, text, sizeof text);
        } else if (hair->blocks.n[arm] > 0) {
            range_words(hair->blocks.mean[arm], sl_blocks_half(&hair->blocks, arm, 0.95), text, sizeof text);
        }
        sl_document_cell(document, "%s", text);
    }
}

/* What is told apart, and why nothing is. */
static void say_before(sl_document *document, const sl_compare *compare, const int *at, int n)
{
    char even[NAMES] = "", once[NAMES] = "", text[TEXT];
    for (int i = 0; i < n; i++) {
        const sl_seen_hair *const hair = &compare->hair[at[i]];
        bool any = false;
        for (int arm = 0; arm < compare->scene->n_arms; arm++) {
            if (before_words(compare, at[i], arm, text, sizeof text)) {
                sl_document_item(document, "%s", text);
                any = true;
            }
        }
        if (!any) {
            const bool is_once = hair->blocks.freedom == 0;
            sl_append_item(is_once ? once : even, NAMES, ", ", "%s", measure_title(hair));
        }
    }
    if (even[0] != '\0') {
        sl_document_say(document, _("No strip is told from another by: %s."), even);
    }
    if (once[0] != '\0') {
        sl_document_say(document, _("No strip was repeated, or one alone was read, of: %s."), once);
    }
}

void sl_compare_say_hair(sl_document *document, const sl_compare_page *page)
{
    const sl_compare *const compare = page->compare;
    for (int zone = 0; zone < compare->scene->n_zones; zone++) {
        sl_text_column columns[1 + SL_HAIR_MEASURES] = {{N_("strip"), 3.3, SL_NAME}};
        int at[SL_HAIR_MEASURES];
        char heading[256];
        const int n = hair_in(page, zone, at);
        if (n == 0) {
            continue;
        }
        for (int i = 0; i < n; i++) {
            const sl_seen_hair *const hair = &compare->hair[at[i]];
            columns[1 + i] =
                (sl_text_column){measure_title(hair), sl_hair_in_words(hair->measure) ? 2.6 : 2.2,
                                 SL_OWN | (sl_hair_in_words(hair->measure) ? 0U : SL_RIGHT)};
        }
        snprintf(heading, sizeof heading, _("What hair paid in %s"),
                 sl_zone_title(&compare->scene->zones[zone]));
        sl_document_heading(document, heading);
        sl_document_table(document, "", 1 + n, columns, 0.0);
        for (int arm = 0; arm < compare->scene->n_arms; arm++) {
            bool any = false;
            for (int i = 0; i < n; i++) {
                any = any || compare->hair[at[i]].blocks.n[arm] > 0;
            }
            if (any) {
                say_row(document, compare, arm, at, n);
            }
        }
        say_before(document, compare, at, n);
    }
    say_meetings(document, page);
}
