"""The style of the plates as data: colours of each theme, and what each role of a primitive looks like.

Line widths are in px at 30 px a sheave radius. Contrast of every colour on its ground is tested.
"""

from msgspec import Struct

THEMES: dict[str, dict[str, str]] = {
    "light": {
        "paper": "#FFFFFF", "ink": "#1D2530", "mid": "#5E6872", "pencil": "#88919A", "metal": "#E6EAEC",
        "wheel": "#F6F4EE", "load": "#D9DEE2", "hemp": "#E9DFC8", "lay": "#5C5039", "red": "#B04C26",
        "red-text": "#A8431F", "ochre": "#C68206", "ochre-text": "#8A5A04", "bag": "#F9F2EF", "band": "#EFDAD2",
        "rope1": "#3862C4", "rope2": "#589C83", "rope3": "#885E86", "rope4": "#9982D3", "weave": "#FFFFFF",
    },
    "dark": {
        "paper": "#14191F", "ink": "#EDF1F4", "mid": "#9BA6B1", "pencil": "#6E7984", "metal": "#2C363F",
        "wheel": "#1C242B", "load": "#35414B", "hemp": "#4A4333", "lay": "#D8CBA8", "red": "#D2683F",
        "red-text": "#F09C7B", "ochre": "#C68206", "ochre-text": "#E2A944", "bag": "#272123", "band": "#4A2F28",
        "rope1": "#3862C4", "rope2": "#589C83", "rope3": "#885E86", "rope4": "#9982D3", "weave": "#14191F",
    },
    "grey": {
        "paper": "#FFFFFF", "ink": "#000000", "mid": "#666666", "pencil": "#8C8C8C", "metal": "#E8E8E8",
        "wheel": "#F6F6F6", "load": "#DADADA", "hemp": "#E2E2E2", "lay": "#555555", "red": "#333333",
        "red-text": "#000000", "ochre": "#666666", "ochre-text": "#333333", "bag": "#F4F4F4", "band": "#DDDDDD",
        "rope1": "#5A5A5A", "rope2": "#8A8A8A", "rope3": "#6E6E6E", "rope4": "#949494", "weave": "#FFFFFF",
    },
}  # fmt: skip
# On a page that changes its ground, colours are custom properties (--plate-ink ...) that the page sets from THEMES.
PAGE = {token: f"var(--plate-{token},{colour})" for token, colour in THEMES["light"].items()}

FAMILY = "'STIX Two Text',STIXTwoText,'Times New Roman',serif"
PENCIL_SCALE, PENCIL_MOST = 0.8, 1.1
CASING, CORE = 6.2, 4.2
EYE_CASING, EYE_CORE = 5.2, 3.2


class Look(Struct, frozen=True):
    """Tokens of fill and stroke (empty: none), stroke width, dashes, and whether strokes end round.

    `solid` keeps its width in pencil: casings and fillings whose size means something.
    """

    fill: str = ""
    stroke: str = ""
    width: float = 0.0
    dash: str = ""
    round: bool = True
    solid: bool = False


LOOKS: dict[str, Look] = {
    "edge": Look(stroke="ink", width=1.4),
    "fine": Look(stroke="ink", width=1.0),
    "hair": Look(stroke="mid", width=0.7, round=False),
    "bold": Look(stroke="ink", width=2.0),
    "shade": Look(stroke="ink", width=2.8),
    "spokes": Look(fill="wheel", stroke="ink", width=0.8),
    "wheel": Look(fill="wheel", stroke="ink", width=1.4),
    "metal": Look(fill="metal", stroke="ink", width=1.4),
    "load": Look(fill="load", stroke="ink", width=1.4),
    "skin": Look(fill="paper", stroke="ink", width=1.4),
    "dot": Look(fill="ink"),
    "tube-case": Look(stroke="ink", width=7.0, solid=True),
    "tube": Look(stroke="metal", width=4.4, solid=True),
    "rod-case": Look(stroke="ink", width=4.0, round=False, solid=True),
    "arm-case": Look(stroke="ink", width=8.6, solid=True),
    "arm": Look(stroke="load", width=6.0, solid=True),
    "beam-case": Look(stroke="ink", width=11.0, solid=True),
    "beam": Look(stroke="metal", width=8.4, solid=True),
    "turns": Look(stroke="ink", width=1.3),
    "before": Look(stroke="ink", width=1.6, round=False),
    "ghost": Look(stroke="mid", width=1.1, dash="4.5 3", round=False),
    "force": Look(fill="red", stroke="red", width=0.01),
    "weight": Look(fill="ink", stroke="ink", width=0.01),
    "hollow": Look(fill="paper", stroke="red", width=1.4, dash="4.5 3", round=False),
    "cut": Look(stroke="red", width=2.0, dash="9 5", round=False),
    "bag": Look(fill="bag"),
    "tick": Look(stroke="red", width=1.8, round=False),
    "band": Look(fill="band", stroke="red", width=1.2),
    "way": Look(stroke="ochre", width=1.2, round=False),
    "way-hair": Look(stroke="ochre", width=0.8, round=False),
    "way-fill": Look(fill="ochre"),
    "paint": Look(fill="ochre", stroke="ink", width=0.9),
    "index": Look(fill="ochre", stroke="ink", width=0.9),
    "disc": Look(fill="paper", stroke="ink", width=1.6),
    "disc-out": Look(fill="paper", stroke="mid", width=1.2, dash="3 2.2", round=False),
    "strike": Look(stroke="ink", width=1.6),
    "scale": Look(stroke="ink", width=1.2, round=False),
    "level": Look(stroke="mid", width=1.0, dash="4 3", round=False),
    "work-in": Look(fill="paper", stroke="red", width=1.4),
    "hatch-red": Look(stroke="red", width=0.8, round=False),
    "work-lost": Look(fill="paper", stroke="ink", width=1.4, dash="4 3", round=False),
    "speed": Look(stroke="ink", width=1.2),
    "leader": Look(stroke="mid", width=0.8, round=False),
    "halo": Look(fill="paper"),
    "ink-text": Look(fill="ink"),
    "mid-text": Look(fill="mid"),
    "red-text": Look(fill="red-text"),
    "ochre-text": Look(fill="ochre-text"),
}  # fmt: skip
for _lay, _core in enumerate(("hemp", "rope1", "rope2", "rope3", "rope4")):
    LOOKS[f"rope{_lay}-case"] = Look(stroke="ink", width=CASING, round=False, solid=True)
    LOOKS[f"rope{_lay}"] = Look(stroke=_core, width=CORE, round=False, solid=True)
    LOOKS[f"eye{_lay}-case"] = Look(fill="paper", stroke="ink", width=EYE_CASING, solid=True)
    LOOKS[f"eye{_lay}"] = Look(stroke=_core, width=EYE_CORE, solid=True)
LOOKS["lay0"] = Look(stroke="lay", width=CORE, dash="1 3.6", round=False, solid=True)
LOOKS["lay1"] = LOOKS["lay2"] = Look(stroke="weave", width=CORE, dash="1 3.6", round=False, solid=True)
LOOKS["lay3"] = Look(stroke="weave", width=CORE / 2, dash="1 3.6", round=False, solid=True)
LOOKS["lay4"] = Look(stroke="weave", width=1.0, round=False, solid=True)
LOOKS["marks0"] = Look(stroke="lay", width=0.95, round=False)
for _lay in (1, 2, 3, 4):
    LOOKS[f"marks{_lay}"] = Look(stroke="weave", width=1.0, round=False)


def css(role: str, pencil: bool, colours: dict[str, str]) -> str:
    """The CSS declarations of a role, in ink or in pencil: one grey, 0.8 of the weight, no tint."""
    look = LOOKS[role]
    fill, stroke, wide = look.fill, look.stroke, look.width
    if pencil:
        fill = "pencil" if fill and (role.endswith("text") or role == "dot") else ("paper" if fill else "")
        cased = look.solid and role.endswith("-case")
        stroke = "" if not stroke else ("pencil" if cased or not look.solid else "paper")
        wide = wide - 0.4 if cased else (wide - 0.2 if look.solid else min(PENCIL_SCALE * wide, PENCIL_MOST))
    made = [f"fill:{colours[fill] if fill else 'none'}"]
    if stroke:
        made.append(f"stroke:{colours[stroke]};stroke-width:{wide:g}")
        if look.dash:
            made.append(f"stroke-dasharray:{look.dash}")
        if look.round:
            made.append("stroke-linecap:round;stroke-linejoin:round")
    return ";".join(made)
