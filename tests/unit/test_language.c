/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * base/language.h: catalogues that are whole, cut short or torn, and which language is wished.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "suite.h"

static char folder[] = "/tmp/language-XXXXXX";
static char path[128];

/* The catalogue of two texts, one of them plural, laid as GNU gettext's manual draws it. */
static const unsigned char whole[] = {
    0xde, 0x12, 0x04, 0x95, 0,   0,   0,   0,   2,   0,   0,   0, 28, 0, 0, 0,
    44,   0,    0,    0,    0,   0,   0,   0,   0,   0,   0,   0,              /* head */
    8,    0,    0,    0,    60,  0,   0,   0,   4,   0,   0,   0, 69, 0, 0, 0, /* originals: length, offset */
    11,   0,    0,    0,    74,  0,   0,   0,   4,   0,   0,   0, 86, 0, 0, 0, /* translations */
    'd',  'y',  'e',  0,    'd', 'y', 'e', 's', 0,                             /* 60 */
    'h',  'a',  'i',  'r',  0,                                                 /* 69 */
    't',  'i',  'n',  't',  'e', 0,   't', 'i', 'n', 't', 's', 0,              /* 74 */
    'p',  'e',  'l',  'o',  0};                                                /* 86 */

static void write_catalogue(const unsigned char *bytes, size_t size)
{
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, size, file), size);
    ck_assert_int_eq(fclose(file), 0);
}

START_TEST(a_whole_catalogue_gives_its_words)
{
    sl_error error = {.code = SL_OK};
    write_catalogue(whole, sizeof whole);
    ck_assert_str_eq(sl_in_language("hair"), "hair");
    ck_assert(sl_language_use("es", folder, &error));
    ck_assert_str_eq(sl_language(), "es");
    ck_assert_str_eq(sl_in_language("hair"), "pelo");
    ck_assert_str_eq(sl_in_language("bowl"), "bowl");
    ck_assert_str_eq(sl_in_language(""), "");
    ck_assert_str_eq(sl_plural("dye", "dyes", 1), "tinte");
    ck_assert_str_eq(sl_plural("dye", "dyes", 0), "tints");
    sl_language_stop();
    ck_assert_str_eq(sl_plural("dye", "dyes", 2), "dyes");
    ck_assert_str_eq(sl_language(), "en");
}
END_TEST

START_TEST(a_catalogue_cut_short_anywhere_is_refused_and_English_stays)
{
    for (size_t size = 0; size < sizeof whole; size++) {
        sl_error error = {.code = SL_OK};
        write_catalogue(whole, size);
        ck_assert(!sl_language_use("es", folder, &error));
        ck_assert_int_eq(error.code, SL_ERR_MISSING_PART);
        ck_assert_str_eq(sl_in_language("hair"), "hair");
    }
}
END_TEST

/* Whatever one byte becomes: refused, or read without leaving the block (sanitizers would see it). */
START_TEST(a_torn_catalogue_is_never_read_past_its_end)
{
    for (size_t at = 0; at < sizeof whole; at++) {
        unsigned char torn[sizeof whole];
        memcpy(torn, whole, sizeof whole);
        torn[at] = 0xff;
        write_catalogue(torn, sizeof torn);
        if (sl_language_use("es", folder, NULL)) {
            ck_assert_ptr_nonnull(sl_in_language("hair"));
            ck_assert_ptr_nonnull(sl_in_language("dye"));
        }
        sl_language_stop();
    }
}
END_TEST

START_TEST(the_environment_names_the_language)
{
    static const struct {
        const char *name, *value, *letters;
    } cases[] = {{"LANG", "es_MX.UTF-8", "es"},
                 {"LANG", "es", "es"},
                 {"LANG", "est", "en"},
                 {"LC_ALL", "C", "en"},
                 {"LANGUAGE", "es:en", "es"},
                 {"LANGUAGE", "en:es", "en"},
                 {"LC_MESSAGES", "es_ES@euro", "es"}};
    static const char *const names[] = {"SLOWLIFT_LANGUAGE", "LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (size_t n = 0; n < sizeof names / sizeof names[0]; n++) {
            unsetenv(names[n]);
        }
        ck_assert_str_eq(sl_language_wished(), "en");
        setenv(cases[i].name, cases[i].value, 1);
        ck_assert_str_eq(sl_language_wished(), cases[i].letters);
    }
}
END_TEST

/* Once for all tests, each of which writes its catalogue there. */
static void make_folder(void)
{
    char command[160];
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(command, sizeof command, "mkdir -p %s/es/LC_MESSAGES", folder);
    ck_assert_int_eq(system(command), 0);
    snprintf(path, sizeof path, "%s/es/LC_MESSAGES/slowlift.mo", folder);
}

static void remove_folder(void)
{
    char command[160];
    snprintf(command, sizeof command, "rm -r %s", folder);
    ck_assert_int_eq(system(command), 0);
}

START_SUITE("language")
FIXTURE_ONCE(make_folder, remove_folder)
ADD(a_whole_catalogue_gives_its_words)
ADD(a_catalogue_cut_short_anywhere_is_refused_and_English_stays)
ADD(a_torn_catalogue_is_never_read_past_its_end)
ADD(the_environment_names_the_language)
END_SUITE
