"""What each input accepts, and the help that Calc shows beside it. Numbers are not refused on typing:
the sheet itself names what it cannot use, in words that quote what was typed."""
from odf.workbook import Validation, a_date, one_of

from .texts import T

KINDS, CUTS, LOT_KINDS = T["choice"]["kinds"], T["choice"]["cuts"], T["choice"]["lot_kinds"]
YES_NO, JAR_UNITS = T["choice"]["yes_no"], T["choice"]["jar_units"]
_LISTS = {"run_kind": KINDS, "jar_cut": CUTS, "lot_kind": LOT_KINDS, "whole_jars": YES_NO, "jar_unit": JAR_UNITS,
          "duty_unit": T["choice"]["duty_units"]}


def _validation(name, title, text):
    if name in _LISTS:
        words = _LISTS[name]
        return Validation(title, text, one_of(*words), T["choice"]["list_only"].format(list=", ".join(words)))
    if name == "run_date" or name.endswith("_checked"):
        return Validation(title, text, a_date(), text, stop=False)
    return Validation(title, text)


E = {name: _validation(name, title, text) for name, (title, text) in T["help"].items()}
