/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See new_page.h; and what keys and the pointer do on the page.
 */
#include "view/panels/new_page.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/language.h"
#include "front/places.h"
#include "front/work/new_files.h"
#include "view/window/acts.h"

_Static_assert((int)SL_TYPED_BYTES == (int)SL_ASK_TEXT, "a line holds an answer");

/* ---- what stands there ------------------------------------------------------------------------ */

const char *sl_asking_answer(const sl_stage *stage, int row, char room[SL_ASK_TEXT])
{
    const sl_asked_page *const asking = &stage->asking;
    const char *const typed = asking->typed[row].text;
    return typed[0] != '\0' ? typed : sl_ask_usual((sl_topic)row, &asking->asked, room);
}

static bool is_missing(const sl_stage *stage, int row)
{
    char room[SL_ASK_TEXT];
    return sl_asking_answer(stage, row, room)[0] == '\0';
}

static bool is_wrong(const sl_stage *stage, int row)
{
    return stage->asking.refused[row].code != SL_OK || is_missing(stage, row);
}

bool sl_asking_refusal(const sl_stage *stage, int row, char *text, size_t size)
{
    const sl_asked_page *const asking = &stage->asking;
    if (!asking->left[row] || !is_wrong(stage, row)) {
        return false;
    }
    if (asking->refused[row].code != SL_OK) {
        sl_error_sentence(&asking->refused[row], text, size);
    } else {
        snprintf(text, size, "%s", _("Nothing is usual here: type an answer."));
    }
    return true;
}

enum { SL_ASK_PLACED = 2 * SL_ASK_PATH };

/* A name alone lies in the folder of my tests, where there is one. */
static const char *in_folder(const sl_asked_page *asking, int row, const char *answer,
                             char placed[SL_ASK_PLACED])
{
    if (row != SL_TOPIC_FILE || asking->folder == NULL || answer[0] == '\0' || strchr(answer, '/') != NULL) {
        return answer;
    }
    snprintf(placed, SL_ASK_PLACED, "%s/%s", asking->folder, answer);
    return placed;
}

void sl_asking_into(sl_asked_page *asking, const char *folder)
{
    asking->folder = folder;
    if (folder == NULL || asking->typed[SL_TOPIC_FILE].text[0] != '\0') {
        return;
    }
    char room[SL_ASK_TEXT], name[SL_ASK_TEXT], placed[SL_ASK_PLACED];
    const char *const usual = sl_ask_usual(SL_TOPIC_FILE, &asking->asked, room);
    const char *const end = strrchr(usual, '.');
    snprintf(name, sizeof name, "%s", usual);
    for (int i = 2;
         i < 1000 && end != NULL && access(in_folder(asking, SL_TOPIC_FILE, name, placed), F_OK) == 0; i++) {
        snprintf(name, sizeof name, "%.*s-%d%s", (int)(end - usual), usual, i, end);
    }
    if (strcmp(name, usual) != 0) {
        sl_typed_set(&asking->typed[SL_TOPIC_FILE], name);
    }
}

/* A row that is refused is read as usual for those behind it, which ask what it says. */
void sl_asking_read(sl_stage *stage)
{
    sl_asked_page *const asking = &stage->asking;
    if (asking->is_read) {
        return;
    }
    asking->asked = (sl_new_test){.question = 0};
    for (int row = 0; row < SL_TOPICS; row++) {
        char room[SL_ASK_TEXT];
        char placed[2][SL_ASK_PLACED];
        const char *const typed = in_folder(asking, row, asking->typed[row].text, placed[0]);
        const char *const usual =
            in_folder(asking, row, sl_ask_usual((sl_topic)row, &asking->asked, room), placed[1]);
        sl_error_clear(&asking->refused[row]);
        if (typed[0] == '\0' ||
            !sl_ask_typed((sl_topic)row, typed, true, &asking->asked, &asking->refused[row])) {
            sl_error *const error = typed[0] == '\0' ? &asking->refused[row] : NULL;
            if (usual[0] != '\0') {
                sl_ask_typed((sl_topic)row, usual, false, &asking->asked, error);
            }
        }
    }
    asking->is_read = true;
}

void sl_asking_clear(sl_asked_page *asking)
{
    const char *const models = asking->models, *const folder = asking->folder;
    if (asking->made != NULL) {
        sl_made_free(asking->made);
        sl_free(asking->made);
    }
    *asking = (sl_asked_page){.models = models, .folder = folder};
}

/* ---- the keyboard -------------------------------------------------------------------------------- */

int sl_asking_row_now(const sl_stage *stage)
{
    const sl_stage_hand *const hand = &stage->hand;
    return hand->focus == SL_DO_NEW_FIELD  ? hand->focus_number
           : hand->focus == SL_DO_NEW_WORD ? hand->focus_number / SL_ASK_WORDS
                                           : -1;
}

static bool listens(const sl_stage *stage)
{
    return stage->open.page == SL_PAGE_NEW && stage->asking.made == NULL &&
           stage->hand.focus == SL_DO_NEW_FIELD;
}

void sl_asking_listen(const sl_stage *stage)
{
    if (listens(stage) && !SDL_IsTextInputActive()) {
        SDL_StartTextInput();
    } else if (!listens(stage) && SDL_IsTextInputActive()) {
        SDL_StopTextInput();
    }
}

static void changed(sl_stage *stage)
{
    sl_error_clear(&stage->asking.trouble);
    stage->asking.is_read = false;
    stage->dirty = true;
}

/* A question mark that nothing stands before asks for what is explained already, and is no answer. */
bool sl_asking_take(sl_stage *stage, const SDL_Event *event)
{
    if (!listens(stage)) {
        return false;
    }
    sl_typed *const typed = &stage->asking.typed[stage->hand.focus_number];
    const bool asks = event->type == SDL_TEXTINPUT && typed->text[0] == '\0' && event->text.text[0] == '?';
    const bool taken = asks || sl_typed_take(typed, event);
    if (taken) {
        changed(stage);
    }
    return taken;
}

/* ---- what is done ----------------------------------------------------------------------------------- */

static void go_to(sl_stage *stage, sl_action_id what, int which)
{
    stage->hand.focus = what;
    stage->hand.focus_number = which;
    stage->hand.focus_seen = true;
}

void sl_act_new(sl_stage *stage, int which, int by)
{
    (void)which;
    (void)by;
    if (stage->asking.made != NULL) {
        sl_asking_clear(&stage->asking);
    }
    sl_asking_into(&stage->asking, stage->asking.folder);
    sl_act_open_page(stage, SL_PAGE_NEW);
    go_to(stage, SL_DO_NEW_FIELD, 0);
}

void sl_act_new_field(sl_stage *stage, int row, int by)
{
    (void)by;
    go_to(stage, SL_DO_NEW_FIELD, row);
}

void sl_act_point_typed(sl_stage *stage, const sl_stage_spot *spot, int x, int y)
{
    (void)y;
    sl_typed_point(&stage->asking.typed[spot->number], &stage->pen, spot->area, x);
}

void sl_act_new_word(sl_stage *stage, int which, int by)
{
    char room[SL_ASK_TEXT], text[SL_ASK_TEXT];
    const int row = which / SL_ASK_WORDS;
    (void)by;
    sl_ask_tap((sl_topic)row, which % SL_ASK_WORDS, sl_asking_answer(stage, row, room), text);
    sl_typed_set(&stage->asking.typed[row], text);
    changed(stage);
}

/* From question to question, then to the buttons at the foot, round and round. What was made is read: there
 * the arrows move it, and Tab goes from button to button. */
void sl_act_new_row(sl_stage *stage, int way, int by)
{
    static const sl_action_id foot[] = {SL_DO_NEW_WRITE, SL_DO_CLOSE};
    enum { ALL = SL_TOPICS + 2 };
    const bool arrow = way == SL_WAY_UP || way == SL_WAY_DOWN;
    const int step = way == SL_WAY_UP || way == SL_WAY_SHEET_UP ? -1 : 1, row = sl_asking_row_now(stage);
    if (stage->asking.made != NULL) {
        if (arrow) {
            sl_act_scroll(stage, way, by);
        } else {
            sl_act_focus(stage, 0, step);
        }
        return;
    }
    const int now = row >= 0 ? row : stage->hand.focus == foot[0] ? SL_TOPICS : SL_TOPICS + 1;
    const int next = (now + step + ALL) % ALL;
    go_to(stage, next < SL_TOPICS ? SL_DO_NEW_FIELD : foot[next - SL_TOPICS], next < SL_TOPICS ? next : 0);
}

void sl_act_new_take(sl_stage *stage, int which, int by)
{
    if (stage->asking.made == NULL && sl_asking_row_now(stage) >= 0) {
        sl_act_new_row(stage, SL_WAY_DOWN, by);
    } else {
        sl_act_press(stage, which, by);
    }
}

static bool make(sl_stage *stage, sl_made *made, sl_places *places)
{
    sl_asked_page *const asking = &stage->asking;
    made->asked = asking->asked;
    if (!sl_places_find(places, asking->models, NULL, &asking->trouble)) {
        return false;
    }
    sl_folders folders = {.folders = places->folders, .n_folders = places->n_folders};
    const sl_resolver models = sl_resolver_of_folders(&folders);
    if (sl_ask_make(made, &models, &asking->trouble)) {
        return sl_new_files_write(made, &asking->trouble);
    }
    if (sl_ask_hair_cannot_be(&asking->trouble)) {
        asking->refused[SL_TOPIC_HAIR] = asking->trouble;
        sl_error_clear(&asking->trouble);
        go_to(stage, SL_DO_NEW_FIELD, SL_TOPIC_HAIR);
    }
    return false;
}

void sl_act_new_write(sl_stage *stage, int which, int by)
{
    sl_asked_page *const asking = &stage->asking;
    (void)which;
    (void)by;
    changed(stage);   /* a file may have come since */
    asking->row = -1; /* whichever it comes to is brought into sight, with what is told of it */
    sl_asking_read(stage);
    for (int row = SL_TOPICS - 1; row >= 0; row--) {
        asking->left[row] = true;
        if (is_wrong(stage, row)) {
            go_to(stage, SL_DO_NEW_FIELD, row);
        }
    }
    for (int row = 0; row < SL_TOPICS; row++) {
        if (is_wrong(stage, row)) {
            return;
        }
    }
    sl_made *const made = sl_new(1, sizeof *made, "making a test", &asking->trouble);
    sl_places *const places = made ? sl_new(1, sizeof *places, "making a test", &asking->trouble) : NULL;
    if (places != NULL && make(stage, made, places)) {
        asking->made = made;
        stage->open.scroll[0] = 0;
        go_to(stage, SL_DO_NEW_OPEN, 0);
    } else if (made != NULL) {
        sl_made_free(made);
        sl_free(made);
    }
    sl_free(places);
}

void sl_act_new_open(sl_stage *stage, int which, int by)
{
    (void)which;
    (void)by;
    stage->asking.open = stage->asking.made != NULL;
}
