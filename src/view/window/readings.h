/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the window reads of its stories for the moment that it shows (measure.c).
 */
#ifndef SLOWLIFT_VIEW_READINGS_H
#define SLOWLIFT_VIEW_READINGS_H

#include "slowlift/estimate.h"
#include "view/draw/eyes.h"
#include "view/strips/lanes.h"
#include "view/strips/strip.h"

/* One strip at its moment. Shares 0..1; left is -1 in a zone without dye. */
typedef struct sl_stage_reading {
    bool predicted;
    bool reached;    /* same colour left: got there */
    double time_min; /* scene clock */
    double since_contact_min;
    double left;                  /* of the chosen zone */
    double moved, levels, stress; /* of the reference zone */
    sl_look look;                 /* as it is shown */
    sl_strip_look hair;           /* every zone strand by strand, and the mix on it, as the eyes see them */
} sl_stage_reading;

/* What a lane or the hair of minute 0 was read of; it is read again where this differs. */
typedef struct sl_stage_lane_of {
    bool any; /* something was read */
    uint64_t story;
    int zone;
    sl_viewing viewing;
    sl_vision vision;
} sl_stage_lane_of;

/* The hair of a strip at two moments so near that between them it is their mean in linear light. */
typedef struct sl_stage_pair {
    sl_stage_lane_of of; /* read of; any: it holds */
    double first_min, apart_min;
    sl_strip_look hair[2];
} sl_stage_pair;

/* What is read there. */
typedef struct sl_stage_read {
    sl_meeting meeting[2][SL_MAX_ARMS]; /* [before, after][arm] */
    sl_stage_reading *reading[2];       /* [before, after][n_arms] */
    sl_lane *lane;                      /* [n_arms] */
    sl_stage_lane_of *lane_of;          /* [n_arms] */
    sl_strip_look *start;               /* [n_arms] at minute 0, as wet as the strip is now, no mix on it */
    sl_stage_lane_of *start_of;         /* [n_arms] */
    sl_stage_pair *pair[2];             /* [before, after][n_arms] while it plays */
    double moved_top, stress_top;       /* full length of the bars */
    bool stale;                         /* readings must be taken again */
    bool remeet;                        /* and so must meetings */
} sl_stage_read;

#endif
