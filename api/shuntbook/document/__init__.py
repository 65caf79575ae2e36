"""What the log holds → documents to read, print and sign: data for a page, then PDF, XLSX or CSV as bytes."""
