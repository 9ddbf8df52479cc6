"""Making on the plate, in a real browser: by pointing, by keys alone, and that the focus is never lost."""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from browsing import Window, words
from handmade import SHELF
from playwright.sync_api import Page

from gantline.loft.making import tag

sys.path.insert(0, str(Path(__file__).parents[1] / "output"))

from axe import violations

TWOFOLD = """\
fixed    upper   sheaves 2
moving   lower   sheaves 2, carries sack
load     sack    weight W
rope     fall:   upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
"""
Open = Callable[..., Window]


def settled(page: Page) -> None:
    """Waits until the plate has answered and shows it."""
    page.wait_for_selector(".plate-doc:not([aria-busy])")
    page.wait_for_function("() => document.getElementById('plate').querySelector('li')")


def place(page: Page, id: str) -> Any:
    """The tag of an offered place, once it is there."""
    return page.locator(f'li[data-place="{id}"]')


def focused(page: Page) -> str:
    """The part or place that has the focus; fails where nothing has."""
    found: str = page.evaluate(
        "() => { const e = document.activeElement; return e === document.body ? 'BODY' :"
        " e.dataset.part || e.dataset.place || e.textContent || e.tagName; }"
    )
    assert found != "BODY"
    return found


def on_part(page: Page, id: str) -> None:
    page.wait_for_function("id => document.activeElement.dataset.part === id", arg=id)


def from_nothing(page: Page) -> None:
    page.get_by_role("button", name="From nothing").click()
    place(page, "upper").wait_for()


def said(page: Page, text: str) -> None:
    page.wait_for_function("text => document.getElementById('line').textContent.includes(text)", arg=text)


def test_a_twofold_tackle_from_nothing_by_seven_clicks(window: Open) -> None:
    page = window().open("")
    clicks = 0
    page.get_by_role("button", name="From nothing").click()
    clicks += 1
    for id in ("upper", "under lower.1", "over upper.1", "under lower.2", "over upper.2", "hand"):
        place(page, id).wait_for()
        settled(page)
        ring = page.locator(f'circle.hit[data-place="{id}"]') if "." in id else place(page, id)
        box = ring.bounding_box()
        assert box
        page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
        if "." in id:  # pointing lays the rope in, and the slip's words grow
            page.wait_for_selector(".coming")
            assert f", {id}" in page.locator("#editor .ghost").inner_text()
        page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
        clicks += 1
    on_part(page, "fall")
    assert clicks == 7
    assert words(page).strip() == TWOFOLD.strip()
    said(page, "fall is rove: 5 strands, 4 on the sack. Pull W/4.")
    assert page.get_by_role("button", name="Reeve another").is_visible()
    assert page.locator("#formula").inner_text().split() == ["𝐹", "=", "𝑊", "4"]


def test_a_single_burton_by_eighteen_keys(window: Open) -> None:
    """Keys pressed as fast as they come: none is lost while the loft answers."""
    page = window().open("")
    page.get_by_role("button", name="From nothing").focus()
    keys = 0

    def press(*names: str) -> None:
        nonlocal keys
        for name in names:
            page.keyboard.press(name)
            keys += 1

    press("Enter")
    place(page, "upper").wait_for()
    press("ArrowRight", "ArrowRight", "Enter", "Enter", "End", "Enter")
    on_part(page, "lift")
    page.get_by_role("button", name="Reeve another").wait_for()
    press("Shift+Tab")
    assert focused(page) == "Reeve another"
    press("Enter")
    place(page, "sack").wait_for()
    press("ArrowRight", "ArrowRight", "Enter", "Enter", "ArrowRight", "Enter")
    on_part(page, "fall")
    said(page, "Pull W/3")
    press("PageDown")
    on_part(page, "sack")
    press("F2")
    page.keyboard.type("468 N")  # a typed number with its Enter is one
    page.keyboard.press("Enter")
    keys += 1
    said(page, "Pull 156 newtons")
    on_part(page, "sack")
    assert keys <= 19
    assert words(page).splitlines()[-2:] == [
        "rope     lift:   sack, over upper.1, mid",
        "rope     fall:   sack, over mid.1, hand",
    ]


def test_the_plate_is_one_stop_and_every_part_is_reached_by_arrows(window: Open) -> None:
    page = window().open("planter")
    all_parts = set(page.locator(".part").evaluate_all("all => all.map((e) => e.dataset.part)")) - {"fall"}
    reached, left = {"upper"}, ["upper"]
    while left:
        here = left.pop()
        for key in ("ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"):
            page.locator(f'.part[data-part="{here}"]').focus()
            page.keyboard.press(key)
            there = focused(page)
            assert page.locator("#plate [role=option][tabindex='0']").count() == 1
            if there not in reached:
                reached.add(there)
                left.append(there)
    assert reached == all_parts
    page.locator('.part[data-part="hand"]').focus()
    page.keyboard.press("ArrowRight")
    said(page, "Nothing further right.")
    page.keyboard.press("Home")
    assert focused(page) == "upper"
    page.keyboard.press("End")
    assert focused(page) == "hand"
    page.keyboard.press("Tab")
    assert not page.evaluate("document.getElementById('plate').contains(document.activeElement)")


def test_parts_and_places_have_their_spoken_names(window: Open) -> None:
    page = window().open("planter")
    plate = page.locator('#plate [role~="graphics-document"]')
    assert plate.get_attribute("aria-label") == "Plate: Planter onto the roof terrace, labelled"
    parts = page.get_by_role("listbox", name="Parts of the rig").get_by_role("option")
    names = parts.evaluate_all("all => all.map((e) => e.getAttribute('aria-label'))")
    assert {"upper.1, wheel of upper, fall goes over it, strands 2 and 3", "planter, load, 348 newtons, on lower",
            "strand 2 of fall, from lower.1 up to upper.1, pulls 90 newtons"} <= set(names)  # fmt: skip
    assert page.locator("#plate li [tabindex]").count() == 0  # nothing to focus within an option
    page.locator('.part[data-part="fall:2"]').focus()
    page.keyboard.press("Enter")
    page.get_by_role("menuitem", name="Take out from here").click()
    place(page, "over upper.1").wait_for()
    places = page.get_by_role("listbox", name="Places for rope fall, 6").get_by_role("option")
    spoken = places.evaluate_all("all => all.map((e) => e.getAttribute('aria-label'))")
    assert spoken[0] == "over upper.1, free wheel of upper, turns down again, F = 180\u00a0N if it is hauled there"
    assert spoken[2].startswith("over a new sheave of upper, F = ")
    assert spoken[3].startswith("hand, hauling up, ends the rope, F = ")
    assert spoken[4:] == ["make fast to upper, ends the rope", "make fast to the beam, ends the rope"]


def test_page_keys_walk_along_the_rope(window: Open) -> None:
    page = window().open("planter")
    page.locator('.part[data-part="upper"]').focus()
    way = [focused(page)]
    for _ in range(10):
        page.keyboard.press("PageDown")
        way.append(focused(page))
    wheels = ["lower.1", "upper.1", "lower.2", "upper.2", "hand"]
    assert way == ["upper", *(id for n, wheel in enumerate(wheels, 1) for id in (f"fall:{n}", wheel))]
    page.keyboard.press("PageDown")
    assert focused(page) == "hand"
    assert "The rope ends here." in page.inner_text("#line")
    page.keyboard.press("PageUp")
    assert focused(page) == "fall:5"


def verbs() -> list[tuple[str, str]]:
    """Every command that the mouse has in a tag, each once: (part, words). From the code, so that none is forgotten."""
    found: dict[str, str] = {}
    for of in ("upper", "lower", "planter", "lower.1", "fall:3", "hand"):
        for verb in tag(SHELF["planter"], of).verbs:
            if verb.do and not verb.why:
                found.setdefault(verb.words, of)
    return [(of, said) for said, of in found.items()]


def test_every_command_of_the_mouse_has_its_keys_and_gives_the_same_text(window: Open) -> None:
    page = window().open("planter")
    home = words(page)
    for of, name in verbs():
        texts = []
        for by_key in (False, True):
            option = page.locator(f'.part[data-part="{of}"]')
            if by_key:
                option.focus()
                page.keyboard.press("Shift+F10")
                page.get_by_role("menu").wait_for()
                while page.evaluate("document.activeElement.firstChild?.textContent") != name:
                    page.keyboard.press("ArrowDown")
                page.keyboard.press("Enter")
            else:
                option.dispatch_event("click")  # parts lie over each other: this one is meant
                page.get_by_role("menuitem", name=name, exact=True).click()
            page.wait_for_function("() => !document.getElementById('undo').hasAttribute('aria-disabled')")
            settled(page)
            texts.append(words(page))
            focused(page)
            if page.locator(".place").count():
                page.keyboard.press("Escape")
            page.keyboard.press("Control+z")
            page.wait_for_function("() => document.getElementById('undo').hasAttribute('aria-disabled')")
            page.wait_for_selector(f'.part[data-part="{of}"]')
            focused(page)
        assert texts[0] == texts[1] != home, name
        assert words(page) == home


@pytest.mark.parametrize(("word", "choice", "line"), [
    ("Add a block", "Aloft, on the beam", "fixed    top      sheaves 1"), ("Add a sheave", "On lower", "sheaves 3"),
    ("Hang a load", "By itself", "load     sack"),
])  # fmt: skip
def test_the_words_of_make_ask_where_and_do_it_by_keys(window: Open, word: str, choice: str, line: str) -> None:
    page = window().open("planter")
    page.get_by_role("button", name=word).focus()
    page.keyboard.press("Enter")
    page.get_by_role("menu").wait_for()
    while page.evaluate("document.activeElement.firstChild?.textContent") != choice:
        page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_function("() => !document.getElementById('undo').hasAttribute('aria-disabled')")
    assert line in words(page)
    settled(page)
    focused(page)


def test_what_is_taken_away_leaves_the_focus_on_its_neighbour(window: Open) -> None:
    page = window().open("planter")
    home = words(page)
    page.locator('.part[data-part="lower.2"]').focus()
    page.keyboard.press("Delete")
    said(page, "fall")
    on_part(page, "lower")
    assert "lower    sheaves 1" in words(page)
    page.keyboard.press("Control+z")
    page.wait_for_function("() => document.getElementById('undo').hasAttribute('aria-disabled')")
    page.wait_for_selector('.part[data-part="lower.2"]')
    assert focused(page) == "lower"
    assert words(page) == home


def test_a_number_is_changed_where_it_stands_and_a_wrong_one_says_why(window: Open) -> None:
    page = window().open("planter")
    home = words(page)
    page.locator('.part[data-part="planter"]').focus()
    page.keyboard.press("F2")
    field = page.locator(".plate-field input")
    assert field.input_value() == "348 N"
    page.keyboard.press("ArrowUp")
    assert field.input_value() == "349 N"
    field.fill("9")
    page.keyboard.press("Enter")
    told = page.locator(".plate-field .field-says")
    told.get_by_text("without a unit").wait_for()
    assert field.evaluate("input => input === document.activeElement")
    field.fill("468 N")
    page.keyboard.press("Enter")
    said(page, "Pull 120 newtons")
    on_part(page, "planter")
    assert words(page) == home.replace("348 N", "468 N")
    page.locator('.dotted[data-given="planter.weight"]').click()
    page.locator(".plate-field input").wait_for()
    page.keyboard.press("Escape")
    on_part(page, "planter")


def test_a_rope_left_lying_is_taken_up_again(window: Open) -> None:
    page = window().open("")
    from_nothing(page)
    place(page, "upper").click()
    place(page, "under lower.1").click()
    place(page, "over upper.1").wait_for()
    page.keyboard.press("Backspace")
    place(page, "under lower.1").wait_for()
    assert "lower" not in words(page)
    page.keyboard.press("Enter")
    place(page, "over upper.1").wait_for()
    page.keyboard.press("Escape")
    said(page, "rope fall ends at a sheave")
    on_part(page, "fall")
    assert "rope     fall:   upper, under lower.1" in words(page)
    page.locator('.part[data-part="fall:1"]').click()
    page.get_by_role("menuitem", name="Lead it on").click()
    place(page, "over upper.1").click()
    place(page, "hand").click()
    on_part(page, "fall")
    said(page, "Pull W/2")


def test_undo_while_a_rope_is_led_goes_back_one_contact(window: Open) -> None:
    page = window().open("")
    from_nothing(page)
    place(page, "upper").click()
    place(page, "under lower.1").click()
    place(page, "over upper.1").wait_for()
    page.keyboard.press("Control+z")
    place(page, "under lower.1").wait_for()
    assert "lower" not in words(page)
    place(page, "hand").click()
    on_part(page, "fall")
    assert "fall:   upper, hand" in words(page)


def test_a_place_that_is_not_offered_says_why(window: Open) -> None:
    page = window().open("planter")
    page.locator('.part[data-part="fall:4"]').dispatch_event("click")
    page.get_by_role("menuitem", name="Take out from here").click()
    place(page, "over upper.2").wait_for()
    wheel = page.locator('#plate circle[data-sheave="upper.1"]').first.bounding_box()
    assert wheel
    page.mouse.click(wheel["x"] + wheel["width"] * 0.85, wheel["y"] + wheel["height"] / 2)
    said(page, "upper.1 already carries fall. A groove takes one rope")
    page.get_by_role("button", name="more places").click()
    assert page.locator(".place .why").count() >= 1


def test_pointing_lights_the_slip_and_the_slip_lights_the_plate(window: Open) -> None:
    page = window().open("planter")
    page.locator('.part[data-part="fall:3"]').hover()
    page.wait_for_function("() => document.getElementById('editor').shadowRoot.querySelector('.lit')")
    lit = page.locator("#editor .lit").evaluate_all("all => all.map((e) => e.textContent).join('')")
    assert "over upper.1, under lower.2" in lit
    assert page.locator(".chalk .band").count() == 1
    page.mouse.move(5, 5)
    page.wait_for_function("() => document.querySelectorAll('.chalk .band').length === 0")
    line = page.locator("#editor .cm-line").nth(2).bounding_box()
    assert line
    page.mouse.click(line["x"] + 100, line["y"] + 10)  # on the name of the lower block
    page.wait_for_function("() => document.querySelectorAll('.chalk .band').length > 0")


def test_space_keeps_a_part_lit_until_it_is_let_go(window: Open) -> None:
    page = window().open("planter")
    page.locator('.part[data-part="upper.1"]').focus()
    page.keyboard.press("Space")
    page.locator('.part[data-part="hand"]').hover()
    assert page.locator('.part[data-part="upper.1"]').get_attribute("aria-selected") == "true"
    page.get_by_role("button", name="Let go").click()
    assert page.locator('.part[aria-selected="true"]').count() == 0


def test_mirroring_turns_the_figure_and_not_the_words(window: Open) -> None:
    page = window().open("planter")
    home = words(page)
    before = page.locator('.part[data-part="hand"]').bounding_box()
    page.get_by_role("button", name="Mirror the plate").click()
    page.wait_for_selector(".stack.mirrored")
    after = page.locator('.part[data-part="hand"]').bounding_box()
    assert before
    assert after
    assert before["x"] > after["x"] + 100
    assert words(page) == home


def test_the_checker_finds_nothing_with_a_tag_open_and_while_reeving(window: Open) -> None:
    page = window().open("planter")
    page.locator('.part[data-part="lower"]').focus()
    page.keyboard.press("Enter")
    page.get_by_role("menu").wait_for()
    assert violations(page) == []
    page.keyboard.press("Escape")
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        page.locator('.part[data-part="fall:2"]').focus()
        page.keyboard.press("Enter")
        page.get_by_role("menuitem", name="Take out from here").click()
        place(page, "over upper.1").wait_for()
        settled(page)
        assert violations(page) == []
        page.keyboard.press("Escape")
        page.keyboard.press("Control+z")
        page.wait_for_selector('.part[data-part="fall:3"]')


@pytest.mark.parametrize(("width", "height"), [(390, 844), (320, 640), (2560, 1300)])
def test_places_and_parts_can_be_hit_at_every_width(window: Open, width: int, height: int) -> None:
    page = window(viewport={"width": width, "height": height}).page
    page.locator("[data-rig=planter]").click()
    page.wait_for_selector(".part")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    parts = page.locator(".part").evaluate_all("all => all.map((e) => [e.offsetWidth, e.offsetHeight])")
    assert min(min(size) for size in parts) >= 24
    page.locator('.part[data-part="fall:2"]').focus()
    page.keyboard.press("Enter")
    page.get_by_role("menuitem", name="Take out from here").click()
    place(page, "over upper.1").wait_for()
    settled(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    boxes = page.locator(".place").evaluate_all("all => all.map((e) => e.getBoundingClientRect().toJSON())")
    assert min(box["height"] for box in boxes) >= 28
    for n, one in enumerate(boxes):
        for other in boxes[n + 1 :]:
            assert (one["right"] <= other["left"] or other["right"] <= one["left"]
                    or one["bottom"] <= other["top"] or other["bottom"] <= one["top"])  # fmt: skip
