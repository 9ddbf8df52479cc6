"""The tutor's own sentences: written into a script beside the rig and read again, whatever stands in them."""

import zipfile
from base64 import b64decode
from io import BytesIO
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from inside import PLANTER, Inside

from gantline import api
from gantline.account import METHODS
from gantline.loft.asked import Refused, Say, Tell
from gantline.loft.telling import say, tell
from gantline.output import script as scripts
from gantline.output.film_acts import acts, words

SENTENCES = st.text(st.characters(codec="utf-8", exclude_characters="{}"), min_size=1, max_size=60)


def steps(script: str = "", method: str | None = None, text: str = PLANTER) -> dict[str, Any]:
    return {step["id"]: step for step in tell(Tell(text, method=method, script=script))["steps"]}


def said(script: str, step: str, words: str, method: str | None = None) -> str:
    return say(Say(PLANTER, script=script, method=method, step=step, say=words))["script"]


@given(first=SENTENCES, second=SENTENCES)
def test_every_sentence_comes_back_as_it_was_said(first: str, second: str) -> None:
    script = said(said("", "meet", first), "cut", second)
    for step, words_ in (("meet", first), ("cut", second)):
        own = scripts.plain(words_)
        assert steps(script)[step]["say"] == (own or steps()[step]["say"])


def test_a_number_stays_live() -> None:
    script = said("", "meet", "Here are {W} of lilies.")
    assert steps(script)["meet"]["says"] == "Here are 348 N of lilies."
    assert steps(script)["meet"]["spoken"] == "Here are 348 newtons of lilies."
    assert steps(script, text=PLANTER.replace("348 N", "600 N"))["meet"]["says"] == "Here are 600 N of lilies."
    assert steps(script)["meet"]["seconds"] < steps()["meet"]["seconds"]


def test_all_else_in_a_script_stays_as_it_is() -> None:
    script = said(said("", "meet", "One."), "cut", "Two.").replace("[cut]", "A note of mine.\n\n[cut]")
    assert said(script, "meet", "Another.") == script.replace("One.", "Another.")
    assert said(said(script, "solve", "Three."), "solve", "") == script


def test_the_first_words_leave_no_trace() -> None:
    script = said("", "meet", "One.")
    assert said(script, "meet", steps()["meet"]["say"]) == said(script, "meet", "")
    assert "[meet]" not in said(script, "meet", "")


def test_each_method_has_words_of_its_own() -> None:
    script = said(said("", "meet", "By the cut."), "meet", "By the bodies.", "free-body")
    assert steps(script)["meet"]["say"] == "By the cut."
    assert steps(script, "free-body")["meet"]["say"] == "By the bodies."


@pytest.mark.parametrize("method", METHODS)
def test_a_title_that_ends_like_a_method_is_none(method: str) -> None:
    text = PLANTER.replace("Planter onto the roof terrace", f"A day of {method.replace('-', ' ')}")
    script = say(Say(text, step="meet", say="One."))["script"]
    assert steps(script, text=text)["meet"]["say"] == "One."
    assert steps(script, "free-body", text)["meet"]["say"] != "One."


def test_another_title_parts_no_rig_from_its_words() -> None:
    script = said("", "meet", "One.")
    assert steps(script, text=PLANTER.replace("title ", "title  Big "))["meet"]["say"] == "One."


def test_braces_that_name_no_number_are_refused_in_words() -> None:
    with pytest.raises(Refused, match=r"\{Q\} is no number of this account. Use one of \{W\}"):
        said("", "meet", "It takes {Q}.")


@pytest.mark.parametrize("odd", ["\u2028", "\x0b", "\x85", "\x1e\x1e"])
def test_the_right_row_is_changed_whatever_stands_above_it(odd: str) -> None:
    """What breaks a line for some programs and not for an editor moves no sentence."""
    script = said(said("", "meet", "One."), "cut", "Two.").replace("[meet]", f"A note{odd} of mine.\n\n[meet]")
    assert said(script, "meet", "Another.") == script.replace("One.", "Another.")
    assert said(script, "meet", "") == said(script, "meet", steps()["meet"]["say"])
    assert steps(said(script, "meet", ""))["cut"]["say"] == "Two."


def test_of_two_sentences_for_one_step_the_one_that_is_said_is_changed() -> None:
    """Two headings may mean one rig: an earlier title of it, brought back by hand."""
    script = said("", "meet", "One.")
    twice = f"{script}\n## Planter {{#an-earlier-title}}\n\n[meet]\nTwo.\n"
    assert steps(twice)["meet"]["say"] == "One."
    assert steps(said(twice, "meet", "Three."))["meet"]["say"] == "Three."


def test_what_of_a_script_cannot_be_said_is_told() -> None:
    script = said("", "meet", "One.").replace("[meet]", "[meat]")
    told = tell(Tell(PLANTER, script=script))["unsaid"]
    assert len(told) == 1
    assert told[0].startswith("Line 8: this account has no step [meat]")


def test_a_film_says_the_same_words() -> None:
    """The script of the loft is one that `gantline film --script` takes as it is."""
    rig, _ = api.read(PLANTER)
    assert rig is not None
    script = said(said("", "meet", "One."), "meet", "By the bodies.", "free-body")
    own, problems = words(acts([(rig, api.solve(rig).answer)]), script)
    assert list(own.values()) == ["One."]
    assert not problems


def test_what_is_handed_out_says_them(served: Inside) -> None:
    script = said("", "meet", "Own words for {W}.")
    page = handed(served, "page", script).decode()
    assert "Own words for" in page
    with zipfile.ZipFile(BytesIO(handed(served, "lesson", script))) as lesson:
        assert "Own words for" in lesson.read("planter/index.html").decode()
        assert "[meet]\nOwn words for {W}." in lesson.read("planter/script.md").decode()


def handed(served: Inside, what: str, script: str) -> bytes:
    asked = {"text": PLANTER, "what": what, "name": "planter", "script": script}
    lines = served.send("/api/export", asked).body.splitlines()
    return b64decode(msgspec.json.decode(lines[-1])["data"])


def test_a_script_is_kept_with_the_care_of_a_rig(served: Inside) -> None:
    script = said("", "meet", "One.")
    assert served.get("/api/file?name=planter.rig").json()["script"] is None
    assert served.keep("planter.script.md", script, None).status == 200
    kept = served.get("/api/file?name=planter.rig").json()
    assert kept["script"]["text"] == script == (served.folder / "planter.script.md").read_text(encoding="utf-8")
    assert served.keep("planter.script.md", "other", None).status == 409
    assert served.get("/api/files").json()["files"] == ["planter.rig"]
    assert served.keep("README.md", "other", None).status == 400


def test_every_name_that_a_rig_may_have_has_room_for_its_words(served: Inside) -> None:
    stem = "n" * 116
    assert served.keep(f"{stem}.rig", PLANTER, None).status == 200
    assert served.keep(f"{stem}.script.md", "# words\n", None).status == 200
    assert served.get(f"/api/file?name={stem}.rig").json()["script"]["text"] == "# words\n"
    assert served.keep(f"n{stem}.rig", PLANTER, None).status == 400
    assert served.keep(f"n{stem}.script.md", "# words\n", None).status == 400


def test_the_mark_of_a_rig_changes_with_the_words_beside_it(served: Inside) -> None:
    before = served.get("/api/file?name=planter.rig").headers["etag"]
    served.keep("planter.script.md", said("", "meet", "One."), None)
    assert served.get("/api/file?name=planter.rig", ("if-none-match", before)).status == 200
