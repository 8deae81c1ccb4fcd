"""The generator of the workbooks: the same bytes each time, formulas as the file stores them, every
named cell its own, every published value whole."""

import csv
import functools
import io
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest
import zipfile
import xml.etree.ElementTree as ElementTree

ROOT = pathlib.Path(__file__).resolve().parents[2]
SOURCES = ROOT / "sample-workbooks"
sys.dont_write_bytecode = True
sys.path.insert(0, str(SOURCES))

from run_sheet import entries, layout, season, sheet as runsheet  # noqa: E402
from odf.formula import split_address, stored  # noqa: E402

WORKBOOKS = ("jarbook-run-log.ots", "jarbook-run-sheet.ots", "jarbook-worked-example.ods")


def make(folder):
    subprocess.run([sys.executable, SOURCES / "make_workbooks.py", ROOT / "extension" / "catalogue",
                    "0.0.0", folder], check=True)
    return [(pathlib.Path(folder) / name).read_bytes() for name in WORKBOOKS]


@functools.cache
def made():
    """The workbooks, made once for all that look into them."""
    with tempfile.TemporaryDirectory() as folder:
        return make(folder)


class Generator(unittest.TestCase):
    def test_same_bytes_each_time(self):
        with tempfile.TemporaryDirectory() as again:
            self.assertEqual(made(), make(again))

    def test_packages_are_whole(self):
        for workbook in made():
            with zipfile.ZipFile(io.BytesIO(workbook)) as package:
                self.assertEqual(package.infolist()[0].filename, "mimetype")
                self.assertEqual(package.infolist()[0].compress_type, zipfile.ZIP_STORED)
                names = set(package.namelist())
                for part in names - {"mimetype"}:
                    ElementTree.fromstring(package.read(part))
                manifest = ElementTree.fromstring(package.read("META-INF/manifest.xml"))
                listed = {path for entry in manifest for key, path in entry.items()
                          if key.endswith("full-path") and not path.endswith("/")}
                self.assertEqual(listed, names - {"mimetype", "META-INF/manifest.xml"})

    def test_the_run_sheet_alone_is_that_of_the_log(self):
        def tables(workbook):
            with zipfile.ZipFile(io.BytesIO(workbook)) as package:
                content = ElementTree.fromstring(package.read("content.xml"))
            found = {}
            for table in content.iter(Reader.TABLE + "table"):
                cells = [[(key, value) for key, value in element.items() if not key.endswith("name")]
                         for element in table.iter()]
                names = [name.items() for name in table.iter(Reader.TABLE + "named-range")]
                found[table.get(Reader.TABLE + "name")] = (cells, names, list(table.itertext()))
            return found

        log, alone = tables(made()[0]), tables(made()[1])
        self.assertEqual(["Guide", "Run 1", "Runs"], list(alone))
        for name, table in alone.items():
            self.assertEqual(log[name], table)

    def test_formulas_as_stored(self):
        for typed, expected in (
                ("=SPIRIT.STRENGTH(D10;$E$10)", "ORG.JARBOOK.SPIRIT.STRENGTH([.D10];[.$E$10])"),
                ("SUM($A$1:B2)", "SUM([.$A$1:.B2])"),
                ("IF('Run 1'.K27=\"\";\"A1\";$'Run 1'.$K$27)",
                 "IF([$'Run 1'.K27]=\"\";\"A1\";[$'Run 1'.$K$27])"),
                ("LOG10(A1)+1E-9", "LOG10([.A1])+1E-9")):
            self.assertEqual(stored(typed), expected)


class RunSheet(unittest.TestCase):
    def test_no_two_names_share_a_cell(self):
        self.assertEqual(len(set(layout.names.values())), len(layout.names))

    def test_every_input_has_help_with_title(self):
        for name, validation in entries.E.items():
            self.assertTrue(validation.title and validation.help, name)
            self.assertLessEqual(len(validation.help), 255, name)  # what Calc shows

    def test_the_invented_runs_fill_named_inputs_only(self):
        tables = {"lots", "botanicals", "jars", "residue_volume"}
        for name, data in season.runs():
            self.assertEqual(set(data) - set(layout.names) - tables, set(), name)
            self.assertLessEqual(len(data["jars"]), layout.JAR_COUNT, name)
        self.assertEqual(set(runsheet.USUAL) - set(layout.names), set())

    def test_the_little_pot_shows_essentials_only(self):
        essential = {"run_date", "run_kind", "boiler_volume", "watts", "stop_strength", "wished_charge",
                     "bottling_strength", "lots", "botanicals", "jars"}
        little = {name: data for name, data in season.runs() if name.startswith("Little pot")}
        self.assertEqual(len(little), 3)
        for name, data in little.items():
            # One has a residue, too, whose strength is wrong on purpose.
            more = {"residue_volume", "residue_reading", "residue_temperature", "run_remarks"}
            self.assertEqual(set(data) - essential, more if name == "Little pot 2" else set())
            self.assertEqual(data["boiler_volume"], 4)
            for jar in data["jars"]:
                self.assertIsNone(jar["clock"])
                self.assertTrue(jar["amount"] and jar["reading"] and jar["temperature"])

    def test_addresses(self):
        self.assertEqual(split_address("AD82"), (29, 82))


class Reader:
    """The formulas of a sheet of a packed workbook, with what they refer to on their own sheet."""

    TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
    REFERENCE = re.compile(r"\[\.\$?([A-Z]+)\$?([0-9]+)(?::\.\$?([A-Z]+)\$?([0-9]+))?\]")

    def __init__(self, table):
        self.formulas, self.boxes, row = {}, set(), 0
        for line in table.iter(self.TABLE + "table-row"):
            column = 0
            for cell in line:
                formula = cell.get(self.TABLE + "formula")
                if formula:
                    self.formulas[column, row] = formula, list(self.areas(formula))
                wide = int(cell.get(self.TABLE + "number-columns-repeated", 1))
                if cell.get(self.TABLE + "content-validation-name"):
                    self.boxes |= {(column + i, row) for i in range(wide)}
                column += wide
            row += int(line.get(self.TABLE + "number-rows-repeated", 1))

    @classmethod
    def areas(cls, formula):
        for left, top, right, bottom in cls.REFERENCE.findall(formula):
            (c, r), (d, s) = split_address(left + top), split_address((right or left) + (bottom or top))
            yield c, r - 1, d, s - 1

    def hanging_on(self, cells):
        """All formulas that are computed anew when one of these is."""
        found, more = set(cells), True
        while more:
            new = {at for at, (_, areas) in self.formulas.items()
                   if at not in found and any(self.meets(area, found) for area in areas)}
            found, more = found | new, new
        return found

    @staticmethod
    def meets(area, cells):
        c, r, d, s = area
        if (d - c + 1) * (s - r + 1) < len(cells):
            return any((i, j) in cells for i in range(c, d + 1) for j in range(r, s + 1))
        return any(c <= i <= d and r <= j <= s for i, j in cells)


class Noticing(unittest.TestCase):
    """A drag of blank cells that is undone is told only to those who listen to where the blank cells came from
    (LibreOffice 7.4): so what reads boxes must hang on a cell that listens to all of them."""

    def test_what_reads_boxes_hangs_on_a_cell_that_listens_to_all_boxes(self):
        with zipfile.ZipFile(io.BytesIO(made()[0])) as package:
            content = ElementTree.fromstring(package.read("content.xml"))
        seen = []
        for table in content.iter(Reader.TABLE + "table"):
            sheet, name = Reader(table), table.get(Reader.TABLE + "name")
            if not sheet.boxes or name == "Printed tables":  # its own rows are no record
                continue
            seen.append(name)
            listening = {at for at, (formula, areas) in sheet.formulas.items() if "ROWS(" in formula and all(
                any(c <= i <= d and r <= j <= s for c, r, d, s in areas) for i, j in sheet.boxes)}
            self.assertTrue(listening, name)
            noticing = sheet.hanging_on(listening)
            reading = {at for at, (_, areas) in sheet.formulas.items()
                       if any(sheet.meets(area, sheet.boxes) for area in areas)}
            self.assertTrue(reading, name)
            forgetful = sorted(reading - noticing)
            self.assertEqual([], [(at, sheet.formulas[at][0]) for at in forgetful][:3], name)
        self.assertIn("Run 1", seen)
        self.assertIn("Season plan", seen)


class PublishedValues(unittest.TestCase):
    def test_each_has_formula_tolerance_reason_and_source(self):
        with open(SOURCES / "data" / "printed-values.csv", encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        self.assertGreater(len(rows), 50)
        for row in rows:
            self.assertNotIn("", row.values(), row)
            self.assertGreater(float(row["tolerance"]), 0, row)
            float(row["printed"])
            self.assertIn("SPIRIT.", row["formula"])


if __name__ == "__main__":
    unittest.main()
