#!/usr/bin/env python3
"""Packs an .xlsx that LibreOffice has stored once more, so that the same content gives the same bytes.

    repack_xlsx.py IN OUT

LibreOffice draws the numbers of a chart's axes at random, writes the time, and stores sheets as its threads
finish them: the axes are numbered in the order in which they stand, the times are left out, the parts are
sorted (the list of their types first), and the package gets one date (pack.py's).
"""
import re
import sys
import zipfile

from pack import DATE, entry

AXIS = re.compile(r'(<c:(?:axId|crossAx) val=")(\d+)(")')
TIMES = re.compile(r"<dcterms:(created|modified)\b[^>]*>[^<]*</dcterms:\1>")


def numbered_axes(text):
    numbers = {}
    return AXIS.sub(lambda m: f"{m[1]}{numbers.setdefault(m[2], len(numbers) + 1)}{m[3]}", text)


def settled(name, content):
    """A part without what LibreOffice makes up anew each time."""
    if name.startswith("xl/charts/") and name.endswith(".xml"):
        return numbered_axes(content.decode("utf-8")).encode("utf-8")
    if name == "docProps/core.xml":
        return TIMES.sub("", content.decode("utf-8")).encode("utf-8")
    return content


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    with zipfile.ZipFile(sys.argv[1]) as stored, \
            zipfile.ZipFile(sys.argv[2], "w", zipfile.ZIP_DEFLATED, compresslevel=9) as package:
        for name in sorted(stored.namelist(), key=lambda name: (name != "[Content_Types].xml", name)):
            package.writestr(entry(name), settled(name, stored.read(name)))


if __name__ == "__main__":
    main()
