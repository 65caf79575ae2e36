"""One small event for each rule, by name, from reports to the queue: what the vectors are made of.

`reports` are about what versions say, `work` about what closes a job, `inspections` about what an inspection takes and
who may make it, `figures` about order, money and release.
"""

from vector_cases import figures, inspections, reports, work
from vector_cases.case import Case

CASES: list[Case] = [*reports.CASES, *work.CASES, *inspections.CASES, *figures.CASES]
"""Every case; names differ."""
