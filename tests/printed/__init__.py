"""The workbook on paper, as LibreOffice prints it."""
