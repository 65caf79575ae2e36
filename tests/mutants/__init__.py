"""Mutants: faults put into a copy of the code on purpose, each of which named tests have to see."""
