"""The two plots of a report: pulls against loads with the fitted model, and what is left over."""

from gantline.figure import Axis, Scene, Series, chart

from .measuring import Measured, Residual
from .shown import to_place

_STEPS = 40
_LOOKS = {"raising": ("disc", "line"), "lowering": ("ring", "dashes")}
MOST_POINTS, _MOST_SAID = 300, 30  # points of one way in a plot, and those its words name
_AGREED = 2.0  # standard deviations


def pulls_plot(of: Measured) -> Scene:
    """Every mean with its uncertainty, and the model through them."""
    series = []
    for way, (points, line) in _LOOKS.items():
        own = _of_way(of, way)
        if own:
            series.append(Series("", line, _model(of, way, max(one.mean.load for one in own))))
            series.append(
                Series(way, points, tuple((one.mean.load, one.mean.value) for one in own),
                       tuple(one.deviation for one in own))
            )  # fmt: skip
    return chart(
        "Pull against load", _described(of), Axis("load, N"), Axis("pull, N"), series,
    )  # fmt: skip


def residuals_plot(of: Measured) -> Scene:
    """Mean less model, in standard deviations of the mean."""
    series = [
        Series(way, points, tuple((one.mean.load, one.steps) for one in own))
        for way, (points, _) in _LOOKS.items() if (own := _of_way(of, way))
    ]  # fmt: skip
    last = max(one.mean.load for one in of.residuals)
    bounds = [Series("", "dashes", ((0.0, y), (last, y))) for y in (-_AGREED, _AGREED)]
    up = Axis("mean less model, in uncertainties", least=-3.0, most=3.0)
    most = max((abs(one.steps) for one in of.residuals), default=0.0)
    if most > 3:
        up = Axis(up.words, least=-most, most=most)
    return chart("What is left over", _left(of), Axis("load, N"), up, [*bounds, *series])


def _of_way(of: Measured, way: str) -> list[Residual]:
    """The means of one way; of very many, every second, third ... so that points stay points."""
    own = [one for one in of.residuals if one.mean.what == way]
    return own[:: -(-len(own) // MOST_POINTS) or 1]


def _model(of: Measured, way: str, last: float) -> tuple[tuple[float, float], ...]:
    branch = of.shares.raising if way == "raising" else of.shares.lowering
    if of.fitted is None:
        return ()
    e, block, drag, zero = of.fitted.at
    load, of_block, of_drag, rest = branch.at(e)
    start = of_block * block + of_drag * drag + rest + zero
    return tuple((last * n / _STEPS, float(load * last * n / _STEPS + start)) for n in range(_STEPS + 1))


def _described(of: Measured) -> str:
    said = [
        f"{way.capitalize()}, load and pull in newtons: "
        + ", ".join(f"{to_place(one.mean.load, 2)} and {to_place(one.mean.value, 3)}" for one in own[:_MOST_SAID])
        + (" and so on." if len(own) > _MOST_SAID else ".")
        for way in _LOOKS if (own := _of_way(of, way))
    ]  # fmt: skip
    return " ".join(["Pull over load, each mean with its uncertainty, and the fitted model.", *said])


def _left(of: Measured) -> str:
    pulls = [one for one in of.residuals if one.mean.what in _LOOKS]
    inside = sum(abs(one.steps) <= _AGREED for one in pulls)
    said = [
        f"{way.capitalize()}: "
        + ", ".join(f"{to_place(one.steps, 1)} at {to_place(one.mean.load, 2)} N" for one in own[:_MOST_SAID])
        + (" and so on." if len(own) > _MOST_SAID else ".")
        for way in _LOOKS if (own := _of_way(of, way))
    ]  # fmt: skip
    first = f"Mean less model over load, in uncertainties; {inside} of {len(pulls)} lie within {_AGREED:g}."
    return " ".join([first, *said])
