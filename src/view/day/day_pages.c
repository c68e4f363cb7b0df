/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pages over the bench: the stop with its cautions, water and reason; the sound test; notes; all
 * cautions; keys. The alarm stands on top of each, and STOP AND RINSE works on each.
 */
#include <stdio.h>

#include "base/append.h"
#include "base/language.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"
#include "view/day/day.h"

static SDL_Rect body_of(const sl_day *day)
{
    const SDL_Rect alarm = day->places.alarm;
    const int line = day->trouble.code != SL_OK ? sl_text_line_height(day->pen.text, SL_TYPE_BODY) : 0;
    const int top = day->places.head.y + alarm.h + line + sl_pen_px(&day->pen, 8.0);
    return (SDL_Rect){alarm.x, top, alarm.w, day->pen.sheet->h - top - alarm.x};
}

/* The last row of a page: large buttons, side by side. */
static SDL_Rect last_row(SDL_Rect body, int columns, int index)
{
    const SDL_Rect row = {body.x, body.y + body.h - SL_DAY_STOP_PX, body.w, SL_DAY_STOP_PX};
    return sl_day_grid(row, columns, 1, index);
}

/* Text in the largest type with which it fits; returns the y below. */
static int put_fitting(const sl_pen *pen, SDL_Rect area, const char *text)
{
    static const sl_type types[] = {SL_TYPE_HEAD, SL_TYPE_FIGURE, SL_TYPE_BODY, SL_TYPE_SMALL, SL_TYPE_NOTE};
    int i = 0;
    while (i < 4 && sl_pen_size(pen, types[i], SL_INK_TEXT, area.w, text).y > area.h) {
        i++;
    }
    return area.y + sl_pen_wrap(pen, types[i], SL_INK_TEXT, area, false, text);
}

static void put_title(const sl_day *day, SDL_Rect *body, const char *title)
{
    const int large = sl_text_line_height(day->pen.text, SL_TYPE_LARGE);
    sl_pen_place(&day->pen, SL_TYPE_LARGE, SL_INK_TEXT, (SDL_Rect){body->x, body->y, body->w, large},
                 SL_ALIGN_LEFT, title);
    body->y += large;
    body->h -= large;
}

/* ---- the stop ----------------------------------------------------------------------------------------- */

static void put_caution(const sl_pen *pen, SDL_Rect area, sl_caution_id id)
{
    const sl_caution *const caution = sl_caution_text(id);
    char text[1024];
    snprintf(text, sizeof text, "%s  %s", _(caution->signal), _(caution->text));
    put_fitting(pen, area, text);
}

static void put_water(const sl_day *day, SDL_Rect area)
{
    const sl_pen *const pen = &day->pen;
    double runs = 0.0;
    double least = 0.0;
    char span[24];
    char text[SL_DAY_LINE];
    sl_bench_stop_water(&day->bench, &day->now, &runs, &least);
    sl_day_span(runs, span, sizeof span);
    const int clock = sl_text_line_height(pen->text, SL_TYPE_CLOCK);
    const sl_type type = clock <= area.h ? SL_TYPE_CLOCK : SL_TYPE_LARGE;
    const SDL_Rect written = sl_pen_write(pen, type, SL_INK_TEXT, area.x, area.y, SL_ALIGN_LEFT, span);
    if (least > 0.0) {
        sl_day_span(least - runs, span, sizeof span);
        snprintf(text, sizeof text,
                 runs < least ? _("of water. An eye: 15 minutes, %s to go")
                              : _("of water, 15 minutes are over (by %s). Medical help?"),
                 span);
    } else {
        snprintf(text, sizeof text, "%s", _("of water. An eye: 15 minutes. Hair: until it runs clear"));
    }
    const int x = written.x + written.w + sl_pen_px(pen, 16.0);
    const SDL_Rect beside = {x, area.y, area.x + area.w - x, area.h};
    const int h = sl_pen_size(pen, SL_TYPE_HEAD, SL_INK_TEXT, beside.w, text).y;
    sl_pen_wrap(pen, SL_TYPE_HEAD, SL_INK_TEXT,
                (SDL_Rect){x, area.y + SDL_max((SDL_min(written.h, area.h) - h) / 2, 0), beside.w, 0}, false,
                text);
}

static void put_reasons(sl_day *day, SDL_Rect area)
{
    for (int i = 0; i < SL_DAY_REASONS; i++) {
        char key[4];
        const char *words = "";
        const bool given = day->bench.stop_reason == sl_day_reason(i, &words);
        snprintf(key, sizeof key, "%d", i + 1);
        sl_day_put_button(day, SL_ACT_CHOICE, i, sl_day_grid(area, 3, 3, i), words, key, given);
    }
}

static void put_stopped(sl_day *day)
{
    const sl_pen *const pen = &day->pen;
    const SDL_Rect body = body_of(day);
    const sl_event *const stopped = sl_day_last_stop(day->event, day->n_events);
    const int gap = sl_pen_px(pen, 8.0);
    const sl_type title = day->places.compact ? SL_TYPE_HEAD : SL_TYPE_LARGE;
    const int large = sl_text_line_height(pen->text, title);
    const int strong = sl_text_line_height(pen->text, SL_TYPE_STRONG);
    const SDL_Rect last = last_row(body, 4, 0);
    const int grid_h = 3 * SL_DAY_TARGET_PX + 16;
    const SDL_Rect grid = {body.x, last.y - 8 - grid_h, body.w, grid_h};
    const bool one = stopped != NULL && stopped->swatch >= 0;
    char text[SL_DAY_LINE];
    snprintf(text, sizeof text, _("STOP AND RINSE: %s"), one ? day->plan[stopped->swatch].code : _("all"));
    sl_pen_fill(pen, (SDL_Rect){body.x, body.y, body.w, large + gap}, SL_GROUND_DARK);
    sl_pen_place(pen, title, SL_INK_LIGHT, (SDL_Rect){body.x + gap, body.y, body.w - gap, large + gap},
                 SL_ALIGN_LEFT, text);
    int y = body.y + large + 2 * gap;
    if (sl_bench_eye(&day->bench) && sl_day_also(&day->bench, text, sizeof text)) {
        y += sl_pen_wrap(pen, day->places.compact ? SL_TYPE_STRONG : SL_TYPE_HEAD, SL_INK_TEXT,
                         (SDL_Rect){body.x, y, body.w, 0}, false, text);
    }
    const int ask_y = grid.y - strong - gap / 2;
    const int clock = sl_text_line_height(pen->text, SL_TYPE_CLOCK);
    const int water_h =
        ask_y - y > clock + 8 * strong ? clock : sl_text_line_height(pen->text, SL_TYPE_LARGE);
    put_water(day, (SDL_Rect){body.x, y, body.w, water_h});
    const int left = ask_y - gap - y - water_h;
    const int half = (body.w - 2 * gap) * 4 / 10; /* the eye's text is the shorter */
    put_caution(pen, (SDL_Rect){body.x, y + water_h, half, left}, SL_CAUTION_EYES);
    put_caution(pen, (SDL_Rect){body.x + half + 2 * gap, y + water_h, body.w - half - 2 * gap, left},
                SL_CAUTION_SCALP);
    const bool told = day->said[0] != '\0' && day->refused;
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){body.x, ask_y, body.w, strong}, SL_ALIGN_LEFT,
                 told ? day->said : _("Why? One key, while the water runs:"));
    put_reasons(day, grid);
    sl_day_put_button(day, SL_ACT_GO, 0, last, _("The water is off"), _("O, Enter"), false);
    sl_day_put_button(day, SL_ACT_CLOSE, 0, last_row(body, 4, 1), _("To the bench, water on"), "Esc", false);
    sl_day_put_button(day, SL_ACT_BOWLS, 0, last_row(body, 4, 2), _("What was in the bowl"), "I", false);
    sl_day_put_button(day, SL_ACT_STOP_ALL, 0, last_row(body, 4, 3), _("STOP AND RINSE all"), _("Space"),
                      true);
}

/* ---- for a doctor ---------------------------------------------------------------------------------------
 */

typedef struct telling {
    char text[4096];
} telling;

static void tell_bowl(void *self, const char *sentence)
{
    telling *const to = self;
    sl_append(to->text, sizeof to->text, "%s\n", sentence);
}

static void put_bowls(sl_day *day)
{
    const sl_pen *const pen = &day->pen;
    const sl_event *const stopped = sl_day_last_stop(day->event, day->n_events);
    const sl_day_record record = sl_day_record_of(day);
    SDL_Rect body = body_of(day);
    telling to = {.text = ""};
    put_title(day, &body, _("For a doctor: what was in the bowl"));
    const SDL_Rect row = last_row(body, 2, 0);
    const int strong = sl_text_line_height(pen->text, SL_TYPE_STRONG);
    const int grid_h = 2 * SL_DAY_TARGET_PX + 8;
    const SDL_Rect grid = {body.x, row.y - 8 - grid_h, body.w, grid_h};
    if (stopped != NULL) {
        sl_day_bowls(&record, stopped, tell_bowl, &to);
    }
    tell_bowl(&to, _("Take the packets along. slowlift day LOG --stops makes a sheet of it."));
    put_fitting(pen, (SDL_Rect){body.x, body.y, body.w, grid.y - strong - 8 - body.y}, to.text);
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){body.x, grid.y - strong - 4, body.w, strong},
                 SL_ALIGN_LEFT, day->said[0] != '\0' ? day->said : _("Who was told? One key:"));
    for (int i = 0; i < SL_DAY_TOLD; i++) {
        char key[4];
        snprintf(key, sizeof key, "%d", i + 1);
        sl_day_put_button(day, SL_ACT_CHOICE, i, sl_day_grid(grid, 3, 2, i), sl_day_remark(sl_day_told(i)),
                          key, false);
    }
    sl_day_put_button(day, SL_ACT_CLOSE, 0, row, _("Back"), "Esc", false);
    sl_day_put_button(day, SL_ACT_STOP_ALL, 0, last_row(body, 2, 1), _("STOP AND RINSE all"), _("Space"),
                      true);
}

/* ---- sound, notes ---------------------------------------------------------------------------------------
 */

static void put_sound(sl_day *day)
{
    SDL_Rect body = body_of(day);
    put_title(day, &body, _("Sound test"));
    const SDL_Rect row = last_row(body, 3, 0);
    const SDL_Rect text = {body.x, body.y, body.w, row.y - body.y - 8};
    const int y = put_fitting(
        &day->pen, (SDL_Rect){text.x, text.y, text.w, text.h / 2},
        day->heard ? _("Three beeps are sounding. Turn the volume up until they are heard at the basin, "
                       "with the water on. Alarms are always seen too.")
                   : _("This computer has no sound: alarms are seen only, and flash more. Put the "
                       "screen where someone always sees it, or have a second clock beside it."));
    const int gap = sl_pen_px(&day->pen, 12.0);
    put_fitting(&day->pen, (SDL_Rect){text.x, y + gap, text.w, text.y + text.h - y - gap},
                sl_day_stop_signs());
    sl_day_put_button(day, SL_ACT_HEARD, 0, row, _("Heard"), "Y", false);
    sl_day_put_button(day, SL_ACT_NOT_HEARD, 0, last_row(body, 3, 1), _("Not heard"), "N", false);
    sl_day_put_button(day, SL_ACT_SOUND, 0, last_row(body, 3, 2), _("Beep again"), "Enter", false);
}

static void put_notes(sl_day *day)
{
    SDL_Rect body = body_of(day);
    char text[SL_DAY_LINE];
    snprintf(text, sizeof text, _("Note for %s"), day->plan[day->chosen].code);
    put_title(day, &body, text);
    const SDL_Rect row = last_row(body, 2, 0);
    const SDL_Rect grid = {body.x, body.y, body.w, SDL_min(row.y - body.y - 8, 4 * 110)};
    for (int i = 0; i < SL_DAY_NOTES; i++) {
        char key[4];
        snprintf(key, sizeof key, "%d", i + 1);
        sl_day_put_button(day, SL_ACT_CHOICE, i, sl_day_grid(grid, 2, 4, i), sl_day_remark(sl_day_note(i)),
                          key, false);
    }
    sl_day_put_button(day, SL_ACT_CLOSE, 0, row, _("No note"), "Esc", false);
    sl_day_put_button(day, SL_ACT_STOP_ALL, 0, last_row(body, 2, 1), _("STOP AND RINSE all"), _("Space"),
                      true);
}

/* ---- text -----------------------------------------------------------------------------------------------
 */

static const char *const keys[][2] = {
    {"Space  S",
     N_("STOP AND RINSE all that is on hair. No question is asked; it is logged and cannot be undone.")},
    {"X", N_("STOP AND RINSE the chosen swatch.")},
    {"↑ ↓", N_("Choose a swatch. Enter: the one of what is next. The choice moves only after a key.")},
    {"M", N_("Its mix was mixed.")},
    {"A", N_("The mix touches the hair: its clock begins.")},
    {"W", N_("A spot was wiped and looked at; or a piece was cut off and rinsed.")},
    {"F", N_("Skin, heat and stretch were looked at: first after 2 minutes, then at most 5 apart.")},
    {"R", N_("First water.")},
    {"N", N_("A note, one key each.")},
    {"U", N_("Undo the last of these; it stays in the log as undone.")},
    {"O", N_("Back to the water of a stop.")},
    {"I", N_("For a doctor, after a stop: what was in the bowl, and who was told.")},
    {"B", N_("Cover the model’s strip and the arm’s name from whoever judges blind.")},
    {"K  H", N_("All cautions. This page.")},
    {"D  T", N_("Theme. Size of text, also Ctrl and +, −, 0.")},
    {"F11", N_("Full screen. Ctrl and Q: leave; time goes on in the log.")},
};

static int put_entry(const sl_day *day, SDL_Rect area, const char *name, const char *text)
{
    const sl_pen *const pen = &day->pen;
    const int names = sl_pen_px(pen, 110.0);
    const int a =
        sl_pen_wrap(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){area.x, area.y, names, 0}, false, name);
    const int b = sl_pen_wrap(pen, SL_TYPE_BODY, SL_INK_TEXT,
                              (SDL_Rect){area.x + names, area.y, area.w - names, 0}, false, text);
    return area.y + SDL_max(a, b) + sl_pen_px(pen, 8.0);
}

static void put_text(sl_day *day)
{
    const bool help = day->page == SL_DAY_HELP;
    SDL_Rect body = body_of(day);
    put_title(day, &body, help ? _("Keys") : _("All cautions"));
    const SDL_Rect row = last_row(body, 2, 0);
    const SDL_Rect view = {body.x, body.y, body.w, row.y - body.y - 8};
    SDL_SetClipRect(day->pen.sheet, &view);
    SDL_Rect at = {view.x, view.y - day->scroll, view.w, 0};
    for (size_t i = 0; help && i < sizeof keys / sizeof keys[0]; i++) {
        at.y = put_entry(day, at, keys[i][0], _(keys[i][1]));
    }
    for (int id = 0; !help && id < SL_CAUTION_COUNT; id++) {
        const sl_caution *const caution = sl_caution_text((sl_caution_id)id);
        at.y = put_entry(day, at, _(caution->signal), _(caution->text));
    }
    SDL_SetClipRect(day->pen.sheet, NULL);
    day->scroll_most = SDL_max(at.y + day->scroll - view.y - view.h, 0);
    sl_day_put_button(day, SL_ACT_CLOSE, 0, row,
                      day->scroll < day->scroll_most ? _("Close (Down: read on)") : _("Close"), "Esc", false);
    sl_day_put_button(day, SL_ACT_STOP_ALL, 0, last_row(body, 2, 1), _("STOP AND RINSE all"), _("Space"),
                      true);
}

void sl_day_put_page(sl_day *day)
{
    SDL_Rect alarm = day->places.alarm;
    alarm.y = day->places.head.y;
    sl_day_put_alarm(day, sl_day_put_rehearsal(day, alarm));
    if (day->trouble.code != SL_OK) {
        const int line = sl_text_line_height(day->pen.text, SL_TYPE_BODY);
        sl_day_put_trouble(day, (SDL_Rect){alarm.x, alarm.y + alarm.h, alarm.w, line});
    }
    if (day->page == SL_DAY_STOPPED) {
        put_stopped(day);
    } else if (day->page == SL_DAY_BOWLS) {
        put_bowls(day);
    } else if (day->page == SL_DAY_SOUND_TEST) {
        put_sound(day);
    } else if (day->page == SL_DAY_NOTE_PAGE) {
        put_notes(day);
    } else {
        put_text(day);
    }
}
