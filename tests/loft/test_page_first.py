"""The first page: what a browser has to ask for until it stands, and what it is told with it."""

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from browsing import Window
from inside import Inside

from gantline.loft import pages
from gantline.loft.joining import script, sheet

MOST = 9  # files: the page, its sheet, its script, the editor, and the faces that are seen at once
HOSTILE = "title </script><script>alert(1)</script><!-- <script>\n"


def test_a_few_files_are_asked_for_until_the_page_stands(window: Callable[..., Window]) -> None:
    opened = window()
    asked: list[str] = []
    opened.page.on("request", lambda request: asked.append(request.url.removeprefix(opened.address)))
    opened.page.reload()
    opened.ready()
    own = [path for path in asked if not path.startswith(("shelf/", "api/"))]  # what is asked once it stands
    assert {"", "page/loft.css", "page/loft.js", "assets/codemirror.js"} <= set(own)
    assert len(own) <= MOST


def test_no_small_figure_is_asked_for_before_it_can_be_seen(window: Callable[..., Window]) -> None:
    opened = window(viewport={"width": 390, "height": 844})
    asked: list[str] = []
    opened.page.on("request", lambda request: asked.append(request.url))
    opened.page.reload()
    opened.ready()
    opened.page.wait_for_load_state("networkidle")
    figures = [url for url in asked if "/shelf/" in url]
    assert 0 < len(figures) < opened.page.locator(".rig-card img").count() / 2


def test_the_page_says_with_itself_what_there_is(served: Inside) -> None:
    begun = _begun(served.get("/").body)
    assert begun["files"] == {"folder": served.folder.name, "opened_on": "planter.rig", "files": ["planter.rig"]}
    assert begun["file"] == served.get("/api/file?name=planter.rig").json()
    assert {"planter", "single-fixed"} <= {rig["name"] for rig in begun["shelf"]}
    assert {"fixed", "moving", "load", "rope"} <= set(begun["words"]["statements"])


def test_a_file_cannot_end_the_words_it_stands_in(served: Inside) -> None:
    (served.folder / "planter.rig").write_text(HOSTILE, encoding="utf-8")
    body = served.get("/").body
    assert body.count(b"</script>") == pages.source(pages.START).count("</script>")
    assert _begun(body)["file"]["text"] == HOSTILE


def test_a_file_that_has_gone_is_no_hindrance(served: Inside) -> None:
    (served.folder / "planter.rig").unlink()
    assert _begun(served.get("/").body)["file"] is None


def _begun(body: bytes) -> Any:
    found = re.search(rb'<script type="application/json" id="begun">(.*?)</script>', body, re.S)
    assert found
    return json.loads(found[1])


def test_a_script_has_all_it_imports_each_once_and_in_order() -> None:
    files = {
        "a.js": "import { b as other } from './b.js';\nimport { c } from './c-d.js';\nexport const a = other + c;\n",
        "b.js": "// What b is for.\nimport { c } from './c-d.js';\nexport function b() { return c; }\n",
        "c-d.js": "const own = 1, other = 2;\nexport { own, other };\nexport class c {}\n",
    }
    whole = script("a.js", files.__getitem__)
    assert [whole.count(name) for name in ("const $a =", "const $b =", "const $c_d =")] == [1, 1, 1]
    assert whole.index("const $c_d") < whole.index("const $b") < whole.index("const $a")
    assert "const { b: other } = $b;" in whole
    assert "return { own, other, c };" in whole
    assert "What b is for" not in whole
    assert re.findall(r"^(?:import|export)\b.*", whole, re.M) == ["export const { a } = $a;"]


def test_modules_that_need_each_other_are_named() -> None:
    files = {"a.js": "import { b } from './b.js';\n", "b.js": "import { a } from './a.js';\n"}
    with pytest.raises(ValueError, match=r"a\.js imports b\.js imports a\.js"):
        script("a.js", files.__getitem__)


@pytest.mark.parametrize("name", sorted(path.name for path in Path(pages.__file__).parent.glob("page/*.js")))
def test_every_script_of_the_page_can_be_sent_whole(name: str) -> None:
    left = re.findall(r"^(?:import|export)\b.*", script(name, pages.source), re.M)
    assert all(line.endswith(f"= ${name[:-3].replace('-', '_')};") for line in left)
    assert len(left) <= 1


def test_a_sheet_has_those_it_imports_in_their_order() -> None:
    whole = sheet("loft.css", pages.source)
    assert "@import" not in whole
    assert whole.index("--plate-ink") < whole.index("@font-face") < whole.index(".foot{display:grid")
