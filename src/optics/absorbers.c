/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The spectra of absorbers.h; docs/colour.md, "What absorbs", says where each comes from.
 *   bound melanin   (l/550)^-p                         p fitted to published tables
 *   opened, yellow  (l/550)^-p / (1 + exp((l - edge)/width))   assumed: a drawing device
 *   keratin         0.0125 (550/l)^6                   assumed
 *   yellowed        as the yellow stage                assumed
 *   dye band        exp(-ln 2 (dv/h)^2), v wavenumber  half-widths in a fixed proportion
 */
#include "optics/absorbers.h"

#include <assert.h>
#include <math.h>

#include "optics/observer.h"

static const double REFERENCE_NM = 550.0;

typedef struct sl_absorber {
    double power;    /* p: rises toward the blue as wavelength^-p */
    double edge_nm;  /* absorption ends here; 0 = no edge */
    double width_nm; /* of the edge */
} sl_absorber;

/* [kind][stage]. Powers of the bound stages are fits (380..720 nm) to the table of S. L.
 * Jacques, "Extinction coefficient of melanin" (OMLC), after Sarna & Swartz (1988); the
 * fit misses the table by up to 8 % (eumelanin) and 18 % (pheomelanin). The opened and
 * yellow stages are assumed: chosen by eye so that lift runs red-brown, orange, yellow. */
static const sl_absorber OPENED = {1.5, 600.0, 5.0};
static const sl_absorber YELLOW = {2.5, 490.0, 11.0};
static const sl_absorber BOUND[SL_MELANINS] = {
    [SL_EUMELANIN] = {3.2, 0.0, 0.0}, [SL_PHEOMELANIN] = {4.96, 0.0, 0.0}};

/* Of a dye band's full width, the share on its red side; the rest is on its blue side.
 * Assumed: absorption bands of dyes fall steeply toward the red and trail to the blue. */
static const double RED_SIDE = 0.30;
static const double BLUE_SIDE = 0.70;
static const double NM_PER_CM = 1e7; /* wavenumber (1/cm) = 1e7 / wavelength (nm) */

static double wavelength(int band)
{
    return SL_FIRST_NM + SL_BAND_NM * band;
}

double sl_luminous_absorbance(const double spectrum[SL_BANDS])
{
    double sum = 0.0;
    double luminous = 0.0;
    for (int band = 0; band < SL_BANDS; band++) {
        const double weight = sl_illuminant_d65[band] * sl_observer_2deg[1][band];
        sum += weight * spectrum[band];
        luminous += weight;
    }
    return sum / luminous;
}

static double absorber_at(const sl_absorber *absorber, double nm)
{
    const double power = pow(nm / REFERENCE_NM, -absorber->power);
    if (!(absorber->width_nm > 0.0)) {
        return power;
    }
    return power / (1.0 + exp((nm - absorber->edge_nm) / absorber->width_nm));
}

/* The shape of an absorber, scaled to a luminous absorbance of `weight`. */
static void fill(const sl_absorber *absorber, double weight, double spectrum[SL_BANDS])
{
    for (int band = 0; band < SL_BANDS; band++) {
        spectrum[band] = absorber_at(absorber, wavelength(band));
    }
    const double scale = weight / sl_luminous_absorbance(spectrum);
    for (int band = 0; band < SL_BANDS; band++) {
        spectrum[band] *= scale;
    }
}

void sl_melanin_spectrum(const sl_chemistry *chemistry, int kind, int stage, double spectrum[SL_BANDS])
{
    assert(kind >= 0 && kind < SL_MELANINS && stage >= 0 && stage < SL_STAGES);
    const sl_melanin *const melanin = &chemistry->melanin[kind];
    if (stage == SL_BOUND) {
        fill(&BOUND[kind], 1.0, spectrum);
    } else if (stage == SL_OPENED) {
        fill(&OPENED, melanin->opened_weight.value, spectrum);
    } else {
        fill(&YELLOW, melanin->yellow_weight.value, spectrum);
    }
}

void sl_keratin_spectrum(double spectrum[SL_BANDS])
{
    for (int band = 0; band < SL_BANDS; band++) {
        spectrum[band] = 0.0125 * pow(REFERENCE_NM / wavelength(band), 6.0);
    }
}

void sl_yellowed_spectrum(const sl_chemistry *chemistry, double spectrum[SL_BANDS])
{
    fill(&YELLOW, chemistry->keratin_yellow.value, spectrum);
}

/* Full width in wavenumber, F, of a band whose half-height points lie width_nm apart:
 * 1e7 F / ((v0 - red F)(v0 + blue F)) = width, with red + blue = 1; the positive root of
 * red*blue*w F^2 + (1e7 - (blue - red) w v0) F - w v0^2 = 0, which is below v0/red. */
static double width_in_wavenumber(const sl_band *band)
{
    const double v0 = NM_PER_CM / band->centre_nm;
    const double a = RED_SIDE * BLUE_SIDE * band->width_nm;
    const double b = NM_PER_CM - (BLUE_SIDE - RED_SIDE) * band->width_nm * v0;
    const double c = band->width_nm * v0 * v0;
    return 2.0 * c / (b + sqrt(b * b + 4.0 * a * c)); /* no cancellation: b > 0 */
}

double sl_band_shape(const sl_band *band, double wavelength_nm)
{
    assert(band->width_nm > 0.0 && band->centre_nm > 0.0 && wavelength_nm > 0.0);
    const double away = NM_PER_CM / wavelength_nm - NM_PER_CM / band->centre_nm;
    const double half = width_in_wavenumber(band) * (away > 0.0 ? BLUE_SIDE : RED_SIDE);
    const double steps = away / half;
    return exp2(-steps * steps);
}

void sl_dye_spectrum(const sl_dye *dye, double spectrum[SL_BANDS])
{
    for (int band = 0; band < SL_BANDS; band++) {
        spectrum[band] = 0.0;
        for (int i = 0; i < dye->n_bands; i++) {
            spectrum[band] += dye->bands[i].height * sl_band_shape(&dye->bands[i], wavelength(band));
        }
    }
}

double sl_dye_absorbance(const sl_dye *dye)
{
    double spectrum[SL_BANDS];
    sl_dye_spectrum(dye, spectrum);
    double area = 0.0;
    for (int band = 0; band < SL_BANDS; band++) {
        area += spectrum[band] * SL_BAND_NM;
    }
    return area;
}
