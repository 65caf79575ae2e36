"""A statement as it went out, word for word: what lies behind its lines is not in it."""

from shuntbook.cost import statement_answer as answer
from shuntbook.cost.decided import Issued
from shuntbook.kit.money import quantity
from shuntbook.report.settling import StatedIncident, StatedLine, StatedOther, StatedPart


def as_issued(car: str, event: str, one: Issued) -> answer.Statement:
    """Return a statement as it went out: what lies behind its lines is not in it."""
    content = one.data.content
    return answer.Statement(
        event=event,
        car=car,
        agreement=one.data.agreement,
        customer=content.customer,
        currency=content.currency,
        rates=content.rates,
        number=one.data.number,
        supplements=one.data.supplements,
        entry=one.entry.id,
        issued_at=one.entry.at,
        by=one.entry.person,
        incidents=[_stated_incident(incident, one) for incident in content.incidents],
        not_charged=[answer.StatementNotCharged(n.line, n.job, n.says, n.why, [], []) for n in content.not_charged],
        steps=content.steps,
        totals=content.totals,
        letter=content.letter,
        other=[_stated_other(other, one) for other in content.other],
    )


def _stated_other(other: StatedOther, one: Issued) -> answer.StatementOther:
    return answer.StatementOther(
        line=other.line,
        kind=other.kind,
        says=other.says,
        qty=quantity(other.qty),
        unit=other.unit,
        price=other.price,
        amount=other.amount,
        tax_percent=quantity(other.tax_percent),
        why=other.why,
        entries=[],
        photos=[],
        standing=one.standing.get(other.line),
    )


def _stated_incident(incident: StatedIncident, one: Issued) -> answer.StatementIncident:
    return answer.StatementIncident(
        incident=incident.incident,
        title=incident.title,
        stage=incident.stage,
        km=None if incident.km is None else quantity(incident.km),
        driver=incident.driver,
        reported_at_the_time=incident.reported_at_the_time,
        others_involved=incident.others_involved,
        reports=incident.reports,
        lines=[_stated_line(line, one) for line in incident.lines],
        steps=incident.steps,
        to_pay=incident.to_pay,
        misuse=incident.misuse,
    )


def _stated_line(line: StatedLine, one: Issued) -> answer.StatementLine:
    return answer.StatementLine(
        line=line.line,
        charge=line.charge,
        why=line.why,
        job=line.job,
        says=line.says,
        action=line.action,
        condition=line.condition,
        service=line.service,
        repaired=line.repaired,
        mechanic_minutes=quantity(line.mechanic_minutes),
        labour=line.labour,
        parts=[_stated_part(part) for part in line.parts],
        parts_cost=line.parts_cost,
        consumables=line.consumables,
        amount=line.amount,
        entries=[],
        photos=[],
        photos_before=[],
        standing=one.standing.get(line.line),
        tag=None,
    )


def _stated_part(part: StatedPart) -> answer.ChargedPart:
    return answer.ChargedPart(
        part=part.part,
        description=part.description,
        qty=quantity(part.qty),
        unit_cost=part.unit_cost,
        used_percent=quantity(part.used_percent),
        included=quantity(part.included),
        charged=part.charged,
    )
