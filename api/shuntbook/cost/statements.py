"""The statements of a car: the draft with what is behind each line, and those that were issued, word for word."""

from shuntbook.cost import statement_answer as answer
from shuntbook.cost.charge import Charge, PartCharge
from shuntbook.cost.decided import Issued, issued
from shuntbook.cost.lines import Line
from shuntbook.cost.says import WHY, key_says, line_says, why_says
from shuntbook.cost.sheet import costs_of_car
from shuntbook.cost.statement import Draft, Hit, draft
from shuntbook.cost.told import CarTold, told_of_car
from shuntbook.kit.money import quantity, two_decimals
from shuntbook.queue.car import CarLog
from shuntbook.report.settling import PartRetained, StatedIncident, StatedLine, StatedPart
from shuntbook.setup.folder import Setup


def statements_of_car(car: str, log: CarLog, setup: Setup) -> answer.Statements:
    """Return the draft of a car's statement (null without an agreement) and all that were issued, by number."""
    agreement, event = setup.event.agreement_of(car), setup.event
    made = draft(log, costs_of_car(car, log, setup), agreement, setup) if agreement else None
    return answer.Statements(
        event=event.event,
        car=car,
        draft=_Drafted(car, log, setup).statement(made) if made else None,
        issued=[_issued(car, event.event, one) for one in issued(log.entries, event)],
    )


class _Drafted:
    """A draft with the log behind it: entries, photos before and after, tags of the parts that were kept."""

    def __init__(self, car: str, log: CarLog, setup: Setup) -> None:
        self.car, self.setup = car, setup
        self.told: CarTold = told_of_car(log, setup.car_map)
        self.tags = {
            e.subject: e.data
            for e in sorted(log.entries, key=lambda entry: entry.id)
            if isinstance(e.data, PartRetained)
        }

    def statement(self, made: Draft) -> answer.Statement:
        """Return the draft."""
        return answer.Statement(
            event=self.setup.event.event,
            car=self.car,
            agreement=made.agreement.agreement,
            customer=made.agreement.customer,
            currency=self.setup.rates.currency.code,
            rates=self.setup.rates.version,
            number=made.number,
            supplements=made.supplements,
            entry=None,
            issued_at=None,
            by=None,
            incidents=[self._hit(hit) for hit in made.hits],
            not_charged=[*self._marks(made), *(self._not_charged(*pair, made) for pair in made.not_charged)],
            steps=made.steps,
            totals=made.totals,
        )

    def _not_charged(self, line: Line, why: str, made: Draft) -> answer.StatementNotCharged:
        return answer.StatementNotCharged(
            line=line.name,
            job=line.job or None,
            says=line_says(line, self.setup.car_map),
            why=why_says(why, line, made.terms),
            entries=list(line.entries),
            photos=_photos(line),
        )

    def _marks(self, made: Draft) -> list[answer.StatementNotCharged]:
        """Return the marks of the hand-over that no line is about: the customer sees that they are known."""
        named = {line.job for line, _ in made.not_charged}
        return [
            answer.StatementNotCharged(
                line=f"hand-over/{self.car}/{mark.key}",
                job=mark.key,
                says=key_says(mark.key, mark.condition, self.setup.car_map),
                why=WHY["hand-over"],
                entries=list(mark.entries),
                photos=list(mark.photos),
            )
            for key, mark in sorted(self.told.marks.items())
            if key not in named
        ]

    def _hit(self, hit: Hit) -> answer.StatementIncident:
        first = hit.charges[0].line.told
        body = first.body if first else None
        reports = [self.told.reports[report] for report in hit.incident.reports]
        grouping = hit.incident.grouping
        return answer.StatementIncident(
            incident=hit.incident.incident,
            title=hit.title,
            stage=body.stage if body else None,
            km=quantity(body.km) if body and body.km is not None else None,
            driver=first.driver if first else None,
            reported_at_the_time=any(told.body.where not in ("workshop", "hand-over") for told in reports),
            others_involved=bool(grouping and grouping.others_involved),
            reports=list(hit.incident.reports),
            lines=[self._line(charge) for charge in hit.charges],
            steps=hit.steps,
            to_pay=self.setup.rates.currency.text(hit.to_pay),
            misuse=self.setup.rates.currency.text(hit.misuse) if hit.misuse else None,
        )

    def _line(self, charge: Charge) -> answer.StatementLine:
        line, coin = charge.line, self.setup.rates.currency
        tag = self.tags.get(line.job)
        return answer.StatementLine(
            line=line.name,
            charge="misuse" if charge.misuse else "damage",
            job=line.job or None,
            says=line_says(line, self.setup.car_map),
            action=line.action,
            condition=line.condition,
            service=line.service,
            repaired=line.actual is not None,
            mechanic_minutes=two_decimals(charge.mechanic_minutes),
            labour=coin.text(charge.labour),
            parts=[self._part(part) for part in charge.parts],
            parts_cost=coin.text(charge.parts_cost),
            consumables=coin.text(charge.consumables),
            amount=coin.text(charge.amount),
            entries=list(line.entries),
            photos=_photos(line),
            photos_before=self._before(line),
            standing=None,
            tag=answer.Tag(tag.tag, tag.shelf) if tag else None,
        )

    def _part(self, part: PartCharge) -> answer.ChargedPart:
        coin = self.setup.rates.currency
        known = self.setup.rates.parts.get(part.cost.part)
        return answer.ChargedPart(
            part=part.cost.part,
            description=known.description if known else "",
            qty=quantity(part.cost.qty),
            unit_cost=None if part.cost.unit_cost is None else coin.text(part.cost.unit_cost),
            used_percent=quantity(part.used_percent),
            included=quantity(part.included),
            charged=coin.text(part.charged),
        )

    def _before(self, line: Line) -> list[str]:
        """Return the photos of the marks in the line's zone at the hand-over."""
        marks = [told.body for told in self.told.reports.values() if told.body.where == "hand-over"]
        return sorted({photo for body in marks if body.zone == line.zone for photo in body.photos})


def _issued(car: str, event: str, one: Issued) -> answer.Statement:
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


def _photos(line: Line) -> list[str]:
    return sorted({photo for finding in line.findings for photo in finding.photos})
