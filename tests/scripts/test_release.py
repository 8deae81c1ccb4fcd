#!/usr/bin/env python3
"""What scripts/release and scripts/test-arm64 lean on: the .xlsx that is packed anew, the cells that are compared."""
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest
import zipfile

sys.dont_write_bytecode = True
ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "scripts"))

import compare_values  # noqa: E402


def chart(one, other, points="3"):
    return (f'<c:chart><c:pts val="{points}"/><c:axId val="{one}"/><c:axId val="{other}"/><c:valAx><c:axId val="{one}"/>'
            f'<c:crossAx val="{other}"/></c:valAx></c:chart>')


def core(time):
    return f'<cp><dcterms:created xsi:type="dcterms:W3CDTF">{time}</dcterms:created><dc:title>Run</dc:title></cp>'


class Repacked(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def repacked(self, parts):
        stored, packed = (pathlib.Path(self.folder.name) / name for name in ("stored.xlsx", "packed.xlsx"))
        with zipfile.ZipFile(stored, "w") as package:
            for name, text in parts:
                package.writestr(name, text)
        subprocess.run([sys.executable, "-B", ROOT / "tools/repack_xlsx.py", stored, packed], check=True)
        return packed.read_bytes(), zipfile.ZipFile(packed)

    def parts(self, one="7123", other="99", time="2026-01-01T10:00:00Z", points="3"):
        return [("xl/worksheets/sheet2.xml", "<b/>"), ("xl/worksheets/sheet1.xml", '<axId val="7123"/>'),
                ("[Content_Types].xml", "<types/>"), ("docProps/core.xml", core(time)),
                ("xl/charts/chart1.xml", chart(one, other, points))]

    def test_the_same_content_gives_the_same_bytes(self):
        first, _ = self.repacked(self.parts())
        again, _ = self.repacked(list(reversed(self.parts("41", "5000", "2027-02-03T04:05:06Z"))))
        self.assertEqual(first, again)

    def test_other_content_gives_others(self):
        self.assertNotEqual(self.repacked(self.parts())[0], self.repacked(self.parts(points="4"))[0])

    def test_axes_still_belong_together_and_nothing_else_changes(self):
        _, package = self.repacked(self.parts())
        self.assertEqual(package.namelist()[0], "[Content_Types].xml")
        text = package.read("xl/charts/chart1.xml").decode()
        self.assertEqual(re.findall(r'(axId|crossAx) val="(\d+)"', text),
                         [("axId", "1"), ("axId", "2"), ("axId", "1"), ("crossAx", "2")])
        self.assertIn('<c:pts val="3"/>', text)
        self.assertEqual(package.read("xl/worksheets/sheet1.xml"), b'<axId val="7123"/>')
        self.assertEqual(package.read("docProps/core.xml"), b"<cp><dc:title>Run</dc:title></cp>")


class Compared(unittest.TestCase):
    CELLS = {("Run 1", "A1"): ("n", "53.67"), ("Run 1", "A2"): ("t", "hearts"), ("Run 1", "A3"): ("n", "0.001")}

    def test_equal(self):
        self.assertEqual(compare_values.compared(self.CELLS, dict(self.CELLS), 1e-12), ([], []))

    def test_within_is_counted_and_beyond_is_wrong(self):
        near = {**self.CELLS, ("Run 1", "A1"): ("n", "53.670000000000009")}
        wrong, distances = compare_values.compared(self.CELLS, near, 1e-12)
        self.assertEqual((len(wrong), len(distances)), (0, 1))
        far = {**self.CELLS, ("Run 1", "A3"): ("n", "0.00100001")}
        self.assertEqual(len(compare_values.compared(self.CELLS, far, 1e-12)[0]), 1)

    def test_texts_kinds_and_missing_cells_are_wrong(self):
        for other in ({**self.CELLS, ("Run 1", "A2"): ("t", "tails")}, {**self.CELLS, ("Run 1", "A1"): ("e", "502")},
                      {place: cell for place, cell in self.CELLS.items() if place[1] != "A2"},
                      {**self.CELLS, ("Run 2", "A1"): ("n", "1")}):
            self.assertEqual(len(compare_values.compared(self.CELLS, other, 1e-12)[0]), 1)


if __name__ == "__main__":
    unittest.main()
