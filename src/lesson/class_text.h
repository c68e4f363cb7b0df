/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The choices of a class for machines; sl_class_csv() says of which class.
 */
#ifndef SLOWLIFT_LESSON_CLASS_TEXT_H
#define SLOWLIFT_LESSON_CLASS_TEXT_H

#include "document/table.h"

extern const sl_export sl_class_export;

#endif
