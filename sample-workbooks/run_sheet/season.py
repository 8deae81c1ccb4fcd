"""Reads the invented runs of the worked example: of a little pot (data/little-pot.toml) and of a house
(data/season.toml), with one CSV of jars per run."""
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


# Description, and how the files of the jars are called
SEASONS = (("little-pot.toml", "little-pot-{}.csv"), ("season.toml", "run-{}.csv"))


def runs():
    """(name of the sheet, data for the run sheet) for each run, in the order of the sheets."""
    for description, jars in SEASONS:
        season = tomllib.loads((FOLDER / description).read_text(encoding="utf-8"))
        for number, run in enumerate(season["run"], 1):
            data = season["house"] | run | {"jars": _jars(FOLDER / jars.format(number))}
            yield data.pop("name"), data
