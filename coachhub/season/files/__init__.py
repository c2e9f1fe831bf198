"""Dates as a file: read from iCalendar or a table, compared with what is known, written as the same table."""
