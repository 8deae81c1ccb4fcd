"""The Guide sheet: cautions first, then how to get through a run with the workbook alone."""
from common.prose import height

SHEET = "Guide"
WIDTH = 172

CAUTIONS = (
    "Distilling spirits without a licence is unlawful in many countries. Local law and licensed practice come first, "
    "whatever this workbook says.",
    "Spirit vapour burns and explodes. Ventilate, no flame and no spark, never leave a running still, never close its "
    "outlet. Charge at or below 40 % vol, and no more than three quarters of the boiler.",
    "Let the still cool, twenty minutes at least (common practice), before opening it or emptying the residue.",
    "Foreshots are thrown away, and throwing them away does not make doubtful material safe: methanol comes over "
    "through the whole run. In a plain pot the foreshots hold about as large a share of it as of the alcohol "
    "(computed from published volatilities).",
    "The numbers are as good as the instruments. Duty and labelling need approved ones.")

PARTS = (
    ("A run, step by step", (
        "1  Charge. On the sheet of the run (Run 1 to begin with) give the date, the kind of run and the still; then each lot "
        "that goes into the boiler with its volume, reading and temperature. A wash cannot be read with an alcoholometer: "
        "give its strength as known, from a distilled sample. If the charge is to be brought down, give the wished strength "
        "and add the water that the sheet works out, by litres or by weight. Read the box To look at.",
        "2  Forecast. Give the strength at which you will stop, the foreshots to throw away and where you expect the hearts. "
        "The sheet tells the first strength, the litres and the pure alcohol of each cut, and the hours. Leave stages at 1.15 "
        "until your own still's value is known from its runs.",
        "3  Jars. One line a jar, as it is changed: clock, amount, reading, temperature. Jars run warm, and that is corrected: "
        "every later figure takes true strength and mL at 20 °C. If you weigh the jars, set Jars measured in to g, once for "
        "the sheet. From three jars on, Forecast tells the stages of this run and what is still to come.",
        "4  Cuts. Choose the cut of each jar by nose and taste; the suggestion beside it knows only strengths. "
        "The table below compares both.",
        "5  Blend and bottle. Hearts are kept unless you say otherwise in Keep: 0 leaves a jar out, 1 or more takes it. "
        "Give the bottling strength; the sheet tells the water, by volume and by weight, and the bottles. If you want a "
        "certain volume, give it: the best plan is worked out, and a greater number in Keep is preferred. Mix, wait a day, "
        "read again, and see whether the label is met within the uncertainty of your instruments.",
        "6  Balance. Measure what is left in the boiler when it is cool. The sheet tells where the pure alcohol went, "
        "and whether the measuring uncertainty explains what is missing. What is not product or foreshots counts as feints, for the "
        "next charge.",
        "For the next run: menu Jarbook, Add a run to this workbook. The run appears in the Run book by itself.")),
    ("How to read the sheets", (
        "Light boxes are filled in; grey cells are computed and protected (without a password: Tools, Protect Sheet). "
        "Select a light box to see what belongs there.",
        "Strength is always % vol at 20 °C of the mixed liquid: 40, not 0.40. A reading is what the scale shows, uncorrected. "
        "Volumes are at 20 °C unless their box says as measured. Masses are what a balance in air shows.",
        "A cell shows an error where there is no right number, and sums stop at it. Menu Jarbook, Why this error? tells the "
        "reason. A box in bold red with a frame, and a word under Look again, ask you to look: they do not change a number.",
        "A row that lacks something shows nothing, and what is below waits for it: To look at says so.",
        "A sheet prints on two pages, also blank, for the notes beside the still.")),
    ("Where the figures come from", (
        "Strength, volume and mass: OIML R 22, general formula, -20 to 40 °C. Forecast: differential distillation of ethanol and "
        "water at constant pressure, with published equilibrium data. See the sheet Printed tables for published values beside "
        "the computed ones, and the sheet Functions for each function with its source.",
        "What the forecast leaves out: other congeners, hold-up, changing reflux, entrainment. A working pot differs from it by a "
        "few % vol, mostly towards stronger; the stages fitted to your own runs take up most of that.")),
    ("Sharing, and offices without the extension", (
        "A copy for somebody without the extension: menu Jarbook, Save a copy with plain values. "
        "Opened without the extension, this workbook itself shows #NAME? in the cells that need it; nothing is lost, and the numbers "
        "are back as soon as the extension is installed.",)),
)
EXAMPLE = ("About these runs",
           ("The runs in this workbook are invented, as is the house Quillmarsh: nobody measured them. Run 1 distils low wines of the "
            "year before; runs 2 and 3 strip pear wash; run 4 distils their low wines with the feints of run 1, its jars weighed, and one of "
            "them was tipped over, which its balance shows; "
            "run 5 is a caraway spirit from hearts of run 4; run 6 strips barley wash, with more in the boiler than is advised; run 7 "
            "has a reading that the sheet asks to look at again (jar 9), and a blend planned for a certain volume; run 8 is still running.",))


def add(book, example):
    sheet = book.add_sheet(SHEET, "TallPage", tab_colour="#8c1d18")
    sheet.width("A", WIDTH)
    row = 1

    def put(text, style, more=0.0, bold=False, **options):
        nonlocal row
        sheet.put(f"A{row}", text, style=style, **options)
        sheet.heights[row] = max(5.0, height([(text, WIDTH)], bold=bold) + more)
        row += 1

    def gap(size=2.0):
        nonlocal row
        sheet.heights[row] = size
        row += 1

    put("A run log for small-batch pot distilling", "Jarbook title", 3)
    gap()
    put("Cautions", "Jarbook section")
    for text in CAUTIONS:
        put(text, "Jarbook caution", 1.6, True)
    gap()
    put("Is the extension here? If the next line shows #NAME?, it is not installed in this office.", "Jarbook text")
    sheet.put(f"A{row}", formula='"Jarbook "&SPIRIT.VERSION()', style="Jarbook computed text")
    sheet.name_cell("extension_version", f"A{row}")
    row += 1
    for head, texts in ((EXAMPLE,) if example else ()) + PARTS:
        if head == PARTS[2][0]:
            sheet.breaks.add(row + 1)
        gap()
        put(head, "Jarbook section")
        for text in texts:
            put(text, "Jarbook text", 1.2, paragraph={"fo:text-align": "start"})
    sheet.print_range = f"A1:A{row - 1}"
    return sheet
