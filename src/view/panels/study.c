/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Letter boxes as in solve_thread.c. The work of a wish is cut into parts; between parts, and
 * within the ensemble between blocks of members, a newer wish ends it.
 */
#include "view/panels/study.h"

#include <string.h>

#include "base/memory.h"
#include "slowlift/scene.h"

static const long SMALL_PART = 128, PART = 1024; /* members; whole blocks of the ensemble */
enum { ROUGH = 13, FINE = 25, RANK_FIRST = 192 };

/* The strip, beside it the control whose stress is its limit, if any is, and what was seen of it. */
typedef struct sl_variant_asked {
    sl_variant variant, control; /* these point into themselves: never copied */
    sl_arm arms[2];
    sl_mix mixes[2 * SL_MAX_STEPS];
    sl_observations observations; /* its arm is number 0 */
    sl_intake person;             /* likewise; a strand of another strip's mix has another number */
} sl_variant_asked;

/* What is done for a wish, in this order; MEMBERS until there are SL_MEMBERS. */
typedef enum work_part { FIRST_MEMBERS, ROUGH_VIEWS, FINE_VIEWS, MEMBERS } work_part;

typedef struct sl_study_work {
    sl_study_wish wish;
    sl_variant_asked asked;
    work_part part;
    sl_study found;
    sl_spread *sum; /* NULL: nothing is counted yet */
} sl_study_work;

struct sl_study_thread {
    SDL_Thread *thread;
    SDL_mutex *lock;
    SDL_cond *asked_something;
    sl_solver *solver; /* used by the thread alone */
    Uint32 wake;
    bool leave, working, has_asked, has_found;
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

void sl_study_free(sl_study *study)
{
    sl_rank_free(study->rank);
    sl_map_free(study->map);
    memset(study, 0, sizeof *study);
}

/* ---- letters ---------------------------------------------------------------------------- */

static void push_wake(const sl_study_thread *self)
{
    SDL_Event event = {.type = self->wake};
    SDL_PushEvent(&event);
}

/* Blocks until something is asked; false when it is time to leave. */
static bool next(sl_study_thread *self, sl_study_wish *wish)
{
    SDL_LockMutex(self->lock);
    if (self->working && !self->has_asked) {
        push_wake(self); /* the window may want to know that nothing more comes */
    }
    self->working = false;
    while (!self->has_asked && !self->leave) {
        SDL_CondWait(self->asked_something, self->lock);
    }
    const bool go_on = !self->leave;
    if (go_on) {
        *wish = self->asked;
        memset(&self->asked, 0, sizeof self->asked);
        self->has_asked = false;
        self->working = true;
    }
    SDL_UnlockMutex(self->lock);
    return go_on;
}

static bool is_newest(sl_study_thread *self)
{
    SDL_LockMutex(self->lock);
    const bool newest = !self->has_asked && !self->leave;
    SDL_UnlockMutex(self->lock);
    return newest;
}

/* Newer parts replace older ones; rank and map stay until there are better ones. */
static void merge(sl_study *into, sl_study *from)
{
    sl_rank *const rank = from->rank != NULL ? from->rank : into->rank;
    sl_map *const map = from->map != NULL ? from->map : into->map;
    if (rank != into->rank) {
        sl_rank_free(into->rank);
    }
    if (map != into->map) {
        sl_map_free(into->map);
    }
    *into = *from;
    into->rank = rank;
    into->map = map;
    memset(from, 0, sizeof *from);
}

/* The counts stay with the thread, rank and map go. False: a newer wish has come. */
static bool publish(sl_study_thread *self, sl_study *found)
{
    sl_study letter = *found;
    found->rank = NULL;
    found->map = NULL;
    SDL_LockMutex(self->lock);
    const bool newest = !self->has_asked && !self->leave;
    if (newest) {
        merge(&self->found, &letter);
        self->has_found = true;
    }
    SDL_UnlockMutex(self->lock);
    sl_study_free(&letter);
    if (newest) {
        push_wake(self);
    }
    return newest;
}

/* ---- the ensemble ------------------------------------------------------------------------ */

/* The control comes along, so that each member's own stress is the limit, as sl_answers_of() counts it. */
static void ask_control(sl_variant_asked *asked, const sl_scene *scene)
{
    sl_scene *const alone = &asked->variant.scene;
    const int n = alone->n_mixes;
    sl_variant_make(&asked->control, scene, scene->aims.stress_of, NULL);
    asked->arms[0] = asked->variant.arm;
    asked->arms[1] = asked->control.arm;
    for (int i = 0; i < asked->arms[1].n_steps; i++) {
        asked->arms[1].steps[i].mix += asked->arms[1].steps[i].kind == SL_STEP_APPLY ? n : 0;
    }
    memcpy(asked->mixes, asked->variant.mixes, (size_t)n * sizeof asked->mixes[0]);
    memcpy(asked->mixes + n, asked->control.mixes,
           (size_t)asked->control.scene.n_mixes * sizeof asked->mixes[0]);
    alone->arms = asked->arms;
    alone->n_arms = 2;
    alone->mixes = asked->mixes;
    alone->n_mixes = n + asked->control.scene.n_mixes;
    alone->aims.stress_share = scene->aims.stress_share;
    alone->aims.stress_of = 1;
}

static void ask_alone(sl_variant_asked *asked, const sl_study_wish *wish)
{
    sl_variant_make(&asked->variant, wish->scene, wish->arm, NULL);
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
    return is_newest(self);
}

static void read_spread(sl_study *found, const sl_study_wish *wish, const sl_variant_asked *asked,
                        const sl_spread *spread)
{
    found->members = spread->members;
    found->plan = spread->plan;
    const sl_person person = {.form = &asked->person, .strand = {wish->strand}};
    found->answer = sl_answer_of(&asked->variant.scene, spread, 0, wish->of_person ? &person : NULL);
    for (int d = 0; d < spread->plan.n; d++) {
        found->index[d] = sl_spread_index(spread, 0, d);
    }
}

/* `members` more; false when a newer wish has come or nothing could be counted. */
static bool add_members(sl_study_thread *self, const sl_variant_asked *asked, long members, sl_spread **sum,
                        sl_study *found)
{
    const sl_spread_request request = {.first_member = *sum != NULL ? (*sum)->members : 0,
                                       .members = members,
                                       .seed = SL_SEED,
                                       .threads = 1,
                                       .go_on = go_on,
                                       .self = self,
                                       .observations = &asked->observations};
    sl_spread *part = NULL;
    if (!sl_spread_run(&part, &asked->variant.scene, &request, &found->error)) {
        return false;
    }
    bool good = !part->stopped;
    if (good && *sum == NULL) {
        *sum = part;
        return true;
    }
    good = good && sl_spread_add(*sum, part, &found->error);
    sl_spread_free(part);
    return good;
}

/* As many as fit: small parts until the time is up, then one larger part a letter. */
static bool grow(sl_study_thread *self, const sl_study_wish *wish, const sl_variant_asked *asked,
                 sl_spread **sum, sl_study *found)
{
    const bool first = *sum == NULL;
    const long small = asked->observations.n > 0 ? PART : SMALL_PART; /* weighing has a price for each part */
    const double ticks = SL_STUDY_FIRST_MS / 1000.0 * (double)SDL_GetPerformanceFrequency();
    const Uint64 until = SDL_GetPerformanceCounter() + (Uint64)ticks;
    const long next_part = self->thread != NULL ? PART : small; /* between two frames: a short one */
    bool good = add_members(self, asked, first ? small : SDL_min(next_part, SL_MEMBERS - (*sum)->members),
                            sum, found);
    while (good && first && SDL_GetPerformanceCounter() < until && (*sum)->members < PART) {
        good = add_members(self, asked, small, sum, found);
    }
    if (good) {
        read_spread(found, wish, asked, *sum);
    }
    return publish(self, found) && good;
}

/* ---- rank and map -------------------------------------------------------------------------- */

/* A newer wish stops it; what was counted is not published then. */
static void add_rank(sl_study_thread *self, const sl_study_wish *wish, long members, sl_study *found)
{
    const sl_rank_request request = {.minute = wish->minute,
                                     .share = wish->share,
                                     .members = members,
                                     .seed = SL_SEED,
                                     .threads = 1,
                                     .zone = -1,
                                     .go_on = go_on,
                                     .self = self};
    sl_rank_run(&found->rank, wish->scene, &request, &found->error);
}

static void add_map(sl_study_thread *self, const sl_study_wish *wish, int n, sl_study *found)
{
    sl_axis x = wish->x;
    sl_axis y = wish->y;
    x.n = y.n = n;
    sl_map_make(&found->map, wish->scene, wish->arm, -1, x, y, NULL, self->solver, &found->error);
}

/* Rank and map, first roughly; false when a newer wish has come. */
static bool find_views(sl_study_thread *self, const sl_study_wish *wish, bool rough, sl_study *found)
{
    bool newest = is_newest(self);
    if (wish->rank && newest) {
        add_rank(self, wish, rough ? RANK_FIRST : SL_MEMBERS, found);
        newest = publish(self, found);
    }
    if (wish->map && newest) {
        add_map(self, wish, rough ? ROUGH : FINE, found);
        newest = publish(self, found);
    }
    return newest;
}

/* ---- the thread ------------------------------------------------------------------------------ */

static void begin_work(sl_study_work *work)
{
    ask_alone(&work->asked, &work->wish);
    work->part = FIRST_MEMBERS;
    work->found = (sl_study){0};
    work->sum = NULL;
}

/* The next part; false when nothing is left, or a newer wish has come. */
static bool go_on_with(sl_study_thread *self, sl_study_work *work)
{
    const work_part part = work->part;
    bool newest = true;
    if (part == FIRST_MEMBERS || part == MEMBERS) {
        newest = grow(self, &work->wish, &work->asked, &work->sum, &work->found);
    } else {
        newest = find_views(self, &work->wish, part == ROUGH_VIEWS, &work->found);
    }
    work->part = part == MEMBERS ? MEMBERS : (work_part)(part + 1);
    return newest && (work->part != MEMBERS || work->sum->members < SL_MEMBERS);
}

static void end_work(sl_study_work *work)
{
    sl_spread_free(work->sum);
    sl_study_free(&work->found);
    free_wish(&work->wish);
}

static int run(void *self_)
{
    sl_study_thread *self = self_;
    sl_study_work *const work = &self->work;
    while (next(self, &work->wish)) {
        begin_work(work);
        while (go_on_with(self, work)) {
        }
        end_work(work);
    }
    return 0;
}

void sl_study_thread_work(sl_study_thread *self)
{
    if (self->thread != NULL || (!self->working && !self->has_asked)) {
        return;
    }
    if (!self->working) {
        next(self, &self->work.wish);
        begin_work(&self->work);
    }
    if (!go_on_with(self, &self->work)) {
        end_work(&self->work);
        self->working = false;
    }
}

sl_study_thread *sl_study_thread_start(Uint32 wake, bool threads, sl_error *error)
{
    sl_study_thread *self = sl_new(1, sizeof *self, "starting the ensemble", error);
    if (self == NULL) {
        return NULL;
    }
    self->wake = wake;
    self->solver = sl_solver_new(error);
    self->lock = SDL_CreateMutex();
    self->asked_something = SDL_CreateCond();
    const bool ready = self->solver != NULL && self->lock != NULL && self->asked_something != NULL;
    if (ready && threads) {
        self->thread = SDL_CreateThread(run, "study", self);
    }
    if (!ready || (threads && self->thread == NULL)) {
        if (self->solver != NULL) {
            sl_fail(error, SL_ERR_MISSING_PART, SDL_GetError(), "the window needs a thread to count in");
        }
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
    if (self->thread != NULL) {
        SDL_LockMutex(self->lock);
        self->leave = true;
        SDL_CondSignal(self->asked_something);
        SDL_UnlockMutex(self->lock);
        SDL_WaitThread(self->thread, NULL);
    }
    SDL_DestroyCond(self->asked_something);
    SDL_DestroyMutex(self->lock);
    if (self->thread == NULL && self->working) {
        end_work(&self->work);
    }
    sl_solver_free(self->solver);
    free_wish(&self->asked);
    sl_study_free(&self->found);
    sl_free(self);
}

void sl_study_thread_ask(sl_study_thread *self, sl_study_wish *wish)
{
    SDL_LockMutex(self->lock);
    sl_study_wish dropped = self->asked;
    sl_study unread = self->found;
    self->asked = *wish;
    self->has_asked = true;
    self->has_found = false;
    memset(&self->found, 0, sizeof self->found);
    SDL_CondSignal(self->asked_something);
    SDL_UnlockMutex(self->lock);
    memset(wish, 0, sizeof *wish);
    free_wish(&dropped);
    sl_study_free(&unread);
}

bool sl_study_thread_busy(sl_study_thread *self)
{
    SDL_LockMutex(self->lock);
    const bool busy = self->has_asked || self->working || self->has_found;
    SDL_UnlockMutex(self->lock);
    return busy;
}

bool sl_study_thread_take(sl_study_thread *self, sl_study *study)
{
    SDL_LockMutex(self->lock);
    const bool has = self->has_found;
    if (has) {
        merge(study, &self->found);
        self->has_found = false;
    }
    SDL_UnlockMutex(self->lock);
    return has;
}
