"""A second event beside the sample one, whose only person is in no other: its manager and inspector."""

from bundles import event_toml
from sample_event import event_files

OTHER = "test-day-2026"
PEOPLE = '[[people]]\nperson = "p-zed"\nname = "Zed"\nroles = ["manager", "inspector"]\n'


def other_files(people_of: str = PEOPLE) -> dict[str, bytes]:
    """Return the set-up of another event, whose only person is somebody else."""
    toml = event_toml(OTHER, "on").decode()
    start = toml.index("[[people]]")
    end = toml.index("[[stages]]")
    terms, after = toml.index("[[agreements]]"), toml.index("[[dated]]")
    text = f"{toml[:start]}{people_of}\n{toml[end:terms]}{toml[after:]}"
    return {**event_files("on"), "event.toml": text.encode()}


def as_texts(files: dict[str, bytes]) -> dict[str, str]:
    """Return set-up files as the API takes them."""
    return {name: data.decode() for name, data in files.items()}
