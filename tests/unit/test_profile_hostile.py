"""Files that are no profiles: each is refused in one clear line, quickly, and never with a traceback."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from bellowscut.errors import ProfileError
from bellowscut.profile import load, loads


def refusal(source: str | Path) -> str:
    with pytest.raises(ProfileError) as caught:
        load(source)
    (line,) = caught.value.lines()
    assert "\n" not in line
    assert len(line) < 1000
    return line


def test_file_trouble(tmp_path: Path) -> None:
    assert "there is no such file" in refusal(tmp_path / "none.toml")
    assert "is a folder" in refusal(tmp_path)
    binary = tmp_path / "binary.toml"
    binary.write_bytes(b"format = 1\n\xff\xfe\x00")
    assert "binary.toml:2: is not UTF-8 text" in refusal(binary)
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * 1_000_001)
    assert "is larger than 1000 kB" in refusal(large)
    nul = tmp_path / "nul.toml"
    nul.write_bytes(b'format = 1\nname = "\x00"\n')
    assert "does not read as TOML" in refusal(nul)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_pipes_and_devices_do_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    assert "is a pipe or device" in refusal(tmp_path / "pipe.toml")
    assert "is a pipe or device" in refusal("/dev/zero")


def test_names(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert "no profile of that name ships; the nearest are six-sided-treble" in refusal("six-sided-trebel")
    assert "is no name" in refusal("")
    assert "is no name" in refusal("a\0b")
    assert "there is no such file" in refusal("x" * 5000)
    assert "cannot be read" in refusal("../" + "x" * 5000)
    (tmp_path / "six-sided-treble").mkdir()
    assert load("six-sided-treble").section.sides == 6


def test_what_is_no_toml_names_the_line() -> None:
    with pytest.raises(ProfileError, match=r"x\.toml:2: does not read as TOML.*stands in quotes: \"6 1/4 in\""):
        loads("[section]\nend_size = 6 1/4 in\n", "x.toml")
    with pytest.raises(ProfileError, match=r"x\.toml:3: does not read as TOML"):
        loads("[section]\nsides = 6\nsides = 7\n", "x.toml")
    with pytest.raises(ProfileError, match=r"x\.toml:\d: does not read as TOML"):
        loads("[section]\nsides = [", "x.toml")


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 100_000,
        "a = " + "[" * 5_000 + "]" * 5_000,
        "a = " + "{a = " * 5_000 + "1" + "}" * 5_000,
        "a" + ".a" * 400_000 + " = 1",
        "[a" + " . 'a'" * 100_000 + "]",
        "a = " + "9" * 100_000,
        'a = """' + "\\n" * 100_000 + '"""',
        "\n".join(f"k{n} = 1" for n in range(50_000)),
        "a = 1e999999999",
        "bellows.fold_depth = 1e999999999",
        "costs.labour_rate = 1e-999999999",
        "a = \u202e1",
        "a = 24.00\x01 mm",
        "a = 6 1\u20284 in",
    ],
    ids=lambda text: text[:12],
)
def test_hostile_text(text: str) -> None:
    with pytest.raises(ProfileError) as caught:
        loads(text, "x.toml")
    assert len(caught.value.lines()) <= 101
    assert all(len(line) < 400 and line.isprintable() for line in caught.value.lines())


def test_keys_with_escapes_do_not_reach_the_terminal() -> None:
    with pytest.raises(ProfileError) as caught:
        loads('"\\u001b[31m" = 1\n"a\\nb" = 2\n[section]\n"\\u202e" = 3\n', "bad\nname\x1b.toml")
    assert all(line.isprintable() for line in caught.value.lines())
