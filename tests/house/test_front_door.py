"""What `import gantline` offers: complete, alphabetical, typed, documented."""

import ast
import inspect

import pytest
from places import DOCS, SOURCE

import gantline


def test_the_names_are_sorted_and_all_there() -> None:
    assert sorted(gantline.__all__) == gantline.__all__
    assert dir(gantline) == gantline.__all__


def test_type_checkers_see_the_same_names() -> None:
    tree = ast.parse((SOURCE / "__init__.py").read_text(encoding="utf-8"))
    aliases = {alias.asname for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) for alias in node.names}
    assert aliases - {None} == set(gantline.__all__) - {None}


@pytest.mark.parametrize("name", gantline.__all__)
def test_each_is_documented_where_it_stands_and_in_the_docs(name: str) -> None:
    assert inspect.getdoc(getattr(gantline, name))
    assert f"gantline.{name}" in (DOCS / "python.md").read_text(encoding="utf-8")


def test_what_is_not_there_says_so() -> None:
    with pytest.raises(AttributeError, match="no attribute 'rigg'"):
        gantline.rigg  # noqa: B018


def test_a_folder_that_is_loaded_does_not_hide_the_function_of_its_name() -> None:
    import gantline.bench
    import gantline.lesson

    assert inspect.isfunction(gantline.bench)
    assert inspect.isfunction(gantline.lesson)
    assert gantline.bench is gantline.api.bench
