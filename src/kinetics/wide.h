/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Functions that are made twice: for any processor, and with wide vectors for one that has them; no
 * contraction, so the numbers are the same. Private to src/kinetics.
 */
#ifndef SLOWLIFT_KINETICS_WIDE_H
#define SLOWLIFT_KINETICS_WIDE_H

#if defined(__x86_64__) && !defined(SLOWLIFT_PLAIN_LANES) /* of the bench and a test */
#define HAS_WIDE
#define WIDE __attribute__((target("avx2")))
#else
#define WIDE
#endif

#endif
