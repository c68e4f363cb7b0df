/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The work of a wish is cut into parts and these into slices; between slices, and within them between blocks
 * of members, a newer wish ends it.
 */
#include "view/panels/study.h"

#include <string.h>

#include "base/memory.h"
#include "report/answer/answer_page.h"
#include "slowlift/scene.h"
#include "view/strips/worker.h"

static const long SMALL_PART = 128, PART = 1024; /* members of an arm; whole blocks of the ensemble */
enum { BLOCK = 16, ROUGH = 13, FINE = 25, RANK_FIRST = 192 };

/* The strip, beside it the control whose stress is its limit, if any is, and what was seen of it. */
typedef struct sl_variant_asked {
    sl_variant variant; /* it points into itself: never copied */
    sl_arm arms[2];
    sl_observations observations; /* its arm is number 0 */
    sl_intake person;             /* likewise; a strand of another strip's mix has another number */
} sl_variant_asked;

/* What is done for a wish, in this order; MEMBERS until there are SL_MEMBERS. */
typedef enum work_part {
    FIRST_MEMBERS,
    ROUGH_RANK,
    ROUGH_MAP,
    ANSWERS,
    FINE_RANK,
    FINE_MAP,
    MEMBERS,
    NOTHING_MORE
} work_part;

typedef struct sl_study_work {
    sl_study_wish wish; /* scene NULL: none */
    sl_variant_asked asked;
    work_part part;
    sl_study found;
    sl_spread *sum; /* NULL: nothing is counted yet */
    sl_rank *rank;  /* in the making; NULL: not begun */
    sl_map *map;
    sl_study_answers *answers;
} sl_study_work;

struct sl_study_thread {
    sl_worker worker;
    sl_study_wish asked;
    sl_study found;
    sl_study_work work; /* what is being done */
};

static void free_wish(sl_study_wish *wish)
{
    sl_scene_free(wish->scene);
    sl_free(wish->mixes);
    memset(wish, 0, sizeof *wish);
}

void sl_study_answers_free(sl_study_answers *answers)
{
    if (answers != NULL) {
        sl_rinse_free(answers->rinse);
        sl_spread_free(answers->spread);
        sl_story_free(&answers->story);
        sl_free(answers);
    }
}

void sl_study_free(sl_study *study)
{
    sl_rank_free(study->rank);
    sl_map_free(study->map);
    sl_study_answers_free(study->answers);
    memset(study, 0, sizeof *study);
}

/* ---- letters ---------------------------------------------------------------------------- */

/* Newer parts replace older ones; rank, map and answers stay until there are better ones, or it is known why
 * there are none. */
static void merge(sl_study *into, sl_study *from)
{
    sl_rank *rank = into->rank;
    sl_map *map = into->map;
    sl_study_answers *answers = into->answers;
    if (from->rank != NULL || from->error[SL_STUDY_RANK].code != SL_OK) {
        sl_rank_free(rank);
        rank = from->rank;
    }
    if (from->map != NULL || from->error[SL_STUDY_MAP].code != SL_OK) {
        sl_map_free(map);
        map = from->map;
    }
    if (from->answers != NULL || from->error[SL_STUDY_ANSWERS].code != SL_OK) {
        sl_study_answers_free(answers);
        answers = from->answers;
    }
    *into = *from;
    into->rank = rank;
    into->map = map;
    into->answers = answers;
    memset(from, 0, sizeof *from);
}

/* The counts stay with the thread, the rest goes, unless a newer wish has come. */
static void publish(sl_study_thread *self, sl_study *found)
{
    sl_study letter = *found;
    found->rank = NULL;
    found->map = NULL;
    found->answers = NULL;
    SDL_LockMutex(self->worker.lock);
    const bool newest = sl_worker_is_newest(&self->worker);
    if (newest) {
        merge(&self->found, &letter);
        self->worker.has_found = true;
    }
    SDL_UnlockMutex(self->worker.lock);
    sl_study_free(&letter);
    if (newest) {
        sl_worker_wake(&self->worker);
    }
}

/* ---- the ensemble ------------------------------------------------------------------------ */

/* The control comes along, so that each member's own stress is the limit, as sl_answers_of() counts it. */
static void ask_control(sl_variant_asked *asked, const sl_scene *scene)
{
    sl_scene *const alone = &asked->variant.scene;
    asked->arms[0] = asked->variant.arm;
    asked->arms[1] = scene->arms[scene->aims.stress_of];
    alone->arms = asked->arms;
    alone->n_arms = 2;
    alone->aims.stress_share = scene->aims.stress_share;
    alone->aims.stress_of = 1;
}

static void ask_alone(sl_variant_asked *asked, const sl_study_wish *wish)
{
    sl_variant_make(&asked->variant, wish->scene, wish->arm, NULL);
    asked->variant.arm = wish->scene->arms[wish->arm]; /* with all mixes, as a control's are there */
    asked->variant.scene.mixes = wish->scene->mixes;
    asked->variant.scene.n_mixes = wish->scene->n_mixes;
    if (wish->scene->aims.stress_share > 0.0) {
        ask_control(asked, wish->scene);
    }
    asked->observations = (sl_observations){0};
    asked->person = wish->person;
    for (int i = 0; i < asked->person.showed.n; i++) {
        sl_observation *const observation = &asked->person.showed.observation[i];
        observation->arm = observation->arm == wish->arm ? 0 : observation->arm + 2; /* no arm here */
        if (wish->of_person && observation->arm == 0 && asked->observations.n < SL_MOST_OBSERVATIONS) {
            asked->observations.observation[asked->observations.n++] = *observation;
        }
    }
    for (int i = 0; i < wish->observations.n; i++) {
        if (wish->observations.observation[i].arm == wish->arm &&
            asked->observations.n < SL_MOST_OBSERVATIONS) {
            asked->observations.observation[asked->observations.n] = wish->observations.observation[i];
            asked->observations.observation[asked->observations.n++].arm = 0;
        }
    }
}

static bool go_on(void *self, long done, long all)
{
    (void)done;
    (void)all;
    return sl_worker_is_newest(self);
}

static void read_spread(sl_study *found, const sl_study_wish *wish, const sl_variant_asked *asked,
                        const sl_spread *spread)
{
    found->members = spread->members;
    found->plan = spread->plan;
    const sl_person person = {.form = &asked->person, .strand = {wish->strand[wish->arm]}};
    found->answer = sl_answer_of(&asked->variant.scene, spread, 0, wish->of_person ? &person : NULL);
    for (int d = 0; d < spread->plan.n; d++) {
        found->index[d] = sl_spread_index(spread, 0, d);
    }
}

/* `members` more of a scene; false when a newer wish has come or nothing could be counted. */
static bool add_members(sl_study_thread *self, sl_spread **sum, const sl_scene *scene,
                        const sl_observations *observations, long members, sl_error *error)
{
    const long first = *sum != NULL ? (*sum)->members : 0;
    const sl_spread_request request = {.first_member = first,
                                       .members = SDL_min(members, SL_MEMBERS - first),
                                       .seed = SL_SEED,
                                       .threads = 1,
                                       .go_on = go_on,
                                       .self = &self->worker,
                                       .observations = observations};
    sl_spread *part = NULL;
    if (!sl_spread_run(&part, scene, &request, error)) {
        return false;
    }
    bool good = !part->stopped;
    if (good && *sum == NULL) {
        *sum = part;
        return true;
    }
    good = good && sl_spread_add(*sum, part, error);
    sl_spread_free(part);
    return good;
}

/* Of the chosen strip. */
static bool add_of_strip(sl_study_thread *self, long members)
{
    sl_study_work *const work = &self->work;
    return add_members(self, &work->sum, &work->asked.variant.scene, &work->asked.observations, members,
                       &work->found.error[SL_STUDY_MEMBERS]);
}

/* As many as fit: small parts until the time is up, then one larger part a letter. */
static void grow(sl_study_thread *self)
{
    sl_study_work *const work = &self->work;
    const bool first = work->sum == NULL;
    /* weighing has a price for each part */
    const long small = work->asked.observations.n > 0 ? PART : SMALL_PART;
    const double ticks = SL_STUDY_FIRST_MS / 1000.0 * (double)SDL_GetPerformanceFrequency();
    const Uint64 until = SDL_GetPerformanceCounter() + (Uint64)ticks;
    bool good = add_of_strip(self, first || !self->worker.threads ? small : PART);
    while (good && first && SDL_GetPerformanceCounter() < until && work->sum->members < PART) {
        good = add_of_strip(self, small);
    }
    if (good) {
        read_spread(&work->found, &work->wish, &work->asked, work->sum);
    }
    publish(self, &work->found);
}

/* ---- rank, map, answers --------------------------------------------------------------------- */

/* Members of all strips in a slice. */
static long slice_of_all(const sl_study_thread *self)
{
    const int arms = self->work.wish.scene->n_arms;
    return self->worker.threads ? PART : SDL_max(SMALL_PART / arms / BLOCK, 1) * BLOCK;
}

/* A slice of a rank of so many members; true: there is no more to do. What was stopped is not published. */
static bool add_rank(sl_study_thread *self, long members)
{
    sl_study_work *const work = &self->work;
    const long first = work->rank != NULL ? work->rank->members : 0;
    const sl_rank_request request = {.minute = work->wish.minute,
                                     .share = work->wish.share,
                                     .first_member = first,
                                     .members = SDL_min(slice_of_all(self), members - first),
                                     .seed = SL_SEED,
                                     .threads = 1,
                                     .go_on = go_on,
                                     .self = &self->worker};
    sl_rank *part = NULL;
    const bool good = sl_rank_run(&part, work->wish.scene, &request, &work->found.error[SL_STUDY_RANK]);
    if (good && work->rank != NULL) {
        sl_rank_add(work->rank, part);
        sl_rank_free(part);
    } else if (good) {
        work->rank = part;
    }
    if (good && work->rank->members < members) {
        return false;
    }
    work->found.rank = good ? work->rank : NULL;
    if (!good) {
        sl_rank_free(work->rank);
    }
    work->rank = NULL;
    publish(self, &work->found);
    return true;
}

/* Likewise a row of a map of n by n points. */
static bool add_map(sl_study_thread *self, int n)
{
    sl_study_work *const work = &self->work;
    const sl_study_wish *const wish = &work->wish;
    sl_error *const error = &work->found.error[SL_STUDY_MAP];
    sl_axis x = wish->x;
    sl_axis y = wish->y;
    x.n = y.n = n;
    const bool good =
        (work->map != NULL || sl_map_begin(&work->map, wish->scene, wish->arm, -1, x, y, NULL, error)) &&
        sl_map_go_on(work->map, wish->scene, NULL, n, self->worker.solver, error);
    if (good && !sl_map_whole(work->map)) {
        return false;
    }
    work->found.map = good ? work->map : NULL;
    if (!good) {
        sl_map_free(work->map);
    }
    work->map = NULL;
    publish(self, &work->found);
    return true;
}

/* What is asked of all strips, and the scene solved. */
static bool begin_answers(sl_study_work *work, sl_error *error)
{
    const sl_study_wish *const wish = &work->wish;
    sl_study_answers *const answers = sl_new(1, sizeof *answers, "answering", error);
    work->answers = answers;
    if (answers == NULL) {
        return false;
    }
    answers->observations = wish->observations;
    answers->form = wish->person;
    answers->person.form = &answers->form;
    memcpy(answers->person.strand, wish->strand, sizeof answers->person.strand);
    for (int i = 0; wish->of_person && i < wish->person.showed.n; i++) {
        if (answers->observations.n < SL_MOST_OBSERVATIONS) {
            answers->observations.observation[answers->observations.n++] = wish->person.showed.observation[i];
        }
    }
    answers->story.scene = sl_scene_copy(wish->scene, error);
    return answers->story.scene != NULL && sl_story_solve(&answers->story, error);
}

/* How hair is rinsed, of some more members. */
static bool add_rinse(sl_study_thread *self, sl_study_answers *answers, sl_error *error)
{
    sl_rinse_request request = sl_answer_rinse_request(&answers->answers, self->work.wish.same_zone);
    sl_rinse *part = NULL;
    request.first_member = answers->rinse != NULL ? answers->rinse->members : 0;
    request.members = SDL_min(slice_of_all(self), SL_MEMBERS - request.first_member);
    request.go_on = go_on;
    request.self = &self->worker;
    if (!sl_rinse_run(&part, answers->story.scene, &request, error)) {
        return false;
    }
    if (answers->rinse == NULL) {
        answers->rinse = part;
    } else {
        sl_rinse_add(answers->rinse, part);
        sl_rinse_free(part);
    }
    return true;
}

/* A slice: first all members are counted, then each is rinsed; true: there is no more to do. */
static bool add_answers(sl_study_thread *self)
{
    sl_study_work *const work = &self->work;
    const sl_study_wish *const wish = &work->wish;
    sl_error *const error = &work->found.error[SL_STUDY_ANSWERS];
    bool good = work->answers != NULL || begin_answers(work, error);
    sl_study_answers *const answers = work->answers;
    if (good && (answers->spread == NULL || answers->spread->members < SL_MEMBERS)) {
        const long members = answers->observations.n > 0 ? PART : slice_of_all(self);
        good =
            add_members(self, &answers->spread, answers->story.scene, &answers->observations, members, error);
        if (good && answers->spread->members == SL_MEMBERS) {
            sl_answers_of(&answers->answers, answers->story.timeline, answers->spread,
                          wish->of_person ? &answers->person : NULL, NULL);
        }
    } else if (good) {
        good = add_rinse(self, answers, error);
    }
    if (good && (answers->rinse == NULL || answers->rinse->members < SL_MEMBERS)) {
        return false;
    }
    work->found.answers = good ? answers : NULL;
    if (!good) {
        sl_study_answers_free(answers);
    }
    work->answers = NULL;
    publish(self, &work->found);
    return true;
}

/* ---- the thread ------------------------------------------------------------------------------ */

static void begin_work(sl_study_work *work)
{
    ask_alone(&work->asked, &work->wish);
    work->part = FIRST_MEMBERS;
}

/* A slice of this part; true: it is done. What failed once is not tried again for this wish. */
static bool do_slice(sl_study_thread *self)
{
    sl_study_work *const work = &self->work;
    const sl_error *const error = work->found.error;
    const bool rough = work->part == ROUGH_RANK || work->part == ROUGH_MAP;
    if (work->part == ROUGH_RANK || work->part == FINE_RANK) {
        return !work->wish.rank || error[SL_STUDY_RANK].code != SL_OK ||
               add_rank(self, rough ? RANK_FIRST : SL_MEMBERS);
    }
    if (work->part == ROUGH_MAP || work->part == FINE_MAP) {
        return !work->wish.map || error[SL_STUDY_MAP].code != SL_OK || add_map(self, rough ? ROUGH : FINE);
    }
    if (work->part == ANSWERS) {
        return !work->wish.answers || add_answers(self);
    }
    if (error[SL_STUDY_MEMBERS].code != SL_OK || (work->sum != NULL && work->sum->members >= SL_MEMBERS)) {
        return true;
    }
    grow(self);
    return work->part == FIRST_MEMBERS;
}

static void end_work(sl_study_work *work)
{
    sl_spread_free(work->sum);
    sl_rank_free(work->rank);
    sl_map_free(work->map);
    sl_study_answers_free(work->answers);
    sl_study_free(&work->found);
    free_wish(&work->wish);
    memset(work, 0, sizeof *work);
}

/* The next slice of what is asked; false: nothing is. */
static bool work_on(sl_study_thread *self)
{
    sl_study_work *const work = &self->work;
    if (work->wish.scene == NULL) {
        if (!sl_worker_next(&self->worker, &work->wish)) {
            return false;
        }
        begin_work(work);
    }
    if (do_slice(self)) {
        work->part++;
    }
    if (work->part == NOTHING_MORE || !sl_worker_is_newest(&self->worker)) {
        end_work(work);
    }
    return true;
}

static int run(void *self)
{
    SDL_SetThreadPriority(
        SDL_THREAD_PRIORITY_LOW); /* the picture comes first; where that is refused it is as before */
    while (work_on(self)) {
    }
    return 0;
}

void sl_study_thread_work(sl_study_thread *self)
{
    if (!self->worker.threads) {
        work_on(self);
    }
}

sl_study_thread *sl_study_thread_start(Uint32 wake, bool threads, sl_error *error)
{
    sl_study_thread *const self = sl_new(1, sizeof *self, "starting the ensemble", error);
    if (self == NULL) {
        return NULL;
    }
    self->worker = (sl_worker){.asked = &self->asked, .size = sizeof self->asked};
    if (!sl_worker_start(&self->worker, wake, run, self, threads, error)) {
        sl_study_thread_stop(self);
        return NULL;
    }
    return self;
}

void sl_study_thread_stop(sl_study_thread *self)
{
    if (self == NULL) {
        return;
    }
    sl_worker_stop(&self->worker);
    end_work(&self->work);
    free_wish(&self->asked);
    sl_study_free(&self->found);
    sl_free(self);
}

void sl_study_thread_ask(sl_study_thread *self, sl_study_wish *wish)
{
    SDL_LockMutex(self->worker.lock);
    sl_study unread = self->found;
    self->worker.has_found = false;
    memset(&self->found, 0, sizeof self->found);
    sl_worker_ask(&self->worker, wish);
    SDL_UnlockMutex(self->worker.lock);
    free_wish(wish);
    sl_study_free(&unread);
}

bool sl_study_thread_busy(sl_study_thread *self)
{
    return sl_worker_busy(&self->worker);
}

bool sl_study_thread_take(sl_study_thread *self, sl_study *study)
{
    SDL_LockMutex(self->worker.lock);
    const bool has = self->worker.has_found;
    if (has) {
        merge(study, &self->found);
        self->worker.has_found = false;
    }
    SDL_UnlockMutex(self->worker.lock);
    return has;
}
