"""Who and what is taken when, as whole numbers whose bit n stands for unit n of the grid: quick to ask and to mark."""

from collections.abc import Iterator, Sequence

from shuntbook.plan.problem import Problem, Task

ALWAYS = -1


class Board:
    """What a plan in the making has taken so far."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.busy = [(1 << worker.from_unit) - 1 for worker in problem.workers]
        self.levels = {resource: [0] * (amount + 1) for resource, amount in problem.resources.items()}
        self.working = dict.fromkeys(problem.cars, 0)
        self.fire = dict.fromkeys(problem.cars, 0)
        self.up = dict.fromkeys(problem.cars, 0)
        self.touched = dict.fromkeys(problem.cars, 0)
        self.moving = dict.fromkeys(problem.cars, 0)

    def starts(self, number: int, long: int, earliest: int, enough: int = ALWAYS) -> Iterator[int]:
        """Yield the moments from `earliest` on at which nothing is in the way but who may do it with whom.

        enough: the moments at which there are enough hands; what is under way starts where it started.
        """
        task = self.problem.tasks[number]
        if task.fixed is not None:
            if enough >> task.fixed & 1:
                yield task.fixed
            return
        first, last = max(earliest, task.earliest), self.problem.latest(number) - long
        moments = free_for(self._blocked(task), long) & enough & until(last + 1) & ~until(first)
        while moments:
            moment = (moments & -moments).bit_length() - 1
            yield moment
            moments &= ~(1 << moment)

    def enough_hands(self, workers: Sequence[int], people: int, long: int) -> int:
        """Return the moments from which so many of these workers have nothing to do for so long."""
        if not long:
            return ALWAYS
        at_least = [ALWAYS] + [0] * people
        for worker in workers:
            free = free_for(self.busy[worker], long)
            for many in range(people, 0, -1):
                at_least[many] |= at_least[many - 1] & free
        return at_least[people]

    def free_workers(self, start: int, long: int) -> set[int]:
        """Return the workers who have nothing to do from `start` for so long."""
        mask = ((1 << long) - 1) << start
        return {number for number, busy in enumerate(self.busy) if not busy & mask}

    def take(self, number: int, start: int, long: int, workers: tuple[int, ...]) -> None:
        """Mark a task's people, places and resources as taken."""
        task = self.problem.tasks[number]
        mask = ((1 << long) - 1) << start
        for worker in workers:
            self.busy[worker] |= mask
        for resource, amount in task.uses.items():
            self.hold(resource, amount, mask)
        self.working[task.car] |= mask
        self.touched[task.car] |= mask if task.touches else 0
        self.moving[task.car] |= mask if task.moves else 0
        if task.alone:
            self.fire[task.car] |= mask

    def hold(self, resource: str, amount: int, mask: int) -> None:
        """Mark so many of a resource as taken; level n holds when at least n are."""
        levels = self.levels[resource]
        for _ in range(amount):
            for level in range(len(levels) - 1, 0, -1):
                below = levels[level - 1] if level > 1 else ALWAYS
                levels[level] |= below & mask

    def free_again(self, resource: str, amount: int, mask: int) -> None:
        """Take a mark back."""
        levels = self.levels[resource]
        for _ in range(amount):
            for level in range(1, len(levels)):
                above = levels[level + 1] if level + 1 < len(levels) else 0
                levels[level] = levels[level] & ~mask | above & mask

    def _blocked(self, task: Task) -> int:
        blocked = self.working[task.car] if task.alone else self.fire[task.car]
        for resource, amount in task.uses.items():
            blocked |= self.levels[resource][self.problem.resources[resource] - amount + 1] if amount else 0
        blocked |= self.touched[task.car] if task.moves else 0
        blocked |= self.moving[task.car] if task.touches else 0
        return blocked | self.up[task.car] if task.ground else blocked


def until(moment: int) -> int:
    """Return all moments before one."""
    return (1 << max(0, moment)) - 1


def free_for(blocked: int, long: int) -> int:
    """Return the moments from which a stretch of `long` units is free."""
    free, reach = ~blocked, 1
    while reach < long:
        step = min(reach, long - reach)
        free &= free >> step
        reach += step
    return free
