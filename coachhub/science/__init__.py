"""Published formulas with their source, and units. Pure: no Django, no clock, no I/O."""
