"""An accessibility checker's word on an open page."""

from typing import Any

from ready import ROOT

AXE = ROOT / "tools" / "node_modules" / "axe-core" / "axe.min.js"
QUICK = {"resultTypes": ["violations"], "selectors": False}
RULES = QUICK | {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
}
COLOURS = QUICK | {"runOnly": {"type": "rule", "values": ["color-contrast"]}}  # all that another ground can change


def violations(page: Any, rules: dict[str, Any] = RULES) -> list[str]:
    """What the checker finds, each with the place in the page."""
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(AXE.read_text(encoding="utf-8"))  # a page that allows no foreign script lets its reader look in
    found = page.evaluate("rules => axe.run(document, rules)", rules)
    return [
        f"{v['id']}: {node['html'][:160]} {node['failureSummary'][:200]}"
        for v in found["violations"]
        for node in v["nodes"]
    ]
