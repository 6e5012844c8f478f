"""The printed page: the sheet as a value, then as HTML, plain text and PDF."""
