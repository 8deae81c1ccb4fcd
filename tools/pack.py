#!/usr/bin/env python3
"""Packs files into a zip that depends on nothing but their content and order.

    pack.py OUT FOLDER NAME...     the names are relative to the folder and stand so in the zip

One date and one set of permissions for all, so that the same files give the same bytes.
"""
import pathlib
import sys
import zipfile

DATE = (2000, 1, 1, 0, 0, 0)


def entry(name):
    result = zipfile.ZipInfo(name, DATE)
    result.compress_type = zipfile.ZIP_DEFLATED
    result.create_system = 3  # Unix, whose permissions follow
    result.external_attr = 0o100644 << 16
    return result


def main():
    if len(sys.argv) < 4:
        sys.exit(__doc__)
    out, folder = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as package:
        for name in sys.argv[3:]:
            package.writestr(entry(name), (folder / name).read_bytes())


if __name__ == "__main__":
    main()
