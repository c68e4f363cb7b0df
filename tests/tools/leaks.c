/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Built into slowlift-paper in sanitized builds alone: what fontconfig, which Pango asks for faces,
 * keeps until the process ends is no leak of ours. Giving it back there is no way out: Pango may
 * still be looking for faces on a thread of its own, and Cairo then ends the process.
 */
const char *__lsan_default_suppressions(void);
const char *__lsan_default_options(void);

const char *__lsan_default_suppressions(void)
{
    return "leak:libfontconfig\n";
}

const char *__lsan_default_options(void)
{
    return "print_suppressions=0";
}
