"""The workbooks: the run sheet, the register of runs, guide, printed tables, function list."""
