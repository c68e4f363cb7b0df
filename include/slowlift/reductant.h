/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reducing agents that a mix can hold, told once: names, files and tables list them from here. What each
 * does stands in the chemistry (sl_reductant) and, dye by dye, in the sets of dyes.
 */
#ifndef SLOWLIFT_REDUCTANT_H
#define SLOWLIFT_REDUCTANT_H

/* One row each: NAME as in SL_REDUCTANT_NAME; the key of files, which is the word for people too; molar mass,
 * g/mol (formula, arithmetic); the substance that is weighed where a share of it is told. */
#define SL_REDUCTANT_LIST(ROW)                                                                               \
    ROW(SULFITE, "sulfite", 126.037, N_("sodium sulfite"))                                                   \
    ROW(SULFINATE, "sulfinate", 108.115, N_("formamidinesulfinic acid"))                                     \
    ROW(HYDROXYMETHANESULFINATE, "hydroxymethanesulfinate", 118.082, N_("sodium hydroxymethanesulfinate"))   \
    ROW(ASCORBATE, "ascorbate", 176.124, N_("ascorbic acid"))                                                \
    ROW(THIOL, "thiol", 121.154, N_("cysteine"))                                                             \
    ROW(DITHIONITE, "dithionite", 174.096, N_("sodium dithionite"))

#define SL_REDUCTANT_AS_ENUM(NAME, ...) SL_REDUCTANT_##NAME,
typedef enum sl_reductant_id { SL_REDUCTANT_LIST(SL_REDUCTANT_AS_ENUM) SL_REDUCTANTS } sl_reductant_id;
#undef SL_REDUCTANT_AS_ENUM

#endif
