"""A small writer of OpenDocument spreadsheets: just what the workbooks of this project need.

Standard library only, no clock and no randomness: the same sources give the same bytes.
"""
