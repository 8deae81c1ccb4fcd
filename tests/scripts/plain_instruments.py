"""The sheet Instruments once more, in plain Python: flask and plummet after OIV-MA-AS312-01, the checks of alcoholometer and
thermometer, a wash three ways, each with its uncertainty to first order (JCGM 100:2008, clause 5) by derivatives, and the
same measurements drawn at random (JCGM 101:2008). OIML R 22 and ICUMSA SPS-4 from tests/data, roots by the rule of secants.

    plain_instruments.py > tests/data/instruments_expected.csv
"""
import csv
import datetime
import functools
import math
import pathlib
import random
import statistics
import tomllib

import plain_forecast as plain

DATA = pathlib.Path(__file__).resolve().parents[1] / "data"
EXPECTED = DATA / "instruments_expected.csv"
BOXES = pathlib.Path(__file__).resolve().parents[2] / "sample-workbooks" / "data" / "instruments.toml"
AIR = 1.2                       # kg/m3
ALCOHOLOMETER = 25e-6           # per degC
# What the sheet takes for granted (its usual values, and instruments_*.py)
GLASS, DEGREE, READ_TO, REFERENCE, GRAVITY, BOILING, VOLUME = 10e-6, 0.3, 0.1, 0.1, 0.001, 0.1, 1
FORMULA, METHOD, EQUILIBRIUM, ICE, STEAM = 0.05, 0.15, 0.25, 0.05, 0.1


def _table(name):
    with open(DATA / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@functools.cache
def _r22():
    return [(row["name"], int(row["i"] or 0), int(row["k"] or 0), float(row["value"])) for row in _table("oiml_r22_coefficients.csv")]


@functools.cache
def _sucrose():
    return [(int(row["t_power_i"]), int(row["w_power_k"]), float(row["coefficient_kg_m3"]))
            for row in _table("sucrose_icumsa_density_polynomial.csv")]


def mixture(p, t):
    """kg/m3 of ethanol and water, p the mass fraction, t in degC."""
    total = 0.0
    for name, i, k, value in _r22():
        if name == "A":
            total += value * p ** (k - 1)
        elif name == "B":
            total += value * (t - 20) ** k
        else:
            total += value * p**k * (t - 20) ** i
    return total


def sucrose(w, t):
    """kg/m3 by which a sugar solution is heavier than water, w the mass fraction."""
    return sum(c * ((t - 20) / 100) ** i * w**k for i, k, c in _sucrose())


def secant(function, wanted, one, two):
    a, b = function(one) - wanted, function(two) - wanted
    for _ in range(60):
        if b == a or abs(two - one) < 1e-14:
            break
        one, two, a = two, two - b * (two - one) / (b - a), b
        b = function(two) - wanted
    return two


def strength(p):
    return 100 * p * mixture(p, 20) / mixture(1, 20)


def mass_fraction(s):
    return secant(strength, s, s / 125, s / 120 + 1e-4)


def density(s, t=20):
    return mixture(mass_fraction(s), t)


def strength_of(rho, t=20):
    guess = min(0.95, max(0.0, (998 - rho) / 220))
    return strength(secant(lambda p: mixture(p, t), rho, guess, guess + 0.01))


def reading_of(s, t):
    """What the scale of a 20 degC alcoholometer shows."""
    return strength_of(density(s, t) * (1 + ALCOHOLOMETER * (t - 20)))


def true_strength(reading, t):
    return strength_of(density(reading) / (1 + ALCOHOLOMETER * (t - 20)), t)


def pycnometer(empty, water, spirit, t_water, t_spirit, glass=GLASS):
    return (spirit - empty) / (water - empty) * (mixture(0, t_water) - AIR) / (1 + glass * (t_spirit - t_water)) + AIR


def plummet(water, spirit, t_water, t_spirit, glass=GLASS):
    return spirit / water * (mixture(0, t_water) - AIR) / (1 + glass * (t_spirit - t_water)) + AIR


def wash(original, final, t_original=20, t_final=20):
    def extract(gravity, t):
        heavier = gravity * mixture(0, 20) / (1 + ALCOHOLOMETER * (t - 20)) - mixture(0, t)
        return secant(lambda w: sucrose(w, t), heavier, 0.0, 0.1)

    before, apparent = 100 * extract(original, t_original), 100 * extract(final, t_final)
    by_mass = (before - (0.1808 * before + 0.8192 * apparent)) / (2.0665 - 0.010665 * before)
    return by_mass * (mixture(0, 20) + sucrose(apparent / 100, 20)) / mixture(1, 20)


def sample(volume, made_up, reading, t, t_volume):
    """The sample expands as water with that alcohol does."""
    distillate, found = true_strength(reading, t), 0.0
    for _ in range(30):
        p, before = mass_fraction(found) if found else 0.0, found
        found = distillate * made_up / (volume * mixture(p, t_volume) / mixture(p, 20))
        if abs(found - before) < 1e-11:
            break
    return found


def boiling(water, boils, hpa):
    """The strength that boils as much below water as the thermometer showed."""
    point = plain.boiling(0, hpa)[0] - (water - boils)
    return plain.strength_of(secant(lambda x: plain.boiling(x, hpa)[0], point, 0.01, 0.02))


def slope(function, step):
    return (function(step) - function(-step)) / (2 * step)


def expanded(parts):
    return 2 * math.sqrt(sum(part * part for part in parts))


# --- each measurement as (function of its errors, standard uncertainties of these) --------------------------------
def flask_model(box):
    step, fill = box["scale_step"] / math.sqrt(12), box["flask_fill"] * math.sqrt(2 / 3)

    def model(empty=0, water=0, spirit=0, filling=0, degree=0, formula=0):
        warm = box["flask_spirit_temperature"] + degree
        e, w = box["flask_empty"] + empty, box["flask_water"] + water
        rho = pycnometer(e, w, box["flask_spirit"] + spirit, box["flask_water_temperature"] + degree, warm)
        return strength_of(rho * (1 + filling / (w - e)) + formula, warm)

    degree = box.get("degree_error", DEGREE) / math.sqrt(3)
    return model, {"empty": step, "water": step, "spirit": step, "filling": fill, "degree": degree, "formula": FORMULA / 2}


def plummet_model(box):
    step = box["scale_step"] / math.sqrt(12)

    def model(water=0, spirit=0, degree=0, formula=0):
        warm = box["plummet_spirit_temperature"] + degree
        return strength_of(plummet(box["plummet_water"] + water, box["plummet_spirit"] + spirit,
                                   box["plummet_water_temperature"] + degree, warm) + formula, warm)

    return model, {"water": step, "spirit": step, "degree": box.get("degree_error", DEGREE) / math.sqrt(3), "formula": FORMULA / 2}


def gravities_model(box):
    def model(original=0, final=0, method=0):
        return wash(box["original"] + original, box["final"] + final, box["original_temperature"], box["final_temperature"]) + method

    gravity = box.get("gravity_error", GRAVITY) / math.sqrt(3)
    return model, {"original": gravity, "final": gravity, "method": METHOD}


def sample_model(box, correction, correction_error):
    def model(volumes=0, reading=0, degree=0, formula=0):
        warm, shown = box["reading_temperature"] + degree, box["sample_reading"] + correction + reading
        moved = formula * slope(lambda d: strength_of(density(true_strength(shown, warm)) + d), 0.01) * box["made_up"] / box["sample"]
        return sample(box["sample"], box["made_up"], shown, warm, box["sample_temperature"]) * (1 + volumes) + moved

    read = math.sqrt((correction_error / 2) ** 2 + box.get("alcoholometer_read_to", READ_TO) ** 2 / 3)
    return model, {"volumes": box.get("sample_error", VOLUME) / 100 * math.sqrt(2 / 3), "reading": read,
                   "degree": box.get("degree_error", DEGREE) / math.sqrt(3), "formula": FORMULA / 2}


def boiling_model(box):
    def model(point=0):
        return boiling(box["water_boils"] + point, box["wash_boils"], box["boiling_pressure"])

    read = box.get("boiling_error", BOILING)
    return model, {"point": math.sqrt(2 * read * read / 3 + EQUILIBRIUM**2)}


def first_order(model, parts):
    return expanded(slope(lambda step, name=name: model(**{name: step}), u / 100) * u for name, u in parts.items())


# Errors of which a half-width is known; of the others only a standard uncertainty
RECTANGULAR = {"empty", "water", "spirit", "degree", "original", "final"}


def drawn(model, parts, count, seed):
    """Standard deviation of the strength, every error drawn at random."""
    rng = random.Random(seed)

    def error(name, u):
        return rng.uniform(-1, 1) * math.sqrt(3) * u if name in RECTANGULAR else rng.gauss(0, u)

    return statistics.pstdev(model(**{name: error(name, u) for name, u in parts.items()}) for _ in range(count))


# --- checks ------------------------------------------------------------------------------------------------------
def alcoholometer_check(row, box):
    true = row.get("true", 0.0)
    should = reading_of(true, row["degrees"])
    warmer = (reading_of(true, row["degrees"] + 0.1) - should) / 0.1
    square = (row.get("true_error", 0) / 2) ** 2 + (
        box.get("alcoholometer_read_to", READ_TO) ** 2 + (box.get("degree_error", DEGREE) * warmer) ** 2) / 3
    return should, should - row["reading"], square


def thermometer_check(row, box):
    kind = row["against"]
    should = {"ice": lambda: 0.0, "boiling water": lambda: plain.boiling(0, row.get("pressure", 1013.25))[0] - 273.15,
              "another": lambda: row["true"]}[kind]()
    reference = {"ice": ICE, "boiling water": STEAM, "another": box.get("reference_error", REFERENCE)}[kind]
    return should, should - row["shows"], (box.get("thermometer_read_to", READ_TO) ** 2 + reference**2) / 3


def line(points, at):
    """Least squares."""
    x, y = [p[0] for p in points], [p[1] for p in points]
    mx, my = statistics.fmean(x), statistics.fmean(y)
    return my + sum((a - mx) * (b - my) for a, b in zip(x, y)) / sum((a - mx) ** 2 for a in x) * (at - mx)


def expected():
    """(name, row of a check or 0, value)"""
    box = tomllib.loads(BOXES.read_text(encoding="utf-8"))
    flask = [box[f"flask_{key}"] for key in ("empty", "water", "spirit", "water_temperature", "spirit_temperature")]
    hung = [box[f"plummet_{key}"] for key in ("water", "spirit", "water_temperature", "spirit_temperature")]
    yield "result_flask_density", 0, pycnometer(*flask)
    yield "result_plummet_density", 0, plummet(*hung)
    for name, model in (("flask", flask_model(box)), ("plummet", plummet_model(box))):
        yield f"result_{name}_strength", 0, model[0]()
        yield f"result_{name}_uncertainty", 0, first_order(*model)
    squares, off = [], []
    for i, row in enumerate(box["alcoholometer_checks"], 1):
        should, correction, square = alcoholometer_check(row, box)
        yield "check_alcoholometer_should", i, should
        yield "check_alcoholometer_correction", i, correction
        yield "check_alcoholometer_error", i, 2 * math.sqrt(square)
        squares.append(square)
        off.append(correction)
    mean = statistics.fmean(off)
    error = max(2 * math.sqrt(statistics.fmean(squares)), max(abs(c - mean) for c in off))
    yield "result_alcoholometer_correction", 0, mean
    yield "result_alcoholometer_uncertainty", 0, error
    points, squares = [], []
    for i, row in enumerate(box["thermometer_checks"], 1):
        should, correction, square = thermometer_check(row, box)
        yield "check_thermometer_should", i, should
        yield "check_thermometer_correction", i, correction
        points.append((should, correction))
        squares.append(square)
    yield "result_thermometer_correction", 0, line(points, 20)
    yield "result_thermometer_uncertainty", 0, max(2 * math.sqrt(statistics.fmean(squares)), max(abs(c - line(points, x)) for x, c in points))
    for of in ("alcoholometer", "thermometer"):
        day = max(row["date"] for row in box[f"{of}_checks"])
        yield f"result_{of}_latest", 0, (day - datetime.date(1899, 12, 30)).days
    for name, model in (("gravities", gravities_model(box)), ("sample", sample_model(box, mean, error)), ("boiling", boiling_model(box))):
        yield f"result_{name}_strength", 0, model[0]()
        yield f"result_{name}_uncertainty", 0, first_order(*model)


if __name__ == "__main__":
    print("what,row,value")
    for what, row, value in expected():
        print(f"{what},{row},{value:.9g}")
