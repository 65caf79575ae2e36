"""Signatures against the published vectors of RFC 6979 and RFC 7515, and against `cryptography` itself."""

import base64
import json
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256
from hypothesis import given, settings
from hypothesis import strategies as st

from longer import times
from shuntbook.kit.signing import is_good, public_key, signed_bytes


def b64(data: bytes) -> str:
    return base64.urlsafe_b64encode(data).rstrip(b"=").decode()


def jwk(x: str, y: str) -> dict[str, str]:
    return {"kty": "EC", "crv": "P-256", "x": x, "y": y}


def test_the_es256_example_of_rfc_7515_is_good() -> None:
    # RFC 7515 (JSON Web Signature), appendix A.3: r‖s as base64url, as WebCrypto gives it too.
    key = public_key(jwk("f83OJ3D2xF1Bg8vub9tLe1gHMzV76e8Tus9uPHvRVEU", "x_FEzRu9m36HLN_tue659LNpXW6pCyStikYjKIWI5a0"))
    message = (
        b"eyJhbGciOiJFUzI1NiJ9.eyJpc3MiOiJqb2UiLA0KICJleHAiOjEzMDA4MTkzODAsDQogImh0dHA6Ly9leGFtcGxlLmNvbS9p"
        b"c19yb290Ijp0cnVlfQ"
    )
    signature = "DtEhU3ljbEg8L38VWAfUAqOyKAM6-Xx-F4GawxaepmXFCgfTjDxw5djxLa8ISlSApmWQxfKTUJqPP3-Kg6NU1Q"
    assert is_good(signature, message, key)
    assert not is_good(signature, message + b".", key)
    assert not is_good(signature[:-2] + "1A", message, key)


def test_the_p256_sha256_example_of_rfc_6979_is_good() -> None:
    # RFC 6979, appendix A.2.5: P-256, SHA-256, message "sample".
    x = bytes.fromhex("60FED4BA255A9D31C961EB74C6356D68C049B8923B61FA6CE669622E60F29FB6")
    y = bytes.fromhex("7903FE1008B8BC99A41AE9E95628BC64F2F1B20C2D7E9F5177A3C294D4462299")
    r = bytes.fromhex("EFD48B2AACB6A8FD1140DD9CD45E81D69D2C877B56AAF991C34D0EA84EAF3716")
    s = bytes.fromhex("F7CB1C942D657C41D436C7A1B6E29F65F3E900DBB9AFF4064DC4AB2F843ACDA8")
    key = public_key(jwk(b64(x), b64(y)))
    assert is_good(b64(r + s), b"sample", key)
    assert not is_good(b64(s + r), b"sample", key)
    # ECDSA takes s and n - s alike; the 64 bytes leave four bits of the last letter to spare, and they have to be 0.
    order = 0xFFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551
    assert is_good(b64(r + (order - int.from_bytes(s)).to_bytes(32)), b"sample", key)
    assert b64(r + s).endswith("qA")
    assert not is_good(b64(r + s)[:-1] + "B", b"sample", key)


def test_what_is_signed_is_the_rfc_8785_form_without_the_signature() -> None:
    entry = {"sig": "…", "seq": 1.0, "id": "é", "data": {"b": 2, "a": [1e21, 0.1]}}
    assert signed_bytes(entry).decode() == '{"data":{"a":[1e+21,0.1],"b":2},"id":"é","seq":1}'


@settings(max_examples=times(10, 50))
@given(st.dictionaries(st.text(max_size=5), st.integers(-(2**53) + 1, 2**53 - 1) | st.text(max_size=9), max_size=5))
def test_what_cryptography_signs_is_good_and_a_changed_entry_is_not(data: dict) -> None:
    private = ec.generate_private_key(ec.SECP256R1())
    numbers = private.public_key().public_numbers()
    key = public_key(jwk(b64(numbers.x.to_bytes(32)), b64(numbers.y.to_bytes(32))))
    entry = {"id": "one", "data": data}
    r, s = decode_dss_signature(private.sign(signed_bytes(entry), ec.ECDSA(SHA256())))
    signature = b64(r.to_bytes(32) + s.to_bytes(32))
    assert is_good(signature, signed_bytes({**entry, "sig": signature}), key)
    assert is_good(signature, signed_bytes(json.loads(json.dumps(entry))), key)
    assert not is_good(signature, signed_bytes({**entry, "id": "two"}), key)


@pytest.mark.parametrize(
    "key",
    [
        {},
        {"kty": "RSA", "n": "…"},
        jwk("", ""),
        jwk("!", "!"),
        jwk(b64(bytes(31)), b64(bytes(31))),
        # Not on the curve.
        jwk(b64(bytes(32)), b64(bytes(32))),
        {"kty": "EC", "crv": "P-384", "x": b64(bytes(32)), "y": b64(bytes(32))},
    ],
)
def test_what_is_no_key_of_the_curve_is_refused(key: dict) -> None:
    with pytest.raises(ValueError):
        public_key(key)


@pytest.mark.parametrize("signature", ["", "abc", "=" * 86, "!" * 86, b64(bytes(64)), b64(bytes(63)), b64(bytes(65))])
def test_what_is_no_signature_is_not_good(signature: str) -> None:
    private = ec.generate_private_key(ec.SECP256R1())
    assert not is_good(signature, b"", private.public_key())


VECTORS = json.loads((Path(__file__).parents[2] / "schemas" / "vectors" / "signatures.json").read_text())


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["name"])
def test_the_vectors_that_the_app_is_held_to_as_well(case: dict) -> None:
    key = public_key(VECTORS["keys"][case["key"]])
    assert signed_bytes(case["entry"]).decode() == case["signed"]
    assert is_good(case["entry"].get("sig", ""), signed_bytes(case["entry"]), key) is case["good"]
