/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two pages for who opens slowlift for the first time: what it is, what to press, the whole job, words.
 */
#ifndef SLOWLIFT_REPORT_QUICK_START_H
#define SLOWLIFT_REPORT_QUICK_START_H

#include "document/document.h"

sl_document_sayer sl_quick_start_say; /* of nothing: NULL */

#endif
