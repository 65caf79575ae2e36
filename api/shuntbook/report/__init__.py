"""What people put down: entries, their kinds, and photos."""
