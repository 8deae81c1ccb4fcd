"""Reads the invented runs of the worked example: data/season.toml and one CSV of jars a run."""
import csv
import datetime
import pathlib
import tomllib

FOLDER = pathlib.Path(__file__).parent.parent / "data"


def _jar_value(key, text):
    if text == "":
        return None
    if key == "clock":
        return datetime.time.fromisoformat(text.zfill(5))
    if key in ("cut", "note"):
        return text
    number = float(text)
    return int(number) if number.is_integer() else number


def _jars(path):
    with open(path, encoding="utf-8", newline="") as file:
        return [{key: _jar_value(key, text) for key, text in row.items()} for row in csv.DictReader(file)]


def runs():
    """(name of the sheet, data for runsheet.add) for each run, in order."""
    season = tomllib.loads((FOLDER / "season.toml").read_text(encoding="utf-8"))
    for number, run in enumerate(season["run"], 1):
        data = season["house"] | run | {"jars": _jars(FOLDER / f"run-{number}.csv")}
        yield data.pop("name"), data
