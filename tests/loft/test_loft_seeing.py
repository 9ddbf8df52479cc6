"""What the page is told at a keystroke is true: of every ready rig, in every view, and of every bad text."""

import io
import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import msgspec
import pytest
from corpus import corpus
from inside import COOKIE, OWN, PLANTER, Inside

from gantline import api
from gantline.figure import VIEWS, part_ids
from gantline.loft import worker, workers
from gantline.loft.asked import Refused
from gantline.loft.tasks import TASKS, run

SHELF = sorted((Path(api.__file__).parent / "shelf").glob("*.rig"))
TESTS = Path(__file__).resolve().parents[1]


def ask(task: str, **asked: Any) -> Any:
    """A task as a worker does it, and as JSON that has gone over the line."""
    return json.loads(msgspec.json.encode(run(task, json.dumps(asked).encode(), lambda _: None)))


@cache
def text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_a_ready_rig_is_seen_whole(path: Path) -> None:
    text = text_of(path)
    seen = ask("see", text=text)
    rig, _ = api.read(text)
    assert rig is not None
    solved = api.solve(rig)
    assert seen["record"] == json.loads(json.dumps(solved.record()))
    assert seen["says"] == solved.says
    assert seen["svg"].startswith("<svg") or seen["undrawn"]
    assert {part["id"] for part in seen["parts"]} | {"beam", "hand"} == set(part_ids(rig)) | {"hand"}
    assert [wheel["way"] for wheel in seen["wheels"]] == list(seen["record"]["regimes"])
    assert seen["answer"]["checked"].endswith("Nothing left over.") or not solved.answer.certificate.checks


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_every_given_stands_where_it_is_said_to_stand(path: Path) -> None:
    lines = text_of(path).splitlines()
    seen = ask("see", text=text_of(path))
    for given in seen["givens"]:
        at = given["column"] - 1
        written = lines[given["line"] - 1][at : at + given["length"]]
        assert written.replace(" ", "").endswith(f"{given['number']}{given['unit']}".replace(" ", "")), given
        assert given["symbol"] or given["key"] in ("sheaves", "spacing"), given
    for part in seen["parts"]:
        at = part["column"] - 1
        assert lines[part["line"] - 1][at : at + part["length"]].strip(), part


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_the_account_is_told_with_its_plates(path: Path) -> None:
    told = ask("account", text=text_of(path))
    shown = ask("present", text=text_of(path))
    assert [step["id"] for step in shown["steps"]] == [step["id"] for step in told["steps"]]
    assert set(told["views"]) == {name for name, view in VIEWS.items() if view.public}
    refused = [bool(method["refused"]) for method in told["methods"]]
    assert refused == sorted(refused)
    lines = text_of(path).count("\n")
    for step in shown["steps"]:
        assert step["svg"].startswith("<svg")
        assert all(1 <= line <= lines for line in step["lines"])
        assert step["lines"] or not step["parts"] or set(step["parts"]) <= {"hand", "beam"}
    if told["steps"]:
        step = told["steps"][-1]
        seen = ask("see", text=text_of(path), step={"method": told["method"], "id": step["id"]})
        assert seen["svg"].startswith("<svg")


def test_each_method_can_be_told_where_it_will_do() -> None:
    for method in ask("account", text=PLANTER)["methods"]:
        told = ask("account", text=PLANTER, method=method["method"])
        assert bool(told["steps"]) == (not method["refused"])
        assert told["method"] == method["method"]


def test_what_if_by_letter_and_by_name_are_one() -> None:
    by_name = ask("see", text=PLANTER, what_if={"planter.weight": "600 N"})
    by_letter = ask("see", text=PLANTER, what_if={"W": "600 N"})
    assert by_name == by_letter
    assert by_name["record"]["regimes"]["ideal"]["effort"]["exact"] == "153"
    given = next(one for one in by_name["givens"] if one["id"] == "planter.weight")
    assert given["number"] == "348", "the text itself says what it said"


def test_what_if_with_problems_is_said() -> None:
    seen = ask("see", text=PLANTER, what_if={"planter.weight": "600"})
    assert [problem["code"] for problem in seen["problems"]] == ["unit-missing"]


@pytest.mark.parametrize("view", [name for name, view in VIEWS.items() if view.public])
def test_every_view_is_drawn_inline_without_a_style_of_its_own(view: str) -> None:
    seen = ask("see", text=PLANTER, view=view)
    assert "<style" not in seen["svg"]
    assert " style=" not in seen["svg"]
    assert 'data-part="' in seen["svg"]
    assert set(re.findall(r' id="([^"]+)"', seen["svg"])) == set(re.findall(r' id="(rig-[^"]+)"', seen["svg"]))


def test_motion_carries_what_the_page_plays_it_by() -> None:
    moving = ask("see", text=PLANTER, view="motion")["motion"]
    assert {name for name, _ in moving["rates"]["bodies"]} == {"upper", "lower"}
    assert len(moving["ways"]) == 2
    assert ask("see", text=PLANTER)["motion"] is None


def test_the_pull_of_every_way_stands_beside_it() -> None:
    lossy = PLANTER.replace("sheaves 2", "sheaves 2, efficiency 95 %")
    wheels = {wheel["way"]: wheel["says"] for wheel in ask("see", text=lossy)["wheels"]}
    assert wheels["ideal"] == "90\u00a0N"
    assert set(wheels) == {"ideal", "raising", "lowering"}
    raising = ask("see", text=lossy, way="raising")
    assert wheels["raising"].split("\u00a0")[0] in raising["answer"]["spoken"]


def test_what_is_given_as_a_letter_is_answered_by_a_formula() -> None:
    seen = ask("see", text=PLANTER.replace("348 N", "W").replace("12 N", "w"))
    assert seen["answer"]["spoken"] == "F = (W + w)/4"
    assert seen["wheels"] == [{"way": "ideal", "says": "(W + w)/4"}]


def test_names_of_the_spoken_parts() -> None:
    said = {part["id"]: part["says"] for part in ask("see", text=PLANTER)["parts"]}
    assert said["upper"] == "upper, block aloft, 2 wheels, holds 450 newtons"
    assert said["lower"] == "lower, block below, 2 wheels, weighs 12 newtons, carries planter"
    assert said["planter"] == "planter, load, 348 newtons, on lower"
    assert said["hand"] == "hand on fall, pulls 90 newtons down"
    assert said["upper.1"] == "upper.1, wheel of upper, fall goes over it, strands 2 and 3"
    assert said["fall:2"] == "strand 2 of fall, from lower.1 up to upper.1, pulls 90 newtons"


# -- bad requests, bad texts ------------------------------------------------------------------------------------------


def test_a33_every_bad_text_of_the_stock_is_answered_with_its_line(served: Inside) -> None:
    stock = corpus(TESTS / "notation" / "bad.txt")
    assert len(stock) > 100
    for bad in stock:
        reply = served.send("/api/see", {"text": bad.text})
        assert reply.status == 422, bad.text
        told = {(each["code"], each["line"], each["column"]) for each in reply.json()["problems"]}
        assert set(bad.expected) <= told


HOSTILE: list[bytes] = [
    b"", b"null", b"[]", b"{}", b'{"text": 5}', b'{"text": "", "more": 1}', b"{" * 5000,
    b"[" * 200_000, b'{"text": "a", "view": "nothing"}', b'{"text": "a", "view": "ask"}', b"\xff\xfe",
    b'{"text": "a", "lit": ["nobody"], "way": "up"}', b'{"text": "a", "what_if": {"a": 1}}', b'{"text": 1e999}',
    b'{"text": "a", "step": {"method": "count", "id": "x", "y": 1}}', b'{"text":"a"}garbage',
]  # fmt: skip


@pytest.mark.parametrize("task", [task for task in TASKS if task not in ("thumbnail", "gains", "export")])
def test_what_is_no_request_is_refused_with_a_sentence(served: Inside, task: str) -> None:
    for body in HOSTILE:
        reply = served.raw("POST", f"/api/{task}", [("host", "127.0.0.1:8347"), COOKIE, *OWN], body)
        assert reply.status in (400, 422), (body[:40], reply.body[:200])


def test_unknown_parts_methods_and_steps_are_said(served: Inside) -> None:
    asked = [
        ("see", {"lit": ["nobody"]}), ("account", {"method": "guess"}), ("present", {"method": "guess"}),
        ("see", {"step": {"method": "guess", "id": "x"}}),
    ]  # fmt: skip
    for task, more in asked:
        reply = served.send(f"/api/{task}", {"text": PLANTER, **more})
        assert reply.status == 400
        assert reply.json()["says"][0].isupper()
    seen = served.send("/api/see", {"text": PLANTER, "step": {"method": "count", "id": "nowhere"}}).json()
    assert (seen["svg"], bool(seen["undrawn"])) == ("", True)


def test_what_takes_too_long_is_stopped_and_the_next_is_answered(
    served: Inside, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(workers.SECONDS, "account", 0.0001)
    reply = served.send("/api/account", {"text": PLANTER})
    assert reply.status == 422
    assert "was stopped" in reply.json()["says"]
    assert served.send("/api/see", {"text": PLANTER}).status == 200


def test_a_worker_that_died_is_replaced(served: Inside) -> None:
    assert served.send("/api/see", {"text": PLANTER}).status == 200
    for process in list(served.workers._all):
        process.kill()
    assert served.send("/api/see", {"text": PLANTER}).status in (200, 500)
    assert served.send("/api/see", {"text": PLANTER}).status == 200


# -- handing out ------------------------------------------------------------------------------------------------------


def test_what_is_handed_out_tells_what_it_makes_first(served: Inside) -> None:
    lines = served.send("/api/export", {"text": PLANTER, "what": "page", "name": "planter"}).body.splitlines()
    *told, made = [json.loads(line) for line in lines]
    assert [line["says"] for line in told] == ["composing", "writing the page"]
    assert (made["name"], made["type"]) == ("planter.html", "text/html")


@pytest.mark.parametrize("what", ["svg", "png", "answer"])
def test_figures_and_answers_are_handed_out(what: str) -> None:
    from base64 import b64decode

    made = ask("export", text=PLANTER, what=what, name="p", view="cut")
    data = b64decode(made["data"])
    start = {"svg": b"<svg", "png": b"\x89PNG", "answer": b"{\n"}[what]
    assert data.startswith(start)
    assert made["name"] == {"svg": "p-cut.svg", "png": "p-cut.png", "answer": "p-answer.json"}[what]


def test_the_lesson_is_handed_out_packed_and_the_same_twice() -> None:
    import zipfile
    from base64 import b64decode

    one, two = (ask("export", text=PLANTER, what="lesson", name="planter") for _ in range(2))
    assert one == two
    with zipfile.ZipFile(io.BytesIO(b64decode(one["data"]))) as packed:
        assert {"planter/index.html", "planter/worked.pdf", "planter/script.md"} <= set(packed.namelist())
        assert all(name.startswith("planter/") and ".." not in name for name in packed.namelist())


@pytest.mark.parametrize("name", ["../x", "a/b", "", ".x", "CON", "x\ny", "x" * 300])
def test_names_of_what_is_handed_out_stay_names(name: str) -> None:
    with pytest.raises(Refused):
        ask("export", text=PLANTER, what="answer", name=name)


def test_a_rig_with_problems_is_not_handed_out(served: Inside) -> None:
    reply = served.send("/api/export", {"text": "fixed a sheaves"})
    assert "Mend line 1 first" in json.loads(reply.body.splitlines()[-1])["refused"]


# -- the shelf --------------------------------------------------------------------------------------------------------


def test_the_shelf_is_whole(served: Inside) -> None:
    rigs = served.get("/api/shelf").json()["rigs"]
    assert [rig["name"] for rig in rigs] == sorted(path.stem for path in SHELF)
    assert all(rig["teaches"] and rig["wrong_ideas"] and rig["text"] for rig in rigs)


def test_thumbnails_are_drawn_in_both_grounds(served: Inside) -> None:
    light, dark = (served.get(f"/shelf/planter?theme={theme}") for theme in ("light", "dark"))
    assert light.headers["content-type"].startswith("image/svg+xml")
    assert light.body.startswith(b"<svg")
    assert light.body != dark.body
    assert served.get("/shelf/planter?theme=loud").status == 400
    assert served.get("/shelf/nobody").status == 404


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_every_given_can_be_tried_by_its_name(path: Path) -> None:
    seen = ask("see", text=text_of(path))
    for given in seen["givens"]:
        if given["number"]:
            tried = ask("see", text=text_of(path), what_if={given["id"]: f"{given['number']} {given['unit']}"})
            assert tried["problems"] == [], given
            assert tried["record"] == seen["record"], given


def test_a_mistake_of_ours_is_said_and_the_worker_goes_on() -> None:
    kind, data = worker._answer("nothing", b"", io.BytesIO())
    assert kind == worker.REFUSED
    assert json.loads(data)["status"] == 500
    assert "not of yours (KeyError)" in json.loads(data)["says"]
