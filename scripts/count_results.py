"""Counts what was tested: count_results.py FOLDER STATUS

FOLDER holds ctest.xml, ctest's own JUnit report, and for each GoogleTest program the report it
wrote itself, named as the test is in ctest. A program counts as the tests inside it; one that
failed without a failed test in its report (it crashed, or was ended), or that ran none, counts as
one failure more; any other test counts as one. STATUS is ctest's exit status. The last line printed
is "N passed, N failed", with ", N skipped" when some were. The exit status is 0 only if something
passed and nothing failed.
"""

import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

PASSED, FAILED, SKIPPED = "passed", "failed", "skipped"


def outcome_in_ctest(case):
    status, skipped = case.get("status"), case.find("skipped")
    if status == "run":
        return PASSED
    # Skipped is what skipped itself or was switched off. Anything else that did not run has failed:
    # its program or a file is missing, or what it needs has failed.
    if status == "disabled" or skipped is not None and "SKIP_" in skipped.get("message", ""):
        return SKIPPED
    return FAILED


def outcome_in_googletest(case):
    if case.find("failure") is not None or case.find("error") is not None:
        return FAILED
    if case.get("status") == "notrun" or case.find("skipped") is not None:
        return SKIPPED
    return PASSED


def tests_inside(report):
    """(name, outcome) of each test in a GoogleTest report; None where there is no whole report."""
    try:
        cases = list(ElementTree.parse(report).iter("testcase"))
    except (OSError, ElementTree.ParseError):
        return None
    return [(f"{report.stem}: {case.get('classname')}.{case.get('name')}",
             outcome_in_googletest(case)) for case in cases]


def outcomes(folder):
    for case in ElementTree.parse(folder / "ctest.xml").iter("testcase"):
        name, outcome = case.get("name"), outcome_in_ctest(case)
        inside = tests_inside(folder / f"{name}.xml")
        if inside is None:
            yield name, outcome
            continue
        yield from inside
        unexplained = outcome == FAILED and all(o != FAILED for _, o in inside)
        if unexplained or not inside:
            yield name, FAILED


def main():
    folder, status = Path(sys.argv[1]), int(sys.argv[2])
    try:
        found = list(outcomes(folder))
    except (OSError, ElementTree.ParseError) as trouble:
        print(f"no report of ctest: {trouble}", file=sys.stderr)
        found = []
    count = {kind: sum(1 for _, outcome in found if outcome == kind)
             for kind in (PASSED, FAILED, SKIPPED)}
    if status != 0 and count[FAILED] == 0:
        found.append(("ctest itself", FAILED))
        count[FAILED] = 1
    print()
    for name, outcome in found:
        if outcome != PASSED:
            print(f"{outcome}: {name}")
    line = f"{count[PASSED]} passed, {count[FAILED]} failed"
    if count[SKIPPED]:
        line += f", {count[SKIPPED]} skipped"
    print(line, flush=True)
    return 0 if count[PASSED] and not count[FAILED] else 1


if __name__ == "__main__":
    sys.exit(main())
