#!/usr/bin/env python3
"""Makes from the catalogue (extension/catalogue/*.toml) what depends on it.

    catalogue.py FOLDER VERSION OUT

writes into OUT: CalcAddIns.xcu (what the office shows of each function), functions.html (the
reference page, with the cautions of ../texts/cautions.toml), functions.md (the same for the repository,
kept as docs/functions.md) and catalogue_data.cpp (the table for the binding and the tests). Fails on an
entry that is not whole, naming it.
"""
import pathlib
import sys
import tomllib
from xml.sax.saxutils import escape

import reference_markdown
import reference_page
from reference_page import Mistake, limits, plain

SERVICE = "org.jarbook.Spirit"
PREFIX = "SPIRIT."
KINDS = {"number", "list", "rows", "words", "word", "flag"}
FUNCTION_KEYS = {"method", "in_order", "gives", "summary", "note", "source", "argument", "example"}
ARGUMENT_KEYS = {"name", "kind", "optional", "default", "unit", "range", "above", "refuses_zero",
                 "wish", "blanks", "measures", "text"}
# What an argument is to Check this sheet, which looks at such values whatever the function.
MEASURES = ("nothing", "strength", "temperature", "amount", "cut")
EXAMPLE_KEYS = {"call", "cells", "result", "tolerance", "error", "source"}


def check(where, table, allowed, required):
    unknown = set(table) - allowed
    missing = [key for key in required if key not in table]
    if unknown or missing:
        raise Mistake(f"{where}: unknown {sorted(unknown)}, missing {missing}")


def load(folder):
    groups = []
    for path in sorted(folder.glob("[0-9]*.toml")):
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        functions = data.get("function", [])
        for function in functions:
            where = f"{path.name}, {function.get('method', '?')}"
            check(where, function, FUNCTION_KEYS, ["method", "gives", "summary", "source"])
            function["display"] = PREFIX + function["method"].upper()
            function.setdefault("argument", [])
            function.setdefault("note", "")
            if not function.get("example"):
                raise Mistake(f"{where}: no example")
            for argument in function["argument"]:
                check(f"{where}, {argument.get('name', '?')}", argument, ARGUMENT_KEYS,
                      ["name", "text"])
                argument.setdefault("kind", "number")
                if argument["kind"] not in KINDS:
                    raise Mistake(f"{where}, {argument['name']}: kind {argument['kind']}")
                if argument.setdefault("measures", "nothing") not in MEASURES:
                    raise Mistake(f"{where}, {argument['name']}: measures {argument['measures']}")
            for example in function["example"]:
                check(f"{where}, example", example, EXAMPLE_KEYS, ["call", "source"])
                if ("result" in example) == ("error" in example):
                    raise Mistake(f"{where}: {example['call']} needs either result or error")
                if "result" in example and "tolerance" not in example:
                    example["tolerance"] = 0.0
        check(path.name, data, {"group", "note", "function"}, ["group"])
        groups.append({"name": data["group"], "note": data.get("note", ""),
                       "functions": functions})
    errors = tomllib.loads((folder / "errors.toml").read_text(encoding="utf-8"))["error"]
    return groups, errors


def argument_help(argument):
    parts = [argument["text"]]
    bounds = limits(argument)
    if bounds:
        parts.append(f"[{bounds}]")
    if argument["kind"] in ("list", "rows", "words") and not argument.get("optional"):
        # Calc takes an argument of the IDL's type any, the only one that gets a range, for optional.
        parts.append("Needed, though LibreOffice marks it as optional.")
    if argument.get("optional"):
        default = argument.get("default")
        parts.append(f"May be left out: {plain(default)}." if default is not None
                     else "May be left out.")
    return " ".join(parts)


def xcu(groups):
    out = ['<?xml version="1.0" encoding="UTF-8"?>',
           '<!-- Made from extension/catalogue by tools/catalogue.py. -->',
           '<oor:component-data xmlns:oor="http://openoffice.org/2001/registry"'
           ' xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="CalcAddIns"'
           ' oor:package="org.openoffice.Office">',
           ' <node oor:name="AddInInfo">',
           f'  <node oor:name="{SERVICE}" oor:op="replace">',
           '   <node oor:name="AddInFunctions">']

    def prop(indent, name, text, lang=' xml:lang="en"'):
        out.append(f'{indent}<prop oor:name="{name}"><value{lang}>{escape(text)}</value></prop>')

    for group in groups:
        for function in group["functions"]:
            out.append(f'    <node oor:name="{function["method"]}" oor:op="replace">')
            prop("     ", "DisplayName", function["display"])
            prop("     ", "Description", f"{function['summary']} Gives {function['gives']}.")
            # No CompatibilityName: LibreOffice 25.2 would store it in .xlsx, where 7.4 does not find it.
            prop("     ", "Category", "Add-In", "")
            out.append('     <node oor:name="Parameters">')
            for argument in function["argument"]:
                out.append(f'      <node oor:name="{argument["name"]}" oor:op="replace">')
                prop("       ", "DisplayName", argument["name"])
                prop("       ", "Description", argument_help(argument))
                out.append('      </node>')
            out.append('     </node>')
            out.append('    </node>')
    out += ['   </node>', '  </node>', ' </node>', '</oor:component-data>', '']
    return "\n".join(out)


def cpp_text(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


def cpp_number(value):
    return "none" if value is None else repr(float(value))


def cpp_value(value):
    if isinstance(value, bool):
        return f"Value{{{float(value)!r}}}"
    if isinstance(value, str):
        return f"Value{{std::string_view{{{cpp_text(value)}}}}}"
    return f"Value{{{float(value)!r}}}"


class Arrays:
    """Constant arrays in C++, one after the other; gives each a name."""

    def __init__(self):
        self.lines = []

    def add(self, kind, items):
        if not items:
            return "{}"
        name = f"array_{len(self.lines)}"
        self.lines.append(f"constexpr {kind} {name}[] = {{{', '.join(items)}}};")
        return name


def cpp_argument(argument):
    low, high = argument.get("range", (argument.get("above"), None))
    flags = ["above" in argument] + [bool(argument.get(key))
                                     for key in ("refuses_zero", "wish", "blanks")]
    return "{%s}" % ", ".join(
        [cpp_text(argument["name"]), f"Kind::{argument['kind']}",
         str(bool(argument.get("optional"))).lower(), cpp_text(argument.get("unit", "")),
         cpp_number(low), cpp_number(high)] + [str(flag).lower() for flag in flags]
        + [f"Measure::{argument['measures']}"]
        + [cpp_text(argument["text"]), cpp_text(argument_help(argument))])


def cpp_example(arrays, example):
    cells = [f"{{{cpp_text(column)}, {arrays.add('Value', list(map(cpp_value, values)))}}}"
             for column, values in example.get("cells", {}).items()]
    result = example.get("result", [])
    rows = [row if isinstance(row, list) else [row]
            for row in (result if isinstance(result, list) else [result])]
    rows = [arrays.add("Value", list(map(cpp_value, row))) for row in rows]
    return "{%s}" % ", ".join(
        [cpp_text(example["call"]), arrays.add("Cells", cells),
         arrays.add("std::span<const Value>", rows), repr(float(example.get("tolerance", 0.0))),
         str(example.get("error", 0)), cpp_text(example["source"])])


def cpp(groups, errors, odd):
    arrays = Arrays()
    functions = []
    for group in groups:
        for f in group["functions"]:
            texts = [f["method"], f["display"], group["name"], f["gives"], f["summary"],
                     f["note"], f["source"]]
            arguments = arrays.add("Argument", list(map(cpp_argument, f["argument"])))
            examples = arrays.add("Example", [cpp_example(arrays, x) for x in f["example"]])
            in_order = str(bool(f.get("in_order"))).lower()
            functions.append("{%s}" % ", ".join([*map(cpp_text, texts), in_order, arguments, examples]))
    table = arrays.add("Function", functions)
    error_table = arrays.add("Error", ["{%d, %s}" % (x["code"], ", ".join(
        cpp_text(x[k]) for k in ("shown", "kind", "meaning", "remedy"))) for x in errors])
    return "\n".join([
        "// Made from extension/catalogue by tools/catalogue.py.", '#include "catalogue.hpp"', "",
        "namespace jarbook::catalogue {", "", "namespace {", "",
        "[[maybe_unused]] constexpr double none = std::numeric_limits<double>::quiet_NaN();",
        *arrays.lines, "", "} // namespace", "",
        f"std::span<const Function> functions() {{ return {table}; }}",
        f"std::span<const Error> errors() {{ return {error_table}; }}", "",
        *(f"const double {name} = {float(value)!r};" for name, value in odd.items()), "",
        "} // namespace jarbook::catalogue", ""])


def main():
    folder, version, target = pathlib.Path(sys.argv[1]), sys.argv[2], pathlib.Path(sys.argv[3])
    try:
        groups, errors = load(folder)
        odd = tomllib.loads((folder / "look_again.toml").read_text(encoding="utf-8"))
        made = {"CalcAddIns.xcu": xcu(groups),
                "functions.html": reference_page.page(groups, errors, version, folder),
                "functions.md": reference_markdown.page(groups, errors, version, folder),
                "catalogue_data.cpp": cpp(groups, errors, odd)}
    except Mistake as mistake:
        sys.exit(f"catalogue: {mistake}")
    target.mkdir(parents=True, exist_ok=True)
    for name, text in made.items():
        (target / name).write_text(text, encoding="utf-8")


main()
