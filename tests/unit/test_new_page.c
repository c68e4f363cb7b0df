/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The page of a new test in a window that nobody sees: where letters are typed nothing else is done; what is
 * refused, what is missing, hair that cannot be, a folder that takes no file, memory that ends.
 */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../tools/faults.h"
#include "slowlift/scene.h"
#include "small_scene.h"
#include "stage_made.h"
#include "suite.h"
#include "view/panels/new_page.h"
#include "view/window/acts.h"

static sl_stage *stage;
static char folder[] = "/tmp/slowlift-new-page-XXXXXX";

/* Of hair, as the optics find it; NULL: as it is. */
static const char *cannot_be;
bool __real_sl_ask_make(sl_made *made, const sl_resolver *models, sl_error *error);
bool __wrap_sl_ask_make(sl_made *made, const sl_resolver *models, sl_error *error);
bool __wrap_sl_ask_make(sl_made *made, const sl_resolver *models, sl_error *error)
{
    return cannot_be != NULL ? sl_fail(error, SL_ERR_OUT_OF_RANGE, cannot_be, "other hair")
                             : __real_sl_ask_make(made, models, error);
}

static void begin(void)
{
    static small_scene small;
    small_scene_fill(&small);
    sl_aims_assume(&small.scene);
    stage = stage_made(&small.scene);
    stage->asking.models = SLOWLIFT_MODELS;
    stage->open.page = SL_PAGE_NEW;
    ck_assert_ptr_nonnull(mkdtemp(folder));
    ck_assert_int_eq(chdir(folder), 0);
    cannot_be = NULL;
}

static void end(void)
{
    sl_stage_free(stage);
    SDL_Quit();
    ck_assert_int_eq(chdir("/"), 0);
    ck_assert_int_eq(rmdir(folder), 0); /* nothing lies there */
}

static void drawn(void)
{
    sl_error error = {.code = SL_OK};
    stage->dirty = true;
    ck_assert_msg(sl_stage_draw(stage, &error), "%s: %s", error.found, error.wanted);
}

/* As a keyboard sends it: a key, then its letter where letters are asked for. */
static void type(const char *letters)
{
    for (; *letters != '\0'; letters++) {
        SDL_Event key = {.type = SDL_KEYDOWN}, text = {.type = SDL_TEXTINPUT};
        key.key.keysym.sym = *letters;
        text.text.text[0] = *letters;
        sl_stage_take(stage, &key);
        if (SDL_IsTextInputActive()) {
            sl_stage_take(stage, &text);
        }
        drawn();
    }
}

static void press(SDL_Keycode sym, Uint16 mod)
{
    SDL_Event event = {.type = SDL_KEYDOWN};
    event.key.keysym.sym = sym;
    event.key.keysym.mod = mod;
    sl_stage_take(stage, &event);
    drawn();
}

/* Whether it is written, and how far down: *top, unless NULL. */
static bool said_at(const char *words, int *top)
{
    char *told = NULL;
    size_t size = 0;
    FILE *const out = open_memstream(&told, &size);
    sl_text_tell_to(stage->text, out);
    drawn();
    sl_text_tell_to(stage->text, NULL);
    fclose(out);
    const char *const found = strstr(told, words), *line = found;
    while (line != NULL && line > told && line[-1] != '\n') {
        line--;
    }
    if (line != NULL && top != NULL) {
        ck_assert_int_eq(sscanf(line, "words %*d %d", top), 1);
    }
    free(told);
    return found != NULL;
}

static bool said(const char *words)
{
    return said_at(words, NULL);
}

/* ---- the keyboard ------------------------------------------------------------------------------ */

START_TEST(no_letter_is_a_key_where_letters_are_typed)
{
    for (int id = 1; id < SL_ACTIONS; id++) {
        for (int k = 0; k < SL_MOST_KEYS; k++) {
            const sl_action_key *const key = &sl_action_rows[id].key[k];
            const bool letter = key->key >= SDLK_SPACE && key->key < SDLK_DELETE;
            ck_assert_msg((key->at & SL_AT_PAGE(SL_PAGE_NEW)) == 0 || !letter || key->with == KMOD_CTRL, "%s",
                          sl_action_rows[id].word);
        }
    }
}
END_TEST

START_TEST(letters_come_while_a_line_has_the_keyboard)
{
    drawn();
    ck_assert(SDL_IsTextInputActive());
    press(SDLK_TAB, KMOD_LSHIFT);
    ck_assert_int_eq(stage->hand.focus, SL_DO_CLOSE);
    ck_assert(!SDL_IsTextInputActive());
    press(SDLK_TAB, 0);
    ck_assert(SDL_IsTextInputActive());
    press(SDLK_ESCAPE, 0);
    ck_assert_int_eq(stage->open.page, SL_PAGE_NONE);
    ck_assert(!SDL_IsTextInputActive());
    press(SDLK_y, 0);
    ck_assert_int_eq(stage->open.page, SL_PAGE_NEW);
    ck_assert(SDL_IsTextInputActive());
    ck_assert_str_eq(stage->asking.typed[0].text, ""); /* the key that opened it */
}
END_TEST

START_TEST(keys_go_from_question_to_question_and_round)
{
    drawn();
    for (int row = 0; row < SL_TOPICS; row++) {
        ck_assert_int_eq(sl_asking_row_now(stage), row);
        ck_assert_int_gt(sl_new_control(stage, SL_DO_NEW_FIELD, row).h, 0); /* in sight */
        ck_assert(said(strchr(sl_ask_rows[row].explain, '\n') + 1));
        press(row % 3 == 0 ? SDLK_DOWN : row % 3 == 1 ? SDLK_TAB : SDLK_RETURN, 0);
    }
    ck_assert_int_eq(stage->hand.focus, SL_DO_NEW_WRITE);
    press(SDLK_DOWN, 0);
    ck_assert_int_eq(stage->hand.focus, SL_DO_CLOSE);
    press(SDLK_DOWN, 0);
    ck_assert_int_eq(sl_asking_row_now(stage), 0);
    ck_assert_int_eq(stage->open.scroll[0], 0);
    press(SDLK_UP, 0);
    press(SDLK_UP, 0);
    press(SDLK_UP, 0);
    ck_assert_int_eq(sl_asking_row_now(stage), SL_TOPIC_FILE);
}
END_TEST

START_TEST(help_goes_back_to_the_question)
{
    drawn();
    press(SDLK_UP, 0);
    press(SDLK_UP, 0);
    press(SDLK_UP, 0);
    type("a.yaml");
    for (int way = 0; way < 2; way++) {
        press(SDLK_F1, 0);
        ck_assert_int_eq(stage->open.page, SL_PAGE_HELP);
        press(way == 0 ? SDLK_ESCAPE : SDLK_h, 0);
        ck_assert_int_eq(stage->open.page, SL_PAGE_NEW);
        ck_assert_int_eq(sl_asking_row_now(stage), SL_TOPIC_FILE);
        ck_assert_int_gt(sl_new_control(stage, SL_DO_NEW_FIELD, SL_TOPIC_FILE).h, 0);
        ck_assert_str_eq(stage->asking.typed[SL_TOPIC_FILE].text, "a.yaml");
    }
    press(SDLK_ESCAPE, 0);
    ck_assert_int_eq(stage->open.page, SL_PAGE_NONE);
}
END_TEST

START_TEST(a_question_mark_alone_is_no_answer)
{
    drawn();
    type("?");
    ck_assert_str_eq(stage->asking.typed[0].text, "");
    type("4?");
    ck_assert_str_eq(stage->asking.typed[0].text, "4?");
}
END_TEST

/* Above it something comes to be told; below it what was pressed next stays under the finger. */
START_TEST(a_row_stays_where_it_was_pressed)
{
    drawn();
    type("nonsense");
    const int stood = stage->asking.laid.row[2].all.y;
    const SDL_Rect field = stage->asking.laid.row[2].field;
    SDL_Event event = {.type = SDL_MOUSEBUTTONDOWN};
    event.button.button = SDL_BUTTON_LEFT;
    event.button.x = field.x + 2;
    event.button.y = field.y + 2;
    sl_stage_take(stage, &event);
    drawn();
    ck_assert_int_eq(sl_asking_row_now(stage), 2);
    ck_assert_int_gt(stage->asking.laid.row[0].refusal.h, 0);
    ck_assert_int_eq(stage->asking.laid.row[2].all.y, stood);
}
END_TEST

/* ---- answers ---------------------------------------------------------------------------------------- */

START_TEST(what_is_wrong_is_told_once_it_is_left)
{
    drawn();
    press(SDLK_DOWN, 0);
    press(SDLK_DOWN, 0);
    type("99");
    ck_assert(!said("45 °C"));
    press(SDLK_DOWN, 0);
    ck_assert(said("45 °C"));
    press(SDLK_UP, 0);
    press(SDLK_BACKSPACE, 0);
    ck_assert(!said("45 °C"));
}
END_TEST

/* A question that is refused leaves those behind it their usual answers. */
START_TEST(rows_behind_one_that_is_refused_have_usual_answers)
{
    char room[SL_ASK_TEXT];
    drawn();
    type("0");
    press(SDLK_DOWN, 0);
    ck_assert_str_eq(sl_asking_answer(stage, SL_TOPIC_MIXES, room), "water 3 6");
    press(SDLK_UP, 0);
    press(SDLK_BACKSPACE, 0);
    type("4");
    press(SDLK_DOWN, 0);
    ck_assert_str_eq(sl_asking_answer(stage, SL_TOPIC_MIXES, room), "water old");
}
END_TEST

/* Of a person's hair nothing is usual of goal and limits. */
START_TEST(what_has_no_usual_answer_must_be_typed)
{
    drawn();
    press(SDLK_DOWN, 0);
    type("2");
    for (int row = SL_TOPIC_WHOSE; row < SL_TOPIC_TIME; row++) {
        press(SDLK_DOWN, 0); /* its line is the last in sight */
    }
    sl_action_do(stage, SL_DO_NEW_WRITE, 0);
    drawn();
    ck_assert_ptr_null(stage->asking.made);
    ck_assert_int_eq(sl_asking_row_now(stage), SL_TOPIC_TIME);
    ck_assert(said("Nothing is usual here"));
    const sl_asked_places *const p = &stage->asking.laid;
    const SDL_Rect refusal = p->row[SL_TOPIC_TIME].refusal;
    ck_assert_int_gt(refusal.h, 0);
    ck_assert_int_le(refusal.y + refusal.h, p->body.y + p->body.h);
    int sign = 0;
    ck_assert(said_at("More below", &sign));
    ck_assert_int_ge(sign, p->body.y + p->body.h); /* and nothing lies over it */
}
END_TEST

START_TEST(hair_that_cannot_be_is_asked_for_again)
{
    drawn();
    cannot_be = "xyzzy";
    sl_action_do(stage, SL_DO_NEW_WRITE, 0);
    ck_assert_ptr_null(stage->asking.made);
    ck_assert_int_eq(sl_asking_row_now(stage), SL_TOPIC_HAIR);
    ck_assert(said("xyzzy"));
    cannot_be = NULL;
    type("8");
    ck_assert(!said("xyzzy"));
}
END_TEST

START_TEST(a_folder_that_takes_no_file_is_told)
{
    drawn();
    ck_assert_int_eq(chdir("/proc"), 0);
    sl_action_do(stage, SL_DO_NEW_WRITE, 0);
    ck_assert_ptr_null(stage->asking.made);
    ck_assert_int_eq(stage->asking.trouble.code, SL_ERR_CANNOT_WRITE);
    ck_assert(said("my-test.yaml"));
}
END_TEST

/* ---- what is written ------------------------------------------------------------------------------- */

static void take_away(void)
{
    for (int i = 0; i < stage->asking.made->n; i++) {
        const char *const name = stage->asking.made->file[i].name;
        char made[64];
        snprintf(made, sizeof made, "%.*s", (int)strcspn(name, "/"), name);
        unlink(name[0] != '\0' ? name : "my-test.yaml");
        rmdir(made);
    }
}

START_TEST(another_test_begins_with_nothing_typed)
{
    drawn();
    type("3");
    sl_action_do(stage, SL_DO_NEW_WRITE, 0);
    ck_assert_ptr_nonnull(stage->asking.made);
    ck_assert_int_eq(access("my-test.yaml", F_OK), 0);
    ck_assert(said("slowlift answer my-test.yaml"));
    ck_assert(!SDL_IsTextInputActive());
    stage->look.scale = 2.0;
    drawn();
    press(SDLK_DOWN, 0); /* reads on */
    ck_assert_int_gt(stage->open.scroll[0], 0);
    ck_assert_int_eq(stage->hand.focus, SL_DO_NEW_OPEN);
    press(SDLK_TAB, 0);
    ck_assert_int_eq(stage->hand.focus, SL_DO_CLOSE);
    take_away();
    press(SDLK_ESCAPE, 0);
    press(SDLK_y, 0);
    ck_assert_ptr_null(stage->asking.made);
    ck_assert_str_eq(stage->asking.typed[0].text, "");
    ck_assert(said(sl_ask_rows[0].ask));
}
END_TEST

/* None fails at first, then each allocation of the writing once: nothing is written then, and it is told. */
START_TEST(memory_that_ends_leaves_nothing_behind)
{
    long calls = 0;
    drawn();
    for (long n = 0; n <= calls; n += n < 40 ? 1 : 37) {
        faults_arm(n, false);
        sl_action_do(stage, SL_DO_NEW_WRITE, 0);
        const faults_count count = faults_disarm();
        calls = count.calls > calls ? count.calls : calls;
        if (stage->asking.made != NULL) { /* what failed was not needed */
            take_away();
            sl_made_free(stage->asking.made);
            free(stage->asking.made);
            stage->asking.made = NULL;
        } else {
            ck_assert_int_eq(stage->asking.trouble.code, SL_ERR_NO_MEMORY);
            ck_assert_int_ne(access("my-test.yaml", F_OK), 0);
            ck_assert_int_ne(access("mixes", F_OK), 0);
        }
        drawn();
    }
    ck_assert_int_gt(calls, 20);
}
END_TEST

START_SUITE("new page")
ADD(no_letter_is_a_key_where_letters_are_typed)
CASE("in a window")
FIXTURE(begin, end)
ADD(letters_come_while_a_line_has_the_keyboard)
ADD(keys_go_from_question_to_question_and_round)
ADD(help_goes_back_to_the_question)
ADD(a_question_mark_alone_is_no_answer)
ADD(a_row_stays_where_it_was_pressed)
ADD(what_is_wrong_is_told_once_it_is_left)
ADD(rows_behind_one_that_is_refused_have_usual_answers)
ADD(what_has_no_usual_answer_must_be_typed)
ADD(hair_that_cannot_be_is_asked_for_again)
ADD(a_folder_that_takes_no_file_is_told)
ADD(another_test_begins_with_nothing_typed)
ADD(memory_that_ends_leaves_nothing_behind)
END_SUITE
