"""Sweeps: the closed form of an answer, compiled once and worked out over arrays."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from gantline.quantity import Formula, Number, Power, Product, Quotient, Sum, Symbol, symbols
from gantline.rig import Rig

from .answer import Answer, Value
from .solver import solve

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]


def sweep(rig: Rig, over: Mapping[str, "Array"], want: tuple[str, ...] = ("effort",)) -> dict[str, "Array"]:
    """Float arrays of answers for arrays of givens (SI), one call whatever their length.

    `over` maps symbols of the rig to arrays that broadcast together; all other givens keep their numbers. `want` names
    what is asked: "effort", "advantage", "load", a strand ("fall:1"), or "acceleration:NAME"; "raising.effort" and the
    like for the regimes with loss. The formulas are those of the rig as it stands: they hold for every variant in which
    the rig still runs the same way. Raises KeyError for a symbol or a quantity the rig has not, ValueError for one
    without a formula.
    """
    answer = solve(rig)
    known = {symbol: given.number for symbol, given in answer.givens}
    for symbol in over:
        if symbol not in known:
            raise KeyError(symbol)
    return {name: _worked(_wanted(answer, name), over, known) for name in want}


def _wanted(answer: Answer, name: str) -> Formula:
    way, _, quantity = name.rpartition(".")
    regime = answer.regime(way or "ideal")  # type: ignore[arg-type]
    if regime is None:
        raise KeyError(name)
    found: Value | None
    if quantity in ("effort", "load"):
        found = getattr(regime, quantity)
    elif quantity == "advantage":
        found = regime.mechanical_advantage
    elif quantity.startswith("acceleration:"):
        part = quantity.partition(":")[2]
        found = next((m.acceleration for m in regime.motions if m.name == part), None)
    else:
        found = regime.tension(quantity)
    if found is None or found.formula is None:
        raise ValueError(name)
    return found.formula


def _worked(formula: Formula, over: Mapping[str, "Array"], known: Mapping[str, Fraction | None]) -> "Array":
    import numpy as np

    used = symbols(formula)
    given: dict[str, Any] = {}
    for symbol in used:
        number = known[symbol]
        if symbol not in over and number is None:
            raise KeyError(symbol)
        given[symbol] = over[symbol] if symbol in over else float(number or 0)
    shape = np.broadcast_shapes(*(np.shape(array) for array in over.values()))
    result = _compiled(formula)(given)
    return result if np.shape(result) == shape else np.broadcast_to(result, shape).copy()


def _compiled(formula: Formula) -> Callable[[Mapping[str, Any]], Any]:
    """The formula as nested calls over floats and arrays; parts that hang on no array stay numbers throughout."""
    match formula:
        case Number(number):
            plain = float(number)
            return lambda given: plain
        case Symbol(name):
            return lambda given: given[name]
        case Sum(terms):
            parts = [_compiled(term) for term in terms]
            return lambda given: _folded(parts, given, lambda a, b: a + b)
        case Product(factors):
            parts = [_compiled(factor) for factor in factors]
            return lambda given: _folded(parts, given, lambda a, b: a * b)
        case Quotient(over, under):
            top, bottom = _compiled(over), _compiled(under)
            return lambda given: top(given) / bottom(given)
        case Power(base, exponent):
            inner = _compiled(base)
            return lambda given: inner(given) ** exponent


def _folded(
    parts: list[Callable[[Mapping[str, Any]], Any]], given: Mapping[str, Any], join: Callable[[Any, Any], Any]
) -> Any:
    total = parts[0](given)
    for part in parts[1:]:
        total = join(total, part(given))
    return total
