"""QR codes of addresses: for a terminal, and as a picture for a page."""

import io

import segno

WHITE_ON_BLACK = "\x1b[97;40m"
RESET = "\x1b[0m"


def for_terminal(address: str, encoding: str | None, *, colours: bool) -> str:
    """Return a QR code in half blocks; "" where the terminal's encoding has none.

    colours: the light modules are made white on black, so that a dark text on a light ground is no negative.
    """
    out = io.StringIO()
    segno.make_qr(address, error="l").terminal(out, compact=True)
    lines = out.getvalue().rstrip("\n").split("\n")
    try:
        "".join(lines).encode(encoding or "ascii")
    except UnicodeEncodeError:
        return ""
    return "\n".join(f"{WHITE_ON_BLACK}{line}{RESET}" if colours else line for line in lines)


def as_svg(address: str) -> bytes:
    """Return a QR code as an SVG file, dark on white with its quiet zone."""
    out = io.BytesIO()
    segno.make_qr(address, error="m").save(out, kind="svg", scale=8, dark="#000", light="#fff", xmldecl=True)
    return out.getvalue()
