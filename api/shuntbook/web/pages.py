"""Serves the built app: one page, its hashed assets, the service worker, with a strict content policy."""

from pathlib import Path

from flask import Blueprint, Flask, Response, send_from_directory
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
    return response


def _secure(response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    return response
