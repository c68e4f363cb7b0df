/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rows of actions, pages and panels: keys that mean one thing, nothing that no place shows, and every
 * control pressed in a window that nobody sees.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "document/renderers.h"
#include "slowlift/caution.h"
#include "slowlift/scene.h"
#include "small_scene.h"
#include "stage_made.h"
#include "suite.h"
#include "view/window/views.h"

enum { PLACES = 32 };

/* ---- rows alone ---------------------------------------------------------------------------- */

static bool same_key(const sl_action_key *one, const sl_action_key *two)
{
    const int ones = one->run > 0 ? one->run : 1, twos = two->run > 0 ? two->run : 1;
    return one->with == two->with && one->key < two->key + twos && two->key < one->key + ones;
}

START_TEST(a_key_means_one_action_at_one_place)
{
    for (int i = 1; i < SL_ACTIONS; i++) {
        for (int k = 0; k < SL_MOST_KEYS; k++) {
            for (int j = 1; j <= i; j++) {
                for (int m = 0; m < (j < i ? SL_MOST_KEYS : k); m++) {
                    const sl_action_key *one = &sl_action_rows[i].key[k], *two = &sl_action_rows[j].key[m];
                    ck_assert_msg((one->at & two->at) == 0 || !same_key(one, two), "%s and %s: %s",
                                  sl_action_rows[i].word, sl_action_rows[j].word, SDL_GetKeyName(one->key));
                }
            }
        }
    }
}
END_TEST

static bool shown_by(const sl_view_row *row, sl_action_id id)
{
    for (int group = 0; group < SL_MOST_GROUPS; group++) {
        for (int i = 0; i < SL_MOST_GROUPED; i++) {
            if (row->control[group][i] == id) {
                return true;
            }
        }
    }
    return false;
}

static bool shown(sl_action_id id)
{
    static const sl_stage log_open = {.logs = {.seen = (const void *)1}};
    sl_action_id bar[SL_MOST_BUTTONS];
    bool found = id == SL_DO_PLAY || id == SL_DO_RULER; /* below the strips */
    for (int i = 0, n = sl_view_bar(&log_open, bar); i < n; i++) {
        found = found || bar[i] == id;
    }
    for (int page = 0; page < SL_STAGE_PAGES; page++) {
        found = found || shown_by(&sl_page_rows[page], id);
    }
    for (int panel = 0; panel < SL_PANELS; panel++) {
        found = found || shown_by(&sl_panel_rows[panel], id);
    }
    return found;
}

START_TEST(every_action_has_a_place_or_a_key_and_words)
{
    for (int i = 1; i < SL_ACTIONS; i++) {
        const sl_action *const row = &sl_action_rows[i];
        ck_assert_msg(row->word != NULL, "action %d has no word", i);
        ck_assert_msg(shown((sl_action_id)i) || row->key[0].at != 0, "%s is nowhere", row->word);
        ck_assert_msg(row->page != SL_PAGE_NONE || row->panel != SL_PANEL_NONE || row->turn != NULL ||
                          row->act != NULL || row->point != NULL,
                      "%s does nothing", row->word);
        for (int j = 1; j < i; j++) {
            ck_assert_str_ne(row->word, sl_action_rows[j].word);
        }
    }
}
END_TEST

START_TEST(every_key_is_told_on_the_page_of_keys)
{
    for (int i = 1; i < SL_ACTIONS; i++) {
        const sl_action *const row = &sl_action_rows[i];
        const sl_action *const teller = row->help != NULL ? row : &sl_action_rows[row->told_with];
        if (row->key[0].at != 0) {
            ck_assert_msg(teller->help != NULL, "%s", row->word);
        }
        if (row->help != NULL) {
            ck_assert_msg(row->keys_told != NULL || row->cap != NULL, "%s", row->word);
        }
    }
}
END_TEST

/* A button names a key that does it. */
START_TEST(a_buttons_key_does_what_the_button_says)
{
    static const char *const other[][2] = {{"Esc", "Escape"}, {"←", "Left"}, {"→", "Right"}};
    for (int i = 1; i < SL_ACTIONS; i++) {
        const char *cap = sl_action_rows[i].cap;
        bool named = cap == NULL;
        for (int k = 0; k < SL_MOST_KEYS; k++) {
            const char *const name = SDL_GetKeyName(sl_action_rows[i].key[k].key);
            named = named || strcmp(cap, name) == 0;
            for (size_t j = 0; j < sizeof other / sizeof other[0]; j++) {
                named = named || (strcmp(cap, other[j][0]) == 0 && strcmp(name, other[j][1]) == 0);
            }
        }
        ck_assert_msg(named, "%s: %s", sl_action_rows[i].word, cap);
    }
}
END_TEST

/* ---- a window that nobody sees ------------------------------------------------------------------ */

static sl_stage *opened(bool head)
{
    static small_scene small; /* its words are the copy's, too */
    small_scene_fill(&small);
    small.scene.room_c = 24.0;
    small.scene.place = head ? SL_PLACE_HEAD : SL_PLACE_BENCH;
    sl_aims_assume(&small.scene);
    sl_stage *const stage = stage_made(&small.scene);
    stage->open.page = SL_PAGE_NONE;
    return stage;
}

static void drawn(sl_stage *stage)
{
    sl_error error = {.code = SL_OK};
    stage->dirty = true;
    sl_stage_resolve(stage);
    ck_assert_msg(sl_stage_draw(stage, &error), "%s: %s", error.found, error.wanted);
}

/* Whatever an action refuses with is a sentence that the other language has, too. */
static void look_up_refusals(const sl_stage *stage)
{
    for (int id = 1; id < SL_ACTIONS; id++) {
        for (int which = 0; which < sl_action_count(stage, (sl_action_id)id); which++) {
            const char *const why = sl_action_why_not(stage, (sl_action_id)id, which);
            ck_assert_msg(why == NULL || strcmp(_(why), why) != 0, "not in the catalogue: %s", why);
        }
    }
}

static void press_all_here(sl_stage *stage, sl_stage_page page, sl_panel panel)
{
    stage->open.page = page;
    stage->open.panel = panel;
    drawn(stage);
    look_up_refusals(stage);
    ck_assert_int_lt(stage->laid.n_spots, SL_MOST_SPOTS);
    for (int i = 0; i < stage->laid.n_spots; i++) {
        const sl_stage_spot spot = stage->laid.spots[i];
        ck_assert_msg(spot.area.x >= 0 && spot.area.x + spot.area.w <= 1280, "%s %d",
                      sl_action_rows[spot.kind].word, spot.number);
        sl_action_do(stage, spot.kind, spot.number);
        if (sl_action_rows[spot.kind].point != NULL) {
            sl_action_rows[spot.kind].point(stage, &spot, spot.area.x + 1, spot.area.y + 1);
        }
        drawn(stage);
        stage->open.page = page;
        stage->open.panel = panel;
        drawn(stage);
    }
}

START_TEST(every_control_of_every_page_and_panel_can_be_pressed)
{
    sl_stage *const stage = opened(_i == 1);
    for (int page = 0; page < SL_STAGE_PAGES; page++) {
        for (int panel = 0; panel < (page == SL_PAGE_NONE ? (int)SL_PANELS : 1); panel++) {
            press_all_here(stage, (sl_stage_page)page, (sl_panel)panel);
        }
    }
    sl_stage_free(stage);
    SDL_Quit();
}
END_TEST

/* Each key of each row, wherever it means something. */
START_TEST(every_key_can_be_pressed_wherever_it_means_something)
{
    sl_stage *const stage = opened(_i == 1);
    for (int id = 1; id < SL_ACTIONS; id++) {
        for (int k = 0; k < SL_MOST_KEYS && sl_action_rows[id].key[k].at != 0; k++) {
            const sl_action_key *const key = &sl_action_rows[id].key[k];
            for (int place = 0; place < PLACES; place++) {
                if ((key->at >> place & 1U) == 0) {
                    continue;
                }
                const bool knob = place == 31;
                stage->hand = (sl_stage_hand){.focus = knob ? SL_DO_KNOB : SL_DO_NONE};
                stage->open.page = place < 16 ? (sl_stage_page)place : SL_PAGE_NONE;
                stage->open.panel = knob         ? SL_PANEL_WHAT_IF
                                    : place < 16 ? SL_PANEL_NONE
                                                 : (sl_panel)(place - 16);
                drawn(stage);
                sl_action_id found = SL_DO_NONE;
                int which = -1;
                ck_assert(sl_action_of_key(stage, key->key, key->with, &found, &which));
                if (sl_action_why_not(stage, (sl_action_id)id, which) == NULL) {
                    ck_assert_msg(found == (sl_action_id)id, "%s means %s", sl_action_rows[id].word,
                                  sl_action_rows[found].word);
                }
                sl_action_do(stage, found, which);
                drawn(stage);
                stage->leave = false;
            }
        }
    }
    sl_stage_free(stage);
    SDL_Quit();
}
END_TEST

/* What cannot be done now is not done, and says so. */
START_TEST(what_is_impossible_says_why)
{
    sl_stage *const stage = opened(true);
    drawn(stage); /* hair on a head is compared at one share */
    stage->chosen.mode = SL_SAME_COLOUR;
    sl_action_do(stage, SL_DO_PLAY, 0);
    ck_assert(!stage->chosen.playing);
    ck_assert_ptr_nonnull(stage->hand.refused);
    sl_action_do(stage, SL_DO_HELP, 0);
    ck_assert_ptr_null(stage->hand.refused);
    sl_stage_free(stage);
    SDL_Quit();
}
END_TEST

/* Tab comes to every control at which it stops, and back to the first. */
START_TEST(tab_visits_every_control_once)
{
    sl_stage *const stage = opened(false);
    for (int panel = 0; panel < SL_PANELS; panel++) {
        stage->open.panel = (sl_panel)panel;
        drawn(stage);
        int stops = 0;
        for (int i = 0; i < stage->laid.n_spots; i++) {
            stops += stage->laid.spots[i].stop ? 1 : 0;
        }
        stage->hand = (sl_stage_hand){0};
        sl_action_do(stage, SL_DO_FOCUS_ON, 0);
        const sl_stage_hand first = stage->hand;
        for (int i = 1; i < stops; i++) {
            sl_action_do(stage, SL_DO_FOCUS_ON, 0);
            ck_assert(stage->hand.focus != first.focus || stage->hand.focus_number != first.focus_number);
        }
        sl_action_do(stage, SL_DO_FOCUS_ON, 0);
        ck_assert(stage->hand.focus == first.focus && stage->hand.focus_number == first.focus_number);
    }
    sl_stage_free(stage);
    SDL_Quit();
}
END_TEST

/* Of a scene that is followed for days: by minutes through its first hours, by hours after them, and back to
 * the same places. */
START_TEST(a_scene_of_days_goes_on_by_hours)
{
    static small_scene small;
    small_scene_fill(&small);
    small.scene.until_min = 4320.0;
    sl_stage *const stage = stage_made(&small.scene);
    ck_assert(sl_stage_of_days(stage));
    sl_stage_go(stage, 239.0);
    static const double on[] = {240.0, 300.0, 360.0};
    for (int i = 0; i < 3; i++) {
        sl_action_do(stage, SL_DO_MINUTE_ON, 1);
        ck_assert_double_eq(stage->chosen.now_min, on[i]);
    }
    static const double back[] = {300.0, 240.0, 239.0};
    for (int i = 0; i < 3; i++) {
        sl_action_do(stage, SL_DO_MINUTE_BACK, 1);
        ck_assert_double_eq(stage->chosen.now_min, back[i]);
    }
    sl_stage_go(stage, 4290.0);
    sl_action_do(stage, SL_DO_MINUTE_ON, 5);
    ck_assert_double_eq(stage->chosen.now_min, 4320.0);
    sl_stage_free(stage);
    SDL_Quit();
}
END_TEST

/* The row in which minutes are named looks alike wherever the cursor stands. */
START_TEST(the_cursor_covers_no_minute_of_the_ruler)
{
    sl_stage *const stage = opened(false);
    drawn(stage);
    const SDL_Rect ruler = stage->laid.layout.ruler;
    const int line = sl_text_line_height(stage->text, SL_TYPE_SMALL);
    const size_t bytes = (size_t)line * (size_t)ruler.w * 4;
    Uint8 *const words[2] = {malloc(bytes), malloc(bytes)};
    ck_assert(words[0] != NULL && words[1] != NULL);
    for (int minute = -10; minute <= 20; minute += 10) {
        sl_stage_go(stage, minute < 0 ? 7.0 : minute); /* at first where none is named */
        drawn(stage);
        const SDL_Surface *const sheet = stage->pen.sheet;
        for (int row = 0; row < line; row++) {
            memcpy(words[minute >= 0] + row * ruler.w * 4,
                   (const Uint8 *)sheet->pixels + (ruler.y + row) * sheet->pitch + ruler.x * 4,
                   (size_t)ruler.w * 4);
        }
        ck_assert(minute < 0 || memcmp(words[0], words[1], bytes) == 0);
    }
    free(words[0]);
    free(words[1]);
    sl_stage_free(stage);
    SDL_Quit();
}
END_TEST

/* What the background could not find says why in its page or panel, in place of waiting for ever. */
START_TEST(what_could_not_be_computed_says_why)
{
    static const struct {
        sl_stage_page page;
        sl_panel panel;
    } at[SL_STUDIES] = {[SL_STUDY_MEMBERS] = {SL_PAGE_NONE, SL_PANEL_LIMITS},
                        [SL_STUDY_RANK] = {SL_PAGE_RANK, SL_PANEL_NONE},
                        [SL_STUDY_MAP] = {SL_PAGE_MAP, SL_PANEL_NONE},
                        [SL_STUDY_ANSWERS] = {SL_PAGE_ANSWER, SL_PANEL_NONE}};
    sl_stage *const stage = opened(false);
    sl_error error = {.code = SL_OK};
    sl_stage_choose_arm(stage, ARM_6);
    for (int i = 0; i < SL_STUDIES; i++) {
        char *told = NULL;
        size_t size = 0;
        stage->open.page = at[i].page;
        stage->open.panel = at[i].panel;
        drawn(stage);
        sl_study_thread_stop(stage->solved.study_thread); /* nothing more comes */
        stage->solved.study_thread = sl_study_thread_start(stage->wake, false, &error);
        sl_study_free(&stage->solved.study);
        sl_fail(&stage->solved.study.error[i], SL_ERR_SOLVER, "xyzzy", "another number");
        stage->solved.found++;
        FILE *const out = open_memstream(&told, &size);
        stage->dirty = true;
        sl_text_tell_to(stage->text, out);
        ck_assert(sl_stage_draw(stage, &error));
        sl_text_tell_to(stage->text, NULL);
        fclose(out);
        ck_assert_msg(strstr(told, "xyzzy") != NULL, "%s", told);
        free(told);
    }
    sl_stage_free(stage);
    SDL_Quit();
}
END_TEST

static void in_spanish(void)
{
    sl_error error = {.code = SL_OK};
    ck_assert(sl_language_use("es", "locale", &error));
    ck_assert_int_eq(chdir("/proc"), 0); /* where nothing that is pressed can leave a file */
}

START_TEST(a_caution_in_the_readers_own_words_ends_before_its_English)
{
    char own[1024];
    for (int id = 0; id < SL_CAUTION_COUNT; id++) {
        const sl_caution *const caution = sl_caution_text((sl_caution_id)id);
        const char *const rest = sl_caution_own((sl_caution_id)id, own, sizeof own);
        ck_assert(rest[0] == '\0' || strstr(rest, caution->text) != NULL);
        ck_assert_int_eq(strncmp(own, _(caution->text), strlen(own)), 0);
        ck_assert_ptr_null(strstr(own, caution->text));
        ck_assert_msg(own[strlen(own) - 1] == '.', "%s", own);
    }
    sl_language_stop();
    sl_caution_own(SL_CAUTION_EYES, own, sizeof own);
    ck_assert_str_eq(own, sl_caution_text(SL_CAUTION_EYES)->text);
}
END_TEST

START_SUITE("action")
ADD(a_key_means_one_action_at_one_place)
ADD(every_action_has_a_place_or_a_key_and_words)
ADD(every_key_is_told_on_the_page_of_keys)
ADD(a_buttons_key_does_what_the_button_says)
CASE("in a window")
FIXTURE(in_spanish, sl_language_stop)
ADD(a_caution_in_the_readers_own_words_ends_before_its_English)
ADD_LOOP(every_control_of_every_page_and_panel_can_be_pressed, 0, 2)
ADD_LOOP(every_key_can_be_pressed_wherever_it_means_something, 0, 2)
ADD(what_is_impossible_says_why)
ADD(tab_visits_every_control_once)
ADD(a_scene_of_days_goes_on_by_hours)
ADD(the_cursor_covers_no_minute_of_the_ruler)
ADD(what_could_not_be_computed_says_why)
END_SUITE
