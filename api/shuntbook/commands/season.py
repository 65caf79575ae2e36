"""The commands that look at a season: observed rates, spares to carry, damage event by event."""

from decimal import Decimal, InvalidOperation
from pathlib import Path

import click

from shuntbook.commands.options import data_option, event_option, held_store, json_option, show
from shuntbook.commands.text_season import observed_text, season_text, spares_text
from shuntbook.flow import seasons
from shuntbook.season.spares import COVERS


class Km(click.ParamType[Decimal]):
    """A distance in km above 0."""

    name = "km"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> Decimal:
        """Return the distance; wrong usage where it is none."""
        try:
            km = Decimal(str(value))
        except InvalidOperation:
            self.fail(f"{value!r} is no distance; write one such as 142.5", param, ctx)
        if not km.is_finite() or not 0 < km <= 5000:
            self.fail(f"{value} is not above 0 and up to 5000", param, ctx)
        return km


@click.command("observed")
@event_option
@data_option
@json_option
def observed_command(event: str, data: Path | None, as_json: bool) -> None:
    """Print observed minutes per operation beside the event's rate table, and what is suggested."""
    answer = seasons.observed(held_store(data), event)
    show(answer, as_json, observed_text(answer))


@click.command("spares")
@event_option
@click.option("--km", type=Km(), help="Timed km of the event to pack for (default: the event's own).")
@click.option("--cars", type=click.IntRange(1, 50), help="Cars to pack for (default: the event's own).")
@click.option(
    "--cover", type=click.Choice([str(percent) for percent in COVERS]), default="95", show_default=True,
    help="Percent of such events that the shopping list is to cover, part by part.",
)  # fmt: skip
@data_option
@json_option
def spares_command(
    event: str, km: Decimal | None, cars: int | None, cover: str, data: Path | None, as_json: bool
) -> None:
    """Print what to carry by past damage, and what of it the van lacks."""
    answer = seasons.spares(held_store(data), event, seasons.Wanted(km, cars, int(cover)))
    show(answer, as_json, spares_text(answer))


@click.command("season")
@data_option
@json_option
def season_command(data: Path | None, as_json: bool) -> None:
    """Print the damage of each event held, and estimate against actual minutes of each operation."""
    answer = seasons.season(held_store(data))
    show(answer, as_json, season_text(answer))
