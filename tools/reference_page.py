"""The reference of the functions as an HTML page, and how values of the catalogue are written there.

Used by catalogue.py; reference_markdown.py has the same page for the repository.
"""
import html
import tomllib


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


def signature(function):
    names = [f"[{a['name']}]" if a.get("optional") else a["name"] for a in function["argument"]]
    return f"{function['display']}({'; '.join(names)})"


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
    """The cautions: the words that head each, and its text."""
    texts = tomllib.loads((folder.parent / "texts" / "cautions.toml").read_text(encoding="utf-8"))
    return [(lead, texts["caution"][key]) for key, lead in texts["lead"].items()]


def preface(folder):
    items = "\n".join(f"<li><b>{html.escape(lead)}</b> {html.escape(text)}" for lead, text in cautions(folder))
    return (folder / "preface.html").read_text(encoding="utf-8").replace("{cautions}", items)


def shown_error(example, errors):
    """What the cell of an example shows that is refused."""
    shown = next((x["shown"] for x in errors if x["code"] == example["error"]), None)
    if shown is None:
        raise Mistake(f"{example['call']}: error {example['error']} is not in errors.toml")
    return shown


def result_lines(example):
    """The result of an example, a line for each of its rows."""
    result = example["result"]
    if isinstance(result, list):
        return ["; ".join(plain(v) for v in row) if isinstance(row, list) else plain(row) for row in result]
    return result.split("\n") if isinstance(result, str) else [plain(result)]


def cells_lines(example):
    """The cells that an example needs filled: A1:A3 = 0.5; (blank); 80."""
    return [f"{column}1:{column}{len(values)} = " + "; ".join("(blank)" if v == "" else plain(v) for v in values)
            for column, values in example.get("cells", {}).items()]


def left_out(argument):
    if not argument.get("optional"):
        return ""
    return plain(argument["default"]) if "default" in argument else "allowed"


def shown_result(example, errors):
    if "error" in example:
        return f"<code>{html.escape(shown_error(example, errors))}</code>"
    return "<br>".join(map(html.escape, result_lines(example))) or "<i>(empty text)</i>"


def example_rows(function, errors):
    rows = []
    for example in function["example"]:
        cells = "".join(f"<br><span class=source>{html.escape(line)}</span>" for line in cells_lines(example))
        rows.append(f"<tr><td><code>={html.escape(example['call'])}</code>{cells}"
                    f"<td>{shown_result(example, errors)}<td class=source>{html.escape(example['source'])}")
    return rows


def note_parts(group):
    """The paragraphs of a group's note, each with its items if its lines begin with "- "."""
    for part in filter(None, group["note"].strip().split("\n\n")):
        lines = part.split("\n")
        yield part, [line[2:] for line in lines] if all(line.startswith("- ") for line in lines) else []


def note(group):
    return ["<ul>" + "".join(f"<li>{html.escape(item)}" for item in items) + "</ul>" if items
            else f"<p>{html.escape(text)}" for text, items in note_parts(group)]


def page(groups, errors, version, folder):
    e = html.escape
    out = ["<!DOCTYPE html><html lang=en><meta charset=utf-8>",
           f"<title>Jarbook {e(version)}: the functions</title><style>{STYLE}</style>",
           f"<h1>Jarbook {e(version)}: the functions</h1>", preface(folder)]
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
        out += note(group)
        for f in group["functions"]:
            out.append(f"<h3 id='{f['method']}'>{e(signature(f))}</h3>")
            out.append(f"<p>{e(f['summary'])} Gives <b>{e(f['gives'])}</b>.")
            if f["note"]:
                out.append(f"<p>{e(f['note'])}")
            if f["argument"]:
                out.append("<table><tr><th>Argument<th>Meaning<th>Unit and range<th>If left out")
                for a in f["argument"]:
                    out.append(f"<tr><td><code>{e(a['name'])}</code><td>{e(a['text'])}"
                               f"<td>{e(limits(a))}<td>{e(left_out(a))}")
                out.append("</table>")
            out.append("<table><caption>Examples<tr><th>Formula<th>Gives<th>From")
            out += example_rows(f, errors)
            out.append("</table>")
            out.append(f"<p class=source>Source: {e(f['source'])}")
    return "\n".join(out) + "\n"
