"""The run sheet: one module a section, and where everything stands (layout.py)."""
