#!/usr/bin/env python3
"""Compares what the binding takes for an argument left out with the catalogue's default, name by name.

The catalogue says it to people, the binding does it, with constants of the core; nothing but this
test holds the two together.
"""
import pathlib
import re
import tomllib
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
SOURCE = ROOT / "addin-src"
FALLBACK = re.compile(r'\b(number|word|flag)_or\(\s*\w+,\s*"(\w+)",\s*([^()]+?)\)')
CONSTANT = re.compile(r"constexpr double (\w+)\s*=\s*([-+.\de]+);")
WORD = re.compile(r'constexpr std::string_view (\w+)\s*=\s*"([^"]*)";')


def catalogue():
    """{argument: {defaults}} of the arguments that have one."""
    defaults = {}
    for path in sorted((ROOT / "extension/catalogue").glob("[0-9]*.toml")):
        for function in tomllib.loads(path.read_text(encoding="utf-8"))["function"]:
            for argument in function.get("argument", []):
                if "default" in argument:
                    defaults.setdefault(argument["name"], set()).add(argument["default"])
    return defaults


def constants():
    return {name: float(value) for path in SOURCE.rglob("*.?pp")
            for name, value in CONSTANT.findall(path.read_text(encoding="utf-8"))}


def words():
    return {name: value for path in SOURCE.rglob("*.?pp")
            for name, value in WORD.findall(path.read_text(encoding="utf-8"))}


def fallbacks():
    """(file, argument, kind, what is written there) in the binding."""
    for path in sorted((SOURCE / "uno/functions").glob("*.cpp")):
        for kind, argument, written in FALLBACK.findall(path.read_text(encoding="utf-8")):
            yield path.name, argument, kind, written


class Defaults(unittest.TestCase):
    def test_binding_does_what_the_catalogue_says(self):
        said, known, known_words = catalogue(), constants(), words()
        done = {}  # an argument's name may have several defaults, each in its functions
        count = 0
        for file, argument, kind, written in fallbacks():
            with self.subTest(file=file, argument=argument):
                if kind == "flag":
                    value = written.upper()
                elif kind == "word":
                    value = known_words.get(written, written.strip('"'))
                else:
                    name = written.rpartition("::")[2]
                    value = known[name] if name in known else float(written)
                if argument not in said:
                    continue  # left out it has no value that a person could type
                self.assertIn(value, said[argument], f"written as {written}")
                done.setdefault(argument, set()).add(value)
                count += 1
        for argument, values in done.items():
            self.assertEqual(said[argument], values, argument)
        self.assertGreater(count, 15)

    def test_constants_are_those_of_their_sources(self):
        known = constants()
        self.assertEqual(known["reference_temperature_c"], 20.0)  # OIML R 22, section 3
        self.assertEqual(known["alcoholometer_reference_c"], 20.0)  # OIML R 44, 2.2
        self.assertEqual(known["hydrometer_glass_per_c"], 25e-6)  # ISO 1768:1975, section 3
        self.assertEqual(known["standard_pressure_hpa"], 1013.25)  # the standard atmosphere


if __name__ == "__main__":
    unittest.main()
