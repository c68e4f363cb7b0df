/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every malformed file of tests/files/bad gets one message with the code and the place that
 * expected.txt gives it. The places there were marked by hand in the files as they were
 * written, before any program read them.
 */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "scene/yaml/node.h"
#include "slowlift/report.h"
#include "slowlift/scene.h"
#include "suite.h"

enum { PATH_SIZE = 512 };

typedef struct expectation {
    char file[64], code[64], other[128]; /* other: the file that is named, when another one */
    int line, column;
} expectation;

static sl_resolver bad_resolver(void)
{
    static const char *const paths[] = {SLOWLIFT_BAD "/models", SLOWLIFT_MODELS};
    static sl_folders folders = {paths, 2};
    return sl_resolver_of_folders(&folders);
}

static bool next_expectation(FILE *list, expectation *next)
{
    char line[512];
    while (fgets(line, sizeof line, list)) {
        *next = (expectation){.line = 0};
        if (line[0] != '#' && sscanf(line, "%63s %63s %d %d %127s", next->file, next->code, &next->line,
                                     &next->column, next->other) >= 4) {
            return true;
        }
    }
    return false;
}

static void check_message(const expectation *expected, const char *path, const sl_error *error)
{
    ck_assert_msg(strcmp(sl_code_name(error->code), expected->code) == 0, "%s: %s, not %s", expected->file,
                  sl_code_name(error->code), expected->code);
    ck_assert_msg(error->line == expected->line && error->column == expected->column, "%s: %d:%d, not %d:%d",
                  expected->file, error->line, error->column, expected->line, expected->column);
    const char *const named = expected->other[0] == '\0' ? path : expected->other;
    const size_t named_length = strlen(named), file_length = strlen(error->file);
    ck_assert_msg(file_length >= named_length && strcmp(error->file + file_length - named_length, named) == 0,
                  "%s: names %s", expected->file, error->file);
    char sentence[2048];
    ck_assert_int_gt(sl_error_sentence(error, sentence, sizeof sentence), 0);
    ck_assert_msg(strpbrk(sentence, "\r\n\t\033") == NULL, "%s: more than one plain line", expected->file);
    ck_assert_msg(strstr(sentence, error->found) != NULL, "%s: %s", expected->file, sentence);
}

START_TEST(every_bad_file_gets_its_one_message)
{
    const sl_resolver resolver = bad_resolver();
    FILE *const list = fopen(SLOWLIFT_BAD "/expected.txt", "r");
    ck_assert_ptr_nonnull(list);
    expectation expected;
    int n = 0;
    while (next_expectation(list, &expected)) {
        char path[PATH_SIZE];
        snprintf(path, sizeof path, SLOWLIFT_BAD "/%s.yaml", expected.file);
        sl_error error;
        ck_assert_msg(!sl_file_check(path, &resolver, NULL, NULL, 0, &error), "%s is not refused",
                      expected.file);
        check_message(&expected, path, &error);
        n++;
    }
    fclose(list);
    ck_assert_int_ge(n, 60);
}
END_TEST

/* Those files hold one fault each, so a check that goes on behind it has no other to tell: what hung on the
 * fault is passed over, and no fault is made up. */
START_TEST(a_check_that_goes_on_finds_that_fault_and_makes_up_none)
{
    sl_faults faults = {.n = 0};
    sl_resolver resolver = bad_resolver();
    resolver.faults = &faults;
    FILE *const list = fopen(SLOWLIFT_BAD "/expected.txt", "r");
    ck_assert_ptr_nonnull(list);
    expectation expected;
    while (next_expectation(list, &expected)) {
        char path[PATH_SIZE];
        snprintf(path, sizeof path, SLOWLIFT_BAD "/%s.yaml", expected.file);
        sl_error error;
        faults.n = 0;
        ck_assert_msg(!sl_file_check(path, &resolver, NULL, NULL, 0, &error), "%s is not refused",
                      expected.file);
        ck_assert_msg(error.code == SL_OK, "%s: %s", expected.file, error.found);
        ck_assert_msg(faults.n == 1, "%s: %d faults, such as %s", expected.file, faults.n,
                      faults.fault[faults.n - 1].found);
        check_message(&expected, path, &faults.fault[0]);
    }
    fclose(list);
}
END_TEST

/* Each fault was put in by hand, on the line that stands behind it. */
START_TEST(a_check_tells_every_fault_of_a_file)
{
    static const char text[] =
        "kind: scene\nversion: 1\ntitle: T\norigin: test\nlies: shelf\nroom: 60 °C\nuntil: 60\n" /* 5 6 7 */
        "hair_mas: 2 g\ndyes: bright-one\nzones:\n"                                              /* 8 */
        "  - {name: red, hair: prelight-9, dye: {rot: 4, blue: 99}}\n"                           /* 11 11 */
        "  - {name: blue, hair: nobodys, dye: {blue: 4}}\n"                                      /* 12 */
        "  - {name: undyed, hair: prelight-9}\n"
        "application: {mix_per_hair: 6 g/g}\narms:\n"
        "  - {name: one, contact: 3, steps: [{apply: powder-6, dwel: 30 min}, {rinse: 2 g}]}\n" /* 16 16 16 */
        "  - {name: two, steps: [{apply: powder-7, dwell: 30 min}, {shampoo: 1.5}]}\n"          /* 17 17 */
        "aims: {colour_lef: 5 %}\n"; /* not read: it needs zones and arms */
    static const int lines[] = {8, 5, 6, 7, 11, 11, 12, 16, 16, 16, 17, 17};
    char path[] = "/tmp/slowlift-faults-XXXXXX";
    const int file = mkstemp(path);
    ck_assert_int_eq(write(file, text, sizeof text - 1), (ssize_t)(sizeof text - 1));
    close(file);
    sl_faults faults = {.n = 0};
    sl_resolver resolver = bad_resolver();
    resolver.faults = &faults;
    sl_error error;
    ck_assert(!sl_file_check(path, &resolver, NULL, NULL, 0, &error));
    unlink(path);
    for (int i = 0; i < faults.n; i++) {
        ck_assert_msg(i < (int)(sizeof lines / sizeof lines[0]) && faults.fault[i].line == lines[i],
                      "fault %d is on line %d: %s", i, faults.fault[i].line, faults.fault[i].found);
    }
    ck_assert_int_eq(faults.n, (int)(sizeof lines / sizeof lines[0]));
}
END_TEST

/* sl_scene_load on the same files: nothing half-read comes out. */
START_TEST(no_bad_file_loads_as_a_scene)
{
    const sl_resolver resolver = bad_resolver();
    FILE *const list = fopen(SLOWLIFT_BAD "/expected.txt", "r");
    ck_assert_ptr_nonnull(list);
    expectation expected;
    while (next_expectation(list, &expected)) {
        char path[PATH_SIZE];
        snprintf(path, sizeof path, SLOWLIFT_BAD "/%s.yaml", expected.file);
        sl_error error;
        ck_assert_ptr_null(sl_scene_load(path, &resolver, &error));
        ck_assert_int_ne(error.code, SL_OK);
    }
    fclose(list);
}
END_TEST

START_TEST(a_file_that_is_not_there_is_named)
{
    const sl_resolver resolver = bad_resolver();
    sl_error error;
    ck_assert(!sl_file_check(SLOWLIFT_BAD "/no-such-file.yaml", &resolver, NULL, NULL, 0, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
    ck_assert_ptr_nonnull(strstr(error.file, "no-such-file.yaml"));
}
END_TEST

START_TEST(a_folder_is_not_read_as_a_file)
{
    const sl_resolver resolver = bad_resolver();
    sl_error error;
    ck_assert(!sl_file_check(SLOWLIFT_BAD, &resolver, NULL, NULL, 0, &error));
    ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
}
END_TEST

START_TEST(more_than_a_mebibyte_is_refused)
{
    const size_t length = 1024 * 1024 + 1;
    char *const text = malloc(length);
    ck_assert_ptr_nonnull(text);
    memset(text, '#', length);
    const sl_resolver resolver = bad_resolver();
    sl_error error;
    ck_assert_ptr_null(sl_scene_parse(text, length, "huge.yaml", &resolver, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    ck_assert_str_eq(error.file, "huge.yaml");
    ck_assert_str_eq(error.wanted, "1 MiB");
    ck_assert(error.line == 0 && error.column == 0); /* of the whole file */
    /* one byte less is only a long comment */
    ck_assert_ptr_null(sl_scene_parse(text, length - 1, "huge.yaml", &resolver, &error));
    ck_assert_int_eq(error.code, SL_ERR_SYNTAX);
    free(text);
}
END_TEST

START_TEST(a_byte_order_mark_takes_no_letter_of_the_file)
{
    static const char marked[] = "\xEF\xBB\xBF"
                                 "kind: lesson";
    const size_t length = sizeof marked - 1;
    for (size_t mark = 0; mark <= 3; mark += 3) {
        sl_yaml document = {.root = NULL};
        ck_assert(sl_yaml_parse(&document, marked + mark, length - mark, "marked.yaml", NULL));
        ck_assert_str_eq(sl_node_child(document.root, "kind")->text, "lesson");
        sl_yaml_free(&document);
    }
}
END_TEST

START_TEST(what_need_not_end_is_refused_unread)
{
    const sl_resolver resolver = bad_resolver();
    char pipe[] = "/tmp/slowlift-pipe-XXXXXX";
    ck_assert_ptr_nonnull(mkdtemp(pipe));
    char path[sizeof pipe + 8];
    snprintf(path, sizeof path, "%s/f.yaml", pipe);
    ck_assert_int_eq(mkfifo(path, 0600), 0);
    const char *const endless[] = {"/dev/zero", "/dev/full", path};
    for (size_t i = 0; i < sizeof endless / sizeof endless[0]; i++) {
        sl_error error;
        ck_assert_ptr_null(sl_scene_load(endless[i], &resolver, &error));
        ck_assert_int_eq(error.code, SL_ERR_CANNOT_READ);
        ck_assert_ptr_nonnull(strstr(error.found, "need not end"));
        ck_assert_str_eq(error.file, endless[i]);
    }
    unlink(path);
    rmdir(pipe);
}
END_TEST

START_TEST(a_file_above_the_limit_is_refused_unread)
{
    const sl_resolver resolver = bad_resolver();
    char path[] = "/tmp/slowlift-large-XXXXXX";
    const int file = mkstemp(path);
    ck_assert_int_eq(ftruncate(file, (off_t)1 << 40), 0); /* takes no room: nothing is written */
    close(file);
    sl_error error;
    ck_assert_ptr_null(sl_scene_load(path, &resolver, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    unlink(path);
}
END_TEST

/* docs/file-format.md: a note has up to 500 characters. */
START_TEST(a_note_of_five_hundred_letters_is_read_and_a_longer_one_refused)
{
    for (int letters = 500; letters <= 501; letters++) {
        char text[2048];
        const int length = snprintf(
            text, sizeof text,
            "kind: scene\nversion: 1\ntitle: T\norigin: test\nlies: bench\nroom: 24 °C\nuntil: 60 min\n"
            "hair_mass: 2 g\ndyes: bright-one\nzones:\n  - {name: red, hair: prelight-9, dye: {red: 4}}\n"
            "  - {name: undyed, hair: prelight-9}\napplication: {mix_per_hair: 6 g/g}\narms:\n"
            "  - name: one\n    note: %0*d\n",
            letters, 0);
        const sl_resolver resolver = bad_resolver();
        sl_error error = {.code = SL_OK};
        sl_scene *const scene = sl_scene_parse(text, (size_t)length, "note.yaml", &resolver, &error);
        ck_assert_msg((scene != NULL) == (letters == 500), "%d: %s", letters, error.found);
        ck_assert(scene || error.line == 16);
        sl_scene_free(scene);
    }
}
END_TEST

/* "[x,x,x, ...]" reaches the limit on values long before the limit on bytes. */
START_TEST(more_than_20000_values_are_refused)
{
    enum { VALUES = 20100 };
    char *const text = malloc(16 + 2 * VALUES);
    ck_assert_ptr_nonnull(text);
    size_t used = (size_t)sprintf(text, "kind: [");
    for (int i = 0; i < VALUES; i++) {
        memcpy(text + used, "x,", 2);
        used += 2;
    }
    text[used++] = ']';
    const sl_resolver resolver = bad_resolver();
    sl_error error;
    ck_assert_ptr_null(sl_scene_parse(text, used, "many.yaml", &resolver, &error));
    ck_assert_int_eq(error.code, SL_ERR_TOO_LARGE);
    free(text);
}
END_TEST

START_TEST(a_message_holds_no_control_byte_and_no_half_letter)
{
    /* "\u0009" is a tab by escape, which texts may hold; 60 times é is cut at a whole letter */
    char text[512] = "kind: scene\nversion: 1\ntitle: T\norigin: o\nroom: \"\\t\\n";
    for (int i = 0; i < 60; i++) {
        strcat(text, "\xC3\xA9");
    }
    strcat(text, "\"\nlies: bench\n");
    const sl_resolver resolver = bad_resolver();
    sl_error error;
    ck_assert_ptr_null(sl_scene_parse(text, strlen(text), "odd.yaml", &resolver, &error));
    ck_assert_int_eq(error.code, SL_ERR_BAD_NUMBER);
    ck_assert_ptr_null(strpbrk(error.found, "\t\n"));
    ck_assert_ptr_nonnull(strstr(error.found, "\xC3\xA9...\""));
}
END_TEST

START_TEST(without_a_resolver_a_reference_is_missing)
{
    static const char text[] = "kind: scene\nversion: 1\ntitle: T\norigin: o\nlies: bench\nroom: 20 C\n"
                               "until: 1 h\nhair_mass: 2 g\nzones: [{name: a, hair: b}]\narms: [{name: a}]\n";
    sl_error error;
    ck_assert_ptr_null(sl_scene_parse(text, sizeof text - 1, "alone.yaml", NULL, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
    ck_assert_ptr_null(sl_scene_parse(text, sizeof text - 1, "alone.yaml", NULL, NULL));
}
END_TEST

/* The whole sentence, where one was worked out: bounds, counts, the nearest word, where the first of two
 * stands. */
START_TEST(what_is_found_and_what_is_wanted_is_said_to_the_word)
{
    const sl_resolver resolver = bad_resolver();
    FILE *const list = fopen(SLOWLIFT_BAD "/says.txt", "r");
    ck_assert_ptr_nonnull(list);
    char line[1024];
    int n = 0;
    while (fgets(line, sizeof line, list)) {
        if (line[0] == '#') {
            continue;
        }
        char path[PATH_SIZE + sizeof line];
        char *const found = strchr(line, '\t');
        char *const wanted = found ? strchr(found + 1, '\t') : NULL;
        ck_assert_ptr_nonnull(wanted);
        *found = *wanted = '\0';
        wanted[1 + strcspn(wanted + 1, "\n")] = '\0';
        snprintf(path, sizeof path, SLOWLIFT_BAD "/%s.yaml", line);
        sl_error error;
        ck_assert_msg(!sl_file_check(path, &resolver, NULL, NULL, 0, &error), "%s is not refused", line);
        ck_assert_msg(strcmp(error.found, found + 1) == 0, "%s: %s", line, error.found);
        ck_assert_msg(strcmp(error.wanted, wanted + 1) == 0, "%s: %s", line, error.wanted);
        n++;
    }
    fclose(list);
    ck_assert_int_ge(n, 100);
}
END_TEST

/* ---- how much a file may hold --------------------------------------------------------------------- */

static sl_code parsed_as(const char *text, sl_error *error)
{
    sl_yaml document = {.root = NULL};
    *error = (sl_error){.code = SL_OK};
    const bool good = sl_yaml_parse(&document, text, strlen(text), "much.yaml", error);
    ck_assert_int_eq(good, error->code == SL_OK);
    ck_assert_int_eq(good, document.root != NULL);
    sl_yaml_free(&document);
    ck_assert_ptr_null(document.root);
    return error->code;
}

/* "prefix", then so many times "each" ("k": a key with its number and a value), then "suffix". */
static char *repeated(const char *prefix, const char *each, int n, const char *suffix)
{
    char *text = NULL;
    size_t length = 0;
    FILE *const out = open_memstream(&text, &length);
    ck_assert_ptr_nonnull(out);
    fputs(prefix, out);
    for (int i = 0; i < n; i++) {
        if (each[0] == 'k') {
            fprintf(out, "k%d: x\n", i);
        } else {
            fputs(each, out);
        }
    }
    fputs(suffix, out);
    ck_assert_int_eq(fclose(out), 0);
    return text;
}

typedef struct much_case {
    const char *prefix, *each, *suffix;
    int most; /* of `each` */
    const char *found, *wanted;
    int line, column; /* of the one that is too much */
} much_case;

/* Up to the bound it is read, one further it is refused, with the bound (the bounds themselves: node.h). */
START_TEST(a_file_holds_as_much_as_it_may_and_no_more)
{
    static const much_case cases[] = {
        /* a mapping and its key are two of the values, this list the third */
        {"a: [", "x,", "]", SL_MAX_NODES - 3, "this file holds too many values", "20000", 1, 0},
        {"", "k", "", SL_MAX_KEYS, "this mapping holds too many keys", NULL, SL_MAX_KEYS + 1, 1},
        {"a: ", "x", "", SL_MAX_TEXT, "this text is too long", "2000 bytes", 1, 4}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        for (int over = 0; over < 2; over++) {
            char *const text =
                repeated(cases[i].prefix, cases[i].each, cases[i].most + over, cases[i].suffix);
            sl_error error;
            ck_assert_int_eq(parsed_as(text, &error), over ? SL_ERR_TOO_LARGE : SL_OK);
            if (over) {
                ck_assert_str_eq(error.found, cases[i].found);
                ck_assert(!cases[i].wanted || strcmp(error.wanted, cases[i].wanted) == 0);
                ck_assert_int_eq(error.line, cases[i].line);
                ck_assert(cases[i].column == 0 || error.column == cases[i].column);
            }
            free(text);
        }
    }
}
END_TEST

START_TEST(lists_stand_sixteen_deep_in_each_other_and_no_deeper)
{
    for (int deep = SL_MAX_DEPTH - 2; deep <= SL_MAX_DEPTH + 1; deep++) {
        char text[128];
        snprintf(text, sizeof text, "a: %.*sx%.*s", deep, "[[[[[[[[[[[[[[[[[[[[[[", deep,
                 "]]]]]]]]]]]]]]]]]]]]]]");
        sl_error error;
        /* the mapping on top is one of them */
        ck_assert_int_eq(parsed_as(text, &error), deep + 1 <= SL_MAX_DEPTH ? SL_OK : SL_ERR_TOO_LARGE);
        if (error.code != SL_OK) {
            ck_assert_str_eq(error.found, "lists and mappings stand too deep in each other");
            ck_assert_str_eq(error.wanted, "16");
            ck_assert_int_eq(error.column, 4 + SL_MAX_DEPTH - 1);
        }
    }
}
END_TEST

/* A tree of everything: kinds, order, counts, places. */
START_TEST(a_file_becomes_the_tree_that_was_written)
{
    static const char text[] =
        "a: one\nlist:\n  - x\n  - [y, z]\n  - {k: v}\nempty: []\nnone: {}\nlast: \"\"\n";
    sl_yaml document = {.root = NULL};
    ck_assert(sl_yaml_parse(&document, text, sizeof text - 1, "tree.yaml", NULL));
    const sl_node *const root = document.root;
    ck_assert(root->kind == SL_NODE_MAPPING && root->n == 5 && root->line == 1 && root->column == 1);
    const sl_node *const a = sl_node_child(root, "a"), *const list = sl_node_child(root, "list");
    ck_assert(a == root->first && a->next == list && a->kind == SL_NODE_TEXT && a->line == 1 &&
              a->column == 4);
    ck_assert_str_eq(a->text, "one");
    ck_assert_str_eq(a->file, "tree.yaml");
    ck_assert(list->kind == SL_NODE_LIST && list->n == 3 && list->key_line == 2 && list->key_column == 1);
    const sl_node *const second = list->first->next;
    ck_assert_str_eq(list->first->text, "x");
    ck_assert(list->first->line == 3 && list->first->column == 5 && !list->first->key);
    ck_assert(second->kind == SL_NODE_LIST && second->n == 2 && second->last == second->first->next);
    ck_assert_str_eq(second->last->text, "z");
    ck_assert(second->last->line == 4 && second->last->column == 9 && !second->last->next);
    ck_assert(list->last == second->next && list->last->kind == SL_NODE_MAPPING);
    ck_assert_str_eq(sl_node_child(list->last, "k")->text, "v");
    ck_assert(sl_node_child(root, "empty")->n == 0 && sl_node_child(root, "none")->n == 0);
    ck_assert(root->last == sl_node_child(root, "last") && root->last->text[0] == '\0' && !root->last->next);
    ck_assert_ptr_null(sl_node_child(root, "b"));
    sl_yaml_free(&document);
}
END_TEST

/* libyaml's own complaint, where it is none of the two that everybody meets, and a tab wherever its line is.
 */
START_TEST(a_file_that_is_not_well_formed_is_told_in_plain_words)
{
    static const struct {
        const char *text, *found, *wanted;
        int line, column;
    } cases[] = {{"a: x\n\tb: y\n", "a tab", "indent with spaces", 2, 1},
                 {"a: x\r\n\tb: y\r\n", "a tab", "indent with spaces", 2, 1},
                 {"a: x\r\r\tb: y\r", NULL, NULL, 0, 0},
                 {"a: x: y\n", "a colon where no key ends",
                  "put a text that holds \": \" in quotation marks, or check the indentation", 1, 5},
                 {"a: [x\n", NULL, NULL, 2, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_error error;
        ck_assert_int_ne(parsed_as(cases[i].text, &error), SL_OK);
        if (cases[i].found) {
            ck_assert_str_eq(error.found, cases[i].found);
            ck_assert_str_eq(error.wanted, cases[i].wanted);
        }
        ck_assert(cases[i].line == 0 || (error.line == cases[i].line && error.column == cases[i].column));
        ck_assert_str_eq(error.file, "much.yaml");
    }
}
END_TEST

START_SUITE("bad files")
ADD(every_bad_file_gets_its_one_message)
ADD(a_check_that_goes_on_finds_that_fault_and_makes_up_none)
ADD(a_check_tells_every_fault_of_a_file)
ADD(no_bad_file_loads_as_a_scene)
ADD(a_file_that_is_not_there_is_named)
ADD(a_folder_is_not_read_as_a_file)
ADD(more_than_a_mebibyte_is_refused)
ADD(a_byte_order_mark_takes_no_letter_of_the_file)
ADD(what_need_not_end_is_refused_unread)
ADD(a_file_above_the_limit_is_refused_unread)
ADD(a_note_of_five_hundred_letters_is_read_and_a_longer_one_refused)
ADD(more_than_20000_values_are_refused)
ADD(a_message_holds_no_control_byte_and_no_half_letter)
ADD(without_a_resolver_a_reference_is_missing)
ADD(what_is_found_and_what_is_wanted_is_said_to_the_word)
ADD(a_file_holds_as_much_as_it_may_and_no_more)
ADD(lists_stand_sixteen_deep_in_each_other_and_no_deeper)
ADD(a_file_becomes_the_tree_that_was_written)
ADD(a_file_that_is_not_well_formed_is_told_in_plain_words)
END_SUITE
