#!/usr/bin/env python3
"""Makes the workbooks of the extension.

    make_workbooks.py CATALOGUE_FOLDER VERSION OUT_FOLDER

writes jarbook-run-log.ots (the blank run log) and jarbook-worked-example.ods. Python's standard
library only; the same sources give the same bytes.
"""
import pathlib
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent))

from book import layout, runsheet, season  # noqa: E402
from book.look import NAMED_STYLES, page_styles  # noqa: E402
from odf.workbook import Workbook  # noqa: E402

RUN_SCALE = 82


def workbook(version, title):
    return Workbook(NAMED_STYLES, page_styles(RUN_SCALE), title, "Small-batch pot distilling",
                    f"Jarbook/{version}")


def run_log(version):
    book = workbook(version, "Run log")
    runsheet.add(book, "Run 1")
    return book


def worked_example(version):
    book = workbook(version, "Worked example of a run log")
    for name, data in season.runs():
        runsheet.add(book, name, data)
    book.name_cells("RunSummary", book.sheets[0], layout.names["run_summary"])
    return book


def main():
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    version, out = sys.argv[2], pathlib.Path(sys.argv[3])
    out.mkdir(parents=True, exist_ok=True)
    run_log(version).save(out / "jarbook-run-log.ots", template=True)
    worked_example(version).save(out / "jarbook-worked-example.ods")


main()
