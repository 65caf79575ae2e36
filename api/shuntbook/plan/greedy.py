"""A plan at once, without a solver: task by task at the earliest moment that breaks no rule.

Musts come first, then value per worker-unit. A group that cannot be fitted in whole is left out, and with it the
access that only it needed. The plan is valid, seldom the best, and there in milliseconds.
"""

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import chain

from shuntbook.plan.board import Board
from shuntbook.plan.check import faults
from shuntbook.plan.inside import tasks_in, units_in
from shuntbook.plan.problem import Placed, Problem, Schedule


def greedy(problem: Problem) -> Schedule:
    """Return a valid plan; groups that do not fit are left out."""
    ways = Ways(problem)
    inside: list[str] = []
    best = ways.lay_out(inside)
    for group in _order(problem):
        tried = ways.lay_out([*inside, group])
        if tried is not None:
            inside.append(group)
            best = tried
    return _plan_of(best or (), inside)


def _plan_of(placed: Sequence[Placed], groups: Sequence[str]) -> Schedule:
    return Schedule(tuple(placed), False, "greedy", frozenset(groups))


def _order(problem: Problem) -> list[str]:
    work = dict.fromkeys(problem.groups, 1)
    for task in problem.tasks:
        if task.group:
            work[task.group] += task.people * task.units
        for piece in task.pieces:
            work[piece.group] += task.people * piece.units
    places = {group: place for place, group in enumerate(problem.groups)}

    levels = {group: n for n, level in reversed(list(enumerate(problem.levels))) for group in level}

    def place(group: str) -> tuple[int, float, int]:
        level = levels.get(group, len(problem.levels))
        return (level, -problem.values.get(group, 0) / work[group], places[group])

    wanted = [group for group in problem.groups if group in problem.musts or problem.values.get(group)]
    return sorted(wanted, key=place)


def _all_before(before: dict[int, set[int]], number: int) -> set[int]:
    found: set[int] = set()
    todo = [number]
    while todo:
        more = before[todo.pop()] - found
        found |= more
        todo += more
    return found


class Ways:
    """What comes before what, for one problem, asked for again and again."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem

    @cached_property
    def before(self) -> dict[int, set[int]]:
        """For each task those that end before it starts, where both are in."""
        found: dict[int, set[int]] = {number: set() for number in range(len(self.problem.tasks))}
        for earlier, later in self.problem.before:
            found[later].add(earlier)
        for span in self.problem.spans:
            for user in (*span.users, *span.within):
                found[span.closes].add(user)
                if span.opens is not None:
                    found[user].add(span.opens)
            if span.opens is not None:
                found[span.closes].add(span.opens)
        self._ground(found)
        return found

    def _ground(self, found: dict[int, set[int]]) -> None:
        """Ground work waits until the car is down again; what the car is lifted for afterwards comes before that."""
        for span in self.problem.spans:
            for number, task in enumerate(self.problem.tasks):
                if span.stands and task.ground and task.car == span.car:
                    if number not in _all_before(found, span.closes):
                        found[number].add(span.closes)
                    elif span.opens is not None:
                        found[span.opens].add(number)

    @cached_property
    def after(self) -> dict[int, set[int]]:
        """The same the other way round."""
        found: dict[int, set[int]] = {number: set() for number in range(len(self.problem.tasks))}
        for later, earlier in self.before.items():
            for number in earlier:
                found[number].add(later)
        return found

    @cached_property
    def not_by(self) -> dict[int, set[int]]:
        """For each task those whose people may not do it."""
        found: dict[int, set[int]] = {number: set() for number in range(len(self.problem.tasks))}
        for apart in self.problem.apart:
            for other in apart.others:
                found[apart.task].add(other)
                found[other].add(apart.task)
        return found

    def lay_out(self, groups: Sequence[str]) -> list[Placed] | None:
        """Place all tasks of some groups, with the access that they need; None where they do not fit."""
        tasks = tasks_in(self.problem, groups)
        long = {number: units_in(self.problem, number, groups, tasks) for number in tasks}
        tail = self._tails(tasks, long)
        board, waiting = Board(self.problem), set(tasks)
        placed: dict[int, Placed] = {}
        self.open_at_start(board)
        for number in sorted(n for n in tasks if self.problem.tasks[n].fixed is not None):
            self.put(board, placed, number, long[number])
            waiting.discard(number)
        while waiting:
            ready = [number for number in waiting if not self.before[number] & waiting]
            # What most comes after goes first; of what is equal, what is not for closing.
            ready.sort(key=lambda n: (-tail[n], self.problem.tasks[n].kind == "close", n))
            if ready and self.problem.tasks[ready[0]].early:
                # Of what is found out early the first that can be comes first.
                ready.sort(key=lambda n: (not self.problem.tasks[n].early, self._earliest(placed, n)))
            put = next((n for n in ready if self.put(board, placed, n, long[n])), None)
            if put is None:
                return None
            waiting.remove(put)
        found = sorted(placed.values(), key=lambda item: (item.start, item.task))
        # What is under way stands where it stands, whatever else would have had to be first.
        under_way = any(self.problem.tasks[number].fixed is not None for number in tasks)
        return None if under_way and faults(self.problem, _plan_of(found, groups)) else found

    def _tails(self, tasks: set[int], long: dict[int, int]) -> dict[int, int]:
        """Return for each task the longest chain from its start to the end."""
        tails: dict[int, int] = {}

        def tail(number: int) -> int:
            if number not in tails:
                tails[number] = 0  # a ring would not end otherwise
                later = self.after[number] & tasks
                tails[number] = long[number] + max((tail(other) for other in later), default=0)
            return tails[number]

        for number in sorted(tasks):
            tail(number)
        return tails

    def _earliest(self, placed: dict[int, Placed], number: int) -> int:
        return max((placed[other].end for other in self.before[number] if other in placed), default=0)

    def lay(self, board: Board, placed: Sequence[Placed]) -> None:
        """Mark what a plan has taken, its access open from opening to closing."""
        for item in placed:
            board.take(item.task, item.start, item.end - item.start, item.workers)
        ends = {item.task: item for item in placed}
        for span in self.problem.spans:
            if span.closes in ends and (span.opens is None or span.opens in ends):
                start = 0 if span.opens is None else ends[span.opens].start
                mask = (1 << ends[span.closes].end) - (1 << start)
                for resource, amount in span.holds.items():
                    board.hold(resource, amount, mask)
                board.up[span.car] |= mask if span.stands else 0

    def open_at_start(self, board: Board) -> None:
        """Mark the access that is open already."""
        for span in self.problem.spans:
            if span.opens is None:
                self._opened(board, span.closes, 0)

    def put(
        self,
        board: Board,
        placed: dict[int, Placed],
        number: int,
        long: int,
        limit: int | None = None,
        workers: tuple[int, ...] | None = None,
        earliest: int = 0,
    ) -> bool:
        """Place a task at the earliest moment that breaks no rule and ends by `limit`; False where there is none.

        workers: by these people, who may do it; earliest: not before.
        """
        may = self._may(placed, number) if workers is None else workers
        people = self.problem.tasks[number].people if workers is None else len(workers)
        enough = board.enough_hands(may, people, long)
        held = self._held_until(board, number)
        first = max(earliest, self._earliest(placed, number), held)
        for start in board.starts(number, long, first, enough):
            if limit is not None and start + long > limit:
                return False
            chosen = self.chosen(board, number, may, start, long) if workers is None else workers
            if chosen is not None and start >= held:
                board.take(number, start, long, chosen)
                placed[number] = Placed(number, start, start + long, chosen)
                self._opened(board, number, start)
                self._closed(board, number, start + long)
                return True
        return False

    def _may(self, placed: dict[int, Placed], number: int) -> list[int]:
        """Return who may do a task beside what is placed: nobody who repaired inspects it."""
        not_these = set(chain.from_iterable(placed[n].workers for n in self.not_by[number] if n in placed))
        return [worker for worker in self.problem.tasks[number].may if worker not in not_these]

    def chosen(self, board: Board, number: int, may: Sequence[int], start: int, long: int) -> tuple[int, ...] | None:
        """Return people who are free for the whole task, the least versatile first, with one of the skilled."""
        task, workers = self.problem.tasks[number], self.problem.workers
        if not task.people:
            return ()
        free_then = board.free_workers(start, long)
        free = [worker for worker in may if worker in free_then]
        # Who sits in the car has nothing else to do; one of them at most.
        free.sort(key=lambda w: (w not in task.guests, workers[w].inspector, len(workers[w].skills), w))
        free = [w for n, w in enumerate(free) if w not in task.guests or n == 0]
        for skilled in (w for w in free if w in task.skilled) if task.skilled else [None]:
            chosen = ([] if skilled is None else [skilled]) + [w for w in free if w != skilled]
            if len(chosen) >= task.people:
                return tuple(sorted(chosen[: task.people]))
        return None

    def _held_until(self, board: Board, number: int) -> int:
        """Return from when on what a step takes from opening to closing is there, for as long as may be needed."""
        return max(
            (
                board.levels[resource][self.problem.resources[resource] - amount + 1].bit_length()
                for span in self.problem.spans
                if span.opens == number
                for resource, amount in span.holds.items()
            ),
            default=0,
        )

    def _opened(self, board: Board, number: int, start: int) -> None:
        """Until it is known when a span is closed it is open for good."""
        for span in self._spans_of(number):
            if span.opens == number or (span.opens is None and span.closes == number and start == 0):
                from_here = (1 << self.problem.horizon) - (1 << start)
                for resource, amount in span.holds.items():
                    board.hold(resource, amount, from_here)
                board.up[span.car] |= from_here if span.stands else 0

    def _closed(self, board: Board, number: int, end: int) -> None:
        for span in self._spans_of(number):
            if span.closes == number:
                after = (1 << self.problem.horizon) - (1 << end)
                for resource, amount in span.holds.items():
                    board.free_again(resource, amount, after)
                board.up[span.car] &= ~after if span.stands else -1

    def _spans_of(self, number: int) -> Iterator:  # type: ignore[type-arg]
        return (span for span in self.problem.spans if number in (span.opens, span.closes))
