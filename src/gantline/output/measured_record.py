"""The record of a measurement that programs read, `gantline-measured/1`. Everything in SI; what is not told is null."""

from math import isfinite
from typing import Any

from gantline.bench import Measured

FORMAT = "gantline-measured/1"


def measured_record(of: Measured) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "title": of.title,
        "velocity_ratio": float(of.shares.velocity_ratio),
        "results": {one.name: _result(one) for one in of.estimates},
        "block": of.block,
        "division": {"value": of.division, "unit": "N"},
        "fit": _fit(of),
        "ratio_law": _ratio(of.ratio),
        "readings": [
            {"what": one.mean.what, "load": one.mean.load, "times": one.mean.many, "mean": one.mean.value,
             "model": one.expected, "uncertainty": one.deviation}
            for one in of.residuals
        ],
        "rows": {
            "read": of.readings.read, "used": len(of.readings.rows), "empty": of.readings.empty,
            "above_headings": of.readings.above,
            "refused": [{"line": one.line, "code": one.code, "reason": one.reason} for one in of.readings.refused],
        },
        "improve": [
            {"kind": one.kind, "what": list(one.what), "of": list(one.of)} for one in of.advice
        ],
        "draws": of.draws,
    }  # fmt: skip


def _fit(of: Measured) -> dict[str, Any] | None:
    if of.fitted is None:
        return None
    fitted, good = of.fitted, of.fitted.goodness
    return {
        "chi_squared": good.chi2, "degrees_of_freedom": good.left, "chance": good.chance, "birge_ratio": good.birge,
        "correlations": [{"of": [one, other], "value": value} for one, other, value in fitted.correlations],
        "lines": {way: _line(line) for way, line in fitted.lines},
    }  # fmt: skip


def _result(one: Any) -> dict[str, Any]:
    if one.combined is None or one.interval is None:
        return {"value": one.value, "measured": False, "not_told_from": list(one.tied)}
    return {
        "value": one.value, "measured": True, "standard_uncertainty": one.combined.u,
        "degrees_of_freedom": one.combined.freedom if isfinite(one.combined.freedom) else None,
        "interval_95": list(one.interval),
        "monte_carlo": one.spread and {
            "mean": one.spread.mean, "standard_uncertainty": one.spread.u,
            "interval_95": [one.spread.low, one.spread.high],
        },
        "parts": {part.source: part.u for part in one.combined.parts},
    }  # fmt: skip


def _ratio(law: Any) -> Any:
    if isinstance(law, str):
        return {"efficiency": None, "says": law}
    return {
        "efficiency": law.efficiency, "standard_uncertainty": law.u, "power": law.power, "chance": law.chance,
        "pairs": [
            {"load": one.load, "ratio": one.ratio, "efficiency": one.efficiency, "standard_uncertainty": one.u}
            for one in law.pairs
        ],
    }  # fmt: skip


def _line(line: Any) -> dict[str, Any]:
    return {
        "slope": line.slope, "intercept": line.intercept, "u_slope": line.u_slope, "u_intercept": line.u_intercept,
        "correlation": line.correlation,
    }  # fmt: skip
