#!/usr/bin/env python3
"""The season plan: the expected figures are what the plain iteration gives now, the iteration agrees with a second
method, help fits its balloon, and the Guide's figure for spilt spirit is the one that the published limit gives."""
import csv
import pathlib
import re
import sys
import tomllib
import unittest

sys.dont_write_bytecode = True
ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
sys.path.insert(0, str(ROOT / "sample-workbooks"))

import plain_forecast as plain  # noqa: E402
import plain_season  # noqa: E402
from common.texts import texts  # noqa: E402
from sheets import plan_boxes, plan_counts  # noqa: E402


class Iteration(unittest.TestCase):
    def test_expected_figures_are_those_of_the_iteration(self):
        with open(plain_season.EXPECTED, encoding="utf-8", newline="") as file:
            stored = [(row["what"], int(row["run"]), float(row["value"])) for row in csv.DictReader(file)]
        now = list(plain_season.expected())
        self.assertEqual([row[:2] for row in stored], [row[:2] for row in now])
        for (what, run, was), (_, _, value) in zip(stored, now):
            self.assertAlmostEqual(was, value, delta=1e-8 * max(1, abs(value)), msg=f"{what} {run}")

    def test_quadrature_agrees_with_runge_kutta(self):
        still = plain_season.Still(plain_season.Lot.of(90, 35), 1.19)
        for strength in (75, 50, 20, 5):
            collected = still.collected(still.at_strength(strength))
            run = plain.Run(90, 35, 1.19).to_strength(strength)
            self.assertAlmostEqual(collected.volume(), run.collected(), delta=1e-6)
            self.assertAlmostEqual(collected.alcohol(), run.alcohol(), delta=1e-6)

    def test_nothing_is_lost(self):
        runs, pool, left = plain_season.season(plain_season.boxes(), 1.19, 0)
        held = sum(run[key].alcohol() for run in runs for key in ("foreshots", "hearts"))
        held += sum(run["charge"].alcohol() - run["by"].alcohol() for run in runs) + runs[-1]["back"].alcohol()
        held += sum(run["heads"].alcohol() + run["tails"].alcohol() - run["back"].alcohol() for run in runs)
        self.assertAlmostEqual(held + left * pool.strength() / 100, pool.alcohol(), delta=1e-9)


class Words(unittest.TestCase):
    def test_every_box_has_label_help_and_unit(self):
        words = texts("season_plan")
        boxes = set(plan_boxes.PLACES) | {"cooling_rise", "metal"}
        self.assertEqual(set(words["help"]), boxes)
        self.assertEqual(set(words["label"]), boxes)
        for name, (title, text) in words["help"].items():
            self.assertTrue(title and len(text) <= 255, name)  # what Calc shows
        entries = plan_boxes.numbers(plan_counts.SINGLE)
        self.assertEqual({entry[3] for entry in entries.values()}, set(words["unit"]))

    def test_the_example_fills_boxes_only(self):
        data = tomllib.loads((ROOT / "sample-workbooks" / "data" / "season-plan.toml").read_text(encoding="utf-8"))
        self.assertEqual(set(data) - set(plan_boxes.PLACES), set())


class SpiltSpirit(unittest.TestCase):
    def test_the_guides_figure_is_computed(self):
        (limit,) = [float(row["value"]) for row in plain.rows("ethanol_fire_properties.csv")
                    if row["property"].startswith("lower flammable") and "IEC" in row["source"]]
        text = texts("cautions")["spill"]["text"]
        self.assertIn(f"{limit} % of the air", text)
        strength, = re.findall(r"Half a litre at (\d+) % vol", text)
        said, = re.findall(r"make (\d+) m³", text)
        moles = 0.5 * int(strength) / 100 * plain.density(1) / plain.ETHANOL
        vapour = moles * 8.314463 * 293.15 / 101325  # m³, ideal gas
        self.assertAlmostEqual(vapour / (limit / 100), int(said), delta=0.05)


if __name__ == "__main__":
    unittest.main()
