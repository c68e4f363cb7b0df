/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See aims_words.h.
 */
#include "report/limits/aims_words.h"

#include <stdio.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "report/reading.h"

enum { LIST = 640 };

static const char *next_phrase(sl_next next)
{
    switch (next) {
    case SL_NEXT_PASTEL:
        return _("for a pastel");
    case SL_NEXT_FAMILY:
        return _("for the same colour family");
    case SL_NEXT_DARKER:
        return _("for a darker cover");
    case SL_NEXT_UNSAID:
    case SL_NEXT_COUNT:
        break;
    }
    return "";
}

/* A zone asked for something of its own. */
static bool own(const sl_scene *scene, int zone)
{
    return sl_zone_direct(scene, zone) &&
           (scene->aims.zone_left[zone] > 0.0 || scene->aims.zone_near[zone] > 0.0);
}

static void zone_words(const sl_scene *scene, int zone, char *text, size_t size)
{
    const sl_goal goal = sl_zone_goal(scene, zone);
    const char *const title = sl_zone_title(&scene->zones[zone]);
    char number[24];
    if (!goal.wanted) {
        snprintf(text, size, _("\"%s\" is not asked for"), title);
    } else if (goal.near_undyed > 0.0) {
        sl_short_number(goal.near_undyed, 1, number, sizeof number);
        snprintf(text, size, _("\"%s\" at most %s (CIEDE2000) from undyed hair"), title, number);
    } else {
        sl_percent(goal.left, number, sizeof number);
        snprintf(text, size, _("\"%s\" at most %s %% left"), title, number);
    }
}

static void blanket_words(const sl_aims *aims, bool every, char *text, size_t size)
{
    char number[24];
    sl_percent(aims->colour_left, number, sizeof number);
    if (aims->colour_left >= 1.0) {
        snprintf(text, size, "%s", _("no other zone is asked for"));
    } else if (aims->assumed) {
        snprintf(text, size,
                 _("at most %s %% left in every zone with direct dye (usual: the file names none)"), number);
    } else if (aims->left_by_next) {
        snprintf(text, size,
                 every ? _("at most %s %% left in every zone with direct dye (the usual, assumed)")
                       : _("at most %s %% left in every other zone with direct dye (the usual, assumed)"),
                 number);
    } else {
        snprintf(text, size,
                 every ? _("at most %s %% left in every zone with direct dye")
                       : _("at most %s %% left in every other zone with direct dye"),
                 number);
    }
}

void sl_goal_words(const sl_scene *scene, char *text, size_t size)
{
    char list[LIST] = "", piece[192];
    bool every = true, blanket = false;
    text[0] = '\0';
    if (!sl_goal_set(scene)) {
        return;
    }
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (own(scene, zone)) {
            zone_words(scene, zone, piece, sizeof piece);
            sl_append_item(list, sizeof list, "; ", "%s", piece);
            every = false;
        }
        blanket = blanket || (sl_zone_direct(scene, zone) && !own(scene, zone));
    }
    if (every || blanket) {
        blanket_words(&scene->aims, every, piece, sizeof piece);
        sl_append_item(list, sizeof list, "; ", "%s", piece);
    }
    const char *const next = next_phrase(scene->aims.next);
    snprintf(text, size, next[0] != '\0' ? "%s: %s" : "%s%s", next, list);
}

static void stress_words(const sl_scene *scene, char *text, size_t size)
{
    const sl_aims *const aims = &scene->aims;
    char most[16], share[16];
    sl_percent(aims->cystine_lost.most, most, sizeof most);
    sl_percent(aims->stress_share, share, sizeof share);
    if (aims->stress_share > 0.0) {
        snprintf(text, size,
                 _("hair stress %s %% (%s %% of what \"%s\" has lost when its first mix comes off)"), most,
                 share, sl_arm_title(&scene->arms[aims->stress_of]));
    } else {
        snprintf(text, size, _("hair stress %s %%"), most);
    }
}

static void base_words(const sl_aims *aims, char *text, size_t size)
{
    char number[16];
    if (aims->base_levels > 0.0) {
        sl_short_number(aims->base_levels, 1, number, sizeof number);
        snprintf(
            text, size,
            sl_plural("base %s level lighter", "base %s levels lighter", aims->base_levels > 1.0 ? 2 : 1),
            number);
    } else {
        sl_percent(aims->base_moved.most, number, sizeof number);
        snprintf(text, size, _("base moved %s %%"), number);
    }
}

void sl_bounds_words(const sl_scene *scene, bool of_person, char *text, size_t size)
{
    const sl_aims *const aims = &scene->aims;
    char list[LIST] = "", piece[256];
    if (aims->base_moved.set) {
        base_words(aims, piece, sizeof piece);
        sl_append_item(list, sizeof list, "; ", "%s", piece);
    }
    if (aims->cystine_lost.set) {
        stress_words(scene, piece, sizeof piece);
        sl_append_item(list, sizeof list, "; ", "%s", piece);
    }
    if (aims->longest_min.set && !of_person && sl_reading_has_minutes(scene)) {
        sl_minute_words(SL_MINUTE_PLANNED, piece, sizeof piece, _("%.0f min from contact"),
                        aims->longest_min.most);
        sl_append_item(list, sizeof list, "; ", "%s", piece);
    }
    snprintf(text, size, aims->assumed ? _("%s (usual)") : "%s", list[0] != '\0' ? list : _("none set"));
}

void sl_say_aims(sl_document *document, const sl_scene *scene, bool of_person)
{
    char goal[LIST], bounds[LIST];
    sl_goal_words(scene, goal, sizeof goal);
    sl_bounds_words(scene, of_person, bounds, sizeof bounds);
    sl_document_row(document, _("goal"), "%s", goal);
    sl_document_row(document, _("limits"), "%s", bounds);
}
