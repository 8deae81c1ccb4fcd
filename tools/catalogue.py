#!/usr/bin/env python3
"""Makes from the catalogue (extension/catalogue/*.toml) what depends on it.

    catalogue.py FOLDER VERSION OUT

writes into OUT: CalcAddIns.xcu (what the office shows of each function), functions.html (the
reference page, with the cautions of ../texts/cautions.toml) and catalogue_data.cpp (the table for the
binding and the tests). Fails on an entry that is not whole, naming it.
"""
import html
import pathlib
import sys
import tomllib
from xml.sax.saxutils import escape

SERVICE = "org.jarbook.Spirit"
PREFIX = "SPIRIT."
KINDS = {"number", "list", "rows", "words", "word", "flag"}
FUNCTION_KEYS = {"method", "in_order", "gives", "summary", "note", "source", "argument", "example"}
ARGUMENT_KEYS = {"name", "kind", "optional", "default", "unit", "range", "above", "refuses_zero",
                 "wish", "blanks", "measures", "text"}
# What an argument is to Check this sheet, which looks at such values whatever the function.
MEASURES = ("nothing", "strength", "temperature", "amount", "cut")
EXAMPLE_KEYS = {"call", "cells", "result", "tolerance", "error", "source"}


class Mistake(Exception):
    pass


def plain(number):
    """A number as a person writes it: 25e-6 and 0.05 and 100."""
    if isinstance(number, bool):
        return str(number).upper()
    if isinstance(number, str):
        return number
    text = f"{abs(number):.10g}".replace("e-0", "e-")
    return "−" + text if number < 0 else text


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


def limits(argument):
    """'-20 to 40 °C', 'above 0 L', or the unit alone."""
    unit = argument.get("unit", "")
    spaced = f" {unit}" if unit else ""
    if "range" in argument:
        low, high = argument["range"]
        return f"{plain(low)} to {plain(high)}{spaced}"
    if "above" in argument:
        return f"above {plain(argument['above'])}{spaced}"
    return unit


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


def signature(function):
    names = [f"[{a['name']}]" if a.get("optional") else a["name"] for a in function["argument"]]
    return f"{function['display']}({'; '.join(names)})"


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


STYLE = """
body { font: 15px/1.45 sans-serif; color: #222; background: #fff; max-width: 52em;
       margin: 2em auto; padding: 0 1em; }
h1 { font-size: 1.5em; } h2 { margin-top: 2.2em; border-bottom: 1px solid #bbb; font-size: 1.25em; }
h3 { margin: 1.8em 0 .3em; font: bold 1em monospace; }
table { border-collapse: collapse; margin: .4em 0; } caption { text-align: left; color: #555; }
td, th { border: 1px solid #ccc; padding: .2em .6em; text-align: left; vertical-align: top; }
th { background: #f3f3f3; font-weight: normal; }
code { font-family: monospace; white-space: nowrap; } .source { color: #555; font-size: .92em; }
.caution { border: 2px solid #222; padding: 0 1em; } .caution ul { padding-left: 1.2em; }
@media print { body { margin: 0; max-width: none; } h3 { page-break-after: avoid; } }
"""


def cautions(folder):
    """The cautions as items of a list, each with the words that head it in bold."""
    texts = tomllib.loads((folder.parent / "texts" / "cautions.toml").read_text(encoding="utf-8"))
    return "\n".join(f"<li><b>{html.escape(lead)}</b> {html.escape(texts['caution'][key])}"
                     for key, lead in texts["lead"].items())


def shown_result(example, errors):
    if "error" in example:
        shown = next((x["shown"] for x in errors if x["code"] == example["error"]), None)
        if shown is None:
            raise Mistake(f"{example['call']}: error {example['error']} is not in errors.toml")
        return f"<code>{html.escape(shown)}</code>"
    result = example["result"]
    if isinstance(result, list):
        rows = ["; ".join(plain(v) for v in row) if isinstance(row, list) else plain(row)
                for row in result]
        return "<br>".join(html.escape(row) for row in rows)
    if isinstance(result, str):
        return html.escape(result).replace("\n", "<br>") or "<i>(empty text)</i>"
    return plain(result)


def example_rows(function, errors):
    rows = []
    for example in function["example"]:
        cells = "".join(
            f"<br><span class=source>{column}1:{column}{len(values)} = "
            + html.escape("; ".join("(blank)" if v == "" else plain(v) for v in values)) + "</span>"
            for column, values in example.get("cells", {}).items())
        rows.append(f"<tr><td><code>={html.escape(example['call'])}</code>{cells}"
                    f"<td>{shown_result(example, errors)}<td class=source>{html.escape(example['source'])}")
    return rows


def paragraph(text):
    """A paragraph of a group's note; one whose lines begin with "- " is a list."""
    items = text.split("\n")
    if not all(item.startswith("- ") for item in items):
        return f"<p>{html.escape(text)}"
    return "<ul>" + "".join(f"<li>{html.escape(item[2:])}" for item in items) + "</ul>"


def page(groups, errors, version, preface):
    e = html.escape
    out = ["<!DOCTYPE html><html lang=en><meta charset=utf-8>",
           f"<title>Jarbook {e(version)}: the functions</title><style>{STYLE}</style>",
           f"<h1>Jarbook {e(version)}: the functions</h1>", preface]
    out.append("<ul>" + "".join(
        f"<li>{e(g['name'])}: " + ", ".join(
            f"<a href='#{f['method']}'>{e(f['display'])}</a>" for f in g["functions"])
        for g in groups if g["functions"]) + "</ul>")
    out.append("<h2 id=errors>What the error values mean</h2><table>"
               "<tr><th>Cell shows<th>Code<th>Meaning<th>What to do")
    out += [f"<tr><td><code>{e(x['shown'])}</code><td>{x['code']}<td>{e(x['meaning'])}"
            f"<td>{e(x['remedy'])}" for x in errors]
    out.append("</table>")
    for group in groups:
        if not group["functions"]:
            continue
        out.append(f"<h2>{e(group['name'])}</h2>")
        out += [paragraph(part) for part in group["note"].strip().split("\n\n") if part]
        for f in group["functions"]:
            out.append(f"<h3 id='{f['method']}'>{e(signature(f))}</h3>")
            out.append(f"<p>{e(f['summary'])} Gives <b>{e(f['gives'])}</b>.")
            if f["note"]:
                out.append(f"<p>{e(f['note'])}")
            if f["argument"]:
                out.append("<table><tr><th>Argument<th>Meaning<th>Unit and range<th>If left out")
                for a in f["argument"]:
                    left = ("" if not a.get("optional")
                            else plain(a["default"]) if "default" in a else "allowed")
                    out.append(f"<tr><td><code>{e(a['name'])}</code><td>{e(a['text'])}"
                               f"<td>{e(limits(a))}<td>{e(left)}")
                out.append("</table>")
            out.append("<table><caption>Examples<tr><th>Formula<th>Gives<th>From")
            out += example_rows(f, errors)
            out.append("</table>")
            out.append(f"<p class=source>Source: {e(f['source'])}")
    return "\n".join(out) + "\n"


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


def cpp(groups, errors, limits):
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
        *(f"const double {name} = {float(value)!r};" for name, value in limits.items()), "",
        "} // namespace jarbook::catalogue", ""])


def main():
    folder, version, target = pathlib.Path(sys.argv[1]), sys.argv[2], pathlib.Path(sys.argv[3])
    try:
        groups, errors = load(folder)
        limits = tomllib.loads((folder / "look_again.toml").read_text(encoding="utf-8"))
        preface = (folder / "preface.html").read_text(encoding="utf-8")
        preface = preface.replace("{cautions}", cautions(folder))
        made = {"CalcAddIns.xcu": xcu(groups),
                "functions.html": page(groups, errors, version, preface),
                "catalogue_data.cpp": cpp(groups, errors, limits)}
    except Mistake as mistake:
        sys.exit(f"catalogue: {mistake}")
    target.mkdir(parents=True, exist_ok=True)
    for name, text in made.items():
        (target / name).write_text(text, encoding="utf-8")


main()
