/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of scenes, mixes and prices: each number at its bounds, each key where it belongs, what is not
 * written.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "shelf.h"
#include "slowlift/cost.h"
#include "suite.h"

static sl_code prices_of(const char *body, sl_prices *prices, sl_error *error)
{
    char path[] = "/tmp/slowlift-prices-XXXXXX";
    const int handle = mkstemp(path);
    FILE *const out = handle >= 0 ? fdopen(handle, "w") : NULL;
    ck_assert_ptr_nonnull(out);
    fprintf(out, HEAD("prices") "%s", body);
    ck_assert_int_eq(fclose(out), 0);
    const bool good = sl_prices_load(path, prices, error);
    remove(path);
    ck_assert_int_eq(good, error->code == SL_OK);
    return error->code;
}

START_TEST(each_price_arrives_where_it_belongs)
{
    sl_prices got;
    sl_error error;
    ck_assert_int_eq(prices_of("currency: MXN\npacket: {holds: 25 g, price: 3.5}\n"
                               "tub: {holds: 450 g, price: 27.5, serves_weeks: 6}\n"
                               "developer: {holds: 1000 g, price: 8.25}\nother: 0.75\n",
                               &got, &error),
                     SL_OK);
    ck_assert_str_eq(sl_prices_title(&got, SL_SPANISH), "T");
    ck_assert_str_eq(got.currency, "MXN");
    const double wanted[] = {25.0, 3.5, 450.0, 27.5, 6.0, 1000.0, 8.25, 0.75};
    const double found[] = {got.packet_g,  got.packet_price, got.tub_g,           got.tub_price,
                            got.tub_weeks, got.developer_g,  got.developer_price, got.other_price};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        ck_assert_double_eq(found[i], wanted[i]);
    }
    ck_assert_int_eq(prices_of("currency: EUR\n", &got, &error), SL_OK); /* the rest is not sold */
    ck_assert(got.packet_g <= 0.0 && got.tub_g <= 0.0 && got.developer_g <= 0.0 && got.other_price <= 0.0);
}
END_TEST

START_TEST(prices_are_taken_up_to_their_bounds)
{
    static const struct {
        const char *body;
        sl_code code;
    } cases[] = {{"currency: EURO\n", SL_ERR_UNKNOWN_WORD},
                 {"currency: EU\n", SL_ERR_UNKNOWN_WORD},
                 {"currency: EuR\n", SL_ERR_UNKNOWN_WORD},
                 {"currency: AZZ\n", SL_OK},
                 {"currency: EUR\nother: 0\n", SL_OK},
                 {"currency: EUR\nother: 1000000\n", SL_OK},
                 {"currency: EUR\nother: 1000001\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\nother: -0.01\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\npacket: {holds: 0.1 g, price: 0}\n", SL_OK},
                 {"currency: EUR\npacket: {holds: 0.09 g, price: 0}\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\npacket: {holds: 100000 g, price: 0}\n", SL_OK},
                 {"currency: EUR\npacket: {holds: 100001 g, price: 0}\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\npacket: {holds: 1 g, price: 1, serves_weeks: 1}\n", SL_ERR_UNKNOWN_KEY},
                 {"currency: EUR\npacket: {price: 1}\n", SL_ERR_MISSING_KEY},
                 {"currency: EUR\ntub: {holds: 1 g, price: 1, serves_weeks: 0.1}\n", SL_OK},
                 {"currency: EUR\ntub: {holds: 1 g, price: 1, serves_weeks: 0.09}\n", SL_ERR_OUT_OF_RANGE},
                 {"currency: EUR\ntub: {holds: 1 g, price: 1, serves_weeks: 520}\n", SL_OK},
                 {"currency: EUR\ntub: {holds: 1 g, price: 1, serves_weeks: 521}\n", SL_ERR_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_prices got;
        sl_error error;
        ck_assert_msg(prices_of(cases[i].body, &got, &error) == cases[i].code, "%s: %s", cases[i].body,
                      sl_code_name(error.code));
    }
}
END_TEST

START_TEST(what_a_pack_lacks_is_asked_for)
{
    sl_prices got;
    sl_error error;
    prices_of("currency: EUR\ntub: {holds: 1 g, price: 1}\n", &got, &error);
    ck_assert_int_eq(error.code, SL_ERR_MISSING_KEY);
    ck_assert_str_eq(error.found, "\"serves_weeks\"");
    ck_assert_ptr_nonnull(strstr(error.wanted, "weeks"));
    prices_of("currency: EUR\ntub: {holds: 1 g, serves_weeks: 1}\n", &got, &error);
    ck_assert_str_eq(error.found, "\"price\"");
    ck_assert_str_eq(error.wanted, "what it holds and costs");
    ck_assert(sl_prices_load(SLOWLIFT_MODELS "/prices/school.yaml", &got, NULL)); /* nobody listens */
    ck_assert(!sl_prices_load(SLOWLIFT_MODELS "/prices/none.yaml", &got, NULL));
}
END_TEST

static const char base[] =
    HEAD("scene") "lies: bench\nroom: 24 °C\nuntil: 60 min\nhair_mass: 2 g\ndyes: bright-one\nzones:\n"
                  "  - {name: red, hair: prelight-9, dye: {red: 4}}\n  - {name: undyed, hair: prelight-9}\n"
                  "application: {mix_per_hair: 6 g/g}\narms:\n"
                  "  - {name: one, contact: 5 min, steps: [{apply: powder-6, dwell: 30 min}, {rinse: 2 min}, "
                  "{shampoo: "
                  "1}]}\naims: {colour_left: 40 %}\n";

/* The base with one text of it replaced by another: how it is taken. */
static sl_code taken(const shelf_file *files, const char *old, const char *instead, sl_scene **kept)
{
    static const shelf_file none[] = {{NULL, NULL, NULL}};
    shelf from = {.files = files ? files : none};
    const sl_resolver resolver = {.self = &from, .fetch = fetch_from_shelf, .release = release_to_shelf};
    char text[4096];
    const char *const at = strstr(base, old);
    ck_assert_msg(at != NULL, "%s", old);
    snprintf(text, sizeof text, "%.*s%s%s", (int)(at - base), base, instead, at + strlen(old));
    sl_error error = {.code = SL_OK};
    sl_scene *const scene = sl_scene_parse(text, strlen(text), "test.yaml", &resolver, &error);
    ck_assert_int_eq(scene != NULL, error.code == SL_OK);
    if (kept) {
        *kept = scene;
    } else {
        sl_scene_free(scene);
    }
    return error.code;
}

typedef struct bound_case {
    const char *old, *instead;
    sl_code code;
} bound_case;

START_TEST(each_number_of_a_scene_is_taken_up_to_its_bounds)
{
    static const bound_case cases[] = {
        {"24 °C", "5 °C", SL_OK},
        {"24 °C", "4.99 °C", SL_ERR_OUT_OF_RANGE},
        {"24 °C", "45 °C", SL_OK},
        {"24 °C", "45.01 °C", SL_ERR_OUT_OF_RANGE},
        {"until: 60 min", "until: 4320 min", SL_OK},
        {"until: 60 min", "until: 4320.1 min", SL_ERR_OUT_OF_RANGE},
        {"until: 60 min", "until: 5 min", SL_ERR_INCONSISTENT}, /* contact comes before the end */
        {"until: 60 min", "until: 5.01 min", SL_OK},
        {"contact: 5 min", "contact: 0 min", SL_OK},
        {"contact: 5 min", "contact: -0.01 min", SL_ERR_OUT_OF_RANGE},
        {"contact: 5 min", "contact: 59.99 min", SL_OK},
        {"contact: 5 min", "contact: 60 min", SL_ERR_INCONSISTENT},
        {"hair_mass: 2 g", "hair_mass: 0.05 g", SL_OK},
        {"hair_mass: 2 g", "hair_mass: 0.049 g", SL_ERR_OUT_OF_RANGE},
        {"hair_mass: 2 g", "hair_mass: 500 g", SL_OK},
        {"hair_mass: 2 g", "hair_mass: 500.1 g", SL_ERR_OUT_OF_RANGE},
        {"{red: 4}", "{red: 0.01}", SL_OK},
        {"{red: 4}", "{red: 0.0099}", SL_ERR_OUT_OF_RANGE},
        {"{red: 4}", "{red: 50}", SL_OK},
        {"{red: 4}", "{red: 50.1}", SL_ERR_OUT_OF_RANGE},
        {"6 g/g", "0.2 g/g", SL_OK},
        {"6 g/g", "0.19 g/g", SL_ERR_OUT_OF_RANGE},
        {"6 g/g", "50 g/g", SL_OK},
        {"6 g/g", "50.1 g/g", SL_ERR_OUT_OF_RANGE},
        {"6 g/g", "6 g/g, mix_age: 240 min", SL_OK},
        {"6 g/g", "6 g/g, mix_age: 240.1 min", SL_ERR_OUT_OF_RANGE},
        {"6 g/g", "6 g/g, mix_age: 0 min", SL_OK},
        {"6 g/g", "6 g/g, mix_age: -1 min", SL_ERR_OUT_OF_RANGE},
        {"dwell: 30 min", "dwell: 0.01 min", SL_OK},
        {"dwell: 30 min", "dwell: 0.009 min", SL_ERR_OUT_OF_RANGE},
        {"dwell: 30 min", "dwell: 24 h", SL_OK},
        {"dwell: 30 min", "dwell: 24.1 h", SL_ERR_OUT_OF_RANGE},
        {"rinse: 2 min", "rinse: 0.01 min", SL_OK},
        {"rinse: 2 min", "rinse: 0 min", SL_ERR_OUT_OF_RANGE},
        {"shampoo: 1", "shampoo: 20", SL_OK},
        {"shampoo: 1", "shampoo: 21", SL_ERR_OUT_OF_RANGE},
        {"shampoo: 1", "shampoo: 0", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "colour_left: 0 %", SL_OK},
        {"colour_left: 40 %", "colour_left: 100 %", SL_OK},
        {"colour_left: 40 %", "colour_left: 100.1 %", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "base_moved: 100 %", SL_OK},
        {"colour_left: 40 %", "base_moved: 101 %", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "cystine_lost: 101 %", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "longest: 1440 min", SL_OK},
        {"colour_left: 40 %", "longest: 1441 min", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: 0.1 %}", SL_OK},
        {"colour_left: 40 %", "zones: {red: 0.09 %}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: 99.9 %}", SL_OK},
        {"colour_left: 40 %", "zones: {red: 99.91 %}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: {near_undyed: 0.5}}", SL_OK},
        {"colour_left: 40 %", "zones: {red: {near_undyed: 0.49}}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: {near_undyed: 60}}", SL_OK},
        {"colour_left: 40 %", "zones: {red: {near_undyed: 60.1}}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "zones: {red: {}}", SL_ERR_MISSING_KEY},
        {"colour_left: 40 %", "cystine_lost: {of: one, share: 1 %}", SL_OK},
        {"colour_left: 40 %", "cystine_lost: {of: one, share: 0.9 %}", SL_ERR_OUT_OF_RANGE},
        {"colour_left: 40 %", "cystine_lost: {of: one, share: 100 %}", SL_OK},
        {"colour_left: 40 %", "cystine_lost: {of: one, share: 101 %}", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[0 min, 0 °C], [24 h, 60 °C]]\nhair_mass", SL_OK},
        {"hair_mass", "temperature: [[0 min, -0.1 °C]]\nhair_mass", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[0 min, 60.1 °C]]\nhair_mass", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[24.1 h, 20 °C]]\nhair_mass", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[1 min, 20 °C], [1 min, 21 °C]]\nhair_mass", SL_ERR_INCONSISTENT},
        {"hair_mass", "temperature: []\nhair_mass", SL_ERR_OUT_OF_RANGE},
        {"hair_mass", "temperature: [[1 min, 20 °C, 3 °C]]\nhair_mass", SL_ERR_WRONG_TYPE},
        {"apply: powder-6, dwell", "apply: powder-6, rest: 5 min, dwell", SL_ERR_INCONSISTENT},
        {"{rinse: 2 min}", "{rest: 10 min}", SL_OK},
        {"{red: 4}", "{}", SL_ERR_OUT_OF_RANGE},
        {"dye: {red: 4}", "dye: {}", SL_ERR_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_code code = taken(NULL, cases[i].old, cases[i].instead, NULL);
        ck_assert_msg(code == cases[i].code, "%s: %s", cases[i].instead, sl_code_name(code));
    }
}
END_TEST

/* Names as long as they may be, and a letter longer; so many of everything, and one more. */
START_TEST(names_and_lists_are_taken_up_to_their_length)
{
    static const struct {
        const char *old, *before, *behind;
        int most;
        sl_code code;
    } names[] = {{"name: one", "name: ", "", 60, SL_ERR_TOO_LARGE},
                 {"name: red", "name: ", "", 40, SL_ERR_TOO_LARGE},
                 {"title: T", "title: ", "", 200, SL_ERR_TOO_LARGE},
                 {"lies", "question: ", "\nlies", 500, SL_ERR_TOO_LARGE},
                 {"lies", "person: ", "\nlies", 32, SL_ERR_INCONSISTENT}};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        for (int over = 0; over < 2; over++) {
            char text[1024];
            snprintf(text, sizeof text, "%s%0*d%s", names[i].before, names[i].most + over, 0,
                     names[i].behind);
            const sl_code code = taken(NULL, names[i].old, text, NULL);
            ck_assert_msg((code == SL_OK) == !over, "%s %d: %s", names[i].before, names[i].most + over,
                          sl_code_name(code));
        }
    }
    static const struct {
        const char *old, *before, *each, *behind;
        int most, fewer; /* that are there already */
        sl_code code;
    } lists[] = {
        {"{rinse: 2 min}", "{rinse: 2 min}", ", {rest: 1 min}", "", SL_MAX_STEPS, 3, SL_ERR_TOO_LARGE},
        {"hair_mass", "temperature: [[0 min, 20 °C]", ", [%d min, 20 °C]", "]\nhair_mass",
         SL_MAX_COURSE_POINTS, 1, SL_ERR_OUT_OF_RANGE},
        {"aims", "", "  - {name: arm of its own %d}\n", "aims", SL_MAX_ARMS, 1, SL_ERR_OUT_OF_RANGE},
        {"application", "", "  - {name: zone of its own %d, hair: natural-5}\n", "application", SL_MAX_ZONES,
         2, SL_ERR_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        for (int over = 0; over < 2; over++) {
            char text[4096];
            size_t used = (size_t)snprintf(text, sizeof text, "%s", lists[i].before);
            for (int n = lists[i].fewer; n < lists[i].most + over; n++) {
                const char *const number = strstr(lists[i].each, "%d");
                used += number ? (size_t)snprintf(text + used, sizeof text - used, "%.*s%d%s",
                                                  (int)(number - lists[i].each), lists[i].each, 100 + n,
                                                  number + 2)
                               : (size_t)snprintf(text + used, sizeof text - used, "%s", lists[i].each);
            }
            snprintf(text + used, sizeof text - used, "%s", lists[i].behind);
            const sl_code code = taken(NULL, lists[i].old, text, NULL);
            ck_assert_msg(code == (over ? lists[i].code : SL_OK), "%s: %s", text, sl_code_name(code));
        }
    }
}
END_TEST

/* What is not written is as docs/file-format.md says; what stands in a step goes before what stands above. */
START_TEST(what_is_not_written_is_as_the_docs_say)
{
    sl_scene *scene = NULL;
    ck_assert_int_eq(taken(NULL, "contact: 5 min, ", "", &scene), SL_OK);
    const sl_step *step = &scene->arms[0].steps[0];
    ck_assert_double_eq(scene->arms[0].contact_min, 0.0);
    ck_assert(step->covered && step->mix_age_min <= 0.0 && step->hair_water_g_g <= 0.0);
    ck_assert_double_eq(step->mix_g_per_g, 6.0);
    ck_assert_double_eq(scene->arms[0].steps[2].duration_min, 1.0); /* a shampoo: a minute */
    ck_assert_int_eq(scene->arms[0].steps[2].shampoos, 1);
    ck_assert_int_eq(scene->n_points, 0);
    ck_assert(!scene->arms[0].undyed && !scene->arms[0].note.in[SL_ENGLISH] && !scene->person &&
              !scene->question.in[SL_ENGLISH]);
    ck_assert_str_eq(scene->chemistry.name, "oxidation");
    ck_assert_str_eq(scene->chart.name, "plain");
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "dwell: 30 min",
                           "dwell: 30 min, hair: damp, covered: no, mix_age: 4 min, mix_per_hair: 3 g/g",
                           &scene),
                     SL_OK);
    step = &scene->arms[0].steps[0];
    ck_assert(!step->covered);
    ck_assert_double_eq(step->mix_age_min, 4.0);
    ck_assert_double_eq(step->mix_g_per_g, 3.0);
    ck_assert_double_gt(step->hair_water_g_g, 0.0);
    ck_assert_double_eq(step->hair_water_g_g, scene->chemistry.damp_water_g_g.value);
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "6 g/g}", "6 g/g, hair: damp, covered: no, mix_age: 4 min}", &scene), SL_OK);
    step = &scene->arms[0].steps[0];
    ck_assert(!step->covered && step->mix_age_min > 3.9 && step->hair_water_g_g > 0.0);
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "{rinse: 2 min}", "{shampoo: 3}", &scene), SL_OK);
    ck_assert_double_eq(scene->arms[0].steps[1].duration_min, 3.0);
    ck_assert_int_eq(scene->arms[0].steps[1].kind, SL_STEP_SHAMPOO);
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "colour_left: 40 %", "next: pastel, zones: {red: ignore}", &scene), SL_OK);
    ck_assert(scene->aims.left_by_next);
    ck_assert_int_eq(scene->aims.next, SL_NEXT_PASTEL);
    ck_assert_double_eq(scene->aims.colour_left, 0.1);
    ck_assert_double_eq(scene->aims.zone_left[0], 1.0);
    sl_scene_free(scene);
    ck_assert_int_eq(taken(NULL, "colour_left: 40 %", "next: darker", &scene), SL_OK);
    ck_assert_int_eq(scene->aims.next, SL_NEXT_DARKER);
    ck_assert_double_eq(scene->aims.colour_left, 0.6);
    sl_scene_free(scene);
}
END_TEST

/* A mix of its own on the arm; *mix: as it was read. */
static sl_code mix_taken(const char *body, sl_mix *mix)
{
    char text[1024];
    snprintf(text, sizeof text, HEAD("mix") "%s", body);
    const shelf_file files[] = {{"mix", "mine", text}, {NULL, NULL, NULL}};
    sl_scene *scene = NULL;
    const sl_code code = taken(files, "powder-6", "mine", &scene);
    if (scene && mix) {
        *mix = scene->mixes[0];
        mix->name = NULL;
        mix->title = (sl_wording){{NULL}};
    }
    sl_scene_free(scene);
    return code;
}

/* Which of powder, developer and water each class holds: y needed, n none, e either (docs/file-format.md and
 * the classes' names; a liquid must be there in any case). */
START_TEST(the_parts_of_a_mix_agree_with_its_class)
{
    static const struct {
        const char *class_, *holds;
    } classes[] = {{"powder and water", "yny"},
                   {"powder and developer", "yyn"},
                   {"powder and diluted developer", "yyy"},
                   {"two-part liquid without persulfate", "nee"},
                   {"lightener control", "yye"},
                   {"plain water", "nny"}};
    for (int c = 0; c < SL_MIX_CLASS_COUNT; c++) {
        for (int parts = 0; parts < 8; parts++) {
            char body[512];
            const bool has[3] = {(parts & 1) != 0, (parts & 2) != 0, (parts & 4) != 0};
            bool wanted = has[1] || has[2];
            for (int p = 0; p < 3; p++) {
                wanted = wanted && (classes[c].holds[p] == 'e' || (classes[c].holds[p] == 'y') == has[p]);
            }
            snprintf(body, sizeof body,
                     "class: %s\nmechanism: oxidative\nph: 9\npowder: %d\ndeveloper: %d\nwater: "
                     "%d\nstrength: 6 %%\n",
                     classes[c].class_, has[0], has[1], has[2]);
            sl_mix mix;
            const sl_code code = mix_taken(body, &mix);
            ck_assert_msg(code == (wanted ? SL_OK : SL_ERR_INCONSISTENT), "%s, %d: %s", classes[c].class_,
                          parts, sl_code_name(code));
            if (wanted) { /* and how it looks unless the file says so */
                const bool powder = has[0], water = c == 5;
                ck_assert_int_eq(mix.class_, c);
                ck_assert_double_eq(mix.veil_cover, powder ? 0.7 : water ? 0.0 : 0.1);
                ck_assert_double_eq(mix.veil_lab[0], powder ? 92.0 : 96.0);
                ck_assert_double_eq(mix.veil_lab[1], powder ? -0.5 : 0.0);
                ck_assert_double_eq(mix.veil_lab[2], powder ? 5.0 : 1.0);
            }
        }
    }
}
END_TEST

#define POWDER_6                                                                                             \
    "class: powder and developer\nmechanism: oxidative\npowder: 1\ndeveloper: 2\nstrength: 6 %\nph: 10\n"
#define LIQUID "class: two-part liquid without persulfate\nmechanism: oxidative\ndeveloper: 1\n"

START_TEST(each_number_of_a_mix_is_taken_up_to_its_bounds)
{
    static const struct {
        const char *body;
        sl_code code;
    } cases[] = {
        {POWDER_6, SL_OK},
        {LIQUID "strength: 12 %\nph: 9\n", SL_OK},
        {LIQUID "strength: 12.01 %\nph: 9\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "strength: 0.01 %\nph: 9\n", SL_OK},
        {LIQUID "strength: 0 %\nph: 9\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "ph: 9\n", SL_ERR_MISSING_KEY},
        {LIQUID "strength: 6 %\n", SL_ERR_MISSING_KEY},
        {LIQUID "strength: 6 %\nph: 2\n", SL_OK},
        {LIQUID "strength: 6 %\nph: 1.99\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "strength: 6 %\nph: 12\n", SL_OK},
        {LIQUID "strength: 6 %\nph: 12.1\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "strength: 6 %\nph: 9\nwater: 100\n", SL_OK},
        {LIQUID "strength: 6 %\nph: 9\nwater: 100.1\n", SL_ERR_OUT_OF_RANGE},
        {LIQUID "strength: 6 %\nph: 9\nwater: -1\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "loss: 0 /min\n", SL_OK},
        {POWDER_6 "loss: 1 /min\n", SL_OK},
        {POWDER_6 "loss: 1.01 /min\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "loss_second_order: 10 L/(mol min)\n", SL_OK},
        {POWDER_6 "loss_second_order: 10.1 L/(mol min)\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "label_longest: 1 min\n", SL_OK},
        {POWDER_6 "label_longest: 0.99 min\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "label_longest: 240 min\n", SL_OK},
        {POWDER_6 "label_longest: 240.1 min\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "powder_holds: {potassium_persulfate: 60 %, ammonium_persulfate: 40 %}\n", SL_OK},
        {POWDER_6 "powder_holds: {potassium_persulfate: 60 %, ammonium_persulfate: 40.1 %}\n",
         SL_ERR_INCONSISTENT},
        {POWDER_6 "powder_holds: {sodium_persulfate: 99 %, percarbonate: 1.1 %}\n", SL_ERR_INCONSISTENT},
        {POWDER_6 "powder_holds: {ammonium_persulfate: 0.6, percarbonate: 0.41}\n", SL_ERR_INCONSISTENT},
        {POWDER_6 "powder_holds: {potassium_persulfate: 0.6, sodium_persulfate: 0.41}\n",
         SL_ERR_INCONSISTENT},
        {POWDER_6 "powder_holds: {activity: 100.1 %}\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "veil: {L: 0, a: -128, b: 128, cover: 0 %}\n", SL_OK},
        {POWDER_6 "veil: {L: 100, a: 128, b: -128, cover: 100 %}\n", SL_OK},
        {POWDER_6 "veil: {L: 100.1, a: 0, b: 0, cover: 1 %}\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "veil: {L: 10, a: 128.1, b: 0, cover: 1 %}\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "veil: {L: 10, a: 0, b: -128.1, cover: 1 %}\n", SL_ERR_OUT_OF_RANGE},
        {POWDER_6 "veil: {a: 0, b: 0, cover: 1 %}\n", SL_ERR_MISSING_KEY},
        {POWDER_6 "veil: {L: 10, b: 0, cover: 1 %}\n", SL_ERR_MISSING_KEY},
        {"class: plain water\nmechanism: unknown\nwater: 1\n",
         SL_OK}, /* nothing is predicted: no pH needed */
        {"class: plain water\nmechanism: oxidative\nwater: 1\n", SL_ERR_MISSING_KEY}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const sl_code code = mix_taken(cases[i].body, NULL);
        ck_assert_msg(code == cases[i].code, "%s: %s", cases[i].body, sl_code_name(code));
    }
}
END_TEST

START_TEST(each_key_of_a_mix_arrives_where_it_belongs)
{
    sl_mix mix;
    ck_assert_int_eq(
        mix_taken(POWDER_6
                  "powder_holds: {potassium_persulfate: 10 %, ammonium_persulfate: 20 %, sodium_persulfate: "
                  "30 %, percarbonate: 5 %, activity: 80 %}\nlabel_longest: 40 min\nlabel_counts_from: "
                  "application\nlabel_allows: yes\nveil: {L: 50, a: 1, b: 2, cover: 30 %}\n",
                  &mix),
        SL_OK);
    const double found[] = {mix.powder_parts,       mix.developer_parts,      mix.water_parts,
                            mix.developer_pct,      mix.potassium_persulfate, mix.ammonium_persulfate,
                            mix.sodium_persulfate,  mix.percarbonate,         mix.activity,
                            mix.label_max_min,      mix.veil_lab[0],          mix.veil_lab[1],
                            mix.veil_lab[2],        mix.veil_cover,           mix.ph.value,
                            mix.loss_per_min.value, mix.loss_l_mol_min.value};
    const double wanted[] = {1.0,  2.0,  0.0, 6.0, 0.1, 0.2,  0.3,    0.05, 0.8,
                             40.0, 50.0, 1.0, 2.0, 0.3, 10.0, 1.5e-3, 0.0};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        ck_assert_msg(fabs(found[i] - wanted[i]) < 1e-15, "number %zu: %g", i, found[i]);
    }
    ck_assert(mix.label_from_contact && mix.label_allows && mix.mechanism == SL_MECHANISM_OXIDATIVE);
    ck_assert_int_eq(mix_taken(POWDER_6 "label_counts_from: mixing\nlabel_allows: no\n", &mix), SL_OK);
    ck_assert(!mix.label_from_contact && !mix.label_allows && mix.label_max_min <= 0.0);
    ck_assert_double_eq(mix.activity, 1.0);
}
END_TEST

/* It is computed of what the mix holds, unless somebody types it; of both the later file decides. */
START_TEST(what_a_mix_holds_is_its_ph)
{
#define ALKALI                                                                                               \
    "powder_holds: {ammonium_persulfate: 20 %, metasilicate: {value: 14 %, grade: published, source: a}}\n"
#define NO_PH "class: powder and water\nmechanism: oxidative\npowder: 1\nwater: 2\n"
    sl_mix mix;
    ck_assert_int_eq(mix_taken(NO_PH, &mix), SL_ERR_MISSING_KEY);
    ck_assert_int_eq(mix_taken(NO_PH "powder_holds: {potassium_persulfate: 50 %}\n", &mix),
                     SL_ERR_MISSING_KEY);
    ck_assert_int_eq(mix_taken(NO_PH ALKALI, &mix), SL_OK);
    ck_assert(mix.ph_computed && mix.ph.value > 9.5 && mix.ph.value < 10.5 && mix.ph_doubt > 0.05);
    ck_assert_int_eq(mix.ph.grade, SL_GRADE_COMPUTED); /* the weaker of that and published */
    ck_assert_double_eq(mix.holds[SL_OF_POWDER][SL_METASILICATE].value, 0.14);
    ck_assert_int_eq(mix_taken(NO_PH ALKALI "ph: 9.5\n", &mix), SL_OK);
    ck_assert(!mix.ph_computed);
    ck_assert_double_eq(mix.ph.value, 9.5);
    ck_assert_double_eq(mix.ph_kj_mol, SL_TYPED_PH_KJ_MOL);
    ck_assert_int_eq(mix_taken(NO_PH "powder_holds: {metasilicate: 90 %, carbonate: 11 %}\n", &mix),
                     SL_ERR_INCONSISTENT);
    ck_assert_int_eq(mix_taken(NO_PH "powder_holds: {metasilicate: 100 %}\n", &mix), SL_ERR_OUT_OF_RANGE);
    ck_assert_int_eq(mix_taken(LIQUID
                               "strength: 6 %\ndeveloper_holds: {ammonia: 1 %, phosphoric_acid: 0.1 %}\n"
                               "water: 1\nwater_holds: {ethanolamine: 2 %}\n",
                               &mix),
                     SL_OK);
    ck_assert_double_eq(mix.holds[SL_OF_DEVELOPER][SL_PHOSPHORIC_ACID].value, 0.001);
    ck_assert_double_eq(mix.holds[SL_OF_WATER][SL_AMINE].value, 0.02);
    ck_assert_int_eq(mix.ph.grade, SL_GRADE_ASSUMED);
    ck_assert_int_eq(mix_taken(LIQUID "strength: 6 %\ndeveloper_holds: {activity: 1 %}\n", &mix),
                     SL_ERR_UNKNOWN_KEY);
#undef ALKALI
#undef NO_PH
}
END_TEST

/* Sixteen files may lean on each other, seventeen may not. */
START_TEST(sixteen_files_lean_on_each_other_and_no_more)
{
    for (int n = 15; n <= 17; n++) {
        static char text[18][160], name[18][8];
        shelf_file files[19];
        for (int i = 0; i < n; i++) {
            snprintf(name[i], sizeof name[i], "m%d", i);
            if (i + 1 < n) {
                snprintf(text[i], sizeof text[i], HEAD("mix") "like: m%d\n", i + 1);
            } else {
                snprintf(text[i], sizeof text[i], "%s", HEAD("mix") POWDER_6);
            }
            files[i] = (shelf_file){"mix", name[i], text[i]};
        }
        files[n] = (shelf_file){NULL, NULL, NULL};
        ck_assert_int_eq(taken(files, "powder-6", "m0", NULL), n <= 16 ? SL_OK : SL_ERR_TOO_LARGE);
    }
}
END_TEST

/* A scene is called by its file's name, without folders and ending. */
START_TEST(a_scene_is_called_by_its_file)
{
    static const struct {
        const char *path, *name;
    } cases[] = {{"test.yaml", "test"},
                 {"a/b.c/test.one.yaml", "test.one"},
                 {"a.b/test", "test"},
                 {".yaml", ".yaml"},
                 {"x/.y", ".y"}};
    const sl_resolver resolver = shipped_resolver();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        sl_scene *const scene = sl_scene_parse(base, strlen(base), cases[i].path, &resolver, NULL);
        ck_assert_ptr_nonnull(scene);
        ck_assert_str_eq(scene->name, cases[i].name);
        sl_scene_free(scene);
    }
}
END_TEST

/* Where a name was looked for, and a path that no message could name is never opened. */
START_TEST(a_missing_model_says_where_it_was_looked_for)
{
    static const char *const two[] = {"/nowhere/one", "/nowhere/two"};
    static char far[SL_ERROR_FILE_SIZE + 8];
    memset(far, 'x', sizeof far - 1);
    far[0] = '/';
    for (int n = 0; n <= 2; n++) {
        sl_folders folders = {two, n};
        const sl_resolver resolver = sl_resolver_of_folders(&folders);
        sl_error error;
        ck_assert_ptr_null(sl_scene_parse(base, strlen(base), "test.yaml", &resolver, &error));
        ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
        ck_assert_str_eq(error.found, "\"oxidation\"");
        ck_assert_str_eq(error.wanted,
                         n == 0   ? "looked for chemistry/oxidation.yaml in no folder at all"
                         : n == 1 ? "looked for chemistry/oxidation.yaml in /nowhere/one"
                                  : "looked for chemistry/oxidation.yaml in /nowhere/one, /nowhere/two");
    }
    const char *const long_then_good[] = {far, SLOWLIFT_MODELS};
    sl_folders folders = {long_then_good, 2};
    const sl_resolver resolver = sl_resolver_of_folders(&folders);
    sl_scene *const scene = sl_scene_parse(base, strlen(base), "test.yaml", &resolver, NULL);
    ck_assert_ptr_nonnull(scene); /* the second folder has them all */
    sl_scene_free(scene);
    char path[64], *text = NULL;
    size_t length = 0;
    sl_error error = {.code = SL_OK};
    ck_assert(!resolver.fetch(resolver.self, "lesson", "x", &text, &length, path, sizeof path, &error));
    ck_assert_int_eq(error.code, SL_ERR_MISSING_REFERENCE);
    ck_assert(!resolver.fetch(resolver.self, "mix", "../x", &text, &length, path, sizeof path, &error));
    ck_assert_str_eq(error.found, "a name that no model can have");
}
END_TEST

/* The check of any file tells its kind and as much of its title as there is room for. */
START_TEST(a_checked_file_tells_its_kind_and_title)
{
    const sl_resolver resolver = shipped_resolver();
    sl_file_kind kind = SL_KIND_COUNT;
    char title[8] = "xxxxxxx";
    ck_assert(
        sl_file_check(SLOWLIFT_MODELS "/prices/school.yaml", &resolver, &kind, title, sizeof title, NULL));
    ck_assert_int_eq(kind, SL_KIND_PRICES);
    ck_assert_str_eq(title, "A schoo");
    ck_assert(sl_file_check(SLOWLIFT_MODELS "/prices/school.yaml", &resolver, NULL, title, 0, NULL));
    ck_assert_str_eq(title, "A schoo");
    ck_assert(
        !sl_file_check(SLOWLIFT_MODELS "/prices/none.yaml", &resolver, &kind, title, sizeof title, NULL));
    ck_assert_str_eq(title, "A schoo");
    static const char *const words[SL_KIND_COUNT] = {"scene", "hair",   "dyes",   "mix",     "chemistry",
                                                     "chart", "intake", "prices", "settings"};
    for (int k = 0; k < SL_KIND_COUNT; k++) {
        ck_assert_str_eq(sl_file_kind_word((sl_file_kind)k), words[k]);
    }
}
END_TEST

/* The file's head, and these lines. */
static bool settled_by(const char *lines, sl_settled *settled, bool *absent, sl_error *error)
{
    char path[] = "/tmp/slowlift-settings-XXXXXX";
    const int file = mkstemp(path);
    ck_assert_int_ge(file, 0);
    ck_assert_int_gt(dprintf(file, "kind: settings\nversion: 1\ntitle: Mine\norigin: mine\n%s", lines), 0);
    close(file);
    const bool good = sl_settled_load(path, settled, absent, error);
    unlink(path);
    return good;
}

START_TEST(settings_are_not_read_or_a_wrong_one_is)
{
    static const char *const wrong[] = {"tests: tests\n", "tests: [a]\n", "keep_months: 0\n",
                                        "keep_months: 1.5\n", "keep: 3\n"};
    sl_settled settled = {.tests = "old", .keep_months = 7};
    sl_error error = {.code = SL_OK};
    bool absent = true;
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        ck_assert_msg(!settled_by(wrong[i], &settled, &absent, &error), "%s", wrong[i]);
        ck_assert(!absent && error.line == 5);
        ck_assert_str_eq(settled.tests, "old");
    }
    ck_assert(settled_by("tests: ~/tests\nkeep_months: 24\n", &settled, &absent, NULL));
    ck_assert_str_eq(settled.tests, "~/tests");
    ck_assert_int_eq(settled.keep_months, 24);
    ck_assert(sl_settled_load("/tmp/slowlift-no-settings.yaml", &settled, &absent, &error));
    ck_assert(absent);
    ck_assert_int_eq(error.code, SL_OK);
    ck_assert_str_eq(settled.tests, "");
    ck_assert_int_eq(settled.keep_months, 0);
}
END_TEST

START_TEST(a_product_is_taken_for_a_mix_that_it_is_not_for)
{
    sl_prices prices;
    ck_assert(sl_prices_load(SLOWLIFT_MODELS "/prices/school.yaml", &prices, NULL));
    const sl_product *const powder = sl_product_of(&prices, "powder-6", false);
    const sl_product *const liquid = sl_product_of(&prices, "powder-6", true);
    ck_assert(powder && liquid && !powder->liquid && liquid->liquid);
    ck_assert_str_eq(powder->name, "removal powder");
    ck_assert_str_eq(liquid->name, "developer 6 %");
    ck_assert_ptr_null(sl_product_of(&prices, "powder-water", true));
    ck_assert_ptr_null(sl_product_of(&prices, "plain-water", false));
    const sl_use class = {.times = 6};
    ck_assert_double_eq_tol(sl_cost_of(&prices, &class).other_cost, 6 * 0.60, 1e-12);
}
END_TEST

START_SUITE("files of scenes")
ADD(settings_are_not_read_or_a_wrong_one_is)
ADD(a_product_is_taken_for_a_mix_that_it_is_not_for)
ADD(each_price_arrives_where_it_belongs)
ADD(prices_are_taken_up_to_their_bounds)
ADD(what_a_pack_lacks_is_asked_for)
ADD(each_number_of_a_scene_is_taken_up_to_its_bounds)
ADD(names_and_lists_are_taken_up_to_their_length)
ADD(what_is_not_written_is_as_the_docs_say)
ADD(the_parts_of_a_mix_agree_with_its_class)
ADD(each_number_of_a_mix_is_taken_up_to_its_bounds)
ADD(each_key_of_a_mix_arrives_where_it_belongs)
ADD(what_a_mix_holds_is_its_ph)
ADD(sixteen_files_lean_on_each_other_and_no_more)
ADD(a_scene_is_called_by_its_file)
ADD(a_missing_model_says_where_it_was_looked_for)
ADD(a_checked_file_tells_its_kind_and_title)
END_SUITE
