"""Phones of tests that sign what they write, and what such tests ask of the answers."""

from flask.testing import FlaskClient

from making import Json
from phone import Phone
from shuntbook.flow import clock, joining
from shuntbook.store.database import Store
from signer import Signer


class Signing(Phone):
    """A phone that joined as a person with a key of its own."""

    def __init__(self, client: FlaskClient, store: Store, person: str, key: bool = True, pin: bool = False) -> None:
        self.signer, self.second = Signer(), Signer() if pin else None
        code = joining.invite(store, person, clock.now())
        body: Json = {"code": code, "key": self.signer.jwk} if key else {"code": code}
        if self.second:
            body["second_key"] = self.second.jwk
        joined = client.post("/api/v1/join", json=body).get_json()
        super().__init__(client, {"Authorization": f"Bearer {joined['token']}"})
        self.person, self.device = person, joined["device"]

    def by(self, entry: Json) -> Json:
        """Return an entry as this phone's person writes and signs it."""
        return self.signer.sign({**entry, "person": self.person, "device": self.device})

    def by_pin(self, entry: Json) -> Json:
        """Return an entry as this phone's person writes and signs it with the key that the own PIN unlocks."""
        assert self.second is not None
        return self.second.sign({**entry, "person": self.person, "device": self.device})


def codes(answer: Json) -> list[str]:
    """Return why entries of a batch were refused."""
    return [one["problem"]["type"].rsplit("/", 1)[1] for one in answer["rejected"]]


def review(reader: Phone) -> list[list[str]]:
    """Return the entries of each reason to hold car 41 until a manager has looked."""
    return [reason["entries"] for reason in reader.queue()["hold_reasons"] if reason["needs"] == "review"]


def decide(manager: Phone, digest: str, verdict: str, reason: str = "asked him") -> int:
    """Decide on what was set aside and return the status of the answer."""
    body = {"verdict": verdict, "reason": reason}
    return manager.client.post(f"/api/v1/set-aside/{digest}/review", json=body, headers=manager.headers).status_code


def aside(manager: Phone) -> Json:
    """Return the one entry that waits for a look."""
    waiting: Json
    (waiting,) = [one for one in manager.get("/set-aside").get_json() if one["reviewed_at"] is None]
    return waiting
