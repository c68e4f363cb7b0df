/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The files of answers of a class. A file that does not read is said and passed over.
 */
#include "front/room.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/language.h"
#include "base/memory.h"
#include "front/places.h"

static bool is_yaml(const char *name)
{
    const size_t length = strlen(name);
    return name[0] != '.' && length > 5 && strcmp(name + length - 5, ".yaml") == 0;
}

static bool add_file(sl_room *room, const char *folder, const char *name, sl_error *error)
{
    char path[SL_PLACES_PATH];
    const int length = snprintf(path, sizeof path, "%s/%s", folder, name);
    if (length < 0 || length >= SL_PLACES_PATH) {
        return sl_fail(error, SL_ERR_TOO_LARGE, "a path is too long", "4095 bytes");
    }
    if (!sl_grow(&room->answers, &room->capacity, room->n + 1, sizeof room->answers[0], "reading a class",
                 error)) {
        return false;
    }
    sl_error own = {.code = SL_OK};
    if (sl_learner_answers_load(&room->answers[room->n], path, NULL, &own)) {
        room->n++;
        return true;
    }
    const sl_exit one = sl_complain(&own);
    room->worst = one > room->worst ? one : room->worst;
    return true;
}

static bool read_all(sl_room *room, const char *folder, sl_error *error)
{
    DIR *const open = opendir(folder);
    const struct dirent *file = NULL;
    if (open == NULL) {
        char found[SL_ERROR_TEXT_SIZE];
        snprintf(found, sizeof found, _("--class: the folder \"%.150s\" cannot be opened"), folder);
        return sl_fail(error, SL_ERR_USAGE, found, "give the folder that holds the files of answers");
    }
    bool good = true;
    while (good && (file = readdir(open)) != NULL) {
        good = !is_yaml(file->d_name) || add_file(room, folder, file->d_name, error);
    }
    closedir(open);
    return good;
}

static int by_code(const void *one, const void *two)
{
    return strcmp(((const sl_learner_answers *)one)->code, ((const sl_learner_answers *)two)->code);
}

bool sl_room_gather(sl_room *room, const char *folder, sl_error *error)
{
    if (!read_all(room, folder, error)) {
        return false;
    }
    if (room->n == 0) {
        return sl_fail(error, SL_ERR_USAGE, "there is no file of answers in that folder",
                       "students write them with slowlift teach LESSON --answers FILE");
    }
    qsort(room->answers, room->n, sizeof room->answers[0], by_code); /* folders list in any order */
    return true;
}
