"""The reference of the functions in Markdown, which hosts of repositories show as a page: docs/functions.md.

Used by catalogue.py. The same content as reference_page.py, whose page is packed with the extension.
"""
import re

from reference_page import (Mistake, cautions, cells_lines, left_out, limits, note_parts, result_lines,
                            shown_error, signature)


def text(words):
    """Words that mean nothing to Markdown, in one line and fit for a table."""
    return re.sub(r"([\\`*_<>\[\]|~$#])", r"\\\1", words.replace("\n", " "))


def code(words):
    return "`" + words.replace("|", "\\|") + "`"


def table(heads, rows):
    line = "| " + " | ".join(heads) + " |"
    return [line, "|" + " --- |" * len(heads), *("| " + " | ".join(row) + " |" for row in rows), ""]


def preface(folder):
    """preface.html, whose few tags have their like in Markdown."""
    page = (folder / "preface.html").read_text(encoding="utf-8")
    words = page[page.index("</div>") + len("</div>"):].replace("&nbsp;", " ")
    words = re.sub(r"</?b>", "**", words)
    if re.search(r"<(?!p>)|&", words):
        raise Mistake("preface.html: a tag that reference_markdown.py does not know")
    paragraphs = [part.strip() for part in words.split("<p>") if part.strip()]
    listed = [f"> - **{text(lead)}** {text(words)}" for lead, words in cautions(folder)]
    return ["> **Cautions**", ">", *listed, "", *(line for part in paragraphs for line in (part, ""))]


def example_row(example, errors):
    call = "<br>".join([code("=" + example["call"]), *map(text, cells_lines(example))])
    result = (code(shown_error(example, errors)) if "error" in example
              else "<br>".join(map(text, result_lines(example))) or "*(empty text)*")
    return [call, result, text(example["source"])]


def described(function, errors):
    out = [f"### {function['method'].upper()}", "", code(signature(function)), "",
           f"{text(function['summary'])} Gives **{text(function['gives'])}**.", ""]
    if function["note"]:
        out += [text(function["note"]), ""]
    if function["argument"]:
        out += table(["Argument", "Meaning", "Unit and range", "If left out"],
                     [[code(a["name"]), text(a["text"]), text(limits(a)), text(left_out(a))]
                      for a in function["argument"]])
    out += table(["Formula", "Gives", "From"], [example_row(x, errors) for x in function["example"]])
    return out + [f"Source: {text(function['source'])}", ""]


def page(groups, errors, version, folder):
    groups = [group for group in groups if group["functions"]]
    out = ["<!-- Made from extension/catalogue by tools/catalogue.py (scripts/docs): not to be edited here. -->",
           f"# Jarbook {version}: the functions", "", *preface(folder)]
    for group in groups:
        links = (f"[{f['display']}](#{f['method'].lower()})" for f in group["functions"])
        out.append(f"- {text(group['name'])}: " + ", ".join(links))
    out += ["", "## What the error values mean", ""]
    out += table(["Cell shows", "Code", "Meaning", "What to do"],
                 [[code(x["shown"]), str(x["code"]), text(x["meaning"]), text(x["remedy"])] for x in errors])
    for group in groups:
        out += [f"## {text(group['name'])}", ""]
        for words, items in note_parts(group):
            out += [f"- {text(item)}" for item in items] if items else [text(words)]
            out.append("")
        for function in group["functions"]:
            out += described(function, errors)
    return "\n".join(out).rstrip() + "\n"
