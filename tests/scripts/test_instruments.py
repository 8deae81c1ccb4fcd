#!/usr/bin/env python3
"""The sheet Instruments: the expected figures are what the plain computation gives now, its uncertainties hold when the same
measurements are drawn at random, and what published figures say about weighing comes out."""
import csv
import math
import pathlib
import sys
import tomllib
import unittest

sys.dont_write_bytecode = True
ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
sys.path.insert(0, str(ROOT / "sample-workbooks"))

import plain_forecast  # noqa: E402
import plain_instruments as plain  # noqa: E402
from common.texts import texts  # noqa: E402
from sheets import instruments_boxes, instruments_checks, instruments_wash, instruments_weighing  # noqa: E402

BOX = tomllib.loads(plain.BOXES.read_text(encoding="utf-8"))


class Computation(unittest.TestCase):
    def test_expected_figures_are_those_of_the_computation(self):
        with open(plain.EXPECTED, encoding="utf-8", newline="") as file:
            stored = [(row["what"], int(row["row"]), float(row["value"])) for row in csv.DictReader(file)]
        now = list(plain.expected())
        self.assertEqual([row[:2] for row in stored], [row[:2] for row in now])
        for (what, row, was), (_, _, value) in zip(stored, now):
            self.assertAlmostEqual(was, value, delta=1e-8 * max(1, abs(value)), msg=f"{what} {row}")

    def test_the_sheet_takes_the_same_for_granted(self):
        self.assertEqual(float(instruments_weighing.FORMULA), plain.FORMULA)
        self.assertEqual(float(instruments_wash.METHOD), plain.METHOD)
        self.assertEqual(float(instruments_wash.EQUILIBRIUM), plain.EQUILIBRIUM)
        self.assertEqual((float(instruments_checks.ICE), float(instruments_checks.BOILING)), (plain.ICE, plain.STEAM))
        usual = {name: kind.usual for name, kind in instruments_boxes.KINDS.items()}
        for name, value in (("degree_error", plain.DEGREE), ("alcoholometer_read_to", plain.READ_TO), ("gravity_error", plain.GRAVITY),
                            ("reference_error", plain.REFERENCE), ("boiling_error", plain.BOILING), ("sample_error", plain.VOLUME)):
            self.assertEqual(float(usual[name]), value, name)

    def test_worked_by_hand(self):
        # 50.00, 150.00 and 145.00 g at 20 degC: 0.95 x (998.201 - 1.2) + 1.2
        self.assertAlmostEqual(plain.pycnometer(50, 150, 145, 20, 20), 948.351, delta=0.0005)
        self.assertAlmostEqual(plain.plummet(50, 47.5, 20, 20), 948.351, delta=0.0005)
        self.assertAlmostEqual(plain.wash(1.07, 0.998), 9.65, delta=0.005)        # wash_gravity.csv
        self.assertAlmostEqual(plain.sample(500, 250, 16.8, 18, 24), 8.674, delta=0.0005)


class Uncertainty(unittest.TestCase):
    COUNT = 1500    # the standard deviation of so many is right to 1.8 % (k = 1)

    def hold(self, model, parts, seed):
        first_order = plain.first_order(model, parts)
        # Four times what so few draws leave open; the curve's second order is far below that.
        self.assertAlmostEqual(2 * plain.drawn(model, parts, self.COUNT, seed), first_order, delta=0.073 * first_order)

    def test_flask(self):
        self.hold(*plain.flask_model(BOX), 1)
        self.hold(*plain.flask_model(BOX | {"scale_step": 0.1, "flask_fill": 0.2, "degree_error": 0.5}), 2)

    def test_plummet(self):
        self.hold(*plain.plummet_model(BOX), 3)

    def test_gravities(self):
        self.hold(*plain.gravities_model(BOX), 4)

    def test_sample(self):
        self.hold(*plain.sample_model(BOX, 0.26, 0.2), 5)

    def test_boiling(self):
        model, parts = plain.boiling_model(BOX)
        first_order = plain.first_order(model, parts)
        self.assertAlmostEqual(2 * plain.drawn(model, parts, 600, 6), first_order, delta=0.12 * first_order)

    def test_what_the_boiling_point_takes_for_granted(self):
        """Published boiling points up to 25 % vol lie within the expanded uncertainty of the equilibrium, and beyond half of it."""
        off = []
        for name in ("vle_ethanol_water_101kPa.csv", "vle_ethanol_water_more_sets.csv"):
            with open(plain.DATA / name, encoding="utf-8", newline="") as file:
                for row in csv.DictReader(file):
                    x, hpa = float(row["x_ethanol"]), 10 * float(row.get("pressure_kPa") or 101.325)
                    if 0 < x < 0.03:
                        off.append(abs(float(row["T_C"]) + 273.15 - plain_forecast.boiling(x, hpa)[0]))
        self.assertGreaterEqual(len(off), 2)
        self.assertLessEqual(max(off), 2 * plain.EQUILIBRIUM)
        self.assertGreater(max(off), plain.EQUILIBRIUM)

    def test_rule_of_thumb_for_weighing(self):
        """A step d of the scale, W g of water and k kg/m3 for each % vol: d/W of the density over k, were all three weighings
        to count in full. To first order the empty flask hardly counts and the spirit less than the water, so that it is
        1.2 to 1.35 times too much."""
        for strength in (10, 40, 60, 75):
            per_cent = -plain.slope(lambda s, at=strength: plain.density(at + s), 0.05)
            rule = plain.mixture(0, 20) * 0.01 / 100 / per_cent
            rho = plain.density(strength)
            share = (rho - plain.AIR) / (plain.mixture(0, 20) - plain.AIR)
            box = {"flask_empty": 60.0, "flask_water": 160.0, "flask_spirit": 60 + 100 * share, "flask_water_temperature": 20,
                   "flask_spirit_temperature": 20, "scale_step": 0.01, "flask_fill": 0}
            model, parts = plain.flask_model(box)
            weighing = plain.first_order(model, {name: parts[name] for name in ("empty", "water", "spirit")})
            self.assertTrue(1.2 < rule / weighing < 1.35, f"{strength}: {rule} {weighing}")
            exact = 2 * 0.01 / math.sqrt(12) * (plain.mixture(0, 20) - plain.AIR) / 100 / per_cent * math.sqrt(
                1 + share**2 + (1 - share) ** 2)
            self.assertAlmostEqual(weighing, exact, delta=0.002 * exact)


class Words(unittest.TestCase):
    def test_every_box_has_label_and_help(self):
        words = texts("instruments")
        rows = {f"{of}_{key}" for of, typed in instruments_checks.TYPED.items() for key in typed}
        self.assertEqual(set(words["label"]), set(instruments_boxes.PLACES))
        self.assertEqual(set(words["help"]), set(instruments_boxes.PLACES) | rows)
        for name, (title, text) in words["help"].items():
            self.assertTrue(title and len(text) <= 255, name)  # what Calc shows
        self.assertEqual(set(instruments_boxes.PLACES), set(instruments_boxes.KINDS))


if __name__ == "__main__":
    unittest.main()
