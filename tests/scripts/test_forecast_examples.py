#!/usr/bin/env python3
"""Holds the numbers in extension/catalogue/50-forecast.toml against plain_forecast.py, so that no
example's result is what the code happens to return."""
import pathlib
import sys
import tomllib
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
import plain_forecast as plain

CATALOGUE = (pathlib.Path(__file__).resolve().parents[2] / "extension" / "catalogue"
             / "50-forecast.toml")


def examples():
    catalogue = tomllib.loads(CATALOGUE.read_text(encoding="utf-8"))
    for function in catalogue["function"]:
        for example in function["example"]:
            if "result" in example:
                name, arguments = example["call"].removesuffix(")").split("(")
                yield name.removeprefix("SPIRIT."), arguments.split(";"), example


def typed(argument):
    return argument[1:-1] if argument.startswith('"') else float(argument)


class Examples(unittest.TestCase):
    def test_numbers(self):
        compared = 0
        for name, arguments, example in examples():
            if name == "STAGES":
                continue
            with self.subTest(example["call"]):
                result = plain.FUNCTIONS[name](*map(typed, arguments))
                expected = example["result"]
                if not isinstance(expected, list):
                    result, expected = [[result]], [[expected]]
                self.assertEqual(len(result), len(expected))
                for got, wanted in zip(result, expected):
                    self.assertEqual(len(got), len(wanted))
                    for value, number in zip(got, wanted):
                        # A published value (water's boiling point) keeps its own tolerance.
                        self.assertAlmostEqual(value, number, delta=example["tolerance"])
            compared += 1
        self.assertGreaterEqual(compared, 24)

    def test_jars_of_the_stages_examples(self):
        compared = 0
        for name, arguments, example in examples():
            if name != "STAGES":
                continue
            volume, strength = map(float, arguments[:2])
            made = plain.jars(volume, strength, example["cells"]["A"], example["result"])
            off = [abs(a - b) for a, b in zip(made, example["cells"]["B"])]
            with self.subTest(example["call"]):
                # As typed in, to 0.01 % vol; but for the one that the example says is misread.
                misread = "misread" in example["source"]
                self.assertEqual(sum(o > 0.006 for o in off), 1 if misread else 0, off)
            compared += 1
        self.assertEqual(compared, 3)

    def test_figures_in_the_notes(self):
        """What the words say of 10 L at 40 % vol that run down to 20 % vol."""
        text = CATALOGUE.read_text(encoding="utf-8")
        collected = {stages: plain.FUNCTIONS["FORECASTVOLUME"](10, 40, 20, stages) for stages in (1, 1.15, 1.4)}
        self.assertIn(f"of 10 L at 40 % vol, {collected[1]:.2f} L have run at 20 % vol with one stage, "
                      f"{collected[1.15]:.2f} L with 1.15 and {collected[1.4]:.2f} L with 1.4", text)
        left = {stages: 100 * (1 - plain.FUNCTIONS["FORECASTALCOHOL"](10, 40, 100, 20, stages) / 4)
                for stages in (1, 1.15)}
        self.assertIn(f"a plain pot leaves about {left[1]:.0f} % of the charge's alcohol behind, "
                      f"with 1.15 stages about {left[1.15]:.0f} %", text)


if __name__ == "__main__":
    unittest.main()
