"""The command that prints what a car's customer is charged."""

from pathlib import Path

import click

from shuntbook.commands.options import car_option, data_option, event_option, held_store, json_option, show
from shuntbook.cost.statement_answer import Statements
from shuntbook.flow import answers
from shuntbook.report.settling import Step


@click.command("statement")
@event_option
@car_option
@data_option
@json_option
def statement_command(event: str, car: str, data: Path | None, as_json: bool) -> None:
    """Print what the customer of a car is charged under the agreement, step by step, and why the rest is not."""
    answer = answers.statements(held_store(data), event, car)
    show(answer, as_json, statement_text(answer))


def statement_text(answer: Statements) -> str:
    """Return the draft in words and sums."""
    draft = answer.draft
    if draft is None:
        return f"No agreement names car {answer.car} in event.toml: nothing is charged."
    lines = [f"Statement {draft.number} (draft) to {draft.customer}, car {draft.car}, {draft.currency}"]
    for incident in draft.incidents:
        lines += ["", incident.title, *_steps(incident.steps)]
    lines += ["", *_steps(draft.steps)]
    if draft.not_charged:
        lines += ["", "Not charged:", *(f"  {item.says}: {item.why}" for item in draft.not_charged)]
    return "\n".join(lines)


def _steps(steps: list[Step]) -> list[str]:
    return [f"  {step.amount:>12}  {step.says}" for step in steps]
