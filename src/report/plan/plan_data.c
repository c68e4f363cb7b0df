/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan for programs: CSV (RFC 4180, one row a task) and JSON, and the key to its codes.
 */
#include <math.h>

#include "document/say.h"
#include "report/plan/plan.h"

static const char *arm_name(const sl_plan_page *page, int swatch)
{
    return page->blind ? "" : page->plan->scene->arms[page->plan->swatches[swatch].arm].name;
}

/* What is weighed for a task; NULL: nothing, or who judges must not know. */
static const sl_bowl *bowl_of(const sl_plan_page *page, const sl_task *task)
{
    return task->kind == SL_TASK_MIX && !page->blind ? sl_plan_bowl(page->plan, task) : NULL;
}

#define WEIGHED(SAY)                                                                                         \
    SAY(let, const sl_bowl *const bowl = bowl_of(page, task))                                                \
    SAY(number, "powder_g", bowl ? bowl->shown.powder_g : (double)NAN)                                       \
    SAY(number, "developer_g", bowl ? bowl->shown.developer_g : (double)NAN)                                 \
    SAY(number, "water_g", bowl ? bowl->shown.water_g : (double)NAN)

/* ---- CSV: a line for each task, and the key to the codes ------------------------------------------------
 */

#define TASK_LINE(SAY)                                                                                       \
    SAY(end, table->place == page->plan->n_tasks)                                                            \
    SAY(let, const sl_task *const task = &page->plan->tasks[table->place])                                   \
    SAY(let, const sl_planned_swatch *const swatch = &page->plan->swatches[task->swatch])                    \
    SAY(number, "block", swatch->block + 1)                                                                  \
    SAY(number, "start_s", task->start_s)                                                                    \
    SAY(number, "length_s", task->length_s)                                                                  \
    SAY(number, "person", task->person + 1)                                                                  \
    SAY(text, "task", sl_task_word(task->kind))                                                              \
    SAY(text, "code", swatch->code)                                                                          \
    SAY(text, "arm", arm_name(page, task->swatch))                                                           \
    SAY(number, "application", task->step + 1)                                                               \
    SAY(planned, "rinsed_at_min", task->rung >= 0 ? page->plan->request.rung_min[task->rung] : (double)NAN)  \
    WEIGHED(SAY)                                                                                             \
    SAY(text, "who", page->plan->request.who[task->person])
SL_TABLE(task_lines, TASK_LINE, sl_plan_page, page);

#define CODE(SAY)                                                                                            \
    SAY(end, table->place == plan->n_swatches)                                                               \
    SAY(let, const sl_planned_swatch *const swatch = &plan->swatches[table->place])                          \
    SAY(text, "code", swatch->code)                                                                          \
    SAY(text, "arm", plan->scene->arms[swatch->arm].name)                                                    \
    SAY(number, "block", swatch->block + 1)                                                                  \
    SAY(number, "place", swatch->place + 1)
SL_TABLE(codes, CODE, sl_plan, plan);

const sl_export sl_plan_key_export = {"plan-key", 1, NULL, &codes};

/* ---- JSON -----------------------------------------------------------------------------------------------
 */

#define SWATCH(SAY)                                                                                          \
    SAY(let, const sl_planned_swatch *const swatch = &page->plan->swatches[table->place])                    \
    SAY(let, const bool timed = swatch->contact_s >= 0)                                                      \
    SAY(text, "code", swatch->code)                                                                          \
    SAY(text, "arm", page->blind ? NULL : arm_name(page, (int)table->place))                                 \
    SAY(number, "block", swatch->block + 1)                                                                  \
    SAY(number, "place", swatch->place + 1)                                                                  \
    SAY(when, timed, number, "person", swatch->person + 1)                                                   \
    SAY(number, "contact_s", sl_if_known(timed, swatch->contact_s))                                          \
    SAY(number, "water_s", sl_if_known(timed, swatch->water_s))                                              \
    SAY(yes, "cut_short_by_label", swatch->cut_short)
SL_FLAT_TABLE(swatches, SWATCH, sl_plan_page, page);

#define TASK(SAY)                                                                                            \
    SAY(let, const sl_task *const task = &page->plan->tasks[table->place])                                   \
    SAY(text, "task", sl_task_word(task->kind))                                                              \
    SAY(text, "code", page->plan->swatches[task->swatch].code)                                               \
    SAY(number, "person", task->person + 1)                                                                  \
    SAY(number, "start_s", task->start_s)                                                                    \
    SAY(number, "length_s", task->length_s)                                                                  \
    WEIGHED(SAY)                                                                                             \
    SAY(text, "who", page->plan->request.who[task->person])
SL_FLAT_TABLE(tasks, TASK, sl_plan_page, page);

#define BOWL(SAY)                                                                                            \
    SAY(let, const sl_bowl *const bowl = &plan->bowls[table->place])                                         \
    SAY(text, "arm", plan->scene->arms[bowl->arm].name)                                                      \
    SAY(text, "mix", plan->scene->mixes[bowl->mix].name)                                                     \
    SAY(number, "powder_g", bowl->shown.powder_g)                                                            \
    SAY(number, "developer_g", bowl->shown.developer_g)                                                      \
    SAY(number, "water_g", bowl->shown.water_g)                                                              \
    SAY(number, "liquid_pct", bowl->shown.liquid_pct)                                                        \
    SAY(number, "paste_pct", bowl->shown.on_hair_pct)                                                        \
    SAY(number, "scale_error", bowl->scale_error)                                                            \
    SAY(yes, "label_allows", plan->scene->mixes[bowl->mix].label_allows)
SL_FLAT_TABLE(bowls, BOWL, sl_plan, plan);

#define MISTAKE(SAY)                                                                                         \
    SAY(let, const sl_plan_error *const worst = table->which ? &page->one_bowl : &page->together)            \
    SAY(text, "arm", page->plan->scene->arms[worst->arm].name)                                               \
    SAY(text, "zone", page->plan->scene->zones[worst->zone].name)                                            \
    SAY(planned, "gap_min", worst->gap_min)                                                                  \
    SAY(number, "colour_left_fair", worst->fair)                                                             \
    SAY(number, "colour_left_unfair", worst->unfair)
SL_FLAT_TABLE(mistake, MISTAKE, sl_plan_page, page);

#define OFFER(SAY)                                                                                           \
    SAY(skip, page->fit.offer[table->place].n < 0)                                                           \
    SAY(text, "change", offer_words[table->place])                                                           \
    SAY(number, "to", page->fit.offer[table->place].n)                                                       \
    SAY(number, "takes_s", page->fit.offer[table->place].takes_s)
static const char *const offer_words[SL_FIT_OFFERS] = {"repeats", "people", "looks", "strips"};
SL_TABLE(offers, OFFER, sl_plan_page, page);

#define PLAN(SAY)                                                                                            \
    SAY(let, const sl_plan *const plan = page->plan)                                                         \
    SAY(text, "scene", plan->scene->name)                                                                    \
    SAY(text, "title", sl_wording_in(&plan->scene->title, SL_ENGLISH))                                       \
    SAY(number, "seed", (double)plan->request.seed)                                                          \
    SAY(number, "blocks", plan->request.blocks)                                                              \
    SAY(number, "people", plan->request.people)                                                              \
    SAY(number, "end_s", plan->end_s)                                                                        \
    SAY(let, const bool ends = page->fit.class_s > 0)                                                        \
    SAY(when, ends, number, "class_s", page->fit.class_s)                                                    \
    SAY(when, ends, yes, "fits", page->fit.fits)                                                             \
    SAY(when, ends, rows, "would_fit", offers, page, 0, SL_FIT_OFFERS)                                       \
    SAY(number, "hair_g", plan->hair_g)                                                                      \
    SAY(rows, "swatches", swatches, page, 0, plan->n_swatches)                                               \
    SAY(rows, "tasks", tasks, page, 0, plan->n_tasks)
#define OPEN(SAY)                                                                                            \
    SAY(rows, "bowls_for_one_swatch", bowls, plan, 0, plan->n_bowls)                                         \
    SAY(record, "rinsed_together", mistake, page->together.known ? page : NULL, 0)                           \
    SAY(record, "one_bowl_for_all", mistake, page->one_bowl.known ? page : NULL, 1)                          \
    SAY(let, const sl_promise *const promise = &page->promise)                                               \
    SAY(number, "spread_of_swatches", promise->spread)                                                       \
    SAY(number, "graded_told_in_8_of_10", sl_if_known(promise->graded >= 0.0, promise->graded))              \
    SAY(number, "read_told_in_8_of_10", sl_if_known(promise->read >= 0.0, promise->read))                    \
    SAY(let, const sl_plan_proposal *const proposal = page->proposal)                                        \
    SAY(let, const bool wanted = page->tell > 0.0)                                                           \
    SAY(when, wanted, number, "wanted", page->tell)                                                          \
    SAY(when, wanted, number, "graded_repeats",                                                              \
        sl_if_known(proposal[0].repeats > 0, proposal[0].repeats))                                           \
    SAY(when, wanted, yes, "graded_repeats_fit", proposal[0].fit.fits)                                       \
    SAY(when, wanted, number, "read_repeats", sl_if_known(proposal[1].repeats > 0, proposal[1].repeats))     \
    SAY(when, wanted, yes, "read_repeats_fit", proposal[1].fit.fits)
#define CAUTIONS(SAY) SAY(cautions, sl_plan_occasions(page))

static sl_told tell_plan(sl_row *row, const sl_table *table)
{
    const sl_plan_page *const page = table->of;
    PLAN(SL_SAY)
    CAUTIONS(SL_SAY)
    if (!page->blind) {
        OPEN(SL_SAY)
    }
    return SL_TOLD;
}

static const sl_columns plan_record =
    SL_COLUMNS(PLAN(SL_COLUMN) OPEN(SL_COLUMN) CAUTIONS(SL_COLUMN), .tell = tell_plan);

const sl_export sl_plan_export = {"plan", 2, &plan_record, &task_lines};
