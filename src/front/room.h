/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The files of answers of a class. A file that does not read is said and passed over.
 */
#ifndef SLOWLIFT_FRONT_ROOM_H
#define SLOWLIFT_FRONT_ROOM_H

#include <stdbool.h>
#include <stddef.h>

#include "front/complain.h"
#include "slowlift/lesson.h"

typedef struct sl_room {
    sl_learner_answers *answers; /* [n] in the order of their codes; sl_free() */
    size_t n, capacity;
    sl_exit worst; /* of the files that did not read */
} sl_room;

/* Every .yaml file of the folder; fails when there is none. Fill *room with zeroes first. */
bool sl_room_gather(sl_room *room, const char *folder, sl_error *error);

#endif
