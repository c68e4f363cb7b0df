/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan for programs: CSV (RFC 4180, one row a task) and JSON, and the key to its codes.
 */
#include "base/minute.h"
#include "document/json_text.h"
#include "document/text.h"
#include "report/plan/plan.h"
#include "report/run/csv_name.h"

static const char *arm_name(const sl_plan_page *page, int swatch)
{
    return page->blind ? "" : page->plan->scene->arms[page->plan->swatches[swatch].arm].name;
}

bool sl_plan_csv(FILE *out, const sl_plan_page *page)
{
    const sl_plan *const plan = page->plan;
    char key[SL_MINUTE_KEY];
    fprintf(out, "block,start_s,length_s,person,task,code,arm,application,%s\n",
            sl_minute_key(SL_MINUTE_PLANNED, "rinsed_at_min", key));
    for (int i = 0; i < plan->n_tasks; i++) {
        const sl_task *const task = &plan->tasks[i];
        const sl_planned_swatch *const swatch = &plan->swatches[task->swatch];
        fprintf(out, "%d,%d,%d,%d,%s,%s,", swatch->block + 1, task->start_s, task->length_s, task->person + 1,
                sl_task_word(task->kind), swatch->code);
        sl_csv_name(out, arm_name(page, task->swatch));
        fprintf(out, ",%d,", task->step + 1);
        if (task->rung >= 0) {
            fprintf(out, "%d", plan->request.rung_min[task->rung]);
        }
        fputc('\n', out);
    }
    return !ferror(out);
}

bool sl_plan_key(FILE *out, const sl_plan *plan)
{
    fputs("code,arm,block,place\n", out);
    for (int i = 0; i < plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &plan->swatches[i];
        fprintf(out, "%s,", swatch->code);
        sl_csv_name(out, plan->scene->arms[swatch->arm].name);
        fprintf(out, ",%d,%d\n", swatch->block + 1, swatch->place + 1);
    }
    return !ferror(out);
}

static void put_swatches(sl_json *json, const sl_plan_page *page)
{
    sl_json_open(json, "swatches", '[');
    for (int i = 0; i < page->plan->n_swatches; i++) {
        const sl_planned_swatch *const swatch = &page->plan->swatches[i];
        sl_json_open_flat(json, NULL, '{');
        sl_json_text(json, "code", swatch->code);
        sl_json_text(json, "arm", page->blind ? NULL : arm_name(page, i));
        sl_json_number(json, "block", swatch->block + 1);
        sl_json_number(json, "place", swatch->place + 1);
        if (swatch->contact_s < 0) {
            sl_json_null(json, "contact_s");
            sl_json_null(json, "water_s");
        } else {
            sl_json_number(json, "person", swatch->person + 1);
            sl_json_number(json, "contact_s", swatch->contact_s);
            sl_json_number(json, "water_s", swatch->water_s);
        }
        sl_json_bool(json, "cut_short_by_label", swatch->cut_short);
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
}

static void put_tasks(sl_json *json, const sl_plan_page *page)
{
    sl_json_open(json, "tasks", '[');
    for (int i = 0; i < page->plan->n_tasks; i++) {
        const sl_task *const task = &page->plan->tasks[i];
        sl_json_open_flat(json, NULL, '{');
        sl_json_text(json, "task", sl_task_word(task->kind));
        sl_json_text(json, "code", page->plan->swatches[task->swatch].code);
        sl_json_number(json, "person", task->person + 1);
        sl_json_number(json, "start_s", task->start_s);
        sl_json_number(json, "length_s", task->length_s);
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
}

static void put_bowls(sl_json *json, const sl_plan *plan)
{
    sl_json_open(json, "bowls_for_one_swatch", '[');
    for (int i = 0; i < plan->n_bowls; i++) {
        const sl_bowl *const bowl = &plan->bowls[i];
        sl_json_open_flat(json, NULL, '{');
        sl_json_text(json, "arm", plan->scene->arms[bowl->arm].name);
        sl_json_text(json, "mix", plan->scene->mixes[bowl->mix].name);
        sl_json_number(json, "powder_g", bowl->shown.powder_g);
        sl_json_number(json, "developer_g", bowl->shown.developer_g);
        sl_json_number(json, "water_g", bowl->shown.water_g);
        sl_json_number(json, "liquid_pct", bowl->shown.liquid_pct);
        sl_json_number(json, "paste_pct", bowl->shown.on_hair_pct);
        sl_json_number(json, "scale_error", bowl->scale_error);
        sl_json_bool(json, "label_allows", plan->scene->mixes[bowl->mix].label_allows);
        sl_json_close(json, '}');
    }
    sl_json_close(json, ']');
}

static void put_mistake(sl_json *json, const char *name, const sl_plan_page *page, const sl_plan_error *worst)
{
    if (!worst->known) {
        sl_json_null(json, name);
        return;
    }
    sl_json_open_flat(json, name, '{');
    sl_json_text(json, "arm", page->plan->scene->arms[worst->arm].name);
    sl_json_text(json, "zone", page->plan->scene->zones[worst->zone].name);
    sl_json_minute(json, "gap_min", SL_MINUTE_PLANNED, worst->gap_min);
    sl_json_number(json, "colour_left_fair", worst->fair);
    sl_json_number(json, "colour_left_unfair", worst->unfair);
    sl_json_close(json, '}');
}

bool sl_plan_json(FILE *out, const sl_plan_page *page)
{
    const sl_plan *const plan = page->plan;
    sl_json json = {.out = out};
    sl_json_open(&json, NULL, '{');
    sl_json_text(&json, "scene", plan->scene->name);
    sl_json_text(&json, "title", sl_wording_in(&plan->scene->title, SL_ENGLISH));
    sl_json_number(&json, "seed", (double)plan->request.seed);
    sl_json_number(&json, "blocks", plan->request.blocks);
    sl_json_number(&json, "people", plan->request.people);
    sl_json_number(&json, "end_s", plan->end_s);
    sl_json_number(&json, "hair_g", plan->hair_g);
    put_swatches(&json, page);
    put_tasks(&json, page);
    if (!page->blind) {
        const double below = sl_tie_below(plan->request.blocks, page->spread);
        put_bowls(&json, plan);
        put_mistake(&json, "rinsed_together", page, &page->together);
        put_mistake(&json, "one_bowl_for_all", page, &page->one_bowl);
        sl_json_number(&json, "spread_of_swatches", page->spread);
        if (below < 0.0) {
            sl_json_null(&json, "tie_below");
        } else {
            sl_json_number(&json, "tie_below", below);
        }
    }
    sl_json_cautions(&json, sl_plan_cautions, SL_PLAN_CAUTIONS);
    sl_json_close(&json, '}');
    return !ferror(out);
}
