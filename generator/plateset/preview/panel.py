"""What stands around the pages in the preview, as HTML: what is wrong, and the proof of the program shown."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from plateset.placed_marks import PlacedMark
from plateset.preview.state import State
from plateset.problem_text import problem_text
from plateset.proof_tables import day_words, equal_weeks, kept, span_words, working_weeks
from plateset.proving import Proof, Proofs
from plateset.training.plan import Week
from plateset.training.time import session_minutes

_ROW = Markup("<tr><th scope=row>{}</th>{}</tr>")


def status(state: State) -> str:
    """One line: whether the pages are those of the manuscript as it stands."""
    if state.is_sound:
        return "These are your pages as they stand."
    count = len(state.problems)
    wrong = state.fault or (f"{count} problem" if count == 1 else f"{count} problems") + " to mend"
    stay = "The pages below are from before." if state.pressed else "There are no pages yet."
    return f"{wrong.rstrip('.')}. {stay}"


def problems(state: State) -> Markup:
    """Every problem with its file, line and the offending text; empty where there is none."""
    if not state.problems:
        return Markup("")
    told = (Markup("<li><pre>{}</pre></li>").format(problem_text(problem)) for problem in state.problems)
    return Markup("<ol>{}</ol>").format(Markup("").join(told))


def proof_panel(state: State, page: str) -> Markup:
    """The proof of the program that ``page`` (a site path) belongs to, or of the whole manuscript."""
    if state.pressed is None:
        return Markup("<p>The proof comes with the first pages.</p>")
    proofs = state.pressed.proofs
    shown = _program_of(page, proofs)
    before = Markup("" if state.is_sound else "<p class=note>This proof is from before, as the pages are.</p>")
    return before + Markup("").join(_whole(proofs) if shown is None else _program(shown, proofs))


def _program_of(page: str, proofs: Proofs) -> Proof | None:
    parts = page.split("/")
    return proofs.programs.get(parts[1]) if len(parts) == 3 and parts[0] == "programs" else None


def _whole(proofs: Proofs) -> Iterator[Markup]:
    yield Markup("<h2>Proof of the manuscript</h2>")
    yield _verdict(proofs)
    rows = [
        _ROW.format(proof.plan.program.title, _cells([*_counts(proof.marks)])) for proof in proofs.programs.values()
    ]
    yield _table("Marks", ["stop", "query", "note"], rows)
    yield _marks("Marks on notes and explainers", proofs.prose)


def _program(proof: Proof, proofs: Proofs) -> Iterator[Markup]:
    yield Markup("<h2>Proof of {}</h2>").format(proof.plan.program.title)
    yield _verdict(proofs)
    yield _marks("Marks", proof.marks)
    yield _volume(proof)
    yield _minutes(proof)


def _verdict(proofs: Proofs) -> Markup:
    if proofs.may_be_published:
        return Markup("<p class=verdict>May be published.</p>")
    stops = proofs.count("stop")
    words = f"Not to be published: {stops} {'mark stops' if stops == 1 else 'marks stop'} it. The pages say 'Draft'."
    return Markup("<p class='verdict stopped'>{}</p>").format(words)


def _counts(marks: tuple[PlacedMark, ...]) -> list[str]:
    standing = [placed.mark.severity for placed in marks if not placed.mark.accepted]
    return [str(standing.count(severity)) for severity in ("stop", "query", "note")]


def _marks(title: str, marks: tuple[PlacedMark, ...]) -> Markup:
    if not marks:
        return Markup("<h3>{}</h3><p>None.</p>").format(title)
    return Markup("<h3>{}</h3><ul class=marks>{}</ul>").format(title, Markup("").join(map(_mark, marks)))


def _mark(placed: PlacedMark) -> Markup:
    mark = placed.mark
    severity = "accepted" if mark.accepted else mark.severity
    remedy = mark.accepted or mark.remedy
    return Markup("<li class={}><p><b>{}</b> {}: {}</p><p>{}</p><p class=place>{}</p></li>").format(
        severity, severity, mark.name, mark.message, remedy, placed.place
    )


def _volume(proof: Proof) -> Markup:
    """Muscles x weeks, fractional sets; neighbouring weeks that are alike share a column."""
    columns = equal_weeks(proof)
    heads = [span_words(weeks[0].number, weeks[-1].number) + _kind(weeks[0]) for weeks in columns]
    promised = {str(muscle): span for muscle, span in proof.plan.program.weekly_sets.items()}
    muscles = [*promised, *sorted({name for week in proof.volume.values() for name in week} - set(promised))]
    rows = []
    for muscle in muscles:
        promise = span_words(*promised[muscle]) if muscle in promised else ""
        rows.append(_ROW.format(muscle, _cells([promise, *(_sets(proof, weeks[0], muscle) for weeks in columns)])))
    table = _table("Weekly sets, by week", ["promised", *heads], rows)
    return table + Markup("<p class=note>An indirect set counts its share. *: promise not kept.</p>")


def _kind(week: Week) -> str:
    return ", deload" if week.deload else ", test" if week.test else ""


def _sets(proof: Proof, week: Week, muscle: str) -> str:
    found = proof.volume[week.number].get(muscle)
    sets = span_words(found.fractional, found.most) if found else "0"
    return sets if not week.working or kept(proof, muscle, found) else f"{sets}*"


def _minutes(proof: Proof) -> Markup:
    rows = []
    working = working_weeks(proof)
    for place, session in enumerate(working[0].sessions):
        minutes = [session_minutes(week.sessions[place]) for week in working]
        limit = str(session.within // 60) if session.within else ""
        day = day_words((session.day,), by_weekday=proof.by_weekday)
        rows.append(_ROW.format(f"{session.title} ({day})", _cells([span_words(min(minutes), max(minutes)), limit])))
    return _table("Minutes", ["minutes", "limit"], rows)


def _cells(texts: list[str]) -> Markup:
    return Markup("").join(Markup("<td>{}</td>").format(text) for text in texts)


def _table(title: str, heads: list[str], rows: list[Markup]) -> Markup:
    columns = Markup("").join(Markup("<th scope=col>{}</th>").format(head) for head in heads)
    body = Markup("").join(rows)
    # Named and reachable by keyboard, since it scrolls where it is wide.
    return Markup(
        "<h3>{}</h3><div class=wide role=region tabindex=0 aria-label='{}'><table><thead><tr><td></td>{}</tr></thead>"
        "<tbody>{}</tbody></table></div>"
    ).format(title, title, columns, body)
