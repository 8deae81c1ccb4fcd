"""Counts what was tested: count_results.py FOLDER STATUS

FOLDER holds ctest.xml, ctest's own JUnit report, and for each GoogleTest program the report it
wrote itself, named as the test is in ctest. A program counts as the tests inside it; one that
failed without a failed test in its report (it crashed, was ended, or wrote none) counts as one
failure more; any other test counts as one. STATUS is ctest's exit status. The last line printed
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


def outcomes(folder):
    for case in ElementTree.parse(folder / "ctest.xml").iter("testcase"):
        name, outcome = case.get("name"), outcome_in_ctest(case)
        report = folder / f"{name}.xml"
        inside = []
        if report.exists():
            try:
                inside = [(f"{name}: {test.get('classname')}.{test.get('name')}",
                           outcome_in_googletest(test))
                          for test in ElementTree.parse(report).iter("testcase")]
            except ElementTree.ParseError:
                pass
        yield from inside
        if not inside or outcome == FAILED and all(o != FAILED for _, o in inside):
            yield name, outcome


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
