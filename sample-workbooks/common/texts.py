"""The texts that a person reads: extension/texts/*.toml."""
import functools
import pathlib
import re
import tomllib

FOLDER = pathlib.Path(__file__).resolve().parents[2] / "extension" / "texts"


@functools.cache
def texts(name):
    """The texts of extension/texts/NAME.toml."""
    return tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


def in_formula(text, **places):
    """A text as a formula has to write it, with a formula at each of its named places:
    in_formula("no: {bad} of 9", bad="A1+1") is "no: "&(A1+1)&" of 9"."""
    out = []
    for i, part in enumerate(re.split(r"\{([a-z_]+)\}", text)):
        if i % 2:
            out.append(f"({places[part]})")
        elif part:
            out.append('"' + part.replace('"', '""') + '"')
    return "&".join(out) or '""'
