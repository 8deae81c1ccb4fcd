"""The count that scripts/test prints as its last line, from reports as ctest and GoogleTest write them."""

import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

SCRIPT = Path(__file__).resolve().parents[2] / "scripts" / "count_results.py"


def ctest(*cases):
    return f"<testsuite>{''.join(cases)}</testsuite>"


def case(name, status="run", inside=""):
    return f'<testcase name="{name}" status="{status}">{inside}</testcase>'


FAILURE = '<failure message=""/>'


class CountTest(unittest.TestCase):
    def count(self, ctest_status, **reports):
        """Last line and exit status for the reports given as name=text."""
        with tempfile.TemporaryDirectory() as folder:
            for name, text in reports.items():
                (Path(folder) / f"{name}.xml").write_text(text, encoding="utf-8")
            done = subprocess.run([sys.executable, SCRIPT, folder, str(ctest_status)],
                                  capture_output=True, text=True, check=False)
            return done.stdout.splitlines()[-1], done.returncode

    def test_plain_tests_count_as_one(self):
        self.assertEqual(self.count(0, ctest=ctest(case("a"), case("b"))),
                         ("2 passed, 0 failed", 0))

    def test_programs_count_as_what_is_inside(self):
        program = ctest(case("x"), case("y", inside="<skipped/>"), case("z", "notrun"))
        self.assertEqual(self.count(0, ctest=ctest(case("p"), case("a")), p=program),
                         ("2 passed, 0 failed, 2 skipped", 0))

    def test_failures_fail(self):
        program = ctest(case("x"), case("y", inside=FAILURE))
        self.assertEqual(self.count(8, ctest=ctest(case("p", "fail", FAILURE)), p=program),
                         ("1 passed, 1 failed", 1))

    def test_a_crash_after_passed_tests_fails(self):
        self.assertEqual(self.count(8, ctest=ctest(case("p", "fail", FAILURE)), p=ctest(case("x"))),
                         ("1 passed, 1 failed", 1))

    def test_an_unreadable_report_of_a_failed_program_fails(self):
        self.assertEqual(self.count(8, ctest=ctest(case("a"), case("p", "fail", FAILURE)),
                                    p="<testsuite><testca"),
                         ("1 passed, 1 failed", 1))

    def test_a_program_without_tests_fails(self):
        self.assertEqual(self.count(0, ctest=ctest(case("a"), case("p")), p="<testsuites/>"),
                         ("1 passed, 1 failed", 1))

    def test_what_could_not_run_has_failed(self):
        missing = '<skipped message="Unable to find executable"/>'
        skipped = '<skipped message="SKIP_RETURN_CODE=77"/>'
        self.assertEqual(self.count(8, ctest=ctest(case("a"), case("m", "notrun", missing),
                                                   case("s", "notrun", skipped),
                                                   case("d", "disabled"))),
                         ("1 passed, 1 failed, 2 skipped", 1))

    def test_no_test_at_all_fails(self):
        self.assertEqual(self.count(0, ctest=ctest()), ("0 passed, 0 failed", 1))
        self.assertEqual(self.count(8), ("0 passed, 1 failed", 1))

    def test_trouble_of_ctest_itself_fails(self):
        self.assertEqual(self.count(1, ctest=ctest(case("a"))), ("1 passed, 1 failed", 1))


if __name__ == "__main__":
    unittest.main()
