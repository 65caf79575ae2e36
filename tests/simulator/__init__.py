"""A simulator of phones, server and network under one clock: one seed, one history. `python -m tests.simulator`."""
