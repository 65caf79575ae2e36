"""What a signature on a walk is, in one sentence that every paper uses. Mirrors `walk.pdf.how` of the app's words."""

from shuntbook.kit.speech import Speech
from shuntbook.report.settling import Signature

SIDES = {"team": "For the team", "customer": "For the customer"}
HOW = {"not-present": "Not present", "refused": "Did not sign"}
DRAWN = "Signed on the screen"
TYPED = "Name typed, nothing drawn"


def signature_says(one: Signature, say: Speech) -> str:
    """Return "For the customer: Lena. Not present." A typed name that nobody drew by is no signature, and says so."""
    how = say(HOW.get(one.how, DRAWN if one.photo else TYPED))
    return say("{side}: {name}. {how}.", side=say(SIDES[one.side]), name=one.name, how=how)
