"""Every fault that must be survived, injected for real: killed processes, cut connections, full disks, bad clocks.

Each test is named by its fault's number. It is short by default; `make faults` runs them long and prints a table.
"""
