#!/usr/bin/python3
"""A browser of WebKit's for WebKitWebDriver, as large as a phone, that keeps its store: pocket_browser.py PROFILE LEFT.

PROFILE: the folder for store, cache and downloads. LEFT: where on the screen its window begins, in pixels.
The browser that comes with WebKitGTK forgets everything at its end, and is wider than a phone. Run by the system's own
Python, for which Debian packages PyGObject; nothing of this project is imported.
"""

import ctypes
import signal
import sys
from pathlib import Path

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import Gtk, WebKit2  # noqa: E402  # the versions must be asked for first

WIDTH, HEIGHT = 390, 844
PR_SET_PDEATHSIG = 1
"""Of prctl(2): the signal that the kernel sends once the parent is gone, however it went."""


def main(profile: Path, left: int) -> None:
    """Run until the driver that started this ends."""
    ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGKILL)
    context = _context(profile)
    window = Gtk.Window()
    window.set_default_size(WIDTH, HEIGHT)
    window.move(left, 0)
    window.connect("destroy", Gtk.main_quit)
    context.connect("automation-started", _on_session, context, window)
    Gtk.main()


def _context(profile: Path) -> WebKit2.WebContext:
    store = WebKit2.WebsiteDataManager(
        base_data_directory=str(profile / "data"), base_cache_directory=str(profile / "cache")
    )
    context = WebKit2.WebContext.new_with_website_data_manager(store)
    context.set_automation_allowed(True)
    context.set_preferred_languages(["en-GB"])
    downloads = profile / "downloads"
    downloads.mkdir(parents=True, exist_ok=True)
    context.connect("download-started", _on_download, downloads)
    return context


def _on_session(context: WebKit2.WebContext, session: WebKit2.AutomationSession, _: object, window: Gtk.Window) -> None:
    # The driver refuses a browser that gives no name.
    about = WebKit2.ApplicationInfo()
    about.set_name("pocket")
    about.set_version(1, 0, 0)
    session.set_application_info(about)
    session.connect("create-web-view", _view, context, window)


def _view(_: WebKit2.AutomationSession, context: WebKit2.WebContext, window: Gtk.Window) -> WebKit2.WebView:
    view = WebKit2.WebView(web_context=context, is_controlled_by_automation=True, settings=_settings())
    view.connect("permission-request", _allow)
    view.set_size_request(WIDTH, HEIGHT)
    window.add(view)
    window.show_all()
    return view


def _settings() -> WebKit2.Settings:
    settings = WebKit2.Settings()
    settings.set_enable_write_console_messages_to_stdout(True)  # where the tests read what a page complains of
    settings.set_enable_media_stream(True)
    settings.set_enable_mock_capture_devices(True)
    return settings


def _allow(_: WebKit2.WebView, request: WebKit2.PermissionRequest) -> bool:
    request.allow()
    return True


def _on_download(_: WebKit2.WebContext, download: WebKit2.Download, folder: Path) -> None:
    download.connect("decide-destination", _save_in, folder)


def _save_in(download: WebKit2.Download, name: str, folder: Path) -> bool:
    download.set_allow_overwrite(True)
    download.set_destination((folder / name).as_uri())
    return True


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
