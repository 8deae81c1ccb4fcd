"""Section 4, Cuts: what each cut holds, as chosen and as suggested; the residue as measured."""
from . import layout as L
from .layout import at, jars
from .pad import blank_if, empty

LISTS = f"{jars(L.VOLUME)};{jars(L.STRENGTH)};"
READY = f"{at.jars_ready}=0"
CHOSEN = blank_if(READY, f"{at.cuts_chosen}<{at.jars_complete}")


def table(pad):
    pad.section(f"A{L.AFTER}", f"H{L.AFTER}", "4  Cuts, as chosen beside the suggestion")
    head = L.AFTER_HEAD
    pad.sheet.heights[head] = 8.5
    for first, last, text in (("A", "B", "Cut"), ("C", None, "L at\n20 °C"), ("D", None, "% vol"),
                              ("E", None, "Pure\nalc., L"), ("F", None, "Share"),
                              ("G", None, "sugg.\nL"), ("H", None, "sugg.\nshare")):
        pad.heading(f"{first}{head}", text, f"{last}{head}" if last else None)
    chosen, suggested = jars(L.CUT), jars(L.SUGGESTED)
    first = L.AFTER_LINE
    no_names = blank_if(READY, f'$N${L.JAR}=""')

    def total(cuts, cut, quantity):
        return f'SPIRIT.CUTTOTAL({LISTS}{cuts};"{cut}";"{quantity}")'

    for i, cut in enumerate(L.CUT_NAMES):
        row = first + i
        pad.label(f"A{row}", f"B{row}", cut)
        pad.computed(f"C{row}", CHOSEN + total(chosen, cut, "volume") + "/1000)")
        pad.computed(f"D{row}", blank_if(*empty(f"$C{row}"), f"$C{row}=0") +
                     total(chosen, cut, "strength") + ")", "0.0")
        pad.computed(f"E{row}", CHOSEN + total(chosen, cut, "alcohol") + "/1000)")
        pad.computed(f"F{row}", CHOSEN + total(chosen, cut, "share") + ")", "0.0%")
        pad.computed(f"G{row}", no_names + total(suggested, cut, "volume") + "/1000)")
        pad.computed(f"H{row}", no_names + total(suggested, cut, "share") + ")", "0.0%")
    row, wait = first + 4, blank_if(READY)
    pad.label(f"A{row}", f"B{row}", "all jars")
    lists = LISTS.rstrip(";")
    pad.computed(f"C{row}", wait + f"SPIRIT.BLENDVOLUME({lists})/1000)", style="Jarbook result")
    pad.computed(f"D{row}", wait + f"SPIRIT.BLENDSTRENGTH({lists}))", "0.0", style="Jarbook result")
    pad.computed(f"E{row}", wait + f"SPIRIT.PUREALCOHOL({lists})/1000)", style="Jarbook result")
    for column in "FGH":
        pad.sheet.put(f"{column}{row}", style="Jarbook label")


def residue(pad):
    row = L.AFTER_LINE + 5
    pad.heading(f"A{row}", "Left in the boiler, as measured when cool", f"H{row}",
                paragraph={"fo:text-align": "start"})
    pad.label(f"A{row + 1}", f"C{row + 1}", "Volume")
    pad.entry_at(f"D{row + 1}", "residue_volume", pad.data.get("residue_volume"), "0.00")
    pad.unit(f"E{row + 1}", "L", f"H{row + 1}")
    pad.label(f"A{row + 2}", f"C{row + 2}", "Reading")
    pad.entry("residue_reading", "0.0")
    pad.label(f"E{row + 2}", f"G{row + 2}", "or known, % vol")
    pad.entry("residue_known", "0.00")
    pad.label(f"A{row + 3}", f"C{row + 3}", "Temperature, °C")
    pad.entry("residue_temperature", "0.0")
    pad.label(f"E{row + 3}", f"G{row + 3}", "Strength, % vol")
    pad.result("residue_measured_strength",
               f'IF({at.residue_known}<>"";{at.residue_known};' +
               blank_if(*empty(at.residue_reading, at.residue_temperature)) +
               f"SPIRIT.STRENGTH({at.residue_reading};{at.residue_temperature})))")


def fill(pad):
    table(pad)
    residue(pad)
