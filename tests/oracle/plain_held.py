"""What the run sheet's block "The readings held against each other" has to say of runs of the worked example, once
more: from what is typed (sample-workbooks/data), by plain_record.py and by differences.

`plain_held.py OUT` writes the table that the test of the workbook reads (tests/data/held_expected.csv).
"""
import csv
import math
import pathlib
import sys
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "oracle"))
import plain_record as record  # noqa: E402

bisect, rows = record.forecast.bisect, record.forecast.rows
DATA = ROOT / "sample-workbooks" / "data"

_COEFFICIENTS = [(row["name"], int(row["i"] or 0), int(row["k"]), float(row["value"]))
                 for row in rows("oiml_r22_coefficients.csv")]


def density(p, t):
    """OIML R 22, kg/m3 in vacuo; p mass fraction, t in degC."""
    d = t - 20
    return sum({"A": lambda: value * p ** (k - 1), "B": lambda: value * d**k,
                "C": lambda: value * p**k * d**i}[name]() for name, i, k, value in _COEFFICIENTS)


def mass_fraction(strength):
    return bisect(lambda p: 100 * p * density(p, 20) / density(1, 20) - strength, 0, 1)


def rho(strength, t=20):
    return density(mass_fraction(strength), t)


def true_strength(reading, t):
    """Of an instrument of glass (25e-6 per degC), graduated at 20 degC."""
    wanted = rho(reading) / (1 + 25e-6 * (t - 20))
    return bisect(lambda q: rho(q, t) - wanted, 0, 100)


def at_20(volume, strength, t):
    return volume * rho(strength, t) / rho(strength)


def by_mass(kilograms, strength):
    """Volume of what a balance in air shows."""
    return kilograms * (1 - 1.2 / 8000) / (1 - 1.2 / rho(strength)) / rho(strength) * 1000


def blend(lots):
    mass = sum(v * rho(q) for v, q in lots)
    alcohol = sum(v * q for v, q in lots)

    def off(q):
        return mass * q / rho(q) - alcohol  # L of alcohol in that mass at that strength

    strength = bisect(lambda q: off(q), 0, 100)
    return mass / rho(strength), strength


def charge(run):
    lots = []
    for lot in run["lots"]:
        q = lot.get("known", None) or true_strength(lot["reading"], lot["temperature"])
        lots.append((at_20(lot["volume"], q, lot["temperature"]), q))
    wish = run.get("wished_charge")
    if wish is None:
        return blend(lots)
    water = bisect(lambda w: blend([*lots, (w, 0.0)])[1] - wish, 0, 20 * sum(v for v, _ in lots))
    return blend([*lots, (water, 0.0)])


def readings(description, jars, name):
    season = tomllib.loads((DATA / description).read_text(encoding="utf-8"))
    (number, run), = [(i, season["house"] | one) for i, one in enumerate(season["run"], 1) if one["name"] == name]
    with open(DATA / jars.format(number), encoding="utf-8", newline="") as file:
        typed = [(float(row["amount"]), float(row["reading"]), float(row["temperature"])) for row in csv.DictReader(file)]
    lots = []
    for amount, reading, t in typed:
        q = true_strength(reading, t)
        lots.append((by_mass(amount / 1000, q) if run.get("jar_unit") == "g" else at_20(amount / 1000, q, t), q))
    t = run["residue_temperature"]
    left = run.get("residue_known") or true_strength(run["residue_reading"], t)
    v, q = charge(run)
    lots += [(at_20(run["residue_volume"], left, t), left), (v, q)]
    tolerance = {"reading": 0.5, "scatter": 0.1, "temperature": 0.5, "volume": 1.0}
    tolerance |= {key: run[name] for key, name in (("reading", "reading_tolerance"), ("scatter", "reading_scatter"),
                                                   ("temperature", "temperature_tolerance"), ("volume", "volume_tolerance"))
                  if name in run}
    scatter = tolerance["scatter"]
    own = [scatter] * len(typed) + [max(0.3, scatter) if "residue_known" in run else scatter,
                                    max(0.3, scatter) if any("known" in lot for lot in run["lots"]) else scatter]
    return (["out"] * (len(typed) + 1) + ["in"], [round(v, 4) for v, _ in lots], [round(q, 2) for _, q in lots],
            [tolerance["volume"]] * len(lots), own, math.hypot(tolerance["reading"], 0.35 * tolerance["temperature"]))


def slopes(figure, arguments):
    """Of a figure of volumes and strengths, by differences, in the order of the readings."""
    _, volumes, strengths, *_ = arguments
    result = []
    for i in range(len(volumes)):
        for step in ((1e-5, 0), (0, 1e-5)):
            ends = [figure([v + sign * step[0] * (k == i) for k, v in enumerate(volumes)],
                           [q + sign * step[1] * (k == i) for k, q in enumerate(strengths)]) for sign in (1, -1)]
            result.append((ends[0] - ends[1]) / 2e-5)
    return result


def spread(slope, s):
    """Standard uncertainty of a figure with these slopes, of values with these covariances."""
    n = len(slope)
    return math.sqrt(sum(slope[i] * s[i][j] * slope[j] for i in range(n) for j in range(n)))


def balanced_covariance(s, jacobian):
    """Of values made to balance: S - S J' (J S J')^-1 J S."""
    n = len(s)
    js = [[sum(row[i] * s[i][j] for i in range(n)) for j in range(n)] for row in jacobian]
    m = record.inverse([[sum(line[j] * row[j] for j in range(n)) for row in jacobian] for line in js])
    return [[s[i][j] - sum(js[a][i] * m[a][b] * js[b][j] for a in range(len(js)) for b in range(len(js)))
             for j in range(n)] for i in range(n)]


def by_jars(v, q):
    return sum(a * b for a, b in zip(v[:-2], q[:-2])) / (v[-1] * q[-1])


def by_residue(v, q):
    return 1 - v[-2] * q[-2] / (v[-1] * q[-1])


RUNS = (("little-pot.toml", "little-pot-{}.csv", "Little pot 2"),
        *(("season.toml", "run-{}.csv", f"Run {n}") for n in (1, 3, 4, 6, 7)))
HEADER = ["sheet", "jars", "chi_squared", "probability", "candidates", "row", "kind", "implied", "recovery",
          "balanced_uncertainty", "uncertainty"]


def expected():
    for description, jars, name in RUNS:
        arguments = readings(description, jars, name)
        read, s, balances = record.run_parts(*arguments)
        chi, _, probability, count, row, kind = record.run_test(*arguments)
        implied = record.suspects(read, s, balances, chi)[0][2] if count == 1 else ""
        shares = ["", "", ""]
        if probability >= 0.05:
            x, _, jacobian = record.reconcile(read, s, balances)
            plain = min(spread(slopes(figure, arguments), s) for figure in (by_jars, by_residue))
            balanced = spread(slopes(by_residue, arguments), balanced_covariance(s, jacobian))
            shares = [by_residue(x[::2], x[1::2]), 2 * balanced, 2 * plain]
        yield [name, len(arguments[1]) - 2, chi, probability, count, row, kind, implied, *shares]


def write(path):
    with open(path, "w", encoding="utf-8", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(HEADER)
        for line in expected():
            out.writerow([f"{x:.9g}" if isinstance(x, float) else x for x in line])


if __name__ == "__main__":
    write(sys.argv[1])
