/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene copied to a memory of its own: every list and every text that its rows name.
 */
#include <string.h>

#include "scene/files/scene_file.h"

typedef struct sl_copying {
    sl_arena *arena;
    sl_error *error;
    bool good; /* false once memory has run out; then nothing more is copied */
} sl_copying;

static void copy_text(sl_copying *copying, const char **text)
{
    if (*text && copying->good) {
        *text = sl_arena_text(copying->arena, *text, strlen(*text), copying->error);
        copying->good = *text != NULL;
    }
}

static void copy_wording(sl_copying *copying, sl_wording *wording)
{
    for (int i = 0; i < SL_LANGUAGES; i++) {
        copy_text(copying, &wording->in[i]);
    }
}

/* A copy of the array, or of nothing when it is empty. */
static void *copy_array(sl_copying *copying, const void *from, int n, size_t size)
{
    if (!copying->good) {
        return NULL;
    }
    void *const to = sl_arena_new(copying->arena, (size_t)n, size, "copying a scene", copying->error);
    copying->good = to != NULL;
    if (to && n > 0) {
        memcpy(to, from, (size_t)n * size);
    }
    return to;
}

static void copy_record(sl_copying *copying, const sl_fields *rows, void *record);

/* The records of a row; behind a pointer they are copied themselves, too. */
static void copy_list(sl_copying *copying, const sl_field *field, void *record)
{
    const int n = sl_field_count(field, record);
    char *first = sl_field_at(field, record);
    if (sl_field_is_pointer(field)) {
        first = copy_array(copying, sl_field_first(field, record), n, field->element);
        memcpy(sl_field_at(field, record), &first, sizeof first);
    }
    for (int i = 0; copying->good && i < n; i++) {
        copy_record(copying, field->rows, first + (size_t)i * field->element);
    }
}

static void copy_rates(sl_copying *copying, sl_rates *rates)
{
    for (int channel = 0; channel < SL_CHANNELS; channel++) {
        copy_text(copying, &rates->k[channel].source);
    }
}

static void copy_member(sl_copying *copying, const sl_field *field, void *record)
{
    void *const at = sl_field_at(field, record);
    switch (field->kind) {
    case SL_FIELD_TEXT:
        copy_text(copying, at);
        return;
    case SL_FIELD_WORDING:
        copy_wording(copying, at);
        return;
    case SL_FIELD_PARAM:
        copy_text(copying, &((sl_param *)at)->source);
        return;
    case SL_FIELD_RATES:
        copy_rates(copying, at);
        return;
    case SL_FIELD_WITHIN:
        copy_record(copying, field->rows, at);
        return;
    case SL_FIELD_LIST:
        copy_list(copying, field, record);
        return;
    case SL_FIELD_NUMBER:
    case SL_FIELD_NUMBERS:
    case SL_FIELD_WHOLE:
    case SL_FIELD_YES:
    case SL_FIELD_WORD:
    case SL_FIELD_BOUND:
    case SL_FIELD_OWN:
        return; /* points to nothing */
    }
}

static void copy_record(sl_copying *copying, const sl_fields *rows, void *record)
{
    for (int i = 0; copying->good && i < rows->n; i++) {
        copy_member(copying, &rows->field[i], record);
    }
}

sl_scene *sl_scene_copy(const sl_scene *scene, sl_error *error)
{
    sl_scene *const copy = sl_scene_new(error);
    if (!copy) {
        return NULL;
    }
    struct sl_scene_memory *const memory = copy->memory;
    *copy = *scene;
    copy->memory = memory;
    sl_copying copying = {.arena = &memory->arena, .error = error, .good = true};
    copy_record(&copying, &sl_scene_fields, copy);
    if (!copying.good) {
        sl_scene_free(copy);
        return NULL;
    }
    return copy;
}
