"""Instruments: strength by weighing a flask or a plummet, and how far it can be off: what the scale's step, the filling and
the thermometer leave open, to first order (JCGM 100:2008, clause 5), each by what a standard uncertainty changes."""
from common.texts import in_formula, texts
from sheets import instruments_boxes as boxes
from sheets.boxes import between
from sheets.instruments_boxes import EXPANSION_CELLS, LEFT, MATERIAL_CELLS, RIGHT, used

FORMULA = "0.05"   # kg/m3: expanded uncertainty of OIML R 22, taken as in UNCERTAINTY

# Beside the page, in this order
FIGURES = tuple(f"{way}_{what}" for way, parts in (
    ("flask", ("glass", "ready", "scale_empty", "scale_water", "scale_spirit", "filling", "temperature", "formula")),
    ("plummet", ("glass", "ready", "scale_water", "scale_spirit", "temperature", "formula"))) for what in parts)
WEIGHINGS = {"flask": ("flask_empty", "flask_water", "flask_spirit"), "plummet": ("plummet_water", "plummet_spirit")}
ROW = boxes.WEIGHED
CELLS = {f"{way}_{name}": f"{side.box}{ROW + i}" for way, side in (("flask", LEFT), ("plummet", RIGHT))
         for i, name in enumerate(("density", "strength", "uncertainty"))}


def fixed(name):
    cell = CELLS[name]
    return f"${cell[0]}${cell[1:]}"


def _strength(way, glass, shifts=None):
    """The strength, each of the weighings and temperatures shifted by what `shifts` has for it."""
    shifts = shifts or {}

    def with_shift(name):
        return used(name) + shifts.get(name, "")

    weighed = ";".join(with_shift(name) for name in WEIGHINGS[way])
    water, spirit = (f"{used(f'{way}_{what}_temperature')}{shifts.get('degree', '')}" for what in ("water", "spirit"))
    function = {"flask": "PYCNOMETERDENSITY", "plummet": "PLUMMETDENSITY"}[way]
    return f"SPIRIT.STRENGTHFROMDENSITY(SPIRIT.{function}({weighed};{water};{spirit};{glass}){shifts.get('density', '')};{spirit})"


def change(formula, name, by):
    """Half of what a formula changes by between name + by and name - by; at an end of its range, of one side."""
    up, down, middle = formula({name: f"+{by}"}), formula({name: f"-{by}"}), formula({})
    return f'IFERROR(ABS({up}-{down})/2;IFERROR(ABS({up}-{middle});ABS({middle}-{down})))'


def figures(at):
    """(name, formula) of what stands beside the page; `at` gives the cell of a name."""
    step = f"({used('scale_step')}/SQRT(12))"
    for way, weighings in WEIGHINGS.items():
        glass, ready = at[f"{way}_glass"], at[f"{way}_ready"]

        def strength(shifts, way=way, glass=glass):
            return _strength(way, glass, shifts)

        def waits(formula, *more, ready=ready):
            return f'IF(OR(N({ready})=0{"".join(f";{cell}={chr(34) * 2}" for cell in more)});"";IFERROR({formula};""))'

        yield f"{way}_glass", f'IFERROR(INDEX({EXPANSION_CELLS};MATCH({used(f"{way}_material")};{MATERIAL_CELLS};0));"")'
        needed = [used(name) for name in weighings] + [used(f"{way}_{what}_temperature") for what in ("water", "spirit")] + [glass]
        yield f"{way}_ready", f'IF(COUNT({";".join(needed)})={len(needed)};1;0)'
        for name in weighings:
            yield f"{way}_scale_{name.partition('_')[2]}", waits(change(strength, name, step), used("scale_step"))
        if way == "flask":
            # Two fillings, of water and of spirit: mL of the flask's volume, which are g of the water in it
            fill = used("flask_fill")
            net = f"({used('flask_water')}-{used('flask_empty')})"
            density = f"(SPIRIT.PYCNOMETERDENSITY({';'.join(used(name) for name in weighings)};{used('flask_water_temperature')};" \
                      f"{used('flask_spirit_temperature')};{glass})*SQRT(2/3)*{fill}/{net})"
            yield "flask_filling", waits(change(strength, "density", density), fill)
        degree = used("degree_error")
        # One thermometer in both, off the same way
        yield f"{way}_temperature", waits(f"IF({degree}=0;0;{change(strength, 'degree', f'({degree}/SQRT(3))')})", degree)
        yield f"{way}_formula", waits(change(strength, "density", f"({FORMULA}/2)"))


def results(sheet, at):
    words = texts("instruments")
    for way, side in (("flask", LEFT), ("plummet", RIGHT)):
        glass, ready = at[f"{way}_glass"], at[f"{way}_ready"]
        weighed = ";".join(used(name) for name in WEIGHINGS[way])
        warm = f"{used(f'{way}_water_temperature')};{used(f'{way}_spirit_temperature')}"
        function = {"flask": "PYCNOMETERDENSITY", "plummet": "PLUMMETDENSITY"}[way]
        parts = [at[name] for name in FIGURES if name.startswith(way) and name.partition("_")[2] not in ("glass", "ready")]
        formulas = {
            "density": (f'IF(N({ready})=0;"";SPIRIT.{function}({weighed};{warm};{glass}))', "0.00"),
            "strength": (f'IF(N({ready})=0;"";SPIRIT.STRENGTHFROMDENSITY({fixed(f"{way}_density")};{used(f"{way}_spirit_temperature")}))', "0.00"),
            "uncertainty": (f'IF(COUNT({";".join(parts)})<{len(parts)};"";2*SQRT(SUMSQ({";".join(parts)})))', "0.00")}
        for i, (name, (formula, fmt)) in enumerate(formulas.items()):
            row = ROW + i
            label(sheet, side, row, words["result"][name])
            sheet.put(CELLS[f"{way}_{name}"], formula=formula, fmt=fmt, style="Jarbook result")
            unit = in_formula(words["unit"][f"result_{name}"])
            if name == "uncertainty":
                unit = f'IF(AND(N({ready})=1;{used("scale_step")}="");{in_formula(words["words"]["step_missing"])};{unit})'
            sheet.put(f"{side.counts}{row}", formula=unit, style="Jarbook plan words", to=f"{side.words_end}{row}")
        scale = ";".join(at[name] for name in FIGURES if name.startswith(f"{way}_scale"))
        said = dict(scale=f"FIXED(2*SQRT(SUMSQ({scale}));2;1)", degrees=f"FIXED(2*{at[f'{way}_temperature']};2;1)",
                    formula=f"FIXED(2*{at[f'{way}_formula']};2;1)")
        if way == "flask":
            said["filling"] = f"FIXED(2*{at['flask_filling']};2;1)"
        row = ROW + 3
        sheet.put(f"{side.label}{row}", style="Jarbook plan words", to=f"{side.words_end}{row}",
                  formula=f'IF({fixed(f"{way}_uncertainty")}="";"";{in_formula(words["words"][f"parts_{way}"], **said)})')
        sheet.heights[row] = 5


def label(sheet, side, row, text):
    sheet.put(f"{side.label}{row}", text, style="Jarbook label")
    for column in between(side.label, side.label_end):
        sheet.put(f"{column}{row}", style="Jarbook label")
    sheet.heights[row] = 5.6
