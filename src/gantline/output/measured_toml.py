"""`measured.toml`: what was measured, for a rig to use from then on. Written by hand, read by any TOML reader."""

import json
import tomllib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from gantline.bench import Measured
    from gantline.rig import Rig

FORMAT = "gantline-measured/1"
MOST_BYTES = 64 * 1024


class NotMeasured(ValueError):
    """A file that is no record of a measurement; the message says what is wrong with it."""


def write(of: "Measured", rig: "Rig") -> bytes:
    """The file. The same measurement gives the same bytes; it holds no time, no path and nothing about a person."""
    blocks = [f"format = {_text(FORMAT)}\ntitle = {_text(of.title)}\n", *(_table(*each) for each in _results(of))]
    how = {
        "rows_used": len(of.readings.rows), "rows_refused": len(of.readings.refused), "division_newtons": of.division,
        "fit": "ordinary weighted least squares, both branches", "interval": "95 %, law of propagation",
    }  # fmt: skip
    blocks += [_table("how", how), _table("set", settings(of, rig))]
    return "\n".join(blocks).encode()


def settings(of: "Measured", rig: "Rig") -> dict[str, Any]:
    """The values to put on top of the rig's file, as `--set` would: only what was really measured."""
    found: dict[str, Any] = {}
    efficiency = of.estimate("efficiency").value
    if efficiency is not None:
        for part in rig.parts:
            if getattr(part, "sheaves", ()):
                found[f"{part.name}.efficiency"] = f"{100 * min(efficiency, 1.0):.6g} %"
    block = next((one for one in of.estimates if one.name == "block"), None)
    if block is not None and block.value is not None and not block.held and block.value >= 0:
        found[f"{of.block}.weight"] = f"{block.value:.6g} N"
    drag = of.estimate("drag")
    if drag.value is not None and not drag.held and drag.value > 0:
        found |= {f"{rope.name}.drag": f"{drag.value:.6g} N" for rope in rig.ropes}
    return found


def read(data: bytes) -> dict[str, str]:
    """The settings of a file, as NAME.WHAT to value. Raises NotMeasured."""
    if len(data) > MOST_BYTES:
        raise NotMeasured(f"it has {len(data)} bytes; {MOST_BYTES} are read")
    try:
        record = tomllib.loads(data.decode("utf-8"))
    except (UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise NotMeasured("it is no TOML text") from error
    if record.get("format") != FORMAT:
        raise NotMeasured(f'it does not begin with format = "{FORMAT}"')
    found = record.get("set", {})
    if not isinstance(found, dict) or not all(isinstance(value, str) for value in found.values()):
        raise NotMeasured("its table [set] does not say text for every name")
    return found


def _results(of: "Measured") -> list[tuple[str, dict[str, Any]]]:
    units = {"efficiency": "1", "block": "N", "drag": "N", "zero": "N"}
    tables = []
    for one in of.estimates:
        table: dict[str, Any] = {"unit": units[one.name]}
        if one.name == "block":
            table["name"] = of.block
        if one.value is None or one.held:
            table["measured"] = False
            table |= {"value": one.value} if one.held else {"not_told_from": list(one.tied)}
        elif one.combined is not None and one.interval is not None:
            table |= {
                "measured": True, "value": one.value, "standard_uncertainty": one.combined.u,
                "interval_95": list(one.interval),
            }  # fmt: skip
        tables.append((one.name, table))
    return tables


def _table(name: str, entries: dict[str, Any]) -> str:
    lines = [f"{_key(key)} = {_value(value)}" for key, value in entries.items() if value is not None]
    return "\n".join([f"[{name}]", *lines, ""])


def _key(key: str) -> str:
    return key if key.replace("_", "").isalnum() and key.isascii() else _text(key)


def _value(value: Any) -> str:
    match value:
        case bool():
            return "true" if value else "false"
        case float():
            return f"{value:.8g}" if "." in f"{value:.8g}" or "e" in f"{value:.8g}" else f"{value:.1f}"
        case list():
            return f"[{', '.join(_value(each) for each in value)}]"
        case str():
            return _text(value)
        case _:
            return str(value)


def _text(words: str) -> str:
    """A basic string: JSON's escapes are TOML's, save that DEL must be written as one."""
    return json.dumps(words, ensure_ascii=False).replace("\x7f", "\\u007f")
