/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheets for those who take part: student (blank), educator (filled), client (practice only), and
 * the key to the codes. Invariant: the client sheet holds no minute.
 */
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "document/text.h"
#include "paper/pack/pack.h"
#include "report/reading.h"
#include "slowlift/estimate.h"
#include "slowlift/what_if.h"

enum { CODES_ABREAST = 6 };

/* ---- student -------------------------------------------------------------------------------- */

void sl_sheet_student(sl_document *document, const sl_pack *pack)
{
    static const sl_text_column columns[] = {{N_("Colour"), 2.0, 0},
                                             {N_("I think the least is left with"), 3.2, 0},
                                             {N_("because"), 3.4, 0},
                                             {N_("I saw the least with"), 3.0, 0}};
    const sl_scene *const scene = pack->page->plan->scene;
    document->large = true;
    sl_document_lines(document, 0, "%s",
                      _("Group: ______________________      Date: ______________________"));
    if (sl_scene_question(scene)) {
        sl_document_heading(document, sl_scene_question(scene));
    }
    sl_document_say(document, "%s", _("Before: fill in the first three columns. After: the last one."));
    sl_document_table(document, _("My prediction and what I saw"), 4, columns, 31.0);
    for (int z = 0; z < scene->n_zones; z++) {
        if (sl_zone_direct(scene, z)) {
            sl_document_cell(document, "%s", sl_zone_title(&scene->zones[z]));
            for (int c = 1; c < 4; c++) {
                sl_document_cell(document, "%s", "");
            }
        }
    }
    sl_document_heading(document, _("The strips"));
    for (int a = 0; a < scene->n_arms; a++) {
        sl_document_item(document, "%s", sl_arm_title(&scene->arms[a]));
    }
    sl_document_lines(document, 3, "%s", _("Which strip will move the base most, and why?"));
    sl_document_lines(document, 5, "%s", _("What surprised me:"));
    sl_document_lines(document, 5, "%s", _("My explanation:"));
    sl_document_lines(document, 3, "%s", _("One thing that I would change next time, and only one:"));
}

/* ---- educator ------------------------------------------------------------------------------- */

static bool counts(const sl_pack *pack, int arm)
{
    const sl_arm *const of = &pack->page->plan->scene->arms[arm];
    return !of->undyed && sl_timeline_predicted(pack->page->timeline, arm);
}

static sl_cell at_end(const sl_pack *pack, int arm, int zone)
{
    const sl_scene *const scene = pack->page->plan->scene;
    sl_cell cell;
    sl_timeline_at(pack->page->timeline, arm, zone, sl_arm_end_min(scene, arm), NULL, &cell);
    return cell;
}

static void put_base(sl_document *document, const sl_pack *pack)
{
    static const sl_text_column columns[] = {{N_("Strip"), 5.0, 0},
                                             {N_("Base moved, %"), 2.0, SL_RIGHT},
                                             {N_("Levels lifted"), 2.0, SL_RIGHT},
                                             {N_("Hair stress, %"), 2.6, SL_RIGHT}};
    const sl_scene *const scene = pack->page->plan->scene;
    const int zone = sl_reference_zone(scene, 0);
    sl_document_table(document, _("What it does to the hair below"), 4, columns, 0.0);
    for (int a = 0; a < scene->n_arms; a++) {
        if (!sl_timeline_predicted(pack->page->timeline, a)) {
            continue;
        }
        const sl_cell cell = at_end(pack, a, zone);
        char base[16], stress[16], levels[16];
        sl_percent(cell.base_moved, base, sizeof base);
        sl_percent(cell.cystine_lost, stress, sizeof stress);
        sl_short_number(cell.levels_lifted, 1, levels, sizeof levels);
        sl_document_cell(document, "%s", sl_arm_title(&scene->arms[a]));
        sl_document_cell(document, "%s", base);
        sl_document_cell(document, "%s", levels);
        sl_document_cell(document, "%s", stress);
    }
}

/* Which arm leaves least in a zone, and which most of those with a mix. */
static void put_extremes(sl_document *document, const sl_pack *pack, int zone)
{
    const sl_scene *const scene = pack->page->plan->scene;
    int least = -1, most = -1;
    double low = 2.0, high = -1.0;
    for (int a = 0; a < scene->n_arms; a++) {
        if (!counts(pack, a) || scene->arms[a].n_steps == 0) {
            continue;
        }
        const double left = at_end(pack, a, zone).colour_left;
        if (left < low) {
            low = left;
            least = a;
        }
        if (left > high) {
            high = left;
            most = a;
        }
    }
    if (least >= 0 && most != least) {
        char least_left[16], most_left[16];
        sl_percent(low, least_left, sizeof least_left);
        sl_percent(high, most_left, sizeof most_left);
        sl_document_item(
            document, _("\"%s\": the model leaves least with \"%s\" (%s %%) and most with \"%s\" (%s %%)."),
            sl_zone_title(&scene->zones[zone]), sl_arm_title(&scene->arms[least]), least_left,
            sl_arm_title(&scene->arms[most]), most_left);
    }
}

static void put_mistakes(sl_document *document, const sl_plan_page *page)
{
    const sl_scene *const scene = page->plan->scene;
    char gap[24], fair[16], unfair[16];
    sl_document_heading(document, _("What two mistakes would cost, by the model"));
    if (page->together.known && page->together.gap_min > 0.0) {
        const sl_plan_error *const worst = &page->together;
        sl_clock_time(SL_MINUTE_PLANNED, worst->gap_min, gap, sizeof gap);
        sl_percent(worst->fair, fair, sizeof fair);
        sl_percent(worst->unfair, unfair, sizeof unfair);
        sl_document_item(
            document,
            _("All rinsed together, the first %s min longer than the last: \"%s\" would keep %s %% "
              "of \"%s\" instead of %s %%."),
            gap, sl_arm_title(&scene->arms[worst->arm]), unfair, sl_zone_title(&scene->zones[worst->zone]),
            fair);
    }
    if (page->one_bowl.known && page->one_bowl.gap_min > 0.0) {
        const sl_plan_error *const worst = &page->one_bowl;
        sl_clock_time(SL_MINUTE_PLANNED, worst->gap_min, gap, sizeof gap);
        sl_percent(worst->fair, fair, sizeof fair);
        sl_percent(worst->unfair, unfair, sizeof unfair);
        sl_document_item(document,
                         _("One bowl for all repeats, %s min older at the last: \"%s\" would keep %s %% of "
                           "\"%s\" instead of %s %%."),
                         gap, sl_arm_title(&scene->arms[worst->arm]), unfair,
                         sl_zone_title(&scene->zones[worst->zone]), fair);
    }
}

void sl_sheet_educator(sl_document *document, const sl_pack *pack)
{
    const sl_scene *const scene = pack->page->plan->scene;
    sl_document_say(document, "%s",
                    _("For the educator: what the model expects at the end of each strip's last step. Keep "
                      "it back until everybody has written a prediction and a reason."));
    sl_put_left_numbers(document, pack);
    put_base(document, pack);
    sl_document_heading(document, _("To talk about"));
    for (int z = 0; z < scene->n_zones; z++) {
        if (sl_zone_direct(scene, z)) {
            put_extremes(document, pack, z);
        }
    }
    sl_document_item(
        document, "%s",
        _("Ask for what was seen before you ask for the reason; then compare with the prediction."));
    sl_document_item(
        document, "%s",
        _("Compare mixes at the same colour left too: at the same time, the faster one has simply "
          "gone further."));
    sl_document_item(document, "%s",
                     _("Where the real swatches disagree with the model, the swatches are right."));
    put_mistakes(document, pack->page);
    sl_document_heading(document, _("What cannot be concluded"));
    sl_document_item(document, "%s", _("Nothing about other products, other hair or a person's head."));
    sl_document_item(document, "%s",
                     _("Nothing from differences smaller than the plan can tell (plan sheet)."));
}

/* ---- client --------------------------------------------------------------------------------- */

void sl_sheet_client(sl_document *document, const sl_pack *pack)
{
    static const sl_text_column columns[] = {
        {N_("Asked"), 5.6, 0}, {N_("Answer"), 3.8, 0}, {N_("Unclear: stop"), 1.9, 0}};
    static const char *const asked[] = {N_("Label: longest time, liquids, skin contact"),
                                        N_("Reaction to powder or colour; asthma"),
                                        N_("Metal salts, henna, home colour, past unknown"),
                                        N_("Skin cut, sore or scratched; last wash"),
                                        N_("Pregnancy, medicines, illness; age"),
                                        N_("Allergy alert test: date and result"),
                                        N_("Strand of this person's own hair: result")};
    (void)pack;
    sl_document_say(
        document, "%s",
        _("PRACTICE ONLY. For training on paper. Read the label first; it goes before everything here. "
          "Class swatches give no time for a person's hair, so none is printed."));
    sl_document_table(document, _("Before anything is mixed"), 3, columns, 19.0);
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        sl_document_cell(document, "%s", _(asked[i]));
        sl_document_cell(document, "%s", "");
        sl_document_cell(document, "%s", "");
    }
    sl_document_lines(
        document, 0, "%s",
        _("Mix to try on the strand: ______________________   We stop when: ______________________"));
    sl_document_lines(document, 0, "%s",
                      _("What we will not do: _______________________________________________________"));
}

/* ---- key ------------------------------------------------------------------------------------ */

/* The code of an arm in a repeat. */
static const char *code_of(const sl_plan *plan, int arm, int block)
{
    for (int i = 0; i < plan->n_swatches; i++) {
        if (plan->swatches[i].arm == arm && plan->swatches[i].block == block) {
            return plan->swatches[i].code;
        }
    }
    return "-";
}

static void put_codes(sl_document *document, const sl_plan *plan, int from, int to)
{
    sl_text_column columns[CODES_ABREAST + 1] = {{N_("Strip"), 4.0, 0}};
    for (int b = from; b < to; b++) {
        char head[32];
        snprintf(head, sizeof head, _("Repeat %d"), b + 1);
        columns[b - from + 1] = (sl_text_column){sl_document_keep(document, head), 1.2, SL_OWN};
    }
    sl_document_table(document, _("What the codes mean"), to - from + 1, columns, 0.0);
    for (int a = 0; a < plan->scene->n_arms; a++) {
        sl_document_cell(document, "%s", sl_arm_title(&plan->scene->arms[a]));
        for (int b = from; b < to; b++) {
            sl_document_cell(document, "%s", code_of(plan, a, b));
        }
    }
}

void sl_sheet_key(sl_document *document, const sl_pack *pack)
{
    const sl_plan *const plan = pack->page->plan;
    sl_document_say(
        document, "%s",
        _("Print this sheet on one side only. Fold it so that the table is inside, close it with tape, "
          "and write on it who may open it. It is opened when every swatch has been judged."));
    for (int from = 0; from < plan->request.blocks; from += CODES_ABREAST) {
        put_codes(document, plan, from,
                  from + CODES_ABREAST < plan->request.blocks ? from + CODES_ABREAST : plan->request.blocks);
    }
}
