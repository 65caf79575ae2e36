"""Files that a page saves on the phone, in whichever engine."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from engines import engine
from phones import SLOW_MS, wait_until
from playwright.sync_api import Page


@dataclass(frozen=True)
class Saved:
    """A file as the phone has it: the name that the page gave it, and what is in it."""

    name: str
    data: bytes


def save(page: Page, tap: Callable[[], None]) -> Saved:
    """Do what has the page save one file, and wait until it is there whole."""
    folder = engine().unheard_downloads
    if folder is not None:
        return _found(page, tap, folder)
    with page.expect_download(timeout=SLOW_MS) as coming:
        tap()
    return Saved(coming.value.suggested_filename, Path(coming.value.path()).read_bytes())


def _found(page: Page, tap: Callable[[], None], folder: Path) -> Saved:
    """Look for it in the browser's folder, and take it out of there: the next one may have the same name."""
    assert list(folder.iterdir()) == [], "something was saved that no test asked for"
    tap()
    wait_until(page, lambda: _whole(folder))
    [file] = folder.iterdir()
    saved = Saved(file.name, file.read_bytes())
    file.unlink()
    return saved


def _whole(folder: Path) -> bool:
    """Say whether a file is there whole: until then Firefox holds its place by an empty one, and writes beside it."""
    files = list(folder.iterdir())
    return len(files) == 1 and files[0].suffix != ".part" and files[0].stat().st_size > 0
