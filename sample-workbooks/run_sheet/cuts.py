"""After: what each cut holds, as chosen and as suggested; the residue as measured."""
from . import layout as L, read
from .layout import at, jars
from .pad import blank_if, empty
from .texts import T

LISTS = f"{jars(L.VOLUME)};{jars(L.STRENGTH)}"
READY = f"{at.jars_ready}=0"
CHOSEN = blank_if(READY, f"{at.cuts_chosen}<{at.jars_complete}")


def table(pad):
    pad.band(L.AFTER, "after")
    pad.sheet.breaks.add(L.AFTER)
    head = L.CUT_HEAD
    pad.sheet.heights[head] = 8.5
    pad.heading(f"A{head}", T["heading"]["chosen"], f"B{head}")
    for column, key in zip("CDEFGH", ("chosen_volume", "chosen_strength", "chosen_alcohol", "chosen_share",
                                      "suggested_volume", "suggested_share")):
        pad.heading(f"{column}{head}", T["heading"][key])
    first = L.CUT
    no_names = blank_if(READY, f'SUMPRODUCT(({jars(L.SUGGESTED)}<>"")*1)<{at.jars_complete}')

    def total(cuts, cut, quantity):
        return f'SPIRIT.CUTTOTAL({LISTS};{jars(cuts)};"{cut}";"{quantity}")'

    for i, cut in enumerate(L.CUT_NAMES):
        row = first + i
        pad.label(f"A{row}", f"B{row}", cut)
        pad.computed(f"C{row}", CHOSEN + total(L.CUT_USED, cut, "volume") + "/1000)")
        pad.computed(f"D{row}", blank_if(*empty(f"$C{row}"), f"$C{row}=0") + total(L.CUT_USED, cut, "strength") + ")", "0.0")
        pad.computed(f"E{row}", CHOSEN + total(L.CUT_USED, cut, "alcohol") + "/1000)")
        pad.computed(f"F{row}", CHOSEN + total(L.CUT_USED, cut, "share") + ")", "0.0 %")
        pad.computed(f"G{row}", no_names + total(L.SUGGESTED, cut, "volume") + "/1000)")
        pad.computed(f"H{row}", no_names + total(L.SUGGESTED, cut, "share") + ")", "0.0 %")
    row, wait = first + 4, blank_if(READY)
    pad.label(f"A{row}", f"B{row}", "jars_together")
    pad.computed(f"C{row}", wait + f"SPIRIT.BLENDVOLUME({LISTS})/1000)", style="Jarbook result")
    pad.computed(f"D{row}", wait + f"SPIRIT.BLENDSTRENGTH({LISTS}))", "0.0", style="Jarbook result")
    pad.computed(f"E{row}", wait + f"SPIRIT.PUREALCOHOL({LISTS})/1000)", style="Jarbook result")
    for column in "FGH":
        pad.sheet.put(f"{column}{row}", style="Jarbook label")


def residue(pad):
    row = L.RESIDUE
    pad.lead(f"A{row}", f"H{row}", T["heading"]["residue"])
    pad.line(row + 1, "residue_measured_volume", "litre")
    pad.line(row + 2, "residue_reading", "strength", fmt="0.0")
    pad.line(row + 3, "residue_temperature", "celsius", fmt="0.0")
    pad.label(f"F{row + 1}", f"G{row + 1}", "residue_known")
    pad.entry("residue_known", "0.00")
    pad.label(f"F{row + 2}", f"G{row + 2}", "residue_measured_strength")
    known, reading, degrees = (read.used(f"residue_{x}") for x in ("known", "reading", "temperature"))
    pad.result("residue_measured_strength", blank_if(*read.usable("residue_known", "residue_reading", "residue_temperature")) +
               f'IF({known}<>"";{known};' + blank_if(*empty(reading, degrees)) + f"SPIRIT.STRENGTH({reading};{degrees}))))")


def fill(pad):
    table(pad)
    residue(pad)
