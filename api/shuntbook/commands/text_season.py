"""What a season teaches as plain text for a terminal."""

from shuntbook.season.observed import Observed
from shuntbook.season.season import Season, SeasonEvent, SeasonOperation
from shuntbook.season.spares import Spares
from shuntbook.season.timed import OperationName


def observed_text(answer: Observed) -> str:
    """Return a line for each operation that was timed, and what was left out."""
    lines = [f"{_name(one)}: {one.says}" for one in answer.operations]
    apart = ", ".join(
        f"{words} {getattr(answer.apart, name)}" for name, words in APART.items() if getattr(answer.apart, name)
    )
    left_out = f" Left out: {apart}." if apart else ""
    pace = answer.method.pace
    paced = f" All together took {pace:.2f} × the table." if pace is not None else ""
    lines.append(f"{answer.timed} jobs timed at {answer.events} events.{paced}{left_out}")
    lines.append("Suggestions are arithmetic; nothing changes until a manager accepts them.")
    return "\n".join(lines)


APART = {
    "not_timed": "not timed",
    "temporary": "temporary",
    "no_row": "without a row",
    "another_action": "done another way",
    "another_crew": "done by more or fewer people",
    "far_off": "far off the table",
}


COUNTS_ONLY = "Counts only: {} of the 3 events from which on a stock is advised."


def spares_text(answer: Spares) -> str:
    """Return a line for each part with the three stocks, then the shopping list."""
    lines = []
    for part in answer.parts:
        stocks = ", ".join(f"{one.cover} %: {one.stock}" for one in part.covers)
        bunched = "; came in bunches" if part.bunched else ""
        counted = f", {part.pieces:g} pieces" if answer.model == "counts" else f"; {stocks}"
        lines.append(f"{part.part}: {part.calls} times{counted}; van {part.van}{bunched}")
    if answer.model == "counts":
        return "\n".join([*lines, "", COUNTS_ONLY.format(answer.events)])
    shopping = answer.shopping
    lines.append("")
    lines.append(f"To buy, so that each part covers {shopping.cover} % of such events:")
    lines += [f"{item.qty} × {item.part}  {item.cost or 'no price'}" for item in shopping.items]
    lines.append(f"Together {shopping.cost} {answer.currency}.")
    lines.append(
        f"{answer.cars} cars over {answer.km} km, by {answer.events} events and {answer.car_km} car-km "
        f"({'Poisson' if answer.model == 'poisson' else 'gamma-Poisson'})."
    )
    return "\n".join(lines)


def season_text(answer: Season) -> str:
    """Return a line for each event, then one for each operation that was timed."""
    lines = [_event(event) for event in answer.events]
    lines.append("")
    lines += [
        f"{_name(one)}: timed {one.timed}, expected {one.estimate_minutes} min, took {one.actual_minutes} min"
        for one in answer.operations
    ]
    return "\n".join(lines)


def _event(event: SeasonEvent) -> str:
    per_km = event.per_stage_km.actual
    rate = f", {per_km} a stage km" if per_km is not None else ""
    return (
        f"{event.began or '-'} {event.event}: estimate {event.estimate}, spent {event.actual} "
        f"{event.currency}{rate}, safety-critical jobs {event.safety_critical}, hits {event.incidents}"
    )


def _name(one: OperationName | SeasonOperation) -> str:
    zone = f" ({one.zone})" if one.zone else ""
    return f"{one.component} {one.condition}: {one.action}{zone}"
