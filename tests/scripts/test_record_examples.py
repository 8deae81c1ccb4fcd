#!/usr/bin/env python3
"""Holds the numbers in extension/catalogue/60-record.toml, and the table that the core's test reads,
against tests/oracle/plain_record.py, so that neither is what the code happens to return."""
import pathlib
import re
import sys
import tempfile
import tomllib
import unittest

sys.dont_write_bytecode = True
TESTS = pathlib.Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS / "oracle"))

import plain_record as plain  # noqa: E402

CATALOGUE = TESTS.parent / "extension" / "catalogue" / "60-record.toml"


def arguments(call, cells):
    """Name and values of SPIRIT.F(A1:A3;0.5)."""
    name, inside = call.removesuffix(")").split("(")
    values = []
    for part in inside.split(";"):
        column = re.fullmatch(r"([A-Z])1:\1(\d+)", part)
        values.append(cells[column[1]][:int(column[2])] if column else float(part))
    return name.removeprefix("SPIRIT."), values


def examples():
    catalogue = tomllib.loads(CATALOGUE.read_text(encoding="utf-8"))
    for function in catalogue["function"]:
        for example in function["example"]:
            if "result" in example:
                yield example, *arguments(example["call"], example.get("cells", {}))


def as_rows(result):
    if not isinstance(result, list):
        return [[result]]
    return [row if isinstance(row, list) else [row] for row in result]


class Examples(unittest.TestCase):
    def test_numbers(self):
        compared = 0
        for example, name, values in examples():
            if name == "RECONCILEADVICE":
                continue
            if name == "CONSENSUS" and not isinstance(values[1], list):
                values[1] = [values[1]] * len(values[0])
            with self.subTest(example["call"]):
                result, expected = as_rows(plain.FUNCTIONS[name](*values)), as_rows(example["result"])
                self.assertEqual(len(result), len(expected))
                for got, wanted in zip(result, expected):
                    self.assertEqual(len(got), len(wanted))
                    for value, number in zip(got, wanted):
                        self.assertAlmostEqual(value, number, delta=example["tolerance"])
            compared += 1
        self.assertEqual(compared, 9)

    def test_figures_in_the_advice(self):
        compared = 0
        for example, name, values in examples():
            if name != "RECONCILEADVICE":
                continue
            readings, s, balances = plain.run_parts(*values)
            chi, _, probability, count, row, which = plain.run_test(*values)
            text = example["result"]
            with self.subTest(text):
                if probability >= 0.05:
                    # What an error that is found four times in five has to be: by how much a
                    # reading may move while chi-squared rises by 9.6347.
                    unit = [3.1040 * spread for spread in plain.given_by_others(readings, s, balances)]
                    figures = [float(x) for x in re.findall(r"\d+(?:\.\d+)?", text)]
                    wanted = [unit[0], 100 * unit[0] / readings[0], unit[1],
                              min(unit[2::2]), min(unit[3::2])]
                    for figure, value in zip(figures, wanted, strict=True):
                        self.assertAlmostEqual(figure / value, 1, delta=0.05)
                elif count == 1:
                    found = plain.suspects(readings, s, balances, chi)[0]
                    self.assertIn(f"{('volume', 'strength')[which - 1]} of row {row} first", text)
                    self.assertIn(f"{found[2]:.2f} instead of {readings[found[1]]:g}.", text)
                    self.assertIn(f"about {found[2] - readings[found[1]]:.1f} more", text)
                else:
                    found = plain.suspects(readings, s, balances, chi)
                    self.assertTrue(all(one[1] % 2 for one in found))
                    self.assertIn("A strength is wrong", text)
            compared += 1
        self.assertEqual(compared, 3)

    def test_the_table_of_the_core_is_what_this_solver_gives(self):
        with tempfile.TemporaryDirectory() as folder:
            made = pathlib.Path(folder) / "expected.csv"
            plain.write(made)
            self.assertEqual(made.read_text(encoding="utf-8"),
                             (TESTS / "data" / "reconciliation_expected.csv")
                             .read_text(encoding="utf-8"))


if __name__ == "__main__":
    unittest.main()
