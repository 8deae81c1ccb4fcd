#!/usr/bin/env python3
"""What README, Guide and the functions' notes claim of the forecast and of the workbooks, held against published
data, an independent computation and what is there."""
import pathlib
import re
import sys
import tomllib
import unittest

sys.dont_write_bytecode = True
ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(pathlib.Path(__file__).parent))

import plain_forecast as plain  # noqa: E402

README = re.sub(r"\s+", " ", (ROOT / "README.md").read_text(encoding="utf-8"))
NOTE = tomllib.loads((ROOT / "extension/catalogue/50-forecast.toml").read_text(encoding="utf-8"))["note"]
DATA = ROOT / "sample-workbooks" / "data"


def ran_over(stages):
    """Of the old table of a working still: strength in the boiler, and by how much more ran than is forecast."""
    for row in plain.rows("groening_still_table.csv"):
        boiler = float(row["boiling_liquid_vol_pct"])
        over = plain.strength_of(plain.vapour(plain.mole_fraction(boiler), stages, plain.STANDARD))
        yield boiler, float(row["distillate_vol_pct"]) - over


class Forecast(unittest.TestCase):
    def test_jars_lie_within_three_in_the_middle_of_a_run(self):
        """The middle: a boiler not nearly empty of alcohol, and not as strong as none is charged."""
        self.assertIn("some 3 % vol of it in the middle of a run", README)
        self.assertIn("within 1 to 3 % vol of the forecast in the middle of a run", NOTE)
        off = [abs(more) for boiler, more in ran_over(1.15) if 12 <= boiler <= 85]
        self.assertGreaterEqual(len(off), 10)
        self.assertLessEqual(max(off), 3)
        self.assertGreaterEqual(max(off), 1)

    def test_and_further_off_near_its_end(self):
        self.assertIn("further off near its end", NOTE)
        self.assertGreater(max(abs(more) for boiler, more in ran_over(1.15) if boiler < 12), 3)

    def test_a_working_still_does_more_than_one_stage(self):
        self.assertTrue(all(more > 0 for boiler, more in ran_over(1.0) if boiler <= 85))

    def test_what_the_stages_matter(self):
        for litres, stages in ((5.93, 1.0), (5.74, 1.15), (5.36, 1.4)):
            self.assertIn(f"{litres:.2f} L", NOTE)
            line = plain.table(10, 40, 20, 2, stages)[-1]
            self.assertAlmostEqual(line[0], litres, delta=0.006)  # printed to 0.01 L


class Workbooks(unittest.TestCase):
    def test_the_tour_goes_to_every_sheet(self):
        sources = (ROOT / "sample-workbooks" / "sheets").glob("*.py")
        sheets = [name for path in sources
                  for name in re.findall(r'^SHEET = "(.*)"', path.read_text(encoding="utf-8"), re.MULTILINE)]
        self.assertGreaterEqual(len(sheets), 9)
        for name in sheets:
            self.assertIn(f"| *{name}* |", README, "a sheet that README's tour leaves out")

    def test_runs_of_the_worked_example(self):
        self.assertIn("three of a pot of four litres, and a season of a house with 120", README)
        for name, runs, litres in (("little-pot.toml", 3, 4), ("season.toml", 8, 120)):
            text = (DATA / name).read_text(encoding="utf-8")
            self.assertEqual(len(tomllib.loads(text)["run"]), runs, name)
            self.assertRegex(text, rf"boiler\w* = {litres}(\.0)?\b", name)


if __name__ == "__main__":
    unittest.main()
