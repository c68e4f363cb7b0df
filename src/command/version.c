/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * `slowlift --version`, and with `--all` what a report of a fault needs: how this program was built,
 * which libraries it was built with and runs with, which models it would use, and in which language.
 * Nothing of the person or the machine's name is in it.
 */
#include "command/version.h"

#include <build_facts.h> /* made by CMake */
#include <dirent.h>
#include <gsl/gsl_version.h>
#include <sha256.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>
#include <sys/utsname.h>
#include <unistring/version.h>
#include <yaml.h>

#include "base/language.h"
#include "base/memory.h"
#include "base/plain_text.h"
#include "front/places.h"
#include "scene/yaml/file.h"
#include "slowlift/edition.h"

static void put(const char *name, const char *text)
{
    printf("%-10s ", name);
    sl_text_put(stdout, text);
    putchar('\n');
}

static void put_libraries(void)
{
    printf("%-10s GSL %s / %s\n", "libraries", GSL_VERSION, gsl_version);
    printf("%-10s libyaml %s / %s\n", "", SLOWLIFT_YAML_VERSION, yaml_get_version_string());
    printf("%-10s SQLite %s / %s\n", "", SQLITE_VERSION, sqlite3_libversion());
    printf("%-10s libunistring %d.%d / %d.%d\n", "", _LIBUNISTRING_VERSION >> 16,
           _LIBUNISTRING_VERSION >> 8 & 0xFF, _libunistring_version >> 16, _libunistring_version >> 8 & 0xFF);
    printf("%-10s %s\n", "", SLOWLIFT_OTHER_LIBRARIES);
}

/* ---- models ------------------------------------------------------------------------------------- */

static int is_model(const struct dirent *entry)
{
    const size_t length = strlen(entry->d_name);
    return entry->d_name[0] != '.' && length > 5 && strcmp(entry->d_name + length - 5, ".yaml") == 0;
}

/* By bytes, so that every locale has the same order. */
static int by_bytes(const struct dirent **one, const struct dirent **other)
{
    return strcmp((*one)->d_name, (*other)->d_name);
}

/* Name and text of a file; one that cannot be read counts by its name. */
static void add_file(SHA2_CTX *sum, const char *path, const char *kind, const char *name)
{
    char *text = NULL;
    size_t length = 0;
    SHA256Update(sum, (const uint8_t *)kind, strlen(kind) + 1);
    SHA256Update(sum, (const uint8_t *)name, strlen(name) + 1);
    if (sl_file_read(path, N_("the scene that is read"), &text, &length, NULL, NULL)) {
        SHA256Update(sum, (const uint8_t *)text, length);
        sl_free(text);
    }
}

static int add_kind(SHA2_CTX *sum, const char *folder, const char *kind)
{
    char path[2 * SL_PLACES_PATH];
    struct dirent **found = NULL;
    snprintf(path, sizeof path, "%s/%s", folder, kind);
    const int n = scandir(path, &found, is_model, by_bytes);
    for (int i = 0; i < n; i++) {
        snprintf(path, sizeof path, "%s/%s/%s", folder, kind, found[i]->d_name);
        add_file(sum, path, kind, found[i]->d_name);
        free(found[i]);
    }
    free(found);
    return n > 0 ? n : 0;
}

static void put_models(const char *folder)
{
    static const char *const kinds[] = {"charts", "chemistry", "dyes",   "forms",
                                        "hair",   "mixes",     "prices", "scenes"};
    SHA2_CTX sum;
    char hash[SHA256_DIGEST_STRING_LENGTH];
    int n = 0;
    SHA256Init(&sum);
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        n += add_kind(&sum, folder, kinds[i]);
    }
    SHA256End(&sum, hash);
    printf("%-10s ", "models");
    sl_text_put(stdout, folder);
    printf(" (%d files, SHA-256 %s)\n", n, hash);
}

/* ---- all ---------------------------------------------------------------------------------------- */

static void put_language(void)
{
    static const char *const names[] = {"SLOWLIFT_LANGUAGE", "LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"};
    printf("%-10s %s", "language", sl_language());
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *const said = getenv(names[i]);
        if (said) {
            printf(" %s=", names[i]);
            sl_text_put(stdout, said);
        }
    }
    putchar('\n');
}

static void put_all(void)
{
    struct utsname system;
    sl_places places;
    put("build", SLOWLIFT_BUILD);
    put("compiler", SLOWLIFT_COMPILER);
    put("flags", SLOWLIFT_FLAGS);
    put("hardening", SLOWLIFT_HARDENED);
    put_libraries();
    printf("%-10s %d of %s\n", "model", sl_edition_now, sl_edition_day());
    if (uname(&system) == 0) {
        printf("%-10s %s %s %s\n", "system", system.sysname, system.release, system.machine);
    }
    if (sl_places_find(&places, NULL, NULL, NULL)) {
        for (int i = 0; i < places.n_folders; i++) {
            put_models(places.folder[i]);
        }
    }
    put_language();
}

sl_exit sl_version(bool all)
{
    puts("slowlift " SLOWLIFT_VERSION);
    puts(_("GPL-3.0-or-later; models, lessons and cautions CC0-1.0"));
    if (all) {
        put_all();
    }
    return sl_finish_output(true);
}
