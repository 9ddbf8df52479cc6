"""Text from a file never becomes markup or script: hostile titles and names, in a browser, in XML, in print."""

import json
from pathlib import Path

import pikepdf
import pytest
from lxml import etree, html
from msgspec.structs import replace
from ready import Open, solved

from gantline.output.lesson_folder import build
from gantline.output.markup import Markup, element

TITLES = [
    "<script>alert(1)</script>",
    "</title><script>alert(2)</script>",
    "</style><img src=x onerror=alert(3)>",
    '"><svg onload=alert(4)>',
    "' onmouseover='alert(5)",
    "--></script><!--",
    "]]><x>",
    "{{7*7}} ${7*7} {F} {0} %s",
    '#set text(red) #eval("1+1") $x$ *bold* @ref',
    "javascript:alert(6)",
    "&lt;b&gt; &amp; &#60;",
    "\u202eevil\u202c and \u0301 combining",
    "a\\",
    "[meet] ## x {#planter}",
    "\ud83d\ude00".encode("utf-16", "surrogatepass").decode("utf-16") + " 重り حِمل",
]
RIG = """title {title}
fixed upper sheaves 1
moving lower sheaves 1, weight 12 N, carries {name}
load {name} weight 348 N
rope fall: lower, over upper, under lower, hand
raise {name} 0.5 m
"""


@pytest.mark.parametrize("title", TITLES)
def test_hostile_title_stays_text(title: str, open_page: Open, tmp_path: Path) -> None:
    rig, answer = solved(RIG.format(title="plain", name="bell"))
    made = build([(replace(rig, title=title), answer)], tmp_path / "lesson")
    page = open_page(made.page)  # it fails by itself on a dialog, a console message, or a request
    assert page.locator("h1").inner_text().split() == title.split()
    assert page.title().split() == title.split()
    page.locator(".next").click()
    folder = made.page.parent
    record = json.loads((folder / "lesson.json").read_text(encoding="utf-8"))
    assert record["rigs"][0]["answer"]["title"] == title
    for svg in (folder / "figures").glob("*.svg"):
        drawing = etree.parse(svg)
        assert {element.tag.split("}")[1] for element in drawing.iter() if isinstance(element.tag, str)} <= {
            "svg", "title", "desc", "style", "rect", "g", "line", "path", "circle", "text", "tspan",
        }  # fmt: skip
    with pikepdf.open(folder / "worked.pdf") as print_:
        assert print_.Root.Lang == "en"


def test_page_has_only_its_own_scripts_and_no_handlers(folder: Path) -> None:
    page = html.fromstring((folder / "index.html").read_text(encoding="utf-8"))
    kinds = [script.get("type") for script in page.iter("script")]
    assert kinds.count(None) == 1
    assert set(kinds) == {None, "application/json"}
    assert [
        name for tag in page.iter() for name in tag.attrib if name.startswith("on") or name in ("src", "style")
    ] == []
    assert all(link.get("href").startswith("#") for link in page.iter("a"))


def test_element_escapes_text_and_attributes() -> None:
    made = element("p", "<b>&\"'</b>", title='"><script>', hidden=False, open=True)
    assert made == '<p title="&quot;&gt;&lt;script&gt;" open>&lt;b&gt;&amp;&quot;&#39;&lt;/b&gt;</p>\n'
    assert element("i", Markup("<b>x</b>"), None, ["y", ("<",)]) == "<i><b>x</b>y&lt;</i>"


def test_policy_forbids_a_script_that_was_smuggled_in(folder: Path, chromium: object, tmp_path: Path) -> None:
    """The page's own policy is the second line: a script it does not know is not run."""
    text = (folder / "index.html").read_text(encoding="utf-8")
    foreign = tmp_path / "foreign.html"
    foreign.write_text(text.replace("</main>", "<script>document.title='run'</script></main>"), encoding="utf-8")
    page = chromium.new_page()  # type: ignore[attr-defined]
    page.goto(foreign.as_uri())
    assert page.title() != "run"
    assert page.locator(".rail:visible").count()
    page.close()
