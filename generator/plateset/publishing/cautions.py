"""The cautions a reader sees, of a program and of all; every page is checked for them."""

from __future__ import annotations

from plateset.manuscript.library import Manuscript
from plateset.publishing.views import CautionView
from plateset.training.plan import Plan
from plateset.usual_cautions import TESTING, USUAL


def cautions_for(plan: Plan, manuscript: Manuscript) -> tuple[CautionView, ...]:
    """Every caution of a program: the usual ones, the author's, and those its exercises and techniques ask for."""
    program, site = plan.program, manuscript.site.head
    found = [CautionView(text, "Always", "every program") for text in USUAL]
    found += [CautionView(TESTING, "Test week")] if program.test else []
    found += [CautionView(text, "This program", "this program") for text in program.cautions]
    found += [CautionView(text, "Always", "every program") for text in site.cautions]
    lifts = {lift.exercise: lift.note for week in plan.weeks for session in week.sessions for lift in session.lifts}
    for _, note in sorted(lifts.items()):
        found += [CautionView(text, note.name) for text in note.cautions]
    for name in techniques_of(plan):
        if name in manuscript.techniques:
            note_of_technique = manuscript.techniques[name].head
            found += [CautionView(text, note_of_technique.name) for text in note_of_technique.cautions]
    unique: dict[str, CautionView] = {}
    for caution in found:
        unique.setdefault(caution.text, caution)
    return tuple(unique.values())


def techniques_of(plan: Plan) -> list[str]:
    """The names of all techniques a plan uses, group kinds among them."""
    names: set[str] = set()
    for week in plan.weeks:
        for session in week.sessions:
            for line in session.lines:
                names |= {line.kind} if line.kind not in {"single", "pick-one"} else set()
                names |= {work.technique for lift in line.lifts for work in lift.sets if work.technique}
    return sorted(names)
