"""What `serve --tls` says in the terminal: how to trust the CA, where the app is, who may join."""

from shuntbook.tls.ready import Ready


def told(ready: Ready, code: str) -> str:
    """Return the lines that tell how phones get in; `code` is the QR code of the page, "" where it can't be shown."""
    where = ready.where
    lines = [
        f"{'A new CA was made' if ready.made else 'The CA is the one of before'}; it is kept in {ready.ca_folder}",
        "Keep a copy of that folder in a private place: without it every phone has to trust again.",
        "",
        "1. On each phone, once, on this network: open this page and do what it says.",
        *([code] if code else []),
        f"   {where.page}",
        "   The certificate's SHA-256 fingerprint; it must be the same on the phone:",
        *(f"   {line}" for line in _halves(ready.ca.fingerprint)),
        "",
        "2. Then the app is at",
        f"   {where.app}",
        *(f"   or {other}" for other in where.others),
        "   Choose one and keep to it: what a phone has not sent yet is kept under the address it was opened at.",
        "",
    ]
    return "\n".join(lines)


def told_of_invite(person: str, link: str, code: str, step: str = "") -> str:
    """Return the lines that let one person in; the link works once. step: its number after what `told` says."""
    return "\n".join(
        [f"{step}{person} joins with this link. It works once.", *([code] if code else []), f"   {link}", ""]
    )


def _halves(fingerprint: str) -> tuple[str, str]:
    middle = (len(fingerprint) + 1) // 2
    return fingerprint[:middle], fingerprint[middle:]
