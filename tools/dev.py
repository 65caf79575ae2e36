"""Serves the sample event, and the app's source with hot reload before it: `make dev`. One Ctrl-C ends both.

    python tools/dev.py [SERVER_PORT [APP_PORT]]

A change in pwa/src is on the screen at once, with what the screen shows kept; one in api/ wants a restart. What is
logged is thrown away at the end. There is no service worker: for that, build the app and use `make demo`. The gallery
of components, in all their states and themes, is served beside the app; the built app has nothing of it.
"""

import os
import subprocess
import sys

from node import PWA, find_node

from shuntbook import serving
from shuntbook.config import PORT

APP_PORT = 5173


def main(server_port: int = PORT, app_port: int = APP_PORT) -> None:
    """Serve until Ctrl-C."""
    app = f"http://127.0.0.1:{app_port}"
    with serving.demo_folder(None) as folder:
        for role, link in serving.demo_links(folder, app):
            print(f"{role:11}{link}", flush=True)  # noqa: T201
        print(f"{'components':11}{app}/gallery/", flush=True)  # noqa: T201
        vite = [find_node(), "node_modules/vite/bin/vite.js", "--port", str(app_port), "--strictPort"]
        environment = {**os.environ, "SHUNTBOOK_URL": f"http://127.0.0.1:{server_port}"}
        # Of this process's group, so that Ctrl-C reaches it, too; ended all the same where only this one is told.
        with subprocess.Popen(vite, cwd=PWA, env=environment) as running:  # noqa: S603
            try:
                serving.serve(folder, serving.Listening(port=server_port, level="warning"), lambda: None)
            finally:
                running.terminate()


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
