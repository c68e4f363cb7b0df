/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is said of leave (slowlift/leave.h) wherever minutes could stand: whose hair a page is for,
 * which label ends an arm and by which clock. One sentence each, for every page and file.
 */
#ifndef SLOWLIFT_REPORT_LEAVE_WORDS_H
#define SLOWLIFT_REPORT_LEAVE_WORDS_H

#include <stdio.h>

#include "document/document.h"
#include "slowlift/leave.h"

/* Whether the person was made up for a class. NULL: nobody was. */
bool sl_is_made_up(const sl_person *person);
/* The first line of a page: "CUT SWATCHES on a bench, 24 °C. Not for a head." person NULL: nobody. */
void sl_lies_words(const sl_scene *scene, const sl_person *person, char *text, size_t size);
/* The same for machines, never translated: "cut swatches", "a head", "one person", "a made-up person". */
const char *sl_lies_for(const sl_scene *scene, const sl_person *person);

/* "the label's time, 20 min from mixing by the form; the mix is 5 min old at contact". A label that
 * was not entered has no words: "". */
void sl_label_words(const sl_label *label, char *text, size_t size);
/* "label: "powder + 3 %" is to stay on for 45 min and must be off after 25: ..."; false: no label
 * ends an application of this arm before its time. */
bool sl_overrun_words(const sl_scene *scene, int arm, char *text, size_t size);
/* Into a document: whose hair it is about; a row for each arm that is planned past its label (only >= 0: that
 * arm's), and one for mixes whose label nobody entered; nothing where all is in order. */
void sl_say_lies(sl_document *document, const sl_scene *scene, const sl_person *person);
void sl_say_labels(sl_document *document, const sl_scene *scene, const sl_person *person, int only);
/* What the numbers of a scene are worth. */
void sl_say_note(sl_document *document, const sl_scene *scene);
/* That members are missing. */
void sl_say_partial(sl_document *document, long members, long asked_for);

#endif
