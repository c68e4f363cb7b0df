/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A part of an ensemble in a file: members first..last of one scene with one seed, counted by
 * one process, to be added up by another (docs/file-format.md, "Parts").
 *
 * Invariant: what is read back is what was written, to the last count, or a message says why
 * not; parts added up are the same bytes as the whole run at once.
 */
#ifndef SLOWLIFT_PART_H
#define SLOWLIFT_PART_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "slowlift/spread.h"

#pragma GCC visibility push(default)

enum { SL_PART_VERSION = 2 };

/* 64 bits of every name and number of the resolved scene that an ensemble depends on: FNV-1a. */
uint64_t sl_scene_fingerprint(const sl_scene *scene);
/* The same of one mix: what lies on the hair, whatever its label says of time. */
uint64_t sl_mix_fingerprint(const sl_mix *mix);
/* Of the mix of an arm's one application. 0 for none, or several: what lay there is then not one mix. */
uint64_t sl_arm_fingerprint(const sl_scene *scene, int arm);
/* The same of a zone's hair and dyes, whatever it is called; and of all that is done to a strip. */
uint64_t sl_zone_fingerprint(const sl_scene *scene, int zone);
uint64_t sl_strip_fingerprint(const sl_scene *scene, int arm);
/* FNV-1a (Fowler, Noll & Vo) over more bytes; begin with SL_FNV_START. */
static const uint64_t SL_FNV_START = UINT64_C(0xcbf29ce484222325);
uint64_t sl_fnv(uint64_t hash, const void *bytes, size_t length);

/* The members of part `number` (1..parts) of `members`; every member is in exactly one part. */
sl_member_range sl_part_range(long members, int number, int parts);

/* False: the stream failed, or the ensemble was stopped and has no range of members (then *error
 * says so; a stream's failure leaves it alone). */
bool sl_part_write(FILE *out, const sl_spread *spread, const sl_scene *scene, sl_error *error);
/* `name` stands in messages with the line. Refused: another scene, a damaged file, a newer version. */
bool sl_part_parse(sl_spread **part, const sl_scene *scene, const char *text, size_t length, const char *name,
                   sl_error *error);
bool sl_part_load(sl_spread **part, const sl_scene *scene, const char *path, sl_error *error);

#pragma GCC visibility pop

#endif
