#!/usr/bin/env python3
"""What people read, held against the one place where it is said: the cautions in README and on the function
page, counts in README, words that have gone out of use."""
import csv
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]
TEXTS = ROOT / "extension" / "texts"
README = (ROOT / "README.md").read_text(encoding="utf-8")


def toml(name):
    return tomllib.loads((TEXTS / name).read_text(encoding="utf-8"))


def flat(text):
    """Without line breaks, marks of a quotation and of emphasis."""
    return re.sub(r"\s+", " ", re.sub(r"(?m)^>\s?(- )?", "", text).replace("*", ""))


class Cautions(unittest.TestCase):
    def setUp(self):
        self.words = toml("cautions.toml")

    def test_each_has_words_that_head_it(self):
        self.assertEqual(set(self.words["lead"]), set(self.words["caution"]) - {"none"})

    def test_readme_has_them_all(self):
        for key, lead in self.words["lead"].items():
            self.assertIn(f"{lead} {self.words['caution'][key]}", flat(README), key)

    def test_the_function_page_has_them_all(self):
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run([sys.executable, ROOT / "tools" / "catalogue.py", ROOT / "extension" / "catalogue", "0.0.0",
                            folder], check=True)
            page = (pathlib.Path(folder) / "functions.html").read_text(encoding="utf-8")
        for key, lead in self.words["lead"].items():
            self.assertIn(f"<b>{lead}</b> {self.words['caution'][key]}", page, key)

    def test_nothing_looks_safe(self):
        self.assertNotRegex(" ".join(self.words["caution"].values()), r"\b(is|are) safe\b")


class Readme(unittest.TestCase):
    def test_counts(self):
        with open(ROOT / "sample-workbooks" / "data" / "printed-values.csv", encoding="utf-8", newline="") as file:
            self.assertIn(f"{len(list(csv.DictReader(file)))} published values", README)

    def test_links_lead_somewhere(self):
        links = re.findall(r"\]\(([^)#:]+)\)", README)
        self.assertTrue(links)
        for link in links:
            self.assertTrue((ROOT / link).exists(), link)


class Menu(unittest.TestCase):
    def test_what_is_said_to_be_in_the_menu_is_there(self):
        addons = (ROOT / "extension" / "Addons.xcu").read_text(encoding="utf-8")
        entries = re.findall(r'xml:lang="en">([^<]+)<', addons)
        told = 0
        for path in [ROOT / "README.md", *sorted(TEXTS.glob("*.toml")), *sorted((ROOT / "extension" / "catalogue").glob("*"))]:
            for named in re.findall(r"Jarbook ▸\s+([^\n]{5,60})", path.read_text(encoding="utf-8")):
                self.assertTrue(any(named.startswith(entry) for entry in entries), f"{path.name}: {named}")
                told += 1
        self.assertGreater(told, 12)


class Words(unittest.TestCase):
    def test_words_out_of_use(self):
        gone = re.compile(r"\bthe office\b|\bthis office\b|\bRun book\b|\bdo as well\b|\ba (jar|run|line) a (line|row|jar)\b|"
                          r"\bwished\b|\b[Ll]ight boxes\b|\bL pure\b(?! *\\?n? *alcohol)")
        files = sorted(TEXTS.glob("*.toml")) + sorted((ROOT / "extension" / "catalogue").glob("*")) + [ROOT / "README.md"]
        for path in files:
            for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
                if not line.startswith("#"):
                    self.assertIsNone(gone.search(line.replace("\\n", " ")), f"{path.name}:{number}: {line.strip()[:90]}")

    def test_no_choice_of_ones_own_table_begins_a_published_entry(self):
        """LibreOffice would complete it to that entry, which the box then refuses."""
        with open(ROOT / "sample-workbooks" / "data" / "printed-values.csv", encoding="utf-8", newline="") as file:
            entries = [row["entry"].lower() for row in csv.DictReader(file)]
        for choice in toml("printed_tables.toml")["task"].values():
            self.assertFalse([entry for entry in entries if entry.startswith(choice.lower())], choice)


if __name__ == "__main__":
    unittest.main()
