"""reportgen: from a season's batches in YAML to a workbook with live formulas."""
