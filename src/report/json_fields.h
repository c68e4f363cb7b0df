/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A record as JSON: the members that its rows say are told, in their order.
 */
#ifndef SLOWLIFT_REPORT_JSON_FIELDS_H
#define SLOWLIFT_REPORT_JSON_FIELDS_H

#include "document/json_text.h"
#include "scene/field.h"

/* Into the object that is open: what is told of a record from one turn to another; what is worked out, or
 * named elsewhere, can stand between two. */
void sl_json_fields(sl_json *json, const sl_fields *rows, const void *record, int from_turn, int to_turn);

#endif
