"""What a signature on a walk is, in one sentence that every paper uses. Mirrors `walk.pdf.how` of the app's words."""

from shuntbook.report.settling import Signature

SIDES = {"team": "For the team", "customer": "For the customer"}
HOW = {"not-present": "Not present", "refused": "Did not sign"}
DRAWN = "Signed on the screen"
TYPED = "Name typed, nothing drawn"


def signature_says(one: Signature) -> str:
    """Return "For the customer: Lena. Not present." A typed name that nobody drew by is no signature, and says so."""
    return f"{SIDES[one.side]}: {one.name}. {HOW.get(one.how, DRAWN if one.photo else TYPED)}."
