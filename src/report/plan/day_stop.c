/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * After a stop: what was in the bowl, in words that a doctor can use, and the sheet of all stops. Shares
 * are of the fresh mix, by weight, from the mix's file; a packet says more.
 */
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "base/append.h"
#include "base/language.h"
#include "base/memory.h"
#include "document/text.h"
#include "report/plan/day.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"

enum { MANY = 400 };

void sl_day_codes(const char *const *code, int n, char *text, size_t size)
{
    char list[SL_DAY_CODES_TEXT] = "";
    for (int i = 0; i < n && i < SL_DAY_CODES; i++) {
        sl_append_item(list, sizeof list, ", ", "%s", code[i]);
    }
    if (n > SL_DAY_CODES) {
        snprintf(text, size, _("%s and %d more"), list, n - SL_DAY_CODES);
    } else {
        snprintf(text, size, "%s", list);
    }
}

bool sl_day_also(const sl_bench *bench, char *text, size_t size)
{
    const char *code[SL_DAY_CODES];
    char codes[SL_DAY_CODES_TEXT];
    const int n = sl_bench_on_persons(bench, code, SL_DAY_CODES);
    if (n > 0) {
        sl_day_codes(code, n, codes, sizeof codes);
        snprintf(text, size, _("Also on hair: %s. Rinse that too, somebody else."), codes);
    }
    return n > 0;
}

bool sl_day_is_medical(sl_stop_reason reason)
{
    return reason == SL_REASON_EYES || reason == SL_REASON_SKIN || reason == SL_REASON_HEAT;
}

const sl_event *sl_day_last_stop(const sl_event *event, int n_events)
{
    for (int i = n_events - 1; i >= 0; i--) {
        if (event[i].kind == SL_EVENT_STOPPED && event[i].about[0] == '\0') {
            return &event[i];
        }
    }
    return NULL;
}

/* ---- what is in a bowl ---------------------------------------------------------------------------- */

const sl_step *sl_day_application(const sl_scene *scene, const char *name, int round)
{
    const int arm = scene ? sl_scene_arm(scene, name) : -1;
    for (int i = 0; arm >= 0 && i < scene->arms[arm].n_steps; i++) {
        const sl_step *const step = &scene->arms[arm].steps[i];
        if (step->kind == SL_STEP_APPLY && round-- == 0) {
            return step;
        }
    }
    return NULL;
}

/* The mix of an arm's application, from 0; -1: it has none. */
static int mix_of(const sl_scene *scene, const char *name, int round)
{
    const sl_step *const step = sl_day_application(scene, name, round);
    return step ? step->mix : -1;
}

static void add_share(char *text, size_t size, const char *what, double share)
{
    char percent[24];
    if (share > 0.0) {
        sl_short_number(100.0 * share, share < 0.1 ? 1 : 0, percent, sizeof percent);
        sl_append_item(text, size, ", ", "%s %s %%", what, percent);
    }
}

/* What a share of powder brings, of each sort together. */
static void put_powder(const sl_mix *mix, double powder, char *text, size_t size)
{
#define PART(name, words) {words, mix->name},
    const struct {
        const char *what;
        double share;
    } parts[] = {SL_POWDER_LIST(PART)};
#undef PART
    const size_t n = sizeof parts / sizeof parts[0];
    for (size_t i = 0; i < n;) {
        const char *const what = parts[i].what;
        double share = 0.0;
        for (; i < n && strcmp(parts[i].what, what) == 0; i++) {
            share += parts[i].share;
        }
        add_share(text, size, _(what), powder * share);
    }
}

static const double LEAST_TOLD = 0.0005; /* less is written as 0.0 % */

/* What each ingredient is of the whole mix, whichever part brings it. */
static void put_ingredients(const sl_mix *mix, double all, char *text, size_t size)
{
#define WORDS(NAME, name, words, ...) words,
    static const char *const what[SL_INGREDIENTS] = {SL_INGREDIENT_LIST(WORDS)};
#undef WORDS
#define PARTS(NAME, name) mix->name##_parts,
    const double parts[SL_HOLDERS] = {SL_HOLDER_LIST(PARTS)};
#undef PARTS
    for (int i = 0; i < SL_INGREDIENTS; i++) {
        double share = 0.0;
        for (int part = 0; part < SL_HOLDERS && all > 0.0; part++) {
            share += mix->holds[part][i].value * parts[part] / all;
        }
        add_share(text, size, _(what[i]), share < LEAST_TOLD ? 0.0 : share);
    }
}

void sl_day_mix_words(const sl_mix *mix, char *text, size_t size)
{
    const double all = mix->powder_parts + mix->developer_parts + mix->water_parts;
    const double powder = all > 0.0 ? mix->powder_parts / all : 0.0;
    char ph[24];
    text[0] = '\0';
    put_powder(mix, powder, text, size);
    add_share(text, size, _("hydrogen peroxide"),
              all > 0.0 ? mix->developer_pct / 100.0 * mix->developer_parts / all : 0.0);
    put_ingredients(mix, all, text, size);
    sl_short_number(mix->ph.value, 1, ph, sizeof ph);
    sl_append_item(text, size, ", ", _("pH about %s"), ph);
}

static void put_bowl(const sl_day_record *record, int mix, const char *arm, const char *codes, char *text,
                     size_t size)
{
    char inside[200];
    if (mix < 0) {
        snprintf(text, size, _("%s: \"%s\". What that is cannot be read from the log: show the packets."),
                 codes, sl_title_of_arm(record->scene, arm));
        return;
    }
    const sl_mix *const bowl = &record->scene->mixes[mix];
    if (bowl->class_ == SL_MIX_WATER) {
        snprintf(text, size, "%s: %s.", codes, sl_mix_title(bowl));
        return;
    }
    sl_day_mix_words(bowl, inside, sizeof inside);
    snprintf(text, size, _("%s: %s. Fresh: %s. It is %s."), codes, sl_mix_title(bowl), inside,
             bowl->mechanism == SL_MECHANISM_OXIDATIVE   ? _("an oxidising mix")
             : bowl->mechanism == SL_MECHANISM_REDUCTIVE ? _("a reducing mix")
                                                         : _("a mix of unknown kind"));
}

static void put_when(int64_t wall_ns, char *text, size_t size)
{
    const time_t at = (time_t)(wall_ns / 1000000000);
    struct tm local;
    if (!localtime_r(&at, &local) || strftime(text, size, "%Y-%m-%d %H:%M:%S", &local) == 0) {
        snprintf(text, size, "?");
    }
}

/* Without the day. */
static const char *put_clock(int64_t wall_ns, char text[32])
{
    const size_t day = strlen("2026-11-30 ");
    put_when(wall_ns, text, 32);
    return strlen(text) > day ? text + day : text;
}

/* Since when it works: of all these swatches the first; or that nobody logged that it was made. */
static void add_since(const sl_bench *bench, const bool is[SL_BENCH_MOST], char *text, size_t size)
{
    const sl_instant *mixed = NULL, *contact = NULL;
    char at[32];
    for (int i = 0; i < bench->n; i++) {
        const sl_bench_state *const state = &bench->state[i];
        if (is[i] && state->mixed && (!mixed || state->mixed_at.wall_ns < mixed->wall_ns)) {
            mixed = &state->mixed_at;
        }
        if (is[i] && state->stage == SL_STAGE_ON_HAIR &&
            (!contact || state->contact.wall_ns < contact->wall_ns)) {
            contact = &state->contact;
        }
    }
    if (mixed) {
        sl_append(text, size, " ");
        sl_append(text, size, _("Mixed at %s."), put_clock(mixed->wall_ns, at));
    }
    if (contact) {
        sl_append(text, size, " ");
        sl_append(text, size, _("On the hair since %s."), put_clock(contact->wall_ns, at));
    }
    if (!mixed && !contact) {
        sl_append(text, size, " ");
        sl_append(text, size, "%s", _("Not logged as mixed."));
    }
}

/* ---- which bowls ------------------------------------------------------------------------------------ */

static bool lay(const sl_bench *bench, int i, const sl_event *stop)
{
    return bench->state[i].stage == SL_STAGE_ON_HAIR && (stop->swatch < 0 || stop->swatch == i);
}

/* Something splashed, and it may not be of the swatch that was stopped. */
static bool in_use(const sl_bench *bench, int i, const sl_event *stop)
{
    const sl_bench_state *const state = &bench->state[i];
    (void)stop;
    return state->stage == SL_STAGE_ON_HAIR || (state->stage == SL_STAGE_WAITING && state->mixed);
}

static bool has_a_bowl(const sl_bench *bench, int i, const sl_event *stop)
{
    (void)stop;
    return bench->swatch[i].contact_s >= 0;
}

typedef bool of_stop(const sl_bench *bench, int i, const sl_event *stop);

/* Swatches with one mix share a sentence; without a scene those of one arm. */
static int tell_each(const sl_day_record *record, const sl_bench *bench, const sl_event *stop, of_stop *is,
                     sl_day_tell *tell, void *self)
{
    bool told[SL_BENCH_MOST] = {false};
    int n_told = 0;
    for (int i = 0; i < bench->n; i++) {
        const char *code[MANY];
        char codes[128], text[2 * SL_DAY_WORDS];
        bool of_it[SL_BENCH_MOST] = {false};
        int n = 0;
        const int mix = mix_of(record->scene, record->arm[i], bench->state[i].round);
        for (int j = i; j < bench->n && !told[i] && is(bench, i, stop); j++) {
            const int other = mix_of(record->scene, record->arm[j], bench->state[j].round);
            const bool same = other == mix && (mix >= 0 || strcmp(record->arm[i], record->arm[j]) == 0);
            if (same && n < MANY && (j == i || !told[j]) && is(bench, j, stop)) {
                told[j] = j != i;
                of_it[j] = true;
                code[n++] = bench->swatch[j].code;
            }
        }
        if (n > 0) {
            sl_day_codes(code, n, codes, sizeof codes);
            put_bowl(record, mix, record->arm[i], codes, text, sizeof text);
            add_since(bench, of_it, text, sizeof text);
            tell(self, text);
            sl_day_each_tub(record, of_it, tell, self);
            n_told++;
        }
    }
    return n_told;
}

bool sl_day_bowls(const sl_day_record *record, const sl_event *stop, sl_day_tell *tell, void *self)
{
    static of_stop *const ways[] = {lay, in_use, has_a_bowl};
    sl_bench *const before = sl_new(1, sizeof *before, "telling a stop", NULL);
    if (!before) {
        return false;
    }
    sl_bench_fold(before, record->swatch, record->n, record->event, (int)(stop - record->event));
    int n = 0;
    for (int way = 0; way < 3 && n == 0; way++) {
        n = tell_each(record, before, stop, ways[way], tell, self);
    }
    sl_free(before);
    return true;
}

/* ---- the sheet ---------------------------------------------------------------------------------------- */

static void say_bowl(void *self, const char *sentence)
{
    sl_document_item(self, "%s", sentence);
}

static sl_stop_reason reason_of(const sl_day_record *record, const sl_event *stop)
{
    sl_stop_reason reason = stop->reason;
    for (int i = 0; i < record->n_events; i++) {
        const sl_event *const event = &record->event[i];
        if (event->kind == SL_EVENT_STOPPED && strcmp(event->about, stop->id) == 0) {
            reason = event->reason;
        }
    }
    return reason;
}

static void say_water(sl_document *document, const sl_day_went *went, const sl_event *stop)
{
    const sl_day_record *const record = &went->record;
    const sl_event *off = NULL;
    char span[24];
    for (int i = (int)(stop - record->event) + 1; i < record->n_events && !off; i++) {
        off = record->event[i].kind == SL_EVENT_WASHED_OUT ? &record->event[i] : NULL;
    }
    sl_day_span(sl_elapsed_between(&stop->at, off ? &off->at : went->now).seconds, span, sizeof span);
    if (off) {
        sl_document_say(document, _("Water ran for %s."), span);
    } else {
        sl_document_say(document, _("Water runs, for %s so far."), span);
    }
}

static bool was_taken_back(const sl_day_record *record, const sl_event *event)
{
    for (int i = 0; i < record->n_events; i++) {
        if (record->event[i].kind == SL_EVENT_UNDONE && strcmp(record->event[i].about, event->id) == 0) {
            return true;
        }
    }
    return false;
}

static void say_told(sl_document *document, const sl_day_record *record, const sl_event *stop)
{
    bool any = false;
    char at[32];
    for (int i = 0; i < record->n_events; i++) {
        const sl_event *const event = &record->event[i];
        if (event->kind == SL_EVENT_NOTED && strcmp(event->about, stop->id) == 0 &&
            !was_taken_back(record, event)) {
            put_when(event->at.wall_ns, at, sizeof at);
            sl_document_say(document, "%s: %s.", at, sl_day_remark(event->remark));
            any = true;
        }
    }
    if (!any) {
        sl_document_say(document, "%s", _("Who was told: nothing was written down."));
    }
}

static void say_stop(sl_document *document, const sl_day_went *went, const sl_event *stop)
{
    const sl_day_record *const record = &went->record;
    char at[32];
    put_when(stop->at.wall_ns, at, sizeof at);
    sl_document_part(document, _("STOP AND RINSE at %s, %s. Reason: %s."), at,
                     stop->swatch >= 0 && stop->swatch < record->n ? record->swatch[stop->swatch].code
                                                                   : _("all that was on hair"),
                     sl_day_reason_words(reason_of(record, stop)));
    sl_document_say(document, "%s", _("What was in the bowl:"));
    if (!sl_day_bowls(record, stop, say_bowl, document)) {
        sl_document_say(document, "%s", _("Out of memory: show the packets."));
    }
    say_water(document, went, stop);
    say_told(document, record, stop);
}

void sl_day_say_stops(sl_document *document, const void *of, sl_error *error)
{
    const sl_day_went *const went = of;
    int n = 0;
    sl_day_begin_document(document, went, error);
    for (int i = 0; i < went->record.n_events; i++) {
        const sl_event *const event = &went->record.event[i];
        if (event->kind == SL_EVENT_STOPPED && event->about[0] == '\0') {
            say_stop(document, went, event);
            n++;
        }
    }
    sl_document_apart(document);
    if (n == 0) {
        sl_document_say(document, "%s", _("Nothing was stopped that day."));
    } else {
        sl_document_say(document, "%s",
                        _("Contents are what was entered for each mix, when fresh. Take the packets along: "
                          "they say more."));
        sl_document_owes(document, SL_CAUTION_EYES);
    }
    sl_document_end(document, SL_ON_NOTHING);
}
