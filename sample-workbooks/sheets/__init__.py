"""The sheets of the workbook that are no run sheets, a module each."""
