/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Loaded before a program (LD_PRELOAD): from the allocation STARVE_AT on, there is no memory; libraries
 * are starved with it. 0: none fails, and how many there were is written to the file STARVE_COUNT.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static atomic_long asked;
static long starve_at = -1;
static _Thread_local int inside;

static void *(*real_malloc)(size_t);
static void *(*real_calloc)(size_t, size_t);
static void *(*real_realloc)(void *, size_t);

/* What dlsym() itself needs before the real ones are known. */
static char early[4096];
static size_t early_used;

static void *from_early(size_t size)
{
    void *const memory = early + early_used;
    early_used += (size + 15) / 16 * 16;
    return memory;
}

static void find(void)
{
    inside++;
    *(void **)&real_malloc = dlsym(RTLD_NEXT, "malloc");
    *(void **)&real_calloc = dlsym(RTLD_NEXT, "calloc");
    *(void **)&real_realloc = dlsym(RTLD_NEXT, "realloc");
    const char *const wanted = getenv("STARVE_AT");
    starve_at = wanted ? strtol(wanted, NULL, 10) : 0;
    inside--;
}

static int starved(void)
{
    if (starve_at < 0) {
        find();
    }
    const long number = atomic_fetch_add(&asked, 1) + 1;
    if (starve_at > 0 && number >= starve_at) {
        errno = ENOMEM;
        return 1;
    }
    return 0;
}

void *malloc(size_t size)
{
    if (inside) {
        return from_early(size);
    }
    return starved() ? NULL : real_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    if (inside) {
        return from_early(count * size);
    }
    return starved() ? NULL : real_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    return starved() ? NULL : real_realloc(old, size);
}

static __attribute__((destructor)) void tell(void)
{
    const char *const path = getenv("STARVE_COUNT");
    FILE *const file = path && starve_at == 0 ? fopen(path, "w") : NULL;
    if (file) {
        fprintf(file, "%ld\n", atomic_load(&asked));
        fclose(file);
    }
}
