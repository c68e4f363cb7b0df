/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the fuzzers share: models/ and the scenes of lessons/, read once and kept as parsed files, so that
 * no input costs more than its own bytes; the input as a file in memory, for the product's own doors.
 * Built with -DSLOWLIFT_FUZZ=ON and Clang; docs/robustness.md, "Fuzzing", has the table.
 */
#ifndef SLOWLIFT_TESTS_FUZZ_FRAME_H
#define SLOWLIFT_TESTS_FUZZ_FRAME_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "slowlift/scene.h"

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

/* From here on reading a file of this path gives these bytes. Borrowed until the next call. */
void frame_input(const char *path, const uint8_t *bytes, size_t size);

/* Serves models/ from memory; the name "input" stands for the input, whatever its kind. */
sl_resolver frame_resolver(void);

/* A shipped scene, kept: "way-short". */
const sl_scene *frame_scene(const char *name);

/* Every refusal has a reason: aborts where it has none. */
void frame_refused(const sl_error *error);

/* Where the input begins with "# NAME\n" and lessons/NAME is there: that; else the first lesson. */
const char *frame_lesson(const uint8_t *bytes, size_t size);

/* A fuzzer that makes seeds of its own: fuzz_NAME --seeds FOLDER. */
__attribute__((weak)) void fuzz_seeds(const char *folder);

#endif
