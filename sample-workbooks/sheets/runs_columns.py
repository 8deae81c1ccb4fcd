"""The columns of the sheet Runs, and where its rows stand."""
SHEET = "Runs"
HEAD = 3
TOP = HEAD + 1   # a thin row, with the row of the closing line beside the page
FIRST = TOP + 1
CHART_ROWS = 22
STILLS = 6
FAR = 1048576    # the last row: whole columns, which grow with no inserted row
FEWEST = 3       # runs of a still, of which something is said together
CHANCE = 0.01    # that a run like the others is called unlike them

# Column, width, key of its heading, name of the run sheet's cell or None, format. Behind the page stand what the
# charts show, what tells an unlike run, and what Side by side needs of a run.
COLUMNS = (
    ("A", 27, "run", "run_title", None), ("B", 20, "date", "run_date", "date"),
    ("C", 25, "kind", "run_kind", None), ("D", 52, "still", "run_still", None),
    ("E", 40, "material", "run_material", None), ("F", 18, "state", None, None),
    ("G", 15, "look_at", "queries", "0|-"),
    ("H", 15, "charge_volume", "charge_volume", "0.0"), ("I", 15, "charge_strength", "charge_strength", "0.0"),
    ("J", 15, "charge_alcohol", "charge_alcohol", "0.00"),
    ("K", 17, "collected", "sum_collected_alcohol", "0.00"), ("L", 16, "recovery", "sum_recovery", "0.0 %"),
    ("M", 14, "foreshots", "cut_foreshots_share", "0.0 %"), ("N", 14, "heads", "cut_heads_share", "0.0 %"),
    ("O", 14, "hearts", "cut_hearts_share", "0.0 %"), ("P", 14, "tails", "cut_tails_share", "0.0 %"),
    ("Q", 13, "stages", "fitted_stages", "0.00"), ("R", 13, "stages_range", "stages_uncertainty", "0.00"),
    ("S", 15, "unlike", None, None), ("T", 17, "hours", None, "hours"),
    ("U", 16, "product_volume", "product_volume", "0.00"), ("V", 16, "product_strength", "product_strength", "0.0"),
    ("W", 16, "product_alcohol", "balance_product", "0.00"), ("X", 16, "feints", None, "0.00"),
    ("Y", 16, "unaccounted", "balance_unaccounted", "0.00"), ("Z", 16, "uncertainty", "balance_uncertainty", "0.00"),
    ("AA", 4, None, None, None),
    ("AB", 15, "drawn_recovery", None, "0.0 %"), ("AC", 15, "drawn_uncertainty", None, "0.0 %"),
    ("AD", 15, "drawn_most", None, "0.0 %"), ("AE", 15, "drawn_least", None, "0.0 %"), ("AF", 15, "drawn_whole", None, "0 %"),
    ("AG", 15, "drawn_stages", None, "0.00"), ("AH", 15, "drawn_plain", None, "0"), ("AI", 15, "drawn_range", None, "0.00"),
    ("AJ", 15, "drawn_high", None, "0.00"), ("AK", 15, "drawn_low", None, "0.00"), ("AL", 15, "drawn_unlike", None, "0.00"),
    ("AM", 15, "known", None, "0.0000"), ("AN", 15, "others_mean", None, "0.0000"),
    ("AO", 15, "others_spread", None, "0.0000"), ("AP", 15, "others_next", None, "0.0000"),
    ("AQ", 15, "volume_range", None, "0.00"), ("AR", 15, "strength_range", None, "0.00"), ("AS", 15, "alcohol_range", None, "0.00"),
    ("AT", 15, "volume_tolerance", None, "0.0"), ("AU", 15, "reading_scatter", None, "0.00"), ("AV", 20, "curve", "run_curve", None))
LAST = "Z"       # of the page
END = COLUMNS[-1][0]
SUMMED = "Y"     # charges and products are not summed: what one run gives, another takes
LETTER = {key: column for column, _, key, _, _ in COLUMNS if key}
NAMED = {key: name for _, _, key, name, _ in COLUMNS if key and name}
FORMAT = {column: fmt for column, _, _, _, fmt in COLUMNS}
# Formulas over other rows: as array formulas of one cell, for Calc picks no rows with IF otherwise
OTHERS = {"others_mean": 1, "others_spread": 3, "others_next": 4}   # rows of CONSENSUS
ROWS = f"${LETTER['drawn_recovery']}${TOP}"    # the row of the closing line
