"""Files are kept whole, what they were earlier is kept beside them, and nobody's words are written over unasked."""

import json
import os
import stat
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from inside import PLANTER, Inside, tree_hash

from gantline.loft import history
from gantline.loft.folder import Folder, mark
from gantline.loft.merging import merge


def rig(served: Inside) -> Path:
    return served.folder / "planter.rig"


def changed(text: str, weight: int) -> str:
    return text.replace("348 N", f"{weight} N")


def test_a_file_is_read_and_kept(served: Inside) -> None:
    read = served.get("/api/file?name=planter.rig").json()
    assert read["text"] == PLANTER
    kept = served.keep("planter.rig", changed(PLANTER, 400), read["text"], "weight of planter, 400 newtons")
    assert kept.status == 200
    assert rig(served).read_text(encoding="utf-8") == changed(PLANTER, 400)
    assert served.get("/api/file?name=planter.rig").json()["etag"] == kept.json()["etag"]


def test_an_unchanged_file_is_not_sent_again(served: Inside) -> None:
    first = served.get("/api/file?name=planter.rig")
    assert served.get("/api/file?name=planter.rig", ("if-none-match", first.headers["etag"])).status == 304
    rig(served).write_text("# another\n", encoding="utf-8")
    assert served.get("/api/file?name=planter.rig", ("if-none-match", first.headers["etag"])).status == 200


def test_a_new_file_and_one_that_is_there_already(served: Inside) -> None:
    assert served.keep("new.rig", "load sack weight 1 N\n", None).status == 200
    assert served.get("/api/files").json()["files"] == ["new.rig", "planter.rig"]
    assert served.keep("planter.rig", "# mine\n", None).status == 409
    assert rig(served).read_text(encoding="utf-8") == PLANTER


def test_a_file_that_is_gone_is_not_brought_back_unasked(served: Inside) -> None:
    rig(served).unlink()
    reply = served.keep("planter.rig", changed(PLANTER, 400), PLANTER)
    assert (reply.status, reply.json()["theirs"]) == (409, None)
    assert not rig(served).exists()
    assert served.get("/api/file?name=planter.rig").status == 404


def test_a32_other_lines_are_merged_and_said(served: Inside) -> None:
    theirs = PLANTER.replace("title    Planter onto the roof terrace", "title    The planter")
    rig(served).write_text(theirs, encoding="utf-8")
    reply = served.keep("planter.rig", changed(PLANTER, 400), PLANTER)
    told = reply.json()
    assert reply.status == 409
    assert rig(served).read_text(encoding="utf-8") == theirs
    assert told["merged"] == changed(theirs, 400)
    assert told["lines"] == [1 + PLANTER[: PLANTER.index("title")].count("\n")]
    assert told["says"] == "planter.rig was changed elsewhere. Nothing has been overwritten."
    assert served.keep("planter.rig", told["merged"], told["theirs"]).status == 200


def test_a32_the_same_line_is_shown_twice(served: Inside) -> None:
    rig(served).write_text(changed(PLANTER, 500), encoding="utf-8")
    told = served.keep("planter.rig", changed(PLANTER, 400), PLANTER).json()
    assert told["merged"] is None
    assert (told["yours"], told["theirs"]) == (changed(PLANTER, 400), changed(PLANTER, 500))
    (clash,) = told["clashes"]
    line = changed(PLANTER, 400).splitlines()[clash["line"] - 1]
    assert clash == {"line": clash["line"], "was": changed(line, 348).replace("400", "348") + "\n",
                     "yours": line + "\n", "theirs": line.replace("400", "500") + "\n"}  # fmt: skip


def test_two_windows_do_not_eat_each_others_edits(served: Inside) -> None:
    """Each window edits its own line, merges what it is told, and saves again: both edits are in the file."""
    windows = {"fixed": PLANTER, "moving": PLANTER}
    texts = dict(windows)
    for round in range(20):
        for word in windows:
            texts[word] = texts[word].replace(f"\n{word} ", f"\n# {word} {round}\n{word} ")
            reply = served.keep("planter.rig", texts[word], windows[word])
            if reply.status == 409:
                texts[word] = reply.json()["merged"]
                windows[word] = reply.json()["theirs"]
                reply = served.keep("planter.rig", texts[word], windows[word])
            assert reply.status == 200
            windows[word] = texts[word]
    kept = rig(served).read_text(encoding="utf-8")
    assert all(f"# {word} {round}\n" in kept for word in windows for round in range(20))


def test_line_ends_and_mode_of_a_file_stay(served: Inside) -> None:
    rig(served).write_bytes(PLANTER.replace("\n", "\r\n").encode())
    rig(served).chmod(0o640)
    read = served.get("/api/file?name=planter.rig").json()["text"]
    assert read == PLANTER
    assert served.keep("planter.rig", changed(PLANTER, 400), read).status == 200
    assert rig(served).read_bytes() == changed(PLANTER, 400).replace("\n", "\r\n").encode()
    assert stat.S_IMODE(rig(served).stat().st_mode) == 0o640


def test_what_is_no_text_or_too_long_is_said(served: Inside) -> None:
    (served.folder / "picture.rig").write_bytes(b"\x89PNG\xff")
    (served.folder / "long.rig").write_bytes(b"#" * 70_000)
    assert served.get("/api/file?name=picture.rig").status == 415
    assert served.get("/api/file?name=long.rig").status == 413
    assert served.keep("new.rig", "#" * 70_000, None).status == 413
    assert not (served.folder / "new.rig").exists()


def test_a_read_only_file_is_left_alone(served: Inside, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "access", lambda *_, **__: False)
    reply = served.keep("planter.rig", changed(PLANTER, 400), PLANTER)
    assert reply.status == 409
    assert "read-only" in reply.json()["says"]
    assert rig(served).read_text(encoding="utf-8") == PLANTER


def test_a21_links_lead_nowhere(served: Inside) -> None:
    outside = served.folder.parent / "secret.rig"
    outside.write_text("load secret weight 1 N\n", encoding="utf-8")
    (served.folder / "link.rig").symlink_to(outside)
    os.link(outside, served.folder / "hard.rig")
    assert served.get("/api/files").json()["files"] == ["hard.rig", "planter.rig"]
    reply = served.get("/api/file?name=link.rig")
    assert reply.status == 404
    assert "is a link" in reply.json()["says"]
    assert served.keep("link.rig", "# gone\n", "load secret weight 1 N\n").status == 404
    assert outside.read_text(encoding="utf-8") == "load secret weight 1 N\n"


def test_a21_a_link_swapped_in_after_the_check_is_not_followed(served: Inside, monkeypatch: pytest.MonkeyPatch) -> None:
    outside = served.folder.parent / "secret.rig"
    outside.write_text("load secret weight 1 N\n", encoding="utf-8")
    read = Folder.read

    def swapped(folder: Folder, name: str) -> object:
        state = read(folder, name)
        rig(served).unlink()
        rig(served).symlink_to(outside)
        return state

    monkeypatch.setattr(Folder, "read", swapped)
    assert served.keep("planter.rig", changed(PLANTER, 400), PLANTER).status == 409
    assert outside.read_text(encoding="utf-8") == "load secret weight 1 N\n"


def test_a21_the_hidden_folder_may_be_no_link(served: Inside) -> None:
    elsewhere = served.folder.parent / "elsewhere"
    elsewhere.mkdir()
    (served.folder / ".gantline").symlink_to(elsewhere)
    before = tree_hash(served.folder.parent)
    reply = served.keep("planter.rig", changed(PLANTER, 400), PLANTER)
    assert reply.status == 409
    assert tree_hash(served.folder.parent) == before


def test_a20_a_folder_moved_away_and_a_sibling_of_like_name(served: Inside) -> None:
    private = served.folder.parent / "rigs-private"
    private.mkdir()
    (private / "x.rig").write_text("load x weight 1 N\n", encoding="utf-8")
    for name in ("../rigs-private/x.rig", "-private/x.rig", "rigs-private/x.rig"):
        assert served.get(f"/api/file?name={name}").status == 400


def test_a20_roots_of_every_spelling_work(served: Inside) -> None:
    assert isinstance(Folder(Path("/")).names(), list)
    assert Folder(Path(f"{served.folder}/")).names() == ["planter.rig"]
    assert Folder(Path(f"{served.folder}/../{served.folder.name}/.")).names() == ["planter.rig"]


def test_special_files_do_not_hang_the_loft(served: Inside) -> None:
    os.mkfifo(served.folder / "pipe.rig")
    (served.folder / "folder.rig").mkdir()
    assert served.get("/api/files").json()["files"] == ["planter.rig"]
    assert served.get("/api/file?name=pipe.rig").status == 404
    assert served.get("/api/file?name=folder.rig").status == 404


# -- earlier ----------------------------------------------------------------------------------------------------------


def earlier(served: Inside) -> list[dict[str, str]]:
    return served.get("/api/history?name=planter.rig").json()["earlier"]


def test_every_state_can_be_gone_back_to(served: Inside) -> None:
    text = PLANTER
    for weight in range(400, 430):
        assert served.keep("planter.rig", changed(PLANTER, weight), text, f"{weight} newtons").status == 200
        text = changed(PLANTER, weight)
    found = earlier(served)
    assert [entry["text"] for entry in found] == [
        *(changed(PLANTER, weight) for weight in range(429, 399, -1)), PLANTER]  # fmt: skip
    assert found[0]["says"] == "429 newtons"
    assert found[-1]["says"] == "As it stood in the folder"


def test_states_of_one_group_are_one_entry_until_something_else_comes_between(served: Inside) -> None:
    text = PLANTER
    for weight, group in enumerate(("", "reeving fall", "reeving fall", "", "reeving fall"), 400):
        served.send("/api/file", {"name": "planter.rig", "text": changed(PLANTER, weight), "base": text,
                                  "says": str(weight), "group": group}, "PUT")  # fmt: skip
        text = changed(PLANTER, weight)
    assert [entry["says"] for entry in earlier(served)] == ["404", "403", "402", "400", "As it stood in the folder"]


def test_what_another_program_wrote_is_kept_before_it_is_merged_over(served: Inside) -> None:
    served.keep("planter.rig", changed(PLANTER, 400), PLANTER)
    rig(served).write_text(changed(PLANTER, 500), encoding="utf-8")
    served.keep("planter.rig", changed(PLANTER, 600), changed(PLANTER, 500))
    assert [entry["text"] for entry in earlier(served)][:2] == [changed(PLANTER, 600), changed(PLANTER, 500)]


def test_a_line_cut_short_by_a_crash_is_passed_over(served: Inside) -> None:
    served.keep("planter.rig", changed(PLANTER, 400), PLANTER)
    kept = served.folder / ".gantline" / "planter.rig.earlier"
    kept.write_bytes(kept.read_bytes()[:-30])
    assert [entry["text"] for entry in earlier(served)] == [PLANTER]
    served.keep("planter.rig", changed(PLANTER, 500), changed(PLANTER, 400))
    assert [entry["text"] for entry in earlier(served)] == [changed(PLANTER, 500), changed(PLANTER, 400), PLANTER]


def test_what_was_earlier_has_a_bound(served: Inside, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(history, "MOST", 20_000)
    text = PLANTER
    for weight in range(100, 200):
        served.keep("planter.rig", changed(PLANTER, weight), text)
        text = changed(PLANTER, weight)
    found = earlier(served)
    assert (served.folder / ".gantline" / "planter.rig.earlier").stat().st_size <= 20_000
    assert len(found) >= 10
    assert [entry["text"] for entry in found] == [changed(PLANTER, 199 - n) for n in range(len(found))]


# -- merging ----------------------------------------------------------------------------------------------------------


@given(st.lists(st.sampled_from("abcdef"), max_size=8), st.lists(st.sampled_from("abcdefxyz"), max_size=8))
@settings(max_examples=150, deadline=None)
def test_one_side_alone_is_that_side(base: list[str], other: list[str]) -> None:
    start, end = ("".join(f"{line}\n" for line in lines) for lines in (base, other))
    assert merge(start, end, start)["merged"] == end
    assert merge(start, start, end)["merged"] == end
    assert merge(start, end, end)["merged"] == end


@given(st.data())
@settings(max_examples=150, deadline=None)
def test_edits_of_different_lines_are_all_there(data: st.DataObject) -> None:
    base = [f"line {n}\n" for n in range(12)]
    mine = data.draw(st.sets(st.integers(0, 5)))
    other = data.draw(st.sets(st.integers(7, 11)))
    yours = [f"mine {n}\n" if n in mine else line for n, line in enumerate(base)]
    theirs = [f"theirs {n}\n" if n in other else line for n, line in enumerate(base)]
    told = merge("".join(base), "".join(yours), "".join(theirs))
    assert told["merged"] == "".join(yours[:6] + theirs[6:])
    assert told["lines"] == sorted(n + 1 for n in other)


def test_lines_are_counted_as_an_editor_counts_them() -> None:
    base = "title a\u2028b\x0cc\nload d\n# between\nrope e\n"
    told = merge(base, base.replace("load d", "load x"), base.replace("rope e", "rope y"))
    assert told["merged"] == base.replace("load d", "load x").replace("rope e", "rope y")
    assert told["lines"] == [4]


def test_a_mark_is_of_the_bytes() -> None:
    assert mark(b"a") != mark(b"b")
    assert len(mark(b"")) == 32


def test_entries_are_plain_lines_of_json(served: Inside) -> None:
    served.keep("planter.rig", changed(PLANTER, 400), PLANTER, "words")
    lines = (served.folder / ".gantline" / "planter.rig.earlier").read_text(encoding="utf-8").splitlines()
    assert [sorted(json.loads(line)) for line in lines] == [["at", "says", "text"]] * 2


# -- half a character -------------------------------------------------------------------------------------------------

HALF = "\ud83d"  # the first half of a character beyond the first plane, as a browser may hand it over


def test_half_a_character_is_a_problem_with_its_place(served: Inside) -> None:
    """RFC 8259, section 8.2: such a string is JSON, and what a receiver makes of it is its own affair."""
    text = PLANTER.replace("348 N", f"348{HALF} N")
    reply = served.send("/api/see", {"text": text})
    assert reply.status == 422
    problem = next(each for each in reply.json()["problems"] if each["code"] == "character-not-allowed")
    line = next(number for number, line in enumerate(text.splitlines(), 1) if HALF in line)
    assert problem["line"] == line
    assert text.splitlines()[line - 1][problem["column"] - 1] == HALF
    assert served.send("/api/account", {"text": text}).status == 422


def test_a_whole_character_beyond_the_first_plane_is_none(served: Inside) -> None:
    text = PLANTER.replace("Planter onto", "\U0001f33c Planter onto")
    assert served.send("/api/see", {"text": text}).json()["title"].startswith("\U0001f33c Planter")


def test_what_stands_round_half_a_character_is_kept_and_kept_on(served: Inside) -> None:
    text = PLANTER.replace("Planter onto", f"Planter{HALF} onto")
    assert served.keep("planter.rig", text, PLANTER).status == 200
    assert "Planter\ufffd onto" in rig(served).read_text(encoding="utf-8")
    assert served.keep("planter.rig", text + "# more\n", text).status == 200
    assert served.keep("planter.rig", PLANTER, text + "# more\n").status == 200
    assert rig(served).read_text(encoding="utf-8") == PLANTER
