"""Answers as a person reads them in a terminal."""

from pathlib import Path
from typing import Any

from shuntbook.flow.bundle_export import Exported
from shuntbook.flow.bundle_import import Imported
from shuntbook.flow.care import Found
from shuntbook.flow.copying import Copied, Restored

Json = dict[str, Any]


def queue_text(queue: Json) -> str:
    """Return a queue as lines: the release first, then a line a job, then the totals."""
    lines = [release_text(queue), ""]
    lines += [_job_line(job) for job in queue["jobs"]]
    totals = queue["totals"]
    lines += [
        "",
        f"To do: {totals['mechanic_minutes']} mechanic-minutes, {totals['total']} before tax.",
    ]
    return "\n".join(lines)


def release_text(release: Json) -> str:
    """Return a release as lines. It speaks of the log only: never of whether a car may be driven."""
    head = f"Car {release['car']}, {release['entries']} entries: "
    if release["release"] == "nothing-open":
        return head + "nothing open in the log holds it. Event officials and local rules decide."
    reasons = [f"  {reason['needs']}: {reason['job'] or 'entries set aside'}" for reason in release["hold_reasons"]]
    unseen = [f"  released unseen at {item['service']}: {item['job']}" for item in release["released_unseen"]]
    return "\n".join([head + "HOLD", *reasons, *unseen])


def costs_text(costs: Json) -> str:
    """Return a cost sheet as lines: one a line of the sheet, then the totals."""
    lines = [_cost_line(line, costs["currency"]) for line in costs["lines"]]
    totals = costs["totals"]
    lines += [
        "",
        f"Estimate {totals['estimate']}, spent {totals['actual']}, adjustments {totals['adjustments']},",
        f"before tax {totals['before_tax']}, tax {totals['tax']}, total {totals['total']} {costs['currency']}.",
    ]
    return "\n".join(lines)


def check_text(found: Found) -> str:
    """Return what a look over the store found: problems, then notes, then devices whose numbers have gaps."""
    lines = [*found.problems, *(f"Note: {note}" for note in found.notes)]
    for device in found.devices:
        if device.missing:
            lines.append(f"Note: device {device.device}: numbers {_runs(device.missing)} have not come in")
        if device.twice:
            what = f"numbers {', '.join(map(str, device.twice))} came twice, as from a phone that was copied"
            lines.append(f"Note: device {device.device}: {what}")
    return "\n".join(lines if found.problems else [*lines, "Nothing wrong was found."])


def backup_text(file: Path, copied: Copied) -> str:
    """Return what a backup holds and what it lacks."""
    held = f"Copied to {file}. Entries: {copied.entries}, photos: {copied.photos}."
    lacks = f"Photos not in it: {len(copied.missing)}. A .zip holds photos too; `shuntbook check` names damaged ones."
    return f"{held} {lacks}" if copied.missing else held


def restore_text(file: Path, folder: Path, restored: Restored) -> str:
    """Return what came back, and what is to be done after an older copy took the place of what was."""
    copied = restored.copied
    lines = [
        f"{file} is in {folder}. Entries: {copied.entries}, photos: {copied.photos}, log: {restored.log_id}.",
        "Phones send all that they hold as soon as they reach it.",
        "Phones that joined, or were shut out, after the copy was made: invite them, or shut them out, again.",
    ]
    if restored.ended_invites:
        lines.append(f"Invites that were open in the copy and are ended now: {restored.ended_invites}. Make new ones.")
    if copied.missing:
        lines.append(f"Photos that the copy lacks: {', '.join(copied.missing)}")
    return "\n".join(lines)


def exported_text(file: Path, exported: Exported) -> str:
    """Return what a bundle holds and what it lacks."""
    held = f"{exported.entries} entries, {exported.photos} photos, set-ups: {', '.join(exported.events) or 'none'}"
    lines = [f"Written to {file}: {held}; {exported.bytes} bytes."]
    if exported.missing:
        lines.append(f"Damaged here and not in it: {len(exported.missing)} photos; `shuntbook check` names them.")
    return "\n".join(lines)


def imported_text(file: Path, imported: Imported) -> str:
    """Return what a bundle brought, and what is to be done about the rest."""
    lines = [f"{file}: {imported.new} entries new, {imported.held} held already, {imported.photos} photos new."]
    lines += [f"Set-up of {event} taken: who is manager there is manager here." for event in imported.setups]
    lines += [
        f"Set-up of {event} refused: a set-up says who is manager, and this machine holds other events. The entries are"
        " kept and wait for it. If you know whose file this is, import it again with --setup; or load the event's own"
        " folder with `shuntbook load`."
        for event in imported.setups_refused
    ]
    lines += [f"Set aside, {one['code']}: {one['id'] or 'no id'}: {one['what']}" for one in imported.set_aside]
    if imported.set_aside:
        lines.append("A manager looks through what was set aside in the app; the cars it names are on hold till then.")
    if imported.untrusted:
        lines.append(
            f"It names {imported.untrusted} devices not known here. If you know whose file this is, import it again"
            " with --trust; then what they signed is believed."
        )
    return "\n".join(lines)


def _runs(missing: list[list[int]]) -> str:
    return ", ".join(str(first) if first == last else f"{first} to {last}" for first, last in missing)


def plan_text(plan: Json) -> str:
    """Return a plan as lines: a line a task on the clock, then what is left out and what minutes buy."""
    proof = "proven the best" if plan["proven"] else "not proven the best"
    lines = [
        f"Car {plan['car']}, service {plan['service']}: done after {_clock(plan['finish_s'])}, {proof} ({plan['by']})."
    ]
    lines.append(f"Spare {_clock(plan['spare_s'])}; in time in {plan['on_time']:.0%} of the runs.")
    for task in plan["tasks"]:
        who = ", ".join(task["people"]) or "nobody bound"
        lines.append(f"{_clock(task['start_s'])}-{_clock(task['end_s'])}  {task['task']}: {who}")
    lines += [f"left out, for {item['to']}: {item['job']}: {item['reason']}" for item in plan["left_out"]]
    if plan["needs"]:
        lines.append(f"All that must be done needs {plan['needs']['minutes']} minutes from control to control.")
    for item in plan["later"]:
        lines.append(f"+{item['leave_late_min']} min ({item['penalty_s']} s penalty): {_more_and_less(item)}")
    for item in plan["hands"]:
        lines.append(f"{item['mechanics']} mechanics: done after {_clock(item['finish_s'])}, {_more_and_less(item)}")
    return "\n".join(lines)


def _more_and_less(item: Json) -> str:
    words = [f"also {', '.join(item['adds'])}"] if item["adds"] else []
    words += [f"without {', '.join(item['drops'])}"] if item["drops"] else []
    return "; ".join(words) or "the same jobs"


def team_plan_text(plan: Json) -> str:
    """Return the plan of several cars as lines, car by car."""
    head = f"From {plan['starts_at']}, done after {_clock(plan['finish_s'])} ({plan['by']})."
    cars = [f"{plan_text(car)}\nIts clock starts {_clock(car['offset_s'])} later." for car in plan["cars"]]
    return "\n\n".join([head, *cars])


def _clock(seconds: int) -> str:
    return f"{seconds // 60:02}:{seconds % 60:02}"


def _job_line(job: Json) -> str:
    marks = [word for word in ("must_do", "knock_on", "retracted", "two_versions", "no_rate") if job[word]]
    marks += [f"short {part['short']} {part['part']}" for part in job["estimate"]["parts"] if part["short"]]
    est = job["estimate"]
    work = f"{est['minutes_expected']} min × {est['mechanics']}, {est['total']} {est['currency']}"
    inspection = "" if job["inspection"] == "not-needed" else f" [inspection {job['inspection']}]"
    return f"{job['state']:9} {job['job']}: {job['condition']}, {job['action']}, {work}{inspection} {', '.join(marks)}"


def _cost_line(line: Json, currency: str) -> str:
    actual = line["actual"]["total"] if line["actual"] else "-"
    name = line["job"] or line["step"]
    return (
        f"{line['kind']:7} car {line['car']} {name}: estimate {line['estimate']['total']}, actual {actual} {currency}"
    )
