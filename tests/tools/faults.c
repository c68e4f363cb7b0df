/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See faults.h.
 */
#include "faults.h"

#include <stddef.h>

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *memory, size_t size);
void __real_free(void *memory);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *memory, size_t size);
void __wrap_free(void *memory);

static struct {
    bool armed, from_then_on;
    long fails_at;
    faults_count count;
} faults;

static bool fails_now(void)
{
    if (!faults.armed) {
        return false;
    }
    const long call = ++faults.count.calls;
    return call == faults.fails_at || (faults.from_then_on && faults.fails_at > 0 && call > faults.fails_at);
}

static void *counted(void *memory)
{
    faults.count.alive += faults.armed && memory != NULL ? 1 : 0;
    return memory;
}

void *__wrap_malloc(size_t size)
{
    return fails_now() ? NULL : counted(__real_malloc(size));
}

void *__wrap_calloc(size_t count, size_t size)
{
    return fails_now() ? NULL : counted(__real_calloc(count, size));
}

void *__wrap_realloc(void *memory, size_t size)
{
    if (fails_now()) {
        return NULL;
    }
    void *const grown = __real_realloc(memory, size);
    faults.count.alive += faults.armed && memory == NULL && grown != NULL ? 1 : 0;
    return grown;
}

void __wrap_free(void *memory)
{
    faults.count.alive -= faults.armed && memory != NULL ? 1 : 0;
    __real_free(memory);
}

void faults_arm(long fails_at, bool from_then_on)
{
    faults.count = (faults_count){0, 0};
    faults.fails_at = fails_at;
    faults.from_then_on = from_then_on;
    faults.armed = true;
}

faults_count faults_disarm(void)
{
    faults.armed = false;
    return faults.count;
}
