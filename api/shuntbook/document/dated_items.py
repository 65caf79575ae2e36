"""What on the car runs out or is sealed, as scrutineers ask for it."""

from shuntbook.document.car_file import CarFile, Json
from shuntbook.document.wording import Wording


def dated_items(file: CarFile, wording: Wording) -> list[Json]:
    """Return the car's items with their last day and seal; `over`: that day was past when the log ends."""
    today = file.newest.astimezone(wording.zone_of_time).date()
    return [
        {
            "item": wording.plain(item.item),
            "place": item.place,
            "expires": wording.say.day(item.expires) if item.expires else "",
            "over": item.expires is not None and item.expires < today,
            "seal": item.seal,
        }
        for item in file.setup.event.dated
        if item.car == file.car
    ]
