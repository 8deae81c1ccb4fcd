"""The words of the run sheet, from extension/texts; sentences become parts of formulas."""
import pathlib
import re
import tomllib

_FOLDER = pathlib.Path(__file__).resolve().parents[2] / "extension" / "texts"


def _read(name):
    return tomllib.loads((_FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


T = _read("run_sheet")
CAUTIONS = _read("cautions")


def look_again(name):
    """A figure of the catalogue, beyond which a value is odd; as a formula writes it."""
    figures = tomllib.loads((_FOLDER.parent / "catalogue" / "look_again.toml").read_text(encoding="utf-8"))
    return f"{figures[name]:g}"


def quoted(text):
    """A text as formulas write it; line breaks too."""
    lines = ['"' + line.replace('"', '""') + '"' for line in text.split("\n")]
    return "&CHAR(10)&".join(lines)


def sentence(text, **places):
    """A text with named places as a formula; each place is an expression."""
    out, unused = [], set(places)
    for i, piece in enumerate(re.split(r"\{(\w+)\}", text)):
        if i % 2:
            out.append(places[piece])
            unused.discard(piece)
        elif piece:
            out.append(quoted(piece))
    if unused:
        raise ValueError(f"no place {', '.join(unused)} in: {text}")
    return "&".join(out)


def say(key, **places):
    return sentence(T["say"][key], **places)
