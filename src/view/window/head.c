/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The head of the window: title, buttons, what is compared in plain words, notices.
 */
#include <math.h>
#include <stdio.h>

#include "base/language.h"
#include "base/minute.h"
#include "report/reading.h"
#include "slowlift/caution.h"
#include "slowlift/report.h"
#include "view/draw/widget.h"
#include "view/draw/words.h"
#include "view/sight/guess.h"
#include "view/window/show.h"
#include "view/window/views.h"

bool sl_put_notice(const sl_stage *stage, char *text, size_t size)
{
    if (stage->hand.refused != NULL) {
        snprintf(text, size, "%s", _(stage->hand.refused));
        return true;
    }
    if (stage->solved.trouble.code != SL_OK) {
        char sentence[SL_SHOW_LINE];
        sl_error_sentence(&stage->solved.trouble, sentence, sizeof sentence);
        snprintf(text, size, _("This change could not be solved: %s. The strips show the file as it is."),
                 sentence);
        return true;
    }
    if (sl_guess_open_now(stage) && stage->laid.layout.compact) {
        sl_guess_put_question(stage, text, size);
        return true;
    }
    const int changes = sl_changes_count(&stage->solved.change[stage->chosen.arm], sl_stage_scene(stage),
                                         stage->chosen.arm, NULL);
    if (changes > 1) {
        snprintf(text, size,
                 _("%d changes at once: nobody can tell which of them did it. Try them one by one."),
                 changes);
        return true;
    }
    if (stage->chosen.mode == SL_SAME_MINUTE && stage->chosen.now_min >= sl_stage_scene(stage)->until_min) {
        const sl_caution *closed = sl_caution_text(SL_CAUTION_CLOSED);
        snprintf(text, size, "%s  %s", _(closed->signal), _(closed->text));
        return true;
    }
    return false;
}

static void show_title(const sl_stage *stage, const char *below)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect area = stage->laid.layout.title;
    if (stage->laid.layout.compact) {
        return; /* the window's own bar names the scene */
    }
    const int line = sl_text_line_height(pen->text, SL_TYPE_HEAD);
    sl_pen_place(pen, SL_TYPE_HEAD, SL_INK_TEXT, (SDL_Rect){area.x, area.y, area.w, line}, SL_ALIGN_LEFT,
                 sl_scene_title(sl_stage_scene(stage)));
    const SDL_Rect second = {area.x, area.y + line, area.w, area.h - line};
    SDL_SetClipRect(pen->sheet, &second);
    sl_pen_wrap(pen, SL_TYPE_SMALL, SL_INK_QUIET, second, false, below);
    SDL_SetClipRect(pen->sheet, NULL);
}

void sl_show_buttons(const sl_stage *stage)
{
    sl_action_id bar[SL_MOST_BUTTONS];
    const int n = sl_view_bar(stage, bar);
    for (int i = 0; i < n; i++) {
        sl_action_draw(stage, stage->laid.layout.button[i], bar[i], 0);
    }
}

/* The arms of a comparison that got there, first and last; false when fewer than two did. */
static bool first_and_last(const sl_stage *stage, int *first, int *last)
{
    *first = *last = -1;
    for (int arm = 0; arm < sl_stage_scene(stage)->n_arms; arm++) {
        const sl_stage_reading *r = sl_stage_reading_now(stage, arm);
        if (!r->predicted || !r->reached) {
            continue;
        }
        if (*first < 0 || r->since_contact_min < sl_stage_reading_now(stage, *first)->since_contact_min) {
            *first = arm;
        }
        if (*last < 0 || r->since_contact_min > sl_stage_reading_now(stage, *last)->since_contact_min) {
            *last = arm;
        }
    }
    return *first >= 0 && *first != *last;
}

static void put_arm(const sl_stage *stage, int arm, char *text, size_t size)
{
    const sl_stage_reading *r = sl_stage_reading_now(stage, arm);
    char when[48];
    char moved[16];
    char stress[16];
    sl_put_between(r->since_contact_min, when, sizeof when);
    sl_put_share(r->moved, moved, sizeof moved);
    sl_put_share(r->stress, stress, sizeof stress);
    if (stage->laid.layout.compact) {
        snprintf(text, size, "%s (%s)", sl_arm_title(&sl_stage_scene(stage)->arms[arm]), when);
        return;
    }
    snprintf(text, size, _("%s after %s (base moved %s, hair stress %s)"),
             sl_arm_title(&sl_stage_scene(stage)->arms[arm]), when, moved, stress);
}

static void sentence_same_colour(const sl_stage *stage, char *head, char *below, size_t size)
{
    char share[16];
    sl_put_share(stage->chosen.share, share, sizeof share);
    snprintf(head, size, _("Same colour left: every strip when “%s” is first down to %s."),
             sl_zone_title(&sl_stage_scene(stage)->zones[stage->chosen.zone]), share);
    int first = 0;
    int last = 0;
    if (!sl_stage_tells_time(stage)) {
        snprintf(below, size,
                 _("No minutes are given for hair on a head: compare the order, base and hair only."));
    } else if (first_and_last(stage, &first, &last)) {
        char one[256];
        char two[256];
        put_arm(stage, first, one, sizeof one);
        put_arm(stage, last, two, sizeof two);
        snprintf(below, size, _("First: %s.  Last: %s."), one, two);
    } else {
        snprintf(below, size,
                 _("Fewer than two strips get there in this scene. Try another share (+ and −) or zone (up, "
                   "down)."));
    }
}

/* Of the chosen strip, as the figures below it tell them: nothing is to be seen of the change at this moment.
 */
static bool no_difference_yet(const sl_stage *stage)
{
    const int arm = stage->chosen.arm;
    const sl_stage_reading *const was = &stage->read.reading[0][arm], *const now =
                                                                          &stage->read.reading[1][arm];
    return sl_stage_changed(stage, arm) && fabs(was->left - now->left) < 0.005 &&
           fabs(was->moved - now->moved) < 0.005 && fabs(was->stress - now->stress) < 0.005;
}

/* The first minute that steps on reach at which a difference can be seen; below 0: there is none in this
 * scene. */
static int minute_of_difference(const sl_stage *stage)
{
    static const double SEEN = 0.02; /* of the colour */
    const int arm = stage->chosen.arm, zone = stage->chosen.zone;
    const double until = sl_stage_scene(stage)->until_min;
    for (double minute = floor(stage->chosen.now_min) + 1.0; minute <= until;
         minute += sl_stage_stride_min(stage, minute, 1)) {
        const double was = sl_left_at(stage->solved.before.timeline, arm, zone, minute);
        const double now = sl_left_at(stage->solved.after.timeline, arm, zone, minute);
        if (fabs(was - now) >= SEEN) {
            return (int)minute;
        }
    }
    return -1;
}

int sl_difference_min(const sl_stage *stage)
{
    const bool told = stage->chosen.mode == SL_SAME_MINUTE && sl_stage_on_bench(stage) &&
                      !stage->entered.of_person && no_difference_yet(stage);
    return told ? minute_of_difference(stage) : -1;
}

static void put_no_difference(const sl_stage *stage, char *text, size_t size)
{
    const int minute = sl_difference_min(stage);
    if (minute >= 0) {
        sl_minute_words(SL_MINUTE_MODEL, text, size,
                        stage->open.panel == SL_PANEL_WHAT_IF
                            ? _("No difference yet: go to minute %d (Enter).")
                            : _("No difference yet: go to minute %d (Right: a minute on)."),
                        minute);
    } else {
        snprintf(text, size, _("No difference yet: go on in time (Right, End)."));
    }
}

void sl_put_now(const sl_stage *stage, char *text, size_t size)
{
    /* the clock's own form, of minutes in place of seconds */
    sl_put_clock(stage->chosen.now_min / (sl_stage_of_days(stage) ? 60.0 : 1.0), text, size);
}

static void sentence_same_minute(const sl_stage *stage, char *head, char *below, size_t size)
{
    char clock[24];
    sl_put_now(stage, clock, sizeof clock);
    snprintf(head, size,
             sl_stage_of_days(stage) ? _("Same minute: every strip at %s on the clock (h:min).")
                                     : _("Same minute: every strip at %s on the clock (min:s)."),
             clock);
    const sl_scene *scene = sl_stage_scene(stage);
    char warmth[48];
    sl_put_warmth(sl_settled_c(scene), warmth, sizeof warmth);
    if (sl_guess_put_look(stage, head, below, size) || sl_guess_put_said(stage, below, size)) {
        return;
    }
    if (no_difference_yet(stage)) {
        put_no_difference(stage, below, size);
    } else if (stage->laid.layout.compact && sl_stage_on_bench(stage)) {
        snprintf(below, size, _("On the bench at %s."), warmth);
    } else if (sl_stage_on_bench(stage)) {
        snprintf(below, size, _("On the bench at %s. Below: how much of “%s” is left, and what it cost."),
                 warmth, sl_zone_title(&scene->zones[stage->chosen.zone]));
    } else {
        snprintf(below, size,
                 _("These times are a classroom example for the model, not for a person (%s, at %s)."),
                 _(sl_place_word(scene->place)), warmth);
    }
}

void sl_put_shown(const sl_stage *stage, char *text, size_t size)
{
    char seen[SL_SHOW_LINE];
    char uncalibrated[SL_SHOW_LINE];
    const bool wet = stage->look.eyes.viewing.look != SL_LOOK_DRY;
    sl_eyes_words(&stage->look.eyes, seen, sizeof seen);
    sl_put_sentence(_(sl_not_calibrated), uncalibrated, sizeof uncalibrated);
    snprintf(text, size, _("Shown %s; %s.%s %s"), seen, _(sl_vision_word(stage->look.eyes.vision)),
             wet ? _(" Judge colour dry.") : "", uncalibrated);
}

/* On a dark plate; where it is the usual, the foot alone says that no screen is calibrated. */
void sl_show_shown(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect area = stage->laid.layout.shown;
    char text[2 * SL_SHOW_LINE];
    if (area.w == 0) {
        return;
    }
    sl_put_shown(stage, text, sizeof text);
    sl_pen_fill(pen, area, SL_GROUND_DARK);
    const int pad = sl_pen_px(pen, 6.0);
    const SDL_Rect line = {area.x + pad, area.y, area.w - pad, area.h};
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_LIGHT, line, SL_ALIGN_LEFT, text);
}

void sl_show_pace(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const sl_layout *l = &stage->laid.layout;
    const bool share = stage->chosen.mode == SL_SAME_COLOUR;
    const SDL_Rect upper = {l->pace.x, l->pace.y, l->pace.w, l->pace.h / 2};
    const SDL_Rect lower = {l->pace.x, l->pace.y + l->pace.h / 2, l->pace.w, l->pace.h / 2};
    char pace[32];
    if (share) {
        sl_put_share(stage->chosen.share, pace, sizeof pace);
    } else {
        snprintf(pace, sizeof pace,
                 sl_stage_stride_min(stage, stage->chosen.now_min, 1) > 1.0 ? "%.3g h/s" : "%.3g min/s",
                 stage->chosen.speed);
    }
    sl_action_draw(stage, l->less, SL_DO_LESS, 0);
    sl_action_draw(stage, l->more, SL_DO_MORE, 0);
    if (l->compact) {
        sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, upper, SL_ALIGN_CENTRE, pace);
        sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, lower, SL_ALIGN_CENTRE,
                     share ? _("left") : _("speed"));
        return;
    }
    sl_pen_place(pen, SL_TYPE_SMALL, SL_INK_QUIET, l->pace, SL_ALIGN_LEFT, pace);
}

/* What is compared, in two lines; a notice takes their place when there is one, and the
 * first line then stands below the title. */
void sl_show_sentences(const sl_stage *stage)
{
    const sl_pen *pen = &stage->pen;
    const SDL_Rect area = stage->laid.layout.mode;
    const sl_scene *scene = sl_stage_scene(stage);
    char head[2 * SL_SHOW_LINE];
    char below[2 * SL_SHOW_LINE];
    char text[2 * SL_SHOW_LINE];
    if (stage->chosen.mode == SL_SAME_COLOUR) {
        sentence_same_colour(stage, head, below, sizeof below);
    } else {
        sentence_same_minute(stage, head, below, sizeof below);
    }
    if (sl_put_notice(stage, text, sizeof text)) {
        show_title(stage, sl_stage_on_bench(stage) || stage->hand.refused != NULL ? head : below);
        sl_pen_fill(pen, area, SL_GROUND_DARK);
        const int pad = sl_pen_px(pen, 3.0);
        const SDL_Rect inner = {area.x + 2 * pad, area.y + pad, area.w - 4 * pad, area.h - pad};
        SDL_SetClipRect(pen->sheet, &area);
        sl_pen_wrap(pen, SL_TYPE_NOTE, SL_INK_LIGHT, inner, false, text);
        SDL_SetClipRect(pen->sheet, NULL);
        return;
    }
    const bool plate = stage->laid.layout.compact && !sl_eyes_usual(&stage->look.eyes);
    if (plate) {
        char seen[SL_SHOW_LINE];
        sl_eyes_words(&stage->look.eyes, seen, sizeof seen);
        snprintf(below, sizeof below, _("Shown %s; %s."), seen, _(sl_vision_word(stage->look.eyes.vision)));
    }
    show_title(stage, sl_scene_question(scene) ? sl_scene_question(scene) : "");
    const int half = area.h / 2;
    sl_pen_place(pen, SL_TYPE_STRONG, SL_INK_TEXT, (SDL_Rect){area.x, area.y, area.w, half}, SL_ALIGN_LEFT,
                 head);
    const bool fits = sl_pen_size(pen, SL_TYPE_BODY, SL_INK_TEXT, 0, below).x <= area.w;
    SDL_Rect second = {area.x, area.y + half, area.w, half};
    if (plate) {
        sl_pen_fill(pen, second, SL_GROUND_DARK);
        second = sl_rect_inset(second, sl_pen_px(pen, 2.0));
    }
    sl_pen_place(pen, fits ? SL_TYPE_BODY : SL_TYPE_SMALL, plate ? SL_INK_LIGHT : SL_INK_TEXT, second,
                 SL_ALIGN_LEFT, below);
}
