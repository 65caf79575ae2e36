"""Makes the two fonts of the papers: a subset of DejaVu Sans Condensed with the letters of Latin, Greek and Cyrillic.

A step for who changes the fonts; nothing else needs it. Needs fontTools, and the unpacked npm package
dejavu-fonts-ttf 2.37.3, whose LICENSE is beside the result and goes out with the built app:

    python scripts/make-fonts.py PACKAGE_FOLDER
"""

import sys
from pathlib import Path

from fontTools import subset

LETTERS = (
    "U+0020-007E,U+00A0-024F,U+0259,U+02C6,U+02DA,U+02DC,U+0370-03FF,U+0400-045F,U+1E00-1EFF,U+2010-2027,U+2030,"
    "U+2032,U+2033,U+2039,U+203A,U+2044,U+20AC,U+2116,U+2122,U+2190-2193,U+2212,U+2260,U+2264,U+2265,U+2713,U+2717,U+FFFD"
)
FONTS = {"DejaVuSansCondensed": "regular", "DejaVuSansCondensed-Bold": "bold"}
PWA = Path(__file__).resolve().parent.parent
FOLDER = PWA / "src" / "paper" / "fonts"
LICENCES = (FOLDER / "LICENSE", PWA / "public" / "licence-of-fonts.txt")


def main(package: Path) -> None:
    """Write the subsets. Hints are for small screens: paper needs none."""
    for source, name in FONTS.items():
        subset.main(
            [
                str(package / "ttf" / f"{source}.ttf"),
                f"--unicodes={LETTERS}",
                "--layout-features=kern,mark,mkmk,ccmp,locl",
                "--no-hinting",
                f"--output-file={FOLDER / name}.ttf",
            ]
        )
    for licence in LICENCES:
        licence.write_bytes((package / "LICENSE").read_bytes())


if __name__ == "__main__":
    main(Path(sys.argv[1]))
