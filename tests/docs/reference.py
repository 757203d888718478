"""Pages of the documentation that are made from the program itself: profile keys, sources, commands."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import click

from bellowscut import sources
from bellowscut.cli import main
from bellowscut.keys import LENGTH_KINDS, NO_DEFAULT, Key, Kind, keys_of
from bellowscut.labour import FORM, KEYS, OPERATIONS
from bellowscut.materials import BUILT_IN, Material
from bellowscut.profile import load, shipped
from bellowscut.reading import NOT_ON_SHELF
from bellowscut.schema import TABLES, TopSpec
from bellowscut.units import both_areas, plain_number
from bellowscut.values import toml_value
from bellowscut.words.operations import NAMES

MADE = "<!-- Made from the program by `python -m tests.renew`: do not edit this page by hand. -->"

KINDS = {
    Kind.LENGTH: "length",
    Kind.THICKNESS: "length, or ounces",
    Kind.ANGLE: "degrees",
    Kind.COUNT: "whole number",
    Kind.NUMBER: "number",
    Kind.PER_CENT: "per cent",
    Kind.FLAG: "true or false",
    Kind.TEXT: "text",
    Kind.TEXTS: "list of texts",
    Kind.MINUTES: "minutes, or `[fixed, each]`",
    Kind.MATERIAL: "name of a material",
    Kind.BARS: "list of `{ kind, outline }`",
    Kind.MONEY: "money",
    Kind.CURRENCY: "three letters",
    Kind.COLOUR: "colour",
    Kind.AREA: "area",
    Kind.LENGTHS: "list of lengths",
    Kind.READINGS: "length, list of lengths, or either by side",
    Kind.PAIR: "two lengths",
    Kind.SIZE: "two lengths",
    Kind.POINTS: "list of points",
    Kind.OTHER_END: "as the key that it repeats",
    Kind.OUTLINE: "file name or list of points",
    Kind.FLAWS: "list of x, y, size",
    Kind.SPARE: 'whole number or per cent as `"10 %"`',
}


def profile_page() -> str:
    """Every key of a profile: docs/profile.md."""
    return _joined(
        "# The profile, key by key",
        MADE,
        "A profile is a text file in TOML that describes one bellows. Five lines make one: the shape of the section with its size,\n"
        "the number of folds and their depth. Everything else has a default. `bellowscut new` asks for the values and writes the file,\n"
        "so you need not type any of this; here you can look up what a line means.",
        '- A length is in quotes with its unit: `"158.75 mm"`, `"6 1/4 in"`, `"6.25 in"`, `"2.5 cm"`. A bare number is millimetres.\n'
        '- The thickness of leather may be in ounces: `"2 oz"` is 2/64 in.\n'
        "- An angle is a bare number of degrees.\n"
        '- An area has its unit: `"5 sq ft"`, `"46 dm2"`, `"4600 cm2"`, `"0.46 m2"`.\n'
        "- A key that the program does not know is an error. The message names the nearest one.",
        "How well a default is founded stands after it: *published*, *common practice*, *from memory*, *invented*, or *geometry* when it\n"
        "is worked out from the other sizes. More about that in [sources.md](sources.md).",
        *_table_section("Before any table", "These lines stand at the top of the file.", TopSpec),
        *(
            text
            for table in TABLES
            for text in _table_section(
                f"`[{table.name}]`",
                table.help + (" Not made when the table is absent; an empty table takes every default." if table.optional else ""),
                table.spec,
            )
        ),
        "## `[minutes]`",
        "Your own minutes of an operation, in place of the invented ones: `[fixed, each]`, or one number for the fixed part alone. The keys are the\n"
        "operations of [what it costs](quote.md#operations). They stand better in a workshop file, which holds for every job.",
        *_table_section(
            '`[materials."NAME"]`',
            "One table for each material. NAME is what the parts call it. A table named as a built-in material changes only the keys that it gives.",
            Material,
        ),
        '### `[[materials."NAME".shelf]]`',
        "One such table for each skin or sheet that you have: a `name` to know it by, and any of the keys above but "
        + ", ".join(f"`{key}`" for key in NOT_ON_SHELF)
        + ". What it does not say is as the material says. There is one of it unless `count` says more, and with a shelf nothing else is cut into; "
        "see [layout](layout.md).",
        "## Built-in materials",
        "They are used when a profile has no table of that name.",
        "\n".join(_built_in()),
        "## Profiles that ship with the program",
        "All of them are invented. Use the name in place of a file, as in `bellowscut check six-sided-treble`.",
        "\n".join(["| name | instrument |", "| --- | --- |", *(f"| `{name}` | {load(name).name} |" for name in shipped())]),
    )


def _table_section(heading: str, words: str, spec: type[Any]) -> Iterator[str]:
    yield f"## {heading}"
    yield words
    rows = ["| key | value | meaning | default |", "| --- | --- | --- | --- |"]
    rows += [f"| `{name}` | {_value(key)} | {_meaning(key)} | {_default(key, default)} |" for name, key, default in keys_of(spec)]
    yield "\n".join(rows)


def _value(key: Key) -> str:
    what = " or ".join(f'`"{choice}"`' for choice in key.choices) if key.kind is Kind.CHOICE else KINDS[key.kind]
    if not (math.isfinite(key.low) and math.isfinite(key.high)) or key.low == key.high:
        return what
    unit = " mm" if key.kind in LENGTH_KINDS else ""
    if key.kind is Kind.AREA:
        return f"{what}, {both_areas(key.low)} to {both_areas(key.high)}"
    also = ", or 0" if key.zero and key.low > 0 else ""
    return f"{what}, {plain_number(key.low)} to {plain_number(key.high)}{unit}{also}"


def _meaning(key: Key) -> str:
    only = f" ({' and '.join(key.only_for)} only)" if key.only_for else ""
    example = f" Example: `{key.example}`." if key.example else ""
    return f"{_upper(key.help)}{only}.{example}"


def _default(key: Key, default: object) -> str:
    if key.required:
        return "must be given"
    if key.worked_out:
        words = key.worked_out
    elif default is None or default in ("", ()):
        return "absent"
    else:
        words = f"`{toml_value(default, key)}`"
    return words if key.status == NO_DEFAULT else f"{words}, *{key.status}*"


def _built_in() -> Iterator[str]:
    yield "| name | form | thickness | piece |"
    yield "| --- | --- | --- | --- |"
    for name, material in BUILT_IN.items():
        if material.size is None:
            piece = f"{plain_number(material.piece_area() / 1e4, 1)} dm2"
        else:
            piece = " x ".join(plain_number(side) for side in material.size) + " mm"
        yield f"| {name} | {material.form} | {plain_number(material.thickness)} mm | {piece} |"


def sources_page() -> str:
    """Where every number comes from: docs/sources.md."""
    constants = {name: value for name, value in vars(sources).items() if isinstance(value, sources.Constant)}
    return _joined(
        "# Where the numbers come from",
        MADE,
        "No number in this program fell from the sky, but some were only remembered and some were made up. Each says which:",
        "| word | meaning |\n| --- | --- |\n"
        "| published | it stands in the source named |\n"
        "| common practice | the trade does it so; we know no source |\n"
        "| from memory | a usual value that nobody has checked for us |\n"
        "| invented | made up so that the program has something to reckon with: put your own |\n"
        "| geometry | follows from the model in [geometry.md](geometry.md) |",
        "If you can better one of them, measure it on your own work and write it into your profile.",
        "## Sources",
        "\n".join(
            [
                "| key | source | what is taken from it |",
                "| --- | --- | --- |",
                *(f"| `{name}` | {source.title} | {_upper(source.note)} |" for name, source in sources.SOURCES.items()),
            ]
        ),
        "## Allowances and limits of the geometry",
        "They are fixed in the program; the profile does not change them.",
        "\n".join(
            [
                "| name | value | meaning | source | status |",
                "| --- | --- | --- | --- | --- |",
                *(
                    f"| {_words(name)} | {_amount(one)} | {_upper(one.meaning)} | `{one.source}` | {one.status} |"
                    for name, one in constants.items()
                ),
            ]
        ),
        "## Defaults of the profile",
        "A profile may change every one of these. What each key means stands in [profile.md](profile.md).",
        "\n".join(["| key | default | status |", "| --- | --- | --- |", *_defaults()]),
    )


def quote_page(text: str) -> str:
    """The page on cost with its table of operations made anew: docs/quote.md."""
    head, rest = text.split(OPERATIONS_BEGIN)
    return f"{head}{OPERATIONS_BEGIN}\n{chr(10).join(_operations())}\n{OPERATIONS_END}{rest.split(OPERATIONS_END)[1]}"


OPERATIONS_BEGIN, OPERATIONS_END = "<!-- operations: begin -->", "<!-- operations: end -->"


def _operations() -> Iterator[str]:
    """Every operation once, with its minutes in each job that has it."""
    yield "| key | what is done | " + " | ".join(OPERATIONS) + " |"
    yield "| --- | --- |" + " --- |" * len(OPERATIONS)
    for key in KEYS:
        cells = []
        for job, steps in OPERATIONS.items():
            found = next((one for one in (*steps, *((FORM,) if job == "rebellows" else ())) if one.key == key), None)
            cells.append("" if found is None else f"{found.fixed:g}" + (f" + {found.each:g}" if found.each else ""))
        yield f"| `{key}` | {NAMES[key]} | " + " | ".join(cells) + " |"


def _amount(constant: sources.Constant) -> str:
    return f"{constant.value:g}" if constant.unit == "-" else f"{constant.value:g} {constant.unit}"


def _defaults() -> Iterator[str]:
    tables: list[tuple[str, type[Any]]] = [*((table.name, table.spec) for table in TABLES), ("materials", Material)]
    for table, spec in tables:
        for name, key, default in keys_of(spec):
            if key.status == NO_DEFAULT or (default is None and not key.worked_out):
                continue
            words = key.worked_out or f"`{toml_value(default, key)}`"
            yield f"| `{table}.{name}` | {words} | {key.status} |"


def commands_page() -> str:
    """Every command and option, from the program's own help: docs/commands.md."""
    return _joined(
        "# Commands",
        MADE,
        "A command ends with exit code 0 when it is done; 2 when the profile, a file that it names or the command line is wrong; and 1\n"
        "when it cannot be done all the same: pieces find no place, a form does not come out of its bellows, the disk is full. Problems go\n"
        "to standard error, one a line: file, line, key, value, and what would be right. With an error nothing is written; with a\n"
        "warning everything is.",
        "PROFILE is a file, or the name of a profile that ships with the program. Set `NO_COLOR` to have no colours.",
        *(text for name in sorted(main.commands) for text in _command(name, main.commands[name])),
    )


def _command(name: str, command: click.Command) -> Iterator[str]:
    arguments = [one for one in command.params if isinstance(one, click.Argument)]
    shown = " ".join(_argument(one) for one in arguments)
    yield f"## `bellowscut {name}`"
    yield f"`bellowscut {name}{' ' + shown if shown else ''}`"
    words = (command.help or "").replace("\b", "").strip()
    yield "\n".join(line.strip() for line in words.splitlines())
    options = [one for one in command.params if isinstance(one, click.Option)]
    if options:
        yield "\n".join(["| option | meaning |", "| --- | --- |", *map(_option, options)])


def _argument(argument: click.Argument) -> str:
    name = (argument.name or "").upper()
    return name if argument.required else f"[{name}]"


def _option(option: click.Option) -> str:
    words = option.metavar or option.type.name.upper()
    if isinstance(option.type, click.Choice):
        words = " or ".join(map(str, option.type.choices))
    metavar = "" if option.is_flag else f" {words}"
    default = f" Default: {option.default}." if option.show_default else ""
    return f"| `{option.opts[-1]}{metavar}` | {option.help or ''}{default} |"


def _words(name: str) -> str:
    return _upper(name.lower().replace("_", " "))


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _joined(*blocks: str) -> str:
    return "\n\n".join(blocks) + "\n"
