"""The bench plan as a page that needs nothing from anywhere; the print that is sure to fit a sheet is `bench_pdf`."""

from gantline.bench import Sheet, Table

from .document import document, packaged
from .markup import Markup, element
from .plates import plate


def write(sheet: Sheet) -> str:
    """The whole page. The same sheet gives the same text."""
    body = [
        element("header", element("p", "Bench plan", class_="running"), class_="head"),
        element("main", _opening(sheet), _tables(sheet), _to_do(sheet), _laws(sheet), class_="plan"),
        element("footer", element("p", sheet.general)),
    ]
    return document(f"{sheet.title}: bench plan", packaged("style.css") + packaged("bench.css"), "", body)


def _opening(sheet: Sheet) -> Markup:
    facts = [element("div", element("dt", name), element("dd", says)) for name, says in sheet.facts]
    figure = element("figure", plate(sheet.scene, "rig-"), class_="plate-figure") if sheet.scene else None
    return element(
        "div", element("div", element("h1", sheet.title), element("p", sheet.lead, class_="lead"),
                       element("dl", facts, class_="facts")),
        figure, class_="opening-plan" if sheet.scene else "opening-plan bare",
    )  # fmt: skip


def _tables(sheet: Sheet) -> Markup:
    left = element("div", _table(sheet.readings, "readings"), _table(sheet.anchors, "anchors"))
    return element("div", left, _table(sheet.marks, "marks"), class_="figures")


def _to_do(sheet: Sheet) -> Markup:
    steps = [element("li", step) for step in sheet.steps]
    cautions = [element("li", caution.says, data_source=caution.source) for caution in sheet.cautions]
    return element(
        "div",
        _list("Step by step", "steps", steps), _list("Before anything hangs", "before", cautions), class_="to-do",
    )  # fmt: skip


def _list(title: str, name: str, items: list[Markup]) -> Markup:
    heading = element("h2", title, id=f"{name}-h")
    return element("section", heading, element("ol", items), aria_labelledby=f"{name}-h")


def _laws(sheet: Sheet) -> Markup:
    return _table(sheet.laws, "laws")


def _table(table: Table, name: str) -> Markup:
    """A table under its heading. It can be scrolled where the page is narrow, and so can be reached by key."""
    first, *others = table.head
    corner = element("th", first, scope="col") if first else element("td")
    head = element("tr", corner, [element("th", column, scope="col") for column in others])
    rows = [
        element("tr", element("th", row[0], scope="row"), [element("td", cell) for cell in row[1:]])
        for row in table.rows
    ]
    inside = element("table", element("thead", head), element("tbody", rows), aria_labelledby=f"{name}-h")
    return element(
        "section", element("h2", table.caption, id=f"{name}-h"),
        element("div", inside, class_="wide", tabindex="0", role="region", aria_labelledby=f"{name}-h"),
        element("p", table.note, class_="note"), class_=name, aria_labelledby=f"{name}-h",
    )  # fmt: skip
