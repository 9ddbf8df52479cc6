"""`gantline rehearse`, and what `gantline film` says of a voice that cannot be used."""

import re
import sys
import wave
from html import unescape
from pathlib import Path

import pytest
from running import PLANTER, run

SMALL = ("--size", "90", "--only", "mp4")
RUNNER = (
    "fixed ring\nmoving runner sheaves 1, carries sack\nload sack weight 60 N\nrope fall: ring, under runner, hand\n"
)


def test_rehearse_writes_a_page_that_needs_nothing(capsys, tmp_path: Path) -> None:
    page = tmp_path / "rehearse.html"
    done = run(capsys, "rehearse", PLANTER, "-o", str(page))
    assert (done.status, done.out) == (0, f"open {page}\n")
    text = page.read_text(encoding="utf-8")
    assert "Save planter.wav" in text
    assert "default-src 'none'" in unescape(text)
    assert set(re.findall(r"https?://[^\s\"<]*", text)) <= {
        "http://www.w3.org/2000/svg",
        "http://www.w3.org/1998/Math/MathML",
    }


def test_rehearse_says_the_tutors_own_words(capsys, tmp_path: Path) -> None:
    script = tmp_path / "script.md"
    script.write_text(
        "## x {#planter-onto-the-roof-terrace}\n\n[solve]\nSo <b>{F}</b> it is.\n\n[meet]\n{nothing}\n",
        encoding="utf-8",
    )
    page = tmp_path / "rehearse.html"
    done = run(capsys, "rehearse", PLANTER, "-o", str(page), "--script", str(script))
    assert done.status == 0
    assert "script-slot-unknown" in done.err
    text = page.read_text(encoding="utf-8")
    assert "So &lt;b&gt;90 newtons&lt;/b&gt; it is." in text
    assert "<b>" not in text


@pytest.mark.parametrize(
    ("words", "says", "status"),
    [
        (["-o", "page.txt"], "End its name in .html", 1),
        (["-o", "page.html", "--script", "nowhere.md"], "cannot read nowhere.md", 1),
        (["-o", "no/where/page.html"], "cannot write", 1),
        (["-o", "page.html", "--set", "lower.wieght=2N"], "problem", 2),
    ],
)
def test_rehearse_says_what_it_cannot(
    capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: list[str], says: str, status: int
) -> None:
    monkeypatch.chdir(tmp_path)
    done = run(capsys, "rehearse", PLANTER, *words)
    assert done.status == status
    assert says in done.err
    assert not list(tmp_path.iterdir())


def silence(file: Path) -> Path:
    with wave.open(str(file), "wb") as out:
        out.setparams((1, 2, 8000, 0, "NONE", ""))
        out.writeframes(bytes(16_000))
    return file


def test_film_says_what_is_wrong_with_its_voice_and_leaves_nothing(
    capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "runner.rig").write_text(RUNNER, encoding="utf-8")
    silence(tmp_path / "silent.wav")
    (tmp_path / "noise.wav").write_bytes(b"RIFF of no kind")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PATH", "")
    there = sorted(tmp_path.iterdir())
    for words, code in (
        (["--voice", "nowhere.wav"], "voice-unreadable"),
        (["--voice", "noise.wav"], "voice-unreadable"),
        (["--voice", "silent.wav"], "voice-silent"),
        (["--voice", "silent.wav", "--taps", "nowhere.json"], "voice-unreadable"),
        (["--scratch-voice"], "voice-no-program"),
    ):
        done = run(capsys, "film", "runner.rig", "-o", "film", "--cache", "kept", *words)
        assert done.status == 2, words
        assert code in done.err
        assert sorted(tmp_path.iterdir()) == there


def test_taps_without_their_recording_are_refused(capsys) -> None:
    done = run(capsys, "film", PLANTER, "-o", "film", "--taps", "a.json")
    assert done.status == 1
    assert "--voice" in done.err


def test_film_has_one_voice(capsys) -> None:
    done = run(capsys, "film", PLANTER, "-o", "film", "--voice", "a.wav", "--scratch-voice")
    assert done.status == 2
    assert "not allowed with" in done.err


@pytest.mark.parametrize(("package", "extra"), [("av", "film"), ("pyvips", "film")])
def test_film_names_the_package_that_is_not_there(
    capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, package: str, extra: str
) -> None:
    monkeypatch.setitem(sys.modules, package, None)  # as if it were not installed
    done = run(capsys, "film", PLANTER, "-o", str(tmp_path / "film"), "--cache", str(tmp_path / "kept"), *SMALL)
    assert done.status == 1
    assert f"needs the package {package}" in done.err
    assert f"gantline[{extra}]" in done.err


def test_mistake_of_ours_is_not_taken_for_a_missing_package(
    capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "gantline.output.film_folder", None)
    done = run(capsys, "film", PLANTER, "-o", str(tmp_path / "film"), *SMALL)
    assert done.status == 70
    assert "a mistake of ours" in done.err


def test_film_says_that_its_script_cannot_be_read(capsys, tmp_path: Path) -> None:
    done = run(capsys, "film", PLANTER, "-o", str(tmp_path / "film"), "--script", str(tmp_path / "no.md"), *SMALL)
    assert done.status == 1
    assert f"cannot read {tmp_path / 'no.md'}" in done.err


def test_what_a_script_cannot_say_is_told_with_its_file_and_the_film_is_made(capsys, tmp_path: Path) -> None:
    rig, script = tmp_path / "runner.rig", tmp_path / "words.md"
    rig.write_text(f"title Sack\n{RUNNER}", encoding="utf-8")
    script.write_text("## Sack {#sack}\n\n[gone]\nNobody says this.\n", encoding="utf-8")
    done = run(
        capsys, "film", str(rig), "-o", str(tmp_path / "film"), "--script", str(script),
        "--cache", str(tmp_path / "kept"), *SMALL,
    )  # fmt: skip
    assert done.status == 0
    assert f"{script}:4:1: script-step-gone" in done.err
    assert "Nobody says this." not in (tmp_path / "film" / "transcript.txt").read_text(encoding="utf-8")


def test_full_disk_is_said_with_both_places_it_may_be(capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("gantline.api.film", full)
    done = run(capsys, "film", PLANTER, "-o", "film", "--cache", str(tmp_path / "kept"))
    assert done.status == 1
    assert "no space left" in done.err
    assert all(words in done.err for words in ("film", str(tmp_path / "kept"), "--cache"))
