/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan as a document: what is compared and what that can show, what to weigh, who does what when,
 * and what handling it otherwise would cost.
 */
#include <math.h>
#include <string.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/plan/plan.h"
#include "report/reading.h"
#include "report/told.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

void sl_day_time(int seconds, char *text, size_t size)
{
    sl_minute_words(SL_MINUTE_PLANNED, text, size, "%d:%02d:%02d", seconds / 3600, seconds / 60 % 60,
                    seconds % 60);
}

const char *sl_control_reason(sl_control control)
{
    static const char *const reasons[SL_CONTROLS] = {
        [SL_CONTROL_UNTREATED] = N_("without it nobody knows how the day began"),
        [SL_CONTROL_WASHING] = N_("water and shampoo take some dye by themselves"),
        [SL_CONTROL_UNDYED_TREATED] = N_("only undyed hair shows what the mix does to the base"),
        [SL_CONTROL_LIGHTENER] = N_("it shows what full lift looks like on this hair"),
        [SL_CONTROL_UNDYED_UNTREATED] = N_("it is what a clear zone is compared with")};
    return reasons[control];
}

int sl_fair_pairs(const sl_scene *scene, sl_fair_pair *use, void *with)
{
    int n = 0;
    for (int one = 0; one < scene->n_arms; one++) {
        for (int other = one + 1; other < scene->n_arms; other++) {
            bool differs[SL_DIFFERENCES];
            if (sl_arms_differ(scene, one, other, differs) != 1) {
                continue;
            }
            for (int d = 0; d < SL_DIFFERENCES; d++) {
                if (differs[d]) {
                    use(with, one, other, (sl_difference)d);
                    n++;
                }
            }
        }
    }
    return n;
}

/* ---- what is compared --------------------------------------------------------------------- */

static void say_repeats(sl_document *document, const sl_plan *plan)
{
    if (plan->request.blocks == 1) {
        sl_document_say(document, "%s",
                        _("One swatch of each: no spread can be known, so nothing can be called better. "
                          "Three repeats are the least that show a spread, five rank with some trust."));
    }
}

static void say_head(sl_document *document, const sl_plan *plan)
{
    char hair[24], end[32];
    sl_short_number(plan->hair_g, 1, hair, sizeof hair);
    sl_day_time(plan->end_s, end, sizeof end);
    sl_document_say(document,
                    _("%d swatches (%d strips, %d repeats), %s g of hair; %d %s; done after %s (h:min:s). "
                      "Seed %llu: the same number gives the same plan."),
                    plan->n_swatches, plan->scene->n_arms, plan->request.blocks, hair, plan->request.people,
                    plan->request.people == 1 ? _("person") : _("people"), end,
                    (unsigned long long)plan->request.seed);
    say_repeats(document, plan);
    if (plan->clustered) {
        sl_document_say(document, "%s",
                        _("Luck put a strip into the same third of every round; another seed may not."));
    }
}

static void say_controls(sl_document *document, const sl_scene *scene)
{
    static const sl_text_column columns[] = {{"", 2.0, SL_OWN}, {"", 4.0, SL_OWN}};
    sl_document_heading(document, _("Controls"));
    sl_document_table(document, "", 2, columns, 0.0);
    for (int c = 0; c < SL_CONTROLS; c++) {
        const int arm = sl_control_arm(scene, (sl_control)c);
        char text[256];
        sl_document_cell(document, "%s", _(sl_control_word((sl_control)c)));
        if (arm < 0) {
            snprintf(text, sizeof text, _("MISSING: %s"), _(sl_control_reason((sl_control)c)));
        } else if (c == SL_CONTROL_UNDYED_UNTREATED && !scene->arms[arm].undyed) {
            snprintf(text, sizeof text, _("the undyed zone of \"%s\""), sl_arm_title(&scene->arms[arm]));
        } else {
            snprintf(text, sizeof text, "\"%s\"", sl_arm_title(&scene->arms[arm]));
        }
        sl_document_rest(document, text);
    }
}

typedef struct sl_listing {
    sl_document *document;
    const sl_scene *scene;
} sl_listing;

static void say_pair(void *with, int one, int other, sl_difference difference)
{
    const sl_listing *const listing = with;
    sl_document_say(listing->document, _("\"%s\" and \"%s\": %s"), sl_arm_title(&listing->scene->arms[one]),
                    sl_arm_title(&listing->scene->arms[other]), _(sl_difference_word(difference)));
}

/* Strips on which a reducing mix and one that oxidises follow each other. */
static void say_products(sl_document *document, const sl_scene *scene)
{
    for (int arm = 0; arm < scene->n_arms; arm++) {
        const sl_arm *const of = &scene->arms[arm];
        bool reduces = false, oxidises = false;
        for (int i = 0; i < of->n_steps; i++) {
            const sl_mix *const mix =
                of->steps[i].kind == SL_STEP_APPLY ? &scene->mixes[of->steps[i].mix] : NULL;
            reduces = reduces || (mix && mix->mechanism == SL_MECHANISM_REDUCTIVE);
            oxidises =
                oxidises || (mix && mix->mechanism == SL_MECHANISM_OXIDATIVE && mix->class_ != SL_MIX_WATER);
        }
        if (reduces && oxidises) {
            sl_document_say(
                document,
                _("On \"%s\" a reducing and an oxidising mix follow each other: only where the labels of "
                  "both say so, rinsed between them until the water runs clear, in bowls and with water "
                  "that stay apart."),
                sl_arm_title(of));
        }
    }
}

static void say_changes(sl_document *document, const sl_scene *scene)
{
    sl_listing listing = {document, scene};
    sl_document_heading(document, _("One change at a time"));
    sl_document_say(
        document, "%s",
        sl_fair_pairs(scene, say_pair, &listing) == 0
            ? _("no two strips differ in one thing alone: whatever differs, nobody can tell what did it")
            : _("Between any other two strips more than one thing differs: compare them, but do not say "
                "which of the things did it."));
}

/* ---- weighing -------------------------------------------------------------------------------- */

static void say_grams(sl_document *document, double grams, int decimals)
{
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_FIXED, .value = grams, .decimals = decimals});
}

static void say_per_cent(sl_document *document, double per_cent)
{
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_NUMBER, .value = per_cent, .decimals = 1});
}

/* Of grams that the scale shows. */
static int decimals_of(const sl_plan *plan)
{
    return plan->request.scale_g < 0.05 ? 2 : plan->request.scale_g < 1.0 ? 1 : 0;
}

void sl_task_about(const sl_plan *plan, const sl_task *task, char *text, size_t size)
{
    const char *const arm = sl_arm_title(&plan->scene->arms[plan->swatches[task->swatch].arm]);
    const sl_bowl *const bowl = task->kind == SL_TASK_MIX ? sl_plan_bowl(plan, task) : NULL;
    const int decimals = decimals_of(plan);
    char grams[128] = "";
    if (!bowl) {
        snprintf(text, size, "%s", arm);
        return;
    }
    const sl_weighing *const shown = &bowl->shown;
    if (shown->powder_g > 0.0) {
        sl_append_item(grams, sizeof grams, ", ", _("powder %.*f g"), decimals, shown->powder_g);
    }
    if (shown->developer_g > 0.0) {
        sl_append_item(grams, sizeof grams, ", ", _("developer %.*f g"), decimals, shown->developer_g);
    }
    if (shown->water_g > 0.0) {
        sl_append_item(grams, sizeof grams, ", ", _("water %.*f g"), decimals, shown->water_g);
    }
    snprintf(text, size, "%s: %s", arm, grams);
}

static void say_bowl(sl_document *document, const sl_plan *plan, const sl_bowl *bowl)
{
    const sl_mix *const mix = &plan->scene->mixes[bowl->mix];
    const int decimals = decimals_of(plan);
    char label[32];
    snprintf(label, sizeof label, "%s", _("not entered"));
    if (mix->label_max_min > 0.0) {
        sl_minute_words(SL_MINUTE_PLANNED, label, sizeof label, _("%.0f min"), mix->label_max_min);
    }
    sl_document_cell(document, "%s", sl_arm_title(&plan->scene->arms[bowl->arm]));
    say_grams(document, bowl->shown.powder_g, decimals);
    say_grams(document, bowl->shown.developer_g, decimals);
    say_grams(document, bowl->shown.water_g, decimals);
    say_per_cent(document, bowl->shown.liquid_pct);
    say_per_cent(document, bowl->shown.on_hair_pct);
    sl_document_cell(document, "%.0f %%", 100.0 * bowl->scale_error);
    sl_document_cell(document, "%s", label);
    sl_document_cell(document, "%s",
                     mix->label_allows || mix->class_ == SL_MIX_WATER ? "" : _("SWATCH ONLY"));
}

static void say_bowls(sl_document *document, const sl_plan *plan)
{
    static const sl_text_column columns[] = {
        {N_("strip"), 3.2, SL_NAME},   {N_("powder"), 1.5, SL_RIGHT},  {N_("developer"), 1.9, SL_RIGHT},
        {N_("water"), 1.2, SL_RIGHT},  {N_("liquid%"), 1.5, SL_RIGHT}, {N_("mix%"), 1.4, SL_RIGHT},
        {N_("scale±"), 1.4, SL_RIGHT}, {N_("label time"), 1.6, 0},     {"", 1.7, SL_OWN}};
    char scale[16];
    sl_short_number(plan->request.scale_g, 3, scale, sizeof scale);
    sl_document_heading(document, _("To weigh for one swatch, in grams; mix each swatch its own bowl"));
    sl_document_table(document, "", 9, columns, 0.0);
    for (int i = 0; i < plan->n_bowls; i++) {
        say_bowl(document, plan, &plan->bowls[i]);
    }
    sl_document_say(document,
                    _("%.0f %% more than needed is counted in. liquid%%: peroxide in the liquid; mix%%: in "
                      "the whole mix; scale±: how far half a step of a scale of %s g can throw the smallest "
                      "part off. Plastic, glass or china, no metal. SWATCH ONLY: nobody has said that the "
                      "label allows this liquid and ratio."),
                    100.0 * plan->request.waste, scale);
}

/* What to buy: every bowl, for every block. */
static void say_shopping(sl_document *document, const sl_plan *plan)
{
    static const sl_text_column columns[] = {{"", 4.0, SL_OWN},
                                             {N_("powder"), 1.0, SL_RIGHT},
                                             {N_("developer"), 1.0, SL_RIGHT},
                                             {N_("water"), 1.0, SL_RIGHT}};
    sl_document_heading(document, _("In all, in grams"));
    sl_document_table(document, "", 4, columns, 0.0);
    for (int m = 0; m < plan->scene->n_mixes; m++) {
        const sl_weighing needs = sl_plan_needs(plan, m);
        if (needs.total_g > 0.0) {
            sl_document_cell(document, "%s", sl_mix_title(&plan->scene->mixes[m]));
            say_grams(document, needs.powder_g, 1);
            say_grams(document, needs.developer_g, 1);
            say_grams(document, needs.water_g, 1);
        }
    }
}

/* ---- who does what when ------------------------------------------------------------------------- */

/* Blind: no arm, only which piece. */
static void say_task(sl_document *document, const sl_plan_page *page, const sl_task *task)
{
    const sl_plan *const plan = page->plan;
    const sl_planned_swatch *const swatch = &plan->swatches[task->swatch];
    char start[32], piece[24], arm[256], hands[SL_CODE];
    sl_task_about(plan, task, arm, sizeof arm);
    sl_day_time(task->start_s, start, sizeof start);
    sl_document_cell(document, "%s", start);
    sl_document_cell(document, "%s", sl_plan_hands(&plan->request, task->person, hands));
    sl_document_cell(document, "%s", swatch->code);
    sl_document_cell(document, "%s", _(sl_task_word(task->kind)));
    if (task->rung < 0) {
        sl_document_cell(document, "%s", page->blind ? "" : arm);
        return;
    }
    sl_minute_words(SL_MINUTE_PLANNED, piece, sizeof piece, "%d", plan->request.rung_min[task->rung]);
    if (page->blind) {
        sl_document_cell(document, _("the piece for %s min"), piece);
    } else {
        sl_document_cell(document, _("the piece for %s min, %s"), piece, arm);
    }
}

static void say_block(sl_document *document, const sl_plan_page *page, int block)
{
    const sl_text_column columns[] = {{N_("h:min:s"), 1.0, SL_RIGHT},
                                      {N_("who"), 1.0, SL_RIGHT},
                                      {N_("of"), 1.0, 0},
                                      {N_("what"), 2.0, 0},
                                      {page->blind ? "" : _("strip"), 4.0, SL_OWN}};
    const sl_plan *const plan = page->plan;
    char heading[64];
    snprintf(heading, sizeof heading, _("Round %d of %d"), block + 1, plan->request.blocks);
    sl_document_heading(document, heading);
    sl_document_table(document, "", 5, columns, 0.0);
    for (int i = 0; i < plan->n_tasks; i++) {
        if (plan->swatches[plan->tasks[i].swatch].block == block) {
            say_task(document, page, &plan->tasks[i]);
        }
    }
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &plan->swatches[i];
        if (swatch->block == block && swatch->contact_s < 0) {
            sl_document_cell(document, "-");
            sl_document_cell(document, "-");
            sl_document_cell(document, "%s", swatch->code);
            sl_document_cell(document, "%s", _("left alone"));
            sl_document_cell(document, "%s",
                             page->blind ? "" : sl_arm_title(&plan->scene->arms[swatch->arm]));
        }
    }
}

/* Minutes that the scene gives an arm under its mixes. */
static double wished_min(const sl_arm *arm)
{
    double wished = 0.0;
    for (int i = 0; i < arm->n_steps; i++) {
        wished += arm->steps[i].kind == SL_STEP_APPLY ? arm->steps[i].duration_min : 0.0;
    }
    return wished;
}

bool sl_plan_shortened(const sl_plan *plan, int arm, char *text, size_t size)
{
    const sl_arm *const of = &plan->scene->arms[arm];
    bool cut_short = false;
    char lies[24], wished[24];
    sl_clock_time(SL_MINUTE_PLANNED, sl_plan_lying_s(plan, arm, &cut_short) / 60.0, lies, sizeof lies);
    sl_clock_time(SL_MINUTE_PLANNED, wished_min(of), wished, sizeof wished);
    if (!cut_short) {
        return false;
    }
    if (plan->request.n_rungs > 0) {
        snprintf(text, size,
                 _("\"%s\": the last piece is off after %s min, when the label's time of its mix ends; later "
                   "pieces of the ladder are left out."),
                 sl_arm_title(of), lies);
    } else {
        snprintf(
            text, size,
            _("\"%s\" lies %s min and not the %s min that the scene gives it, because the label's time of "
              "its mix ends then (most labels count from mixing)."),
            sl_arm_title(of), lies, wished);
    }
    return true;
}

static void say_shortened(sl_document *document, const sl_plan_page *page)
{
    char text[512];
    for (int a = 0; a < page->plan->scene->n_arms && !page->blind; a++) {
        if (sl_plan_shortened(page->plan, a, text, sizeof text)) {
            sl_document_say(document, "%s", text);
        }
        if (sl_plan_unlooked(page->plan, a, text, sizeof text)) {
            sl_document_say(document, "%s", text);
        }
    }
}

/* ---- what it can see, and what mistakes would cost ----------------------------------------------- */

static void say_mistake(sl_document *document, const sl_scene *scene, const sl_plan_error *worst,
                        const char *what)
{
    char gap[24], fair[16], unfair[16];
    if (!worst->known || worst->gap_min <= 0.0) {
        return;
    }
    sl_clock_time(SL_MINUTE_PLANNED, worst->gap_min, gap, sizeof gap);
    sl_percent(worst->fair, fair, sizeof fair);
    sl_percent(worst->unfair, unfair, sizeof unfair);
    sl_document_say(
        document, _("%s by %s min: \"%s\" would keep %s %% of \"%s\" instead of %s %%, most of all."), what,
        gap, sl_arm_title(&scene->arms[worst->arm]), unfair, sl_zone_title(&scene->zones[worst->zone]), fair);
}

static double left_at_rinse(const sl_plan_page *page, int arm, int zone)
{
    return sl_left_at(page->timeline, arm, zone, page->plan->scene->until_min);
}

static bool comparable(const sl_plan_page *page, int arm)
{
    const sl_arm *const of = &page->plan->scene->arms[arm];
    return !of->undyed && of->n_steps > 0 && sl_timeline_predicted(page->timeline, arm);
}

/* The first few by name. */
static void say_ties(sl_document *document, const sl_plan_page *page, double below)
{
    enum { MOST = 6 };
    const sl_scene *const scene = page->plan->scene;
    int n = 0;
    for (int z = 0; z < scene->n_zones; z++) {
        for (int a = 0; a < scene->n_arms; a++) {
            for (int b = a + 1; sl_zone_direct(scene, z) && comparable(page, a) && b < scene->n_arms; b++) {
                if (comparable(page, b) &&
                    fabs(left_at_rinse(page, a, z) - left_at_rinse(page, b, z)) < below && n++ < MOST) {
                    sl_document_row(document, n == 1 ? _("even by the model, if read by an instrument") : "",
                                    _("\"%s\" and \"%s\" in \"%s\""), sl_arm_title(&scene->arms[a]),
                                    sl_arm_title(&scene->arms[b]), sl_zone_title(&scene->zones[z]));
                }
            }
        }
    }
    if (n > MOST) {
        sl_document_row(document, "", _("and %d more"), n - MOST);
    }
}

void sl_promise_words(const sl_promise *promise, char *text, size_t size)
{
    char graded[16], read[16], spread[16];
    sl_percent(promise->graded, graded, sizeof graded);
    sl_percent(promise->read, read, sizeof read);
    sl_percent(promise->spread, spread, sizeof spread);
    if (promise->blocks < 2) {
        snprintf(text, size, "%s", _("Nothing: with one swatch of each, luck and mix cannot be told apart."));
    } else if (promise->read < 0.0) {
        snprintf(text, size,
                 _("%d swatches of each strip tell no difference in 8 of 10 such tests, graded once or read "
                   "once by an instrument. Swatches of one strip scatter by %s points."),
                 promise->blocks, spread);
    } else if (promise->graded < 0.0) {
        snprintf(
            text, size,
            _("%d swatches of each strip, graded once, tell no difference in 8 of 10 such tests; read once "
              "by an instrument, one of about %s points of the colour. Swatches of one strip scatter by %s "
              "points."),
            promise->blocks, read, spread);
    } else {
        snprintf(
            text, size,
            _("%d swatches of each strip, graded once, tell a difference of about %s points of the colour "
              "in 8 of 10 such tests; read once by an instrument, one of about %s. Swatches of one strip "
              "scatter by %s points."),
            promise->blocks, graded, read, spread);
    }
    if (promise->blocks > 1 && promise->spread_freedom > 0) {
        sl_append_item(
            text, size, " ",
            !promise->by_grade ? _("Repeats in the log show that, by %d degrees of freedom.")
            : promise->spread > SL_SWATCH_SPREAD
                ? _("Grades in the log show that, by %d degrees of freedom, beyond what judges scatter.")
                : _("That is assumed: grades in the log show no more, by %d degrees of freedom, and are too "
                    "coarse to show less."),
            promise->spread_freedom);
    } else if (promise->blocks > 1 && !promise->spread_given) {
        sl_append_item(text, size, " ", "%s", _("That is assumed; --spread gives your own."));
    }
}

static void say_power(sl_document *document, const sl_plan_page *page)
{
    char text[600];
    sl_document_heading(document, _("What this plan can see"));
    sl_promise_words(&page->promise, text, sizeof text);
    sl_document_say(document, "%s", text);
    say_ties(document, page, page->promise.read);
    for (int read = 0; page->tell > 0.0 && read < 2; read++) {
        sl_plan_say_proposal(document, page, read);
    }
}

static void say_compared(sl_document *document, const sl_plan *plan)
{
    say_controls(document, plan->scene);
    say_changes(document, plan->scene);
    say_products(document, plan->scene);
    say_bowls(document, plan);
    say_shopping(document, plan);
}

unsigned sl_plan_occasions(const sl_plan_page *page)
{
    return sl_with_reducing(page->plan->scene, SL_ON_HAIR | SL_ON_MIXING | SL_ON_UNLABELLED);
}

void sl_plan_say_kept(sl_document *document, const void *of, sl_error *error)
{
    const sl_plan_page *const page = of;
    sl_document_begin(document, "plan", sl_scene_title(page->plan->scene), error);
    say_repeats(document, page->plan);
    say_compared(document, page->plan);
    say_power(document, page);
    sl_document_end(document, sl_plan_occasions(page));
}

void sl_plan_say(sl_document *document, const void *of, sl_error *error)
{
    const sl_plan_page *const page = of;
    const sl_scene *const scene = page->plan->scene;
    sl_document_begin(document, "plan", sl_scene_title(scene), error);
    say_head(document, page->plan);
    if (page->fit.class_s > 0) {
        sl_plan_fit_say(document, &page->fit);
    }
    if (!page->blind) {
        say_compared(document, page->plan);
        sl_document_say(document,
                        sl_plural("gloves, fresh for each person and round: %d pair",
                                  "gloves, fresh for each person and round: %d pairs",
                                  sl_plan_gloves(page->plan)),
                        sl_plan_gloves(page->plan));
    }
    for (int b = 0; b < page->plan->request.blocks; b++) {
        say_block(document, page, b);
    }
    say_shortened(document, page);
    sl_plan_say_after(document, page->plan);
    if (!page->blind) {
        sl_document_heading(document, _("What these mistakes would cost, by the model"));
        say_mistake(document, scene, &page->together,
                    _("All rinsed together, the first longer than the last"));
        say_mistake(document, scene, &page->one_bowl,
                    _("One bowl for all repeats, older at the last than at the first"));
        say_power(document, page);
    }
    char example[512];
    sl_example_note(scene, example, sizeof example);
    sl_document_apart(document);
    sl_document_say(document, "%s", example);
    sl_document_end(document, sl_plan_occasions(page));
}
