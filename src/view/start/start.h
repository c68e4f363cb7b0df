/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The start page, and what leads on from it: my tests, one test, lessons, and a document that is read. Lines,
 * not tiles; a line without content is not there. Who chooses a scene, a day or a lesson leaves the page with
 * a place to go to, and comes back to it (window/main.c).
 *
 * Invariant: nothing is begun, written or started but by its line; no path is typed; nothing is put over a
 * file.
 */
#ifndef SLOWLIFT_VIEW_START_H
#define SLOWLIFT_VIEW_START_H

#include <SDL.h>
#include <stdbool.h>
#include <stdio.h>

#include "front/lessons.h"
#include "view/draw/eyes.h"
#include "view/draw/leaf.h"
#include "view/draw/pen.h"
#include "view/start/my_tests.h"
#include "view/start/papers.h"
#include "view/strips/solve_thread.h"
#include "view/strips/strip.h"

#define SL_START_EXAMPLE_FILE "eight-arms"

typedef enum sl_start_view {
    SL_START_HOME,
    SL_START_TESTS,
    SL_START_TEST,
    SL_START_LESSONS,
    SL_START_READ /* a document */
} sl_start_view;
enum { SL_START_VIEWS = SL_START_READ + 1 };

/* What a person can do here, in the order in which help tells of it. */
typedef enum sl_start_act {
    SL_START_NOTHING,
    SL_START_RUNNING, /* back to the day that runs */
    SL_START_EXAMPLE,
    SL_START_NEW,
    SL_START_MINE,
    SL_START_TEACH,
    SL_START_CHOOSE, /* a test of mine */
    SL_START_LOOK,
    SL_START_ANSWER,
    SL_START_PLAN,
    SL_START_DAY,
    SL_START_SEEN,
    SL_START_REPORT,
    SL_START_PAPERS,
    SL_START_LESSON,
    SL_START_ON, /* read on */
    SL_START_UP, /* and back */
    SL_START_BACK,
    SL_START_CAUTIONS,
    SL_START_LANGUAGE,
    SL_START_TEXT,
    SL_START_THEME,
    SL_START_FULL,
    SL_START_HELP,
    SL_START_SPACE,
    SL_START_LEAVE,
    SL_START_ACTS
} sl_start_act;

/* Where it leads. */
typedef enum sl_start_go {
    SL_GO_LEAVE,
    SL_GO_SCENE,
    SL_GO_ANSWER,
    SL_GO_NEW,
    SL_GO_DAY,
    SL_GO_SEEN,
    SL_GO_LESSON
} sl_start_go;
typedef struct sl_start_place {
    sl_start_go go;
    char what[SL_SETTLED_PATH]; /* a scene, a log, the name of a lesson; of a new test, its name */
    char test[SL_UUID];         /* of a log */
} sl_start_place;

/* A line of a view, as it is said. */
enum {
    SL_START_LABEL = 400,
    SL_START_ABOUT = 900,
    SL_START_MOST = 256,
    SL_START_SPOTS = 288,
    SL_START_STEMS = 16
};
typedef struct sl_start_line {
    sl_start_act act; /* SL_START_NOTHING: it is only read */
    int which;
    char cap[16]; /* the key that does it; "": none */
    char label[SL_START_LABEL], about[SL_START_ABOUT];
} sl_start_line;

typedef struct sl_start_spot {
    sl_start_act act;
    int which;
    SDL_Rect area;
} sl_start_spot;

typedef struct sl_start_page {
    const char *models; /* --models; NULL: the usual places */
    SDL_Window *window;
    sl_eyes eyes;
    double scale; /* of the text, 1..2 */

    sl_my_tests my;
    sl_story example;        /* timeline NULL: it could not be opened */
    sl_lesson_entry *lesson; /* [n_lessons] */
    int n_lessons;

    sl_start_view view, below; /* below: where a document goes back to */
    int test;                  /* of my tests, that the view is about */
    char test_name[SL_SHELF_NAME];
    sl_start_act reads; /* which document */
    int focus;          /* the line with the ring */
    bool focus_seen;
    int scroll, scroll_most;
    char said[SL_START_ABOUT]; /* what came of the last thing, or why it was not done; "": nothing to say */
    sl_start_act awaited;      /* is done once the page was drawn that says so */
    bool told;                 /* and it was */
    sl_papers papers;
    sl_start_place place;
    bool leave;

    sl_start_line line[SL_START_MOST]; /* [n] as last said */
    int n;
    sl_start_spot spot[SL_START_SPOTS];
    int n_spots;
    sl_leaf leaf, due;
    uint64_t read; /* how many documents were */
    sl_text *text;
    sl_pen pen;
    sl_light_table light;
    sl_lenses lenses;
    sl_strip *strip[2 * SL_MAX_ARMS];
    SDL_Rect hair, body;
    bool held, dragged;
    int held_y, held_x, held_scroll;
    bool dirty;
    int drawn; /* frames */
    Uint64 second;
} sl_start_page;

typedef struct sl_start_row {
    const char *word;       /* in --say and in tests */
    const char *label;      /* msgid; of what is a line always, and of buttons */
    const char *cap;        /* msgid: its key; NULL: none */
    const char *help;       /* msgid; NULL: none */
    SDL_Keycode key, other; /* 0: none */
    unsigned mod;           /* KMOD_CTRL or 0 */
    unsigned views;         /* bits: where keys mean it */
    bool button;            /* stands in a row of buttons, in these views */
    void (*act)(sl_start_page *start, sl_start_act act, int which);
} sl_start_row;
extern const sl_start_row sl_start_rows[SL_START_ACTS]; /* start_rows.c */

/* ---- its life (start.c) ------------------------------------------------------------------------------- */

sl_start_page *sl_start_new(const char *models, const sl_eyes *eyes, double scale, sl_error *error);
void sl_start_free(sl_start_page *start);
/* Until somebody goes somewhere. say: keys in place of a window, or NULL. */
bool sl_start_run(sl_start_page *start, SDL_Window *window, const char *say, sl_error *error);
/* What is said on the page: why a place could not be opened. */
void sl_start_tell(sl_start_page *start, const sl_error *why);

/* ---- between its parts --------------------------------------------------------------------------------- */

/* The lines of the view, in order (start_says.c). Needs no display. */
int sl_start_says(const sl_start_page *start, sl_start_line line[SL_START_MOST]);
const char *sl_start_title(const sl_start_page *start); /* above them */
/* What the cautions' foot says. */
void sl_start_foot(char *text, size_t size);
void sl_start_say_read(sl_start_page *start, sl_document *document,
                       sl_error *error); /* the document that is read */

bool sl_start_possible(const sl_start_page *start, sl_start_act act);
void sl_start_do(sl_start_page *start, sl_start_act act, int which);
void sl_start_open(sl_start_page *start, sl_start_view view);
void sl_start_go_to(sl_start_page *start, sl_start_go go, const char *what, const char *test);
bool sl_start_draw(sl_start_page *start, sl_error *error); /* start_show.c */
/* The example's strips into start->hair, and what stands below them (start_hair.c). */
bool sl_start_put_hair(sl_start_page *start, sl_error *error);
void sl_start_caption(const sl_start_page *start, char *text, size_t size);
bool sl_start_read_all(sl_start_page *start, sl_error *error);

/* What takes longer (start_work.c): acts on the test of the view. */
bool sl_start_begin_day(sl_start_page *start, sl_error *error);
void sl_start_say_plan(const sl_start_page *start, sl_document *document, sl_error *error);
void sl_start_say_report(const sl_start_page *start, sl_document *document, sl_error *error);
void sl_start_print(sl_start_page *start);

#endif
