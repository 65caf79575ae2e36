"""What a spreadsheet program that is not ours makes of the files that we write."""
