/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the window knows: two stories (the file's and the what-if's), a moment, a chosen
 * strip and zone, what is open and where the focus is. Invariant: nothing here is
 * computed by chemistry or optics of its own; readings come from a timeline.
 *
 * A frame is four calls: take input, advance the clock, re-solve if something changed,
 * draw.
 */
#ifndef SLOWLIFT_VIEW_STAGE_H
#define SLOWLIFT_VIEW_STAGE_H

#include <SDL.h>
#include <stdbool.h>

#include "slowlift/estimate.h"
#include "slowlift/report.h"
#include "slowlift/strand.h"
#include "view/draw/eyes.h"
#include "view/draw/leaf.h"
#include "view/draw/pen.h"
#include "view/panels/asking.h"
#include "view/panels/study.h"
#include "view/panels/undo.h"
#include "view/strips/hung.h"
#include "view/strips/ruler.h"
#include "view/strips/solve_thread.h"
#include "view/window/layout.h"
#include "view/window/readings.h"
#include "view/window/saying.h"

typedef enum sl_mode { SL_SAME_MINUTE, SL_SAME_COLOUR } sl_mode;
typedef enum sl_panel {
    SL_PANEL_NONE,
    SL_PANEL_GUESS, /* below the ruler, not at the right: the question before time moves (sight/guess.h) */
    SL_PANEL_WHAT_IF,
    SL_PANEL_SHOW_AS,
#define SAYS(NAME, ...) SL_PANEL_##NAME,
    SL_SAYING_PANELS(SAYS)
#undef SAYS
        SL_PANEL_BOWL
} sl_panel;
enum { SL_PANELS = SL_PANEL_BOWL + 1 };
typedef enum sl_stage_page {
    SL_PAGE_NONE,
    SL_PAGE_START,
    SL_PAGE_CAUTIONS,
    SL_PAGE_GLOSSARY,
    SL_PAGE_HELP,
    SL_PAGE_ANSWER,
    SL_PAGE_BESIDE, /* two swatches */
    SL_PAGE_RANK,
    SL_PAGE_MAP,
    SL_PAGE_FORM, /* about a person */
    SL_PAGE_SEEN, /* on a day of strand tests */
    SL_PAGE_NEW   /* the questions of a new test */
} sl_stage_page;
enum { SL_STAGE_PAGES = SL_PAGE_NEW + 1 };

/* Choices at the foot of ranks and map. */
typedef enum sl_turn {
    SL_TURN_ZONE,
    SL_TURN_MINUTE,
    SL_TURN_SHARE,
    SL_TURN_STRIP,
    SL_TURN_AXES,
    SL_TURN_LAYER,
    SL_TURN_RINSED
} sl_turn;
enum { SL_TURNS = SL_TURN_RINSED + 1 };

/* What a person can do (action.h), in the order in which the page of keys tells of it. */
typedef enum sl_action_id {
    SL_DO_NONE,
    SL_DO_PLAY,
    SL_DO_SAY_PLAY,
    SL_DO_GUESS,
    SL_DO_GUESS_SKIP,
    SL_DO_MINUTE_BACK,
    SL_DO_MINUTE_ON,
    SL_DO_TO_START,
    SL_DO_TO_END,
    SL_DO_LOOK_NEXT,
    SL_DO_RULER,
    SL_DO_MODE,
    SL_DO_ZONE_UP,
    SL_DO_ZONE_DOWN,
    SL_DO_ZONE,
    SL_DO_STRIP,
    SL_DO_ARM_BEFORE,
    SL_DO_ARM_AFTER,
    SL_DO_BACK,
    SL_DO_ON,
    SL_DO_LESS,
    SL_DO_MORE,
    SL_DO_WHAT_IF,
    SL_DO_RESET,
    SL_DO_UNDO,
    SL_DO_KNOB,
    SL_DO_KNOB_LESS,
    SL_DO_KNOB_MORE,
    SL_DO_ANSWER,
#define SAYS(NAME, ...) SL_DO_##NAME,
    SL_SAYING_PANELS(SAYS)
#undef SAYS
        SL_DO_UNFOLD,
    SL_DO_SCROLL_PANEL,
    SL_DO_BOWL,
    SL_DO_GRADE,
    SL_DO_FORGET,
    SL_DO_FORM,
    SL_DO_FORM_BACK,
    SL_DO_FORM_ON,
    SL_DO_FORM_YES,
    SL_DO_FORM_NO,
    SL_DO_FORM_UNSURE,
    SL_DO_FORM_ROW,
    SL_DO_FORM_FIGURE,
    SL_DO_RANK,
    SL_DO_TURN_BACK,
    SL_DO_TURN_ON,
    SL_DO_MAP,
    SL_DO_SEEN,
    SL_DO_NEW,
    SL_DO_NEW_FIELD,
    SL_DO_NEW_WORD,
    SL_DO_NEW_ROW,
    SL_DO_NEW_TAKE,
    SL_DO_NEW_WRITE,
    SL_DO_NEW_OPEN,
    SL_DO_BESIDE,
    SL_DO_SIDE,
    SL_DO_SIDE_ARM_BACK,
    SL_DO_SIDE_ARM_ON,
    SL_DO_SIDE_ZONE_BACK,
    SL_DO_SIDE_ZONE_ON,
    SL_DO_ARM_OF_SIDE,
    SL_DO_SHOW_AS,
    SL_DO_THEME,
    SL_DO_VISION,
    SL_DO_LOOK,
    SL_DO_WIPE,
    SL_DO_LIGHT,
    SL_DO_OBSERVER,
    SL_DO_FOCUS_ON,
    SL_DO_FOCUS_BACK,
    SL_DO_PRESS,
    SL_DO_GLOSSARY,
    SL_DO_CAUTIONS,
    SL_DO_TEXT_SIZE,
    SL_DO_TEXT_LARGER,
    SL_DO_TEXT_SMALLER,
    SL_DO_TEXT_USUAL,
    SL_DO_FULL_SCREEN,
    SL_DO_CLOSE,
    SL_DO_SHUT,
    SL_DO_SCROLL,
    SL_DO_LEAVE,
    SL_DO_HOME,
    SL_DO_HELP,
    SL_ACTIONS
} sl_action_id;

/* A place that can be pressed or hold the ring. */
typedef struct sl_stage_spot {
    sl_action_id kind;
    int number; /* which of them */
    SDL_Rect area;
    bool stop; /* Tab stops here */
} sl_stage_spot;
enum { SL_MOST_SPOTS = 160 };

/* What the study was asked: another question, another wish. */
typedef struct sl_stage_question {
    bool any; /* something was asked */
    sl_changes change[SL_MAX_ARMS];
    int arm;
    bool rank, map;
    double minute, share; /* of the rank */
    int axes;             /* of the map */
    bool answers;
    int same_zone; /* of the answers */
    sl_observations observations;
    bool of_person;
    sl_intake person;
    int strand;
} sl_stage_question;

/* What logs say beside a scene, borrowed while it is watched. */
struct sl_seen_curves;
typedef struct sl_beside_logs {
    const struct sl_seen_curves *seen; /* on a day of tests of that scene; NULL: no such log */
    const sl_strand_record *strands;   /* [n_strands] of people's hair, for the form */
    int n_strands;
} sl_beside_logs;

/* What is asked of the model, and what it answered. */
typedef struct sl_stage_solved {
    sl_story before, after; /* after.timeline NULL: nothing was changed */
    sl_solve_thread *solver;
    sl_changes change[SL_MAX_ARMS]; /* [n_arms]: what the knobs say */
    sl_stage_undos undos;
    bool ask;         /* the knobs say something that was not asked yet */
    sl_error trouble; /* why the last what-if has no solution */
    sl_study_thread *study_thread;
    sl_study study;          /* of the newest wish; members 0: not yet */
    sl_stage_question asked; /* the newest wish */
    sl_limits limits;        /* of the chosen strip, from the scene itself */
    uint64_t found;          /* how often something of this was found or forgotten */
    uint64_t changed;        /* how often the story after a change was another */
} sl_stage_solved;

/* What a person entered. */
typedef struct sl_stage_entered {
    sl_observations observations; /* what the cotton showed, in the order in which it was entered */
    bool of_person;               /* something on the form was answered */
    sl_intake person;
    int strand;                  /* the chosen one of the log's, from 1; 0: none */
    int strand_min, strand_wipe; /* of the form; 0 = not answered, else 1 + sl_wipe */
    int today;                   /* days since 1970-01-01, when the window opened */
    int form_row;
    bool form_follow; /* its row moved by keys: bring it into view */
} sl_stage_entered;

/* What is looked at. */
typedef struct sl_stage_chosen {
    sl_mode mode;
    double now_min;
    double share; /* of the same colour left */
    double speed; /* minutes of the scene per second */
    bool playing;
    bool steps;       /* reduced motion: it plays from minute to minute */
    double ahead_min; /* what has passed of the next of them */
    int arm, zone;
    sl_spot_of beside[2];   /* the two swatches */
    sl_spot_of beside_of;   /* what was chosen when they were put there */
    int side;               /* which of them the keys choose */
    int axes;               /* of the map: 0 mix and time, 1 mix and warmth */
    sl_map_layer map_layer; /* its lines */
} sl_stage_chosen;

/* What was asked before time moved, and where it holds for a first look (sight/guess.h). */
enum { SL_MOST_GUESSES = 3 };
typedef struct sl_stage_guess {
    bool asked;                       /* once for each opening */
    int n;                            /* strips offered */
    int arm[SL_MOST_GUESSES];         /* [n] */
    char number[SL_MOST_GUESSES][12]; /* [n]: as they are written */
    bool told;                        /* answered */
    int said;                         /* the arm; -1: no idea */
    bool held;                        /* time was held once */
    double hold_min;                  /* there, as of the last time that play began; below 0: nowhere */
} sl_stage_guess;

/* Pages and panels. */
typedef struct sl_stage_open {
    sl_panel panel;
    sl_stage_page page, below;     /* below: what help that is asked for while typing goes back to */
    sl_stage_page after;           /* the first cautions */
    bool curves;                   /* science switch of the two swatches and of the limits */
    bool deepens;                  /* it was just switched on */
    bool unfolded;                 /* all of the panel is told, not its answers alone */
    int scroll[2], scroll_most[2]; /* of the page, of the panel; pixels */
} sl_stage_open;

/* With whose eyes. */
typedef struct sl_stage_look {
    sl_eyes eyes;
    sl_lenses lenses; /* of both stories */
    sl_light_table light;
    double scale; /* of the text, 1..2 */
} sl_stage_look;

/* Where it stands. */
typedef struct sl_stage_laid {
    sl_layout layout;
    int first_arm;
    sl_stage_spot spots[SL_MOST_SPOTS]; /* [n_spots] */
    int n_spots;
    sl_strip *strip[SL_MAX_ARMS];
    sl_hung *hung[SL_MAX_ARMS]; /* their pictures */
    double hung_min;            /* the moment that they show */
    sl_strip *swatch[2];        /* of the two swatches */
    sl_leaf said;               /* what the open page or panel says (said.h) */
} sl_stage_laid;

/* Keyboard and pointer. */
typedef struct sl_stage_hand {
    sl_action_id focus;
    int focus_number;
    bool focus_seen;     /* the keyboard moved it: draw the ring */
    sl_stage_spot held;  /* where the pointer went down, while it is down */
    const char *refused; /* msgid: why the last action was not done; NULL: it was */
} sl_stage_hand;

typedef struct sl_stage {
    sl_beside_logs logs;
    sl_stage_solved solved;
    sl_stage_entered entered;
    sl_stage_chosen chosen;
    sl_stage_guess guess;
    sl_stage_read read;
    sl_stage_open open;
    sl_stage_look look;
    sl_stage_laid laid;
    sl_stage_hand hand;
    sl_asked_page asking;
    SDL_Window *window;
    sl_text *text;
    sl_pen pen;
    bool dirty, leave, home; /* home: there is a start page to go back to */
    Uint64 last_tick;
    long drawn_hair; /* pixels of hair that the newest frame drew anew */
    Uint32 wake;
    char example[256]; /* the note on what the numbers are worth */
} sl_stage;

/* Takes over story (solved), also when it fails. */
sl_stage *sl_stage_new(sl_story *story, const sl_eyes *eyes, SDL_Window *window, double scale,
                       sl_error *error);
void sl_stage_free(sl_stage *stage);

/* Each strip with the same share of colour left; what hair that counts as a head is kept to: its minutes
 * are not told, the order in which colour and base go is. */
void sl_stage_compare_at_colour(sl_stage *stage);

/* The four calls of a frame. */
void sl_stage_take(sl_stage *stage, const SDL_Event *event);
void sl_stage_advance(sl_stage *stage);
void sl_stage_resolve(sl_stage *stage);
bool sl_stage_draw(sl_stage *stage, sl_error *error);

/* ---- between the parts of the stage ------------------------------------------------ */

const sl_scene *sl_stage_scene(const sl_stage *stage);     /* the file's */
const sl_scene *sl_stage_scene_now(const sl_stage *stage); /* as the knobs say, once solved */
bool sl_stage_dyed(const sl_stage *stage, int arm, int zone);
bool sl_stage_on_bench(const sl_stage *stage); /* minutes may stand beside outcomes */
/* And colours over time, and moments of the model: never beside a form about a person. */
bool sl_stage_tells_time(const sl_stage *stage);
/* Whether the strip is shown as before beside after. */
bool sl_stage_changed(const sl_stage *stage, int arm);
/* The strip as it is now: after its change when it has one. */
const sl_stage_reading *sl_stage_reading_now(const sl_stage *stage, int arm);
/* The story that sl_stage_reading_now reads. */
const sl_story *sl_stage_story_now(const sl_stage *stage, int arm);
/* The basis for a strip shown with `look`. */
const sl_optics *sl_stage_optics(const sl_stage *stage, sl_look look);
/* Dry, in daylight, 2 degrees: what levels are read from. */
const sl_optics *sl_stage_dry(const sl_stage *stage);
void sl_stage_go(sl_stage *stage, double minute);
/* Whether the scene is followed for days, so that its clock shows hours and minutes. */
bool sl_stage_of_days(const sl_stage *stage);
/* Minutes that a step on (by > 0) or back is from a minute: 1; of a scene of days 60 once its first hours are
 * over. */
double sl_stage_stride_min(const sl_stage *stage, double minute, int by);
/* The next look at the chosen strip after the minute that is shown; false: none is told. */
bool sl_stage_look_next(const sl_stage *stage, double *clock_min);
/* The two swatches of what is chosen; as they were left where that is what it was then. */
void sl_stage_put_beside(sl_stage *stage);
void sl_stage_choose_zone(sl_stage *stage, int zone);
void sl_stage_choose_arm(sl_stage *stage, int arm);
void sl_stage_turn_knob(sl_stage *stage, sl_setting knob, double value);

void sl_stage_measure(sl_stage *stage);                  /* measure.c: readings and meetings */
void sl_stage_wonder(sl_stage *stage);                   /* wonder.c: ask and take the study */
bool sl_stage_arrange(sl_stage *stage, sl_error *error); /* arrange.c: layout, spots, strips */
/* Draws anew what has moved of the pictures of the strips that are shown (field.c). */
bool sl_stage_hang(sl_stage *stage, sl_error *error);
/* Whether a strip's fibres are laid as large as its place is now. */
bool sl_stage_strip_laid(const sl_stage *stage, int shown);
bool sl_stage_show(sl_stage *stage, sl_error *error); /* show.c: every pixel */

#endif
