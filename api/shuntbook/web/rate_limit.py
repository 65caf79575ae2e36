"""Slows down whoever guesses join codes: so many wrong ones a minute from one address, then a wait."""

from flask import current_app, request
from limits import RateLimitItemPerMinute
from limits.storage import MemoryStorage
from limits.strategies import MovingWindowRateLimiter

from shuntbook.kit.errors import TooMany

WRONG_CODES = RateLimitItemPerMinute(10)
"""A code has 60 bits: at ten tries a minute guessing takes longer than any event lasts."""


def new_guard() -> MovingWindowRateLimiter:
    """Return a guard with no memory yet; it lives in the one server process."""
    return MovingWindowRateLimiter(MemoryStorage())


def may_try_to_join() -> None:
    """Refuse a try from an address that sent too many wrong codes. Errors: TooMany."""
    if not _guard().test(WRONG_CODES, _address()):
        raise TooMany("too many wrong join codes from here; wait a minute, then open the link again")


def wrong_code() -> None:
    """Count a wrong code."""
    _guard().hit(WRONG_CODES, _address())


def _guard() -> MovingWindowRateLimiter:
    guard: MovingWindowRateLimiter = current_app.extensions["shuntbook.guard"]
    return guard


def _address() -> str:
    return request.remote_addr or "unknown"
