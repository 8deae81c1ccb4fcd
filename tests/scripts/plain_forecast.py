"""The forecast's functions once more, in another language and by other methods: bisection for every
root, Runge-Kutta steps of Rayleigh's equation, Simpson's rule for heat. Slow and simple.

Read by test_forecast_examples.py, which holds the catalogue's examples against it. Constants and
sources: tests/data/README.md.
"""
import csv
import math
import pathlib

DATA = pathlib.Path(__file__).resolve().parent.parent / "data"
ETHANOL, WATER = 46.068, 18.015  # g/mol, CRC Handbook
STANDARD = 1013.25


def rows(name):
    with open(DATA / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def constants(name, row_filter, columns):
    (row,) = [row for row in rows(name) if row_filter(row)]
    return [float(row[column]) for column in columns]


def bisect(f, low, high):
    """Root of f, which is positive at `low` and negative at `high`, or the other way round."""
    falling = f(low) > 0
    for _ in range(70):
        middle = 0.5 * (low + high)
        if (f(middle) > 0) == falling:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


# --- OIML R 22 at 20 degC: only A_k remain ---
R22 = [float(row["value"]) for row in rows("oiml_r22_coefficients.csv") if row["name"] == "A"]


def density(p):
    return sum(a * p**k for k, a in enumerate(R22))


def pct_vol(p):
    return 100 * p * density(p) / density(1)


def mole_fraction(strength):
    if strength == 0:
        return 0.0
    p = bisect(lambda q: pct_vol(q) - strength, 0, 1)
    return p / ETHANOL / (p / ETHANOL + (1 - p) / WATER)


def mass_fraction(x):
    return x * ETHANOL / (x * ETHANOL + (1 - x) * WATER)


def strength_of(x):
    return pct_vol(mass_fraction(x))


# --- Equilibrium: van Laar, DIPPR vapour pressures, ideal vapour ---
VAN_LAAR = {row["parameter"]: float(row["value"]) for row in rows("vle_model_parameters.csv")
            if row["set"] == "van Laar 1.6798/0.9227"}
PRESSURE = {row["substance"]: [float(row[f"C{k}"]) for k in range(1, 6)]
            for row in rows("vapour_pressure_dippr.csv")}


def vapour_pressure(substance, t):
    c1, c2, c3, c4, c5 = PRESSURE[substance]
    return math.exp(c1 + c2 / t + c3 * math.log(t) + c4 * t**c5)


def activities(x):
    a, b = VAN_LAAR["A12"], VAN_LAAR["A21"]
    total = a * x + b * (1 - x)
    return (math.exp(a * (b * (1 - x) / total) ** 2), math.exp(b * (a * x / total) ** 2))


def boiling(x, hpa):
    """Boiling point in K and the vapour's mole fraction, by Newton's rule held in a bracket."""
    ethanol, water = activities(x)

    def excess(t):
        return (x * ethanol * vapour_pressure("ethanol", t)
                + (1 - x) * water * vapour_pressure("water", t) - 100 * hpa)

    low, high, t = 320.0, 400.0, 360.0
    for _ in range(100):
        value = excess(t)
        low, high = (low, t) if value > 0 else (t, high)
        step = -value * 2e-4 / (excess(t + 1e-4) - excess(t - 1e-4))
        if abs(step) < 1e-11:
            break
        t = t + step if low < t + step < high else 0.5 * (low + high)
    return t, x * ethanol * vapour_pressure("ethanol", t) / (100 * hpa)


def vapour(x, stages, hpa):
    for _ in range(int(stages)):
        x = boiling(x, hpa)[1]
    part = stages - int(stages)
    return x + part * (boiling(x, hpa)[1] - x) if part else x


def liquid_at(celsius, hpa):
    return bisect(lambda x: boiling(x, hpa)[0] - 273.15 - celsius, 0, 0.9)


def liquid_under(y, hpa):
    return bisect(lambda x: boiling(x, hpa)[1] - y, 0, y)


# --- A run: d x = (y - x) d ln n ---
class Run:
    STEP = 0.002  # of ln n; Runge-Kutta's error is then below 1e-8

    def __init__(self, volume, strength, stages=1.0, hpa=STANDARD):
        self.stages, self.hpa = stages, hpa
        self.x0 = self.x = mole_fraction(strength)
        self.n0 = volume * density(mass_fraction(self.x0)) / (
            self.x0 * ETHANOL + (1 - self.x0) * WATER)
        self.boiled = 0.0  # ln(n0/n)

    def slope(self, x):
        return x - vapour(x, self.stages, self.hpa)

    def go(self, d):
        k1 = self.slope(self.x)
        k2 = self.slope(self.x + d / 2 * k1)
        k3 = self.slope(self.x + d / 2 * k2)
        k4 = self.slope(self.x + d * k3)
        self.x += d / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
        self.boiled += d

    def until(self, f):
        """Goes on to where f, positive now, is 0."""
        while True:
            before = self.x, self.boiled
            self.go(self.STEP)
            if f() <= 0:
                break

        def after(d):
            self.x, self.boiled = before
            self.go(d)
            return f()

        after(bisect(after, 1e-12, self.STEP))
        return self

    def to_strength(self, strength):
        return self if self.strength() <= strength else self.until(
            lambda: self.strength() - strength)

    def to_volume(self, volume):
        return self if volume == 0 else self.until(lambda: volume - self.collected())

    def left(self):
        return self.n0 * math.exp(-self.boiled)

    def grams(self):
        """Ethanol and water collected."""
        return (ETHANOL * (self.n0 * self.x0 - self.left() * self.x),
                WATER * (self.n0 * (1 - self.x0) - self.left() * (1 - self.x)))

    def strength(self):
        return strength_of(vapour(self.x, self.stages, self.hpa))

    def collected(self):
        ethanol, water = self.grams()
        return (ethanol + water) / density(ethanol / (ethanol + water)) if self.boiled else 0.0

    def mean(self):
        ethanol, water = self.grams()
        return pct_vol(ethanol / (ethanol + water)) if self.boiled else self.strength()

    def alcohol(self):
        return self.grams()[0] / density(1)

    def row(self):
        return [self.collected(), self.strength(), self.mean(), self.alcohol(),
                strength_of(self.x), boiling(self.x, self.hpa)[0] - 273.15]


# --- Heat ---
SUBSTANCES = ("ethanol", "water")
CAPACITY = {s: constants("thermal_coefficients.csv",
                         lambda r, s=s: r["property"] == "liquid_heat_capacity"
                         and r["substance"] == s, ("C1", "C2", "C3", "C4", "C5"))
            for s in SUBSTANCES}
VAPORISATION = {s: constants("thermal_coefficients.csv",
                             lambda r, s=s: r["property"] == "enthalpy_of_vaporisation"
                             and r["substance"] == s, ("C1", "C2", "C3", "C4", "Tc_K"))
                for s in SUBSTANCES}
EXCESS = [[float(value) for value in row.values()]
          for row in rows("excess_enthalpy_larkin_1975.csv")]


def simpson(f, low, high, intervals):
    h = (high - low) / intervals
    return h / 3 * sum((1 if i in (0, intervals) else 4 if i % 2 else 2) * f(low + i * h)
                       for i in range(intervals + 1))


def pure_liquid(substance, t):
    return simpson(lambda at: sum(c * at**k for k, c in enumerate(CAPACITY[substance])) / 1000,
                   273.15, t, 100)


def vaporisation(substance, t):
    c1, c2, c3, c4, critical = VAPORISATION[substance]
    tr = t / critical
    return c1 * (1 - tr) ** (c2 + c3 * tr + c4 * tr * tr)


def excess(x, t):
    if t < 298.15:  # along the tangent
        slope = (excess(x, 298.151) - excess(x, 298.15)) / 0.001
        return excess(x, 298.15) + (t - 298.15) * slope
    return x * (1 - x) * sum((b + c * t + d * t * t) * x**m for m, b, c, d in EXCESS)


def liquid(x, t):
    return x * pure_liquid("ethanol", t) + (1 - x) * pure_liquid("water", t) + excess(x, t)


def vapour_heat(y, t):
    return sum(part * (pure_liquid(s, t) + vaporisation(s, t))
               for part, s in ((y, "ethanol"), (1 - y, "water")))


def run_hours(volume, strength, stop, watts, stages=1.0, reflux=0.0, hpa=STANDARD):
    end = Run(volume, strength, stages, hpa).to_strength(stop).boiled
    run = Run(volume, strength, stages, hpa)
    intervals = 60
    integrand = []

    def in_boiler():
        return run.left() * liquid(run.x, boiling(run.x, hpa)[0])

    heat = -in_boiler()
    for i in range(intervals + 1):
        y = vapour(run.x, stages, hpa)
        raised = vapour_heat(y, boiling(liquid_under(y, hpa), hpa)[0])
        returned = raised - liquid(y, boiling(y, hpa)[0])
        integrand.append(run.left() * (raised + reflux * returned))
        if i < intervals:
            run.go(end / intervals)
    heat += in_boiler() + end / intervals / 3 * sum(
        (1 if i in (0, intervals) else 4 if i % 2 else 2) * q for i, q in enumerate(integrand))
    return heat / watts / 3600


def cooling_water(volume, strength, stop, rise, celsius=20.0, stages=1.0, reflux=0.0, hpa=STANDARD):
    end = Run(volume, strength, stages, hpa).to_strength(stop).boiled
    run = Run(volume, strength, stages, hpa)

    def given_up():
        y = vapour(run.x, stages, hpa)
        raised = vapour_heat(y, boiling(liquid_under(y, hpa), hpa)[0])
        returned = raised - liquid(y, boiling(y, hpa)[0])
        return run.left() * (raised - liquid(y, celsius + 273.15) + reflux * returned)

    intervals, heat = 60, []
    for i in range(intervals + 1):
        heat.append(given_up())
        if i < intervals:
            run.go(end / intervals)
    joules = end / intervals / 3 * sum((1 if i in (0, intervals) else 4 if i % 2 else 2) * q
                                       for i, q in enumerate(heat))
    return joules / 4180 / rise * 1000 / density(0)


METALS = {"copper": 384, "stainless steel": 500, "brass": 377, "aluminium": 897}  # J/(kg K)


def heatup_hours(volume, strength, celsius, watts, metal_kg=0.0, metal="copper"):
    x = mole_fraction(strength)
    boil = boiling(x, STANDARD)[0]
    mol = volume * density(mass_fraction(x)) / (x * ETHANOL + (1 - x) * WATER)
    joules = (mol * (liquid(x, boil) - liquid(x, celsius + 273.15))
              + metal_kg * METALS[metal.lower()] * (boil - celsius - 273.15))
    return joules / watts / 3600


def table(volume, strength, stop, count, stages=1.0, hpa=STANDARD):
    end = Run(volume, strength, stages, hpa).to_strength(stop)
    steps = [end.collected() * i / (count - 1) for i in range(int(count) - 1)]
    return [Run(volume, strength, stages, hpa).to_volume(v).row() for v in steps] + [end.row()]


def jars(volume, strength, volumes, stages, hpa=STANDARD):
    """Strengths of jars filled one after another."""
    run, found = Run(volume, strength, stages, hpa), []
    for jar in volumes:
        before = run.grams()

        def filled():
            ethanol, water = (now - then for now, then in zip(run.grams(), before))
            return ethanol + water, ethanol / (ethanol + water)

        run.until(lambda: jar - filled()[0] / density(filled()[1]))
        found.append(pct_vol(filled()[1]))
    return found


FUNCTIONS = {
    "BOILINGPOINT": lambda s, hpa=STANDARD: boiling(mole_fraction(s), hpa)[0] - 273.15,
    "VAPOURSTRENGTH": lambda s, hpa=STANDARD: strength_of(boiling(mole_fraction(s), hpa)[1]),
    "BOILERSTRENGTH": lambda t, hpa=STANDARD: strength_of(liquid_at(t, hpa)),
    "DEWSTRENGTH": lambda t, hpa=STANDARD: strength_of(boiling(liquid_at(t, hpa), hpa)[1]),
    "FORECASTSTRENGTH": lambda v, s, collected, n=1.0, hpa=STANDARD:
        Run(v, s, n, hpa).to_volume(collected).strength(),
    "FORECASTVOLUME": lambda v, s, to, n=1.0, hpa=STANDARD:
        Run(v, s, n, hpa).to_strength(to).collected(),
    "FORECASTALCOHOL": lambda v, s, start, to, n=1.0, hpa=STANDARD:
        Run(v, s, n, hpa).to_strength(to).alcohol()
        - Run(v, s, n, hpa).to_strength(start).alcohol(),
    "FORECASTTABLE": table,
    "RUNTIME": run_hours,
    "HEATUPTIME": heatup_hours,
    "COOLINGWATER": cooling_water,
}
