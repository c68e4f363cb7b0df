/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan for people: what is compared and what that can show, what to weigh, who does what when,
 * and what handling it otherwise would cost.
 */
#include <math.h>
#include <string.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "report/plan/plan.h"
#include "report/reading.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { MIX_TITLE = 52, TEXT = 512 };

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

static void put_heading(FILE *out, const char *heading)
{
    fprintf(out, "\n%s\n", heading);
}

/* ---- what is compared --------------------------------------------------------------------- */

static void put_head(FILE *out, const sl_plan_page *page, int width)
{
    const sl_plan *const plan = page->plan;
    char text[TEXT], hair[24], end[32];
    sl_short_number(plan->hair_g, 1, hair, sizeof hair);
    sl_day_time(plan->end_s, end, sizeof end);
    fprintf(out, "%s\n", sl_scene_title(plan->scene));
    snprintf(
        text, sizeof text,
        _("%d swatches (%d arms, %d repeats), %s g of hair; %d %s; done after %s (h:min:s). Seed %llu: the "
          "same number gives the same plan."),
        plan->n_swatches, plan->scene->n_arms, plan->request.blocks, hair, plan->request.people,
        plan->request.people == 1 ? _("person") : _("people"), end, (unsigned long long)plan->request.seed);
    sl_put_paragraph(out, "", text, width);
    if (plan->request.blocks == 1) {
        sl_put_paragraph(out, "",
                         _("One swatch of each: no spread can be known, so nothing can be called better. "
                           "Three repeats are the least that show a spread, five rank with some trust."),
                         width);
    }
    if (plan->clustered) {
        sl_put_paragraph(
            out, "", _("Chance put an arm into the same third of every block; another seed may not."), width);
    }
}

static void put_controls(FILE *out, const sl_plan_page *page, int width)
{
    const sl_scene *const scene = page->plan->scene;
    put_heading(out, _("Controls"));
    for (int c = 0; c < SL_CONTROLS; c++) {
        const int arm = sl_control_arm(scene, (sl_control)c);
        char text[TEXT], lead[40];
        snprintf(lead, sizeof lead, "  %-20s ", _(sl_control_word((sl_control)c)));
        if (arm < 0) {
            snprintf(text, sizeof text, _("MISSING: %s"), _(sl_control_reason((sl_control)c)));
        } else if (c == SL_CONTROL_UNDYED_UNTREATED && !scene->arms[arm].undyed) {
            snprintf(text, sizeof text, _("the undyed zone of \"%s\""), sl_arm_title(&scene->arms[arm]));
        } else {
            snprintf(text, sizeof text, "\"%s\"", sl_arm_title(&scene->arms[arm]));
        }
        sl_put_paragraph(out, lead, text, width);
    }
}

typedef struct sl_listing {
    FILE *out;
    const sl_scene *scene;
    int width;
} sl_listing;

static void put_pair(void *with, int one, int other, sl_difference difference)
{
    const sl_listing *const listing = with;
    char text[TEXT];
    snprintf(text, sizeof text, _("\"%s\" and \"%s\": %s"), sl_arm_title(&listing->scene->arms[one]),
             sl_arm_title(&listing->scene->arms[other]), _(sl_difference_word(difference)));
    sl_put_paragraph(listing->out, "  ", text, listing->width);
}

static void put_changes(FILE *out, const sl_plan_page *page, int width)
{
    sl_listing listing = {out, page->plan->scene, width};
    put_heading(out, _("One change at a time"));
    if (sl_fair_pairs(listing.scene, put_pair, &listing) == 0) {
        sl_put_paragraph(
            out, "  ",
            _("no two arms differ in one thing alone: whatever differs, nobody can tell what did it"), width);
    } else {
        sl_put_paragraph(out, "  ",
                         _("Between any other two arms more than one thing differs: compare them, but do not "
                           "say which of the things did it."),
                         width);
    }
}

/* ---- weighing -------------------------------------------------------------------------------- */

static void put_bowl(FILE *out, const sl_plan_page *page, const sl_bowl *bowl, int name_width)
{
    const sl_scene *const scene = page->plan->scene;
    const sl_mix *const mix = &scene->mixes[bowl->mix];
    char powder[16], developer[16], water[16], liquid[16], whole[16], label[24];
    snprintf(label, sizeof label, "%s", _("not entered"));
    const int decimals = page->plan->request.scale_g < 0.05 ? 2 : page->plan->request.scale_g < 1.0 ? 1 : 0;
    snprintf(powder, sizeof powder, "%.*f", decimals, bowl->shown.powder_g);
    snprintf(developer, sizeof developer, "%.*f", decimals, bowl->shown.developer_g);
    snprintf(water, sizeof water, "%.*f", decimals, bowl->shown.water_g);
    sl_short_number(bowl->shown.liquid_pct, 1, liquid, sizeof liquid);
    sl_short_number(bowl->shown.on_hair_pct, 1, whole, sizeof whole);
    if (mix->label_max_min > 0.0) {
        sl_minute_words(SL_MINUTE_PLANNED, label, sizeof label, _("%.0f min"), mix->label_max_min);
    }
    fputs("  ", out);
    sl_put_title(out, sl_arm_title(&scene->arms[bowl->arm]), 2, name_width);
    fprintf(out, "  %7s %9s %6s %7s %7s %6.0f %%  %-11s %s\n", powder, developer, water, liquid, whole,
            100.0 * bowl->scale_error, label,
            mix->label_allows || mix->class_ == SL_MIX_WATER ? "" : _("SWATCH ONLY"));
}

static void put_bowls(FILE *out, const sl_plan_page *page, int width)
{
    const sl_plan *const plan = page->plan;
    char text[TEXT], scale[16];
    int name_width = 8;
    for (int i = 0; i < plan->n_bowls; i++) {
        const int columns = sl_text_width(sl_arm_title(&plan->scene->arms[plan->bowls[i].arm]));
        name_width = columns > name_width ? columns : name_width;
    }
    name_width = name_width > 32 ? 32 : name_width;
    put_heading(out, _("To weigh for one swatch, in grams; mix each swatch its own bowl"));
    fputs("  ", out);
    sl_put_left(out, _("arm"), name_width);
    fprintf(out, "  %7s %9s %6s %7s %7s %8s  %-11s\n", _("powder"), _("developer"), _("water"), _("liquid%"),
            _("paste%"), _("scale±"), _("label time"));
    for (int i = 0; i < plan->n_bowls; i++) {
        put_bowl(out, page, &plan->bowls[i], name_width);
    }
    sl_short_number(plan->request.scale_g, 3, scale, sizeof scale);
    snprintf(
        text, sizeof text,
        _("%.0f %% more than needed is counted in. liquid%%: peroxide in the liquid; paste%%: in the whole "
          "mix; "
          "scale±: how far half a step of a scale of %s g can throw the smallest part off. Plastic, glass or "
          "china, no metal. SWATCH ONLY: nobody has said that the label allows this liquid and ratio."),
        100.0 * plan->request.waste, scale);
    sl_put_paragraph(out, "  ", text, width);
}

/* What to buy: every bowl, for every block. */
static void put_shopping(FILE *out, const sl_plan_page *page)
{
    const sl_plan *const plan = page->plan;
    const sl_scene *const scene = plan->scene;
    put_heading(out, _("In all, in grams"));
    for (int m = 0; m < scene->n_mixes; m++) {
        double powder = 0.0, developer = 0.0, water = 0.0;
        for (int i = 0; i < plan->n_bowls; i++) {
            const sl_bowl *const bowl = &plan->bowls[i];
            const double times = bowl->mix == m ? plan->request.blocks : 0.0;
            powder += times * bowl->shown.powder_g;
            developer += times * bowl->shown.developer_g;
            water += times * bowl->shown.water_g;
        }
        if (powder + developer + water > 0.0) {
            fputs("  ", out);
            sl_put_title(out, sl_mix_title(&scene->mixes[m]), 2, MIX_TITLE);
            fprintf(out, _("  powder %6.1f  developer %6.1f  water %6.1f\n"), powder, developer, water);
        }
    }
    fprintf(out, _("  gloves, fresh for each person and block: %d pairs\n"),
            plan->request.people * plan->request.blocks);
}

/* ---- who does what when ------------------------------------------------------------------------- */

static void put_task(FILE *out, const sl_plan_page *page, const sl_task *task)
{
    const sl_plan *const plan = page->plan;
    const sl_planned_swatch *const swatch = &plan->swatches[task->swatch];
    char start[32];
    sl_day_time(task->start_s, start, sizeof start);
    fprintf(out, "  %8s  %3d  %-3s  %-14s", start, task->person + 1, swatch->code,
            _(sl_task_word(task->kind)));
    if (task->rung >= 0) {
        char piece[24];
        sl_minute_words(SL_MINUTE_PLANNED, piece, sizeof piece, "%d", plan->request.rung_min[task->rung]);
        fprintf(out, _("  the piece for %s min"), piece);
    }
    if (!page->blind) {
        fprintf(out, "%s%s", task->rung >= 0 ? ", " : "  ", sl_arm_title(&plan->scene->arms[swatch->arm]));
    }
    fputc('\n', out);
}

static void put_block(FILE *out, const sl_plan_page *page, int block)
{
    const sl_plan *const plan = page->plan;
    char heading[64];
    snprintf(heading, sizeof heading, _("Block %d of %d"), block + 1, plan->request.blocks);
    put_heading(out, heading);
    fprintf(out, "  %8s  %3s  %-3s  %-14s%s\n", _("h:min:s"), _("who"), _("of"), _("what"),
            page->blind ? "" : _("  arm"));
    for (int i = 0; i < plan->n_tasks; i++) {
        if (plan->swatches[plan->tasks[i].swatch].block == block) {
            put_task(out, page, &plan->tasks[i]);
        }
    }
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &plan->swatches[i];
        if (swatch->block == block && swatch->contact_s < 0) {
            fprintf(out, "  %8s  %3s  %-3s  %-14s%s%s\n", "-", "-", swatch->code, _("left alone"),
                    page->blind ? "" : "  ",
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

static void put_shortened(FILE *out, const sl_plan_page *page, int width)
{
    char text[TEXT];
    for (int a = 0; a < page->plan->scene->n_arms && !page->blind; a++) {
        if (sl_plan_shortened(page->plan, a, text, sizeof text)) {
            sl_put_paragraph(out, "  ", text, width);
        }
    }
}

/* ---- what it can see, and what mistakes would cost ----------------------------------------------- */

static void put_mistake(FILE *out, const sl_plan_page *page, const sl_plan_error *worst, const char *what,
                        int width)
{
    const sl_scene *const scene = page->plan->scene;
    char text[TEXT], gap[24], fair[16], unfair[16];
    if (!worst->known || worst->gap_min <= 0.0) {
        return;
    }
    sl_clock_time(SL_MINUTE_PLANNED, worst->gap_min, gap, sizeof gap);
    sl_percent(worst->fair, fair, sizeof fair);
    sl_percent(worst->unfair, unfair, sizeof unfair);
    snprintf(text, sizeof text,
             _("%s by %s min: \"%s\" would keep %s %% of \"%s\" instead of %s %%, most of all."), what, gap,
             sl_arm_title(&scene->arms[worst->arm]), unfair, sl_zone_title(&scene->zones[worst->zone]), fair);
    sl_put_paragraph(out, "  ", text, width);
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

static void put_ties(FILE *out, const sl_plan_page *page, double below, int width)
{
    const sl_scene *const scene = page->plan->scene;
    int told = 0, more = 0;
    for (int z = 0; z < scene->n_zones; z++) {
        for (int a = 0; a < scene->n_arms; a++) {
            for (int b = a + 1; sl_zone_direct(scene, z) && comparable(page, a) && b < scene->n_arms; b++) {
                if (!comparable(page, b) ||
                    fabs(left_at_rinse(page, a, z) - left_at_rinse(page, b, z)) >= below) {
                    continue;
                }
                if (told < 6) {
                    char text[TEXT];
                    snprintf(text, sizeof text, _("\"%s\" and \"%s\" in \"%s\""),
                             sl_arm_title(&scene->arms[a]), sl_arm_title(&scene->arms[b]),
                             sl_zone_title(&scene->zones[z]));
                    sl_put_paragraph(
                        out, told == 0 ? _("  like a tie by the model:  ") : "                            ",
                        text, width);
                    told++;
                } else {
                    more++;
                }
            }
        }
    }
    if (more > 0) {
        fprintf(out, _("                            and %d more\n"), more);
    }
}

static void put_power(FILE *out, const sl_plan_page *page, int width)
{
    const double below = sl_tie_below(page->plan->request.blocks, page->spread);
    char text[TEXT];
    put_heading(out, _("What this plan can see"));
    if (below < 0.0) {
        sl_put_paragraph(out, "  ",
                         _("Nothing: with one swatch of each, chance and mix cannot be told apart."), width);
        return;
    }
    snprintf(
        text, sizeof text,
        _("With %d repeats, and swatches of one mix that scatter by %.0f points of colour left%s, two mixes "
          "closer than %.0f points look like a tie (Student's t, 95 %%)."),
        page->plan->request.blocks, 100.0 * page->spread,
        page->spread_given ? "" : _(" (assumed; --spread gives your own)"), 100.0 * below);
    sl_put_paragraph(out, "  ", text, width);
    put_ties(out, page, below, width);
}

const sl_caution_id sl_plan_cautions[SL_PLAN_CAUTIONS] = {SL_CAUTION_MIXING, SL_CAUTION_METAL,
                                                          SL_CAUTION_REACTED, SL_CAUTION_SWATCH_ONLY};

static void put_cautions(FILE *out, int width)
{
    fputc('\n', out);
    for (int i = 0; i < SL_CAUTION_COUNT; i++) {
        const sl_caution *const caution = sl_caution_text((sl_caution_id)i);
        bool put = caution->always;
        for (size_t j = 0; j < SL_PLAN_CAUTIONS; j++) {
            put = put || (int)sl_plan_cautions[j] == i;
        }
        if (put) {
            char lead[24];
            snprintf(lead, sizeof lead, "%-8s ", _(caution->signal));
            sl_put_paragraph(out, lead, _(caution->text), width);
        }
    }
}

bool sl_plan_text(FILE *out, const sl_plan_page *page, int width)
{
    char example[TEXT];
    put_head(out, page, width);
    if (!page->blind) {
        put_controls(out, page, width);
        put_changes(out, page, width);
        put_bowls(out, page, width);
        put_shopping(out, page);
    }
    for (int b = 0; b < page->plan->request.blocks; b++) {
        put_block(out, page, b);
    }
    put_shortened(out, page, width);
    if (!page->blind) {
        put_heading(out, _("What these mistakes would cost, by the model"));
        put_mistake(out, page, &page->together, _("All rinsed together, the first longer than the last"),
                    width);
        put_mistake(out, page, &page->one_bowl,
                    _("One bowl for all repeats, older at the last than at the first"), width);
        put_power(out, page, width);
    }
    sl_example_note(page->plan->scene, example, sizeof example);
    fputc('\n', out);
    sl_put_paragraph(out, "", example, width);
    put_cautions(out, width);
    return !ferror(out);
}
