"""The author's logo, looked at before it is passed on. It stands beside the site's name."""

from __future__ import annotations

from plateset.logo_file import fault_of_logo, size_of_logo
from plateset.publishing.theme import Theme, ThemeError
from plateset.publishing.views import LogoView

PATH = "assets/logo.png"


def read_logo(theme: Theme, name: str) -> tuple[LogoView, bytes]:
    """The logo and its file. Raises :class:`ThemeError` for what is no PNG, or one too large for every page."""
    if not theme.has(name):
        raise ThemeError(f"site.yaml names the logo {name!r}, and there is no such file in the manuscript's theme/")
    data = theme.read(name)
    fault = fault_of_logo(data)
    if fault:
        raise ThemeError(f"the logo {name!r} of site.yaml {fault}")
    return LogoView(PATH, *size_of_logo(data)), data
