#!/usr/bin/env python3
"""docs/functions.md is what the catalogue gives now, and is a page: whole tables, links that lead somewhere.
The pictures that README shows are there, and small."""
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

sys.dont_write_bytecode = True
ROOT = pathlib.Path(__file__).resolve().parents[2]
VERSION = re.search(r"project\(jarbook VERSION ([0-9.]+)", (ROOT / "CMakeLists.txt").read_text())[1]
LARGEST = 150_000  # bytes of a picture: a page opens quickly beside the still, too


def made():
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-B", ROOT / "tools/catalogue.py", ROOT / "extension/catalogue", VERSION,
                        folder], check=True)
        return (pathlib.Path(folder) / "functions.md").read_text(encoding="utf-8")


class Reference(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.page = (ROOT / "docs/functions.md").read_text(encoding="utf-8")

    def test_is_what_the_catalogue_gives(self):
        self.assertEqual(self.page, made(), "stale: run scripts/docs and commit docs/functions.md")

    def test_has_every_function_of_the_contract(self):
        contract = (ROOT / "idl/org/jarbook/XSpirit.idl").read_text(encoding="utf-8")
        methods = re.findall(r"^\s+\w+ (\w+)\(", contract, re.MULTILINE)
        self.assertGreater(len(methods), 40)
        for method in methods:
            self.assertIn(f"\n### {method.upper()}\n", self.page)

    def test_tables_are_whole(self):
        columns = None
        rows = 0
        for line in self.page.split("\n"):
            if not line.startswith("|"):
                columns = None
                continue
            bars = len(re.findall(r"(?<!\\)\|", line))
            columns = columns or bars
            self.assertEqual(bars, columns, line)
            rows += 1
        self.assertGreater(rows, 400)

    def test_links_lead_to_one_heading(self):
        heads = [re.sub(r"[^a-z0-9 -]", "", head.lower()).replace(" ", "-")
                 for head in re.findall(r"^#+ (.*)$", self.page, re.MULTILINE)]
        links = re.findall(r"\]\(#([^)]*)\)", self.page)
        self.assertGreater(len(links), 40)
        for link in links:
            self.assertEqual(heads.count(link), 1, link)


class Readme(unittest.TestCase):
    def test_pictures_are_shown_and_small(self):
        readme = (ROOT / "README.md").read_text(encoding="utf-8")
        for picture in (ROOT / "docs/pictures").glob("*"):
            with self.subTest(picture.name):
                self.assertIn(f"(docs/pictures/{picture.name})", readme)
                self.assertEqual(picture.read_bytes()[:8], b"\x89PNG\r\n\x1a\n")
                self.assertLess(picture.stat().st_size, LARGEST)


if __name__ == "__main__":
    unittest.main()
