"""Makes the tests of a second office: second_office_tests.py BUILD OFFICE FOLDER

Writes a CTestTestfile.cmake into FOLDER with the tests of BUILD that talk to an office, each run by
scripts/in-office, and with tests that let each office open what the other has stored. Their reports
and files are put into FOLDER.
"""

import json
import re
import subprocess
import sys
from pathlib import Path

LABELS = "^(e2e|faults)$"


def quoted(text):
    return "[==[" + text + "]==]"


def added(name, command, **properties):
    words = " ".join(quoted(str(word)) for word in command)
    settings = " ".join(f"{key} {quoted(value)}" for key, value in properties.items())
    return [f"add_test({quoted(name)} {words})",
            f"set_tests_properties({quoted(name)} PROPERTIES {settings})"]


def exchange(build, folder, inside):
    """Workbooks stored by either office, opened by the other."""
    programs = build / "tests" / "format"
    first, second = folder / "stored-by-first", folder / "stored-by-second"
    for name, launcher, files in [("first", [], first), ("second", inside, second)]:
        yield from added(f"store.{name}", [*launcher, programs / "jarbook-make-format", files],
                         FIXTURES_SETUP=name, TIMEOUT="600")
    for name, launcher, files in [("first", inside, first), ("second", [], second)]:
        test = f"open_what_{name}_stored"
        yield from added(test, [*launcher, programs / "e2e_format"], FIXTURES_REQUIRED=name,
                         TIMEOUT="600", ENVIRONMENT=f"JARBOOK_FORMAT_FILES={files};"
                         f"GTEST_OUTPUT=xml:{folder}/{test}.xml")


def main():
    build, office, folder = (Path(word).resolve() for word in sys.argv[1:])
    listing = subprocess.run(["ctest", "--test-dir", build, "--show-only=json-v1", "-L", LABELS],
                             check=True, capture_output=True, text=True).stdout
    inside = [Path(__file__).resolve().with_name("in-office"), office]
    lines = list(exchange(build, folder, inside))
    for test in json.loads(listing)["tests"]:
        if "command" not in test:
            sys.exit(f"{test['name']} is not built")
        properties = {entry["name"]: entry["value"] for entry in test["properties"]}
        environment = [re.sub(r"^GTEST_OUTPUT=.*", f"GTEST_OUTPUT=xml:{folder}/{test['name']}.xml",
                              setting) for setting in properties.get("ENVIRONMENT", [])]
        lines += added(test["name"], [*inside, *test["command"]],
                       TIMEOUT=str(properties.get("TIMEOUT", 600)),
                       ENVIRONMENT=";".join(environment), LABELS=";".join(properties["LABELS"]))
    (folder / "CTestTestfile.cmake").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
