"""The statement of a car to its customer: what is charged, what is not, each step of the sum in words.

Everything is stated again each time; a later statement supplements the earlier ones by the difference.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from shuntbook.cost.access import Share
from shuntbook.cost.car_costs import CarCosts
from shuntbook.cost.charge import Charge, Terms
from shuntbook.cost.decided import Issued, decisions, issued, withdrawn
from shuntbook.cost.incidents import Incident
from shuntbook.cost.lines import Line
from shuntbook.cost.other import Other, Others, others_of_car
from shuntbook.cost.says import (
    excess_says,
    labour_says,
    line_says,
    misuse_says,
    parts_says,
    percent,
    plain_money,
    title_of,
)
from shuntbook.kit.money import total
from shuntbook.kit.speech import Speech
from shuntbook.queue.car import CarLog
from shuntbook.report.entry import Entry
from shuntbook.report.settling import HandoverSigned, StatedTotals, Step
from shuntbook.setup.agreements import Agreement
from shuntbook.setup.folder import Setup

TWICE = "twice"
"""Why an estimate is not charged, as a word of `says.WHY`."""
REPAIRED_TWICE = (
    "{hit}: charged for two repairs of one part ({done}; {again}). If the second put right the first, decide that one"
    " of the two lines is not charged."
)


@dataclass(frozen=True)
class Hit:
    """An incident with its charges, the steps of its sum, what of its damage is to be paid, and its misuse in full."""

    incident: Incident
    title: str
    charges: list[Charge]
    steps: list[Step]
    together: Decimal
    to_pay: Decimal
    misuse: Decimal


@dataclass(frozen=True)
class Draft:
    """A statement not issued: hits, what is not charged with the reason's word, steps of the sum, totals, others."""

    agreement: Agreement
    number: int
    supplements: int | None
    hits: list[Hit]
    not_charged: list[tuple[Line, str]]
    steps: list[Step]
    totals: StatedTotals
    terms: Terms
    others: Others


def draft(log: CarLog, costs: CarCosts, agreement: Agreement, setup: Setup) -> Draft:
    """Return the statement of a car as it stands now, numbered after those that were issued."""
    before = issued(log.entries, setup.event)
    walks = [entry for entry in log.entries if isinstance(entry.data, HandoverSigned) and entry.data.walk == "return"]
    terms = Terms(
        agreement,
        setup.rates,
        decisions(log.entries, setup.event),
        withdrawn(before),
        returned=max((entry.when for entry in walks), default=None),
        seen_at_return=frozenset(mark for entry in walks for mark in _marks(entry)),
    )
    why = {line.name: terms.why_not(line) for line in costs.lines}
    charged = [line for line in costs.lines if why[line.name] is None]
    by_hit = _by_incident(charged, terms, setup)
    twice = {line.name for lines in by_hit for line in _estimated_again(lines, terms)}
    reasons = {line.name: why[line.name] or (TWICE if line.name in twice else None) for line in costs.lines}
    not_charged = [(line, reason) for line in costs.lines if (reason := reasons[line.name])]
    left = [[line for line in lines if line.name not in twice] for lines in by_hit]
    hits = [_hit(lines, costs, terms, setup) for lines in left]
    last = before[-1].data.number if before else None
    others = others_of_car(agreement.car, log, agreement, setup, terms.decisions, terms.withdrawn)
    steps, totals = _sum(hits, others.charged, terms, before, setup.speech)
    return Draft(agreement, (last or 0) + 1, last, hits, not_charged, steps, totals, terms, others)


def twice_asked(hits: Sequence[Hit], terms: Terms, setup: Setup) -> list[str]:
    """Return a question for each part of a hit that is charged for two repairs of which nobody decided anything."""
    asked = []
    for hit in hits:
        first: dict[str, Line] = {}
        for line in (charge.line for charge in hit.charges if charge.line.actual and charge.line.job):
            known = first.setdefault(line.job, line)
            if known is not line and terms.decided(line).charge is None and terms.decided(known).charge is None:
                done, again = (line_says(one, setup) for one in (known, line))
                asked.append(setup.speech(REPAIRED_TWICE, hit=hit.title, done=done, again=again))
    return asked


def _estimated_again(lines: Sequence[Line], terms: Terms) -> list[Line]:
    """Return the estimates of parts whose repair the same hit charges: one door is charged once, unless decided."""
    repaired = {line.job for line in lines if line.actual and line.job}
    return [one for one in lines if not one.actual and one.job in repaired and terms.decided(one).charge is None]


def _marks(walk: Entry) -> list[str]:
    return walk.data.marks if isinstance(walk.data, HandoverSigned) else []


def _by_incident(lines: Sequence[Line], terms: Terms, setup: Setup) -> list[list[Line]]:
    """Return the lines of each hit, hits in the itinerary's order, then by when they were reported.

    A line that no report is behind belongs to the hit that its decision names; else it is one of its own.
    """
    last = len(setup.event.stages)
    known = {line.incident for line in lines}

    def hit(line: Line) -> str:
        named = terms.decided(line).incident
        return line.incident or (named if named and named in known else line.name)

    def place(line: Line) -> tuple[object, ...]:
        stage = setup.event.stage_index(line.told.body.stage if line.told else None)
        return (last if stage is None else stage, line.told.when.timestamp() if line.told else 0, hit(line))

    groups: dict[str, list[Line]] = {}
    for line in sorted(lines, key=lambda line: (line.told is None, place(line), line.name)):
        groups.setdefault(hit(line), []).append(line)
    return list(groups.values())


def _hit(lines: Sequence[Line], costs: CarCosts, terms: Terms, setup: Setup) -> Hit:
    first = lines[0]
    charges = [terms.charge(line, costs.shares.get(line.name, Share())) for line in lines]
    damage = [charge for charge in charges if not charge.misuse]
    misuse = [charge for charge in charges if charge.misuse]
    together, in_full = total(charge.amount for charge in damage), total(charge.amount for charge in misuse)
    steps, to_pay = _damage(damage, together, terms, setup) if damage else ([], together)
    if misuse:
        says = setup.speech(
            "{sum}. Misuse is paid in full, whatever share, excess and cap say", sum=misuse_says(misuse, terms, setup)
        )
        steps.append(_step("misuse", says, in_full, terms))
    incident = first.told.incident if first.told else Incident(first.name, "", ())
    return Hit(incident, title_of(incident, first, setup), charges, steps, together, to_pay, in_full)


def _damage(charges: Sequence[Charge], together: Decimal, terms: Terms, setup: Setup) -> tuple[list[Step], Decimal]:
    """Return the steps of an incident's damage, and what of it is to be paid after share and excess."""
    steps = _steps(charges, terms, setup)
    to_pay, say = together, setup.speech
    share = terms.agreement.share_percent
    if share != 100:
        to_pay = terms.rates.currency.round(Fraction(to_pay) * Fraction(share) / 100)
        steps.append(_step("share", say("Your share of it: {share}", share=percent(share, say)), to_pay, terms))
    excess = terms.agreement.excess
    if excess is not None and terms.agreement.excess_per == "incident":
        says = excess_says(to_pay, excess, "incident", terms.rates.currency, say)
        to_pay = min(to_pay, excess)
        steps.append(_step("excess", says, to_pay, terms))
    return steps, to_pay


def _steps(charges: Sequence[Charge], terms: Terms, setup: Setup) -> list[Step]:
    say = setup.speech
    share = percent(terms.consumables_percent, say)
    consumables = say("Consumables: {share} of the parts charged", share=share)
    return [
        _step("parts", parts_says(charges, setup), total(charge.parts_cost for charge in charges), terms),
        _step("labour", labour_says(charges, terms, say), total(charge.labour for charge in charges), terms),
        _step("consumables", consumables, total(charge.consumables for charge in charges), terms),
        _step("together", say("Together"), total(charge.amount for charge in charges), terms),
    ]


def _sum(
    hits: Sequence[Hit], others: Sequence[Other], terms: Terms, before: Sequence[Issued], say: Speech
) -> tuple[list[Step], StatedTotals]:
    """Return the steps of the whole sum and the totals."""
    agreement, coin = terms.agreement, terms.rates.currency
    steps, to_pay = _limited(hits, terms, say)
    misuse, other = total(hit.misuse for hit in hits), total(one.amount for one in others)
    if misuse:
        to_pay += misuse
        steps.append(_step("misuse", say("Misuse, in full"), misuse, terms))
    steps += [_step("other", one.says, one.amount, terms) for one in others]
    taxed = _taxed(to_pay, others, terms, say)
    to_pay += other
    tax = total(amount for _, amount in taxed)
    steps += [_step("tax", says, amount, terms) for says, amount in taxed if amount]
    stated = total(Decimal(one.data.content.totals.now) for one in before)
    now = to_pay + tax - stated
    if before:
        numbers = ", ".join(str(one.data.number) for one in before)
        steps.append(_step("stated-before", say("Already stated (statement {n})", n=numbers), -stated, terms))
        steps.append(_step("now", say("This statement adds"), now, terms))
    rest = to_pay + tax - agreement.deposit
    if agreement.deposit:
        steps.append(_step("deposit", say("Less the deposit that you paid"), -agreement.deposit, terms))
    steps.append(_step("rest", say("Balance to pay" if rest >= 0 else "Refund to you"), abs(rest), terms))
    return steps, StatedTotals(
        damage=coin.text(total(hit.together + hit.misuse for hit in hits)),
        to_pay=coin.text(to_pay),
        tax=coin.text(tax),
        stated_before=coin.text(stated),
        now=coin.text(now),
        deposit=coin.text(agreement.deposit),
        rest=coin.text(rest),
        misuse=coin.text(misuse) if misuse else None,
        other=coin.text(other) if others else None,
    )


def _taxed(damage: Decimal, others: Sequence[Other], terms: Terms, say: Speech) -> list[tuple[str, Decimal]]:
    """Return the tax of each rate in words, the agreement's first, each rounded once on all that it is due on."""
    coin = terms.rates.currency
    rates = {terms.agreement.tax_percent: damage}
    for one in others:
        rates[one.tax_percent] = rates.get(one.tax_percent, Decimal(0)) + one.amount
    alone = len(rates) == 1
    return [
        (
            say("Tax: {rate}", rate=percent(rate, say))
            if alone
            else say("Tax: {rate} of {amount}", rate=percent(rate, say), amount=plain_money(amount, coin, say)),
            coin.round(Fraction(amount) * Fraction(rate) / 100),
        )
        for rate, amount in rates.items()
    ]


def _limited(hits: Sequence[Hit], terms: Terms, say: Speech) -> tuple[list[Step], Decimal]:
    """Return the steps of all damage, and what of it is to be paid after an excess of the event and the cap."""
    agreement, coin = terms.agreement, terms.rates.currency
    to_pay = total(hit.to_pay for hit in hits)
    steps = [_step("incident", f"{place}. {hit.title}", hit.to_pay, terms) for place, hit in enumerate(hits, 1)]
    steps.append(_step("incidents", say("All incidents together"), to_pay, terms))
    if agreement.excess is not None and agreement.excess_per == "event":
        says = excess_says(to_pay, agreement.excess, "event", coin, say)
        to_pay = min(to_pay, agreement.excess)
        steps.append(_step("excess", says, to_pay, terms))
    if agreement.cap is not None and to_pay > agreement.cap:
        says = say("You pay {amount} at most", amount=plain_money(agreement.cap, coin, say))
        steps.append(_step("cap", says, agreement.cap, terms))
        to_pay = agreement.cap
    return steps, to_pay


def _step(step: str, says: str, amount: Decimal, terms: Terms) -> Step:
    return Step(step, says, terms.rates.currency.text(amount))
