"""The command that checks a rate table."""

from pathlib import Path

import click

from shuntbook.commands.options import json_option, show, tell_warnings
from shuntbook.flow.load import rates_files
from shuntbook.setup.faults import Faults
from shuntbook.setup.rates_files import read_rates


@click.group("rates")
def rates_commands() -> None:
    """Rate tables."""


@rates_commands.command("check")
@click.argument("folder", type=click.Path(path_type=Path))
@json_option
def rates_check_command(folder: Path, as_json: bool) -> None:
    """Check a rate table's folder and name every fault."""
    faults = Faults()
    rates = read_rates(rates_files(folder), faults)
    faults.raise_if_any()
    tell_warnings(faults.warnings)
    fields = {
        "rates": rates.version,
        "operations": len(rates.operations),
        "parts": len(rates.parts),
    }
    words = f"{folder}: good, {len(rates.operations)} operations, {len(rates.parts)} parts. Version {rates.version}"
    show(fields, as_json, words)
