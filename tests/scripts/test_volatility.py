#!/usr/bin/env python3
"""Two claims that people read, computed from published data.

The cautions say that the foreshots hold about as large a share of the methanol as of the alcohol, and that
methanol comes over through the whole run: a plain pot is boiled down step by step (Rayleigh) with a trace of
methanol in it, by NRTL with published constants for the three pairs and ideal vapour.

The function page says that the digits of its van Laar constants are supported by a refit: they are fitted
again to the published T-x-y table.
"""
import csv
import math
import pathlib
import unittest

import plain_forecast as plain

GAS = 8.314462618  # J/(mol K)
ATMOSPHERE = 101325.0
LIQUIDS = ("methanol", "ethanol", "water")


def volatility_constants():
    table = {}
    with open(plain.DATA / "methanol_volatility.csv", encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            table.setdefault(row["quantity"], {})[row["parameter"]] = float(row["value"])
    return table


CONSTANTS = volatility_constants()


def pair(one, other):
    """(energy in J/mol, alpha) of one beside the other."""
    if one == other:
        return 0.0, 0.0
    for first, second, name in ((one, other, "b12"), (other, one, "b21")):
        values = CONSTANTS.get(f"NRTL {first}(1) {second}(2)")
        if values:
            return values[name], values["alpha"]
    raise KeyError((one, other))


def vapour_pressure(liquid, kelvin):
    if liquid != "methanol":
        return plain.vapour_pressure(liquid, kelvin)
    c = CONSTANTS["vapour pressure methanol"]
    return math.exp(c["C1"] + c["C2"] / kelvin + c["C3"] * math.log(kelvin) + c["C4"] * kelvin ** c["C5"])


def activities(x, kelvin):
    """NRTL, Renon and Prausnitz, AIChE J. 14 (1968) 135, for any number of liquids."""
    tau = {(i, j): pair(i, j)[0] / (GAS * kelvin) for i in x for j in x}
    weight = {(i, j): math.exp(-pair(i, j)[1] * tau[i, j]) for i in x for j in x}
    below = {j: sum(weight[k, j] * x[k] for k in x) for j in x}
    above = {j: sum(tau[k, j] * weight[k, j] * x[k] for k in x) for j in x}
    return {i: math.exp(above[i] / below[i] + sum(
        x[j] * weight[i, j] / below[j] * (tau[i, j] - above[j] / below[j]) for j in x)) for i in x}


def boil(x):
    """(kelvin, vapour's mole fraction over the liquid's, of each) at 1 atm."""
    def partial(kelvin):
        gamma = activities(x, kelvin)
        return {i: gamma[i] * vapour_pressure(i, kelvin) / ATMOSPHERE for i in x}

    kelvin = plain.bisect(lambda t: 1 - sum(x[i] * k for i, k in partial(t).items()), 335.0, 378.0)
    return kelvin, partial(kelvin)


def pot_still(strength, shares, step=1 / 2000):
    """Share of the methanol that has run when those shares of the alcohol have."""
    ethanol = plain.mole_fraction(strength)
    left = {"methanol": 1e-9, "ethanol": ethanol, "water": 1 - ethanol}
    begun = dict(left)
    shares, before, run = list(shares), (0.0, 0.0), []
    while shares:
        total = sum(left.values())
        x = {i: amount / total for i, amount in left.items()}
        _, ratio = boil(x)
        for i in left:
            left[i] -= step * ratio[i] * x[i]
        now = tuple(1 - left[i] / begun[i] for i in ("ethanol", "methanol"))
        while shares and now[0] >= shares[0]:
            part = (shares.pop(0) - before[0]) / (now[0] - before[0])
            run.append(before[1] + part * (now[1] - before[1]))
        before = now
    return run


class Methanol(unittest.TestCase):
    def test_the_constants_boil_methanol_and_give_the_published_equilibrium(self):
        kelvin = plain.bisect(lambda t: ATMOSPHERE - vapour_pressure("methanol", t), 320.0, 360.0)
        self.assertAlmostEqual(kelvin - 273.15, CONSTANTS["boiling point methanol"]["T"], delta=0.2)
        for row in plain.rows("vle_ethanol_water_101kPa.csv"):
            x = float(row["x_ethanol"])
            if 0 < x < 1:
                kelvin, ratio = boil({"ethanol": x, "water": 1 - x})
                # The points scatter by 0.5 °C; the set's own greatest deviation in y is 0.016.
                self.assertAlmostEqual(ratio["ethanol"] * x, float(row["y_ethanol"]), delta=0.017)
                self.assertAlmostEqual(kelvin - 273.15, float(row["T_C"]), delta=1.0)

    def test_foreshots_hold_about_as_large_a_share_of_methanol_as_of_alcohol(self):
        for strength in (8, 28, 40):  # a wash, low wines, the most that is charged
            for alcohol, methanol in zip((0.01, 0.02, 0.05), pot_still(strength, (0.01, 0.02, 0.05))):
                # Infinite-dilution volatilities from such constants are good to some 10 %.
                self.assertGreater(methanol / alcohol, 0.7, (strength, alcohol))
                self.assertLess(methanol / alcohol, 1.1, (strength, alcohol))

    def test_methanol_comes_over_through_the_whole_run(self):
        for strength in (8, 28, 40):
            half, most = pot_still(strength, (0.5, 0.9))
            self.assertTrue(0.3 < half < 0.6, (strength, half))
            self.assertLess(most, 0.95, strength)


class VanLaar(unittest.TestCase):
    """Least squares in y and T together. An error of 0.005 in y counts as one of 0.2 °C; the composition of
    the azeotrope is known five times as well as that (0.8943, other sources 0.893 to 0.895)."""

    @staticmethod
    def misfits(constants, points):
        a, b = constants
        out = []
        for celsius, x, y in points:
            gamma = (math.exp(a * (b * (1 - x) / (a * x + b * (1 - x))) ** 2),
                     math.exp(b * (a * x / (a * x + b * (1 - x))) ** 2))

            def pressures(t):
                return (x * gamma[0] * plain.vapour_pressure("ethanol", t),
                        (1 - x) * gamma[1] * plain.vapour_pressure("water", t))

            kelvin = plain.bisect(lambda t: ATMOSPHERE - sum(pressures(t)), 345.0, 378.0)
            weight = 5 if x == y else 1
            out += [weight * (pressures(kelvin)[0] / ATMOSPHERE - y) / 0.005, (kelvin - 273.15 - celsius) / 0.2]
        return out

    def fitted(self, points):
        constants = [1.5, 1.0]
        for _ in range(20):  # Gauss-Newton
            now = self.misfits(constants, points)
            slopes = []
            for i in range(2):
                moved = list(constants)
                moved[i] += 1e-5
                slopes.append([(there - here) / 1e-5 for here, there in zip(now, self.misfits(moved, points))])
            (aa, ab), (_, bb) = [[sum(p * q for p, q in zip(one, other)) for other in slopes] for one in slopes]
            ra, rb = [-sum(p * q for p, q in zip(one, now)) for one in slopes]
            whole = aa * bb - ab * ab
            constants = [constants[0] + (ra * bb - rb * ab) / whole, constants[1] + (rb * aa - ra * ab) / whole]
        return constants

    def test_a_refit_supports_the_digits(self):
        used = {row["parameter"]: float(row["value"]) for row in plain.rows("vle_model_parameters.csv")
                if row["set"] == "van Laar 1.6798/0.9227"}
        points = [(float(row["T_C"]), float(row["x_ethanol"]), float(row["y_ethanol"]))
                  for row in plain.rows("vle_ethanol_water_101kPa.csv") if row["note"] != "pure component"]
        self.assertEqual(len(points), 15)
        a, b = self.fitted(points)
        # Two of the points' own digits (0.0001 in y, 0.1 °C) move the constants by about 0.005.
        self.assertAlmostEqual(a, used["A12"], delta=0.005)
        self.assertAlmostEqual(b, used["A21"], delta=0.005)


if __name__ == "__main__":
    unittest.main()
