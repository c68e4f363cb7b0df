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

static void add_zone(const sl_scene *scene, int zone, char *text, size_t size)
{
    const sl_goal goal = sl_zone_goal(scene, zone);
    char number[24], piece[192];
    if (!goal.wanted) {
        snprintf(piece, sizeof piece, _("\"%s\" is not asked for"), sl_zone_title(&scene->zones[zone]));
    } else if (goal.near_undyed > 0.0) {
        sl_short_number(goal.near_undyed, 1, number, sizeof number);
        snprintf(piece, sizeof piece, _("\"%s\" at most %s (CIEDE2000) from undyed hair"),
                 sl_zone_title(&scene->zones[zone]), number);
    } else {
        sl_percent(goal.left, number, sizeof number);
        snprintf(piece, sizeof piece, _("\"%s\" at most %s %% left"), sl_zone_title(&scene->zones[zone]),
                 number);
    }
    sl_append(text, size, "%s; ", piece);
}

static void add_blanket(const sl_scene *scene, bool every, char *text, size_t size)
{
    const sl_aims *const aims = &scene->aims;
    char number[24], piece[160];
    sl_percent(aims->colour_left, number, sizeof number);
    if (aims->colour_left < 1.0) {
        snprintf(piece, sizeof piece,
                 every ? _("at most %s %% left in every zone with direct dye")
                       : _("at most %s %% left in every other zone with direct dye"),
                 number);
    } else {
        snprintf(piece, sizeof piece, _("no other zone is asked for"));
    }
    sl_append(text, size, "%s", piece);
    sl_append(text, size, "%s", aims->left_by_next ? _(" (the default, assumed)") : "");
}

void sl_goal_words(const sl_scene *scene, char *text, size_t size)
{
    bool every = true;
    bool blanket = false;
    text[0] = '\0';
    if (!sl_goal_set(scene)) {
        return;
    }
    sl_append(text, size, "%s", next_phrase(scene->aims.next));
    sl_append(text, size, "%s", text[0] != '\0' ? ": " : "");
    for (int zone = 0; zone < scene->n_zones; zone++) {
        if (own(scene, zone)) {
            add_zone(scene, zone, text, size);
            every = false;
        }
        blanket = blanket || (sl_zone_direct(scene, zone) && !own(scene, zone));
    }
    if (every || blanket) {
        add_blanket(scene, every, text, size);
    } else {
        text[strlen(text) - 2] = '\0'; /* the last "; " */
    }
    sl_append(text, size, "%s",
              scene->aims.assumed ? _(" (nobody set a goal: it and its limits are assumed)") : "");
}

void sl_stress_of_words(const sl_scene *scene, char *text, size_t size)
{
    const sl_aims *const aims = &scene->aims;
    char percent[16];
    text[0] = '\0';
    if (aims->stress_share > 0.0) {
        sl_percent(aims->stress_share, percent, sizeof percent);
        snprintf(text, size, _(" (%s %% of what \"%s\" has lost when its first mix comes off)"), percent,
                 sl_arm_title(&scene->arms[aims->stress_of]));
    }
}
