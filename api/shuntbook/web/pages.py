"""Serves the built app: one page, its hashed assets, the service worker, with a strict content policy."""

import gzip
from functools import lru_cache
from pathlib import Path

from flask import Blueprint, Flask, Response, request, send_from_directory
from werkzeug.exceptions import NotFound

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob:",
        "connect-src 'self'",
        "media-src 'self' blob:",
        "manifest-src 'self'",
        "worker-src 'self'",
        "font-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
        "require-trusted-types-for 'script'",
        "trusted-types shuntbook",
    )
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), geolocation=(self), microphone=(self)",
}
FOREVER = "public, max-age=31536000, immutable"
PACKED = (".html", ".js", ".css", ".svg", ".webmanifest", ".ttf")
"""What gets smaller by gzip: over slow 3G the whole app comes in a third of the time."""


def app_folder() -> Path:
    """Return where the built app lies: in the installed package, else in the checkout's pwa/dist."""
    packaged = Path(__file__).resolve().parent.parent / "pwa"
    return packaged if packaged.is_dir() else Path(__file__).resolve().parents[3] / "pwa" / "dist"


def serve_pages(app: Flask, folder: Path) -> None:
    """Register the pages and the security headers of every answer."""
    pages = Blueprint("pages", __name__)

    @pages.get("/")
    def index() -> Response:
        """Serve the app's one page."""
        return _file(folder, "index.html", "no-cache")

    # Not what starts with api/: an unknown call there is a problem, not a missing page.
    @pages.get("/<regex('(?!api/).+'):name>")
    def file(name: str) -> Response:
        """Serve a file of the app; only hashed assets may be kept for good."""
        return _file(folder, name, FOREVER if name.startswith("assets/") else "no-cache")

    app.register_blueprint(pages)
    app.after_request(_secure)


def _file(folder: Path, name: str, cache: str) -> Response:
    if not (folder / "index.html").is_file():
        raise NotFound("the app is not built here; run `make setup` in the checkout, or install the wheel")
    response = send_from_directory(folder, name)
    response.headers["Cache-Control"] = cache
    return _compressed(response, folder / name) if name.endswith(PACKED) else response


def _compressed(response: Response, file: Path) -> Response:
    """Send a file as gzip where that is taken. The tag becomes a weak one: two encodings share it (RFC 9110, 8.8.1)."""
    response.vary.add("Accept-Encoding")
    tag, _ = response.get_etag()
    if tag is not None:
        response.set_etag(tag, weak=True)
    if response.status_code == 200 and request.accept_encodings["gzip"] > 0 and not request.range:
        response.direct_passthrough = False
        response.close()
        response.set_data(_gzip(file, file.stat().st_mtime_ns))
        response.content_encoding = "gzip"
    return response


@lru_cache(maxsize=256)
def _gzip(file: Path, changed_ns: int) -> bytes:
    """Return a file's bytes compressed, kept for the next phone until the file changes."""
    return gzip.compress(file.read_bytes(), compresslevel=9, mtime=0)


def _secure(response: Response) -> Response:
    # The log, money and names: no cache on the way or on a lent laptop keeps what does not say how it may be kept.
    if request.path.startswith("/api/"):
        response.headers.setdefault("Cache-Control", "no-store")
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    return response
