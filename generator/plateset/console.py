"""All text for the terminal: problems, proofs, summaries. The only module that uses rich."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from plateset.problem_text import problem_text
from plateset.problems import ManuscriptError
from plateset.proving import PlacedMark, Proof, Proofs
from plateset.training.marks.mark import plain
from plateset.training.plan import Session
from plateset.training.time import session_minutes
from plateset.training.volume import MuscleWeek

SIGNS = {"stop": "stop ", "query": "query", "note": "note "}
_STYLES = {"stop": "bold red", "query": "yellow", "note": "dim"}


def show_problems(error: ManuscriptError, screen: Console) -> None:
    """Every problem with its source line, then how many there are."""
    for problem in error.problems:
        screen.print(Text(problem_text(problem)), soft_wrap=True)
        screen.print()
    count = len(error.problems)
    screen.print(f"{_counted(count, 'problem')}. Nothing was computed or written.")


def show_proofs(proofs: Proofs, screen: Console) -> None:
    """The proof of every program, the marks on prose elsewhere, and the verdict."""
    for proof in proofs.programs.values():
        _show_proof(proof, screen)
    if proofs.prose:
        screen.rule("Notes and explainers", align="left")
        _show_marks(proofs.prose, screen)
    screen.print(verdict(proofs))


def show_stops(proofs: Proofs, screen: Console) -> None:
    """The marks that stop it, with their places and remedies; nothing when there are none."""
    every = [*(mark for proof in proofs.programs.values() for mark in proof.marks), *proofs.prose]
    stops = tuple(placed for placed in every if placed.mark.severity == "stop" and not placed.mark.accepted)
    if stops:
        _show_marks(stops, screen)


def verdict(proofs: Proofs) -> Text:
    """One line: how many marks there are and whether the manuscript may be published."""
    stops, queries, notes = (proofs.count(severity) for severity in ("stop", "query", "note"))
    count = len(proofs.programs)
    accepted = sum(bool(mark.accepted) for mark in proofs.marks)
    tally = f"{_counted(count, 'program')}; marks: {stops} stop, {queries} query, {notes} note"
    tally += f", {accepted} accepted. " if accepted else ". "
    if stops:
        return Text(tally + "Not to be published until the marks that stop it are mended.", style="bold red")
    return Text(tally + "May be published.", style="bold")


def _show_proof(proof: Proof, screen: Console) -> None:
    program = proof.plan.program
    screen.rule(Text(f"{program.title} ({proof.plan.slug})"), align="left")
    weeks, days = _counted(program.weeks, "week"), _counted(len(program.schedule), "day")
    screen.print(f"{program.level}, {weeks}, {days} a week, {proof.plan.unit}")
    screen.print()
    screen.print(_volume_table(proof))
    screen.print("A direct set counts 1, an indirect one its share. d: deload week. *: promise not kept.", style="dim")
    screen.print()
    screen.print(_session_table(proof))
    screen.print()
    _show_marks(proof.marks, screen)


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def _volume_table(proof: Proof) -> Table:
    """Muscles x weeks: fractional sets; equal neighbouring weeks share a column so that it fits a narrow screen."""
    columns = _columns(proof)
    table = Table("Weekly sets", "promised", box=None, pad_edge=False, padding=(0, 1, 0, 0))
    for weeks in columns:
        deload = any(week.deload for week in proof.plan.weeks if week.number == weeks[0])
        name = str(weeks[0]) if len(weeks) == 1 else f"{weeks[0]}-{weeks[-1]}"
        table.add_column(f"{name}{'d' if deload else ''}", justify="right")
    promised = {str(muscle): span for muscle, span in proof.plan.program.weekly_sets.items()}
    muscles = sorted({muscle for week in proof.volume.values() for muscle in week} | set(promised))
    for muscle in [*promised, *(m for m in muscles if m not in promised)]:
        span = promised.get(muscle)
        words = "" if span is None else str(span[0]) if span[0] == span[1] else f"{span[0]}-{span[1]}"
        table.add_row(muscle, words, *(_cell(proof, weeks[0], muscle, span) for weeks in columns))
    return table


def _columns(proof: Proof) -> list[list[int]]:
    columns: list[list[int]] = []
    for week in proof.plan.weeks:
        same = columns and _sets(proof.volume[columns[-1][0]]) == _sets(proof.volume[week.number])
        if same and proof.plan.weeks[columns[-1][0] - 1].deload == week.deload:
            columns[-1].append(week.number)
        else:
            columns.append([week.number])
    return columns


def _sets(week: object) -> dict[str, str]:
    assert isinstance(week, dict)
    return {muscle: plain(found.fractional) for muscle, found in week.items()}


def _cell(proof: Proof, week: int, muscle: str, span: tuple[int, int] | None) -> Text:
    found: MuscleWeek | None = proof.volume[week].get(muscle)
    sets = plain(found.fractional) if found else "0"
    deload = proof.plan.weeks[week - 1].deload
    if span is None or deload:
        return Text(sets)
    broken = not span[0] <= (found.fractional if found else 0) <= span[1]
    return Text(f"{sets}*", style="bold red") if broken else Text(sets)


def _session_table(proof: Proof) -> Table:
    table = Table("Session", "day", "minutes", "limit", "past failure", box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for session in proof.plan.weeks[0].sessions:
        working = [week for week in proof.plan.weeks if not week.deload] or proof.plan.weeks
        same = [s for week in working for s in week.sessions if s.day == session.day]
        minutes = [session_minutes(each) for each in same]
        span = str(min(minutes)) if min(minutes) == max(minutes) else f"{min(minutes)}-{max(minutes)}"
        limit = str(session.within // 60) if session.within else ""
        table.add_row(session.title, str(session.day), span, limit, str(max(_past_failure(each) for each in same)))
    return table


def _past_failure(session: Session) -> int:
    return sum(any(work.past_failure for work in lift.sets) for lift in session.lifts)


def _show_marks(marks: tuple[PlacedMark, ...], screen: Console) -> None:
    if not marks:
        screen.print("No marks.\n")
    for placed in marks:
        mark = placed.mark
        sign, style = ("ok   ", "dim") if mark.accepted else (SIGNS[mark.severity], _STYLES[mark.severity])
        screen.print(Text.assemble((sign, style), f" {mark.name}: {mark.message}"))
        screen.print(Text(f"      at {placed.place}"), soft_wrap=True)
        screen.print(Text(f"      {f'accepted: {mark.accepted}' if mark.accepted else mark.remedy}"))
    if marks:
        screen.print()
