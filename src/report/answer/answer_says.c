/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A sentence for each question of the answer page. Strips are called by their numbers, as the tables above
 * and the strips that hang have them. See answer_page.h.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "document/text.h"
#include "report/answer/answer_page.h"
#include "report/returning.h"
#include "report/warming.h"

enum { WORDS = 400, MOST_NAMED = 4 };

/* One that the page tells of. */
static bool is_strip(const sl_answer_page *page, int arm)
{
    return (page->only < 0 || arm == page->only) &&
           sl_answer_role_of(page->answers->scene, arm) == SL_ROLE_STRIP && page->answers->arm[arm].minutes;
}

/* Counts of twenty never say more than was counted. */
static void runs_words(int of_20, char *text, size_t size)
{
    if (of_20 >= SL_DOTS) {
        snprintf(text, size, _("all %d"), SL_DOTS);
    } else if (of_20 <= 0) {
        snprintf(text, size, _("none of %d"), SL_DOTS);
    } else {
        snprintf(text, size, "%d", of_20);
    }
}

static void add_number(char *text, int n, int at, int number)
{
    sl_append(text, WORDS, "%s%d", at == 0 ? "" : at == n - 1 ? _(" and ") : ", ", number);
}

/* The numbers of those arms for which `has` is true; returns how many. */
static int numbers_of(const sl_answer_page *page, const bool has[SL_MAX_ARMS], char text[WORDS])
{
    int n = 0, at = 0;
    for (int arm = 0; arm < page->answers->n; arm++) {
        n += has[arm] ? 1 : 0;
    }
    text[0] = '\0';
    for (int arm = 0; arm < page->answers->n; arm++) {
        if (has[arm]) {
            add_number(text, n, at++, arm + 1);
        }
    }
    return n;
}

/* Places of the arms by who comes before whom in at least nine of ten runs, the first 1; returns the last. */
static int places_of(const sl_answer_page *page, int zone, sl_sooner what, int place[SL_MAX_ARMS])
{
    const sl_rinse *const rinse = page->rinse;
    enum { SHARES = 1000000 };
    static uint32_t before[SL_MAX_ARMS * SL_MAX_ARMS];
    bool has[SL_MAX_ARMS];
    int last = 0;
    for (int a = 0; a < rinse->n_arms; a++) {
        has[a] = is_strip(page, a) && sl_rinse_compares(rinse, page->answers->scene, a, zone) &&
                 2.0 * sl_rinse_gone(rinse, a, zone) >= 1.0;
        for (int b = 0; b < rinse->n_arms; b++) {
            before[a * rinse->n_arms + b] =
                (uint32_t)lround(SHARES * sl_rinse_sooner(rinse, zone, what, a, b));
        }
    }
    sl_rank_places(before, SHARES, rinse->n_arms, has, place);
    for (int a = 0; a < rinse->n_arms; a++) {
        last = place[a] > last ? place[a] : last;
    }
    return last;
}

static int at_place(const sl_answer_page *page, const int place[SL_MAX_ARMS], int wanted, char text[WORDS])
{
    bool has[SL_MAX_ARMS] = {false};
    for (int arm = 0; arm < page->answers->n; arm++) {
        has[arm] = place[arm] == wanted;
    }
    return numbers_of(page, has, text);
}

/* ---- which? ----------------------------------------------------------------------------------- */

static int most_often(const sl_answer_page *page)
{
    int best = -1;
    for (int arm = 0; arm < page->answers->n; arm++) {
        if (is_strip(page, arm) &&
            (best < 0 || page->answers->arm[arm].odds > page->answers->arm[best].odds)) {
            best = arm;
        }
    }
    return best;
}

/* All strips with as many full dots as the one above: a reader compares dots. Returns how many; 0: none has
 * one. */
static int most_dots(const sl_answer_page *page, char text[WORDS])
{
    bool has[SL_MAX_ARMS] = {false};
    int most = 1;
    for (int arm = 0; arm < page->answers->n; arm++) {
        const int dots = is_strip(page, arm) ? page->answers->arm[arm].dots : 0;
        most = dots > most ? dots : most;
    }
    for (int arm = 0; arm < page->answers->n; arm++) {
        has[arm] = is_strip(page, arm) && page->answers->arm[arm].dots == most;
    }
    return numbers_of(page, has, text);
}

/* How much colour an arm takes out of the zones with a goal, in the middle model run. */
static double takes_out(const sl_answer_page *page, int arm)
{
    double out = 0.0;
    for (int zone = 0; zone < page->answers->scene->n_zones; zone++) {
        if (sl_zone_goal(page->answers->scene, zone).wanted &&
            sl_rinse_compares(page->rinse, page->answers->scene, arm, zone)) {
            out += 1.0 - sl_rinse_left(page->rinse, arm, zone).p50;
        }
    }
    return out;
}

/* The strip whose base moves least, of those that take out a fair share of what the best does: sparing the
 * hair by doing nothing is no answer. */
static int spares_base(const sl_answer_page *page)
{
    double most = 0.0;
    int best = -1;
    for (int arm = 0; arm < page->answers->n; arm++) {
        most = is_strip(page, arm) && page->rinse->counted[arm] > 0 ? fmax(most, takes_out(page, arm)) : most;
    }
    for (int arm = 0; arm < page->answers->n; arm++) {
        const bool counts = is_strip(page, arm) && page->rinse->counted[arm] > 0 &&
                            takes_out(page, arm) >= SL_TAKES_OUT * most;
        if (counts &&
            (best < 0 || sl_rinse_base(page->rinse, arm).p50 < sl_rinse_base(page->rinse, best).p50)) {
            best = arm;
        }
    }
    return best;
}

static int with_verdict(const sl_answer_page *page, sl_verdict verdict, char text[WORDS])
{
    bool has[SL_MAX_ARMS] = {false};
    for (int arm = 0; arm < page->answers->n; arm++) {
        has[arm] = is_strip(page, arm) && page->answers->arm[arm].verdict == verdict;
    }
    return numbers_of(page, has, text);
}

static void say_which(sl_document *document, const sl_answer_page *page)
{
    char roomy[WORDS], tight[WORDS], often[WORDS];
    const int n_roomy = with_verdict(page, SL_VERDICT_ROOMY, roomy);
    const int n_tight = with_verdict(page, SL_VERDICT_TIGHT, tight);
    const int n_often = most_dots(page, often), spares = spares_base(page);
    const char *const which = _("Which?");
    if (page->only >= 0) { /* the table has said it */
        return;
    }
    if (n_roomy > 0 && n_tight > 0) {
        sl_document_row(document, which, _("Roomy: %s. Tight: %s. The base moves least in %d."), roomy, tight,
                        spares + 1);
    } else if (n_roomy > 0) {
        sl_document_row(document, which, _("Roomy: %s. The base moves least in %d."), roomy, spares + 1);
    } else if (n_tight > 0) {
        sl_document_row(document, which, _("None is roomy. Tight: %s. The base moves least in %d."), tight,
                        spares + 1);
    } else if (n_often > 0) {
        sl_document_row(document, which,
                        sl_plural("None is sure. %s is in time most often; the base moves least in %d.",
                                  "None is sure. %s are in time most often; the base moves least in %d.",
                                  n_often),
                        often, spares + 1);
    } else {
        sl_document_row(document, which,
                        _("None is in time. Ask for less (--goal 70%%), or cover what is left darker."));
    }
}

/* ---- one colour ------------------------------------------------------------------------------- */

/* Who is in time how often, those that are most often first: "3, 4 and 5 in all 20; 7 in 19". */
static void in_time_words(const sl_answer_page *page, char text[WORDS])
{
    int named = 0;
    text[0] = '\0';
    for (int of_20 = SL_DOTS; of_20 >= 0 && named < MOST_NAMED; of_20--) {
        bool has[SL_MAX_ARMS] = {false};
        char numbers[WORDS], runs[32];
        for (int arm = 0; arm < page->answers->n; arm++) {
            has[arm] = is_strip(page, arm) &&
                       sl_rinse_compares(page->rinse, page->answers->scene, arm, page->zone) &&
                       lround(SL_DOTS * sl_rinse_in_time(page->rinse, arm, page->zone)) == of_20;
        }
        const int n = numbers_of(page, has, numbers);
        if (n > 0) {
            runs_words(of_20, runs, sizeof runs);
            sl_append_item(text, WORDS, "; ", _("%s in %s"), numbers, runs);
            named += n;
        }
    }
}

/* "7, then 5 and 4, then 3": between commas what holds in nine of ten runs. */
static void order_words(const sl_answer_page *page, int zone, sl_sooner what, char text[WORDS])
{
    int place[SL_MAX_ARMS];
    const int last = places_of(page, zone, what, place);
    text[0] = '\0';
    for (int p = 1; p <= last; p++) {
        char numbers[WORDS];
        if (at_place(page, place, p, numbers) > 0) {
            sl_append_item(text, WORDS, _(", then "), "%s", numbers);
        }
    }
}

static void say_zone(sl_document *document, const sl_answer_page *page)
{
    char label[WORDS], in_time[WORDS], order[WORDS], share[32];
    if (page->zone < 0) {
        return;
    }
    snprintf(label, sizeof label, _("In %s?"), sl_zone_title(&page->answers->scene->zones[page->zone]));
    sl_left_in_fives(page->rinse->share[page->zone], share, sizeof share);
    in_time_words(page, in_time);
    if (page->only >= 0) {
        sl_document_row(document, label, _("%s %% left in time, of 20 runs: %s."), share, in_time);
        return;
    }
    order_words(page, page->zone, SL_SOONER_GONE, order);
    sl_document_row(document, label, _("%s %% left in time, of 20 runs: %s. Soonest: %s."), share, in_time,
                    order);
}

/* ---- how long, and what it costs ------------------------------------------------------------------ */

/* How much of a zone's colour comes off only when the mix is rinsed and washed out, in points. */
static int washing_takes(const sl_answer_page *page, int arm, int zone)
{
    const sl_timeline *const timeline = page->answers->timeline;
    const sl_timeline *const rinsed = sl_timeline_rinsed(timeline);
    const sl_limits *const limits = &page->answers->limits[arm];
    const double by = sl_answer_rinse_min(page->answers, arm);
    const double minute = limits->early_reached ? fmin(limits->early_min, by) : by;
    const double clock = page->answers->scene->arms[arm].contact_min + fmax(minute - 0.01, 0.0);
    return (int)lround(100.0 *
                       (sl_left_at(timeline, arm, zone, clock) - sl_left_at(rinsed, arm, zone, clock)));
}

static bool any_look(const sl_answer_page *page)
{
    for (int arm = 0; arm < page->answers->n; arm++) {
        if (is_strip(page, arm) && page->answers->arm[arm].n_checks > 0) {
            return true;
        }
    }
    return false;
}

static void say_how_long(sl_document *document, const sl_answer_page *page)
{
    const sl_answers *const answers = page->answers;
    const int arm = most_often(page), zone = answers->arm[arm].goal_zone;
    char share[32];
    if (!any_look(page)) {
        sl_document_row(
            document, _("How long?"), "%s",
            _("No look is planned: a limit may come before the goal. Rinse by the minutes above."));
        return;
    }
    if (zone < 0 || !(page->rinse->share[zone] < 1.0)) {
        return;
    }
    const int washing = washing_takes(page, arm, zone);
    sl_left_in_fives(page->rinse->share[zone] + 0.01 * washing, share, sizeof share);
    sl_document_row(
        document, _("How long?"),
        sl_plural("At each look wipe a lock: rinse when about %s %% is there; washing takes %d more.",
                  "At each look wipe a lock: rinse when about %s %% is there; washing takes %d more.",
                  washing),
        share, washing);
}

/* Of the arms that get there, the one that is mostly the last and the one that is mostly the first. False:
 * fewer than two. */
static bool slow_and_fast(const sl_answer_page *page, int zone, const int place[SL_MAX_ARMS], int *slow,
                          int *fast)
{
    const sl_rinse *const rinse = page->rinse;
    double most = 0.0, least = 0.0;
    *slow = *fast = -1;
    for (int a = 0; a < rinse->n_arms; a++) {
        double later = 0.0; /* than another, less how often sooner */
        for (int b = 0; b < rinse->n_arms; b++) {
            later += place[a] > 0 && place[b] > 0 ? sl_rinse_sooner(rinse, zone, SL_SLOWER_THERE, a, b) -
                                                        sl_rinse_sooner(rinse, zone, SL_SLOWER_THERE, b, a)
                                                  : 0.0;
        }
        if (place[a] > 0 && (*slow < 0 || later > most)) {
            *slow = a;
            most = later;
        }
        if (place[a] > 0 && (*fast < 0 || later < least)) {
            *fast = a;
            least = later;
        }
    }
    return *slow >= 0 && *slow != *fast && sl_rinse_sooner(rinse, zone, SL_SLOWER_THERE, *slow, *fast) > 0.0;
}

static void say_hair(sl_document *document, const sl_answer_page *page)
{
    const int zone = page->rinse->request.same_zone >= 0 ? page->rinse->request.same_zone : page->zone;
    int place[SL_MAX_ARMS], slow = -1, fast = -1;
    char order[WORDS], share[32], text[WORDS];
    if (zone < 0 || page->only >= 0) {
        return;
    }
    const int last = places_of(page, zone, SL_LESS_BASE, place);
    const char *const name = sl_zone_title(&page->answers->scene->zones[zone]);
    const bool paired = slow_and_fast(page, zone, place, &slow, &fast);
    sl_left_in_fives(page->rinse->share[zone], share, sizeof share);
    if (last > 1) {
        order_words(page, zone, SL_LESS_BASE, order);
        snprintf(text, sizeof text, _("At the same %s %% of \"%s\" the base moves least in: %s."), share,
                 name, order);
    } else if (paired) {
        snprintf(text, sizeof text, _("At the same %s %% of \"%s\" no base moves clearly less."), share,
                 name);
    } else {
        snprintf(text, sizeof text,
                 _("At the same %s %% of \"%s\" none moves the base less than another in 18 of 20 runs."),
                 share, name);
    }
    if (paired) { /* in how many runs the slower was the gentler one */
        const double less = sl_rinse_sooner(page->rinse, zone, SL_SLOWER_THERE_LESS_BASE, slow, fast) /
                            sl_rinse_sooner(page->rinse, zone, SL_SLOWER_THERE, slow, fast);
        sl_append_item(text, WORDS, " ", _("Slower %d less than %d in %d of %d."), slow + 1, fast + 1,
                       (int)lround(SL_DOTS * less), SL_DOTS);
    }
    sl_document_row(document, _("The hair?"), "%s", text);
}

/* ---- how sure, and what next ------------------------------------------------------------------------ */

/* Half of what eight of ten runs lie apart, of the colour that is told least surely, in points. */
static int points_off(const sl_answer_page *page)
{
    double most = 0.0;
    for (int arm = 0; arm < page->answers->n; arm++) {
        for (int zone = 0; zone < page->answers->scene->n_zones; zone++) {
            if (is_strip(page, arm) && sl_rinse_compares(page->rinse, page->answers->scene, arm, zone)) {
                const sl_middle left = sl_rinse_left(page->rinse, arm, zone);
                most = fmax(most, 0.5 * (left.p90 - left.p10));
            }
        }
    }
    return 5 * (int)lround(20.0 * most);
}

static void say_how_sure(sl_document *document, const sl_answer_page *page)
{
    const sl_scene *const scene = page->answers->scene;
    const int seen = page->answers->spread->seen.observations.n;
    const bool named = scene->weakest_what != NULL && scene->weakest_what[0] != '\0';
    const char *const what = named ? scene->weakest_what : _("a number");
    const char *const grade = _(sl_grade_word(scene->weakest));
    if (seen == 0) {
        sl_document_row(document, _("How sure?"),
                        _("Not very: %s %s; no swatch of yours counted; %d points off."), what, grade,
                        points_off(page));
    } else {
        sl_document_row(document, _("How sure?"),
                        sl_plural("%s is %s; %d thing seen is counted. Colours may be %d points off.",
                                  "%s is %s; %d things seen are counted. Colours may be %d points off.",
                                  seen),
                        what, grade, seen, points_off(page));
    }
}

static void say_next(sl_document *document, const sl_answer_page *page)
{
    const int arm = most_often(page), measure = page->answers->arm[arm].measure;
    if (measure < 0) {
        return;
    }
    const sl_answer *const answer = &page->answers->arm[arm];
    const sl_drawn *const drawn = &page->answers->spread->plan.drawn[measure];
    const int less = (int)lround(SL_DOTS * answer->measure_odds[0]);
    const int more = (int)lround(SL_DOTS * answer->measure_odds[1]);
    char how[WORDS];
    if (sl_drawn_of_dye(drawn)) {
        snprintf(how, sizeof how, _("%s (\"%s\")"), _(sl_doubt_measure(drawn->doubt)),
                 sl_dye_title(&page->answers->scene->dyes[drawn->dye]));
    } else {
        snprintf(how, sizeof how, "%s", _(sl_doubt_measure(drawn->doubt)));
    }
    if (answer->measure_odds[0] >= 0.0 && less < more) {
        sl_document_row(document, _("Next"), _("For %d: %s. Then its %s%d of 20 may be %d, or %d."), arm + 1,
                        how, sl_answer_under(answer) ? "<" : "", answer->dots, less, more);
    } else {
        sl_document_row(document, _("Next"), _("For %d: %s."), arm + 1, how);
    }
}

void sl_answer_say_sentences(sl_document *document, const sl_answer_page *page)
{
    if (most_often(page) < 0) { /* a control alone */
        return;
    }
    sl_document_apart(document);
    document->depth = SL_LEAD;
    say_which(document, page);
    document->depth = SL_MORE;
    document->fit = SL_FIT_WIDE;
    say_zone(document, page);
    document->fit = SL_FIT_ANY;
    say_how_long(document, page);
    document->fit = SL_FIT_WIDE;
    say_hair(document, page);
    document->fit = SL_FIT_ANY;
    sl_say_warming(document, page->answers->timeline, page->only, false);
    sl_say_returning(document, page->answers->timeline, page->only);
    say_how_sure(document, page);
    say_next(document, page);
}

/* ---- the order alone ------------------------------------------------------------------------------- */

/* Of the arms whose mix is asked about, those with the least first. */
static void by_least(const sl_answer_page *page, const double of[SL_MAX_ARMS], char text[WORDS])
{
    bool told[SL_MAX_ARMS] = {false};
    text[0] = '\0';
    for (;;) {
        int least = -1;
        for (int arm = 0; arm < page->answers->n; arm++) {
            const bool counts = sl_answer_role_of(page->answers->scene, arm) == SL_ROLE_STRIP && !told[arm] &&
                                page->rinse->counted[arm] > 0;
            least = counts && (least < 0 || of[arm] < of[least]) ? arm : least;
        }
        if (least < 0) {
            return;
        }
        told[least] = true;
        sl_append_item(text, WORDS, ", ", "%d", least + 1);
    }
}

void sl_answer_say_order(sl_document *document, const sl_answer_page *page)
{
    const sl_scene *const scene = page->answers->scene;
    double left[SL_MAX_ARMS] = {0.0}, base[SL_MAX_ARMS] = {0.0};
    char words[WORDS];
    for (int arm = 0; arm < scene->n_arms; arm++) {
        for (int zone = 0; zone < scene->n_zones; zone++) {
            if (sl_rinse_compares(page->rinse, scene, arm, zone)) {
                left[arm] += sl_rinse_left(page->rinse, arm, zone).p50;
            }
        }
        base[arm] = sl_rinse_base(page->rinse, arm).p50;
    }
    sl_document_apart(document);
    document->depth = SL_LEAD;
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (sl_answer_role_of(scene, arm) == SL_ROLE_STRIP) {
            sl_document_item(document, "%d %s", arm + 1, sl_arm_title(&scene->arms[arm]));
        }
    }
    by_least(page, left, words);
    sl_document_row(document, _("Which?"), _("takes out most to least: %s"), words);
    by_least(page, base, words);
    sl_document_row(document, _("The hair?"), _("the base moves least to most in %s"), words);
    document->depth = SL_MORE;
}
