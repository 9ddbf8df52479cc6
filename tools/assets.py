"""Builds src/gantline/assets: the typefaces of the plates and pages, cut down to what they use, their widths, and the
editor of the loft's slip.

Run by make. The text faces come from the npm packages pinned in tools/package-lock.json, the face for mathematics from
the wheel of ziamath (its font file only). Does nothing where the assets are newer than their sources.
"""

import json
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterable
from importlib.util import find_spec
from pathlib import Path

from fontTools.merge import Merger, Options
from fontTools.subset import Options as Cut
from fontTools.subset import Subsetter
from fontTools.ttLib import TTFont

TOOLS = Path(__file__).resolve().parent
ASSETS = TOOLS.parent / "src" / "gantline" / "assets"
STAMP = ASSETS / "widths.json"
TEXT_FACES = {f"{weight}{'i' if style == 'italic' else ''}": (weight, style)
              for weight in (400, 500, 600) for style in ("normal", "italic")}  # fmt: skip

LATIN_EXTENDED_A = range(0x100, 0x180)
SIGNS = (0x2248, 0x2260, 0x2264, 0x2265, 0x221A, 0x2190, 0x2191, 0x2192, 0x2193, *range(0x2080, 0x208A))
GREEK = range(0x391, 0x3CA)
MATHEMATICS = (
    *range(0x20, 0x7F), *range(0xA0, 0x100), *GREEK, *SIGNS, *range(0x2000, 0x2070), 0x210E, 0x2211, 0x2212, 0x2215,
    0x2216, 0x2217, 0x221D, 0x2223, 0x22C5, 0x2261, *range(0x1D434, 0x1D468), *range(0x1D6FC, 0x1D71C),
)  # fmt: skip


def main() -> None:
    sources = (Path(__file__), TOOLS / "package-lock.json", TOOLS / "codemirror.js")
    if STAMP.exists() and STAMP.stat().st_mtime > max(source.stat().st_mtime for source in sources):
        return
    subprocess.run(["npm", "ci", "--prefix", str(TOOLS), "--silent"], check=True)
    ASSETS.mkdir(parents=True, exist_ok=True)
    widths = {}
    for face, (weight, style) in TEXT_FACES.items():
        font = text_face(weight, style)
        widths[face] = advances(font)
        write(font, f"STIXTwoText-{face}", web=[c for c in font.getBestCmap() if c not in LATIN_EXTENDED_A])
    for weight in (400, 500, 600):
        write(package_font("libre-franklin", "latin", weight, "normal"), f"LibreFranklin-{weight}")
    write(cut(TTFont(math_source()), MATHEMATICS, features=("ssty", "dtls", "ccmp", "mark")), "STIXTwoMath")
    for weight in (400, 700):
        shutil.copy(fontsource("courier-prime", "latin", weight, "normal"), ASSETS / f"CourierPrime-{weight}.woff2")
    for name in ("stix-two-text", "libre-franklin", "courier-prime"):
        shutil.copy(TOOLS / "node_modules" / "@fontsource" / name / "LICENSE", ASSETS / f"LICENSE-{name}.txt")
    editor()
    STAMP.write_text(json.dumps(widths, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")


def text_face(weight: int, style: str) -> TTFont:
    """One cut of STIX Two Text: Latin, Latin Extended-A, Greek, and the few signs only its mathematics face has."""
    pieces = [
        package_font("stix-two-text", "latin", weight, style),
        cut(package_font("stix-two-text", "latin-ext", weight, style), LATIN_EXTENDED_A),
        cut(package_font("stix-two-text", "greek", weight, style), GREEK),
        cut(TTFont(math_source()), SIGNS, drop=("MATH", "GSUB", "GPOS", "GDEF")),
    ]
    with tempfile.TemporaryDirectory() as folder:
        paths = []
        for number, piece in enumerate(pieces):
            piece.flavor = None
            paths.append(str(Path(folder, f"{number}.ttf")))
            piece.save(paths[-1])
        merged = Merger(options=Options(drop_tables=["STAT", "prep", "fpgm", "cvt ", "DSIG", "meta"])).merge(paths)
    merged.recalcTimestamp = False
    return merged


def editor() -> None:
    """The parts of CodeMirror that the slip uses, as one module, and its licence."""
    command = [TOOLS / "node_modules/.bin/esbuild", TOOLS / "codemirror.js", "--bundle", "--minify", "--format=esm",
               "--target=es2022", "--legal-comments=none", "--log-level=warning",
               f"--outfile={ASSETS / 'codemirror.js'}"]  # fmt: skip
    subprocess.run(command, check=True)
    shutil.copy(TOOLS / "node_modules/@codemirror/view/LICENSE", ASSETS / "LICENSE-codemirror.txt")


def fontsource(package: str, part: str, weight: int, style: str) -> Path:
    name = f"{package}-{part}-{weight}-{style}.woff2"
    return TOOLS / "node_modules" / "@fontsource" / package / "files" / name


def package_font(package: str, part: str, weight: int, style: str) -> TTFont:
    font = TTFont(fontsource(package, part, weight, style), recalcTimestamp=False)
    for record in font["name"].names:  # static cuts of Libre Franklin still carry the name of their thinnest master
        record.string = record.toUnicode().replace(" Thin", "")
    return font


def math_source() -> Path:
    spec = find_spec("ziamath")
    if spec is None or not spec.submodule_search_locations:
        sys.exit("ziamath is missing: pip install -e '.[dev]' brings the typeface for mathematics with it")
    return Path(spec.submodule_search_locations[0], "fonts", "STIXTwoMath-Regular.ttf")


def cut(
    font: TTFont, characters: Iterable[int], drop: tuple[str, ...] = (), features: tuple[str, ...] = ("*",)
) -> TTFont:
    """The font with only these characters (and what the layout `features` reach from them)."""
    options = Cut(
        layout_features=list(features), notdef_outline=True, name_IDs=["*"], drop_tables=[*Cut().drop_tables, *drop]
    )
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=characters)
    font.recalcTimestamp = False
    subsetter.subset(font)
    return font


def write(font: TTFont, name: str, web: Iterable[int] | None = None) -> None:
    """The face as TTF (PNG, PDF) and as WOFF2 (pages), the latter cut down to `web` where given."""
    font.flavor = None
    font.save(ASSETS / f"{name}.ttf")
    light = TTFont(ASSETS / f"{name}.ttf", recalcTimestamp=False)
    if web is not None:
        light = cut(light, web)
    light.flavor = "woff2"
    light.save(ASSETS / f"{name}.woff2")


def advances(font: TTFont) -> dict[str, int]:
    """Advance width of every character, in thousandths of the type size."""
    scale = 1000 / font["head"].unitsPerEm
    return {chr(code): round(font["hmtx"][glyph][0] * scale) for code, glyph in sorted(font.getBestCmap().items())}


if __name__ == "__main__":
    main()
