"""Where entries, photos and what follows from them are kept: SQLite, photo files, nothing lost."""
