/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The nouns of the job as plain data: dye, hair, mix, zone, arm, scene, and the
 * constants of the chemistry. No file format and no solver is known here.
 *
 * Invariant: everything inside a scene points into the scene's own arena; nothing
 * points into a parser. Units: minutes, mol/L, kelvin where a name ends in _k,
 * shares from 0 to 1; a name ends in its unit where that is not obvious.
 * Symbols in comments are those of docs/science.md.
 */
#ifndef SLOWLIFT_MODEL_H
#define SLOWLIFT_MODEL_H

#include <stdbool.h>
#include <stddef.h>

#include "slowlift/error.h"
#include "slowlift/ingredient.h"
#include "slowlift/oxidant.h"
#include "slowlift/reductant.h"
#include "slowlift/wording.h"

#pragma GCC visibility push(default)

/* ---- numbers that say how good they are ---------------------------------------- */

/* Weakest first, so that a forgotten grade can only understate trust. */
#define SL_GRADE_LIST(X)                                                                                     \
    X(SL_GRADE_ASSUMED, "assumed")                                                                           \
    X(SL_GRADE_FITTED, "fitted")                                                                             \
    X(SL_GRADE_FROM_MEMORY, "from memory")                                                                   \
    X(SL_GRADE_COMPUTED, "computed")                                                                         \
    X(SL_GRADE_PUBLISHED, "published")                                                                       \
    X(SL_GRADE_MEASURED_HERE, "measured here")

#define SL_AS_ENUM(name, word) name,
typedef enum sl_grade { SL_GRADE_LIST(SL_AS_ENUM) SL_GRADE_COUNT } sl_grade;

typedef struct sl_param {
    double value;       /* in the unit that the field's comment gives */
    sl_grade grade;     /* how the number came about */
    const char *source; /* where from; NULL when none was given (a published one has one) */
} sl_param;

/* ---- what a target loses to each channel ---------------------------------------- */

/* Rate constants of one target, per channel: L/(mol min), L/(mol min), L2/(mol2 min). */
typedef struct sl_rates {
    sl_param k[SL_CHANNELS];
    bool own_activation[SL_CHANNELS];      /* false: the channel's activation energy serves */
    double activation_kj_mol[SL_CHANNELS]; /* used only where own_activation is true */
} sl_rates;

/* ---- what a reducing agent does ---------------------------------------------------- */

/* Constants of one agent at 32 C (docs/science.md, "Reduction"); its rates with dyes are the dyes'. */
typedef struct sl_reductant {
    sl_param order; /* n: of dyes' loss in the agent, 0.1..2; 0: the chemistry has no numbers of it */
    sl_param activation_kj_mol; /* En: of all that it does */
    sl_param air_loss_per_min;  /* ka: lost where air reaches it */
    sl_param meet_l_mol_min;    /* km: with peroxide and with persulfate */
    sl_param oxidant_per_mol;   /* s: mol of oxidant that one mol uses up, and the other way round */
    sl_param diffusion_cm2_s;   /* D_R in the fibre */
    sl_param cystine_l_mol_min; /* kc4: cystine that it opens */
    sl_param per_cystine;       /* nR: mol used up by each */
} sl_reductant;

/* ---- the constants of the chemistry (models/chemistry) --------------------------- */

/* The one melanin chain, for chemistry and colour alike (docs/science.md, "Melanin"):
 * bound (dark) -> opened (red-brown) -> yellow -> colourless. */
enum { SL_BOUND, SL_OPENED, SL_YELLOW, SL_STAGES };
enum { SL_EUMELANIN, SL_PHEOMELANIN, SL_MELANINS };

typedef struct sl_melanin {
    sl_rates rates;         /* of bound -> opened */
    sl_param opened_ratio;  /* rho: rate of opened -> yellow over bound -> opened, 0..10, not 1 */
    sl_param yellow_ratio;  /* sigma: rate of yellow -> colourless over bound -> opened, 0..10 */
    sl_param opened_weight; /* luminous absorbance of opened per that of bound, 0..1 */
    sl_param yellow_weight; /* luminous absorbance of yellow per that of bound, 0..1 */
    sl_param held_mol_l;    /* mol of bound melanin units per L fibre water and per unit of
                               absorbance; used only with pigment feedback */
} sl_melanin;

typedef struct sl_chemistry {
    const char *name;
    sl_wording title;
    sl_param pka_25c;                /* of H2O2 at 25 C */
    sl_param pka_enthalpy_kj_mol;    /* of its ionisation */
    sl_param fibre_ph_drop;          /* pH in the mix minus pH in the fibre */
    sl_param saturation_mol_l;       /* Ku: HO2- at which channel 1 is half saturated */
    sl_param loss_activation_kj_mol; /* Ekd: of peroxide loss in mix and fibre */
    sl_param fibre_loss_per_min;     /* kdf: peroxide lost in the fibre */
    sl_param couple_l_mol_min;       /* kr: HO2- + persulfate */
    sl_param couple_activation_kj_mol;
    sl_param hydrolysis_per_min; /* kb: base hydrolysis of persulfate at pH 10.3 */
    sl_param hydrolysis_activation_kj_mol;
    sl_param thermal_per_min; /* kth: homolysis at 32 C */
    sl_param thermal_activation_kj_mol;
    sl_param dissolve_per_min;           /* kdis: dissolution of solid persulfate */
    sl_param dissolve_half_mol_l;        /* solid at which dissolution runs at half rate */
    sl_param potassium_solubility_mol_l; /* of K2S2O8 in water, 25 C */
    sl_param peroxide_diffusion_cm2_s;   /* D_H in the fibre at 32 C */
    sl_param persulfate_diffusion_cm2_s; /* D_P */
    sl_param diffusion_activation_kj_mol;
    sl_param fibre_radius_um;
    sl_param swelling_deficit; /* sw(t) = 1 - deficit exp(-t/time) */
    sl_param swelling_time_min;
    sl_param damage_opens;         /* m: how much lost cystine speeds exchange */
    sl_param damage_half;          /* Xd */
    sl_param lipids_open;          /* ml: how much lost lipids of the cuticle speed exchange */
    sl_param lipids_loss;          /* kl: of theirs, by the radicals' dose at the rim, L2/(mol2 min) */
    sl_param ammonia_leaves_per_min; /* kam: of free ammonia, out of a mix at 32 C */
    sl_param persulfate_partition; /* kappa: fibre over liquid at equilibrium */
    sl_param fibre_water_ml_g;     /* water held by wet hair */
    sl_param cystine_mol_l;        /* c0: cystine per L fibre water in virgin hair */
    sl_param oxidant_per_cystine;  /* n */
    sl_rates cystine;              /* k_c per channel */
    sl_param cystine_layer;        /* Xs: product layer that slows attack */
    sl_param channel_activation_kj_mol[SL_CHANNELS];
    sl_melanin melanin[SL_MELANINS];
    sl_param level_ratio;      /* q: melanin absorbance of one level over the next darker */
    sl_param rinse_per_min;    /* exchange of the bath with running water */
    sl_param rinse_leach;      /* leaching under running water, relative to standing wet */
    sl_param dry_per_min;      /* k_dry: loss of wetness of an uncovered mix */
    sl_param rest_ph;          /* pH in the fibre once rinsed */
    sl_param rest_dry_per_min; /* drying of rinsed hair: reaction in it fades with this */
    sl_param damp_water_g_g;   /* water in towel-dried hair, g per g of hair */
    sl_param bowl_c;           /* temperature of a mix waiting in its bowl, C */
    sl_param head_c;           /* hair near a scalp, C */
    sl_param wrapped_rise_k;   /* rise under foil or cap on a head, K */
    sl_param wrapped_time_min; /* its time constant */
    sl_param keratin_yellow;   /* absorbance that a keratin with all its cystine oxidised
                                  would add, in units of a pool; 0..1 */
    sl_param peroxide_heat_kj_mol;   /* given off per mol that becomes water and oxygen; the heats: */
    sl_param persulfate_heat_kj_mol; /*   per mol that becomes sulfate and oxygen */
    sl_param dissolving_heat_kj_mol; /*   taken up per mol of solid persulfate that dissolves */
    sl_param sulfur_heat_kj_mol;     /*   per mol of oxygen that goes to cystine's sulfur instead */
    sl_param mix_heat_j_g_k;         /* heat capacity of a mix; 0: no heat of reaction at all */
    sl_param hair_heat_j_g_k;        /* of dry hair */
    sl_param open_loss_w_m2_k;       /* heat lost to air by what lies open, its bowl too */
    sl_param covered_loss_w_m2_k;    /* by what is covered */
    sl_param bench_loss_w_m2_k;      /* to a bench below */
    sl_param head_loss_w_m2_k;       /* to a head below */
    sl_param layer_area_cm2_g;       /* area of a swatch or a packet, one side, per gram of hair */
    sl_param bowl_area_cm2_g;        /* area of a mix in its bowl, all sides, per gram of mix */
    bool pigment_feedback;     /* pigments use up oxidant in the fibre: the full system
                                  must be solved for every zone */
    sl_param dye_oxidant;      /* mol of oxidant used per mol of dye destroyed */
    sl_param dye_mol_l;        /* mol of dye per L fibre water at recipe strength 1 */
    sl_reductant reductant[SL_REDUCTANTS];
    sl_param return_activation_kj_mol; /* Eb: of colour that comes back; 0 where nothing is said */
} sl_chemistry;

/* ---- dyes (models/dyes) ----------------------------------------------------------- */

/* Dye class drives the chemistry; the colour word never does. */
#define SL_DYE_CLASS_LIST(X)                                                                                 \
    X(SL_DYE_CATIONIC_AZO, "cationic azo")                                                                   \
    X(SL_DYE_QUINONE_IMINE, "quinone imine")                                                                 \
    X(SL_DYE_TRIARYLMETHANE, "triarylmethane")                                                               \
    X(SL_DYE_HINDERED_TRIARYLMETHANE, "hindered triarylmethane")                                             \
    X(SL_DYE_XANTHENE, "xanthene")                                                                           \
    X(SL_DYE_AZINE, "azine")                                                                                 \
    X(SL_DYE_NITRO, "nitro")                                                                                 \
    X(SL_DYE_ANTHRAQUINONE, "anthraquinone")                                                                 \
    X(SL_DYE_DISPERSE_AZO, "disperse azo")                                                                   \
    X(SL_DYE_OXIDATIVE, "oxidative")

typedef enum sl_dye_class { SL_DYE_CLASS_LIST(SL_AS_ENUM) SL_DYE_CLASS_COUNT } sl_dye_class;

enum {
    SL_MAX_BANDS = 4,
    SL_MAX_DYES_PER_ZONE = 4,
    SL_MAX_STEPS = 16,
    SL_MAX_ARMS = 64,
    SL_MAX_ZONES = 32,
    SL_MAX_COURSE_POINTS = 16
};

/* One absorption band: an asymmetric Gaussian in wavenumber (see optics.h). */
typedef struct sl_band {
    double centre_nm; /* 300..900 */
    double width_nm;  /* full width at half maximum, 5..400 */
    double height;    /* relative to the dye's highest band, 0..1 */
} sl_band;

typedef struct sl_dye {
    const char *name; /* as recipes refer to it, e.g. "violet" */
    sl_wording title;
    const char *colour; /* word for people; no meaning to the chemistry */
    sl_dye_class class_;
    sl_param rim_share;     /* fs: share held near the fibre's surface, 0..1 */
    sl_rates rates;         /* kH, kP, kS */
    sl_param leach_per_min; /* kL: loss to standing liquid; a quarter of it in the cortex */
    sl_param shampoo_loss;  /* exponent per shampoo: exp(-x) stays of the rim part, a quarter
                               of it in the cortex */
    sl_param loose_share;   /* lambda: of what each place holds, the share that is held loosely, 0..1 */
    sl_param loose_loss;    /* l: exponent per shampoo of that share; shampoo_loss is then the other's */
    sl_param stain_share;   /* of the dye that washing loosens, the share that settles on each
                               neighbouring zone, 0..0.5 */
    sl_param reduced[SL_REDUCTANTS];   /* kR: by each agent at 1 mol/L, 1/(mol/L min), 0: not at all */
    sl_param leuco_share;              /* phi: of what is reduced, the share that becomes its colourless form
                                          and can come back, 0..1; the rest is broken for good */
    sl_param air_return_per_min;       /* ba: of the colourless form, where air reaches it */
    sl_param oxidant_return_l_mol_min; /* bo: by peroxide and by persulfate */
    sl_band bands[SL_MAX_BANDS];
    int n_bands;
    sl_param band_quality; /* grade and source of the bands; value unused */
} sl_dye;

/* ---- hair (models/hair) -------------------------------------------------------- */

typedef struct sl_hair {
    const char *name;
    sl_wording title;
    double level; /* level now, 1..SL_LEVEL_END (trade scale) */
    bool prelightened;
    double natural_level;                /* level it grew as; = level when natural */
    double warmth_left;                  /* share of the warm stages left, 0..1 */
    double pool[SL_MELANINS][SL_STAGES]; /* amounts at the start, in units of luminous
                                            absorbance over scattering of the bound stage
                                            (docs/colour.md; near that at 550 nm) */
    double cystine_intact;               /* C at the start, 0..1 */
    double porosity;                     /* multiplies exchange, 0.2..5; 1 = virgin */
    sl_grade grade;                      /* weakest grade of its numbers */
} sl_hair;

/* ---- mixes (models/mixes) -------------------------------------------------------- */

#define SL_MIX_CLASS_LIST(X)                                                                                 \
    X(SL_MIX_POWDER_WATER, "powder and water")                                                               \
    X(SL_MIX_POWDER_DEVELOPER, "powder and developer")                                                       \
    X(SL_MIX_POWDER_DILUTED, "powder and diluted developer")                                                 \
    X(SL_MIX_TWO_PART, "two-part liquid without persulfate")                                                 \
    X(SL_MIX_LIGHTENER, "lightener control")                                                                 \
    X(SL_MIX_WATER, "plain water")

typedef enum sl_mix_class { SL_MIX_CLASS_LIST(SL_AS_ENUM) SL_MIX_CLASS_COUNT } sl_mix_class;

#define SL_MECHANISM_LIST(X)                                                                                 \
    X(SL_MECHANISM_UNKNOWN, "unknown")                                                                       \
    X(SL_MECHANISM_OXIDATIVE, "oxidative")                                                                   \
    X(SL_MECHANISM_REDUCTIVE, "reductive")

typedef enum sl_mechanism { SL_MECHANISM_LIST(SL_AS_ENUM) SL_MECHANISM_COUNT } sl_mechanism;

/* Minutes that a label's time can be; a longer one is a slip of the pen (assumed). */
enum { SL_LABEL_LEAST_MIN = 1, SL_LABEL_MOST_MIN = 240 };

#define SL_SHARE_OF_POWDER(name, words) double name;
typedef struct sl_mix {
    const char *name;
    sl_wording title;
    sl_mix_class class_;
    sl_mechanism mechanism; /* an unknown one is never predicted */
    double powder_parts;    /* s, by weight; 0 = no powder */
    double developer_parts; /* d, by weight */
    double water_parts;     /* w, by weight */
    double developer_pct;   /* H2O2, % w/v, as labelled */
    SL_POWDER_LIST(
        SL_SHARE_OF_POWDER)  /* mass shares of the powder, 0..1; percarbonate: of sodium, 2 Na2CO3 * 3 H2O2 */
    double activity;         /* share of the powder's oxidants still there, 0..1 */
    sl_param holds[SL_HOLDERS][SL_INGREDIENTS]; /* mass shares of each part, 0..1 */
    bool ph_computed;        /* of what the mix holds, as sl_mix_settle() sets it and the two below */
    sl_param ph;             /* of the fresh mix, at 25 C */
    double ph_kj_mol;        /* how it falls with warmth, as an enthalpy: sl_mix_ph() */
    double ph_fall_per_min;  /* computed: how it falls with age, sl_mix_drift(); 0 when typed */
    double ph_fades_per_min; /* and how that slows */
    double ph_doubt;         /* within which 95 of 100 draws of it lie; 0 when typed: its grade says so */
    sl_param loss_per_min;   /* kd1: first-order loss of peroxide at 32 C */
    sl_param loss_l_mol_min; /* kd2: second-order loss; 0 when kd1 serves */
    double label_max_min;    /* label's longest time, minutes; 0 = not entered */
    double label_told_min;   /* the same as the user said it for every mix of a scene, from mixing; 0 = not;
                                the earlier of the two holds (leave.h) */
    bool label_from_contact; /* that time counts from application; else from mixing, which is never
                                later */
    bool label_allows;       /* the user states that the label allows liquid and ratio */
    sl_reductant_id reductant; /* of a reductive mix; counts only with a share */
    double reductant_share;  /* of the agent as weighed (SL_REDUCTANT_LIST), g per mL of mix; 0: none named */
    double veil_lab[3];      /* L*, a*, b* of the mix itself as it lies on the hair */
    double veil_cover;       /* share of the hair that it hides, 0..1 */
} sl_mix;
#undef SL_SHARE_OF_POWDER

/* ---- charts (models/charts) ------------------------------------------------------------ */

/* Level and tone are trade habits without a universal chart, so the chart is a file and is
 * named beside every reading. */
enum { SL_LEVELS = 10, SL_MAX_TONES = 24 };

typedef struct sl_tone {
    const char *word;        /* "red-brown", "pale yellow" */
    sl_wording title;        /* is read by people; without one the word is */
    double from_deg, to_deg; /* CIELAB hue angle h_ab; from > to wraps through 0 */
    double least_chroma;     /* C*ab from here on */
    double least_L, most_L;  /* L* between these */
} sl_tone;

typedef struct sl_chart {
    const char *name;
    sl_wording title;
    double level_L[SL_LEVELS]; /* L* of dry natural hair of level 1..10, rising */
    int n_tones;
    sl_tone tones[SL_MAX_TONES];       /* the first that fits is the word */
    double warm_from_deg, warm_to_deg; /* hues called warm; the others are cool */
    double neutral_chroma;             /* below this C*ab neither warm nor cool */
    sl_grade grade;                    /* weakest grade of its numbers */
} sl_chart;

/* ---- people ------------------------------------------------------------------------ */

/* Bytes of a code that stands for a person, its end included: never a name (base/code.h). */
enum { SL_CODE = 33 };

/* ---- a scene (models/scenes) ------------------------------------------------------ */

#define SL_PLACE_LIST(X)                                                                                     \
    X(SL_PLACE_BENCH, "bench")                                                                               \
    X(SL_PLACE_HEAD, "head")                                                                                 \
    X(SL_PLACE_WRAPPED, "wrapped")

typedef enum sl_place { SL_PLACE_LIST(SL_AS_ENUM) SL_PLACE_COUNT } sl_place;
#undef SL_AS_ENUM

typedef struct sl_recipe {
    int n_dyes;
    int dye[SL_MAX_DYES_PER_ZONE];         /* index into scene->dyes */
    double strength[SL_MAX_DYES_PER_ZONE]; /* peak absorbance relative to scattering, > 0 */
} sl_recipe;

typedef struct sl_zone {
    const char *name; /* is typed, and kept in logs, CSV and JSON */
    sl_wording title; /* is read by people; without one the name is */
    int hair;         /* index into scene->hairs */
    sl_recipe recipe; /* n_dyes 0 = undyed zone */
} sl_zone;

typedef enum sl_step_kind { SL_STEP_APPLY, SL_STEP_RINSE, SL_STEP_SHAMPOO, SL_STEP_REST } sl_step_kind;

typedef struct sl_step {
    sl_step_kind kind;
    double duration_min;   /* dwell, rinse or rest; of a shampoo see sl_step_minutes() */
    int shampoos;          /* SL_STEP_SHAMPOO: how many, >= 1 */
    int mix;               /* SL_STEP_APPLY: index into scene->mixes */
    double mix_age_min;    /* SL_STEP_APPLY: age of the mix at contact */
    double mix_g_per_g;    /* SL_STEP_APPLY: grams of mix per gram of hair */
    double hair_water_g_g; /* SL_STEP_APPLY: water in the hair, g per g; 0 = dry */
    bool covered;          /* SL_STEP_APPLY: no drying */
} sl_step;

typedef struct sl_arm {
    const char *name; /* is typed, and kept in logs, CSV and JSON */
    sl_wording title; /* is read by people; without one the name is */
    sl_wording note;
    bool undyed;        /* every zone of this strip is left undyed */
    double contact_min; /* first contact on the scene's clock (stagger) */
    int n_steps;        /* 0 = untreated */
    sl_step steps[SL_MAX_STEPS];
} sl_arm;

/* What comes next decides how clear the hair must be: its word, and the colour left (a share)
 * that serves when none is entered. The shares are assumed. */
#define SL_NEXT_LIST(X)                                                                                      \
    X(SL_NEXT_UNSAID, "unsaid", 1.0)                                                                         \
    X(SL_NEXT_PASTEL, "pastel", 0.10)                                                                        \
    X(SL_NEXT_FAMILY, "same family", 0.35)                                                                   \
    X(SL_NEXT_DARKER, "darker", 0.60)

#define SL_AS_NEXT(name, word, left) name,
typedef enum sl_next { SL_NEXT_LIST(SL_AS_NEXT) SL_NEXT_COUNT } sl_next;
#undef SL_AS_NEXT

/* A limit that may be set. Zero is a limit like any other; only `set` says that there is one. */
typedef struct sl_bound {
    double most; /* in the unit of what is limited, 0 and up */
    bool set;    /* false: no limit */
} sl_bound;

/* Whether a value keeps a limit; every value keeps one that is not set. */
bool sl_bound_kept(sl_bound bound, double value);
/* The least value that a quantity which only grows has when it has come to the limit: of a limit of
 * nothing, the least that is more than nothing. */
double sl_bound_reached_at(sl_bound bound);

/* What the class wants and what stops it. A goal of 1 is not set. */
typedef struct sl_aims {
    double colour_left;    /* goal: at most this share left in every dyed direct zone */
    sl_bound base_moved;   /* limit: at most this share of the undyed zone's melanin */
    double base_levels;    /* the same in levels, where it was set so; else 0 */
    sl_bound cystine_lost; /* limit; where stress_share is set, what it came to with the scene's numbers */
    sl_bound longest_min;  /* limit: label or chair time, from contact */
    sl_next next;
    bool left_by_next;              /* colour_left is the share that goes with `next` */
    bool assumed;                   /* nobody set a goal: sl_aims_assume put a usual one */
    double zone_left[SL_MAX_ZONES]; /* [zone] a share of its own; 0: colour_left; 1: not wanted */
    double zone_near[SL_MAX_ZONES]; /* [zone] instead: at most this CIEDE2000 from the strip's undyed
                                       zone at that moment (dry, D65, 2 degrees); 0: none */
    double stress_share; /* limit: at most this share of the cystine that the arm `stress_of` has lost
                            at the end of its first application; 0: not set */
    int stress_of;       /* index into scene->arms, which has an application */
} sl_aims;

/* Who works on the swatches of a test, and how long; no result depends on it. What is 0 was not said. */
enum { SL_MAX_HANDS = 8, SL_MAX_SWATCHES = 12 };
typedef struct sl_crew {
    int swatches;                    /* of each strip, 0..SL_MAX_SWATCHES */
    int hands;                       /* pairs of them, 0..SL_MAX_HANDS */
    char who[SL_MAX_HANDS][SL_CODE]; /* [hands] codes, never names; "": none was given */
    double class_min;
} sl_crew;

typedef struct sl_course_point {
    double time_min; /* scene clock */
    double temperature_c;
} sl_course_point;

/* The longest that a scene is followed, in minutes: three days. */
#define SL_LONGEST_CLOCK_MIN 4320.0

typedef struct sl_scene {
    const char *name;
    sl_wording title, question;
    sl_chemistry chemistry;
    sl_place place;
    bool untold;        /* of a log, and somebody's: the clock runs, and the model says nothing (log.h) */
    const char *person; /* code of somebody whose hair this is, so that it counts as a head; NULL: nobody's */
    double room_c;      /* of the room, 5..45 C */
    double shift_k;     /* what-if: added to every temperature */
    int n_points;       /* temperature given point by point; 0 = from the place */
    sl_course_point points[SL_MAX_COURSE_POINTS];
    double until_min; /* end of the scene's clock, SL_LONGEST_CLOCK_MIN at most */
    double hair_g;    /* grams of hair in one swatch */
    int n_hairs, n_dyes, n_mixes, n_zones, n_arms;
    sl_hair *hairs; /* [n_hairs] */
    sl_dye *dyes;   /* [n_dyes] */
    sl_mix *mixes;  /* [n_mixes] */
    sl_zone *zones; /* [n_zones], root end first; at least one undyed */
    sl_arm *arms;   /* [n_arms] */
    sl_aims aims;
    sl_crew crew;
    sl_chart chart;                 /* for readings of level and tone */
    sl_grade weakest;               /* weakest grade among all numbers used */
    const char *weakest_what;       /* which number that is */
    struct sl_scene_memory *memory; /* owner of everything above; opaque */
} sl_scene;

/* ---- words ------------------------------------------------------------------- */

const char *sl_grade_word(sl_grade grade);
const char *sl_dye_class_word(sl_dye_class class_);
const char *sl_mix_class_word(sl_mix_class class_);
const char *sl_mechanism_word(sl_mechanism mechanism);
const char *sl_place_word(sl_place place);
const char *sl_reductant_word(sl_reductant_id reductant);
const char *sl_next_word(sl_next next);

/* ---- titles (src/model/titles.c) ------------------------------------------------------- */

/* What people read, in the language in use: the title, else the name. What machines read is the name, in
 * every language. */
const char *sl_scene_title(const sl_scene *scene);
const char *sl_scene_question(const sl_scene *scene); /* NULL: none */
const char *sl_arm_title(const sl_arm *arm);
const char *sl_zone_title(const sl_zone *zone);
const char *sl_tone_title(const sl_tone *tone);
const char *sl_arm_title_in(const sl_arm *arm, sl_language_id language);
const char *sl_zone_title_in(const sl_zone *zone, sl_language_id language);
const char *sl_mix_title(const sl_mix *mix);
const char *sl_dye_title(const sl_dye *dye);
/* The same of a name that a log kept; scene NULL, or without such a name: the name itself. */
const char *sl_title_of_arm(const sl_scene *scene, const char *name);
const char *sl_title_of_zone(const sl_scene *scene, const char *name);
/* The arm, and the zone, that somebody means who typed its name, or its title in the language in use; -1:
 * none. */
int sl_scene_arm_typed(const sl_scene *scene, const char *text);
int sl_scene_zone_typed(const sl_scene *scene, const char *text);

/* ---- the goal (src/model/aims.c) ------------------------------------------------------ */

/* The arm, and the zone, of that name; -1: none. */
int sl_scene_arm(const sl_scene *scene, const char *name);
int sl_scene_zone(const sl_scene *scene, const char *name);
/* The first application of an arm (NULL: none), the step of the next one at or after step `from` (-1: none),
 * and how many there are. */
const sl_step *sl_arm_application(const sl_arm *arm);
int sl_arm_next_application(const sl_arm *arm, int from);
int sl_arm_applications(const sl_arm *arm);
/* Its last application; -1: none. */
int sl_arm_last_application(const sl_arm *arm);
/* How long a step takes: a shampoo one minute each, any other its duration. */
double sl_step_minutes(const sl_step *step);
/* Minutes from the arm's contact to the beginning of a step, 0..n_steps: of n_steps, to its end. */
double sl_arm_minutes_before(const sl_arm *arm, int step);
/* Whether the model can say anything of a mix: it oxidises, or reduces by an agent that it names and of which
 * the chemistry has numbers. */
bool sl_mix_in_model(const sl_scene *scene, const sl_mix *mix);
/* The same of an arm: each mix that it puts on is, and no two of them hold different reducing agents. True
 * where none is put on. */
bool sl_arm_in_model(const sl_scene *scene, const sl_arm *arm);
/* The reducing agent that an arm puts on, of sl_reductant_id; -1: none. */
int sl_arm_reductant(const sl_scene *scene, const sl_arm *arm);
/* Whether a mix of the scene holds this agent, and whether one holds any. */
bool sl_scene_holds_agent(const sl_scene *scene, sl_reductant_id agent);
bool sl_scene_reduces(const sl_scene *scene);
/* Whether a dye that this arm meets in this zone has a colourless form which comes back. */
bool sl_zone_returns(const sl_scene *scene, const sl_arm *arm, int zone);
/* Whether something can be asked of its dyes: a mix inside the model, on a strip that is dyed. */
bool sl_arm_removes(const sl_scene *scene, const sl_arm *arm);

/* What is asked of one zone. */
typedef struct sl_goal {
    bool wanted;
    double left;        /* at most this share of its colour left; 1 where the next is asked instead */
    double near_undyed; /* at most this CIEDE2000 from undyed hair; 0: not asked */
} sl_goal;

/* The share of colour left that goes with what comes next: assumed; 1 for SL_NEXT_UNSAID. */
double sl_next_left(sl_next next);
/* Whether a zone holds a dye that is not oxidative: only such a zone can have a goal. */
bool sl_zone_direct(const sl_scene *scene, int zone);
sl_goal sl_zone_goal(const sl_scene *scene, int zone);
/* Whether the scene sets any goal. */
bool sl_goal_set(const sl_scene *scene);
/* Where none is set: a usual goal, with usual limits of damage where these are not set either, marked as
 * assumed. They are for cut swatches: of a head no minute is told by them (leave.h). */
void sl_aims_assume(sl_scene *scene);
/* One goal for all zones instead of the scene's: this share of each colour left. Limits stay. */
void sl_aims_wait_for(sl_scene *scene, double left);
/* The one share asked of this zone, or of all that are wanted when it is -1. False: none, more than
 * one, or a zone is asked to come near undyed hair. */
bool sl_goal_share(const sl_scene *scene, int zone, double *share);
/* Whether any zone is asked to come near undyed hair. */
bool sl_goal_near_undyed(const sl_scene *scene);

/* ---- the arithmetic of a mix (src/model/dilution.c) -------------------------------- */

/* The most peroxide that hair products may hold, present or released, % (40 vol): Annex III entry 12 of
 * Regulation (EC) 1223/2009 as replaced by Regulation (EU) 2019/831. The one place where it stands. */
static const double SL_LEGAL_PCT = 12.0;

/* Volume strength of a % w/v solution of H2O2: litres of O2 (0 C, 1 atm; ideal gas) from
 * one litre: pct*10/34.0147/2*22.414. */
double sl_volume_strength(double peroxide_pct);
double sl_pct_of_volume_strength(double volume);
/* mol/L of a % w/v solution: 10*pct/34.0147. */
double sl_peroxide_mol_l(double peroxide_pct);

/* What the liquid holds before anything has reacted. */
#define SL_DISSOLVED(NAME, name, ...) double name##_mol_l;
typedef struct sl_charge {
    SL_OXIDANT_LIST(SL_DISSOLVED) /* H0, percarbonate included; P0, at saturation or whole */
    double reductant_mol_l;       /* R0 */
    double undissolved_mol_l;     /* U0, mol of solid persulfate per L liquid */
    double saturation_mol_l;      /* P_sat */
    double liquid_pct;            /* peroxide in the liquid, % w/v (percarbonate included) */
    double on_hair_pct;           /* peroxide in the whole paste, %: the basis of the 12 % line */
    double liquid_ml_per_g;       /* mL of liquid per gram of hair, hair water included */
} sl_charge;
#undef SL_DISSOLVED

/* Charge of a mix applied at `mix_g_per_g` (g/g, > 0) on hair holding `hair_water_g_g`
 * (g/g, >= 0). Common-ion solubility of the potassium salt: docs/science.md, "Persulfate". */
sl_charge sl_mix_charge(const sl_mix *mix, const sl_chemistry *chemistry, double mix_g_per_g,
                        double hair_water_g_g);

#define SL_ZERO_C_K 273.15 /* SI: kelvin of 0 C */
/* 32 C, where every rate constant is what is written: the bath of the published loss series. */
#define SL_REFERENCE_K 305.15
#define SL_PKA_K 298.15                /* where the pKa is */
#define SL_HYDROLYSIS_PH 10.3          /* at which hydrolysis_per_min is given */
#define SL_GAS_KJ_MOL_K 8.314462618e-3 /* CODATA 2018; GSL 2.7 has that of 2006 */

/* What a typed pH falls with: between those of the shipped mixes, 36 to 49 (assumed). */
#define SL_TYPED_PH_KJ_MOL 41.0
/* What age adds to a mix's pH: -fall t/(1 + fades t), t in minutes since mixing. */
double sl_mix_drift(const sl_mix *mix, double age_min);
/* pH of the fresh mix: ph + ph_kj_mol/(R ln 10) (1/T - 1/298.15). */
double sl_mix_ph(const sl_mix *mix, double temperature_k);
/* Perhydroxyl share of peroxide, alpha = 1/(1+10^(pKa(T)-pH)), pKa(T) by van 't Hoff. */
double sl_perhydroxyl_share(const sl_chemistry *chemistry, double ph, double temperature_k);
/* Arrhenius factor relative to 32 C (305.15 K); energy in kJ/mol. */
double sl_arrhenius(double activation_kj_mol, double temperature_k);

/* Whether a chemistry has a heat of reaction. */
bool sl_chemistry_warms(const sl_chemistry *chemistry);

/* ---- hair ---------------------------------------------------------------------- */

/* Luminous absorbance of the melanins, sum of weight*amount; same unit as pools. */
double sl_melanin_absorbance(const sl_chemistry *chemistry, const double pool[SL_MELANINS][SL_STAGES]);

/* Move pools along the chain in closed form. exponent[kind] = sum over channels of
 * k*dose (>= 0) for bound -> opened; `to` may be `from`. */
void sl_melanin_move(const sl_chemistry *chemistry, const double exponent[SL_MELANINS],
                     const double from[SL_MELANINS][SL_STAGES], double to[SL_MELANINS][SL_STAGES]);

/* Set hair->pool for natural hair from its natural amounts of eumelanin and pheomelanin
 * lightened from `natural_level` to `level`, with hair->warmth_left of the warm stages
 * kept. Returns false when the level cannot be reached: it is darker than natural_level, or this
 * chemistry leaves too much colour however long it works. Then the pools are not set, and
 * *nearest_level (may be NULL) is the level that comes nearest. */
bool sl_hair_prelighten(sl_hair *hair, const sl_chemistry *chemistry, double eumelanin, double pheomelanin,
                        double *nearest_level);

/* The trade scale of levels ends at 10; nothing lighter than this is read. */
#define SL_LEVEL_END 10.5

/* Levels lifted from absorbance a0 to a: ln(a0/a)/ln(1/q), capped so that
 * level0 + lift <= SL_LEVEL_END. */
double sl_base_of_levels(const sl_chemistry *chemistry, double levels); /* share of base moved, 0..1 */
double sl_levels_lifted(const sl_chemistry *chemistry, double level0, double a0, double a);

/* Temperature of the hair, kelvin, `since_contact_min` after the last application, at
 * scene clock `clock_min`. */
double sl_scene_temperature_k(const sl_scene *scene, double clock_min, double since_contact_min);
/* Whether that temperature can change during the scene. */
bool sl_scene_isothermal(const sl_scene *scene);

/* ---- what counts as a head ------------------------------------------------------ */

/* From here on hair is as warm as on a head, whatever the file calls the place: skin of the scalp
 * is at 32 to 35 C (from memory), a room is not (common practice, no source). */
static const double SL_HEAD_FROM_C = 30.0;
/* Warmer than this nothing on a body is unless something heats it: warmth of the blood (from memory). */
static const double SL_HEAD_MOST_C = 37.0;

/* Whether the scene counts as hair on a head: it lies there or wrapped, or any temperature of it
 * (room, points, place, each with the shift) reaches SL_HEAD_FROM_C, or a person's code stands in it. */
bool sl_scene_on_head(const sl_scene *scene);
/* False and an error (SL_ERR_USAGE) where it does, or where nothing may be told of it (`untold`): for what
 * has no person to ask about. instead: what would be right. */
bool sl_swatches_only(const sl_scene *scene, const char *instead, sl_error *error);
/* Coldest and warmest that the scene makes the hair, C; what is no number is as cold and as warm as can be.
 */
void sl_scene_warmth(const sl_scene *scene, double *coldest_c, double *warmest_c);

#pragma GCC visibility pop

#endif
