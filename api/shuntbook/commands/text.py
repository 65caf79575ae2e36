"""Answers as a person reads them in a terminal."""

from shuntbook.cost.answer import CostLine, Costs
from shuntbook.lives.answer import Lives
from shuntbook.lives.words import STATE_SAYS, began_says, happened_says, used_says
from shuntbook.queue.answer import Job, Queue, Release


def queue_text(queue: Queue) -> str:
    """Return a queue as lines: the release first, then a line a job, then the totals."""
    lines = [release_text(queue), ""]
    lines += [_job_line(job) for job in queue.jobs]
    totals = queue.totals
    lines += [
        "",
        f"To do: {totals.mechanic_minutes} mechanic-minutes, {totals.total} before tax.",
    ]
    return "\n".join(lines)


def release_text(release: Queue | Release) -> str:
    """Return a release as lines. It speaks of the log only: never of whether a car may be driven."""
    head = f"Car {release.car}, {release.entries} entries: "
    if release.release == "nothing-open":
        return head + "nothing open in the log holds it. Event officials and local rules decide."
    reasons = [f"  {reason.needs}: {reason.job or 'entries that need review'}" for reason in release.hold_reasons]
    unseen = [f"  not checked before it left service {item.service}: {item.job}" for item in release.released_unseen]
    return "\n".join([head + "HOLD", *reasons, *unseen])


def lives_text(lives: Lives) -> str:
    """Return a line for each part that has a life, the most pressing first, with its story below it."""
    if not lives.lives:
        return "The set-up gives no part a life ([[lives]] of event.toml)."
    lines = []
    for life in lives.lives:
        must = ", must-do" if life.must_do else ""
        lines.append(f"{STATE_SAYS[life.state]}{must}: {life.job}: {used_says(life)}; {began_says(life)}")
        lines += [f"  {happened_says(happened)}" for happened in life.happened]
    return "\n".join(lines)


def costs_text(costs: Costs) -> str:
    """Return a cost sheet as lines: one a line of the sheet, then the totals."""
    lines = [_cost_line(line, costs.currency) for line in costs.lines]
    totals = costs.totals
    lines += [
        "",
        f"Estimate {totals.estimate}, spent {totals.actual}, adjustments {totals.adjustments},",
        f"before tax {totals.before_tax}, tax {totals.tax}, total {totals.total} {costs.currency}.",
    ]
    return "\n".join(lines)


def _job_line(job: Job) -> str:
    marks = [word for word in ("must_do", "knock_on", "retracted", "two_versions", "no_rate") if getattr(job, word)]
    marks += [f"short {part.short} {part.part}" for part in job.estimate.parts if part.short]
    est = job.estimate
    work = f"{est.minutes_expected} min × {est.mechanics}, {est.total} {est.currency}"
    inspection = "" if job.inspection == "not-needed" else f" [inspection {job.inspection}]"
    return f"{job.state:9} {job.job}: {job.condition}, {job.action}, {work}{inspection} {', '.join(marks)}"


def _cost_line(line: CostLine, currency: str) -> str:
    actual = line.actual.total if line.actual else "-"
    name = line.job or line.step
    return f"{line.kind:7} car {line.car} {name}: estimate {line.estimate.total}, actual {actual} {currency}"
