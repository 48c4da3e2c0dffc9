"""Several seasons in one workbook: in the units of the first, changes live, by three engines."""
