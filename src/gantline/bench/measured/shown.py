"""Measured numbers as a report writes them: the uncertainty in two figures, the value to the same place (GUM 7.2.6)."""

from decimal import ROUND_HALF_UP, Decimal


def places(u: float) -> int:
    """The decimals that give an uncertainty two significant figures."""
    if not 0 < u < float("inf"):
        return 3
    return 1 - Decimal(f"{u:.1e}").adjusted()


def to_place(number: float, decimals: int) -> str:
    """A number to so many decimals (negative: tens, hundreds), halves away from zero, minus as a sign."""
    rounded = Decimal(repr(float(number))).quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    text = f"{rounded:f}"
    return text.replace("-", "−") if rounded else text.replace("-", "")


def value_and(number: float, u: float) -> tuple[str, str]:
    """A value and its uncertainty, both to the uncertainty's second figure."""
    return to_place(number, places(u)), to_place(u, places(u))


def interval(low: float, high: float, u: float) -> str:
    return f"{to_place(low, places(u))} to {to_place(high, places(u))}"
