"""The cautions a reader sees. The usual ones are here, out of a theme's reach, and every page is checked for them."""

from __future__ import annotations

from plateset.manuscript.library import Manuscript
from plateset.publishing.views import CautionView
from plateset.training.plan import Plan

USUAL = (
    "Before you start: if you have a heart, metabolic or kidney condition, are pregnant or recovering from illness, "
    "injury or surgery, have symptoms, or have been inactive for long, ask a doctor or another licensed professional "
    "first.",
    "Stop at once and get help for chest, neck, jaw or arm pain, dizziness, fainting, palpitations or breathlessness "
    "that is out of proportion. Stop the exercise for sharp pain or pain in a joint.",
    "Near failure, use safeties or a spotter able to handle the load wherever a failed repetition could pin you: over "
    "the face, over the head, or with the bar on the back or shoulders. Lock the collars, unless you bench alone "
    "without safeties: then tipping the plates off is the way out.",
    "Loads are worked out, not prescribed for you. Start lighter than printed when in doubt, and leave out what you "
    "cannot do with good form.",
    "This program replaces no medical, physiotherapy or coaching advice. The rules of your gym and your country, and "
    "licensed professionals who know you, come first.",
)
"""Usual cautions. Screening and symptoms follow the ACSM guidelines (10th ed. 2018) and Riebe et al. 2015, MSSE
47(11):2473-2479; spotting follows Haff & Triplett 2016, ch. 15."""

TESTING = (
    "Warm up well, use safeties or a spotter who knows what you are about to try, and end the set before "
    "form goes. Do not test alone without safeties, nor when ill, tired or in pain; a test left out costs nothing."
)
"""For programs that test (common practice, no source; spotting: Haff & Triplett 2016, ch. 15)."""

SHORT = (
    "Stop for chest pain, dizziness, breathlessness out of proportion, or sharp pain, and get help.",
    "Near failure use safeties or a spotter. Collars on, unless you bench alone without safeties.",
    "Unsure, unwell, injured or pregnant: ask a doctor or another licensed professional first. Gym rules come first.",
)
"""The same in a line each, for the foot of every sheet."""


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
