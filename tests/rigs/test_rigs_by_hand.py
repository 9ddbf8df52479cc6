"""Odd but valid rigs with the right answers worked out by hand: each file's comment shows the working."""

from fractions import Fraction
from pathlib import Path

import pytest

FORCE = "regimes.ideal.effort"
HERE = Path(__file__).parent

# Numbers in SI, exact; words as they stand in the record. {rig: {path in the answer record: right answer}}
BY_HAND: dict[str, dict[str, str | None]] = {
    "floor-lead": {
        FORCE: "120", "supports.top.force": "240", "supports.floor.force": "-240", "velocity_ratio": "1",
        "travel.hand": "2",
    },
    "floor-lead-twofold": {
        FORCE: "400", "supports.ring.force": "400", "supports.upper.force": "800", "supports.floor.force": "-800",
        "travel.hand": "1/2",
    },
    "rider-single": {
        FORCE: "300", "velocity_ratio": "2", "supports.top.force": "600", "travel.hand": "2", "work.in": "600",
    },
    "rider-on-block": {
        FORCE: "220", "velocity_ratio": "3", "supports.ring.force": "220", "supports.top.force": "440",
        "motions.seat.per_hand": "1/3",
    },
    "rider-pulls-own-wheel": {
        FORCE: "480", "velocity_ratio": "1", "supports.ring.force": "480", "travel.hand": "1/5", "work.in": "96",
    },
    "rider-over-to-block": {
        FORCE: "125", "velocity_ratio": None, "supports.top.force": "300", "supports.beam.force": "150",
        "supports.eye.force": "250", "motions.seat.per_hand": "1/2", "motions.planter.per_hand": "-1/4",
    },
    "two-blocks-one-load": {
        FORCE: "90", "velocity_ratio": "4", "supports.ring.force": "90", "supports.top.force": "180",
        "mechanical_advantage": "172/45", "motions.left-wheel.per_hand": "1/4",
    },
    "two-ropes-one-plank": {"status": "indeterminate"},
    "load-to-load-equal": {
        "status": "holds", "strands.line:1.tension": "55", "supports.top.force": "110", FORCE: None,
    },
    "bell-with-counterweight": {
        FORCE: "60", "supports.a.force": "120", "supports.b.force": "80", "mechanical_advantage": "5/3",
        "velocity_ratio": "1", "travel.sack": "-1/2",
    },
    "counterweight-too-heavy": {"status": "slack"},
    "both-ends-on-block": {
        "status": "holds", "strands.sling:1.tension": "50", "strands.sling:2.tension": "50",
        "supports.beam.force": "100",
    },
    "bell-in-a-bight": {FORCE: "100", "strands.bight:1.tension": "48", "velocity_ratio": "1", "travel.eye": "2/5"},
    "becket-on-moving": {FORCE: "100", "velocity_ratio": "3", "supports.upper.force": "400", "travel.hand": "3"},
    "masses-in-a-twofold": {FORCE: "78.48", "supports.upper.force": "392.4", "mechanical_advantage": "15/4"},
    "mixed-units": {FORCE: "320.477580763025", "travel.hand": "3.048"},
    "weightless-block": {FORCE: "45", "mechanical_advantage": "2", "efficiency": "1"},
    "two-motions-unequal": {"status": "impossible"},
    "two-motions-equal": {
        "status": "holds", FORCE: "108", "strands.short:1.tension": "50", "supports.top.force": "216",
    },
    "effort-beats-friction": {"status": "accelerates", "raising:motions.bell.acceleration": "0.981",
                              "raising:strands.line:1.tension": "99"},
    "effort-within-friction": {"status": "holds"},
    "effort-below-friction": {"status": "accelerates", "lowering:motions.bell.acceleration": "-1.09",
                              "lowering:strands.line:1.tension": "80"},
    "runners-two-falls": {
        FORCE: "18.5", "velocity_ratio": "8", "travel.third": "4", "strands.a:1.tension": "62",
        "strands.b:1.tension": "33", "supports.beam.force": "113.5",
    },
    "third-system": {
        FORCE: "18", "velocity_ratio": "7", "supports.top.force": "180", "strands.a:1.tension": "90",
        "strands.b:1.tension": "42", "motions.one.per_hand": "-1/7", "motions.two.per_hand": "-3/7",
    },
    "strop-not-carried": {FORCE: "96", "strands.strop:1.tension": "180", "velocity_ratio": "2"},
    "pull-straight-up": {FORCE: "35", "velocity_ratio": "1"},
    "sack-as-the-hand": {
        FORCE: "50", "supports.top.force": "300", "supports.floor.force": "-100", "velocity_ratio": "1",
        "travel.sack": "-1", "travel.hand": "1",
    },
    "tackle-turned-round": {
        FORCE: "128", "velocity_ratio": "1/2", "supports.floor.force": "-60", "supports.top.force": "256",
        "travel.wheel": "1/2",
    },
    "two-runners-on-one-rope": {
        "status": "accelerates", "motions.heavy.acceleration": "-5", "motions.light.acceleration": "5",
        "strands.line:2.tension": "7.5", "supports.top.force": "15", "supports.left-ring.force": "7.5",
    },
    "two-runners-and-hand": {"status": "impossible"},
    "effort-on-a-twofold": {
        "status": "accelerates", "motions.safe.acceleration": "2", "motions.lower.acceleration": "2",
        "strands.fall:1.tension": "120", "supports.upper.force": "600",
    },
    "heavy-wheel-and-hand": {
        "motions.crate.acceleration": "5/3", "strands.line:1.tension": "344/3", "strands.line:2.tension": "118",
        "supports.top.force": "698/3",
    },
    "heavy-runner": {
        "motions.tub.acceleration": "2", "strands.fall:1.tension": "58", "strands.fall:2.tension": "60",
        "supports.ring.force": "58",
    },
    "falling-mass-inverted": {
        "motions.tub.acceleration": "49/115", "motions.iron.acceleration": "-147/115",
        "strands.fall:2.tension": "392/23", "supports.upper.force": "1568/23",
    },
    "burton-with-masses": {
        "motions.crate.acceleration": "1.8", "motions.flyer.acceleration": "-1.8", "motions.iron.acceleration": "-5.4",
        "strands.short:2.tension": "9", "strands.long:1.tension": "26.1", "supports.top.force": "52.2",
    },
    "loss-on-double-atwood": {
        "status": "accelerates", "?motions.crate.acceleration": "-8673/3485",
        "?motions.sack.acceleration": str(Fraction(14896, 697) / 5 - Fraction(98, 10)),
        "?motions.bag.acceleration": str(Fraction(95, 100) * Fraction(14896, 697) - Fraction(98, 10)),
        "?strands.long:1.tension": "30576/697", "?strands.short:1.tension": "14896/697",
    },
    "friction-holds-it": {"status": "holds"},
    "unlike-wheels": {
        FORCE: "90", "raising:effort": "1000/9", "lowering:effort": "72", "raising:strands.fall:1.tension": "80",
        "lowering:strands.fall:1.tension": "100", "raising:efficiency": "81/100", "raising:work.lost": "380/9",
    },
    "lowering-asked": {FORCE: "80", "travel.flour": "-0.3", "travel.hand": "-0.6"},
    "raise-the-block": {FORCE: "35", "travel.pot": "1", "travel.hand": "2", "velocity_ratio": "2"},
    "level-lead": {
        FORCE: "75", "supports.near-wheel.force": "75", "supports.near-wheel.sideways": "75",
        "supports.far-wheel.force": "75", "supports.far-wheel.sideways": "-75",
    },
    "level-lead-floor": {
        FORCE: "75", "supports.top.force": "150", "supports.near-wheel.force": "-75", "supports.far-wheel.force": "-75",
        "supports.near-wheel.sideways": "75", "supports.far-wheel.sideways": "-75",
    },
    "fools-tackle": {"status": "impossible"},
    "two-ropes-share": {"status": "indeterminate"},
    "backwards-path": {FORCE: "48", "supports.top.force": "96", "supports.ring.force": "48", "velocity_ratio": "2"},
    "dead-line-at-floor": {
        FORCE: "80", "supports.crown.force": "320", "supports.floor.force": "-80", "velocity_ratio": "2",
    },
    "dead-wheel-keeps-its-pull": {
        "raising:effort": "100", "lowering:effort": "64", "raising:supports.crown.force": "340",
        "lowering:supports.crown.force": "304", "raising:supports.floor.force": "-80",
    },
    "block-heavier-than-load": {"status": "slack"},
    "flyer-balances-load": {
        "status": "holds", FORCE: "0", "mechanical_advantage": None, "strands.long:1.tension": "66",
        "strands.short:1.tension": "0", "supports.top.force": "132",
    },
    "loss-where-blocks-sink": {FORCE: "84", "raising:effort": "101280/1121", "lowering:effort": "22629/290"},
    "luff-upon-luff": {
        FORCE: "29", "velocity_ratio": "9", "supports.upper.force": "372", "supports.floor.force": "-116",
        "travel.runner": "-3/10",
    },
    "hung-on-a-carried-load": {FORCE: "60", "velocity_ratio": "3", "supports.top.force": "240"},
    "three-loads-three-ropes": {
        "status": "accelerates", "motions.left-swing.acceleration": "3", "motions.d.acceleration": "-3",
        "strands.long:1.tension": "24", "strands.left-pair:1.tension": "12", "strands.right-pair:2.tension": "12",
        "supports.top.force": "48",
    },
    "own-wheel-jams": {FORCE: "10"},
    "will-not-run-back": {FORCE: "0", "raising:effort": "10"},
    "load-given-by-effort": {"regimes.ideal.load": "105"},
}  # fmt: skip


def full_path(path: str, record: dict) -> str:
    """Short paths are of the ideal regime; `raising:` and `lowering:` name another, `?` whichever the rig runs in."""
    if path.split(".")[0] in {"status", "velocity_ratio", "travel", "regimes"}:
        return path
    if path.startswith("?"):
        way = next(way for way in reversed(record["regimes"]) if record["regimes"][way]["motions"])
        return f"regimes.{way}.{path[1:]}"
    way, colon, rest = path.partition(":")
    return f"regimes.{way}.{rest}" if colon and way in {"raising", "lowering"} else f"regimes.ideal.{path}"


@pytest.mark.parametrize(("name", "path"), [(name, path) for name, answers in BY_HAND.items() for path in answers])
def test_right_answer_by_hand(name, path, record_from, look):
    record = record_from((HERE / f"{name}.rig").read_text("utf-8"))
    right = BY_HAND[name][path]
    found = look(record, full_path(path, record))
    assert found == (Fraction(right) if isinstance(found, Fraction) and right is not None else right)


def test_symbols_only(record_from, look):
    record = record_from((HERE / "symbols-only.rig").read_text("utf-8"))
    assert record["regimes"]["ideal"]["effort"]["formula"] == "(W + w)/4"
    assert record["regimes"]["ideal"]["effort"]["value"] is None
    assert look(record, "velocity_ratio") == 4


@pytest.mark.parametrize(("name", "way"), [("own-wheel-jams", "raising"), ("will-not-run-back", "lowering")])
def test_no_rope_pushes(name, way, record_from):
    regime = record_from((HERE / f"{name}.rig").read_text("utf-8"))["regimes"].get(way)
    assert regime is None or regime["effort"] is None


def test_every_rig_has_an_answer_by_hand():
    assert {path.stem for path in HERE.glob("*.rig")} == {*BY_HAND, "symbols-only"}


@pytest.mark.parametrize("path", sorted(HERE.glob("*.rig")), ids=lambda path: path.stem)
def test_certificate_is_exact(path, record_from):
    record = record_from(path.read_text("utf-8"))
    assert record["certificate"]["largest_residual"] == "0"
    assert record["certificate"]["checks"] or record["status"] in {"impossible", "indeterminate", "slack"}
