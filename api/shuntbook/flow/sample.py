"""The sample event that ships with the package, as a pattern for a team's first one: its set-up files, no entries."""

from pathlib import Path

from shuntbook.setup.folder import RATES

SAMPLE = "thornquell-2026"
"""The sample event's id, and its folder."""


def sample_folder() -> Path:
    """Return where the sample event lies: in the installed package, else in the checkout."""
    package = Path(__file__).resolve().parents[1]
    packaged = package / "sample_reports" / SAMPLE
    return packaged if packaged.is_dir() else package.parents[1] / "sample_reports" / SAMPLE


def sample_files() -> dict[str, str]:
    """Return its set-up as text by file name; its rate table is the package's own."""
    folder = sample_folder()
    rates = sorted(path for path in (folder / RATES).iterdir() if path.is_file())
    return {
        str(path.relative_to(folder)): path.read_text() for path in [folder / "event.toml", folder / "van.csv", *rates]
    }
