"""The server's clock, read at the edge only: everything behind it is handed the time."""

from datetime import UTC, datetime


def now() -> str:
    """Return the time as RFC 3339 in UTC, to the millisecond."""
    return rfc3339(datetime.now(UTC))


def rfc3339(time: datetime) -> str:
    """Return a time in UTC as RFC 3339, to the millisecond, so that texts sort as times do."""
    return time.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def skew_s(device_now: str | None, server_now: str) -> float | None:
    """Return how far a device's clock is ahead of the server's in seconds, None where it did not say."""
    if device_now is None:
        return None
    try:
        device = datetime.fromisoformat(device_now)
    except ValueError:
        return None
    if device.tzinfo is None:
        return None
    return round((device - datetime.fromisoformat(server_now)).total_seconds(), 3)
