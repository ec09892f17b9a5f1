"""Marks on what can hurt: techniques where they do not belong, too much past failure, cautions left unsaid."""

from __future__ import annotations

from collections.abc import Iterator

from plateset.manuscript.vocabulary import LEVELS
from plateset.training.marks.mark import Case, Mark, each_new_lift, path_of
from plateset.training.plan import Lift, PlannedLine, Session
from plateset.training.techniques import TECHNIQUES

GROUP_LEVELS = {
    "superset": "novice",
    "giant-set": "intermediate",
    "circuit": "novice",
    "pre-exhaustion": "intermediate",
}


def _uses(case: Case) -> Iterator[tuple[Session, PlannedLine, Lift, str]]:
    """Every technique on a lift, once for each line: named by the first week it is met in."""
    seen: set[tuple[object, ...]] = set()
    for _, session, line, lift in each_new_lift(case.plan):
        names = {work.technique for work in lift.sets if work.technique}
        names |= {line.kind} if line.kind not in {"single", "pick-one"} else set()
        for name in sorted(names):
            key = (session.name, lift.index, name)
            if key not in seen:
                seen.add(key)
                yield session, line, lift, name


def ruled_out(case: Case) -> Iterator[Mark]:
    """A technique that the exercise's own note says does not suit it."""
    for session, line, lift, name in _uses(case):
        if name in lift.note.not_with:
            message = f"the note on {lift.exercise} rules out {name}"
            remedy = "use another technique or another lift, or change the note if it is wrong"
            yield Mark("technique-ruled-out", "stop", path_of(session, line, lift, "exercise"), message, remedy)


def above_level(case: Case) -> Iterator[Mark]:
    """A technique for lifters further on than the program's level."""
    level = LEVELS.index(case.plan.program.level)
    for session, line, lift, name in _uses(case):
        note = case.techniques.get(name)
        wanted = note.level if note else TECHNIQUES[name].level if name in TECHNIQUES else GROUP_LEVELS[name]
        gap = LEVELS.index(wanted) - level
        if gap > 0:
            message = f"{name} on {lift.exercise} is for {wanted} lifters; the program is for {LEVELS[level]} ones"
            remedy = "leave the technique out, or raise the program's level and say whom it suits"
            severity = "stop" if level == 0 else "query"
            yield Mark("above-level", severity, path_of(session, line, lift, "exercise"), message, remedy)  # type: ignore[arg-type]


def past_failure(case: Case) -> Iterator[Mark]:
    """More lines past failure in a session than the site's limit (usually two: common practice, no source)."""
    seen: set[str] = set()
    for week in case.plan.weeks:
        for session in week.sessions:
            lines = [lift for line in session.lines for lift in _past_failure_in(line)]
            if len(lines) > case.limits.past_failure_lines and session.name not in seen:
                seen.add(session.name)
                named = ", ".join(lift.exercise for lift in lines)
                message = (
                    f"'{session.name}' has {len(lines)} lines past failure in week {week.number}: {named} "
                    f"(limit {case.limits.past_failure_lines})"
                )
                remedy = f"end {len(lines) - case.limits.past_failure_lines} of them at or before failure"
                yield Mark("past-failure", "query", ("sessions", session.name), message, remedy)


def _past_failure_in(line: PlannedLine) -> list[Lift]:
    """The lifts of a line that go past failure; of a pick, at most one is done."""
    found = [lift for lift in line.lifts if any(work.past_failure for work in lift.sets)]
    return found[:1] if line.kind == "pick-one" else found


def caution_missing(case: Case) -> Iterator[Mark]:
    """An exercise note asks programs to warn of something that this program's own words do not name."""
    program = case.plan.program
    said = " ".join([*program.cautions, *program.not_for, *case.site_cautions]).lower()
    seen: set[str] = set()
    for session in case.plan.weeks[0].sessions:
        for lift in session.lifts:
            for subject in lift.note.warn_of:
                if subject.lower() not in said and subject not in seen:
                    seen.add(subject)
                    message = (
                        f"the note on {lift.exercise} asks for a caution about the {subject}; the program has none"
                    )
                    remedy = f"add one to 'cautions' that names the {subject}"
                    yield Mark("caution-missing", "stop", ("cautions",), message, remedy)
