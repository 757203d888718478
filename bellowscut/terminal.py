"""The terminal: all that is printed, complained of or answered there goes this way, and so do the signals that stop a run."""

from __future__ import annotations

import errno
import os
import signal
import sys
import threading
import unicodedata
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from io import TextIOWrapper
from pathlib import Path
from typing import NoReturn

import click

from bellowscut.errors import OutputError
from bellowscut.words import commands as texts, measuring as words, say

HALVES = "surrogateescape"
"""How bytes that are no text are read."""

JOINERS = "\u200c\u200d"
"""Marks that some scripts need within a word, and that change nothing around it."""

STOPS = ("SIGTERM", "SIGHUP")
"""Signals that end a run in good order, as Ctrl-C does: what was begun is taken away."""

NO_ROOM = (errno.EPIPE, errno.ENOSPC)
"""What goes wrong where an output is closed or full."""


def plain(text: str) -> str:
    """A text without anything that steers a terminal or turns the direction of writing; a question mark stands for each."""
    return "".join("?" if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp") and c not in f"\n\t{JOINERS}" else c for c in text)


# what is printed --------------------------------------------------------


def print_any_letters() -> None:
    """Let question marks stand for letters that the terminal lacks."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper) and stream.errors in ("strict", HALVES):
            stream.reconfigure(errors="replace")


def show(lines: Iterable[tuple[str, str]], done: str = "", names: Iterable[str] = ()) -> None:
    """Print lines, and then what was done; where nothing can be printed that is said on standard error, so that nobody does it twice."""
    files = ", ".join(names)
    last = [("", ""), ("heading", done), *([("", f"  {files}")] if files else [])] if done else []
    _print([*lines, *last], f"{done} {files}".strip())


def tell(text: str) -> None:
    """Print one text."""
    _print([("", text)], text)


def complain(line: str) -> None:
    """One line on standard error, if there is any: the exit code says the rest."""
    with suppress(OSError):
        click.echo(plain(line), err=True)


def trouble(error: OSError) -> str:
    """What the system would not do, where no command foresaw it; what is left of the output is dropped if that was it."""
    if not error.filename:
        _drop_output()
    try:
        Path.cwd()
    except OSError:
        # The libraries that write pages ask where they are as soon as they are read.
        return say(texts.FOLDER_GONE)
    reason = error.strerror or error
    return say(texts.DISK_REFUSES, path=error.filename, reason=reason) if error.filename else say(texts.OUTPUT_LOST, reason=reason)


def _print(lines: Iterable[tuple[str, str]], done: str) -> None:
    try:
        if sys.stdout is None:
            raise OSError(errno.EBADF, os.strerror(errno.EBADF))
        for kind, line in lines:
            _print_line(kind, line)
    except OSError as error:
        _lost(error, done)


def _print_line(kind: str, line: str) -> None:
    """One line, quietly coloured on a terminal; without colour in a pipe or when NO_COLOR is set."""
    text = plain(line)
    if kind and not os.environ.get("NO_COLOR") and sys.stdout.isatty():
        text = click.style(text, bold=kind == "heading", fg="yellow" if kind == "warning" else None)
    click.echo(text)


def _lost(error: OSError, done: str) -> NoReturn:
    """End where the output is closed or full; a reader who has seen enough of what changed nothing is not told so."""
    _drop_output()
    if error.errno == errno.EPIPE and not done:
        raise click.exceptions.Exit(1)
    lost = say(texts.OUTPUT_LOST, reason=error.strerror or error)
    raise OutputError(f"{done} ({lost})" if done else lost)


def _drop_output() -> None:
    """Let what is left in the output go nowhere, or it would be tried again, and complained of, at the very end."""
    with suppress(OSError, AttributeError):
        number = sys.stdout.fileno()
        os.dup2(os.open(os.devnull, os.O_WRONLY), number)


# what is answered -------------------------------------------------------


def answer(prompt: str) -> str:
    """One answer from the terminal; a broken-off line is ended before the error goes on.

    Raises
    ------
    EOFError
        At the end of the input, and where there is none.
    """
    if sys.stdin is None or sys.stdin.closed:
        raise EOFError
    # What is no text comes through as halves of characters, instead of ending the program.
    if isinstance(sys.stdin, TextIOWrapper) and sys.stdin.errors != HALVES:
        with suppress(OSError):
            sys.stdin.reconfigure(errors=HALVES)
    while True:
        try:
            found = input(plain(prompt))
        except (EOFError, KeyboardInterrupt):
            tell("")
            raise
        except (OSError, RuntimeError) as error:
            if isinstance(error, OSError) and error.errno in NO_ROOM:
                _lost(error, "")
            # The input is not for reading.
            tell("")
            raise EOFError from error
        if not any("\ud800" <= character <= "\udfff" for character in found):
            return found
        tell(f"  {say(words.NOT_TEXT)}")


# what stops a run -------------------------------------------------------


@contextmanager
def plain_complaints() -> Iterator[None]:
    """Let what the library for the command line says of a mistake pass `plain` as well."""
    try:
        yield
    except click.ClickException as error:
        vars(error)["message"] = plain(error.message)
        raise


@contextmanager
def stoppable() -> Iterator[None]:
    """Let a signal to stop raise `SystemExit`, so that whoever has begun a file takes it away; one that is ignored stays so."""
    taken: list[int] = []

    def stop(number: int, _: object) -> None:
        # Another one must not break off the clearing up.
        for each in taken:
            signal.signal(each, signal.SIG_IGN)
        sys.exit(128 + number)

    try:
        if threading.current_thread() is threading.main_thread():
            for number in (getattr(signal, name) for name in STOPS if hasattr(signal, name)):
                if signal.getsignal(number) is signal.SIG_DFL:
                    signal.signal(number, stop)
                    taken.append(number)
        yield
    finally:
        for number in taken:
            signal.signal(number, signal.SIG_DFL)


@contextmanager
def ended_from_outside() -> Iterator[None]:
    """To whoever asks, a closed window or a program told to end is the end of the input."""

    def end(*_: object) -> None:
        raise EOFError

    numbers = [getattr(signal, name) for name in STOPS if hasattr(signal, name)]
    before = [(number, signal.signal(number, end)) for number in numbers]
    try:
        yield
    finally:
        for number, handler in before:
            signal.signal(number, handler)
