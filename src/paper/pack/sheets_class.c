/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheets that a class is run by: plan, shopping list, rota.
 */
#include <stdio.h>

#include "base/append.h"
#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "paper/pack/pack.h"

/* ---- plan sheet ---------------------------------------------------------------------------- */

static void say_size(sl_document *document, const sl_plan *plan)
{
    char hair[24], end[24];
    sl_short_number(plan->hair_g, 1, hair, sizeof hair);
    sl_day_time(plan->end_s, end, sizeof end);
    sl_document_say(
        document,
        _("Swatches: %d. Strips: %d. Repeats of each: %d. Hair: %s g. People: %d. Done after: %s (h:min:s)."),
        plan->n_swatches, plan->scene->n_arms, plan->request.blocks, hair, plan->request.people, end);
    sl_document_say(document, _("Seed of the plan: %llu. The same number gives the same plan."),
                    (unsigned long long)plan->request.seed);
    if (plan->request.blocks == 1) {
        sl_document_say(
            document, "%s",
            _("One swatch of each: no spread can be known, so nothing can be called better. Three "
              "repeats are the least that show a spread, five rank with some trust."));
    }
}

static void put_controls(sl_document *document, const sl_plan *plan)
{
    static const sl_text_column columns[] = {
        {N_("Control"), 3.0, 0}, {N_("Swatch"), 4.0, 0}, {N_("Why"), 6.0, 0}};
    sl_document_table(document, _("Controls"), 3, columns, 0.0);
    for (int c = 0; c < SL_CONTROLS; c++) {
        const int arm = sl_control_arm(plan->scene, (sl_control)c);
        sl_document_cell(document, "%s", _(sl_control_word((sl_control)c)));
        if (arm < 0) {
            sl_document_cell(document, "%s", _("MISSING"));
        } else if (c == SL_CONTROL_UNDYED_UNTREATED && !plan->scene->arms[arm].undyed) {
            sl_document_cell(document, _("undyed zone of \"%s\""), sl_arm_title(&plan->scene->arms[arm]));
        } else {
            sl_document_cell(document, "%s", sl_arm_title(&plan->scene->arms[arm]));
        }
        sl_document_cell(document, "%s", _(sl_control_reason((sl_control)c)));
    }
}

static const char *first_mix(const sl_scene *scene, const sl_arm *arm)
{
    const sl_step *const first = sl_arm_application(arm);
    return first ? sl_mix_title(&scene->mixes[first->mix]) : _("nothing");
}

/* Why some lie shorter than the scene says; on a blind page without names. */
static void say_shortened(sl_document *document, const sl_pack *pack)
{
    const sl_plan *const plan = pack->page->plan;
    char text[400];
    bool any = false;
    for (int a = 0; a < plan->scene->n_arms; a++) {
        if (sl_plan_shortened(plan, a, text, sizeof text)) {
            any = true;
            if (!pack->page->blind) {
                sl_document_say(document, "%s", text);
            }
        }
    }
    if (any && pack->page->blind) {
        sl_document_say(document, "%s",
                        _("Some swatches lie shorter than others, because the label's time of their mix ends "
                          "first."));
    }
}

static void put_arms(sl_document *document, const sl_plan *plan)
{
    const sl_scene *const scene = plan->scene;
    static const sl_text_column columns[] = {
        {N_("Strip"), 4.0, 0}, {N_("What is put on"), 7.0, 0}, {N_("On hair, min"), 2.4, SL_RIGHT}};
    sl_document_table(document, _("What is compared"), 3, columns, 0.0);
    for (int a = 0; a < scene->n_arms; a++) {
        char on[24];
        bool cut_short = false;
        sl_clock_time(SL_MINUTE_PLANNED, sl_plan_lying_s(plan, a, &cut_short) / 60.0, on, sizeof on);
        sl_document_cell(document, "%s", sl_arm_title(&scene->arms[a]));
        sl_document_cell(document, "%s", first_mix(scene, &scene->arms[a]));
        sl_document_cell(document, "%s", scene->arms[a].n_steps == 0 ? "-" : on);
    }
}

typedef struct sl_class_listing {
    sl_document *document;
    const sl_scene *scene;
} sl_class_listing;

static void put_pair(void *with, int one, int other, sl_difference difference)
{
    const sl_class_listing *const listing = with;
    sl_document_item(listing->document, _("\"%s\" and \"%s\" differ in one thing: %s."),
                     sl_arm_title(&listing->scene->arms[one]), sl_arm_title(&listing->scene->arms[other]),
                     _(sl_difference_word(difference)));
}

static void put_pairs(sl_document *document, const sl_scene *scene)
{
    sl_class_listing listing = {document, scene};
    sl_document_heading(document, _("One change at a time"));
    if (sl_fair_pairs(scene, put_pair, &listing) == 0) {
        sl_document_say(
            document, "%s",
            _("No two strips differ in one thing alone: whatever differs, nobody can tell what did it."));
        return;
    }
    sl_document_say(document, "%s",
                    _("Between any other two strips more than one thing differs: compare them, but do not "
                      "say which of the things did it."));
}

/* Codes by repeat, in the order in which they are put on. */
static void put_order(sl_document *document, const sl_plan *plan)
{
    static const sl_text_column columns[] = {{N_("Repeat"), 1.0, 0}, {N_("Swatches, first to last"), 8.0, 0}};
    sl_document_table(document, _("Order, drawn by lot"), 2, columns, 0.0);
    for (int b = 0; b < plan->request.blocks; b++) {
        char codes[8 * SL_MAX_ARMS] = "";
        for (int i = 0; i < plan->n_swatches; i++) {
            if (plan->swatches[i].block == b) {
                sl_append_item(codes, sizeof codes, "  ", "%s", plan->swatches[i].code);
            }
        }
        sl_document_cell(document, "%d", b + 1);
        sl_document_cell(document, "%s", codes);
    }
}

static void say_power(sl_document *document, const sl_plan_page *page)
{
    char text[600];
    sl_document_heading(document, _("What this plan can see"));
    sl_promise_words(&page->promise, text, sizeof text);
    sl_document_say(document, "%s", text);
}

void sl_sheet_plan(sl_document *document, const sl_pack *pack)
{
    const sl_plan *const plan = pack->page->plan;
    sl_document_heading(document, sl_scene_title(plan->scene));
    if (sl_scene_question(plan->scene)) {
        sl_document_say(document, "%s", sl_scene_question(plan->scene));
    }
    say_size(document, plan);
    if (!pack->page->blind) {
        put_arms(document, plan);
    }
    say_shortened(document, pack);
    if (!pack->page->blind) {
        put_controls(document, plan);
    }
    put_order(document, plan);
    if (!pack->page->blind) {
        put_pairs(document, plan->scene);
    }
    say_power(document, pack->page);
    sl_document_heading(document, _("Before anybody opens a packet"));
}

/* ---- shopping list ------------------------------------------------------------------------- */

static void put_mix(sl_document *document, const sl_plan *plan, int mix)
{
    const sl_weighing needs = sl_plan_needs(plan, mix);
    if (needs.total_g > 0.0) {
        const int decimals = sl_scale_decimals(&plan->request);
        sl_document_cell(document, "%s", sl_mix_title(&plan->scene->mixes[mix]));
        sl_put_grams(document, needs.powder_g, decimals);
        sl_put_grams(document, needs.developer_g, decimals);
        sl_put_grams(document, needs.water_g, decimals);
        sl_document_cell(document, "%s", "");
    }
}

void sl_sheet_shopping(sl_document *document, const sl_pack *pack)
{
    static const sl_text_column columns[] = {{N_("For the mix"), 6.5, 0},
                                             {N_("Powder, g"), 1.8, SL_RIGHT},
                                             {N_("Developer or second part, g"), 2.4, SL_RIGHT},
                                             {N_("Water, g"), 1.6, SL_RIGHT},
                                             {N_("Have it"), 1.4, 0}};
    const sl_plan *const plan = pack->page->plan;
    char hair[24], scale[24];
    int bowls = 0;
    for (int i = 0; i < plan->n_swatches; i++) {
        bowls += plan->swatches[i].contact_s >= 0 ? 1 : 0;
    }
    sl_short_number(plan->scene->hair_g, 2, hair, sizeof hair);
    sl_short_number(plan->request.scale_g, 3, scale, sizeof scale);
    sl_document_table(document, _("In all, in grams"), 5, columns, 24.0);
    for (int m = 0; m < plan->scene->n_mixes; m++) {
        put_mix(document, plan, m);
    }
    sl_document_say(document, _("%.0f %% more than the swatches need is counted in."),
                    100.0 * plan->request.waste);
    sl_document_heading(document, _("Hair and tools"));
    sl_document_tick(document, _("Swatches of one hair lot, %s g each, all dyed in one session: %d"), hair,
                     plan->n_swatches);
    sl_document_tick(document, _("Gloves, fresh for each person and round, pairs: %d"),
                     plan->request.people * plan->request.blocks);
    sl_document_tick(document,
                     _("Goggles that close at the sides, and aprons that keep wet off, for each person: %d"),
                     plan->request.people);
    sl_document_tick(document, _("Small bowls of plastic, glass or china: %d"), bowls);
    sl_document_tick(document, _("Brushes or plastic spatulas: %d"), bowls);
    sl_document_tick(document, _("A scale that reads in steps of %s g"), scale);
    sl_document_tick(document, "%s", _("A clock that shows seconds, in sight of everybody"));
    sl_document_tick(document, "%s",
                     _("White cotton to wipe with, a white or grey card to look on, one lamp"));
    sl_document_tick(document, "%s",
                     _("Plastic film, the same for all, to cover the swatches; no foil, no metal"));
    sl_document_tick(document, "%s",
                     _("Shampoo, towels, clips without metal, tape, a marker that water does not take off"));
    sl_document_tick(document, "%s", _("The maker's hazard sheet of each product, printed"));
    sl_document_tick(document, "%s", _("Running water for eyes and skin within a few steps"));
    sl_document_tick(document, "%s",
                     _("Air: windows that open or extraction where powder is opened, put on and rinsed"));
    sl_document_heading(document, _("About powder"));
}

void sl_sheet_dye_day(sl_document *document, const sl_pack *pack)
{
    sl_plan_say_dyeing(document, pack->page->plan);
}

/* ---- rota ---------------------------------------------------------------------------------- */

static void put_task(sl_document *document, const sl_pack *pack, const sl_task *task)
{
    const sl_plan *const plan = pack->page->plan;
    const sl_planned_swatch *const swatch = &plan->swatches[task->swatch];
    char start[32], about[256];
    sl_day_time(task->start_s, start, sizeof start);
    sl_document_cell(document, "%s", start);
    sl_document_cell(document, "%d", swatch->block + 1);
    sl_document_cell(document, "%s", swatch->code);
    if (task->rung >= 0) {
        char piece[24];
        sl_minute_words(SL_MINUTE_PLANNED, piece, sizeof piece, "%d", plan->request.rung_min[task->rung]);
        sl_document_cell(document, _("%s: the piece for %s min"), _(sl_task_word(task->kind)), piece);
    } else {
        sl_document_cell(document, "%s", _(sl_task_word(task->kind)));
    }
    if (!pack->page->blind) {
        sl_task_about(plan, task, about, sizeof about);
        sl_document_cell(document, "%s", about);
    }
    sl_document_cell(document, "%s", "");
}

static void put_person(sl_document *document, const sl_pack *pack, int person)
{
    static const sl_text_column open[] = {{N_("Clock, h:min:s"), 2.2, 0}, {N_("Repeat"), 1.2, 0},
                                          {N_("Swatch"), 1.3, 0},         {N_("What to do"), 2.6, 0},
                                          {N_("Strip"), 4.0, 0},          {N_("Done at"), 1.6, 0}};
    static const sl_text_column blind[] = {{N_("Clock, h:min:s"), 2.2, 0},
                                           {N_("Repeat"), 1.2, 0},
                                           {N_("Swatch"), 1.3, 0},
                                           {N_("What to do"), 4.0, 0},
                                           {N_("Done at"), 2.0, 0}};
    const sl_plan *const plan = pack->page->plan;
    char caption[64], hands[SL_CODE];
    snprintf(caption, sizeof caption, _("Person %s"), sl_plan_hands(&plan->request, person, hands));
    sl_document_table(document, caption, pack->page->blind ? 5 : 6, pack->page->blind ? blind : open, 19.0);
    for (int i = 0; i < plan->n_tasks; i++) {
        if (plan->tasks[i].person == person) {
            put_task(document, pack, &plan->tasks[i]);
        }
    }
}

void sl_sheet_rota(sl_document *document, const sl_pack *pack)
{
    const sl_plan *const plan = pack->page->plan;
    sl_document_say(
        document, "%s",
        _("Start the clock once, for everybody. Each swatch is taken off in the order in which it "
          "was put on. Write down when you really did it: a late swatch is no mistake, an unnoted "
          "one is."));
    say_shortened(document, pack);
    for (int person = 0; person < plan->request.people; person++) {
        if (person > 0) {
            sl_document_break(document);
        }
        put_person(document, pack, person);
    }
    for (int i = 0; i < plan->n_swatches; i++) {
        if (plan->swatches[i].contact_s < 0) {
            sl_document_item(document, _("%s is left alone: hang it beside the others."),
                             plan->swatches[i].code);
        }
    }
}
