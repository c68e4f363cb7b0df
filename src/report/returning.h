/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a reducing mix leaves without colour and what comes back of it, in words.
 */
#ifndef SLOWLIFT_REPORT_RETURNING_H
#define SLOWLIFT_REPORT_RETURNING_H

#include "document/document.h"
#include "slowlift/timeline.h"

/* A row by the central values, of every arm (only: -1) or of one, by its number: by how many points the
 * colour of the zone in which most comes back rises from where its hair has dried to a day after the last
 * water, all as planned; from one point on. Nothing where no arm has such a zone. */
void sl_say_returning(sl_document *document, const sl_timeline *timeline, int only);

#endif
