/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What leaves the room after a test, as documents: the report of it all, the school's sheet, a client's, and
 * the one that says no. Each is made of what a log and files know; what they do not know is a line to write
 * on.
 *
 * Invariant: the client's sheet and the one that says no hold no minute but those at which somebody looked.
 */
#ifndef SLOWLIFT_LOG_PAPERS_H
#define SLOWLIFT_LOG_PAPERS_H

#include "log/compare/compare_page.h"
#include "log/papers/kept.h"
#include "report/plan/plan.h"
#include "slowlift/leave.h"

/* The whole of a test (whole.c). */
typedef struct sl_whole_paper {
    const sl_kept_test *kept;
    sl_plan_page plan; /* plan NULL: of a person's hair nothing is planned */
    sl_compare_page seen;
    sl_document_sayer *predicted; /* NULL: the model says nothing about this scene */
    const void *prediction;       /* what that is a sayer of */
} sl_whole_paper;
sl_document_sayer sl_paper_whole; /* of a sl_whole_paper */

/* For a school (school.c): risks, people, waste, names to sign for. */
enum { SL_PAPER_OUTCOMES = 60 };
typedef struct sl_school_paper {
    const sl_kept_test *kept;
    int n_outcomes;
    const char *outcome[SL_PAPER_OUTCOMES]; /* [n_outcomes] of a curriculum, in its own words */
} sl_school_paper;
sl_document_sayer sl_paper_school; /* of a sl_school_paper */

/* For the person whose hair it is (client.c). */
typedef struct sl_client_paper {
    const sl_kept_test *kept;
    const sl_person *person; /* with a form */
} sl_client_paper;
/* Whether there is something to tell: of the one a form that is clear and a strand that counts, of the other
 * anything in the way. Else SL_ERR_INCONSISTENT. */
bool sl_paper_client_can(const sl_client_paper *paper, sl_error *error);
bool sl_paper_no_can(const sl_client_paper *paper, sl_error *error);
sl_document_sayer sl_paper_client, sl_paper_no; /* of a sl_client_paper */

/* Of each swatch its code, strip, day, place and test, to be cut out (labels.c). */
typedef struct sl_label_paper {
    const sl_kept_test *kept;
    bool blind; /* no strips: for who will look again */
} sl_label_paper;
sl_document_sayer sl_paper_labels; /* of a sl_label_paper */

#endif
