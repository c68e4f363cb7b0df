/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a strand counts; see strand.h. Each condition is one line of one table.
 */
#include "slowlift/strand.h"

#include <math.h>
#include <string.h>

/* Graded looks at different minutes. */
static int looks_of(const sl_observations *showed, double *last_min)
{
    int n = 0;
    *last_min = 0.0;
    for (int i = 0; i < showed->n; i++) {
        bool first = true;
        for (int k = 0; k < i; k++) {
            first = first && fabs(showed->observation[k].minute - showed->observation[i].minute) > 0.0;
        }
        n += first ? 1 : 0;
        *last_min = fmax(*last_min, showed->observation[i].minute);
    }
    return n;
}

static void find_lacks(bool lacks[SL_STRAND_WORTHS], const sl_strand_record *record, const sl_intake *form,
                       uint64_t mix, int today)
{
    const int age = today - record->day;
    const bool none = record->person[0] == '\0' || strcmp(record->person, form->person) != 0;
    lacks[SL_STRAND_OTHER_PERSON] = none;
    lacks[SL_STRAND_MADE_UP] = record->made_up && !form->practice;
    lacks[SL_STRAND_REAL] = !record->made_up && form->practice;
    lacks[SL_STRAND_REHEARSED] = record->rehearsed && !form->practice;
    lacks[SL_STRAND_OTHER_MIX] = record->mix == 0 || record->mix != mix;
    lacks[SL_STRAND_OLDER_PACKET] = record->packet_day <= 0 || form->packet_day <= 0 ||
                                    record->packet_day < form->packet_day ||
                                    (record->day > 0 && record->packet_day > record->day);
    lacks[SL_STRAND_OTHER_PART] = record->part == SL_HAIR_NOWHERE || record->part != form->part;
    lacks[SL_STRAND_ON_HEAD] = !record->cut;
    lacks[SL_STRAND_OLD] = record->day <= 0 || age > SL_STRAND_MOST_DAYS;
    lacks[SL_STRAND_LATER] = record->day > 0 && age < 0;
    lacks[SL_STRAND_HAIR_CHANGED] = form->reply[SL_INTAKE_SINCE] != SL_REPLY_NO;
    lacks[SL_STRAND_UNTIMED] = !(record->lay_min > 0.0);
    lacks[SL_STRAND_UNWASHED] = !record->washed;
    lacks[SL_STRAND_UNGRADED] = !record->graded;
    lacks[SL_STRAND_UNFELT] = !record->stretched || !record->felt;
    lacks[SL_STRAND_BAD] = record->bad;
    lacks[SL_STRAND_HEATED] = record->heated;
}

sl_strand sl_strand_judge(const sl_strand_record *record, const sl_intake *form, uint64_t mix, int today)
{
    sl_strand strand = {.worth = SL_STRAND_COUNTED};
    strand.looks = looks_of(&record->showed, &strand.watched_min);
    find_lacks(strand.lacks, record, form, mix, today);
    strand.lacks[SL_STRAND_FEW_LOOKS] = strand.looks < SL_STRAND_LEAST_LOOKS;
    for (int worth = SL_STRAND_COUNTED - 1; worth >= 0; worth--) {
        strand.worth = strand.lacks[worth] ? (sl_strand_worth)worth : strand.worth;
    }
    return strand;
}
