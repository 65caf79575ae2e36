"""Papers with many photos, one after the other: what setting them leaves behind does not add up."""

import multiprocessing
from concurrent.futures import ProcessPoolExecutor

import psutil
import pytest

from document_cases import car_file, pictures
from making import Pen
from shuntbook.document.pdf import pdf
from shuntbook.document.record import record
from small_event import small_setup

PAPERS, WARM, PHOTOS = 14, 3, 20
MOST_MIB = 12
"""Of so many papers 30 MiB stay where their pictures are kept, and 1.4 where they are not (measured)."""


def grown_mib() -> float:
    """Set records of a car that is hit again and again; return how much memory this process had more at the end."""
    photos, pen, sizes = pictures(PHOTOS, (640, 480)), Pen("small-2026"), []
    hits = [pen.filed("front-left/wheel bent", stage="SS2", km=5.2, photos=[name]) for name in photos]
    for place in range(PAPERS):
        file = car_file(hits[: PHOTOS - PAPERS + place], small_setup(), photos=photos)
        pdf(record(file, "a4"), photos.get, file.newest)
        sizes.append(psutil.Process().memory_info().rss)
    return (sizes[-1] - sizes[WARM]) / 2**20


@pytest.mark.longer
def test_records_with_ever_more_photos_take_no_more_memory_each_time() -> None:
    # In a process of its own: this one's memory is other tests', too.
    with ProcessPoolExecutor(1, multiprocessing.get_context("spawn")) as own:
        assert own.submit(grown_mib).result(300) < MOST_MIB
