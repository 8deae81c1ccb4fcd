#!/usr/bin/env python3
"""Makes C++ of the texts that the library shows.

    texts.py OUT_FOLDER FILE.toml...

writes OUT_FOLDER/texts/TABLE.hpp for each table, so that a changed sentence compiles only what says
it, and OUT_FOLDER/texts.cpp. A file holds tables of texts, `key = "text"`. A text may have named
places for what is filled in, `{strength}`; a brace itself is written twice. Key by key

    [charge]
    too_strong = "Charge is {strength}, above {limit}."
    no_flame = "No flame."

becomes

    jarbook::texts::charge::too_strong{.strength = "55 % vol", .limit = "40 % vol"}.text()
    jarbook::texts::charge::no_flame        (a std::string_view)

so that a text that is gone, or a place that is not filled, is an error of the compiler. Tables of
the same name in several files are one namespace; a key that is there twice is refused.
"""
import json
import pathlib
import re
import sys
import tomllib

PIECE = re.compile(r"\{\{|\}\}|\{([a-z][a-z0-9_]*)\}|[{}]")
KEY = re.compile(r"[a-z][a-z0-9_]*\Z")


def pieces(text, where):
    """[(is_place, string)...] of a text."""
    out, at = [], 0
    for match in PIECE.finditer(text):
        out.append((False, text[at:match.start()]))
        at = match.end()
        if match[1]:
            out.append((True, match[1]))
        elif match[0] in ("{{", "}}"):
            out.append((False, match[0][0]))
        else:
            raise ValueError(f"{where}: a single {match[0]} in {text!r}")
    out.append((False, text[at:]))
    joined = []
    for is_place, string in out:
        if not is_place and joined and not joined[-1][0]:
            joined[-1] = (False, joined[-1][1] + string)
        elif string:
            joined.append((is_place, string))
    return joined or [(False, "")]


def read(paths):
    """{table: {key: pieces}}."""
    tables = {}
    for path in paths:
        for table, texts in tomllib.loads(pathlib.Path(path).read_text(encoding="utf-8")).items():
            for key, text in texts.items():
                where = f"{pathlib.Path(path).name}, {table}.{key}"
                if not KEY.match(key) or not KEY.match(table):
                    raise ValueError(f"{where}: small letters, digits and _ only")
                if not isinstance(text, str):
                    raise ValueError(f"{where}: a text is needed")
                if key in tables.setdefault(table, {}):
                    raise ValueError(f"{where}: there already")
                tables[table][key] = pieces(text, where)
                if "text" in places(tables[table][key]):
                    raise ValueError(f"{where}: a place of the name text would hide the text itself")
    return tables


def literal(text):
    return json.dumps(text, ensure_ascii=False)


def places(parts):
    return list(dict.fromkeys(string for is_place, string in parts if is_place))


def header(table, texts):
    yield "// Made by tools/texts.py from extension/texts."
    yield "#pragma once\n\n#include <string>\n#include <string_view>\n"
    yield f"namespace jarbook::texts::{table} {{"
    for key, parts in texts.items():
        names = places(parts)
        if not names:
            yield f"inline constexpr std::string_view {key} = {literal(parts[0][1])};"
            continue
        members = " ".join(f"std::string {name};" for name in names)
        yield f"struct {key} {{ {members} std::string text() const; }};"
    yield f"}} // namespace jarbook::texts::{table}"


def source(tables):
    yield from (f'#include "texts/{table}.hpp"' for table in tables)
    for table, texts in tables.items():
        yield f"namespace jarbook::texts::{table} {{"
        for key, parts in texts.items():
            if places(parts):
                appended = "".join(f".append({string if is_place else literal(string)})"
                                   for is_place, string in parts)
                yield (f"std::string {key}::text() const "
                       f"{{ std::string whole; whole{appended}; return whole; }}")
        yield "}"


def write(path, lines):
    """Leaves a file alone that says the same already: its time tells what has to be compiled."""
    text = "\n".join(lines) + "\n"
    if not path.is_file() or path.read_text(encoding="utf-8") != text:
        path.write_text(text, encoding="utf-8")


def main():
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    out, tables = pathlib.Path(sys.argv[1]), read(sys.argv[2:])
    (out / "texts").mkdir(parents=True, exist_ok=True)
    for table, texts in tables.items():
        write(out / "texts" / f"{table}.hpp", header(table, texts))
    (out / "texts.cpp").write_text("\n".join(source(tables)) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
