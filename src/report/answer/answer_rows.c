/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The two tables of the answer page: how often in time, when to look and when to rinse; then, at that rinse,
 * colours root to ends, the base and the hair. Each stands in two forms, one for little room. See
 * answer_page.h.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/answer/answer_page.h"
#include "slowlift/plan.h"

enum { WORDS = 160, FEW_LOOKS = 3, STEP_PERCENT = 5 };

/* ---- what an arm is for ---------------------------------------------------------------------- */

sl_answer_role sl_answer_role_of(const sl_scene *scene, int arm)
{
    const sl_arm *const here = &scene->arms[arm];
    if (!sl_arm_application(here)) {
        return SL_ROLE_HUNG;
    }
    if (!sl_arm_in_model(scene, here)) {
        return SL_ROLE_OUTSIDE;
    }
    if (here->undyed) {
        return SL_ROLE_UNDYED;
    }
    return sl_arm_serves_as(scene, here, SL_CONTROL_WASHING) ? SL_ROLE_WASHED : SL_ROLE_STRIP;
}

const char *sl_answer_role_key(sl_answer_role role)
{
    static const char *const keys[SL_ROLES] = {[SL_ROLE_STRIP] = "strip",
                                               [SL_ROLE_HUNG] = "control: untreated",
                                               [SL_ROLE_WASHED] = "control: washing only",
                                               [SL_ROLE_UNDYED] = "control: undyed",
                                               [SL_ROLE_OUTSIDE] = "outside the model"};
    return keys[role];
}

static const char *role_words(sl_answer_role role)
{
    static const char *const words[SL_ROLES] = {
        [SL_ROLE_STRIP] = "",
        [SL_ROLE_HUNG] = N_("control: nothing put on"),
        [SL_ROLE_WASHED] = N_("control: all the handling, no remover"),
        [SL_ROLE_UNDYED] = N_("control: lift without dye"),
        [SL_ROLE_OUTSIDE] = N_("cannot say: its mix is outside the model"),
    };
    return _(words[role]);
}

bool sl_answer_tells(const sl_answer_page *page, int arm)
{
    const sl_answers *const answers = page->answers;
    const sl_answer *const answer = &answers->arm[arm];
    return answer->leave.minutes && (!answers->person || answer->minutes) &&
           sl_rinse_has(page->rinse, answers->scene, arm) && page->rinse->counted[arm] > 0;
}

bool sl_answer_has_minutes(const sl_answers *answers)
{
    for (int arm = 0; arm < answers->n; arm++) {
        if (answers->arm[arm].minutes && sl_answer_role_of(answers->scene, arm) == SL_ROLE_STRIP) {
            return true;
        }
    }
    return false;
}

double sl_answer_rinse_min(const sl_answers *answers, int arm)
{
    const sl_scene *const scene = answers->scene;
    const sl_arm *const here = &scene->arms[arm];
    const sl_rinse_by by = answers->by[arm];
    const double off = sl_arm_minutes_before(here, sl_arm_last_application(here) + 1);
    if (!sl_arm_application(here)) {
        return -1.0;
    }
    return by.minute >= 0 && sl_answer_role_of(scene, arm) == SL_ROLE_STRIP
               ? by.minute
               : fmin(off, scene->until_min - here->contact_min);
}

int sl_answer_base_zone(const sl_answers *answers, int arm)
{
    const int goal = answers->arm[arm].goal_zone;
    for (int zone = 0; goal < 0 && zone < answers->scene->n_zones; zone++) {
        if (sl_zone_goal(answers->scene, zone).wanted) {
            return sl_reference_zone(answers->scene, zone);
        }
    }
    return sl_reference_zone(answers->scene, goal >= 0 ? goal : 0);
}

long sl_answer_partial(const sl_answer_page *page)
{
    const sl_spread *const spread = page->answers->spread;
    return page->rinse->stopped ? page->rinse->members : spread->stopped ? spread->members : -1;
}

sl_rinse_request sl_answer_rinse_request(const sl_answers *answers, int same_zone)
{
    sl_rinse_request request = {.spread = answers->spread, .same_zone = same_zone, .threads = 1};
    for (int arm = 0; arm < answers->n; arm++) {
        request.minute[arm] = sl_answer_rinse_min(answers, arm);
        request.base_zone[arm] = sl_answer_base_zone(answers, arm);
        request.last_min[arm] = sl_leave_last_min(&answers->arm[arm].leave);
    }
    return request;
}

double sl_answer_level(const sl_scene *scene, int zone, double moved)
{
    const double level = scene->hairs[scene->zones[zone].hair].level;
    return level + sl_levels_lifted(&scene->chemistry, level, 1.0, 1.0 - moved);
}

int sl_answer_holds_most(const sl_answer_page *page, int arm)
{
    const sl_scene *const scene = page->answers->scene;
    double most = -1.0;
    int holds = -1;
    for (int zone = 0; zone < scene->n_zones; zone++) {
        const double left =
            sl_rinse_compares(page->rinse, scene, arm, zone) && sl_zone_goal(scene, zone).wanted
                ? sl_rinse_left(page->rinse, arm, zone).p50
                : -1.0;
        holds = left > most ? zone : holds;
        most = fmax(left, most);
    }
    return holds;
}

/* Whether an arm brings any zone to its goal in time in one of 20 runs. */
static bool gets_anywhere(const sl_answers *answers, const sl_rinse *rinse, int arm)
{
    bool any = false;
    for (int zone = 0; zone < answers->scene->n_zones; zone++) {
        any = any || SL_DOTS * sl_rinse_in_time(rinse, arm, zone) >= 1.0;
    }
    return any && sl_answer_role_of(answers->scene, arm) == SL_ROLE_STRIP;
}

/* How far apart those arms are in a zone, pair by pair: in how often it is in time, and a little in what is
 * left. */
static double apart(const sl_answers *answers, const sl_rinse *rinse, int zone)
{
    double sum = 0.0;
    for (int one = 0; one < answers->n; one++) {
        for (int other = 0; other < one; other++) {
            if (gets_anywhere(answers, rinse, one) && gets_anywhere(answers, rinse, other)) {
                sum +=
                    fabs(sl_rinse_in_time(rinse, one, zone) - sl_rinse_in_time(rinse, other, zone)) +
                    0.01 * fabs(sl_rinse_left(rinse, one, zone).p50 - sl_rinse_left(rinse, other, zone).p50);
            }
        }
    }
    return sum;
}

int sl_answer_telling_zone(const sl_answers *answers, const sl_rinse *rinse)
{
    double most = -1.0;
    int telling = -1;
    for (int zone = 0; zone < answers->scene->n_zones; zone++) {
        if (sl_zone_goal(answers->scene, zone).wanted && apart(answers, rinse, zone) > most) {
            most = apart(answers, rinse, zone);
            telling = zone;
        }
    }
    return telling;
}

/* ---- the first table -------------------------------------------------------------------------- */

static bool shows(const sl_answer_page *page, int arm)
{
    return page->only < 0 || page->only == arm;
}

static void say_name(sl_document *document, const sl_answer_page *page, int arm)
{
    sl_document_cell(document, "%d %s", arm + 1, sl_arm_title(&page->answers->scene->arms[arm]));
}

/* "14, 17" or, of many, "14, 17 … 29"; with little room the first and the last. */
static void say_checks(sl_document *document, const sl_answer *answer, bool wide)
{
    const int n = answer->n_checks, told = n <= (wide ? FEW_LOOKS : 2) ? n : wide ? 2 : 1;
    char text[WORDS] = "", minutes[WORDS + 16];
    for (int i = 0; i < told; i++) {
        sl_append_item(text, sizeof text, ", ", "%d", answer->check[i]);
    }
    if (n > told) {
        sl_append(text, sizeof text, " … %d", answer->check[n - 1]);
    }
    sl_minute_words(SL_MINUTE_MODEL, minutes, sizeof minutes, "%s", text);
    sl_document_cell(document, "%s", n > 0 ? minutes : "–");
}

static const char *who_says(sl_rinse_by by)
{
    static const char *const words[] = {
        [SL_STOP_BASE] = N_("base"),   [SL_STOP_STRESS] = N_("stress"),   [SL_STOP_CHAIR] = N_("longest"),
        [SL_STOP_END] = N_("planned"), [SL_STOP_LABEL] = N_("the label"), [SL_STOP_STRAND] = N_("the strand"),
    };
    return _(words[by.stop]);
}

/* The minute, and who says so. */
static void say_rinse_by(sl_document *document, const sl_answer_page *page, int arm, bool wide)
{
    const sl_rinse_by by = page->answers->by[arm];
    const sl_minute_kind kind = by.planned ? SL_MINUTE_PLANNED : SL_MINUTE_MODEL;
    char words[WORDS];
    sl_minute_words(kind, words, sizeof words, wide ? "%d" : "%d %s", by.minute, who_says(by));
    sl_document_cell(document, "%s", words);
    if (wide) {
        sl_document_cell(document, "%s", who_says(by));
    }
}

static void say_times(sl_document *document, const sl_answer_page *page, int arm, bool wide)
{
    const sl_answer *const answer = &page->answers->arm[arm];
    const bool under = sl_answer_under(answer);
    if (wide) {
        sl_document_entry(
            document,
            (sl_entry){.kind = SL_ENTRY_DOTS, .value = answer->dots - (under ? 1 : 0), .decimals = SL_DOTS});
    }
    sl_document_cell(document, under ? "<%d" : "%d", answer->dots);
    sl_document_cell(document, "%s", _(sl_verdict_word(answer->verdict)));
    say_checks(document, answer, wide);
    say_rinse_by(document, page, arm, wide);
}

/* Why an arm of which minutes could be told has none. */
static const char *no_minutes(const sl_answer *answer)
{
    return answer->unknown == SL_UNKNOWN_STRAND ? _("cannot say: no strand of this hair with it yet")
                                                : _(sl_verdict_word(SL_VERDICT_UNKNOWN));
}

static void say_first(sl_document *document, const sl_answer_page *page, bool wide)
{
    static const sl_text_column columns[] = {{"", 4.2, SL_NAME | SL_OWN},
                                             {N_("in time, of 20 runs"), 5.6, 0},
                                             {"", 0.7, SL_RIGHT | SL_OWN},
                                             {"", 2.0, SL_OWN},
                                             {N_("look"), 1.6, SL_RIGHT},
                                             {N_("rinse by"), 1.6, SL_RIGHT},
                                             {"", 1.6, SL_OWN}};
    static const sl_text_column narrow[] = {{"", 5.0, SL_NAME | SL_OWN},
                                            {N_("of 20"), 1.0, SL_RIGHT},
                                            {"", 2.0, SL_OWN},
                                            {N_("look"), 1.4, SL_RIGHT},
                                            {N_("rinse by"), 2.4, 0}};
    const sl_answers *const answers = page->answers;
    document->fit = wide ? SL_FIT_WIDE : SL_FIT_NARROW;
    sl_document_table(document, "", wide ? 7 : 5, wide ? columns : narrow, 0.0);
    for (int arm = 0; arm < answers->n; arm++) {
        const sl_answer_role role = sl_answer_role_of(answers->scene, arm);
        if (!shows(page, arm)) {
            continue;
        }
        say_name(document, page, arm);
        if (role != SL_ROLE_STRIP) {
            sl_document_rest(document, role_words(role));
        } else if (!answers->arm[arm].minutes) {
            sl_document_rest(document, no_minutes(&answers->arm[arm]));
        } else {
            say_times(document, page, arm, wide);
        }
    }
    document->fit = SL_FIT_ANY;
}

/* ---- the second table ------------------------------------------------------------------------- */

void sl_left_in_fives(double left, char *text, size_t size)
{
    const int percent = STEP_PERCENT * (int)lround(100.0 / STEP_PERCENT * left);
    if (percent < STEP_PERCENT) {
        snprintf(text, size, _("under %d"), STEP_PERCENT);
    } else {
        snprintf(text, size, "%d", percent);
    }
}

/* In halves: "9", "9½". */
static void level_words(double level, char *text, size_t size)
{
    const int halves = (int)lround(2.0 * level);
    snprintf(text, size, "%d%s", halves / 2, halves % 2 != 0 ? "½" : "");
}

/* What eight of ten model runs read: "9 to 9½", or one level where both ends are the same. */
static void say_levels(sl_document *document, const sl_answer_page *page, int arm)
{
    const int zone = page->rinse->request.base_zone[arm];
    const sl_middle moved = sl_rinse_base(page->rinse, arm);
    char low[16], high[16];
    level_words(sl_answer_level(page->answers->scene, zone, moved.p10), low, sizeof low);
    level_words(sl_answer_level(page->answers->scene, zone, moved.p90), high, sizeof high);
    if (strcmp(low, high) == 0) {
        sl_document_cell(document, "%s", low);
    } else {
        sl_document_cell(document, _("%s to %s"), low, high);
    }
}

static void say_stress(sl_document *document, const sl_answer_page *page, int arm)
{
    const sl_middle lost = sl_rinse_stress(page->rinse, arm);
    const int low = (int)floor(100.0 * lost.p10), high = (int)floor(100.0 * lost.p90);
    if (lost.p90 <= 0.0) {
        sl_document_cell(document, "%s", _("none"));
    } else if (high < 1) {
        sl_document_cell(document, "%s", "<1 %");
    } else if (low == high) {
        sl_document_cell(document, _("about %d %%"), high);
    } else if (low < 1) {
        sl_document_cell(document, _("up to %d %%"), high);
    } else {
        sl_document_cell(document, _("%d to %d %%"), low, high);
    }
}

/* Colours that are told of an arm: any dye, but on undyed hair. */
static bool has_colour(const sl_scene *scene, int arm, int zone)
{
    return scene->zones[zone].recipe.n_dyes > 0 && !scene->arms[arm].undyed;
}

/* most: the zone that holds most. */
static void say_left(sl_document *document, const sl_answer_page *page, int arm, int zone, int most)
{
    const sl_scene *const scene = page->answers->scene;
    const sl_answer_role role = sl_answer_role_of(scene, arm);
    char left[32];
    if (!has_colour(scene, arm, zone) || role == SL_ROLE_OUTSIDE) {
        sl_document_cell(document, "%s", "–");
        return;
    }
    sl_left_in_fives(role == SL_ROLE_HUNG ? 1.0 : sl_rinse_left(page->rinse, arm, zone).p50, left,
                     sizeof left);
    sl_document_cell(document, zone == most ? "[%s]" : "%s", left);
}

/* "red, 65 %" */
static void say_holds_most(sl_document *document, const sl_answer_page *page, int arm)
{
    const int zone = sl_answer_holds_most(page, arm);
    char left[32];
    if (zone < 0) {
        sl_document_cell(document, "%s", "–");
        return;
    }
    sl_left_in_fives(sl_rinse_left(page->rinse, arm, zone).p50, left, sizeof left);
    sl_document_cell(document, "%s, %s %%", sl_zone_title(&page->answers->scene->zones[zone]), left);
}

static void say_rinse_min(sl_document *document, const sl_answer_page *page, int arm)
{
    const sl_answers *const answers = page->answers;
    const bool strip = sl_answer_role_of(answers->scene, arm) == SL_ROLE_STRIP;
    const sl_rinse_by by = answers->by[arm];
    char minute[24];
    sl_minute_words(strip && !by.planned ? SL_MINUTE_MODEL : SL_MINUTE_PLANNED, minute, sizeof minute, "%.0f",
                    sl_answer_rinse_min(answers, arm));
    sl_document_cell(document, "%s", sl_answer_tells(page, arm) ? minute : "–");
}

static void say_cost(sl_document *document, const sl_answer_page *page, int arm)
{
    if (page->currency == NULL) {
        return;
    }
    if (page->cost[arm] >= 0.0) {
        sl_document_entry(document,
                          (sl_entry){.kind = SL_ENTRY_FIXED, .decimals = 2, .value = page->cost[arm]});
    } else {
        sl_document_cell(document, "%s", "–");
    }
}

/* Whose colours stand in the wide table: any zone with dye. */
static int coloured_zones(const sl_scene *scene, int zone[SL_MAX_ZONES])
{
    int n = 0;
    for (int z = 0; z < scene->n_zones; z++) {
        if (scene->zones[z].recipe.n_dyes > 0) {
            zone[n++] = z;
        }
    }
    return n;
}

/* How often the arm gets there, where all are rinsed at the same colour left; else after how many minutes. */
static void say_when(sl_document *document, const sl_answer_page *page, int arm)
{
    if (page->rinse->request.same_zone < 0) {
        say_rinse_min(document, page, arm);
    } else if (sl_answer_tells(page, arm) &&
               sl_rinse_compares(page->rinse, page->answers->scene, arm, page->rinse->request.same_zone)) {
        sl_document_cell(document, "%ld", lround(SL_DOTS * sl_rinse_there(page->rinse, arm)));
    } else {
        sl_document_cell(document, "%s", "–");
    }
}

static int second_columns(sl_document *document, const sl_answer_page *page, const int zone[], int n,
                          sl_text_column column[SL_MOST_COLUMNS])
{
    const sl_scene *const scene = page->answers->scene;
    int c = 0;
    char cost[48];
    column[c++] = (sl_text_column){"", 4.2, SL_NAME | SL_OWN};
    column[c++] =
        (sl_text_column){page->rinse->request.same_zone < 0 ? _("min") : _("of 20"), 1.2, SL_RIGHT | SL_OWN};
    for (int i = 0; i < n; i++) {
        column[c++] = (sl_text_column){sl_zone_title(&scene->zones[zone[i]]), 1.4, SL_RIGHT | SL_OWN};
    }
    if (n == 0) {
        column[c++] = (sl_text_column){_("most left"), 2.5, SL_OWN};
    }
    column[c++] = (sl_text_column){_("base"), 2.1, SL_OWN};
    column[c++] = (sl_text_column){_("stress"), 2.0, SL_OWN};
    if (page->currency != NULL) {
        snprintf(cost, sizeof cost, _("%s a use"), page->currency);
        column[c++] = (sl_text_column){sl_document_keep(document, cost), 1.4, SL_RIGHT | SL_OWN};
    }
    return c;
}

/* Of how it is there: a strip that was rinsed, or one that hangs as it was. */
static void say_second_row(sl_document *document, const sl_answer_page *page, int arm, const int zone[],
                           int n)
{
    const sl_scene *const scene = page->answers->scene;
    const bool read = sl_answer_tells(page, arm);
    const int most = sl_answer_holds_most(page, arm);
    say_name(document, page, arm);
    say_when(document, page, arm);
    for (int i = 0; i < n; i++) {
        if (read || sl_answer_role_of(scene, arm) == SL_ROLE_HUNG) {
            say_left(document, page, arm, zone[i], most);
        } else {
            sl_document_cell(document, "%s", "–");
        }
    }
    if (n == 0 && read) {
        say_holds_most(document, page, arm);
    } else if (n == 0) {
        sl_document_cell(document, "%s", "–");
    }
    if (read) {
        say_levels(document, page, arm);
        say_stress(document, page, arm);
    } else {
        char level[16];
        level_words(scene->hairs[scene->zones[sl_answer_base_zone(page->answers, arm)].hair].level, level,
                    sizeof level);
        const bool hung = sl_answer_role_of(scene, arm) == SL_ROLE_HUNG; /* as it was: of no model */
        sl_document_cell(document, "%s", hung ? level : "–");
        sl_document_cell(document, "%s", hung ? _("none") : "–");
    }
    say_cost(document, page, arm);
}

/* When it is rinsed; where the base begins, and where the scale of levels ends. */
static void caption_words(const sl_answer_page *page, bool wide, char *text, size_t size)
{
    const sl_scene *const scene = page->answers->scene;
    const int same = page->rinse->request.same_zone;
    const double level = scene->hairs[scene->zones[sl_answer_base_zone(page->answers, 0)].hair].level;
    char start[16], end[16], share[32];
    level_words(level, start, sizeof start);
    level_words(SL_LEVEL_END, end, sizeof end);
    if (same >= 0) {
        sl_left_in_fives(page->rinse->share[same], share, sizeof share);
        snprintf(
            text, size,
            _("Rinsed at %s %% of \"%s\", if it gets there: %% left; base from level %s (scale ends at %s)"),
            share, sl_zone_title(&scene->zones[same]), start, end);
    } else {
        snprintf(text, size,
                 wide ? _("Rinsed then: about %% left, [ ] holds most; base from level %s (scale ends at %s)")
                      : _("Rinsed then: what holds most; base from level %s (scale ends at %s)"),
                 start, end);
    }
}

static void say_second(sl_document *document, const sl_answer_page *page, bool wide)
{
    const sl_scene *const scene = page->answers->scene;
    sl_text_column column[SL_MOST_COLUMNS];
    int zone[SL_MAX_ZONES];
    char caption[2 * WORDS];
    const int n = wide ? coloured_zones(scene, zone) : 0;
    const int columns = second_columns(document, page, zone, n, column);
    caption_words(page, wide, caption, sizeof caption);
    document->fit = wide ? SL_FIT_WIDE : SL_FIT_NARROW;
    sl_document_table(document, caption, columns, column, 0.0);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (shows(page, arm)) {
            say_second_row(document, page, arm, zone, n);
        }
    }
    document->fit = SL_FIT_ANY;
}

void sl_answer_say_tables(sl_document *document, const sl_answer_page *page)
{
    document->depth = SL_LEAD;
    sl_document_apart(document);
    say_first(document, page, true);
    say_first(document, page, false);
    sl_document_apart(document);
    say_second(document, page, true);
    say_second(document, page, false);
    document->depth = SL_MORE;
}
