"""What the shelf tells of rigs: what ready ones gain, and titles and faults of those in the folder."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from browsing import Window
from inside import PLANTER, Inside
from playwright.sync_api import expect

from gantline.loft import listing

STOVE = "title Stove, 2nd floor\nfixed top\nload stove weight 468\nrope r: stove, over top, hand\n"


def rigs(served: Inside) -> dict[str, dict[str, str]]:
    return {rig["name"]: rig for rig in served.get("/api/files").json()["rigs"]}


def test_every_ready_rig_says_what_it_gains_as_its_record_does(served: Inside) -> None:
    told = served.get("/api/shelf").json()["rigs"]
    for rig in told:
        record = served.send("/api/see", {"text": rig["text"]}).json()["record"]
        ideal = record["regimes"].get("ideal", {})
        gained = ideal.get("mechanical_advantage")
        if record["status"] == "holds" and gained and gained["value"] is not None:
            said = rig["gain"].removeprefix("gain ").partition(",")[0]
            assert float(said) == pytest.approx(gained["value"], rel=5e-3), rig["name"]
            if ", rope " in rig["gain"]:
                assert rig["gain"].endswith(f", rope {record['velocity_ratio']['exact']} to 1"), rig["name"]
        else:
            assert rig["gain"]
            assert not rig["gain"].startswith("gain"), rig["name"]
    assert "speeds up" in {rig["gain"] for rig in told}


def test_titles_stand_beside_the_names_and_faults_below(served: Inside) -> None:
    (served.folder / "stove.rig").write_text(STOVE, encoding="utf-8")
    (served.folder / "picture.rig").write_bytes(b"\xff\xd8\xff\xe0")
    (served.folder / "blank.rig").write_text("\n", encoding="utf-8")
    found = rigs(served)
    assert found["planter.rig"]["title"] == "Planter onto the roof terrace"
    assert found["planter.rig"]["wrong"] == found["blank.rig"]["wrong"] == ""
    assert found["stove.rig"]["title"] == "Stove, 2nd floor"
    assert found["stove.rig"]["wrong"].startswith("Line 3: ")
    assert found["picture.rig"]["wrong"] == "The file is no text: it is not UTF-8."


def test_a_file_is_looked_through_again_only_when_it_has_changed(
    served: Inside, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked: list[str] = []
    read = listing._read
    monkeypatch.setattr(listing, "_read", lambda *given: (looked.append(given[1]), read(*given))[1])
    rigs(served)
    rigs(served)
    assert looked == ["planter.rig"]
    (served.folder / "planter.rig").write_text(PLANTER.replace("Planter onto", "Planters onto"), encoding="utf-8")
    assert rigs(served)["planter.rig"]["title"].startswith("Planters")
    (served.folder / "planter.rig").unlink()
    assert rigs(served) == {}


def test_a_folder_whose_name_is_no_text_is_opened(tmp_path: Path) -> None:
    folder = Path(os.fsdecode(os.fsencode(tmp_path) + b"/rigs of \xff"))
    folder.mkdir()
    (folder / "planter.rig").write_text(PLANTER, encoding="utf-8")
    served = Inside(folder)
    try:
        assert served.get("/").status == 200
        assert served.get("/api/files").json()["folder"] == "rigs of \ufffd"
    finally:
        served.close()


def test_a_folder_of_thousands_is_listed_by_name(served: Inside, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(listing, "MOST", 1)
    (served.folder / "stove.rig").write_text(STOVE, encoding="utf-8")
    found = rigs(served)
    assert found["planter.rig"]["title"]
    assert found["stove.rig"]["title"] == found["stove.rig"]["wrong"] == ""


def test_the_page_shows_gains_titles_and_faults(window: Callable[..., Window], folder: Path) -> None:
    (folder / "stove.rig").write_text(STOVE, encoding="utf-8")
    os.utime(folder / "stove.rig", (1.79e9, 1.79e9))
    page = window().open("")
    row = page.locator("#files [data-key='stove.rig']")
    expect(row.locator(".name")).to_have_text("Stove, 2nd floor")
    expect(row.locator(".file-name")).to_have_text("stove.rig")
    expect(row.locator("time")).to_have_text("21 Sept")
    expect(row.locator(".wrong")).to_contain_text("Line 3: ")
    expect(page.locator("[data-rig=planter] .gain")).to_have_text("gain 3.87, rope 4 to 1")
    page.locator("#teach").fill("rope 4 to 1")
    page.wait_for_function("() => document.querySelectorAll('.rig-card').length < 30")
    shown = page.locator(".rig-card:not(.nothing)")
    assert shown.count() > 3
    assert all("rope 4 to 1" in text for text in shown.locator(".gain").all_inner_texts())
    row.click()
    page.wait_for_selector("#card:not([hidden])")
