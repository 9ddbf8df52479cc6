"""Where the house's checks look."""

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "gantline"
SHELF = SOURCE / "shelf"
DOCS = ROOT / "docs"


@cache
def modules() -> dict[str, ast.Module]:
    """Every module of the package, parsed, by its path below the package."""
    return {
        str(path.relative_to(SOURCE)): ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(SOURCE.rglob("*.py"))
        if "assets" not in path.parts
    }


def imports(tree: ast.AST) -> list[str]:
    """The modules a syntax tree imports anywhere in it; relative ones with their dots."""
    names: list[str] = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names.append("." * node.level + (node.module or ""))
    return names
