"""What a page is about, for machines: JSON-LD in the words of schema.org."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from plateset.publishing.feed import last_change
from plateset.publishing.language import ENGLISH, Language
from plateset.publishing.views import ExplainerView, Linked, ProgramView, SiteView
from plateset.publishing.words import range_text

Described = dict[str, Any]


def exercise_plan(program: ProgramView, site: SiteView, image: str, language: Language = ENGLISH) -> Described:
    """A program as an ``ExercisePlan``; ``image`` is the site path of its card, or empty."""
    facets, say = program.facets, language.say
    weeks, minutes = len(program.weeks), range_text(facets.least_minutes, facets.most_minutes)
    often = language.count("%(num)s session a week", "%(num)s sessions a week", facets.days) % {"num": facets.days}
    return _whole(
        {
            "@type": "ExercisePlan",
            "name": program.title,
            "description": program.summary,
            "exerciseType": say("Strength training"),
            "activityDuration": f"P{weeks}W",
            "activityFrequency": often,
            "additionalVariable": say("%(minutes)s minutes a session") % {"minutes": minutes},
            "educationalLevel": say(facets.level),
            "audience": {"@type": "Audience", "audienceType": "; ".join(program.suits)},
            "author": {"@type": "Person", "name": program.byline},
            "datePublished": program.iso_date,
            "dateModified": last_change(program),
            "version": program.edition,
            "license": {"@type": "CreativeWork", "name": program.licence} if program.licence else "",
            "inLanguage": site.language,
            "image": site.whole(image) if image else "",
            "url": site.whole(program.path),
        }
    )


def article(explainer: ExplainerView, site: SiteView, image: str) -> Described:
    """An explainer as an ``Article``; ``image`` is the site path of its card, or empty."""
    return _whole(
        {
            "@type": "Article",
            "headline": explainer.title,
            "description": explainer.summary,
            "author": {"@type": "Person", "name": site.author},
            "datePublished": explainer.iso_date,
            "inLanguage": site.language,
            "image": site.whole(image) if image else "",
            "url": site.whole(explainer.path),
        }
    )


def breadcrumbs(trail: Sequence[Linked], site: SiteView) -> Described | None:
    """The way to a page from the front, the page itself last; None where there is no way or no address to give."""
    if len(trail) < 2 or not site.address:
        return None
    steps = [
        {"@type": "ListItem", "position": place, "name": step.title, "item": site.whole(step.path)}
        for place, step in enumerate(trail, start=1)
    ]
    return _whole({"@type": "BreadcrumbList", "itemListElement": steps})


def _whole(described: Mapping[str, Any]) -> Described:
    """Without what is not known, such as addresses on a site that has none."""
    return {"@context": "https://schema.org", **{key: value for key, value in described.items() if value}}


def json_ld(described: Described) -> str:
    """As JSON that cannot end the script element it stands in."""
    text = json.dumps(described, ensure_ascii=False, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")
