"""Lighthouse's own view of the first visit, where it is on this machine; never installed from here.

It is looked for under SHUNTBOOK_LIGHTHOUSE (a path), then on PATH.
"""

import json
import os
import shutil
import subprocess

AUDITS = (
    "first-contentful-paint",
    "largest-contentful-paint",
    "total-blocking-time",
    "interactive",
    "total-byte-weight",
)
FLAGS = "--headless=new --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"


def say_lighthouse(url: str) -> None:
    """Run it on the app's first page (its own slow 4G and ÷ 4) and print its figures, or say that it is not here."""
    program = os.environ.get("SHUNTBOOK_LIGHTHOUSE") or shutil.which("lighthouse")
    if program is None:
        print("Lighthouse is not on this machine (SHUNTBOOK_LIGHTHOUSE, PATH): left out")
        return
    command = [program, url, "--output=json", "--quiet", "--only-categories=performance", f"--chrome-flags={FLAGS}"]
    surroundings = {**os.environ, "CHROME_PATH": shutil.which("chromium") or ""}
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=surroundings, timeout=180)
    if done.returncode != 0:
        print(f"Lighthouse failed, left out: {done.stderr.strip().splitlines()[-1:]}")
        return
    told = json.loads(done.stdout)
    score = told["categories"]["performance"]["score"]
    print(f"Lighthouse {told['lighthouseVersion']}, performance {score * 100:.0f} of 100")
    for name in AUDITS:
        audit = told["audits"][name]
        print(f"  {audit['title']:46}{audit.get('displayValue', 'no value')}")
