# SPDX-License-Identifier: GPL-3.0-or-later
"""The full system of docs/science.md in Python, solved by scipy.

Written from the document alone. Dyes (rim and core) and melanin stages are states. Reads the
numbers of a scene from scene_numbers and compares what the library computed:

    system_scipy.py SCENE_NUMBERS MODELS SCENE-FILE...     exits 1 above 1e-6
"""
import json
import math
import subprocess
import sys

import numpy as np
from scipy.integrate import solve_ivp

import ph_pitzer

R = 8.314462618e-3  # kJ/(mol K)
WATER = 4.18        # J/(g K)
WARMS_FROM = 0.2    # K
ALLOWED = 1e-6      # of the initial amount

# states: the bath, the fibre, cystine, three rim and three core doses, washing, then pigments; last, where a mix
# warms itself, the mean hair's H, P, U, W, FH, FP, C, radicals' dose and by how much it is too warm
H, P, U, W, FH, FP, C, X1, Y1, LEACH, SHAMPOOS, RED, FRED, PIGMENTS = 0, 1, 2, 3, 4, 5, 6, 7, 10, 13, 14, 15, 16, 17
RADICALS, MEAN, WARM = 7, 9, -1  # of them the radicals' dose at the rim
PER_DYE = 4  # held at the rim and in the core, held loosely at the rim and in the core
# grams per mol of what is weighed of each agent: Na2SO3, CH4N2O2S, CH3NaO3S, C6H8O6, C3H7NO2S, Na2S2O4
MOLAR = {"sulfite": 126.037, "sulfinate": 108.115, "hydroxymethanesulfinate": 118.082, "ascorbate": 176.124,
         "thiol": 121.154, "dithionite": 174.096}


def factor(energy, kelvin):
    return math.exp(-energy / R * (1 / kelvin - 1 / 305.15))


def opened(chem, lost, radicals):
    """How many times as fast exchange is where so much cystine is lost and radicals have been at the rim."""
    return (1 + chem["damage_opens"] * lost / (lost + chem["damage_half"])
            + chem["lipids_open"] * (1 - math.exp(-chem["lipids_loss"] * radicals)))


def share(chem, ph, kelvin):
    pka = chem["pka_25c"] + chem["pka_enthalpy_kj_mol"] / (R * math.log(10)) * (1 / kelvin - 1 / 298.15)
    return 1 / (1 + 10 ** (pka - ph))


# g/mol, family and sodium of metasilicate, carbonate, phosphate, ammonia, ethanolamine and phosphoric acid
INGREDIENTS = ((122.063, "Si", 2), (105.988, "CO2", 2), (163.940, "P", 3), (17.031, "NH4", 0), (61.083, "EA", 0), (97.995, "P", 0))


def dissolved(chem, mix):
    """mol per litre of liquid of what is in the fresh mix, without hair: solid persulfate is not, old powder is as fresh."""
    fresh = {**mix, "activity": 1.0}
    peroxide, persulfate, _, _, _ = charge(chem, fresh, {"hair_water_g_g": 0.0, "mix_g_per_g": 1.0})
    gram = 1000 / (mix["developer_parts"] + mix["water_parts"])
    powder = gram * mix["powder_parts"]
    ammonium, sodium = powder * mix["ammonium_persulfate"] / 228.2, powder * mix["sodium_persulfate"] / 238.1
    soda = powder * mix["percarbonate"] / 157.01
    of = {"H2O2": peroxide, "S2O8": persulfate, "K": 2 * (persulfate - ammonium - sodium), "Na": 2 * sodium + 2 * soda,
          "NH4": 2 * ammonium, "CO2": soda}
    for part, shares in mix["holds"].items():
        for share, (weight, family, na) in zip(shares, INGREDIENTS):
            mol = gram * mix[part + "_parts"] * share / weight
            of[family] = of.get(family, 0.0) + mol
            of["Na"] += na * mol
    return of


def aged(chem, mix, fresh):
    """How the pH falls with age at 32 °C: (fall a minute, how that fades), by the midpoint rule in steps of 10 min."""
    whole = charge(chem, {**mix, "activity": 1.0}, {"hair_water_g_g": 0.0, "mix_g_per_g": 1.0})
    total, solid = whole[1] + whole[2], whole[2]

    def at(t, used):  # used up by peroxide, by hydroxide, by itself; ammonia gone
        h0 = fresh["H2O2"]
        h = h0 / (1 + mix["loss_l_mol_min"] * h0 * t) if mix["loss_l_mol_min"] > 0 else h0 * math.exp(-mix["loss_per_min"] * t)
        h, gone = max(h - used[0] + used[1], 0.0), used[0] + used[1] + used[2]
        p = max(min(whole[1], total - gone), 0.0)
        of = fresh | {"H2O2": h, "S2O8": p, "K": fresh["K"] + 2 * min(gone, solid), "NH4": max(fresh["NH4"] - used[3], 0.0),
                      "HSO4": fresh.get("HSO4", 0.0) + 2 * min(gone, total)}
        ph, free = ph_pitzer.own(32.0, of, "interaction")[0], ph_pitzer.own.free_ammonia
        return ph, np.array([chem["couple_l_mol_min"] * share(chem, ph, 305.15) * h * p, chem["hydrolysis_per_min"] * 10 ** (ph - 10.3) * p,
                             chem["thermal_per_min"] * p, chem["ammonia_leaves_per_min"] * free])
    used, kept = np.zeros(4), {}
    for step in range(6):
        t = 10.0 * step
        kept[t], rate = at(t, used)
        used = used + 10.0 * at(t + 5.0, used + 5.0 * rate)[1]
    kept[60.0] = at(60.0, used)[0]
    first, second = kept[0.0] - kept[30.0], kept[0.0] - kept[60.0]
    later = max(1.05, min(second / first, 2.0)) if first else 2.0
    fades = (2 - later) / (later - 1) / 60
    return first / 30 * (1 + 30 * fades), fades


def settle(scene):
    """The pH of each mix, found anew where it is computed, and how it falls with warmth and age."""
    for mix in scene["mixes"]:
        mix["ph_kj_mol"], mix["fall"], mix["fades"] = 41.0, 0.0, 0.0  # of a typed one
        if mix["ph_computed"]:
            of, told = dissolved(scene["chemistry"], mix), mix["ph"]
            mix["ph"], warm = (ph_pitzer.own(celsius, of, "interaction")[0] for celsius in (25.0, 35.0))
            mix["ph_kj_mol"] = R * math.log(10) * (mix["ph"] - warm) / (1 / 298.15 - 1 / 308.15)
            mix["fall"], mix["fades"] = aged(scene["chemistry"], mix, of)
            if not abs(told - mix["ph"]) < 1e-8:
                sys.exit(f"a mix is told as of pH {told:.12f}; its charges balance at {mix['ph']:.12f}")
    return scene


def charge(chem, mix, step):
    """(H0, P0, U0, Psat, mL of liquid per gram of hair)"""
    s, d, w = mix["powder_parts"], mix["developer_parts"], mix["water_parts"]
    c = step["hair_water_g_g"] * (d + w + s) / step["mix_g_per_g"]
    grams = 1000 * s * mix["activity"] / (d + w + c)
    potassium = grams * mix["potassium_persulfate"] / 270.3
    common = grams * (mix["ammonium_persulfate"] / 228.2 + mix["sodium_persulfate"] / 238.1)
    roots = np.roots([4, 4 * common, 0, -4 * chem["potassium_solubility_mol_l"] ** 3])
    x = max(r.real for r in roots if abs(r.imag) < 1e-9 * (1 + abs(r)))
    for _ in range(5):  # polish the root by Newton
        x -= (4 * x * x * (common + x) - 4 * chem["potassium_solubility_mol_l"] ** 3) / (8 * x * common + 12 * x * x)
    dissolved = min(x, potassium)
    peroxide = mix["developer_pct"] * 10 / 34.0147 * d / (d + w + c) + 1.5 * grams * mix["percarbonate"] / 157.01
    return (peroxide, common + dissolved, potassium - dissolved, common + x,
            (d + w + c) * step["mix_g_per_g"] / (s + d + w))


class Arm:
    def __init__(self, scene, arm, zone, nominal=None):
        """nominal: the scene by which mixes warm themselves, if another (a member's draws do not count there)"""
        self.scene, self.arm, self.chem, self.nominal = scene, arm, scene["chemistry"], nominal or scene
        self.hair = scene["hairs"][zone["hair"]]
        self.dyes = [] if arm["undyed"] else [scene["dyes"][i] for i in zone["dyes"]]
        self.first = self.last = self.mixed = arm["contact_min"]
        self.mix, self.saturation, self.phi = None, 0.0, 0.0
        self.kind, self.covered, self.shampooing, self.bowl = "rest", True, False, False
        agents = [scene["mixes"][int(s["mix"])]["reductant"] for s in arm["steps"] if s["kind"] == "apply"]
        self.agent = next((name for name in agents if name), "")
        self.step, self.most = None, 0.0
        self.warms = self.settle_warmth()

    def settle_warmth(self):
        """Whether a mix warms itself by a fifth of a kelvin anywhere, were the last left on."""
        steps, scene = self.arm["steps"], self.nominal
        last = max([i for i, step in enumerate(steps) if step["kind"] == "apply"], default=-1)
        if not scene["chemistry"]["mix_heat_j_g_k"] > 0 or last < 0:
            return False
        on = {**self.arm, "steps": [dict(step) for step in steps[:last + 1]], "undyed": True}
        on["steps"][last]["duration_min"] = scene["until_min"]
        alone = LeftOn(scene, on, scene["zones"][0])
        alone.solve([scene["until_min"]], {"method": "DOP853", "rtol": 1e-9, "atol": 1e-12})
        return alone.most >= WARMS_FROM

    def warmth(self, y):
        lies = self.bowl or (self.kind == "apply" and not self.scene["points"])
        return y[WARM] if self.warms and lies else 0.0

    def kelvin(self, scene, t):
        """Of the place alone."""
        chem = scene["chemistry"]
        if self.bowl:
            return chem["bowl_c"] + 273.15
        if scene["points"]:
            celsius = np.interp(t, [p[0] for p in scene["points"]], [p[1] for p in scene["points"]])
        elif scene["place"] == "bench":
            celsius = scene["room_c"]
        else:
            celsius = chem["head_c"]
            if scene["place"] == "wrapped":
                celsius += chem["wrapped_rise_k"] * (1 - math.exp(-(t - self.last) / chem["wrapped_time_min"]))
        return celsius + scene["shift_k"] + 273.15

    def ph(self, mix, t, kelvin):
        age = t if self.bowl else t - self.mixed
        return (mix["ph"] + mix["ph_kj_mol"] / (R * math.log(10)) * (1 / kelvin - 1 / 298.15)
                - mix["fall"] * age / (1 + mix["fades"] * age))

    def rate(self, rates, channels, kelvin):
        total = 0.0
        for j in range(3):
            energy = rates["ea"][j] if rates["own"][j] else self.chem["channel_activation_kj_mol"][j]
            total += rates["k"][j] * factor(energy, kelvin) * channels[j]
        return total

    def slopes(self, t, y):
        chem, mix, kelvin = self.chem, self.mix, self.kelvin(self.scene, t) + self.warmth(y)
        dy = np.zeros_like(y)
        if self.warms:
            self.warmth_slopes(t, y, dy)
        resting = self.kind == "rest"
        ph = chem["rest_ph"] if mix is None else self.ph(mix, t, kelvin)
        fibre_ph = chem["rest_ph"] if resting or mix is None else ph - chem["fibre_ph_drop"]
        u, v = share(chem, ph, kelvin) * y[H], share(chem, fibre_ph, kelvin) * y[FH]
        couple = chem["couple_l_mol_min"] * factor(chem["couple_activation_kj_mol"], kelvin)
        flow_h = flow_p = 0.0
        lost = 1 - y[C]
        if not resting and not self.bowl:
            g = (self.hair["porosity"] * 60 * 5.783 / (chem["fibre_radius_um"] * 1e-4) ** 2
                 * factor(chem["diffusion_activation_kj_mol"], kelvin)
                 * (1 - chem["swelling_deficit"] * math.exp(-(t - self.first) / chem["swelling_time_min"]))
                 * opened(chem, lost, y[X1 + 2]) * y[W])
            flow_h = g * chem["peroxide_diffusion_cm2_s"] * (y[H] - y[FH])
            flow_p = g * chem["persulfate_diffusion_cm2_s"] * (chem["persulfate_partition"] * y[P] - y[FP])
        if not resting and mix is not None:
            loss = mix["loss_l_mol_min"] * y[H] ** 2 if mix["loss_l_mol_min"] > 0 else mix["loss_per_min"] * y[H]
            hydrolysis = (chem["hydrolysis_per_min"] * factor(chem["hydrolysis_activation_kj_mol"], kelvin)
                          * 10 ** (ph - 10.3) * y[P])
            thermal = chem["thermal_per_min"] * factor(chem["thermal_activation_kj_mol"], kelvin) * y[P]
            solid = max(y[U], 0.0)
            dissolving = (chem["dissolve_per_min"] * max(self.saturation - y[P], 0.0)
                          * solid / (solid + chem["dissolve_half_mol_l"]))
            away = chem["rinse_per_min"] if self.kind in ("rinse", "shampoo") else 0.0
            dy[H] = (-loss * factor(chem["loss_activation_kj_mol"], kelvin) - couple * u * y[P] + hydrolysis
                     - self.phi * flow_h - away * y[H])
            dy[P] = -couple * u * y[P] - hydrolysis - thermal + dissolving - self.phi * flow_p - away * y[P]
            dy[U] = -dissolving - away * y[U]
        if self.agent:
            self.reduce_bath(dy, y, t, kelvin, resting)
        if self.bowl:
            return dy
        f = y[W] if resting else 1.0
        us, vs = u / (1 + u / chem["saturation_mol_l"]), v / (1 + v / chem["saturation_mol_l"])
        rim = [0.0] * 3 if resting else [us * y[W], y[P] * y[W], us * y[P] * y[W]]
        core = [f * vs, f * y[FP], f * vs * y[FP]]
        attack = self.rate(chem["cystine"], core, kelvin) * y[C] / (1 + lost / chem["cystine_layer"])
        spent = chem["oxidant_per_cystine"] * chem["cystine_mol_l"] * attack
        part = y[FH] / (y[FH] + y[FP]) if y[FH] + y[FP] > 0 else 0.5
        fibre_loss = chem["fibre_loss_per_min"] * factor(chem["loss_activation_kj_mol"], kelvin) * y[FH]
        dy[FH] = flow_h - f * (fibre_loss + couple * v * y[FP]) - part * spent
        dy[FP] = flow_p - f * couple * v * y[FP] - (1 - part) * spent
        dy[C] = -attack
        for j in range(3):
            e = factor(chem["channel_activation_kj_mol"][j], kelvin)
            dy[X1 + j], dy[Y1 + j] = e * rim[j], e * core[j]
        if resting:
            dy[W] = -chem["rest_dry_per_min"] * y[W]
        elif self.kind == "apply" and not self.covered:
            dy[W] = -chem["dry_per_min"] * y[W]
        dy[LEACH] = {"apply": y[W], "rest": 0.0}.get(self.kind, chem["rinse_leach"])
        dy[SHAMPOOS] = 1.0 if self.shampooing else 0.0
        self.pigment_slopes(y, dy, rim, core, kelvin)
        if self.agent:
            self.reduce_hair(dy, y, f, resting, kelvin)
        return dy

    def warmth_slopes(self, t, y, dy):
        """Mean hair at the same temperature, and the heat of each of its reactions."""
        scene, chem, at = self.nominal, self.nominal["chemistry"], len(y) - MEAN
        mix = None if self.step is None else scene["mixes"][int(self.step["mix"])]
        kelvin = self.kelvin(scene, t) + self.warmth(y)
        m = y[at:at + 8]
        eh, ep = chem["peroxide_heat_kj_mol"], chem["persulfate_heat_kj_mol"]
        resting, on_hair = self.kind == "rest", self.kind == "apply" and not self.bowl
        zones = [scene["hairs"][zone["hair"]] for zone in scene["zones"]]
        ph = chem["rest_ph"] if mix is None else self.ph(mix, t, kelvin)
        fibre_ph = chem["rest_ph"] if resting or mix is None else ph - chem["fibre_ph_drop"]
        couple = chem["couple_l_mol_min"] * factor(chem["couple_activation_kj_mol"], kelvin)
        u, v = share(chem, ph, kelvin) * m[H], share(chem, fibre_ph, kelvin) * m[FH]
        flow_h = flow_p = bath = fibre = 0.0
        d = np.zeros(8)
        lost = 1 - m[C]
        if not resting and not self.bowl:
            g = (np.mean([hair["porosity"] for hair in zones]) * 60 * 5.783 / (chem["fibre_radius_um"] * 1e-4) ** 2
                 * factor(chem["diffusion_activation_kj_mol"], kelvin)
                 * (1 - chem["swelling_deficit"] * math.exp(-(t - self.first) / chem["swelling_time_min"]))
                 * opened(chem, lost, m[RADICALS]) * m[W])
            flow_h = g * chem["peroxide_diffusion_cm2_s"] * (m[H] - m[FH])
            flow_p = g * chem["persulfate_diffusion_cm2_s"] * (chem["persulfate_partition"] * m[P] - m[FP])
        phi = 0.0 if self.bowl or mix is None else chem["fibre_water_ml_g"] / charge(chem, mix, self.step)[4]
        if not resting and mix is not None:
            loss = mix["loss_l_mol_min"] * m[H] ** 2 if mix["loss_l_mol_min"] > 0 else mix["loss_per_min"] * m[H]
            loss *= factor(chem["loss_activation_kj_mol"], kelvin)
            split = (chem["hydrolysis_per_min"] * factor(chem["hydrolysis_activation_kj_mol"], kelvin)
                     * 10 ** (ph - 10.3) * m[P])
            thermal = chem["thermal_per_min"] * factor(chem["thermal_activation_kj_mol"], kelvin) * m[P]
            solid = max(m[U], 0.0)
            dissolving = (chem["dissolve_per_min"] * max(self.saturation - m[P], 0.0)
                          * solid / (solid + chem["dissolve_half_mol_l"]))
            away = chem["rinse_per_min"] if self.kind in ("rinse", "shampoo") else 0.0
            both = couple * u * m[P]
            d[H] = -loss - both + split - phi * flow_h - away * m[H]
            d[P] = -both - split - thermal + dissolving - phi * flow_p - away * m[P]
            d[U] = -dissolving - away * m[U]
            bath = eh * loss + (eh + ep) * both + (ep - eh) * split + ep * thermal - chem["dissolving_heat_kj_mol"] * dissolving
        if not self.bowl:
            f = m[W] if resting else 1.0
            vs = v / (1 + v / chem["saturation_mol_l"])
            attack = self.rate(chem["cystine"], [f * vs, f * m[FP], f * vs * m[FP]], kelvin) * m[C] / (1 + lost / chem["cystine_layer"])
            spent = chem["oxidant_per_cystine"] * chem["cystine_mol_l"] * attack
            part = m[FH] / (m[FH] + m[FP]) if m[FH] + m[FP] > 0 else 0.5
            gone = f * chem["fibre_loss_per_min"] * factor(chem["loss_activation_kj_mol"], kelvin) * m[FH]
            both = f * couple * v * m[FP]
            d[FH] = flow_h - gone - both - part * spent
            d[FP] = flow_p - both - (1 - part) * spent
            d[C] = -attack
            if not resting:
                d[RADICALS] = factor(chem["channel_activation_kj_mol"][2], kelvin) * u / (1 + u / chem["saturation_mol_l"]) * m[P] * m[W]
            fibre = (eh * gone + (eh + ep) * both
                     + spent * (part * eh + (1 - part) * ep + chem["sulfur_heat_kj_mol"]))
            if resting:
                d[W] = -chem["rest_dry_per_min"] * m[W]
            elif on_hair and not self.covered:
                d[W] = -chem["dry_per_min"] * m[W]
        dy[at:at + 8] = d
        if not (self.bowl or (on_hair and not scene["points"])):
            return
        capacity, liquid = self.capacity(), charge(chem, mix, self.step)[4]
        if self.bowl:
            lost_w = chem["open_loss_w_m2_k"] * 1e-4 * chem["bowl_area_cm2_g"] * self.step["mix_g_per_g"]
        else:
            capacity += chem["hair_heat_j_g_k"]
            above = chem["covered_loss_w_m2_k" if self.covered or scene["place"] == "wrapped" else "open_loss_w_m2_k"]
            below = chem["bench_loss_w_m2_k" if scene["place"] == "bench" else "head_loss_w_m2_k"]
            lost_w = (above + below) * 1e-4 * chem["layer_area_cm2_g"]
        made = liquid * bath + (0.0 if self.bowl else chem["fibre_water_ml_g"] * fibre)
        dy[WARM] = (made - 60 * lost_w * y[WARM]) / capacity
        self.most = max(self.most, abs(y[WARM]))

    def capacity(self):
        return self.step["mix_g_per_g"] * self.nominal["chemistry"]["mix_heat_j_g_k"] + self.step["hair_water_g_g"] * WATER
    def air(self):
        return 0.0 if self.kind == "apply" and self.covered and not self.bowl else 1.0

    def reduce_bath(self, dy, y, t, kelvin, resting):
        """The agent in the mix, what it and the oxidants there take of each other, and its flow into the fibre."""
        chem, agent = self.chem, self.chem["reductants"][self.agent]
        if resting or self.mix is None:
            return
        e = factor(agent["activation"], kelvin)
        flow = 0.0
        if not self.bowl:
            lost = 1 - y[C]
            flow = (self.hair["porosity"] * 60 * 5.783 / (chem["fibre_radius_um"] * 1e-4) ** 2
                    * factor(chem["diffusion_activation_kj_mol"], kelvin) * agent["diffusion"]
                    * (1 - chem["swelling_deficit"] * math.exp(-(t - self.first) / chem["swelling_time_min"]))
                    * opened(chem, lost, y[X1 + 2]) * y[W] * (y[RED] - y[FRED]))
        away = chem["rinse_per_min"] if self.kind in ("rinse", "shampoo") else 0.0
        for oxidant in (H, P):
            met = e * agent["meet"] * y[RED] * y[oxidant]
            dy[oxidant] -= agent["oxidant"] * met
            dy[RED] -= met
        dy[RED] -= e * agent["air_loss"] * self.air() * y[RED] + away * y[RED] + self.phi * flow
        dy[FRED] += flow

    def reduce_hair(self, dy, y, f, resting, kelvin):
        """The same in the fibre, cystine, and the dyes' two forms, washing of both included."""
        chem, agent = self.chem, self.chem["reductants"][self.agent]
        e, back = factor(agent["activation"], kelvin), factor(chem["return_activation_kj_mol"], kelvin)
        for oxidant in (FH, FP):
            met = f * e * agent["meet"] * y[FRED] * y[oxidant]
            dy[oxidant] -= agent["oxidant"] * met
            dy[FRED] -= met
        opened = f * e * agent["cystine"] * y[FRED] * y[C] / (1 + (1 - y[C]) / chem["cystine_layer"])
        dy[C] -= opened
        dy[FRED] -= f * e * agent["air_loss"] * self.air() * y[FRED]
        dy[FRED] -= agent["per_cystine"] * chem["cystine_mol_l"] * opened
        drive = [max(x, 0.0) * (max(x, 0.0) + 1e-4) ** (agent["order"] - 1) for x in (y[RED], y[FRED])]
        driven = [0.0 if resting else e * drive[0] * y[W], f * e * drive[1]]
        oxidants = [0.0 if resting else (y[H] + y[P]) * y[W], f * (y[FH] + y[FP])]
        at, pale = PIGMENTS + 6, PIGMENTS + 6 + PER_DYE * len(self.dyes)
        for dye in self.dyes:
            for each in (dye["shampoo_loss"], dye["loose_loss"]):
                wash = dye["leach_per_min"] * dy[LEACH] + each * dy[SHAMPOOS]
                for place in (0, 1):
                    lost = dye["reduced"][self.agent] * driven[place] * y[at]
                    came = back * (dye["air_return"] * self.air() + dye["oxidant_return"] * oxidants[place]) * y[pale]
                    dy[at] += came - lost
                    dy[pale] = dye["leuco_share"] * lost - came - wash / (1, 4)[place] * y[pale]
                    at, pale = at + 1, pale + 1


    def pigment_slopes(self, y, dy, rim, core, kelvin):
        at = PIGMENTS
        for kind in self.chem["melanin"]:
            o = self.rate(kind["rates"], core, kelvin)
            dy[at] = -o * y[at]
            dy[at + 1] = o * y[at] - kind["opened_ratio"] * o * y[at + 1]
            dy[at + 2] = kind["opened_ratio"] * o * y[at + 1] - kind["yellow_ratio"] * o * y[at + 2]
            at += 3
        for dye in self.dyes:
            for each in (dye["shampoo_loss"], dye["loose_loss"]):  # what is held, then what is held loosely
                wash = dye["leach_per_min"] * dy[LEACH] + each * dy[SHAMPOOS]
                dy[at] = -(self.rate(dye["rates"], rim, kelvin) + wash) * y[at]
                dy[at + 1] = -(self.rate(dye["rates"], core, kelvin) + wash / 4) * y[at + 1]
                at += 2

    def start(self):
        y = np.zeros(PIGMENTS + 6 + 2 * PER_DYE * len(self.dyes) + MEAN)
        y[-MEAN + W] = 1.0
        y[-MEAN + C] = np.mean([self.scene["hairs"][zone["hair"]]["cystine_intact"] for zone in self.scene["zones"]])
        y[W], y[C] = 1.0, self.hair["cystine_intact"]
        y[PIGMENTS:PIGMENTS + 6] = np.ravel(self.hair["pool"])
        for i, dye in enumerate(self.dyes):
            rim, loose = dye["rim_share"], dye["loose_share"]
            at = PIGMENTS + 6 + PER_DYE * i
            y[at:at + PER_DYE] = (1 - loose) * rim, (1 - loose) * (1 - rim), loose * rim, loose * (1 - rim)
        return y

    def open(self, step, y, options):
        """What a step does at once to bath and wetness."""
        self.kind, self.covered, self.shampooing = step["kind"], step.get("covered", True), step["kind"] == "shampoo"
        at = len(y) - MEAN
        y[WARM] = 0.0
        if self.kind == "rest":
            y[[H, P, U, RED, at + H, at + P, at + U]] = 0.0
        else:
            y[[W, at + W]] = 1.0
        if self.kind != "apply":
            return
        self.step = step
        self.mix = self.scene["mixes"][int(step["mix"])]
        self.mixed = self.last - step["mix_age_min"]
        peroxide, persulfate, solid, self.saturation, liquid = charge(self.chem, self.mix, step)
        self.phi = self.chem["fibre_water_ml_g"] / liquid
        y[[H, P, U]] = y[[at + H, at + P, at + U]] = peroxide, persulfate, solid
        y[RED] = 0.0
        if self.mix["reductant"]:  # grams in a litre of the mix and of what the hair's water makes of it
            s, d, w = self.mix["powder_parts"], self.mix["developer_parts"], self.mix["water_parts"]
            whole = (d + w) + step["hair_water_g_g"] * (s + d + w) / step["mix_g_per_g"]
            y[RED] = 1000 * self.mix["reductant_share"] * (s + d + w) / whole / MOLAR[self.mix["reductant"]]
        if step["mix_age_min"] > 0:
            self.bowl, phi, self.phi = True, self.phi, 0.0
            bowl = solve_ivp(self.slopes, (0, step["mix_age_min"]), y, **options)
            self.bowl, self.phi = False, phi
            bath = [H, P, U, RED, at + H, at + P, at + U]
            y[bath] = bowl.y[bath, -1]
            y[WARM] = bowl.y[WARM, -1] * self.capacity() / (self.capacity() + self.nominal["chemistry"]["hair_heat_j_g_k"])

    def solve(self, times, options):
        """Rows of states at rising times; counts right-hand sides in self.calls."""
        y, t, self.calls = self.start(), self.first, 0
        rows = [y.copy() for x in times if x <= t or not self.arm["steps"]]
        end = times[-1]
        steps = list(self.arm["steps"])
        if steps:
            steps.append({"kind": "rest", "duration_min": math.inf})
        for step in steps:
            if t >= end:
                break
            stop = min(t + step["duration_min"], end)
            self.last = t if step["kind"] == "apply" else self.last
            self.open(step, y, options)
            corners = [p[0] for p in self.scene["points"] if t < p[0] < stop] + [stop]
            for corner in corners:
                wanted = [x for x in times if t < x <= corner]
                solution = solve_ivp(self.slopes, (t, corner), y, t_eval=sorted(set(wanted + [corner])), **options)
                if not solution.success:
                    raise RuntimeError(solution.message)
                self.calls += solution.nfev
                rows += [solution.y[:, i].copy() for i, x in enumerate(solution.t) if x in set(wanted)]
                y, t = solution.y[:, -1].copy(), corner
        return np.array(rows)


class LeftOn(Arm):
    def settle_warmth(self):
        return True


def dye_left(y, i):
    """All that is left of dye i, at the rim and in the core, held or held loosely."""
    at = PIGMENTS + 6 + PER_DYE * i
    return sum(y[at:at + PER_DYE])


def values(arm, rows):
    """As scene_numbers prints them: cystine lost, six pools, dyes."""
    out = [1 - rows[:, C] / arm.hair["cystine_intact"]]
    out += [rows[:, PIGMENTS + i] for i in range(6)]
    out += [dye_left(rows.T, i) for i in range(len(arm.dyes))]
    if arm.scene["reduces"]:
        out += [dye_left(rows.T, len(arm.dyes) + i) for i in range(len(arm.dyes))]
    return np.array(out).T


def numbers(program, models, path, step):
    out = subprocess.run([program, models, path, str(step)], check=True, capture_output=True, text=True).stdout
    return settle(json.loads(out))


def largest_error(scene, options):
    worst = (0.0, "")
    for a, arm in enumerate(scene["arms"]):
        for z, zone in enumerate(scene["zones"]):
            if not arm["predicted"]:
                continue
            model = Arm(scene, arm, zone)
            mine = values(model, model.solve(scene["times"], options))
            theirs = np.array(scene["results"][a][z])
            scale = np.ones(mine.shape[1])
            pools = np.array(model.hair["pool"]).sum(axis=1)
            scale[1:4], scale[4:7] = max(pools[0], 1e-30), max(pools[1], 1e-30)
            error = np.abs(mine - theirs) / scale
            if not error.max() <= worst[0]:
                worst = (error.max(), f"{arm['name']}, zone {zone['name']}")
    return worst


def main():
    program, models, *paths = sys.argv[1:]
    options = {"method": "DOP853", "rtol": 1e-10, "atol": 1e-13}
    failed = False
    for path in paths:
        scene = numbers(program, models, path, 60 if path.endswith("came-back.yaml") else 5)
        error, where = largest_error(scene, options)
        print(f"{path.split('/')[-1]}: largest error {error:.1e} of the initial amount ({where})")
        failed = failed or not error < ALLOWED
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
