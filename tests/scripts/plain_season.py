"""The season plan once more, apart from the workbook and from the library: Rayleigh's equation as a quadrature over
the boiler's strength, every balance in grams of ethanol and of water, bisection for every root.

    plain_season.py

writes tests/data/season_plan_expected.csv, which test_season_plan.cpp holds against the sheet of the worked example.
Equilibrium, densities and heats are plain_forecast.py's; the boxes are those of sample-workbooks/data.
"""
import csv
import functools
import math
import pathlib
import sys
import tomllib

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import plain_forecast as plain

ROOT = pathlib.Path(__file__).resolve().parents[2]
EXPECTED = ROOT / "tests" / "data" / "season_plan_expected.csv"
# In the example the stages come from the sheet Runs; the comparison sets them.
STAGES = {"stages": 1.19, "stages_low": 1.15, "stages_high": 1.21}
USUAL = {"bottle_size": 500, "bottling_strength": 40, "strength_error": 0.3, "fill": 75, "strip_stop": 5, "charge_limit": 40,
         "heads_return": 100, "tails_return": 100, "spirit_stop": 20, "start_temperature": 20, "cooling_rise": 30}
MOST_RUNS = 20


@functools.cache
def gauss(count):
    """Nodes and weights of Gauss and Legendre on -1...1."""
    found = []
    for i in range(count):
        z = math.cos(math.pi * (i + 0.75) / (count + 0.5))
        for _ in range(100):
            p, before = 1.0, 0.0
            for k in range(1, count + 1):
                p, before = ((2 * k - 1) * z * p - (k - 1) * before) / k, p
            slope = count * (z * p - before) / (z * z - 1)
            z -= p / slope
            if abs(p / slope) < 1e-15:
                break
        found.append((z, 2 / ((1 - z * z) * slope * slope)))
    return found


class Lot:
    """Grams of ethanol and of water."""

    def __init__(self, ethanol, water):
        self.ethanol, self.water = ethanol, water

    @classmethod
    def of(cls, volume, strength):
        ethanol = volume * strength / 100 * plain.density(1)
        if strength == 0:
            return cls(0.0, volume * plain.density(0))
        p = plain.bisect(lambda q: plain.pct_vol(q) - strength, 0, 1)
        return cls(ethanol, ethanol / p - ethanol)

    def __add__(self, other):
        return Lot(self.ethanol + other.ethanol, self.water + other.water)

    def __sub__(self, other):
        return Lot(self.ethanol - other.ethanol, self.water - other.water)

    def __mul__(self, share):
        return Lot(self.ethanol * share, self.water * share)

    def alcohol(self):
        return self.ethanol / plain.density(1)

    def volume(self):
        mass = self.ethanol + self.water
        return mass / plain.density(self.ethanol / mass) if mass else 0.0

    def strength(self):
        return 100 * self.alcohol() / self.volume() if self.volume() else 0.0


class Still:
    """A charge that boils away; where it stands is told by x, the mole fraction in the boiler."""

    def __init__(self, charge, stages):
        self.charge, self.stages = charge, stages
        ethanol, water = charge.ethanol / plain.ETHANOL, charge.water / plain.WATER
        self.n0, self.x0 = ethanol + water, ethanol / (ethanol + water)

    def running(self, x):
        return plain.strength_of(plain.vapour(x, self.stages, plain.STANDARD))

    def collected(self, x):
        """All that has run by then."""
        low, high = math.log(x), math.log(self.x0)
        boiled, panels = 0.0, 4
        for panel in range(panels):
            half = (high - low) / panels / 2
            middle = low + (2 * panel + 1) * half
            for z, weight in gauss(12):
                at = math.exp(middle + half * z)
                boiled += weight * half * at / (plain.vapour(at, self.stages, plain.STANDARD) - at)
        left = self.n0 * math.exp(-boiled)
        return Lot(plain.ETHANOL * (self.n0 * self.x0 - left * x), plain.WATER * (self.n0 * (1 - self.x0) - left * (1 - x)))

    def at_strength(self, strength):
        if self.running(self.x0) <= strength:
            return self.x0
        return plain.bisect(lambda x: self.running(x) - strength, 1e-7, self.x0)

    def at_volume(self, volume):
        if volume == 0:
            return self.x0
        return plain.bisect(lambda x: self.collected(x).volume() - volume, self.x0 * 0.5, self.x0)


def strip(box, stages, shift):
    """How many stripping runs, the charge of each, what each gives."""
    usual = box["boiler_volume"] * box["fill"] / 100
    count = math.ceil(box.get("wash_volume", 0) / usual - 1e-9)
    if not count:
        return 0, None, None
    charge = Lot.of(box["wash_volume"] / count, box["wash_strength"] + shift)
    still = Still(charge, stages)
    return count, charge, still.collected(still.at_strength(box["strip_stop"]))


def season(box, stages, shift):
    """The spirit runs of one case, as dictionaries, and the lots that stay."""
    usual = box["boiler_volume"] * box["fill"] / 100
    count, _, low_wines = strip(box, stages, shift)
    pool = low_wines * count if count else Lot(0, 0)
    for lot in ("low", "feints"):
        if f"{lot}_volume" in box:
            pool = pool + Lot.of(box[f"{lot}_volume"], box[f"{lot}_strength"] + shift)
    whole = pool
    left, feints, runs = pool.volume(), Lot(0, 0), []
    foreshots = box.get("foreshots", round(5 * usual)) / 1000
    while left > 0 and len(runs) < MOST_RUNS:
        fresh = whole.strength() / 100
        room = max(0, min(left, usual - feints.volume(), (box["charge_limit"] * usual / 100 - feints.alcohol()) / fresh))
        fills = max(room + feints.volume(), (room * fresh + feints.alcohol()) * 100 / box["charge_limit"])
        if room <= 0 or fills < usual / 3:
            break
        taken = whole * (room / whole.volume())
        charge = taken + feints
        strength = charge.strength()
        water = Lot(0, 0)
        if strength > box["charge_limit"]:
            reduced = Lot.of(100 * charge.alcohol() / box["charge_limit"], box["charge_limit"])
            water = reduced - charge
            charge = reduced
        still = Still(charge, stages)
        points = [still.x0, still.at_volume(foreshots)]
        for end in ("hearts_from", "hearts_to", "spirit_stop"):
            points.append(min(points[-1], still.at_strength(box[end])))
        by = [still.collected(x) if x < still.x0 else Lot(0, 0) for x in points]
        heads, hearts, tails = (by[i + 1] - by[i] for i in (1, 2, 3))
        back = heads * (box["heads_return"] / 100) + tails * (box["tails_return"] / 100)
        runs.append({"low": room, "feints": feints, "water": water.water / plain.density(0), "charge": charge,
                     "first": still.running(still.x0), "foreshots": by[1], "heads": heads, "hearts": hearts, "tails": tails,
                     "back": back, "by": by[4], "end": still.running(points[-1])})
        left = 0.0 if room == left else left - room
        feints = back
    return runs, whole, left


def bottles(box, runs):
    hearts = functools.reduce(lambda one, two: one + two, (run["hearts"] for run in runs), Lot(0, 0))
    if not runs or hearts.strength() < box["bottling_strength"]:
        return 0
    return math.floor(hearts.alcohol() / (box["bottle_size"] / 1000 * box["bottling_strength"] / 100) + 1e-9)


def boxes():
    data = tomllib.loads((ROOT / "sample-workbooks" / "data" / "season-plan.toml").read_text(encoding="utf-8"))
    return USUAL | data | STAGES


def energy(box, charge, end, stages):
    volume, strength = charge.volume(), charge.strength()
    return (plain.heatup_hours(volume, strength, box["start_temperature"], 1000)
            + plain.run_hours(volume, strength, end, 1000, stages))


def cooling(box, charge, end, stages):
    return plain.FUNCTIONS["COOLINGWATER"](charge.volume(), charge.strength(), end, box["cooling_rise"], 20, stages)


def expected():
    """(what, run, value) of all that the sheet shows of it."""
    box = boxes()
    stages = box["stages"]
    runs, pool, left = season(box, stages, 0)
    count, wash, low_wines = strip(box, stages, 0)
    yield "strip_runs", 0, count
    yield "pool_volume", 0, pool.volume()
    yield "pool_strength", 0, pool.strength()
    yield "spirit_runs", 0, len(runs)
    kwh = count * energy(box, wash, box["strip_stop"], stages)
    water = count * cooling(box, wash, box["strip_stop"], stages)
    for i, run in enumerate(runs, 1):
        charge, feints = run["charge"], run["feints"]
        heat = energy(box, charge, run["end"], stages)
        cool = cooling(box, charge, run["end"], stages)
        kwh, water = kwh + heat, water + cool
        for what, value in (
                ("low_wines", run["low"]), ("feints_in", feints.volume()), ("water", run["water"]), ("charge", charge.volume()),
                ("charge_strength", charge.strength()), ("first_strength", run["first"]), ("heads", run["heads"].alcohol()),
                ("hearts_volume", run["hearts"].volume()), ("hearts_strength", run["hearts"].strength()),
                ("hearts", run["hearts"].alcohol()), ("tails", run["tails"].alcohol()), ("feints_out", run["back"].alcohol()),
                ("energy", heat), ("hours", 1000 * heat / box["watts"]), ("cooling", cool)):
            yield what, i, value
    hearts = functools.reduce(lambda one, two: one + two, (run["hearts"] for run in runs))
    yield "hearts_volume", 0, hearts.volume()
    yield "hearts_strength", 0, hearts.strength()
    reduced = Lot.of(100 * hearts.alcohol() / box["bottling_strength"], box["bottling_strength"])
    yield "water", 0, (reduced - hearts).water / plain.density(0)
    yield "spirit_volume", 0, reduced.volume()
    yield "energy", 0, kwh
    yield "hours", 0, 1000 * kwh / box["watts"]
    yield "cooling", 0, water
    full = runs[-1] if left > 0 else runs[-2]
    fresh = full["low"] * pool.strength() / 100
    yield "limit", 0, fresh / (1 - full["back"].alcohol() / full["charge"].alcohol())
    cases = [bottles(box, runs)]
    for end in ("stages_low", "stages_high"):
        for sign in (-1, 1):
            cases.append(bottles(box, season(box, box[end], sign * box["strength_error"])[0]))
    yield "bottles_likely", 0, cases[0]
    yield "bottles_certain", 0, min(cases)
    yield "bottles_possible", 0, max(cases)
    on_hand = sum(box.get(f"{lot}_volume", 0) * box.get(f"{lot}_strength", 0) for lot in ("wash", "low", "feints")) / 100

    def total(key):
        return sum(run[key].alcohol() for run in runs)

    account = {
        "on_hand": on_hand, "hearts": hearts.alcohol(), "foreshots": total("foreshots"),
        "heads_lost": total("heads") * (1 - box["heads_return"] / 100), "tails_lost": total("tails") * (1 - box["tails_return"] / 100),
        "strip_residue": count * (wash.alcohol() - low_wines.alcohol()), "spirit_residue": total("charge") - total("by"),
        "feints_left": runs[-1]["back"].alcohol(), "low_left": left * pool.strength() / 100}
    for what, value in account.items():
        yield f"account_{what}", 0, value


def main():
    with open(EXPECTED, "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("what", "run", "value"))
        for what, run, value in expected():
            writer.writerow((what, run, f"{value:.9g}"))


if __name__ == "__main__":
    main()
