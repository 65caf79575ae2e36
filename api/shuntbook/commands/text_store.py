"""What is told in a terminal of a store: what a look over it found, what copies and bundles hold."""

from pathlib import Path

from shuntbook.flow.backups import Copied, Restored
from shuntbook.flow.bundle_export import Exported
from shuntbook.flow.bundle_import import Imported
from shuntbook.flow.diagnostics import Found


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
        f"{file} is in {folder}. Entries: {copied.entries}, photos: {copied.photos} (not in the copy:"
        f" {len(copied.missing)}).",
        f"Phones send all that they hold as soon as they reach it: the log has an id of its own, {restored.log_id}.",
        "Phones that joined, or were blocked, after the copy was made: invite them, or block them, again.",
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
    """Return in three lines what a bundle brought, what of it is believed and what waits; then what is to be done."""
    lines = [
        f"{file}: {imported.new} entries new, {imported.held} held already, {imported.photos} photos new.",
        f"Set-ups taken: {', '.join(imported.setups) or 'none'}; devices taken: {imported.devices};"
        f" entries that waited for them and count now: {imported.believed}.",
        f"Not taken: {len(imported.setups_refused)} set-ups, {imported.untrusted} devices;"
        f" need review: {len(imported.set_aside)} entries.",
    ]
    lines += [f"Set-up of {event} taken: who is manager there is manager here." for event in imported.setups]
    lines += [
        f"Set-up of {event} refused: a set-up says who is manager, and this machine holds other events. The entries are"
        " kept and wait for it. If you know whose file this is, import it again with --setup; or load the event's own"
        " folder with `shuntbook load`."
        for event in imported.setups_refused
    ]
    lines += [f"Needs review, {one['code']}: {one['id'] or 'no id'}: {one['what']}" for one in imported.set_aside]
    if imported.set_aside:
        lines.append("A manager reviews them in the app; the cars it names are on hold until then.")
    if imported.untrusted:
        lines.append(
            f"It names {imported.untrusted} devices not known here. If you know whose file this is, import it again"
            " with --trust; then what they signed is believed."
        )
    return "\n".join(lines)


def _runs(missing: list[list[int]]) -> str:
    return ", ".join(str(first) if first == last else f"{first} to {last}" for first, last in missing)
