"""All rules across files, in one table. A rule is a function from the desk to the problems it finds."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from plateset.manuscript import check_gym, check_names, check_programs, check_size, links, raw_html
from plateset.manuscript.desk import Desk
from plateset.problems import Problem

CHECKS: tuple[Callable[[Desk], Iterator[Problem]], ...] = (
    check_names.exercises_in_programs,
    check_names.exercises_in_exercises,
    check_names.programs_in_explainers,
    check_names.names_of_technique_notes,
    check_names.notes_on_techniques,
    check_names.sessions_in_schedule,
    check_programs.days_of_schedule,
    check_programs.weeks_out_of_the_ordinary,
    check_programs.weeks_of_lines,
    check_programs.loads_of_lines,
    check_programs.repetitions_to_climb,
    check_programs.pyramids,
    check_programs.bests_of_lifter,
    check_gym.kit_of_programs,
    check_gym.bars_of_programs,
    check_gym.sources_of_maxes,
    check_size.sets_of_programs,
    check_size.acceptances_of_programs,
    check_size.plates_of_gyms,
    links.targets_of_links,
    raw_html.html_in_prose,
)


def check(desk: Desk) -> Iterator[Problem]:
    """Every problem that shows only when the files are read side by side."""
    for rule in CHECKS:
        yield from rule(desk)
