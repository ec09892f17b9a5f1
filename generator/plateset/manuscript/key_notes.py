"""What every key of the manuscript is for, in a sentence or two: told once, here.

Editors show these notes while the author types, and the manual prints them. Names are those of the models in
``schema.py``; a key that a model takes over from another is told there. ``default`` is what is taken when the key is
left out, as an author would write it; examples and defaults are read by the models in the tests.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class KeyNote:
    """A key: what it is for, an example of its value in YAML, and what is taken when it is left out."""

    text: str
    example: str
    default: str = ""


_N = KeyNote
Notes = Mapping[str, KeyNote]

_SITE: Mapping[str, Notes] = {
    "Author": {
        "name": _N("Who writes, as shown at the foot of every page.", "Ida Varnholt"),
        "about": _N("A sentence or two about the author, in Markdown.", "Coaches in a converted cider barn."),
    },
    "Ladder": {
        "from": _N("The lightest load of the ladder; above 0.", "2 kg"),
        "to": _N("The heaviest load of the ladder; at least 'from'.", "50 kg"),
        "step": _N("From one load to the next; above 0, and no more than 1,000 steps in all.", "2 kg"),
    },
    "Loading": {
        "bars": _N("The bars there are and what each weighs, empty.", "{barbell: 20 kg, ez-bar: 10 kg}"),
        "collars": _N("What the pair of collars weighs.", "0 kg"),
        "plates": _N(
            "The plates there are: a list, as many pairs of each as a bar takes, or a mapping to the number of pairs.",
            "[20 kg, 10 kg, 5 kg, 2.5 kg, 1.25 kg]",
        ),
        "dumbbells": _N(
            "The dumbbells there are: steps, or a list of the pairs.", "{from: 2 kg, to: 50 kg, step: 2 kg}"
        ),
        "stack": _N("The pins of cables and machines: steps, or a list.", "{from: 5 kg, to: 120 kg, step: 5 kg}"),
        "add-ons": _N("Small weights to hang on a stack, one of each.", "[2.5 kg]"),
        "rounding": _N(
            "How a load becomes one that can be loaded: to the nearest (a tie goes down), or always down.", "down"
        ),
    },
    "Limits": {
        "load jump": _N("From which rise of a line's load, week to week, the proof asks.", "10 %", "10 %"),
        "sets jump": _N("From which rise of a muscle's weekly sets the proof asks.", "40 %", "40 %"),
        "recovery": _N("The time there should be between two sessions for the same muscle.", "48 h", "48 h"),
        "past failure lines": _N("How many lines of a session may go past failure before the proof asks.", "2", "2"),
    },
    "WarmUpSet": {
        "load": _N("The share of the first heavy line's load.", "60 %"),
        "reps": _N("How many repetitions.", "5"),
    },
    "Colours": {
        "accent": _N("The one colour of the look, of links and rules; dark enough to be read on white.", '"#8a3b12"')
    },
    "Site": {
        "title": _N("The name of the site, on every page.", "Orchard Barn Strength"),
        "tagline": _N("One line under the title.", "Programs for people who lift after work"),
        "about": _N("A few sentences of Markdown for the home page.", "Written in a barn, tried in a gym."),
        "author": _N("Who writes the site.", "{name: Ida Varnholt}"),
        "address": _N(
            "Where the site will be hosted; may have a path. Used by links that must be whole.", "https://barn.example/"
        ),
        "language": _N("The language the site is written in, as a tag (BCP 47).", "en", "en"),
        "unit": _N("The unit loads are shown in; a program may differ.", "kg", "kg"),
        "paper": _N(
            "The papers that sheets are made for; left out, the usual one of the language's country.",
            "[a4, letter]",
            "[a4]",
        ),
        "curve": _N("How a max is estimated from a set; a program may differ.", "handbook", "handbook"),
        "loading": _N("What the gym can load; a program may override any part.", "{bars: {barbell: 20 kg}}", "{}"),
        "warm-up sets": _N(
            "Lighter sets before the first heavy line of a session, or 'none'. They count for no volume.",
            "[{load: 40 %, reps: 8}, {load: 60 %, reps: 5}]",
        ),
        "cautions": _N(
            "Cautions of your own, added to the usual ones on every page that has them.",
            "[Train with a partner.]",
            "[]",
        ),
        "limits": _N("Thresholds of the proof's marks.", "{load jump: 10 %, recovery: 48 h}", "{}"),
        "theme": _N("The look.", "noticeboard", "noticeboard"),
        "colours": _N("Colours of the look.", '{accent: "#8a3b12"}', "{}"),
        "type": _N(
            "Type with serifs, as in a book, or plain type without; in fonts of the reader's machine.", "plain", "book"
        ),
        "logo": _N("A PNG file in the manuscript's own theme folder, shown beside the site's name.", "mark.png"),
    },
}

_NOTES: Mapping[str, Notes] = {
    "Muscles": {
        "direct": _N("The muscles the lift is chosen for; a set counts whole.", "[quads, glutes]"),
        "indirect": _N(
            "Muscles that help; a set counts half, or the share you give.", "{adductors: 0.5, lower back: 0.25}", "{}"
        ),
    },
    "Video": {
        "address": _N("Where the video is; it is linked and never embedded.", "https://video.example/squat"),
        "at": _N("The moment to start from.", '"0:45"', "0 s"),
    },
    "MaxFrom": {
        "exercise": _N("The lift whose max stands in.", "back-squat"),
        "share": _N("How much of that lift's max this lift's is.", "80 %"),
    },
    "Exercise": {
        "name": _N("The exercise as pages show it.", "Back squat"),
        "also called": _N("Other names readers may know it by.", "[high-bar squat]", "[]"),
        "muscles": _N("The muscles trained, direct and indirect.", "{direct: [quads, glutes], indirect: [adductors]}"),
        "movement": _N("The kind of movement.", "squat"),
        "implement": _N("What is lifted; decides how a load is made.", "barbell"),
        "bar": _N("Which bar of 'loading' a barbell lift uses.", "ez-bar", "barbell"),
        "dumbbells": _N("How many dumbbells are held; a load is per dumbbell.", "1", "2"),
        "needs": _N("Kit beyond the implement itself.", "[rack]", "[]"),
        "sides": _N("'two' sides at once, or 'one' at a time: a set is then done for each side.", "one", "two"),
        "bodyweight share": _N("How much of the body is moved; for load-volume.", "64 %", "100 %"),
        "max from": _N(
            "Where a max comes from if the reader has none for this lift.", "{exercise: back-squat, share: 80 %}"
        ),
        "curve": _N("How a max is estimated for this lift; the program's curve, if left out.", "epley"),
        "tempo": _N("The usual tempo; for the time a session takes.", "2-0-1-0"),
        "change-over": _N("Time to set up for this lift when it is not the first.", "2 min"),
        "set-up": _N("How to get into place, one step an entry.", "[Bar across the upper back.]", "[]"),
        "cues": _N("What to think of while lifting.", "[Push the floor apart.]", "[]"),
        "faults": _N("What goes wrong, and what mends it.", "{Heels lift: Widen the stance a little.}", "{}"),
        "cautions": _N("Cautions shown wherever the lift is used.", "[Set the safeties first.]", "[]"),
        "warn of": _N("A program that uses this lift must speak of these in its own cautions.", "[lower back]", "[]"),
        "not with": _N("Techniques that do not suit the lift; the proof stops them.", "[negatives]", "[]"),
        "substitutes": _N("Exercises that may take its place.", "[goblet-squat, leg-press]", "[]"),
        "video": _N("A video elsewhere, linked.", '{address: "https://video.example/squat", at: "0:45"}'),
    },
    "TechniqueNote": {
        "name": _N("The technique as pages show it.", "Drop set"),
        "summary": _N("What it is, in one sentence.", "Reach the end of a set, take weight off, go on at once."),
        "level": _N("From which level on it is used.", "intermediate", "novice"),
        "suits": _N("What it suits.", "[machines and cables]", "[]"),
        "does not suit": _N("What it does not suit.", "[lifts where a failed rep pins you]", "[]"),
        "cautions": _N("Cautions shown wherever it is used.", "[Rack the weight before you change it.]", "[]"),
    },
    "Explainer": {
        "title": _N("The title of the page.", "How the back was built"),
        "summary": _N("One sentence for lists.", "Why the block rows more than it pulls down."),
        "date": _N("When it was written; newest come first.", "2026-03-02"),
        "programs": _N("Programs it is about; they link to it.", "[wider-back-block]", "[]"),
        "muscles": _N("Muscles it is about.", "[lats, upper back]", "[]"),
    },
}

_LINES: Mapping[str, Notes] = {
    "Linear": {
        "rule": _N("Add the same mass every so many weeks.", "linear"),
        "add": _N("How much is added.", "2.5 kg"),
        "every": _N("Every so many weeks or sessions; deload and test weeks do not count.", "2", "1"),
        "by": _N("What is counted: weeks, or the line's sessions.", "session", "week"),
    },
    "Double": {
        "rule": _N("Add repetitions up to the top of the range, then load.", "double"),
        "add": _N("How much is added when the top is reached.", "2.5 kg"),
        "pace": _N("The repetitions gained a week: a projection.", "2", "1"),
    },
    "TwoForTwo": {
        "rule": _N("Add load once the last set went two repetitions over its goal in two sessions.", "two-for-two"),
        "add": _N("How much is added.", "2.5 kg"),
        "pace": _N("The repetitions gained a session: a projection.", "2", "1"),
    },
    "StepLoading": {
        "rule": _N("Climb for some weeks, go back, climb again.", "step"),
        "add": _N("How much each week of a climb adds.", "5 kg"),
        "climb": _N("How many weeks a climb takes.", "4", "3"),
        "back": _N("How many steps it goes back; at least two less than 'climb'.", "2", "1"),
    },
    "Undulating": {
        "rule": _N("Change from session to session.", "undulating"),
        "turns": _N("What each session asks for, in turn.", "[{reps: 8, load: 70 %}, {reps: 5, load: 80 %}]"),
        "add": _N("A mass added besides, every so many weeks.", "2.5 kg"),
        "every": _N("Every so many weeks.", "2", "1"),
    },
    "Turn": {
        "sets": _N("Sets of this turn; the line's, if left out.", "4"),
        "reps": _N("Repetitions of this turn; the line's, if left out.", "5"),
        "load": _N("Load of this turn; the line's, if left out.", "80 %"),
        "effort": _N("Effort of this turn; the line's, if left out.", "2 RIR"),
    },
    "BackOff": {
        "sets": _N("How many lighter sets follow.", "3"),
        "load": _N("The share of the top sets' load.", "85 %"),
        "reps": _N("Their repetitions.", "6"),
        "effort": _N("How near to failure they end.", "2 RIR"),
    },
    "Pyramid": {
        "direction": _N("Up to the heaviest set, or down from it.", "ascending"),
        "load": _N("How much less of the heaviest set's load each set away from it has.", "10 %", "5 %"),
        "reps": _N("How many repetitions more each set away from it has.", "1", "2"),
    },
    "Technique": {
        "from week": _N("The week from which the technique is used.", "3", "1"),
        "technique": _N("Which technique.", "drop-set"),
    },
    "DropSet": {
        "technique": _N("Take weight off and go on at once.", "drop-set"),
        "drops": _N("How many times weight comes off.", "3", "2"),
        "reduce": _N("How much comes off each time.", "25 %", "20 %"),
        "of": _N("Of the 'previous' load, or always of the 'first'.", "first", "previous"),
        "each counts": _N("The share of a set that each drop adds to weekly sets; none, if left out.", "0.5"),
    },
    "RestPause": {
        "technique": _N("Short pauses with the same load.", "rest-pause"),
        "pauses": _N("How many pauses.", "3", "2"),
        "pause": _N("How long each is.", "20 s", "15 s"),
        "each counts": _N("The share of a set that each pause adds to weekly sets; none, if left out.", "0.5"),
    },
    "Cluster": {
        "technique": _N("The set's repetitions shared out over pieces with short pauses.", "cluster"),
        "pieces": _N("How many pieces.", "4", "3"),
        "pause": _N("The pause from one piece to the next.", "15 s", "20 s"),
    },
    "Negatives": {
        "technique": _N("Lowering only, after failure.", "negatives"),
        "reps": _N("How many are lowered.", "2", "3"),
        "lowering": _N("How long each is lowered.", "5 s", "3 s"),
    },
    "LooseForm": {
        "technique": _N("A little swing to finish a set.", "loose-form"),
        "reps": _N("How many with loose form.", "2", "3"),
    },
    "ForcedReps": {
        "technique": _N("Repetitions with a partner's help.", "forced-reps"),
        "reps": _N("How many are helped.", "1", "2"),
    },
    "Partials": {
        "technique": _N("Short-range repetitions after the last full one.", "partials"),
        "reps": _N("How many partials.", "8", "5"),
    },
    "IsometricHold": {
        "technique": _N("Holding still at the end of a set.", "isometric-hold"),
        "hold": _N("How long.", "15 s", "10 s"),
    },
    "AsManyAsPossible": {"technique": _N("The set goes on as long as form holds.", "as-many-as-possible")},
    "LiftLine": {
        "exercise": _N("Which exercise: the name of a file in exercises/.", "back-squat"),
        "role": _N("What the line is for: decides its progression and its part in test weeks.", "main"),
        "sets": _N("How many sets, or a range that leaves the choice; may change by week.", "{week 1: 3, week 3: 4}"),
        "reps": _N("Repetitions: a number, a range, or 'as many as possible'; may change by week.", "8-12"),
        "hold": _N("A time to hold, instead of repetitions; may change by week.", "30 s"),
        "load": _N(
            "The load; may change by week. Left out, it follows from reps and effort where the max is known.",
            "{week 1: 70 %, week 2: 72.5 %, weeks 3-7: 75 %}",
        ),
        "above max": _N("Allows a load of more than 100 % of the max.", "allowed"),
        "effort": _N("How near to failure; may change by week.", "{week 1: 2 RIR, week 5: 1 RIR}"),
        "rest": _N("Rest after each set. In a group, rest belongs to the group.", "2 min"),
        "tempo": _N("Seconds to lower, pause, lift, pause; X is as fast as possible.", "3-1-1-0"),
        "range of motion": _N("How much of the movement is done.", "bottom half", "full"),
        "warm-up sets": _N("Lighter sets before this line, or 'none'.", "[{load: 50 %, reps: 5}]"),
        "back-off": _N("Lighter sets after the top ones.", "{sets: 3, load: 85 %, reps: 6}"),
        "pyramid": _N("Sets that differ in steps of load and repetitions.", "{direction: ascending, load: 5 %}"),
        "progression": _N(
            "How load or repetitions grow; 'none' keeps the line out of its role's rule.", "{rule: double, add: 2.5 kg}"
        ),
        "last set": _N("A technique on the last set.", "{technique: drop-set, drops: 2, reduce: 20 %}"),
        "every set": _N("A technique on every set.", "{technique: cluster, pieces: 3}"),
        "note": _N("A remark beside the line, on page and sheet.", "Left side first."),
        "why": _N("One sentence for the reader: why this is here.", "The squat that teaches itself."),
    },
    "GroupLine": {
        "superset": _N(
            "Two to six exercises done in turn.", "[{exercise: a, sets: 3, reps: 8}, {exercise: b, sets: 3, reps: 8}]"
        ),
        "giant set": _N(
            "Three to eight exercises for one part of the body.",
            "[{exercise: a, sets: 3, reps: 8}, {exercise: b, sets: 3, reps: 8}, {exercise: c, sets: 3, reps: 8}]",
        ),
        "circuit": _N(
            "Two to twelve exercises done in rounds.",
            "[{exercise: a, sets: 3, reps: 8}, {exercise: b, sets: 3, reps: 8}]",
        ),
        "pre-exhaustion": _N(
            "An isolation lift, then the compound one.",
            "[{exercise: a, sets: 3, reps: 8}, {exercise: b, sets: 3, reps: 8}]",
        ),
        "pick one": _N(
            "Two to eight exercises, of which the reader does one.",
            "[{exercise: a, sets: 3, reps: 8}, {exercise: b, sets: 3, reps: 8}]",
        ),
        "rest": _N("Rest after the round.", "90 s"),
        "between": _N("The time from one exercise to the next.", "10 s", "0 s"),
        "note": _N("A remark beside the group.", "Stay at one machine."),
        "why": _N("One sentence for the reader.", "Saves ten minutes."),
    },
    "SessionText": {
        "title": _N("The session as pages show it; its name, if left out.", "Lower body"),
        "within": _N("A limit the proof holds the session to.", "75 min"),
        "note": _N("A remark above the session.", "Warm up for five minutes first."),
        "lines": _N(
            "What is done, in order; each an exercise or a group.", "[{exercise: back-squat, sets: 4, reps: 5}]"
        ),
    },
}

_PROGRAM: Mapping[str, Notes] = {
    "Lifter": {
        "bodyweight": _N("What the example lifter weighs.", "78 kg"),
        "bests": _N(
            "A set done to failure for each lift; maxima are worked out from these.",
            "{back-squat: 120 kg x 1, pull-up: bodyweight + 10 kg x 5}",
            "{}",
        ),
    },
    "Deload": {
        "weeks": _N("Which weeks are lighter.", "[4, 8]"),
        "sets": _N("The share of the sets that stays.", "50 %", "60 %"),
        "load": _N("The share of the load that stays.", "85 %", "90 %"),
        "techniques": _N("Whether techniques are used in these weeks.", "on", "off"),
    },
    "TestWeeks": {
        "weeks": _N("Which weeks test the main lifts.", "[9]"),
        "load": _N("The share of the max for the one open set of each main lift.", "90 %", "85 %"),
        "others": _N("The share of their sets that all other lines keep.", "60 %", "50 %"),
    },
    "RoleProgressions": {
        "main": _N("The rule of main lines that have none of their own.", "{rule: linear, add: 2.5 kg}"),
        "assistance": _N("The rule of assistance lines that have none of their own.", "{rule: double, add: 2.5 kg}"),
        "pump": _N("The rule of pump lines that have none of their own.", "{rule: double, add: 1 kg}"),
    },
    "Acceptance": {
        "mark": _N("The mark you have looked at, by its name.", "load-jump"),
        "about": _N("Narrows it to marks whose reason names these words.", "leg-curl"),
        "because": _N("Why it may stand.", "The stack has no smaller step."),
    },
    "Change": {
        "edition": _N("The edition that brought the change.", "2"),
        "date": _N("When it was published.", "2026-05-04"),
        "text": _N("What changed, for readers who hold an earlier edition.", "Rows are supported now."),
    },
    "Program": {
        "title": _N("The program as pages show it.", "Harbour base, upper and lower"),
        "summary": _N("One sentence: what it is and for whom.", "Eight weeks, four days, for the habit."),
        "text": _N("Markdown: how it came about, how to run it, what to avoid.", "Start light."),
        "level": _N("Whom it is for.", "novice"),
        "goal": _N("What it is for.", "strength"),
        "weeks": _N("How many weeks, 1 to 52.", "8"),
        "unit": _N("The unit of its loads; the site's, if left out.", "kg"),
        "author": _N("Who wrote it; the site's author, if left out.", "Ida Varnholt"),
        "date": _N("The date of this edition; sheets carry it.", "2026-03-02"),
        "edition": _N("Raise it when you publish a change.", "2", "1"),
        "changes": _N(
            "What each edition changed.", "[{edition: 2, date: 2026-05-04, text: Rows are supported now.}]", "[]"
        ),
        "licence": _N("On what terms others may use it.", "CC BY 4.0"),
        "suits": _N("For whom it is; one entry or more.", "[People with three months of regular lifting behind them]"),
        "not for": _N("For whom it is not; one or more.", "[Anyone told by a clinician to avoid loaded squatting]"),
        "cautions": _N("What readers must mind; added to the usual cautions.", "[Keep the lower back flat.]", "[]"),
        "kit": _N("What one needs; worked out from the exercises, if left out.", "[barbell, rack, machine]"),
        "loading": _N("What can be loaded, where it differs from the site's.", "{bars: {barbell: 15 kg}}", "{}"),
        "curve": _N("How a max is estimated; the site's, if left out.", "epley"),
        "schedule": _N("Which session is done on which day.", "{mon: lower, wed: upper, fri: lower}"),
        "starts": _N("The day it starts, for the calendar to take away.", "2026-03-02"),
        "at": _N("The time of day its sessions start, for the calendar.", '"18:30"'),
        "weekly sets": _N(
            "What you promise for each muscle or group: fractional sets, every week but deloads; the proof checks.",
            "{quads: 10-14, lats: 10-16}",
            "{}",
        ),
        "example lifter": _N(
            "Whose loads are printed when the reader has given none.",
            "{bodyweight: 78 kg, bests: {back-squat: 120 kg x 1}}",
            "{}",
        ),
        "progressions": _N("The rule for the lines of each role.", "{main: {rule: linear, add: 2.5 kg}}", "{}"),
        "warm-up sets": _N("Lighter sets before the first heavy line; the site's, if left out.", "none"),
        "test": _N("Weeks that test the main lifts.", "{weeks: [9], load: 85 %, others: 50 %}"),
        "deload": _N("Lighter weeks.", "{weeks: [4, 8], sets: 60 %, load: 90 %}"),
        "accept": _N(
            "Marks you have looked at and let stand; they show as accepted and stop nothing.",
            "[{mark: load-jump, about: leg-curl, because: The stack has no smaller step.}]",
            "[]",
        ),
        "sessions": _N(
            "The sessions by name; each a list of lines, or a mapping with 'lines'.",
            "{lower: [{exercise: back-squat, sets: 4, reps: 5}]}",
        ),
    },
}  # fmt: skip

KEY_NOTES: Mapping[str, Notes] = {**_SITE, **_NOTES, **_LINES, **_PROGRAM}


def key_note(models: tuple[str, ...], key: str) -> KeyNote | None:
    """The note on ``key`` of the first of ``models`` (a model and those it takes keys over from) that tells it."""
    return next((KEY_NOTES[name][key] for name in models if key in KEY_NOTES.get(name, {})), None)
