"""The lab report as one page that needs nothing from anywhere."""

from gantline.bench import Report, Table

from .document import document, packaged, player
from .markup import Markup, element
from .plates import plate

_PLACES = (("results", "Results"), ("readings", "Readings"), ("budget", "Budget"), ("improve", "What to improve"))


def write(report: Report) -> str:
    """The whole page. The same report gives the same text."""
    body = [
        element("a", "Skip to the report", href="#main", class_="skip"),
        _header(),
        element("main", *_sections(report), id="main", class_="lab"),
        element("footer", element("p", "Made by Gantline from a rig in words and a table of readings.")),
    ]
    style = packaged("style.css") + packaged("lab.css")
    return document(f"{report.title}: lab report", style, player(), body)


def _header() -> Markup:
    links = element("ul", [element("li", element("a", name, href=f"#{id}")) for id, name in _PLACES])
    return element(
        "header",
        element("p", "Gantline lab report", class_="running"),
        element("nav", links, class_="places", aria_label="Contents of this page"),
        element("button", "Dark page", type="button", class_="quiet ground", hidden=True),
        class_="head",
    )


def _sections(report: Report) -> list[Markup]:
    plots = [
        element("figure", plate(scene, f"plot-{n}-"), class_="plate-figure") for n, scene in enumerate(report.plots)
    ]
    improve = element("ol", [element("li", words) for words in report.improve], class_="numbered")
    cautions = [element("li", caution.says, data_source=caution.source) for caution in report.cautions]
    return [
        _results(report),
        element("section", element("h2", "Readings"), element("div", plots, class_="plots"), _table(report.readings),
                element("p", report.accounting, class_="aside"), _table(report.refused), id="readings"),
        element("section", element("h2", "A second way to the same number"), element("p", report.ratio),
                element("div", _table(report.pairs), _table(report.lines), class_="pair"), id="ratio"),
        element("section", element("h2", "Budget of uncertainty"), _table(report.budget), id="budget"),
        element("section", element("h2", "What would improve this most"), improve,
                element("h3", "Before anything hangs again"), element("ol", cautions, class_="numbered"),
                element("p", report.general, class_="note"), id="improve"),
        element("section", element("h2", "How this was worked out"),
                element("ul", [element("li", words) for words in (*report.told, *report.how)], class_="how")),
    ]  # fmt: skip


def _results(report: Report) -> Markup:
    """The result in a sentence, what must be known before it is used, the rig, and the numbers."""
    scene = report.scene
    words = element("div", element("h1", report.title), element("p", report.lead, class_="standfirst"),
                    [element("p", note, class_="aside") for note in report.notes], _table(report.results))  # fmt: skip
    figure = element("figure", plate(scene, "rig-"), class_="plate-figure") if scene else None
    return element("section", element("div", words, figure, class_="opening-of"), id="results", class_="results-of")


def _table(table: Table | None) -> Markup | None:
    """A table that can be scrolled where the page is narrow, and so can be reached by key."""
    if table is None:
        return None
    head = element("tr", [_heading(name) for name in table.head])
    rows = [
        element("tr", element("th", row[0], scope="row"), [element("td", cell) for cell in row[1:]])
        for row in table.rows
    ]
    whole = element("table", element("caption", table.caption), element("thead", head), element("tbody", rows))
    note = element("p", table.note, class_="note") if table.note else None
    plain = " plain" if table.rows and len(table.rows[0]) == 2 else ""
    return element(
        "div",
        element("div", whole, class_=f"wide{plain}", tabindex="0", role="region", aria_label=table.caption),
        note,
        class_="tabled",
    )


def _heading(name: str) -> Markup:
    return element("th", name, scope="col") if name else element("td", "")
