"""The commands, a module each for those that go together; what they print is in `text*.py`."""
