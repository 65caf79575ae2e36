"""The statements of a car: the draft with what is behind each line, and those that were issued, word for word."""

from shuntbook.cost import statement_answer as answer
from shuntbook.cost.charge import Charge, PartCharge
from shuntbook.cost.decided import issued
from shuntbook.cost.letter import CLAUSES, charge_says, clause_of, letter_of
from shuntbook.cost.lines import Line
from shuntbook.cost.other import Other
from shuntbook.cost.restated import as_issued
from shuntbook.cost.says import WHY, key_says, line_says, why_says
from shuntbook.cost.sheet import costs_of_car
from shuntbook.cost.statement import Draft, Hit, draft, twice_asked
from shuntbook.cost.told import CarTold, told_of_car
from shuntbook.kit.money import quantity, two_decimals
from shuntbook.queue.car import CarLog
from shuntbook.report.settling import PartRetained
from shuntbook.setup.folder import Setup


def statements_of_car(car: str, log: CarLog, setup: Setup) -> answer.Statements:
    """Return the draft of a car's statement (null without an agreement) and all that were issued, by number."""
    setup = setup.spoken(setup.event.language_of(car))
    agreement, event = setup.event.agreement_of(car), setup.event
    made = draft(log, costs_of_car(car, log, setup), agreement, setup) if agreement else None
    return answer.Statements(
        event=event.event,
        car=car,
        draft=_Drafted(car, log, setup).statement(made) if made else None,
        issued=[as_issued(car, event.event, one) for one in issued(log.entries, event)],
    )


class _Drafted:
    """A draft with the log behind it: entries, photos before and after, tags of the parts that were kept."""

    def __init__(self, car: str, log: CarLog, setup: Setup) -> None:
        self.car, self.log, self.setup = car, log, setup
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
            not_charged=[
                *self._marks(made),
                *(self._not_charged(*pair, made) for pair in made.not_charged),
                *(self._left_out(*pair) for pair in made.others.not_charged),
            ],
            steps=made.steps,
            totals=made.totals,
            other=[self._other(one) for one in made.others.charged],
            asks=[*made.others.asks, *twice_asked(made.hits, made.terms, self.setup)],
            letter=letter_of(self.car, self.log, made.agreement, self.setup),
        )

    def _other(self, one: Other) -> answer.StatementOther:
        coin = self.setup.rates.currency
        return answer.StatementOther(
            line=one.line,
            kind=one.kind,
            says=one.says,
            qty=quantity(one.qty),
            unit=one.unit,
            price=coin.text(one.price) if coin.fits(one.price) else str(one.price),
            amount=coin.text(one.amount),
            tax_percent=quantity(one.tax_percent),
            why=one.why,
            entries=list(one.entries),
            photos=list(one.photos),
            standing=None,
        )

    def _left_out(self, one: Other, why: str) -> answer.StatementNotCharged:
        return answer.StatementNotCharged(one.line, None, one.says, why, list(one.entries), list(one.photos))

    def _not_charged(self, line: Line, why: str, made: Draft) -> answer.StatementNotCharged:
        return answer.StatementNotCharged(
            line=line.name,
            job=line.job or None,
            says=line_says(line, self.setup),
            why=why_says(why, line, made.terms, self.setup.speech)
            + clause_of(CLAUSES.get(why, ""), made.agreement, self.setup),
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
                says=key_says(mark.key, mark.condition, self.setup),
                why=self.setup.speech(WHY["hand-over"]),
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
            why=charge_says(charge, self.setup),
            job=line.job or None,
            says=line_says(line, self.setup),
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


def _photos(line: Line) -> list[str]:
    return sorted({photo for finding in line.findings for photo in finding.photos})
