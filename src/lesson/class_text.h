/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a class answered, for people and for machines. No student stands in it.
 */
#ifndef SLOWLIFT_LESSON_CLASS_TEXT_H
#define SLOWLIFT_LESSON_CLASS_TEXT_H

#include "document/document.h"
#include "document/table.h"
#include "slowlift/lesson.h"

typedef struct sl_class_lesson {
    sl_lesson *lesson;
    sl_class class_;
} sl_class_lesson;

typedef struct sl_class_report {
    sl_class_lesson *lesson; /* [n] */
    size_t n;
    const sl_quiz *quiz; /* NULL: nobody took it */
    sl_quiz_class taken;
} sl_class_report;

sl_document_sayer sl_class_say;
/* Below the heading of its lesson. */
void sl_class_say_lesson(sl_document *document, const sl_class *class_, const sl_lesson *lesson);
/* A row for each choice. */
extern const sl_export sl_class_export;

#endif
