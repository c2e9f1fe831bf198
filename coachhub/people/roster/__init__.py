"""Roster files: a squad's athletes from a spreadsheet, and back into one."""
