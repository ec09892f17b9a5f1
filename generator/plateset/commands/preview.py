"""``plateset preview``: the pages as they will be, anew at every save."""

from __future__ import annotations

import errno
import signal
import sys
import webbrowser
from pathlib import Path
from threading import Event

import click

from plateset.commands.endings import UNREADABLE, UNWRITABLE
from plateset.commands.voice import Voice, voiced
from plateset.preview.server import Board, PreviewServer
from plateset.preview.watching import serve

PORT = 8275


@click.command("preview")
@click.argument("manuscript", type=click.Path(path_type=Path))
@click.option(
    "--port", type=click.IntRange(0, 65535), default=PORT, show_default=True, help="0 takes any that is free."
)
@click.option("--no-open", "stay", is_flag=True, help="Do not open a browser.")
@voiced
def command(manuscript: Path, port: int, *, stay: bool, voice: Voice) -> None:
    """Show MANUSCRIPT's pages in a browser, pressed anew at every save.

    Problems appear above the pages with file, line and the offending text, and the last good pages stay. The proof of
    the program you look at stands beside it; it is never published. Sheets are set when you ask for one.

    The preview can be reached from this machine only. Ctrl-C ends it.
    """
    if not manuscript.is_dir():
        click.echo(f"plateset: there is no folder {manuscript}", err=True)
        sys.exit(UNREADABLE)
    try:
        server = PreviewServer(port, Board())
    except OSError as error:
        if error.errno not in (errno.EADDRINUSE, errno.EACCES):
            raise
        why = "is taken" if error.errno == errno.EADDRINUSE else "may not be used"
        click.echo(f"plateset: port {port} {why}; name another with --port, or --port 0 for any that is free", err=True)
        sys.exit(UNWRITABLE)
    stop = Event()
    for sign in (signal.SIGINT, signal.SIGTERM):
        signal.signal(sign, lambda *_: stop.set())
    voice.say(f"{server.address} shows {manuscript}. Ctrl-C ends it.")
    if not stay:
        webbrowser.open(server.address)
    serve(server, manuscript, str(manuscript), stop, voice.say)
    voice.say("The preview has ended.")
