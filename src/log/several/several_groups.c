/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which tests compared the same. See several.h.
 */
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "log/several/several.h"
#include "slowlift/part.h"

static const sl_scene *scene_of(const sl_several *several, int test)
{
    return several->test[test].seen->scene;
}

/* The earliest that holds, counting from when the mix is made where both are said; 0: none was entered. */
static double label_of(const sl_scene *scene, int arm)
{
    const sl_step *const apply = sl_arm_application(&scene->arms[arm]);
    const sl_mix *const mix = apply ? &scene->mixes[apply->mix] : NULL;
    const double told = mix ? mix->label_told_min : 0.0, own = mix ? mix->label_max_min : 0.0;
    return told > 0.0 && own > 0.0 ? fmin(told, own) : fmax(told, own);
}

static void differ(const sl_several_test *test, int arm, const sl_several_test *other, int other_arm,
                   sl_apart *apart)
{
    const double label = label_of(test->seen->scene, arm), before = label_of(other->seen->scene, other_arm);
    if (fabs(label - before) > 1e-9) {
        *apart = (sl_apart){.kind = SL_APART_LABEL, .label_min = label, .other_min = before};
    }
    for (int k = SL_TUB_KINDS - 1; k >= 0; k--) {
        const char *const lot = test->lots[arm][k], *const earlier = other->lots[other_arm][k];
        if (lot[0] != '\0' && earlier[0] != '\0' && strcmp(lot, earlier) != 0) {
            apart->kind = k == SL_TUB_POWDER ? SL_APART_POWDER : SL_APART_DEVELOPER;
            memcpy(apart->lot, lot, sizeof apart->lot);
            memcpy(apart->other, earlier, sizeof apart->other);
        }
    }
    if (apart->kind != SL_APART_NOT) {
        snprintf(apart->what, sizeof apart->what, "%s", sl_arm_title(&test->seen->scene->arms[arm]));
    }
}

/* By labels and lots, from the tests of a group: a lot that was not said may be any. */
static sl_apart soft_apart(const sl_several *several, int group, int test)
{
    const sl_several_test *const of = &several->test[test];
    sl_apart apart = {.kind = SL_APART_NOT};
    for (int k = 0; k < test; k++) {
        for (int a = 0; several->test[k].group == group && a < of->seen->scene->n_arms; a++) {
            const int other = sl_scene_arm(several->test[k].seen->scene, of->seen->scene->arms[a].name);
            if (other >= 0 && apart.kind == SL_APART_NOT) {
                differ(of, a, &several->test[k], other, &apart);
            }
        }
    }
    return apart;
}

/* Of strips of one name; *n: how many there are. */
static sl_apart strips_apart(const sl_several *several, const sl_several_group *group, const sl_scene *scene,
                             int *n)
{
    sl_apart apart = {.kind = SL_APART_NOT};
    for (int i = 0; i < group->n_strips && apart.kind == SL_APART_NOT; i++) {
        const sl_several_part part = group->strip[i];
        const int arm = sl_scene_arm(scene, sl_several_strip(several, group, i, false));
        *n += arm >= 0 ? 1 : 0;
        if (arm >= 0 && sl_strip_fingerprint(scene, arm) !=
                            sl_strip_fingerprint(scene_of(several, part.test), part.index)) {
            apart.kind = SL_APART_STRIP;
            snprintf(apart.what, sizeof apart.what, "%s", sl_arm_title(&scene->arms[arm]));
        }
    }
    return apart;
}

static sl_apart hard_apart(const sl_several *several, const sl_several_group *group, const sl_scene *scene)
{
    int n_strips = 0, n_zones = 0;
    sl_apart apart = strips_apart(several, group, scene, &n_strips);
    for (int i = 0; i < group->n_zones && apart.kind == SL_APART_NOT; i++) {
        const sl_several_part part = group->zone[i];
        const int zone = sl_scene_zone(scene, sl_several_zone(several, group, i, false));
        if (zone >= 0 && sl_zone_fingerprint(scene, zone) !=
                             sl_zone_fingerprint(scene_of(several, part.test), part.index)) {
            apart.kind = SL_APART_ZONE;
            snprintf(apart.what, sizeof apart.what, "%s", sl_zone_title(&scene->zones[zone]));
        }
        n_zones += zone >= 0 ? 1 : 0;
    }
    if (apart.kind == SL_APART_NOT && (n_strips == 0 || n_zones == 0)) {
        apart.kind = SL_APART_NOTHING;
    }
    return apart;
}

static bool says_no_lot(const sl_several_test *test)
{
    for (int a = 0; a < test->seen->scene->n_arms; a++) {
        if (test->lots[a][SL_TUB_POWDER][0] != '\0' || test->lots[a][SL_TUB_DEVELOPER][0] != '\0') {
            return false;
        }
    }
    return true;
}

/* Its strips and zones that the group has none of by their names. */
static bool join(const sl_several *several, sl_several_group *group, int test, sl_error *error)
{
    const sl_scene *const scene = scene_of(several, test);
    for (int a = 0; a < scene->n_arms; a++) {
        int i = 0;
        while (i < group->n_strips &&
               strcmp(sl_several_strip(several, group, i, false), scene->arms[a].name) != 0) {
            i++;
        }
        if (i == SL_MAX_ARMS) {
            return sl_fail(error, SL_ERR_TOO_LARGE, _("too many strips of different names in these tests"),
                           _("compare fewer tests at once, or those of one scene (--of)"));
        }
        if (i == group->n_strips) {
            group->strip[group->n_strips++] = (sl_several_part){test, a};
        }
    }
    for (int z = 0; z < scene->n_zones; z++) {
        int i = 0;
        while (i < group->n_zones &&
               strcmp(sl_several_zone(several, group, i, false), scene->zones[z].name) != 0) {
            i++;
        }
        if (i == SL_MAX_ZONES) {
            return sl_fail(error, SL_ERR_TOO_LARGE, _("too many zones of different names in these tests"),
                           _("compare fewer tests at once, or those of one scene (--of)"));
        }
        if (i == group->n_zones) {
            group->zone[group->n_zones++] = (sl_several_part){test, z};
        }
    }
    group->first = group->n_tests == 0 ? test : group->first;
    group->last = test;
    group->n_tests++;
    group->n_swatches += several->test[test].seen->n_swatches;
    group->n_lots_unsaid += says_no_lot(&several->test[test]) ? 1 : 0;
    return true;
}

/* What only a label or a lot keeps apart lies nearest, what has no name in common furthest. */
static int nearness(sl_apart_kind kind)
{
    return kind >= SL_APART_LABEL ? 3 : kind > SL_APART_NOTHING ? 2 : (int)kind;
}

bool sl_several_parted(sl_several *several, sl_error *error)
{
    bool good = (several->group = sl_new(several->n + 1, sizeof *several->group, "comparing", error)) != NULL;
    for (size_t i = 0; good && i < several->n; i++) {
        sl_several_test *const test = &several->test[i];
        test->group = -1;
        sl_apart nearest = {.kind = SL_APART_NOT};
        int g = 0;
        for (; g < several->n_groups; g++) {
            const sl_apart hard = hard_apart(several, &several->group[g], test->seen->scene);
            const sl_apart soft = soft_apart(several, g, (int)i);
            if (hard.kind == SL_APART_NOT && (soft.kind == SL_APART_NOT || several->asked->across)) {
                several->group[g].across = soft.kind != SL_APART_NOT ? soft : several->group[g].across;
                break;
            }
            const sl_apart *const why = hard.kind != SL_APART_NOT ? &hard : &soft;
            nearest = nearness(why->kind) >= nearness(nearest.kind) ? *why : nearest;
        }
        if (g == several->n_groups) {
            several->group[several->n_groups++].apart = nearest;
        }
        test->group = g;
        good = join(several, &several->group[g], (int)i, error);
    }
    return good;
}
