"""The cautions that every program has: here, out of a theme's reach, which may translate them, not leave them out."""

from __future__ import annotations

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

DRAFT = "Draft: not checked, do not train from it."
"""On every page and in every text of a site that its proof stops."""

SAID_WHOLE = frozenset({*USUAL, TESTING, *SHORT, DRAFT, "Draft"})
"""What no catalogue may say in a word or two, or otherwise than it stands in its own language."""
