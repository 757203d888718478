"""Asking for an instrument, in the order in which one measures it.

The terminal is two functions, one that prints a line and one that reads an
answer, so that nothing here knows a screen. No profile is written before its
figures were looked at, none that cannot be made, and never over a file that is
there; what was said is kept whenever somebody has to stop.
"""

from __future__ import annotations

import itertools
import math
import os
import re
import shlex
import textwrap
from collections.abc import Callable, Collection, Mapping, Sequence
from pathlib import Path

from bellowscut.answers import literal, typed, yes
from bellowscut.bellows import build
from bellowscut.errors import BellowscutError, OutputError, Problem, ProfileError, UsageError
from bellowscut.guess import fits_old_cards
from bellowscut.keys import Key, Kind, keys_of
from bellowscut.materials import ROLL, Material
from bellowscut.offers import DEPTH, LAPS, THICKNESSES, offers, side_offered, text_of
from bellowscut.profile import Profile, as_toml, load, loads
from bellowscut.profile_text import shelf_entries
from bellowscut.reading import key_named, shown
from bellowscut.schema import MEASURED, MEASURES, RECTANGLE, REGULAR, TABLES
from bellowscut.toml_lines import dotted, quoted, undotted, value_of
from bellowscut.unfinished import Unfinished, beside, forget, keep, on_with, refuse_existing, taken_up, write_new
from bellowscut.units import parse_length
from bellowscut.values import Fault, convert, exact, toml_value
from bellowscut.words import measuring as words, say

Echo = Callable[[str], None]
Read = Callable[[str], str]
Change = dict[str, str | None]

EXAMPLE: Mapping[str, str] = {
    "section.shape": '"regular"',
    "section.sides": "6",
    "section.end_size": '"6 1/4 in"',
    "bellows.folds": "6",
    DEPTH: '"25 mm"',
}
"""What the questions start from when no profile is given: a usual six-sided bellows."""

NAMELESS = Path("bellows.toml")
"""Where a commented file goes when no name is given."""

INSTEAD = {"bellows.relief": "bellows.closed_gap", "bellows.closed_gap": "bellows.relief"}
"""Keys that put another one out."""

ASKED_LATER = (DEPTH, "bellows.stretch", "bellows.travel", *LAPS, *THICKNESSES)
"""Keys that are asked for, or follow from what is: until then their quarrels with other keys are nobody's fault."""

HINTS = {"readings.ridge_edge": words.OLD_CARD_HINT, "gusset.use": words.OLD_GUSSET_HINT}
"""What is told before a question, by its key."""

WIDTH = 100
"""Longer texts are broken [characters]."""

JOB = "job"
"""The question that no key of a profile answers: it is a word of the commands."""

FIRST = (JOB, "name")
"""What is asked before the ends."""

BACK = "back"
"""The answer that asks the question before once more."""

SIZES = ("end_size", "width", "height", *MEASURES, "other_end", "other_size", "other_width", "other_height")
"""Questions about the ends that are answered with lengths."""


class Stopped(BellowscutError):
    """The questions were broken off; the message says what was kept."""


class _Back(Exception):
    """The question before is to be asked again."""


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
        When the disk does not even keep what was said.
    """
    if path is not None:
        refuse_existing(path)
    before = taken_up(path or NAMELESS)
    if before is not None and start is None and before.start:
        start = load(before.start)
    questions = _Questions(echo, read, start, path)
    try:
        if before is not None:
            questions.take_up(before, path or NAMELESS)
        return questions.sitting()
    except (EOFError, KeyboardInterrupt) as stop:
        raise Stopped(questions.leave(may_ask=isinstance(stop, KeyboardInterrupt))) from None
    except BaseException:
        # Whatever it was, what somebody said is worth more than the error is.
        questions.leave(may_ask=False)
        raise


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
    profile = start or loads(text_of(EXAMPLE), name=target.stem)
    write_new(target, as_toml(profile, only_given=True))
    return target


class _Questions:
    """The answers so far, always a whole profile that reads."""

    def __init__(self, echo: Echo, read: Read, start: Profile | None, path: Path | None) -> None:
        self.echo = echo
        self.read = read
        self.path = path
        self.target = path or NAMELESS
        self.start = start
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
        self.profile = loads(text_of(self.values))
        self.offered: dict[str, str] = {}
        self.problems = _tried(self.values)[1]
        """What stands in the way of a bellows so far; the last look asks for what still does."""
        read_off = start is not None and any(name.startswith("readings.") for name in start.given)
        self.job = "regusset" if read_off else "rebellows"
        self.asked: dict[str, Callable[[], None]] = {}
        """How to ask for each key again, in the order in which they were asked."""
        self.ends: dict[str, str] = {}
        """What was said about the ends, as a profile writes it, by the question."""
        self.wanted: set[str] = set()
        """Questions about the ends that are to be asked though they were answered."""
        self.said: dict[str, str] = {}
        """Every answer as typed, by the question."""
        self.earlier: dict[str, str] = {}
        """Answers of an earlier sitting that have not come up yet."""
        self.stale: list[Path] = []
        """Profiles beside which something was kept that has been taken up."""

    # one sitting, and leaving it -----------------------------------------------------

    def take_up(self, before: Unfinished, path: Path) -> None:
        """Answer from an earlier sitting what was answered there."""
        self.earlier.update({question: answer for question, answer in before.said.items() if question not in self.said})
        self.stale.append(path)
        self.echo(say(words.TAKEN_UP, kept=beside(path)))

    def sitting(self) -> Path:
        """All questions in their order, a last look, and the file."""
        self.echo(say(words.INTRODUCTION))
        at = 0
        while at < len(steps := self.steps()):
            try:
                steps[at]()
                at += 1
            except _Back:
                at = max(0, at - 1)
        profile = self.last_look()
        self.write(as_toml(profile, only_given=True))
        for path in {*self.stale, self.target}:
            forget(path)
        job = say(words.JOB_OPTION, job=self.job) if self.job != "rebellows" else ""
        self.echo(say(words.WRITTEN, path=self.target, file=shlex.quote(str(self.target)), job=job))
        return self.target

    def steps(self) -> list[Callable[[], None]]:
        """What is asked for this job, in the order of the measuring sheet."""
        old_card = self.old_card() if fits_old_cards(self.job) else []
        return [self.ask_job, self.name, self.section, self.folds, self.fold_depth, self.opening, *old_card, *self.leather(), self.finer]

    def leave(self, *, may_ask: bool) -> str:
        """Keep what was said, if somebody wants it or nobody can be asked; says what was done."""
        nothing = say(words.STOPPED_AS_BEFORE, kept=beside(self.stale[-1])) if self.stale else say(words.STOPPED)
        if not self.said:
            return nothing
        if may_ask:
            try:
                if not self.yes_or_no("", say(words.KEEP), True):
                    return nothing
            except (EOFError, KeyboardInterrupt, _Back):
                # Who does not stay to answer loses nothing.
                pass
        source = self.start.source if self.start else ""
        try:
            start = str(Path(source).resolve()) if Path(source).is_file() else source
            kept = keep(self.target, Unfinished({**self.earlier, **self.said}, start))
        except OutputError:
            for question, answer in self.said.items():
                self.echo(f"  {question}: {answer}")
            raise
        return say(words.STOPPED_KEPT, kept=kept, command=on_with(self.target))

    def write(self, text: str) -> None:
        """Write the profile, under another name where the first will not do."""
        while True:
            try:
                write_new(self.target, text)
                return
            except (UsageError, OutputError) as error:
                self.echo(f"  {error}")
                offered = self.target if isinstance(error, OutputError) else _free(self.target)
                self.target = Path(self.read(f"{say(words.ANOTHER_FILE)} [{offered}] ").strip() or offered)

    def last_look(self) -> Profile:
        """Show what follows from the answers, until it can be made and is wanted."""
        from bellowscut.pipeline import draft
        from bellowscut.summary import opening_lines, size_lines

        while True:
            profile = self.profile
            try:
                drafted = draft(profile, self.job)
            except ProfileError as error:
                self.tell(error.problems)
                self.again(error.problems)
                continue
            self.echo("")
            for _, line in (*opening_lines(drafted.bellows, drafted.notes), *size_lines(drafted.bellows)):
                self.echo(line)
            self.echo("")
            if self.offered:
                chosen = ", ".join(f"{name} = {typed(value, key_of(name))}" for name, value in self.offered.items())
                self.echo(say(words.CHOSEN, what=chosen))
            try:
                if self.yes_or_no("", say(words.WRITE_IT, path=self.target), True):
                    return profile
                self.change_one()
            except _Back:
                continue

    def again(self, problems: Sequence[Problem]) -> None:
        """Ask again for what stands in the way, or for any answer when that cannot be asked."""
        names = [problem.key for problem in problems if problem.key in self.asked or key_named(undotted(problem.key or "?"))]
        try:
            for name in dict.fromkeys(names):
                if name not in self.asked and not name.startswith("section."):
                    self.one(name)
                else:
                    self.asked[name if name in self.asked else "section.shape"]()
        except _Back:
            names = []
        if not names:
            self.change_one()

    def change_one(self) -> None:
        """List the answers by number, and ask for one of them again."""
        held = {
            name: self.job if name == JOB else typed(self.now(name), key_of(name)) for name in self.asked if name == JOB or self.now(name)
        }
        names = list(held)
        for number, name in enumerate(names, 1):
            self.echo(f"{number:>4}  {name} = {held[name]}")
        one_of_them = Key(Kind.COUNT, say(words.WHICH), low=1, high=len(names))
        chosen = self.value("", say(words.WHICH), one_of_them, "")
        if chosen:
            self.asked[names[int(chosen) - 1]]()

    # one answer ----------------------------------------------------------------------

    def reply(self, question: str, prompt: str) -> str:
        """What is answered, at an earlier sitting or now."""
        if question in self.earlier:
            answer = self.earlier.pop(question)
            self.echo(f"{prompt}{answer}")
            return answer
        answer = self.read(prompt).strip()
        if answer.lower() == BACK:
            raise _Back
        return answer

    def note(self, question: str, answer: str) -> None:
        """Remember an answer as typed."""
        if question:
            self.said[question] = answer

    def yes_or_no(self, question: str, text: str, default: bool) -> bool:
        """Ask until the answer is yes or no."""
        while True:
            answer = self.reply(question, f"{text} [{say(words.YES if default else words.NO)}] ")
            said = yes(answer) if answer else default
            if said is not None:
                self.note(question, "yes" if said else "no")
                return said
            self.echo(f"  {say(words.YES_OR_NO)}")

    def value(self, question: str, text: str, key: Key, default: str) -> str:
        """Ask for one value until it is sound on its own; TOML, or empty to leave it to the program."""
        said = typed(default, key) if default else ""
        while True:
            answer = self.reply(question, f"{text} [{said or say(key.worked_out or words.NONE)}] ")
            if answer == "?":
                self.echo(f"  {told(question, key)}")
                continue
            if not answer:
                self.note(question, said)
                return default
            if answer.lower() == "none" and not key.required:
                self.note(question, answer)
                return ""
            try:
                given = literal(answer, key)
            except Fault as fault:
                self.echo(f"  {shown(answer)}: {fault}")
                continue
            self.note(question, answer)
            return given

    def tell(self, problems: Sequence[Problem]) -> None:
        """Say what is wrong, one line a problem."""
        for problem in problems:
            self.echo(f"  {problem.key}: {problem.message}" if problem.key else f"  {problem.message}")

    def now(self, name: str) -> str:
        """The present value of a key in TOML, empty when there is none."""
        if name in self.values or name in self.offered:
            return self.offered.get(name, "") or self.values[name]
        path = undotted(name)
        holder = self.profile.materials.get(path[1]) if path[0] == "materials" else getattr(self.profile, path[0])
        value = holder if len(path) == 1 else getattr(holder, path[-1], None)
        key = key_of(name)
        return "" if value in (None, "", ()) or (key.only_for and not value) else toml_value(value, key)

    def take(
        self, change: Mapping[str, str | None], about: Collection[str] = (), fault: Callable[[str], bool] | None = None
    ) -> tuple[Problem, ...]:
        """Take some answers if they can be right; else what they are refused for.

        What has not been asked yet is offered to suit them, and is not their fault.

        Parameters
        ----------
        change : mapping of str to str or None
            Values in TOML by key; None for a key that is not to be there.
        about : collection of str
            Keys that were asked for, whether they change or not.
        fault : callable or None
            Whether a key that does not go with the others is a fault of these answers; None for those that were asked for or never are.
        """
        values = {name: value for name, value in {**self.values, **change}.items() if value is not None}
        said = {*self.asked, *change, *about}
        offered = {name: value for name, value in self.offered.items() if name not in said}
        if (values, offered) == (self.values, self.offered) and self.asked:
            return tuple(problem for problem in self.problems if problem.key in about)
        profile, problems = _tried({**values, **offered})
        if problems or any(name.startswith("section.") or name in ASKED_LATER for name in change):
            offered = offers(values, said, self.start.given if self.start else ())
            profile, problems = _tried({**values, **offered})
        if profile is None:
            return problems
        is_fault = fault or (lambda key: key in said or key not in ASKED_LATER)
        here, before = {*change, *about}, {problem.key for problem in self.problems}
        mine = (problem for problem in problems if is_fault(problem.key) and (problem.key in here or problem.key not in before))
        if found := tuple(mine):
            return found
        self.values, self.offered, self.profile = values, offered, profile
        self.problems = problems
        return ()

    def one(self, name: str, text: str = "") -> None:
        """Ask for one key until the whole profile is sound with it, and for an earlier one as well where they quarrel."""
        text = text or say(words.ONE_KEY, name=name, what=say(key_of(name).help))
        answers = {name: self._one(name, text)}
        while problems := self.take(self._changes(answers), answers):
            self.tell(problems)
            named = [problem.key for problem in problems]
            if name not in named:
                for other in self.asked:
                    if other in named and not other.startswith("section."):
                        self.echo(f"  {say(words.QUARREL)}")
                        answers[other] = self._one(other, say(words.ONE_KEY, name=other, what=say(key_of(other).help)))
            answers[name] = self._one(name, text)
        self.asked.setdefault(name, lambda: self.one(name, text))

    def _one(self, name: str, text: str) -> str:
        return self.value(name, text, key_of(name), self.now(name))

    def _changes(self, answers: Mapping[str, str]) -> Change:
        """What answers change; those that are no more than a key's own default are not written, so that it still follows from others."""
        change: Change = {}
        for name, given in answers.items():
            if given != self.now(name) or name in self.offered:
                change[name] = given or None
                if name in INSTEAD:
                    change[INSTEAD[name]] = None
        return change

    # the questions, in their order ---------------------------------------------------

    def ask_job(self) -> None:
        """Ask what is to be done; where the last look finds that cards stay after all, for those too."""
        self.echo(_list(words.JOBS))
        key = Key(Kind.CHOICE, say(words.JOB), choices=tuple(words.JOBS), required=True)
        self.job = str(value_of(self.value(JOB, say(words.JOB), key, quoted(self.job))))
        self.asked[JOB] = self.ask_job
        if DEPTH in self.asked and fits_old_cards(self.job) and not any(name in self.asked for name in words.OLD_CARD):
            for step in self.old_card():
                step()

    def name(self) -> None:
        """Ask for the name, and settle the file."""
        if self.path is not None and self.start is None and "name" not in self.asked:
            self.take({"name": quoted(self.path.stem.replace("-", " ").strip() or say(words.UNNAMED))})
        while True:
            self.one("name", say(words.NAME))
            self.asked["name"] = self.name
            if self.path is not None:
                return
            target = Path(f"{re.sub(r'[^a-z0-9]+', '-', self.profile.name.lower()).strip('-') or 'bellows'}.toml")
            try:
                refuse_existing(target)
                if target not in self.stale and (before := taken_up(target)):
                    self.take_up(before, target)
            except UsageError as error:
                self.echo(f"  {error}")
                continue
            self.target = target
            return

    def section(self) -> None:
        """Ask what was measured at the ends until it goes together; what was sound is kept."""
        self.wanted, refused = set(self.ends), ""
        while True:
            open_before = len(self.wanted), len(self.ends)
            try:
                change = self._section()
            except _Back:
                if open_before == (len(self.wanted), len(self.ends)):
                    raise
                self.wanted = set(self.ends)
                continue
            problems = self.take(change, fault=lambda key: key.startswith("section."))
            if problems:
                self.tell(problems)
                again = {question for problem in problems for question in self._about(problem.key)}
                same = refused == problems[0].key
                refused = problems[0].key
                self.ends = {question: value for question, value in self.ends.items() if question not in again}
                # When it is refused for the same once more, it may be the other one of two that is wrong.
                self.wanted = set(self.ends).intersection(SIZES) if same else set()
            elif DEPTH not in self.asked and any(problem.key in ("section", *ASKED_LATER) for problem in self.problems):
                self.echo(f"  {say(words.NO_ROOM)}")
                self.wanted = set(self.ends).intersection(("sides", "measure", *SIZES))
            else:
                break
        rest = {name: again for name, again in self.asked.items() if not name.startswith("section.")}
        here = {name: self.section for name, value in change.items() if value is not None}
        self.asked = {**{name: rest.pop(name) for name in FIRST if name in rest}, **here, **rest}

    def _about(self, key: str) -> set[str]:
        """The questions about the ends that a refused key comes from."""
        question = key.removeprefix("section.")
        if question in self.ends:
            return {question}
        second = {one for one in self.ends if one.startswith("other_")}
        return second if question == "other_end" and second else set(self.ends).intersection(SIZES)

    def _end(self, question: str, text: str, key: Key, default: str) -> str:
        """What was answered to one question about the ends, asked unless it is known."""
        if question in self.ends and question not in self.wanted:
            return self.ends[question]
        while not (given := self.value(f"section.{question}", text, key, self.ends.get(question, default))):
            self.echo(f"  {say(words.NEEDS_ANSWER)}")
        self.ends[question] = given
        self.wanted.discard(question)
        return given

    def _end_differs(self, default: bool) -> bool:
        """Whether the other end is different."""
        if "other" not in self.ends or "other" in self.wanted:
            held = self.ends.get("other", "yes" if default else "no") == "yes"
            self.ends["other"] = "yes" if self.yes_or_no("section.other", say(words.OTHER), held) else "no"
            self.wanted.discard("other")
        return self.ends["other"] == "yes"

    def _section(self) -> Change:
        change: Change = dict.fromkeys((f"section.{name}" for name in _section_keys()), None)

        def put(name: str, text: str, default: str = "") -> str:
            full = f"section.{name}"
            held = self.now(full) if self.start is not None or not default else ""
            given = self._end(name, text, key_of(full), held or default)
            change[full] = given
            return given

        shape = _read(put("shape", say(words.SHAPE)), "section.shape")
        if "measured_on" not in self.ends or "measured_on" in self.wanted:
            self.echo(f"{say(words.WHICH_SURFACE)}\n{_list(words.SURFACES)}")
        put("measured_on", say(words.MEASURED_ON))
        if shape == REGULAR:
            sides = _read(put("sides", say(words.SIDES), "6"), "section.sides")
            assert isinstance(sides, int)
            if sides % 2:
                change["section.measure"] = '"side"'
                if "end_size" not in self.ends or "end_size" in self.wanted:
                    self.echo(f"  {say(words.ODD_SIDES)}")
                put("end_size", say(words.ONE_SIDE), side_offered(sides))
            else:
                measure = put("measure", say(words.MEASURE), '"across-flats"')
                put("end_size", say(words.END_SIZE), side_offered(sides) if measure == '"side"' else '"6 1/4 in"')
        elif shape == RECTANGLE:
            put("width", say(words.WIDTH), '"250 mm"')
            put("height", say(words.HEIGHT), '"120 mm"')
        else:
            self._measured(change, put)
            return change
        if self._end_differs(False):
            self._other(shape, change)
        return change

    def _measured(self, change: Change, put: Callable[..., str]) -> None:
        old = next((name for name in MEASURES if f"section.{name}" in self.values), "flats")
        how = Key(Kind.CHOICE, say(words.MEASURED_BY_HELP), choices=MEASURES)
        name = str(value_of(self._end("measured_by", say(words.MEASURED_BY), how, f'"{old}"')))
        form = say(words.FORM_POINTS if name == "corners" else words.FORM_LIST)
        first = put(name, say(words.MEASURES, what=say(key_of(f"section.{name}").help), form=form))
        before = self.values.get("section.other_end", "")
        if self._end_differs(bool(before)):
            text = say(words.OTHER_MEASURES, form=form)
            change["section.other_end"] = self._end("other_end", text, key_of(f"section.{name}"), before or first)

    def _other(self, shape: object, change: Change) -> None:
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
            second = self._end("other_size", say(words.OTHER_SIZE), key_of("section.end_size"), size)
            sides = int(_taken(change, "section.sides"))
            measure = _read(_taken(change, "section.measure"), "section.measure")
            name, count = ("side_lengths", sides) if measure == "side" else ("flats", sides // 2)
            scale = math.cos(math.pi / sides) if measure == "across-corners" else 1.0
            first_end, other_end = (f"[{', '.join([exact(_mm(one) * scale)] * count)}]" for one in (size, second))
            change.update({f"section.{name}": first_end, "section.other_end": other_end})
        change["section.shape"] = f'"{MEASURED}"'

    def _second_rectangle(self, width: str, height: str) -> tuple[str, str]:
        wide = self._end("other_width", say(words.OTHER_WIDTH), key_of("section.width"), width)
        return wide, self._end("other_height", say(words.OTHER_HEIGHT), key_of("section.height"), height)

    def folds(self) -> None:
        """Ask for the folds, checked by the cards counted down one side."""
        while True:
            self.one("bellows.folds", say(words.FOLDS))
            folds = self.profile.bellows.folds
            cards = {"ridge": 2 * (folds + 1), "valley": 2 * folds}
            count = Key(Kind.COUNT, say(words.CARDS_DOWN), low=2, high=100)
            ends = self.profile.bellows.ends
            counted = int(self.value("cards", say(words.CARDS), count, str(cards[ends])) or 0)
            found = next((end for end, number in cards.items() if number == counted), None)
            if found is None:
                self.echo(f"  {say(words.CARDS_DISAGREE, folds=folds, **cards)}")
                continue
            if found != ends and (problems := self.take({"bellows.ends": f'"{found}"'})):
                self.tell(problems)
                continue
            if found != ends:
                self.echo(f"  {say(words.ENDS_FOUND[found])}")
            break
        self.asked["bellows.folds"] = self.folds

    def fold_depth(self) -> None:
        """Ask for the depth of a fold."""
        self.one(DEPTH, say(words.FOLD_DEPTH))

    def old_card(self) -> list[Callable[[], None]]:
        """Questions about what stays: one old card, and a gusset that fitted it."""

        def read(name: str, text: str) -> Callable[[], None]:
            def step() -> None:
                if name in HINTS:
                    self.echo(textwrap.fill(say(HINTS[name]), WIDTH))
                self.one(name, say(text))

            return step

        return [read(name, text) for name, text in words.OLD_CARD.items()]

    def opening(self) -> None:
        """Ask how far it opens: an angle or a length."""
        self.echo(say(words.HOW_FAR))
        while True:
            held = "travel" if self.profile.bellows.travel is not None else "stretch"
            key = key_of(f"bellows.{held}")
            said = typed(self.now(f"bellows.{held}"), key)
            answer = self.reply("opening", f"{say(words.OPENING)} [{said}] ") or said
            if answer == "?":
                self.echo(f"  {say(words.STRETCH_ALLOWED, what=say(key.help), range=key.range())}")
                continue
            is_travel = not re.fullmatch(r"\d+(\.\d+)?", answer) or (held == "travel" and answer == said)
            name, other = ("travel", "stretch") if is_travel else ("stretch", "travel")
            try:
                given = literal(answer, key_of(f"bellows.{name}"))
            except Fault as fault:
                self.echo(f"  {shown(answer)}: {fault}")
                continue
            change: Change = {} if answer == said else {f"bellows.{name}": given, f"bellows.{other}": None}
            if problems := self.take(change, (f"bellows.{name}",)):
                self.tell(problems)
                continue
            self.note("opening", answer)
            self.asked.pop(f"bellows.{other}", None)
            self.asked[f"bellows.{name}"] = self.opening
            return

    def leather(self) -> list[Callable[[], None]]:
        """Questions for thicknesses, and the laps that most often differ."""

        def thickness(table: str, text: str) -> Callable[[], None]:
            return lambda: self.one(dotted(("materials", getattr(self.profile, table).material, "thickness")), say(text))

        def lap(name: str, text: str) -> Callable[[], None]:
            return lambda: self.one(name, say(text))

        return [thickness(table, text) for table, text in words.THICKNESSES.items()] + [
            lap(name, text) for name, text in words.LAPS.items()
        ]

    def finer(self) -> None:
        """Walk the rest for those who want it: finer sizes, the optional parts, prices."""
        if not self.yes_or_no("finer", say(words.FINER), False):
            return
        for table in TABLES:
            held = getattr(self.profile, table.name)
            if table.optional:
                text = say(words.MAKE, table=say(table.help), part=table.name.replace("_", " "))
                made = self.yes_or_no(f"make.{table.name}", text, held is not None)
                if not made or (held is None and not self._made(table.name, table.spec)):
                    if held is not None:
                        self.take({name: None for name in self.values if name.startswith(f"{table.name}.")})
                    continue
            self.echo(say(table.help))
            for name, key, _ in keys_of(table.spec):
                if key.finer and f"{table.name}.{name}" not in {*words.LAPS, *self.asked}:
                    self.one(f"{table.name}.{name}")
        self.one("copies")
        for name, material in self.profile.materials.items():
            self.one(dotted(("materials", name, "price")), _price_question(name, material))

    def _made(self, table: str, spec: type) -> bool:
        """Whether an optional part can be made, with its defaults to begin with."""
        first = next(name for name, key, _ in keys_of(spec) if key.kind is Kind.MATERIAL)
        problems = self.take({f"{table}.{first}": toml_value(spec().material, key_of(f"{table}.{first}"))})
        self.tell(problems)
        return not problems


def _tried(values: Mapping[str, str]) -> tuple[Profile | None, tuple[Problem, ...]]:
    """A profile, None where it does not even read, and what stands against it and against its bellows."""
    profile = None
    try:
        profile = loads(text_of(values))
        build(profile)
    except ProfileError as error:
        return profile, error.problems
    return profile, ()


def _free(path: Path) -> Path:
    """The next name like this one that nothing has."""
    names = (path.with_name(f"{path.stem}-{number}{path.suffix}") for number in itertools.count(2))
    return next(name for name in names if not os.path.lexists(name))


def _taken(change: Change, name: str) -> str:
    """Take an answer out again, so that the key is not written."""
    given = change[name]
    change[name] = None
    assert given is not None
    return given


def told(name: str, key: Key) -> str:
    """What a question mark is answered with."""
    if key.range():
        return say(words.ALLOWED, name=name, what=say(key.help), range=key.range())
    return say(words.CHOICES, name=name, what=say(key.help), choices=" | ".join(key.choices))


def _list(meanings: Mapping[str, str]) -> str:
    """Words to choose from with what each means, one a line."""
    wide = max(map(len, meanings))
    return "\n".join(f"  {word:<{wide}}  {say(text)}" for word, text in meanings.items())


def _price_question(name: str, material: Material) -> str:
    if material.form == ROLL:
        return say(words.PRICE_OF_METRE, name=name)
    if material.price_per:
        return say(words.PRICE_PER, form=material.form, name=name, per=material.price_per)
    return say(words.PRICE_OF_ONE, form=material.form, name=name)


def _section_keys() -> list[str]:
    section = next(table.spec for table in TABLES if table.name == "section")
    return [name for name, key, _ in keys_of(section) if not key.finer]


def key_of(name: str) -> Key:
    """The key of a dotted name, which must be one."""
    found = key_named(undotted(name))
    assert found is not None
    return found[0]


def _read(text: str, name: str) -> object:
    """What a value in TOML stands for."""
    return convert(value_of(text), key_of(name))


def _mm(text: str) -> float:
    return parse_length(text.strip('"'))
