/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The actions, in the order in which the page of keys tells of them; what they do is acts.c's.
 */
#include "view/window/action.h"

#include "base/language.h"
#include "slowlift/report.h"
#include "view/panels/bowl.h"
#include "view/panels/form.h"
#include "view/panels/new_page.h"
#include "view/panels/said.h"
#include "view/sight/guess.h"
#include "view/window/acts.h"
#include "view/window/show.h"

/* ---- places ------------------------------------------------------------------------------ */

#define STRIPS SL_AT_PAGE(SL_PAGE_NONE)
#define BESIDE SL_AT_PAGE(SL_PAGE_BESIDE)
#define RANK SL_AT_PAGE(SL_PAGE_RANK)
#define MAP SL_AT_PAGE(SL_PAGE_MAP)
#define SEEN SL_AT_PAGE(SL_PAGE_SEEN)
#define ANSWER SL_AT_PAGE(SL_PAGE_ANSWER)
#define FORM SL_AT_PAGE(SL_PAGE_FORM)
#define NEW_TEST SL_AT_PAGE(SL_PAGE_NEW) /* where letters are typed */
#define VIEWS (ANSWER | RANK | MAP | SEEN)
#define START SL_AT_PAGE(SL_PAGE_START)
#define READ (SL_AT_PAGE(SL_PAGE_CAUTIONS) | SL_AT_PAGE(SL_PAGE_GLOSSARY) | SL_AT_PAGE(SL_PAGE_HELP))
#define TEXT (START | READ)
#define LATER (STRIPS | BESIDE | VIEWS | FORM | READ) /* the first page's cautions are not passed over */
#define ALL (START | LATER)
#define GUESS SL_AT_PANEL(SL_PANEL_GUESS)
#define BOWL SL_AT_PANEL(SL_PANEL_BOWL)
#define SAYING(NAME, ...) SL_AT_PANEL(SL_PANEL_##NAME) |
#define LONG_PANELS                                                                                          \
    (SL_SAYING_PANELS(SAYING) BOWL | SL_AT_PANEL(SL_PANEL_SHOW_AS) | SL_AT_PANEL(SL_PANEL_WHAT_IF))

/* Keys that mean the same wherever they mean something: plus, minus, Enter, brackets. */
#define PLUS(at, which)                                                                                      \
    {SDLK_PLUS, at, which}, {SDLK_EQUALS, at, which},                                                        \
    {                                                                                                        \
        SDLK_KP_PLUS, at, which                                                                              \
    }
#define MINUS(at, which)                                                                                     \
    {SDLK_MINUS, at, which},                                                                                 \
    {                                                                                                        \
        SDLK_KP_MINUS, at, which                                                                             \
    }
#define ENTER(at)                                                                                            \
    {SDLK_RETURN, at},                                                                                       \
    {                                                                                                        \
        SDLK_KP_ENTER, at                                                                                    \
    }
#define BEFORE(at, which)                                                                                    \
    {SDLK_LEFTBRACKET, at, which},                                                                           \
    {                                                                                                        \
        SDLK_COMMA, at, which                                                                                \
    }
#define AFTER(at, which)                                                                                     \
    {SDLK_RIGHTBRACKET, at, which},                                                                          \
    {                                                                                                        \
        SDLK_PERIOD, at, which                                                                               \
    }

/* Rows are long: as calls they are set in whole lines. */
#define ROW(...)                                                                                             \
    {                                                                                                        \
        __VA_ARGS__                                                                                          \
    }
#define KEYS(...)                                                                                            \
    {                                                                                                        \
        __VA_ARGS__                                                                                          \
    }

/* ---- how many, which, and why not ------------------------------------------------------------ */

static int all_arms(const sl_stage *stage)
{
    return sl_stage_scene(stage)->n_arms;
}

static int all_guesses(const sl_stage *stage)
{
    return 1 + all_arms(stage);
}

static int all_zones(const sl_stage *stage)
{
    return sl_stage_scene(stage)->n_zones;
}

static int knob_with_ring(const sl_stage *stage)
{
    return stage->hand.focus_number;
}

static int chosen_side(const sl_stage *stage)
{
    return stage->chosen.side;
}

static int chosen_row(const sl_stage *stage)
{
    return stage->entered.form_row;
}

static const char *no_start_page(const sl_stage *stage, int which)
{
    (void)which;
    return stage->home ? NULL : N_("The window was opened without a start page: Ctrl and Q leave.");
}

static const char *on_a_head(const sl_stage *stage, int which)
{
    (void)which;
    return sl_stage_on_bench(stage)
               ? NULL
               : N_("No minutes are given for hair on a head: compare the order, base and hair only.");
}

/* On the day of a test this key asks whether to end it: no habit is to come of it. */
static const char *plays_elsewhere(const sl_stage *stage, int which)
{
    (void)which;
    if (stage->open.page == SL_PAGE_START) {
        return N_(
            "Enter folds the cautions. Space does nothing here: on the day of a test it asks to STOP AND "
            "RINSE.");
    }
    return N_("P or Enter plays. Space does nothing here: on the day of a test it asks to STOP AND RINSE.");
}

static const char *not_offered(const sl_stage *stage, int which)
{
    return which == 0 || sl_guess_offers(stage, which - 1) ? NULL
                                                           : N_("Press one of the strips that are offered.");
}

static const char *not_back_to_minutes(const sl_stage *stage, int which)
{
    return stage->chosen.mode == SL_SAME_COLOUR ? on_a_head(stage, which) : NULL;
}

static const char *no_look_next(const sl_stage *stage, int which)
{
    char gate[SL_SHOW_LINE];
    double minute = 0.0;
    if (sl_put_gate(stage, gate, sizeof gate)) {
        return N_("About a person: no minute is marked until the form is clear and a strand counts (F).");
    }
    return sl_stage_look_next(stage, &minute) ? on_a_head(stage, which)
                                              : N_("No look at this strip is told after this minute.");
}

static const char *unchanged(const sl_stage *stage, int which)
{
    (void)which;
    return sl_changes_any(stage->solved.change, sl_stage_scene(stage))
               ? NULL
               : N_("Nothing was changed: the strips show the file as it is.");
}

static const char *nothing_turned(const sl_stage *stage, int which)
{
    (void)which;
    return stage->solved.undos.n > 0 ? NULL : N_("No knob was turned that could be turned back.");
}

static const char *nothing_entered(const sl_stage *stage, int which)
{
    (void)which;
    const bool any =
        stage->open.page == SL_PAGE_FORM ? stage->entered.of_person : stage->entered.observations.n > 0;
    return any ? NULL : N_("Nothing was entered here that could be forgotten.");
}

static const char *no_grade(const sl_stage *stage, int which)
{
    (void)which;
    return sl_bowl_why_not(stage);
}

static const char *no_science(const sl_stage *stage, int which)
{
    (void)which;
    const bool open =
        stage->open.page == SL_PAGE_BESIDE ? stage->open.curves : stage->open.panel == SL_PANEL_SCIENCE;
    return open ? NULL : N_("The observer is a matter of the science: press S first.");
}

static const char *first_strips(const sl_stage *stage, int which)
{
    (void)which;
    return stage->laid.layout.first > 0 ? NULL : N_("These are the first strips.");
}

static const char *last_strips(const sl_stage *stage, int which)
{
    (void)which;
    const sl_layout *const l = &stage->laid.layout;
    return l->first + l->n_shown < all_arms(stage) ? NULL : N_("These are the last strips.");
}

static const char *all_in_sight(const sl_stage *stage, int which)
{
    (void)which;
    return stage->open.scroll_most[1] > 0 || sl_said_folded(stage) ? NULL : N_("All of it is in sight.");
}

/* ---- looks ----------------------------------------------------------------------------------- */

static bool plays(const sl_stage *stage, int which)
{
    (void)which;
    return stage->chosen.playing;
}

static void dress_play(const sl_stage *stage, int which, sl_button_look *look)
{
    (void)which;
    look->label = stage->chosen.playing ? "II" : "▶";
}

static void dress_guess(const sl_stage *stage, int which, sl_button_look *look)
{
    look->label = N_("no idea");
    look->key = which == 0 ? "0" : "";
    for (int i = 0; i < stage->guess.n; i++) {
        if (stage->guess.arm[i] == which - 1) {
            look->label = stage->guess.number[i];
        }
    }
}

static void dress_mode(const sl_stage *stage, int which, sl_button_look *look)
{
    (void)which;
    const bool minute = stage->chosen.mode == SL_SAME_MINUTE;
    look->label = minute ? N_("Same colour") : N_("Same minute");
    look->brief = minute ? N_("Colour") : N_("Minute");
}

static bool limits_open(const sl_stage *stage, int which)
{
    (void)which;
    return stage->open.panel == SL_PANEL_LIMITS || stage->open.panel == SL_PANEL_BOWL;
}

static bool science_open(const sl_stage *stage, int which)
{
    (void)which;
    return sl_science_is_deeper(stage) ? stage->open.curves : stage->open.panel == SL_PANEL_SCIENCE;
}

static bool word_stands(const sl_stage *stage, int which)
{
    char room[SL_ASK_TEXT];
    const int row = which / SL_ASK_WORDS;
    return sl_ask_holds((sl_topic)row, which % SL_ASK_WORDS, sl_asking_answer(stage, row, room));
}

static void dress_word(const sl_stage *stage, int which, sl_button_look *look)
{
    const sl_ask_words *const words = &sl_ask_rows[which / SL_ASK_WORDS].words;
    const int word = which % SL_ASK_WORDS;
    (void)stage;
    if (word < words->n) {
        look->label = words->means != NULL ? words->means[word] : words->word[word];
        look->key = words->means != NULL ? words->word[word] : "";
    }
}

static bool grade_entered(const sl_stage *stage, int wipe)
{
    return sl_bowl_entered(stage) == wipe;
}

static bool replied_yes(const sl_stage *stage, int row)
{
    return sl_form_replies(row) && sl_form_replied(stage, row) == SL_REPLY_YES;
}

static bool replied_no(const sl_stage *stage, int row)
{
    return sl_form_replies(row) && sl_form_replied(stage, row) == SL_REPLY_NO;
}

static bool replied_unsure(const sl_stage *stage, int row)
{
    return sl_form_replies(row) && sl_form_replied(stage, row) == SL_REPLY_UNSURE;
}

static void dress_grade(const sl_stage *stage, int wipe, sl_button_look *look)
{
    (void)stage;
    look->label = sl_wipe_word((sl_wipe)wipe);
}

static void dress_forget(const sl_stage *stage, int which, sl_button_look *look)
{
    (void)which;
    look->label = stage->open.page == SL_PAGE_FORM ? N_("forget all answers") : N_("forget this strip's");
}

static void dress_unfold(const sl_stage *stage, int which, sl_button_look *look)
{
    (void)stage;
    (void)which;
    look->key = N_("Page Down");
}

static void dress_observer(const sl_stage *stage, int which, sl_button_look *look)
{
    (void)which;
    look->label = sl_observer_word(stage->look.eyes.viewing.observer);
}

static void dress_close(const sl_stage *stage, int which, sl_button_look *look)
{
    (void)which;
    if (stage->open.page == SL_PAGE_START) {
        const bool rest = stage->open.scroll[0] < stage->open.scroll_most[0];
        look->label = rest ? N_("Read on") : N_("I have read this");
        look->key = N_("Enter");
    }
}

/* A key says what it does not need to say by leaving it out. */
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

/* ---- the rows -------------------------------------------------------------------------------------- */

const sl_action sl_action_rows[SL_ACTIONS] = {
    [SL_DO_PLAY] =
        ROW(.word = "play", .act = sl_act_play, .why_not = on_a_head, .is_on = plays, .dress = dress_play,
            .cap = "P", .key = KEYS({SDLK_p, STRIPS | BESIDE}), .keys_told = N_("P, Enter"),
            .help = N_("Play or pause; Enter while no control has the ring. Nothing moves until you ask. "
                       "Space only says so.")),
    [SL_DO_SAY_PLAY] = ROW(.word = "say-play", .act = sl_act_play, .why_not = plays_elsewhere,
                           .key = KEYS({SDLK_SPACE, STRIPS | BESIDE | START}), .told_with = SL_DO_PLAY),
    [SL_DO_GUESS] =
        ROW(.word = "guess", .act = sl_act_guess, .count = all_guesses, .why_not = not_offered,
            .dress = dress_guess, .key = KEYS({SDLK_0, GUESS, 0, 10}), .keys_told = N_("1 to 9, 0"),
            .help = N_("Before time moves: the strip that you expect to lose its colour first; 0: no idea. "
                       "Nothing is kept. Esc: skip.")),
    [SL_DO_GUESS_SKIP] = ROW(.word = "guess-skip", .act = sl_act_shut, .label = N_("skip"), .cap = "Esc",
                             .key = KEYS({SDLK_ESCAPE, GUESS}), .told_with = SL_DO_GUESS),
    [SL_DO_MINUTE_BACK] =
        ROW(.word = "minute-back", .act = sl_act_minute, .by = -1, .label = "‹", .cap = "←",
            .key = KEYS({SDLK_LEFT, STRIPS, 1}, {SDLK_LEFT, STRIPS, 5, .with = KMOD_SHIFT}, MINUS(BESIDE, 1)),
            .many = 6, .keys_told = N_("Left, Right"),
            .help = N_("One minute back or on; with Shift five. Home and End: start and end. Or drag along "
                       "the ruler.")),
    [SL_DO_MINUTE_ON] = ROW(.word = "minute-on", .act = sl_act_minute, .by = 1, .label = "›", .cap = "→",
                            .key = KEYS({SDLK_RIGHT, STRIPS, 1}, {SDLK_RIGHT, STRIPS, 5, .with = KMOD_SHIFT},
                                        PLUS(BESIDE, 1)),
                            .many = 6, .told_with = SL_DO_MINUTE_BACK),
    [SL_DO_TO_START] = ROW(.word = "to-start", .act = sl_act_to_end, .by = -1,
                           .key = KEYS({SDLK_HOME, STRIPS | BESIDE}), .told_with = SL_DO_MINUTE_BACK),
    [SL_DO_TO_END] = ROW(.word = "to-end", .act = sl_act_to_end, .by = 1,
                         .key = KEYS({SDLK_END, STRIPS | BESIDE}), .told_with = SL_DO_MINUTE_BACK),
    [SL_DO_LOOK_NEXT] =
        ROW(.word = "look-next", .act = sl_act_look_next, .why_not = no_look_next,
            .key = KEYS({SDLK_RIGHT, STRIPS, .with = KMOD_CTRL}), .keys_told = N_("Ctrl and Right"),
            .help = N_("On to the next look at the chosen strip: a diamond on its lane below the ruler.")),
    [SL_DO_RULER] = ROW(.word = "ruler", .point = sl_act_point_ruler, .drags = true),
    [SL_DO_MODE] = ROW(.word = "mode", .act = sl_act_mode, .why_not = not_back_to_minutes,
                       .dress = dress_mode, .cap = "C", .key = KEYS({SDLK_c, STRIPS | BESIDE}),
                       .help = N_("Switch between the same minute and the same colour left.")),
    [SL_DO_ZONE_UP] =
        ROW(.word = "zone-up", .act = sl_act_zone, .by = -1, .key = KEYS({SDLK_UP, STRIPS}),
            .keys_told = N_("Up, Down"), .help = N_("Choose the zone above or below. Or press the zone.")),
    [SL_DO_ZONE_DOWN] = ROW(.word = "zone-down", .act = sl_act_zone, .by = 1,
                            .key = KEYS({SDLK_DOWN, STRIPS}), .told_with = SL_DO_ZONE_UP),
    [SL_DO_ZONE] = ROW(.word = "zone", .act = sl_act_choose_zone, .count = all_zones, .passed_over = true),
    [SL_DO_STRIP] =
        ROW(.word = "strip", .act = sl_act_choose_arm, .point = sl_act_point_strip, .count = all_arms,
            .key = KEYS({SDLK_1, STRIPS | MAP | SEEN, 0, 9}), .keys_told = N_("1 to 9,  [  ]"),
            .help = N_("Choose a strip; the brackets go to the one before or after. Or press the strip.")),
    [SL_DO_ARM_BEFORE] = ROW(.word = "strip-before", .act = sl_act_arm, .by = -1,
                             .key = KEYS(BEFORE(STRIPS, 0), {SDLK_PAGEUP, STRIPS}), .told_with = SL_DO_STRIP),
    [SL_DO_ARM_AFTER] = ROW(.word = "strip-after", .act = sl_act_arm, .by = 1,
                            .key = KEYS(AFTER(STRIPS, 0), {SDLK_PAGEDOWN, STRIPS}), .told_with = SL_DO_STRIP),
    [SL_DO_BACK] = ROW(.word = "back", .act = sl_act_strips, .by = -1, .label = "‹", .why_not = first_strips),
    [SL_DO_ON] = ROW(.word = "on", .act = sl_act_strips, .by = 1, .label = "›", .why_not = last_strips),
    [SL_DO_LESS] = ROW(.word = "less", .act = sl_act_pace, .by = -1, .label = "−",
                       .key = KEYS(MINUS(STRIPS, 0)), .keys_told = "+, −",
                       .help = N_("In the same colour left: the share that all come down to. Else the "
                                  "playing speed. On a knob: its value.")),
    [SL_DO_MORE] = ROW(.word = "more", .act = sl_act_pace, .by = 1, .label = "+",
                       .key = KEYS(PLUS(STRIPS, 0)), .told_with = SL_DO_LESS),
    [SL_DO_WHAT_IF] = ROW(.word = "what-if", .panel = SL_PANEL_WHAT_IF, .label = N_("What if"), .cap = "W",
                          .key = KEYS({SDLK_w, STRIPS}),
                          .help = N_("What if: knobs for developer, water, warmth and time of the chosen "
                                     "strip. U: undo the last turn. R: back to what the file says.")),
    [SL_DO_RESET] =
        ROW(.word = "reset", .act = sl_act_reset, .why_not = unchanged, .label = N_("as in the file"),
            .cap = "R", .key = KEYS({SDLK_r, STRIPS}), .told_with = SL_DO_WHAT_IF),
    [SL_DO_UNDO] =
        ROW(.word = "undo", .act = sl_act_undo, .why_not = nothing_turned, .label = N_("undo"), .cap = "U",
            .key = KEYS({SDLK_u, STRIPS}, {SDLK_z, STRIPS, .with = KMOD_CTRL}), .told_with = SL_DO_WHAT_IF),
    [SL_DO_KNOB] = ROW(.word = "knob", .many = SL_SETTINGS, .point = sl_act_point_knob, .drags = true),
    [SL_DO_KNOB_LESS] = ROW(.word = "knob-less", .act = sl_act_knob, .by = -1, .many = SL_SETTINGS,
                            .label = "−", .passed_over = true, .chosen = knob_with_ring,
                            .key = KEYS({SDLK_LEFT, SL_AT_KNOB, SL_CHOSEN},
                                        {SDLK_DOWN, SL_AT_KNOB, SL_CHOSEN}, MINUS(SL_AT_KNOB, SL_CHOSEN)),
                            .told_with = SL_DO_FOCUS_ON),
    [SL_DO_KNOB_MORE] = ROW(.word = "knob-more", .act = sl_act_knob, .by = 1, .many = SL_SETTINGS,
                            .label = "+", .passed_over = true, .chosen = knob_with_ring,
                            .key = KEYS({SDLK_RIGHT, SL_AT_KNOB, SL_CHOSEN}, {SDLK_UP, SL_AT_KNOB, SL_CHOSEN},
                                        PLUS(SL_AT_KNOB, SL_CHOSEN)),
                            .told_with = SL_DO_FOCUS_ON),
    [SL_DO_ANSWER] =
        ROW(.word = "answer", .page = SL_PAGE_ANSWER, .label = N_("Answer"), .cap = "Q",
            .key = KEYS({SDLK_q, LATER}),
            .help =
                N_("Answer: on one page which strip, how long, what it costs the hair, how sure. There: Up "
                   "and Down choose the colour, Left and Right when all are rinsed, S tells more.")),
#define SAYS(NAME, name, CONTROLS, READS, ...) [SL_DO_##NAME] = ROW(.word = #name, __VA_ARGS__),
    SL_SAYING_PANELS(SAYS)
#undef SAYS
        [SL_DO_UNFOLD] =
            ROW(.word = "unfold", .act = sl_act_unfold, .label = N_("more: why, what is left, next"),
                .brief = N_("the rest"), .dress = dress_unfold),
    [SL_DO_SCROLL_PANEL] =
        ROW(.word = "scroll-panel", .act = sl_act_scroll_panel, .many = SL_WAYS, .why_not = all_in_sight,
            .key = KEYS({SDLK_PAGEUP, LONG_PANELS, SL_WAY_SHEET_UP},
                        {SDLK_PAGEDOWN, LONG_PANELS, SL_WAY_SHEET_DOWN}),
            .told_with = SL_DO_LIMITS),
    [SL_DO_BOWL] =
        ROW(.word = "bowl", .act = sl_act_bowl, .label = N_("At bowl"), .cap = "B",
            .key = KEYS({SDLK_b, LATER}),
            .help =
                N_("At the bowl: what the cotton shows, as a grade, for the chosen strip and zone at this "
                   "minute. Tab and Enter choose it, Delete forgets what was entered for the strip.")),
    [SL_DO_GRADE] = ROW(.word = "grade", .act = sl_act_grade, .many = SL_WIPES, .why_not = no_grade,
                        .is_on = grade_entered, .dress = dress_grade),
    [SL_DO_FORGET] =
        ROW(.word = "forget", .act = sl_act_forget, .why_not = nothing_entered, .dress = dress_forget,
            .cap = N_("Delete"), .key = KEYS({SDLK_DELETE, FORM | BOWL}, {SDLK_BACKSPACE, BOWL}),
            .told_with = SL_DO_BOWL),
    [SL_DO_FORM] =
        ROW(.word = "form", .page = SL_PAGE_FORM, .label = N_("Form"), .cap = "F",
            .key = KEYS({SDLK_f, LATER}),
            .help = N_("The short form about a person, and what its answers stop. Up and Down choose a row, "
                       "Left and Right its answer, figures write a number, Delete forgets all.")),
    [SL_DO_FORM_BACK] =
        ROW(.word = "form-back", .act = sl_act_form, .by = -1, .many = SL_FORM_ROWS, .label = "‹",
            .chosen = chosen_row, .key = KEYS({SDLK_LEFT, FORM, SL_CHOSEN}, MINUS(FORM, SL_CHOSEN)),
            .told_with = SL_DO_FORM),
    [SL_DO_FORM_ON] =
        ROW(.word = "form-on", .act = sl_act_form, .by = 1, .many = SL_FORM_ROWS, .label = "›",
            .chosen = chosen_row,
            .key = KEYS({SDLK_RIGHT, FORM, SL_CHOSEN}, {SDLK_SPACE, FORM, SL_CHOSEN}, PLUS(FORM, SL_CHOSEN)),
            .told_with = SL_DO_FORM),
    [SL_DO_FORM_YES] = ROW(.word = "form-yes", .act = sl_act_form_reply, .by = SL_REPLY_YES,
                           .many = SL_FORM_ROWS, .label = N_("yes"), .is_on = replied_yes),
    [SL_DO_FORM_NO] = ROW(.word = "form-no", .act = sl_act_form_reply, .by = SL_REPLY_NO,
                          .many = SL_FORM_ROWS, .label = N_("no"), .is_on = replied_no),
    [SL_DO_FORM_UNSURE] = ROW(.word = "form-unsure", .act = sl_act_form_reply, .by = SL_REPLY_UNSURE,
                              .many = SL_FORM_ROWS, .label = N_("unsure"), .is_on = replied_unsure),
    [SL_DO_FORM_ROW] = ROW(.word = "form-row", .act = sl_act_form_row, .many = SL_WAYS,
                           .key = KEYS({SDLK_UP, FORM, SL_WAY_UP}, {SDLK_DOWN, FORM, SL_WAY_DOWN},
                                       {SDLK_HOME, FORM, SL_WAY_FIRST}, {SDLK_END, FORM, SL_WAY_LAST}),
                           .told_with = SL_DO_FORM),
    [SL_DO_FORM_FIGURE] =
        ROW(.word = "form-figure", .act = sl_act_form_figure, .many = 11,
            .key = KEYS({SDLK_0, FORM, 0, 10}, {SDLK_BACKSPACE, FORM, 10}), .told_with = SL_DO_FORM),
    [SL_DO_RANK] =
        ROW(.word = "rank", .page = SL_PAGE_RANK, .label = N_("Ranks"), .cap = "N",
            .key = KEYS({SDLK_n, LATER}),
            .help =
                N_("Ranks: which strip does best in the chosen zone, at one minute and at one share left.")),
    [SL_DO_TURN_BACK] =
        ROW(.word = "turn-back", .act = sl_act_turn, .by = -1, .many = SL_TURNS, .label = "‹",
            .key =
                KEYS({SDLK_LEFT, RANK, SL_TURN_MINUTE}, {SDLK_LEFT, MAP, SL_TURN_AXES},
                     {SDLK_LEFT, ANSWER, SL_TURN_RINSED}, {SDLK_UP, ANSWER | RANK | SEEN, SL_TURN_ZONE},
                     {SDLK_UP, MAP, SL_TURN_LAYER}, MINUS(RANK, SL_TURN_SHARE), BEFORE(VIEWS, SL_TURN_STRIP)),
            .told_with = SL_DO_RANK),
    [SL_DO_TURN_ON] =
        ROW(.word = "turn-on", .act = sl_act_turn, .by = 1, .many = SL_TURNS, .label = "›",
            .key =
                KEYS({SDLK_RIGHT, RANK, SL_TURN_MINUTE}, {SDLK_RIGHT, MAP, SL_TURN_AXES},
                     {SDLK_RIGHT, ANSWER, SL_TURN_RINSED}, {SDLK_DOWN, ANSWER | RANK | SEEN, SL_TURN_ZONE},
                     {SDLK_DOWN, MAP, SL_TURN_LAYER}, PLUS(RANK, SL_TURN_SHARE), AFTER(VIEWS, SL_TURN_STRIP)),
            .told_with = SL_DO_RANK),
    [SL_DO_MAP] =
        ROW(.word = "map", .page = SL_PAGE_MAP, .label = N_("Map"), .cap = "M", .key = KEYS({SDLK_m, LATER}),
            .help = N_("Map: what would come of the chosen strip over two of its settings, and where the "
                       "limits hold.")),
    [SL_DO_SEEN] = ROW(.word = "seen", .page = SL_PAGE_SEEN, .label = N_("Seen"), .cap = "J",
                       .key = KEYS({SDLK_j, LATER}),
                       .help = N_("What was seen on the day of a test, over what the model predicts for the "
                                  "chosen zone. Needs a log: slowlift watch --seen LOG.")),
    [SL_DO_NEW] =
        ROW(.word = "new", .act = sl_act_new, .label = N_("New test"), .brief = N_("New"), .cap = "Y",
            .key = KEYS({SDLK_y, LATER}),
            .help = N_("A test of your own: sixteen questions on one page. There: type an answer, or "
                       "press what is offered; Up, Down, Tab and Enter go from question to question. "
                       "Esc leaves, and nothing is written.")),
    [SL_DO_NEW_FIELD] =
        ROW(.word = "new-field", .act = sl_act_new_field, .point = sl_act_point_typed, .many = SL_TOPICS),
    [SL_DO_NEW_WORD] = ROW(.word = "new-word", .act = sl_act_new_word, .many = SL_TOPICS * SL_ASK_WORDS,
                           .is_on = word_stands, .dress = dress_word, .passed_over = true),
    [SL_DO_NEW_ROW] = ROW(.word = "new-row", .act = sl_act_new_row, .many = SL_WAYS,
                          .key = KEYS({SDLK_UP, NEW_TEST, SL_WAY_UP}, {SDLK_DOWN, NEW_TEST, SL_WAY_DOWN},
                                      {SDLK_TAB, NEW_TEST, SL_WAY_SHEET_DOWN},
                                      {SDLK_TAB, NEW_TEST, SL_WAY_SHEET_UP, .with = KMOD_SHIFT}),
                          .told_with = SL_DO_NEW),
    [SL_DO_NEW_TAKE] =
        ROW(.word = "new-take", .act = sl_act_new_take, .key = KEYS(ENTER(NEW_TEST)), .told_with = SL_DO_NEW),
    [SL_DO_NEW_WRITE] = ROW(.word = "new-write", .act = sl_act_new_write, .label = N_("Write the test")),
    [SL_DO_NEW_OPEN] = ROW(.word = "new-open", .act = sl_act_new_open, .label = N_("Show it here")),
    [SL_DO_BESIDE] =
        ROW(.word = "beside", .page = SL_PAGE_BESIDE, .label = N_("Two zones"), .brief = N_("Two"),
            .cap = "Z", .key = KEYS({SDLK_z, LATER}),
            .help = N_(
                "Two swatches side by side, told apart in words. There: Left and Right choose the swatch, Up "
                "and Down its zone, 1 to 9 or the brackets its strip, + and − the minute, S the figures.")),
    [SL_DO_SIDE] =
        ROW(.word = "side", .act = sl_act_side, .many = 2,
            .key = KEYS({SDLK_LEFT, BESIDE, 0}, {SDLK_RIGHT, BESIDE, 1}), .told_with = SL_DO_BESIDE),
    [SL_DO_SIDE_ARM_BACK] =
        ROW(.word = "arm-back", .act = sl_act_side_arm, .by = -1, .many = 2, .label = "‹",
            .chosen = chosen_side, .key = KEYS(BEFORE(BESIDE, SL_CHOSEN), {SDLK_PAGEUP, BESIDE, SL_CHOSEN}),
            .told_with = SL_DO_BESIDE),
    [SL_DO_SIDE_ARM_ON] =
        ROW(.word = "arm-on", .act = sl_act_side_arm, .by = 1, .many = 2, .label = "›", .chosen = chosen_side,
            .key = KEYS(AFTER(BESIDE, SL_CHOSEN), {SDLK_PAGEDOWN, BESIDE, SL_CHOSEN}),
            .told_with = SL_DO_BESIDE),
    [SL_DO_SIDE_ZONE_BACK] =
        ROW(.word = "zone-back", .act = sl_act_side_zone, .by = -1, .many = 2, .label = "‹",
            .chosen = chosen_side, .key = KEYS({SDLK_UP, BESIDE, SL_CHOSEN}), .told_with = SL_DO_BESIDE),
    [SL_DO_SIDE_ZONE_ON] =
        ROW(.word = "zone-on", .act = sl_act_side_zone, .by = 1, .many = 2, .label = "›",
            .chosen = chosen_side, .key = KEYS({SDLK_DOWN, BESIDE, SL_CHOSEN}), .told_with = SL_DO_BESIDE),
    [SL_DO_ARM_OF_SIDE] = ROW(.word = "arm-of-side", .act = sl_act_arm_of_side, .count = all_arms,
                              .key = KEYS({SDLK_1, BESIDE, 0, 9}), .told_with = SL_DO_BESIDE),
    [SL_DO_SHOW_AS] =
        ROW(.word = "show-as", .panel = SL_PANEL_SHOW_AS, .label = N_("Show as"), .brief = N_("Show"),
            .cap = "A", .key = KEYS({SDLK_a, STRIPS}),
            .help = N_("Show as: the choices of the next five lines and the size of text, to be pressed.")),
    [SL_DO_THEME] =
        ROW(.word = "theme", .turn = sl_eyes_next_theme, .label = N_("Theme"), .cap = "D",
            .key = KEYS({SDLK_d, ALL}),
            .help = N_("Theme: light, dark, high contrast. Around the strips the grey stays the same.")),
    [SL_DO_VISION] =
        ROW(.word = "vision", .turn = sl_eyes_next_vision, .label = N_("Eyes"), .cap = "V",
            .key = KEYS({SDLK_v, ALL}),
            .help = N_("Eyes: full colour vision, without red, green or blue cones, or a grey print.")),
    [SL_DO_LOOK] =
        ROW(.word = "look", .turn = sl_eyes_next_look, .label = N_("Look"), .cap = "L",
            .key = KEYS({SDLK_l, ALL}),
            .help = N_("Look: dry, wet, or as the strip lies now, under its mix. Colour is judged dry.")),
    [SL_DO_WIPE] = ROW(.word = "wipe", .turn = sl_eyes_wipe, .label = N_("Mix on the hair"), .cap = "X",
                       .key = KEYS({SDLK_x, ALL}),
                       .help = N_("Lay the mix on the hair, wipe it aside, lay it on again.")),
    [SL_DO_LIGHT] =
        ROW(.word = "light", .turn = sl_eyes_next_light, .label = N_("Light"), .cap = "I",
            .key = KEYS({SDLK_i, ALL}),
            .help = N_("Light: daylight, lamp, warm LED. In the science also O: 2 or 10 degree observer.")),
    [SL_DO_OBSERVER] =
        ROW(.word = "observer", .turn = sl_eyes_next_observer, .why_not = no_science, .dress = dress_observer,
            .cap = "O", .key = KEYS({SDLK_o, ALL}), .told_with = SL_DO_LIGHT),
    [SL_DO_FOCUS_ON] =
        ROW(.word = "focus-on", .act = sl_act_focus, .by = 1,
            .key = KEYS({SDLK_TAB, STRIPS | BESIDE | VIEWS | FORM}), .keys_told = N_("Tab, Enter"),
            .help = N_("Go from control to control (Shift: backwards); press it. Arrows turn a knob that has "
                       "the ring.")),
    [SL_DO_FOCUS_BACK] = ROW(.word = "focus-back", .act = sl_act_focus, .by = -1,
                             .key = KEYS({SDLK_TAB, STRIPS | BESIDE | VIEWS | FORM, .with = KMOD_SHIFT}),
                             .told_with = SL_DO_FOCUS_ON),
    [SL_DO_PRESS] = ROW(.word = "press", .act = sl_act_press,
                        .key = KEYS(ENTER(STRIPS | BESIDE | VIEWS | FORM)), .told_with = SL_DO_FOCUS_ON),
    [SL_DO_GLOSSARY] = ROW(.word = "glossary", .page = SL_PAGE_GLOSSARY, .label = N_("Words"), .cap = "G",
                           .key = KEYS({SDLK_g, LATER}), .help = N_("Words explained.")),
    [SL_DO_CAUTIONS] = ROW(.word = "cautions", .page = SL_PAGE_CAUTIONS, .label = N_("Cautions"), .cap = "K",
                           .key = KEYS({SDLK_k, ALL}), .help = N_("All cautions.")),
    [SL_DO_TEXT_SIZE] = ROW(.word = "text-size", .act = sl_act_text_size, .label = N_("Text"), .cap = "T",
                            .key = KEYS({SDLK_t, ALL}),
                            .help = N_("Larger text, in steps from 100 to 200 %; also Ctrl and +, −, 0.")),
    [SL_DO_TEXT_LARGER] = ROW(.word = "text-larger", .act = sl_act_text_scale, .by = 1,
                              .key = KEYS({SDLK_PLUS, ALL | NEW_TEST, .with = KMOD_CTRL},
                                          {SDLK_EQUALS, ALL | NEW_TEST, .with = KMOD_CTRL},
                                          {SDLK_KP_PLUS, ALL | NEW_TEST, .with = KMOD_CTRL}),
                              .told_with = SL_DO_TEXT_SIZE),
    [SL_DO_TEXT_SMALLER] = ROW(.word = "text-smaller", .act = sl_act_text_scale, .by = -1,
                               .key = KEYS({SDLK_MINUS, ALL | NEW_TEST, .with = KMOD_CTRL},
                                           {SDLK_KP_MINUS, ALL | NEW_TEST, .with = KMOD_CTRL}),
                               .told_with = SL_DO_TEXT_SIZE),
    [SL_DO_TEXT_USUAL] =
        ROW(.word = "text-usual", .act = sl_act_text_scale,
            .key = KEYS({SDLK_0, ALL | NEW_TEST, .with = KMOD_CTRL}), .told_with = SL_DO_TEXT_SIZE),
    [SL_DO_FULL_SCREEN] = ROW(.word = "full-screen", .act = sl_act_full_screen, .cap = "F11",
                              .key = KEYS({SDLK_F11, LATER | NEW_TEST}), .help = N_("Full screen.")),
    [SL_DO_CLOSE] =
        ROW(.word = "close", .act = sl_act_close, .label = N_("Close"), .dress = dress_close, .cap = "Esc",
            .key = KEYS({SDLK_ESCAPE, (ALL & ~STRIPS) | NEW_TEST}, ENTER(TEXT), {SDLK_SPACE, READ}),
            .help = N_("Close a page or a panel.   Ctrl and Q: leave.")),
    [SL_DO_SHUT] =
        ROW(.word = "shut", .act = sl_act_shut, .key = KEYS({SDLK_ESCAPE, STRIPS}), .told_with = SL_DO_CLOSE),
    [SL_DO_SCROLL] = ROW(.word = "scroll", .act = sl_act_scroll, .many = SL_WAYS,
                         .key = KEYS({SDLK_UP, TEXT, SL_WAY_UP}, {SDLK_DOWN, TEXT, SL_WAY_DOWN},
                                     {SDLK_PAGEUP, TEXT | FORM | VIEWS | NEW_TEST, SL_WAY_SHEET_UP},
                                     {SDLK_PAGEDOWN, TEXT | FORM | VIEWS | NEW_TEST, SL_WAY_SHEET_DOWN},
                                     {SDLK_HOME, TEXT, SL_WAY_FIRST}, {SDLK_END, TEXT, SL_WAY_LAST}),
                         .told_with = SL_DO_CLOSE),
    [SL_DO_LEAVE] = ROW(.word = "leave", .act = sl_act_leave,
                        .key = KEYS({SDLK_q, ALL | NEW_TEST, .with = KMOD_CTRL}), .told_with = SL_DO_CLOSE),
    [SL_DO_HOME] = ROW(.word = "home", .act = sl_act_leave, .why_not = no_start_page,
                       .label = N_("Start page"), .brief = N_("Start"),
                       .key = KEYS({SDLK_h, ALL | NEW_TEST, .with = KMOD_CTRL}), .told_with = SL_DO_CLOSE),
    [SL_DO_HELP] = ROW(.word = "help", .page = SL_PAGE_HELP, .label = N_("Help"), .cap = "H",
                       .key = KEYS({SDLK_h, LATER}, {SDLK_F1, LATER | NEW_TEST}), .keys_told = "H, F1",
                       .help = N_("This page.")),
};
