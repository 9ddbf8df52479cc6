"""An accessibility checker's word on an open page."""

from typing import Any

from ready import ROOT

AXE = ROOT / "tools" / "node_modules" / "axe-core" / "axe.min.js"
RULES = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
}


def violations(page: Any) -> list[str]:
    """What the checker finds, each with the place in the page."""
    page.evaluate(AXE.read_text(encoding="utf-8"))  # a page that allows no foreign script still lets its reader look in
    found = page.evaluate("rules => axe.run(document, rules)", RULES)
    return [
        f"{v['id']}: {node['html'][:160]} {node['failureSummary'][:200]}"
        for v in found["violations"]
        for node in v["nodes"]
    ]
