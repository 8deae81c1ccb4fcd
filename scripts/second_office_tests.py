"""Makes the tests of a second office: second_office_tests.py BUILD OFFICE FOLDER

Writes a CTestTestfile.cmake into FOLDER with the tests of BUILD that talk to an office, each run by
scripts/in-office, and their reports put into FOLDER.
"""

import json
import re
import subprocess
import sys
from pathlib import Path

LABELS = "^(e2e|faults)$"


def quoted(text):
    return "[==[" + text + "]==]"


def main():
    build, office, folder = (Path(word).resolve() for word in sys.argv[1:])
    listing = subprocess.run(["ctest", "--test-dir", build, "--show-only=json-v1", "-L", LABELS],
                             check=True, capture_output=True, text=True).stdout
    launcher = Path(__file__).with_name("in-office")
    lines = []
    for test in json.loads(listing)["tests"]:
        properties = {entry["name"]: entry["value"] for entry in test["properties"]}
        environment = [re.sub(r"^GTEST_OUTPUT=.*", f"GTEST_OUTPUT=xml:{folder}/{test['name']}.xml",
                              setting) for setting in properties.get("ENVIRONMENT", [])]
        command = " ".join(quoted(str(word)) for word in [launcher, office, *test["command"]])
        lines.append(f"add_test({quoted(test['name'])} {command})")
        lines.append(f"set_tests_properties({quoted(test['name'])} PROPERTIES TIMEOUT "
                     f"{properties.get('TIMEOUT', 600)} ENVIRONMENT {quoted(';'.join(environment))} "
                     f"LABELS {quoted(';'.join(properties['LABELS']))})")
    (folder / "CTestTestfile.cmake").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return 0 if lines else 1


if __name__ == "__main__":
    sys.exit(main())
