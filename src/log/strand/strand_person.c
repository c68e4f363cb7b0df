/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which strands of a log count for a form, arm by arm; see strand_log.h.
 */
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/memory.h"
#include "log/store/sql.h"
#include "slowlift/part.h"
#include "slowlift/strand_log.h"

static int n_lacks(const sl_strand *strand)
{
    int n = 0;
    for (int i = 0; i < SL_STRAND_WORTHS; i++) {
        n += strand->lacks[i] ? 1 : 0;
    }
    return n;
}

/* What counts before what does not, the newer before the older; else what lacks least. */
static bool better(const sl_strand *one, const sl_strand *other)
{
    if (n_lacks(one) != n_lacks(other)) {
        return n_lacks(one) < n_lacks(other);
    }
    return one->day != other->day ? one->day > other->day : one->watched_min > other->watched_min;
}

typedef struct choice {
    const sl_strand_record *record; /* NULL: none of this person */
    sl_strand strand;
} choice;

/* Among several people's strands this person's alone are looked at; one that was named is judged whose ever
 * it is. */
static choice choose(const sl_strand_record *records, int n, const char *code, const sl_intake *form,
                     uint64_t mix, int today)
{
    choice best = {NULL, {.worth = SL_STRAND_NONE}};
    for (int i = 0; i < n; i++) {
        const sl_strand_record *const record = &records[i];
        if (!code && strcmp(record->person, form->person) != 0) {
            continue;
        }
        sl_strand strand = sl_strand_judge(record, form, mix, today);
        memcpy(strand.test, record->test, sizeof strand.test);
        memcpy(strand.code, record->code, sizeof strand.code);
        strand.day = record->day;
        strand.of_day = today;
        if (!best.record || better(&strand, &best.strand)) {
            best = (choice){record, strand};
        }
    }
    return best;
}

/* What the strand showed inside the label's time; later looks are what they are, and no minute needs them. */
static bool put_showed(sl_intake *form, const sl_strand_record *record, int arm, sl_error *error)
{
    for (int i = 0; i < record->showed.n; i++) {
        sl_observation observation = record->showed.observation[i];
        observation.arm = arm;
        if (!(observation.minute <= form->label_min)) {
            continue;
        }
        if (form->showed.n >= SL_MOST_OBSERVATIONS) {
            return sl_fail(error, SL_ERR_TOO_LARGE, "looks at strands",
                           "32 graded looks at most; name one strand");
        }
        form->showed.observation[form->showed.n++] = observation;
    }
    return true;
}

/* What was typed goes, for a log tells it better; what lay longer than the label stays, and stops. */
static void drop_typed(sl_intake *form)
{
    int n = 0;
    for (int i = 0; i < form->showed.n; i++) {
        if (!(form->showed.observation[i].minute <= form->label_min)) {
            form->showed.observation[n++] = form->showed.observation[i];
        }
    }
    form->showed.n = n;
}

static bool put_arms(const sl_strand_record *records, int n, const char *code, const sl_scene *scene,
                     int today, sl_intake *form, sl_person *person, sl_error *error)
{
    drop_typed(form);
    for (int arm = 0; arm < scene->n_arms; arm++) {
        if (!sl_arm_application(&scene->arms[arm])) {
            continue;
        }
        const choice best = choose(records, n, code, form, sl_arm_fingerprint(scene, arm), today);
        person->strand[arm] = best.strand;
        if (best.strand.worth == SL_STRAND_COUNTED && !put_showed(form, best.record, arm, error)) {
            return false;
        }
    }
    return true;
}

/* Those of this test and swatch, moved to the front. */
static int only_of(sl_strand_record *records, int n, const char *test, const char *code)
{
    int kept = 0;
    for (int i = 0; i < n; i++) {
        if ((!test || strncmp(records[i].test, test, sizeof records[i].test - 1) == 0) &&
            (!code || strcmp(records[i].code, code) == 0)) {
            records[kept++] = records[i];
        }
    }
    return kept;
}

bool sl_log_person(sl_log *log, const char *test, const char *code, const sl_scene *scene, int today,
                   sl_intake *form, sl_person *person, sl_error *error)
{
    sl_strand_record *records = NULL;
    sl_log_test found;
    int n = 0;
    if ((test && !sl_log_find(log, test, &found, error)) ||
        !sl_log_strands(log, scene, &records, &n, error)) {
        return false;
    }
    n = only_of(records, n, test ? found.id : NULL, code);
    person->form = form;
    const bool good = put_arms(records, n, code, scene, today, form, person, error);
    sl_free(records);
    return good;
}

/* "LOG:TEST:SWATCH" in three; a file whose name holds a colon is named whole. */
static void part_place(char *place, const char **test, const char **code)
{
    char *second = strrchr(place, ':');
    *test = *code = NULL;
    if (access(place, F_OK) == 0 || !second) {
        return;
    }
    *second = '\0';
    char *const first = access(place, F_OK) == 0 ? NULL : strrchr(place, ':');
    if (first) {
        *first = '\0';
        *test = first + 1;
        *code = second + 1;
    } else {
        *test = second + 1;
    }
}

bool sl_strand_of_place(const char *place, const sl_scene *scene, sl_intake *form, sl_person *person,
                        sl_error *error)
{
    char path[SL_LOG_PATH];
    const char *test = NULL, *code = NULL;
    sl_log *log = NULL;
    int today = 0;
    if (strlen(place) >= sizeof path) {
        return sl_fail(error, SL_ERR_CANNOT_READ, "the log of the strand", "its name is too long");
    }
    memcpy(path, place, strlen(place) + 1);
    part_place(path, &test, &code);
    const bool good = sl_today(&today, error) && sl_log_open(&log, path, SL_LOG_READ, error) &&
                      sl_log_person(log, test && test[0] != '\0' ? test : NULL,
                                    code && code[0] != '\0' ? code : NULL, scene, today, form, person, error);
    sl_log_close(log);
    return good;
}
