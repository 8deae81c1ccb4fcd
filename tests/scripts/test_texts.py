#!/usr/bin/env python3
"""The texts of the library: each is used, and tools/texts.py refuses what it should."""
import pathlib
import re
import sys
import tempfile
import unittest

sys.dont_write_bytecode = True
ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tools"))

import texts  # noqa: E402

# What the library shows; the other files of that folder are the workbook's.
FILES = re.findall(r"/texts/([a-z_]+\.toml)", (ROOT / "extension/CMakeLists.txt").read_text())


class Texts(unittest.TestCase):
    def test_each_text_is_used(self):
        # The cautions are README's and the workbook's, too: not each of them is the library's.
        tables = texts.read([ROOT / "extension/texts" / name for name in FILES if name != "cautions.toml"])
        code = "\n".join(path.read_text(encoding="utf-8")
                         for path in (ROOT / "addin-src").rglob("*.?pp"))
        used = set(re.findall(r"texts::([a-z0-9_]+::[a-z0-9_]+)", code))
        there = {f"{table}::{key}" for table, keys in tables.items() for key in keys}
        self.assertTrue(there)
        self.assertEqual(there - used, set())

    def refused(self, content):
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder) / "some.toml"
            path.write_text(content, encoding="utf-8")
            with self.assertRaises(ValueError):
                texts.read([path])

    def test_refusals(self):
        self.refused('[a]\nkey = "a {place"')
        self.refused('[a]\nkey = "a } brace"')
        self.refused('[a]\nKey = "x"')
        self.refused("[a]\nkey = 3")
        self.refused('[a]\nkey = "the {text}"')

    def test_places(self):
        self.assertEqual(texts.pieces("{a} of {{b}} and {a}", ""),
                         [(True, "a"), (False, " of {b} and "), (True, "a")])
        self.assertEqual(texts.places(texts.pieces("{b}{a}{b}", "")), ["b", "a"])


if __name__ == "__main__":
    unittest.main()
