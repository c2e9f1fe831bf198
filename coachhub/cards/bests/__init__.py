"""Known bests from a spreadsheet, and back into one."""
