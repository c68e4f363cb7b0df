/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The school's sheet of a test. Nothing on it is judged here: whoever signs does that.
 */
#include <string.h>

#include "base/language.h"
#include "document/text.h"
#include "log/papers/papers.h"
#include "report/told.h"

enum { MOST_CODES = 40, CHEMISTRY = 200 };

/* ---- substances -------------------------------------------------------------------------------- */

typedef struct sl_mix_used {
    double powder_g, developer_g, water_g, planned_g, weighed_g;
    int bowls, weighed;
} sl_mix_used;

/* Adds what the plan gives one bowl. */
static void add_planned(sl_mix_used *used, const sl_scene *scene, const sl_step *step)
{
    const sl_weighing bowl = sl_weigh(&scene->mixes[step->mix], &scene->chemistry, scene->hair_g,
                                      step->mix_g_per_g, sl_plan_request_default().waste);
    used->powder_g += bowl.powder_g;
    used->developer_g += bowl.developer_g;
    used->water_g += bowl.water_g;
    used->planned_g += bowl.total_g;
    used->bowls++;
}

typedef struct sl_adding {
    const sl_kept_test *kept;
    sl_mix_used *used; /* by mix */
} sl_adding;

static void add_weighed(void *self, int swatch, int round, double grams)
{
    const sl_adding *const adding = self;
    const sl_step *const step = sl_day_application(adding->kept->scene, adding->kept->arm[swatch], round);
    if (step) {
        adding->used[step->mix].weighed_g += grams;
        adding->used[step->mix].weighed++;
    }
}

static void add_all(const sl_kept_test *kept, sl_mix_used *used)
{
    sl_adding adding = {kept, used};
    for (int i = 0; i < kept->n; i++) {
        for (int round = 0; round <= kept->bench[i].n_more; round++) {
            const sl_step *const step = sl_day_application(kept->scene, kept->arm[i], round);
            if (step) {
                add_planned(&used[step->mix], kept->scene, step);
            }
        }
    }
    for (int i = 0; i < kept->n; i++) {
        sl_day_each_weighed(&kept->went.record, i, add_weighed, &adding);
    }
}

static void say_grams(sl_document *document, double grams)
{
    sl_document_entry(document, (sl_entry){.kind = SL_ENTRY_FIXED, .value = grams, .decimals = 1});
}

static void say_amounts(sl_document *document, const sl_scene *scene, const sl_mix_used *used)
{
    static const sl_text_column columns[] = {{N_("mix"), 4.0, SL_NAME},
                                             {N_("bowls"), 1.0, SL_RIGHT},
                                             {N_("powder"), 1.2, SL_RIGHT},
                                             {N_("developer"), 1.4, SL_RIGHT},
                                             {N_("water"), 1.2, SL_RIGHT},
                                             {N_("planned in all"), 1.6, SL_RIGHT},
                                             {N_("weighed in all"), 1.6, SL_RIGHT}};
    sl_document_table(document, _("Amounts, in grams"), 7, columns, 0.0);
    for (int m = 0; m < scene->n_mixes; m++) {
        if (used[m].bowls == 0) {
            continue;
        }
        sl_document_cell(document, "%s", sl_mix_title(&scene->mixes[m]));
        sl_document_cell(document, "%d", used[m].bowls);
        say_grams(document, used[m].powder_g);
        say_grams(document, used[m].developer_g);
        say_grams(document, used[m].water_g);
        say_grams(document, used[m].planned_g);
        if (used[m].weighed == used[m].bowls) {
            say_grams(document, used[m].weighed_g);
        } else if (used[m].weighed > 0) {
            char grams[24];
            sl_short_number(used[m].weighed_g, 1, grams, sizeof grams);
            sl_document_cell(document, sl_plural("%s in %d bowl", "%s in %d bowls", used[m].weighed), grams,
                             used[m].weighed);
        } else {
            sl_document_cell(document, "%s", "");
        }
    }
}

static void say_substances(sl_document *document, const sl_kept_test *kept)
{
    const sl_scene *const scene = kept->scene;
    sl_mix_used *const used = document->failed ? NULL
                                               : sl_arena_new(&document->arena, (size_t)scene->n_mixes,
                                                              sizeof *used, "adding up", document->error);
    document->failed = used == NULL;
    if (!used) {
        return;
    }
    add_all(kept, used);
    sl_document_heading(document, _("Substances"));
    say_amounts(document, scene, used);
    sl_document_say(document, "%s",
                    _("Planned: with the share that stays in bowls. Weighed: what somebody wrote down that "
                      "day; empty: nobody did."));
    sl_day_each_tub(&kept->went.record, NULL, sl_document_take_sentence, document);
    for (int m = 0; m < scene->n_mixes; m++) {
        if (used[m].bowls > 0 && scene->mixes[m].class_ != SL_MIX_WATER) {
            char inside[CHEMISTRY];
            sl_day_mix_words(&scene->mixes[m], inside, sizeof inside);
            sl_document_lines(document, 2, _("%s. Fresh: %s. Kept where and how; date of its hazard sheet:"),
                              sl_mix_title(&scene->mixes[m]), inside);
        }
    }
}

/* ---- waste --------------------------------------------------------------------------------------- */

static void say_waste(sl_document *document, const sl_kept_test *kept)
{
    int leaves = 0, open = 0, emptied = 0;
    for (int i = 0; i < kept->n; i++) {
        const sl_bench_state *const state = &kept->folded->state[i];
        leaves += kept->bench[i].leaves_mix ? 1 : 0;
        emptied += state->emptied ? 1 : 0;
        open += state->left_open && !state->emptied ? 1 : 0;
    }
    sl_document_heading(document, _("Waste"));
    sl_document_say(
        document,
        _("%d bowls had something left that goes on working; written down as emptied: %d, as left "
          "open and not yet emptied: %d."),
        leaves, emptied, open);
    sl_day_say_ticks(document, kept->folded);
    sl_document_lines(document, 2, "%s", _("Where leftovers and packets went, and by which rule:"));
}

/* ---- people -------------------------------------------------------------------------------------- */

static int codes_of(const sl_kept_test *kept, const char *code[MOST_CODES], int looks[MOST_CODES])
{
    int n = 0;
    for (int i = 0; i < kept->n_readings; i++) {
        int at = 0;
        while (at < n && strcmp(code[at], kept->readings[i].judge) != 0) {
            at++;
        }
        if (at == n && n < MOST_CODES) {
            looks[n] = 0;
            code[n++] = kept->readings[i].judge;
        }
        looks[at] += at < n ? 1 : 0;
    }
    return n;
}

static void say_person(sl_document *document, const char *code, const char *did)
{
    sl_document_cell(document, "%s", code);
    sl_document_cell(document, "%s", did);
    sl_document_cell(document, "%s", "");
    sl_document_cell(document, "%s", "");
}

static void say_people(sl_document *document, const sl_kept_test *kept)
{
    static const sl_text_column columns[] = {{N_("code"), 1.4, SL_NAME},
                                             {N_("did"), 3.0, 0},
                                             {N_("trained in this: what, when, by whom"), 4.0, 0},
                                             {N_("name, in the school's own list"), 3.0, 0}};
    const char *code[MOST_CODES];
    int looks[MOST_CODES] = {0};
    char did[64];
    const int n = codes_of(kept, code, looks);
    sl_document_heading(document, _("People and training"));
    sl_document_table(document, "", 4, columns, 24.0);
    say_person(document, kept->test.operator_code, _("planned and kept the log"));
    for (int i = 0; i < n; i++) {
        snprintf(did, sizeof did, sl_plural("judged, %d look", "judged, %d looks", looks[i]), looks[i]);
        say_person(document, code[i], did);
    }
    sl_document_lines(document, 2, "%s",
                      _("Who else was in the room, and who stayed out because of an earlier reaction:"));
}

/* ---- the sheet ----------------------------------------------------------------------------------- */

static int stops_of(const sl_kept_test *kept)
{
    int n = 0;
    for (int i = 0; i < kept->n_events; i++) {
        n += kept->event[i].kind == SL_EVENT_STOPPED && kept->event[i].about[0] == '\0' ? 1 : 0;
    }
    return n;
}

static void say_test(sl_document *document, const sl_kept_test *kept)
{
    char room[24];
    sl_short_number(kept->scene->room_c, 1, room, sizeof room);
    sl_document_row(document, _("Test"), "%.8s, %.10s", kept->test.id, kept->test.made);
    sl_document_row(document, _("Scene"), "%s", sl_scene_title(kept->scene));
    sl_document_row(document, _("Room"), _("%s °C as planned"), room);
    sl_document_lines(document, 1, "%s", _("Room, its air and its basin:"));
}

static void say_gear(sl_document *document)
{
    sl_document_heading(document, _("Protection"));
    sl_document_tick(document, "%s", _("Read the label and the hazard sheet; everybody has seen them"));
    sl_document_tick(document, "%s", _("Air on, goggles, apron and gloves on, then the packet is opened"));
    sl_document_tick(document, "%s", _("Running water for eyes within reach, and its way kept clear"));
    sl_document_lines(document, 1, "%s", _("Gloves and masks, of which kind:"));
}

static void say_outcomes(sl_document *document, const sl_school_paper *paper)
{
    sl_document_heading(document, _("Outcomes of the course that were met"));
    for (int i = 0; i < paper->n_outcomes; i++) {
        sl_document_tick(document, "%s", paper->outcome[i]);
    }
    if (paper->n_outcomes == 0) {
        sl_document_lines(document, 3, "%s", _("In the words of the course:"));
    }
}

void sl_paper_school(sl_document *document, const void *of, sl_error *error)
{
    const sl_school_paper *const paper = of;
    const sl_kept_test *const kept = paper->kept;
    const int stops = stops_of(kept);
    char title[SL_DAY_WORDS];
    snprintf(title, sizeof title, _("Risk assessment of a test: \"%s\""), kept->test.title);
    sl_document_begin(document, "school", title, error);
    if (kept->went.rehearsed) {
        sl_document_lies(document, _("*** A REHEARSAL: ITS CLOCK RAN FAST. NO HAIR LAY SO LONG. ***"));
    }
    sl_document_say(document, "%s",
                    _("Filled in as far as the files know; what they do not know is left blank. It holds no "
                      "decision: whoever signs makes it."));
    say_test(document, kept);
    say_substances(document, kept);
    say_gear(document);
    sl_document_heading(document, _("What happened"));
    sl_document_say(document,
                    sl_plural("STOP AND RINSE was called %d time that day.",
                              "STOP AND RINSE was called %d times that day.", stops),
                    stops);
    sl_document_lines(document, 2, "%s", _("Other accidents and near ones:"));
    say_waste(document, kept);
    say_people(document, kept);
    say_outcomes(document, paper);
    sl_document_heading(document, _("Names to sign for it"));
    sl_document_lines(document, 1, "%s", _("Who did the test; name and day:"));
    sl_document_lines(document, 1, "%s", _("Who is in charge; name and day:"));
    sl_document_heading(document, _("Cautions"));
    sl_document_end(document, sl_with_reducing(kept->scene, SL_ON_MIXING | SL_ON_UNLABELLED | SL_ON_KEEPING |
                                                                SL_ON_LEFTOVERS | SL_ON_CLASS));
}
