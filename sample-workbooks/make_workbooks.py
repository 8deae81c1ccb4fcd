#!/usr/bin/env python3
"""Makes the workbooks of the extension.

    make_workbooks.py CATALOGUE_FOLDER VERSION OUT_FOLDER [RUNS]

writes jarbook-run-log.ots (the blank run log, a template), the same as jarbook-run-log.ods,
jarbook-run-sheet.ots (its guide, run sheet and register alone: what the commands take from it, and quick to open) and
jarbook-worked-example.ods; with RUNS also
many-runs.ods, the season of the example's house over and over until there are so many, to measure with. Python's
standard library only; the same sources give the same bytes.
"""
import pathlib
import sys
import tomllib

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).parent))

from common.look import NAMED_STYLES, page_styles  # noqa: E402
from run_sheet import layout, season, sheet as run_sheet  # noqa: E402
from sheets import (functions, guide, instruments, liqueur, looks, printed, runs as register, season_plan, shelf,  # noqa: E402
                    side_by_side)
from odf.workbook import Workbook  # noqa: E402

RUN_SCALE = 97


def workbook(version, title):
    return Workbook(NAMED_STYLES + looks.STYLES + season_plan.STYLES + side_by_side.STYLES, page_styles(RUN_SCALE), title, "Small-batch pot distilling",
                    f"Jarbook/{version}")


def invented(name):
    return tomllib.loads((pathlib.Path(__file__).parent / "data" / f"{name}.toml").read_text(encoding="utf-8"))


def whole(version, title, catalogue, runs, plan=None, sweet=None, checks=None, compared=(), lots=None):
    """A workbook with its guide, its runs ({sheet name: data}), the sheet Runs, the season plan and the others."""
    book = workbook(version, title)
    guide.add(book, any(runs.values()))
    for name, data in runs.items():
        run_sheet.add(book, name, data)
    register.add(book, list(runs))
    side_by_side.add(book, len(runs), compared)
    season_plan.add(book, len(runs), plan)
    liqueur.add(book, sweet)
    instruments.add(book, checks)
    shelf.add(book, len(runs), lots)
    printed.add(book)
    functions.add(book, catalogue)
    return book


def run_log(version, catalogue):
    return whole(version, "Jarbook run log", catalogue, {"Run 1": {}})


def run_sheet_alone(version):
    book = workbook(version, "Jarbook run sheet")
    # As in the log, the sheet that is open has no charts: those of a sheet taken from a document without it were not
    # drawn in a window (LibreOffice 7.4).
    guide.add(book, False)
    run_sheet.add(book, "Run 1", {})
    register.add(book, ["Run 1"])
    return book


def worked_example(version, catalogue):
    book = whole(version, "Jarbook worked example", catalogue, dict(season.runs()), invented("season-plan"), invented("liqueur"),
                 invented("instruments"), ("Run 1", "Run 4", "Run 7", "Run 5"), invented("shelf"))
    first = next(sheet for sheet in book.sheets if sheet.name == "Run 1")
    book.name_cells("RunSummary", first, layout.names["run_summary"])
    return book


def many_runs(version, catalogue, count):
    runs = [data for name, data in season.runs() if name.startswith("Run ")]
    return whole(version, f"{count} runs", catalogue,
                 {f"Run {i + 1}": runs[i % len(runs)] for i in range(count)}, compared=("Run 1", f"Run {count}"))


def main():
    if len(sys.argv) not in (4, 5):
        sys.exit(__doc__)
    catalogue, version, out = pathlib.Path(sys.argv[1]), sys.argv[2], pathlib.Path(sys.argv[3])
    out.mkdir(parents=True, exist_ok=True)
    run_log(version, catalogue).save(out / "jarbook-run-log.ots", template=True)
    run_log(version, catalogue).save(out / "jarbook-run-log.ods")
    run_sheet_alone(version).save(out / "jarbook-run-sheet.ots", template=True)
    worked_example(version, catalogue).save(out / "jarbook-worked-example.ods")
    if len(sys.argv) == 5:
        many_runs(version, catalogue, int(sys.argv[4])).save(out / "many-runs.ods")


main()
