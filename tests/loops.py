"""Runs coroutines where this thread may have an event loop under way already, as Playwright's has."""

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

Result = TypeVar("Result")


def run_apart(work: Coroutine[Any, Any, Result], deadline_s: float = 60) -> Result:
    """Return what a coroutine comes to, on a loop and in a thread of its own. Errors: its own; TimeoutError."""
    with ThreadPoolExecutor(1) as thread:
        return thread.submit(lambda: asyncio.run(asyncio.wait_for(work, deadline_s))).result()
