"""Asking for an instrument, in the order in which one measures it.

The terminal is two functions, one that prints a line and one that reads an
answer, so that nothing here knows a screen. Nothing is written before the last
answer, and never over a file that is there.
"""

from __future__ import annotations

import math
import os
import re
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path

from bellowscut.answers import literal, yes
from bellowscut.errors import BellowscutError, OutputError, ProfileError, UsageError
from bellowscut.keys import Key, Kind, keys_of
from bellowscut.materials import ROLL, Material
from bellowscut.profile import Profile, as_toml, loads
from bellowscut.profile_text import shelf_entries
from bellowscut.reading import key_named
from bellowscut.schema import MEASURED, MEASURES, RECTANGLE, REGULAR, TABLES
from bellowscut.toml_lines import dotted, quoted, undotted, value_of
from bellowscut.units import parse_length
from bellowscut.values import Fault, convert, exact, toml_value
from bellowscut.words import measuring as words, say

Echo = Callable[[str], None]
Read = Callable[[str], str]
Change = Mapping[str, str | None]

EXAMPLE: Mapping[str, str] = {
    "section.shape": '"regular"',
    "section.sides": "6",
    "section.end_size": '"6 1/4 in"',
    "bellows.folds": "6",
    "bellows.fold_depth": '"25 mm"',
}
"""What the questions start from when no profile is given: a usual six-sided bellows."""

NAMELESS = Path("bellows.toml")
"""Where a commented file goes when no name is given."""

INSTEAD = {"bellows.relief": "bellows.closed_gap", "bellows.closed_gap": "bellows.relief"}
"""Keys that put another one out."""


class Stopped(BellowscutError):
    """The questions were broken off; nothing was written."""


def ask(echo: Echo, read: Read, path: Path | None = None, start: Profile | None = None) -> Path:
    """Ask for an instrument and write its profile.

    Parameters
    ----------
    echo : callable
        Prints one text.
    read : callable
        Prints a prompt and returns the answer; may raise `EOFError` or `KeyboardInterrupt`.
    path : Path or None
        File to write; None makes one from the instrument's name.
    start : Profile or None
        Whose values are the defaults.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    UsageError
        When the file is there already.
    Stopped
        When the answers end early.
    OutputError
        When the disk refuses.
    """
    if path is not None:
        refuse_existing(path)
    questions = _Questions(echo, read, start)
    try:
        target = questions.name(path)
        questions.section()
        questions.folds()
        questions.leather()
        if questions.yes_or_no(say(words.FINER), False):
            questions.finer()
    except (EOFError, KeyboardInterrupt):
        raise Stopped(say(words.STOPPED)) from None
    write_new(target, as_toml(questions.profile, only_given=True))
    echo(say(words.WRITTEN, path=target))
    return target


def plain(path: Path | None = None, start: Profile | None = None) -> Path:
    """Write a commented profile without asking; returns the file.

    Raises
    ------
    UsageError
        When the file is there already.
    OutputError
        When the disk refuses.
    """
    target = path or NAMELESS
    refuse_existing(target)
    profile = start or loads(_text(EXAMPLE), name=target.stem)
    write_new(target, as_toml(profile, only_given=True))
    return target


def refuse_existing(path: Path) -> None:
    """Raise `UsageError` when a file, folder or link of this name is there, or its folder is not."""
    if os.path.lexists(path):
        raise UsageError(say(words.EXISTS, path=path))
    if not path.parent.is_dir():
        raise UsageError(say(words.NO_FOLDER, path=path, folder=path.parent))


def write_new(path: Path, text: str) -> None:
    """Write a file that must not be there yet, whole or not at all."""
    try:
        file = path.open("x", encoding="utf-8", newline="\n")
    except FileExistsError:
        raise UsageError(say(words.EXISTS, path=path)) from None
    except OSError as error:
        raise OutputError(say(words.CANNOT_WRITE, path=path, reason=error.strerror or error)) from None
    try:
        with file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
    except OSError as error:
        with suppress(OSError):
            path.unlink()
        raise OutputError(say(words.CANNOT_WRITE, path=path, reason=error.strerror or error)) from None


def _text(values: Mapping[str, str]) -> str:
    return "".join(f"{name} = {value}\n" for name, value in values.items())


class _Questions:
    """The answers so far, always a whole and sound profile."""

    def __init__(self, echo: Echo, read: Read, start: Profile | None) -> None:
        self.echo = echo
        self.read = read
        self.values = dict(EXAMPLE) if start is None else {name: start.written[name] for name in sorted(start.given)}
        self.values["name"] = quoted(start.name if start else say(words.EXAMPLE_NAME))
        for table in TABLES:
            # A table that is there without a key of its own still means that the part is made.
            held = getattr(start, table.name, None)
            if table.optional and held is not None and not any(name.startswith(f"{table.name}.") for name in self.values):
                self.values[f"{table.name}.material"] = quoted(held.material)
        for name, material in start.materials.items() if start else ():
            if material.shelf:
                entries = (
                    "{ " + ", ".join(f"{key} = {toml_value(value, about)}" for key, value, about in entry) + " }"
                    for entry in shelf_entries(material)
                )
                self.values[dotted(("materials", name, "shelf"))] = f"[{', '.join(entries)}]"
        self.profile = loads(_text(self.values))
        self.has_start = start is not None

    def set(self, change: Change) -> bool:
        """Take some answers if the profile stays sound, else explain."""
        values = {name: value for name, value in {**self.values, **change}.items() if value is not None}
        try:
            self.profile = loads(_text(values))
        except ProfileError as error:
            for problem in error.problems:
                self.echo(f"  {problem.key}: {problem.message}")
            return False
        self.values = values
        return True

    def yes_or_no(self, question: str, default: bool) -> bool:
        """Ask until the answer is yes or no."""
        while True:
            answer = self.read(f"{question} [{say(words.YES if default else words.NO)}] ")
            said = yes(answer) if answer.strip() else default
            if said is not None:
                return said
            self.echo(f"  {say(words.YES_OR_NO)}")

    def value(self, name: str, question: str, key: Key, default: str) -> str:
        """Ask for one value until it is sound on its own; TOML, or empty to leave it to the program."""
        said = default.strip('"').replace('", "', ", ").replace('["', "").replace('"]', "")
        while True:
            answer = self.read(f"{question} [{said or say(key.worked_out or words.NONE)}] ").strip()
            if answer == "?":
                self.echo(f"  {_told(name, key)}")
                continue
            if not answer:
                return default
            if answer.lower() == "none" and not key.required:
                return ""
            try:
                return literal(answer, key)
            except Fault as fault:
                self.echo(f"  {answer}: {fault}")

    def one(self, name: str, question: str = "") -> None:
        """Ask for one key until the whole profile is sound with it."""
        path = undotted(name)
        found = key_named(path)
        assert found is not None
        key = found[0]
        now = self.now(name)
        while True:
            given = self.value(name, question or say(words.ONE_KEY, name=name, what=say(key.help)), key, now)
            if given == now:
                return
            if self.set({name: given or None, **({INSTEAD[name]: None} if name in INSTEAD else {})}):
                return

    def now(self, name: str) -> str:
        """The present value of a key in TOML, empty when there is none."""
        if name in self.values:
            return self.values[name]
        path = undotted(name)
        holder = self.profile.materials[path[1]] if path[0] == "materials" else getattr(self.profile, path[0])
        value = holder if len(path) == 1 else getattr(holder, path[-1])
        found = key_named(path)
        assert found is not None
        return "" if value in (None, "", ()) or (found[0].only_for and not value) else toml_value(value, found[0])

    def name(self, path: Path | None) -> Path:
        """Ask for the name, and settle the file."""
        if path is not None and not self.has_start:
            self.set({"name": quoted(path.stem.replace("-", " ").strip() or say(words.UNNAMED))})
        self.echo(say(words.INTRODUCTION))
        while True:
            self.one("name", say(words.NAME))
            target = path or Path(f"{re.sub(r'[^a-z0-9]+', '-', self.profile.name.lower()).strip('-') or 'bellows'}.toml")
            try:
                refuse_existing(target)
            except UsageError as error:
                if path is not None:
                    raise
                self.echo(f"  {error}")
                continue
            return target

    def section(self) -> None:
        """Ask what was measured at the ends."""
        while not self.set(self._section()):
            self.echo(f"  {say(words.ONCE_MORE)}")

    def _section(self) -> Change:
        change: dict[str, str | None] = dict.fromkeys((f"section.{name}" for name in _section_keys()), None)

        def again(name: str, question: str, default: str = "") -> str:
            full = f"section.{name}"
            while not (given := self.value(full, question, _key(full), self.now(full) or default)):
                self.echo(f"  {say(words.NEEDS_ANSWER)}")
            change[full] = given
            return given

        shape = _read(again("shape", say(words.SHAPE)), "section.shape")
        self.echo(_surfaces())
        again("measured_on", say(words.MEASURED_ON))
        if shape == REGULAR:
            sides = _read(again("sides", say(words.SIDES), "6"), "section.sides")
            assert isinstance(sides, int)
            if sides % 2:
                self.echo(f"  {say(words.ODD_SIDES)}")
                change["section.measure"] = '"side"'
                again("end_size", say(words.ONE_SIDE), '"100 mm"')
            else:
                again("measure", say(words.MEASURE), '"across-flats"')
                again("end_size", say(words.END_SIZE), '"6 1/4 in"')
        elif shape == RECTANGLE:
            again("width", say(words.WIDTH), '"250 mm"')
            again("height", say(words.HEIGHT), '"120 mm"')
        else:
            self._measured(change, again)
            return change
        if self.yes_or_no(say(words.OTHER), False):
            self._other(shape, change)
        return change

    def _measured(self, change: dict[str, str | None], again: Callable[..., str]) -> None:
        old = next((name for name in MEASURES if f"section.{name}" in self.values), "flats")
        how = Key(Kind.CHOICE, say(words.MEASURED_BY_HELP), choices=MEASURES)
        name = self.value("section", say(words.MEASURED_BY), how, f'"{old}"').strip('"')
        form = say(words.FORM_POINTS if name == "corners" else words.FORM_LIST)
        again(name, say(words.MEASURES, what=say(_key(f"section.{name}").help), form=form))
        before = self.values.get("section.other_end", "")
        if self.yes_or_no(say(words.OTHER), bool(before)):
            first = change[f"section.{name}"]
            change["section.other_end"] = self.value(
                "section.other_end", say(words.OTHER_MEASURES, form=form), _key(f"section.{name}"), before or first or ""
            )

    def _other(self, shape: object, change: dict[str, str | None]) -> None:
        """Two ends that differ are a measured section; nobody should have to work that out."""
        if shape == RECTANGLE:
            width, height = _taken(change, "section.width"), _taken(change, "section.height")
            ends = []
            for wide, high in ((width, height), self._second_rectangle(width, height)):
                w, h = exact(_mm(wide)), exact(_mm(high))
                ends.append(f"[[0, 0], [{w}, 0], [{w}, {h}], [0, {h}]]")
            change.update({"section.corners": ends[0], "section.other_end": ends[1]})
        else:
            size = _taken(change, "section.end_size")
            second = self.value("section.end_size", say(words.OTHER_SIZE), _key("section.end_size"), size)
            sides = int(_taken(change, "section.sides"))
            measure = _read(_taken(change, "section.measure"), "section.measure")
            name, count = ("side_lengths", sides) if measure == "side" else ("flats", sides // 2)
            scale = math.cos(math.pi / sides) if measure == "across-corners" else 1.0
            first_end, other_end = (f"[{', '.join([exact(_mm(one) * scale)] * count)}]" for one in (size, second))
            change.update({f"section.{name}": first_end, "section.other_end": other_end})
        change["section.shape"] = f'"{MEASURED}"'

    def _second_rectangle(self, width: str, height: str) -> tuple[str, str]:
        wide = self.value("section.width", say(words.OTHER_WIDTH), _key("section.width"), width)
        return wide, self.value("section.height", say(words.OTHER_HEIGHT), _key("section.height"), height)

    def folds(self) -> None:
        """Ask for the folds, checked by the cards counted down one side, then depth and opening."""
        while True:
            self.one("bellows.folds", say(words.FOLDS))
            folds = self.profile.bellows.folds
            cards = {"ridge": 2 * (folds + 1), "valley": 2 * folds}
            count = Key(Kind.COUNT, say(words.CARDS_DOWN), low=2, high=100)
            ends = self.profile.bellows.ends
            counted = int(self.value("cards", say(words.CARDS), count, str(cards[ends])))
            found = next((end for end, number in cards.items() if number == counted), None)
            if found is None:
                self.echo(f"  {say(words.CARDS_DISAGREE, folds=folds, **cards)}")
                continue
            if found != ends:
                self.set({"bellows.ends": f'"{found}"'})
                self.echo(f"  {say(words.ENDS_FOUND[found])}")
            break
        self.one("bellows.fold_depth", say(words.FOLD_DEPTH))
        self._opening()

    def _opening(self) -> None:
        self.echo(say(words.HOW_FAR))
        travel = self.profile.bellows.travel is not None
        while True:
            key = _key("bellows.travel" if travel else "bellows.stretch")
            said = self.now(f"bellows.{'travel' if travel else 'stretch'}").strip('"')
            answer = self.read(f"{say(words.OPENING)} [{said}] ").strip() or said
            is_travel = not re.fullmatch(r"\d+(\.\d+)?", answer) or (travel and answer == said)
            name, other = ("travel", "stretch") if is_travel else ("stretch", "travel")
            try:
                given = literal(answer, _key(f"bellows.{name}"))
            except Fault as fault:
                self.echo(
                    f"  {answer}: {fault}" if answer != "?" else f"  {say(words.STRETCH_ALLOWED, what=say(key.help), range=key.range())}"
                )
                continue
            if answer == said or self.set({f"bellows.{name}": given, f"bellows.{other}": None}):
                return

    def leather(self) -> None:
        """Ask for thicknesses, and the laps that most often differ."""
        for table, question in words.THICKNESSES.items():
            name = getattr(self.profile, table).material
            self.one(dotted(("materials", name, "thickness")), say(question))
        for name, question in words.LAPS.items():
            self.one(name, say(question))

    def finer(self) -> None:
        """Walk the rest: finer sizes, the optional parts, prices."""
        for table in TABLES:
            held = getattr(self.profile, table.name)
            if table.optional:
                made = self.yes_or_no(say(words.MAKE, table=say(table.help), part=table.name.replace("_", " ")), held is not None)
                if not made:
                    if held is not None:
                        self.set({name: None for name in self.values if name.startswith(f"{table.name}.")})
                    continue
                if held is None:
                    first = next(name for name, key, _ in keys_of(table.spec) if key.kind is Kind.MATERIAL)
                    self.set({f"{table.name}.{first}": toml_value(table.spec().material, _key(f"{table.name}.{first}"))})
            self.echo(say(table.help))
            for name, key, _ in keys_of(table.spec):
                if key.finer and f"{table.name}.{name}" not in words.LAPS:
                    self.one(f"{table.name}.{name}")
        self.one("copies")
        for name, material in self.profile.materials.items():
            self.one(dotted(("materials", name, "price")), _price_question(name, material))


def _taken(change: dict[str, str | None], name: str) -> str:
    """Take an answer out again, so that the key is not written."""
    given = change[name]
    change[name] = None
    assert given is not None
    return given


def _told(name: str, key: Key) -> str:
    """What a question mark is answered with."""
    if key.range():
        return say(words.ALLOWED, name=name, what=say(key.help), range=key.range())
    return say(words.CHOICES, name=name, what=say(key.help), choices=" | ".join(key.choices))


def _surfaces() -> str:
    """The three edges that calipers can reach, one a line."""
    wide = max(map(len, words.SURFACES))
    return "\n".join([say(words.WHICH_SURFACE), *(f"  {value:<{wide}}  {say(text)}" for value, text in words.SURFACES.items())])


def _price_question(name: str, material: Material) -> str:
    if material.form == ROLL:
        return say(words.PRICE_OF_METRE, name=name)
    if material.price_per:
        return say(words.PRICE_PER, form=material.form, name=name, per=material.price_per)
    return say(words.PRICE_OF_ONE, form=material.form, name=name)


def _section_keys() -> list[str]:
    section = next(table.spec for table in TABLES if table.name == "section")
    return [name for name, key, _ in keys_of(section) if not key.finer]


def _key(name: str) -> Key:
    found = key_named(undotted(name))
    assert found is not None
    return found[0]


def _read(text: str, name: str) -> object:
    """What a value in TOML stands for."""
    return convert(value_of(text), _key(name))


def _mm(text: str) -> float:
    return parse_length(text.strip('"'))
