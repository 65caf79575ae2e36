"""What somebody tried in order to be believed: each attack by its name, with real requests."""
