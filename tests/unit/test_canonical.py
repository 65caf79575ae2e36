"""SHA-256 against FIPS 180-4, canonical JSON against RFC 8785."""

import json
from decimal import Decimal

import msgspec
import pytest
import rfc8785
from hypothesis import given, settings
from hypothesis import strategies as st

from longer import times
from shuntbook.kit.canonical import canonical, canonical_text, plain, sha256
from shuntbook.kit.money import quantity, two_decimals

# FIPS 180-4 and NIST's example values for SHA-256 (Cryptographic Standards and Guidelines, SHA256.pdf).
VECTORS = [
    (b"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
    (b"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
    (
        b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ),
    (b"a" * 1_000_000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"),
]


@pytest.mark.parametrize(("data", "digest"), VECTORS, ids=["abc", "empty", "448 bits", "a million a"])
def test_sha256_gives_the_standards_own_values(data, digest):
    assert sha256(data) == digest


def test_the_sample_of_section_3_2_2_has_the_standards_bytes():
    # RFC 8785, section 3.2.2 (input) and 3.2.4 (its UTF-8 bytes).
    sample = json.loads(
        r'{"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],'
        r' "string": "\u20ac$\u000F\u000aA\u0027\u0042\u0022\u005c\\\"\/",'
        r' "literals": [null, true, false]}'
    )
    expected = bytes.fromhex(
        "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e"
        "756d62657273223a5b3333333333333333332e333333333333332c31652b3330"
        "2c342e352c302e3030322c31652d32375d2c22737472696e67223a22e282ac24"
        "5c75303030665c6e4127425c225c5c5c5c5c222f227d"
    )
    assert canonical(sample) == expected


def test_keys_are_sorted_by_utf_16_code_units():
    # RFC 8785, section 3.2.3: the order of these seven keys, by their values.
    sample = {
        "\u20ac": "Euro Sign",
        "\r": "Carriage Return",
        "\ufb33": "Hebrew Letter Dalet With Dagesh",
        "1": "One",
        "\U0001f600": "Emoji: Grinning Face",
        "\u0080": "Control",
        "\u00f6": "Latin Small Letter O With Diaeresis",
    }
    assert list(json.loads(canonical(sample)).values()) == [
        "Carriage Return",
        "One",
        "Control",
        "Latin Small Letter O With Diaeresis",
        "Euro Sign",
        "Emoji: Grinning Face",
        "Hebrew Letter Dalet With Dagesh",
    ]


# RFC 8785, appendix B: IEEE 754 numbers and their JSON.
NUMBERS = [
    (0.0, "0"),
    (-0.0, "0"),
    (5e-324, "5e-324"),
    (1.7976931348623157e308, "1.7976931348623157e+308"),
    (9007199254740992.0, "9007199254740992"),
    (295147905179352830000.0, "295147905179352830000"),
    (9.999999999999997e22, "9.999999999999997e+22"),
    (1e23, "1e+23"),
    (0.000001, "0.000001"),
    (333333333.3333333, "333333333.3333333"),
]


@pytest.mark.parametrize(("number", "text"), NUMBERS)
def test_numbers_are_written_as_appendix_b_has_them(number, text):
    assert canonical([number]).decode() == f"[{text}]"


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf"), 2**53 + 1])
def test_numbers_outside_the_standard_are_refused(number):
    with pytest.raises(ValueError):
        canonical([number])


minutes = st.decimals(0, 10**12, places=2).map(two_decimals) | st.integers(0, 2**53 - 1)
quantities = st.decimals(0, 10**10, places=9).map(quantity)
words = st.text('aZ9:,[]{}.-e "\\/\n\x1fäß€\U0001f600')
leaves = st.none() | st.booleans() | minutes | quantities | words
queue_like = st.dictionaries(
    st.text("abcdefghijklmnopqrstuvwxyz_", min_size=1),
    st.recursive(leaves, lambda inner: st.lists(inner) | st.dictionaries(st.text("abc_"), inner), max_leaves=20),
)


@given(queue_like)
@settings(max_examples=times(15, 200))
def test_the_fast_form_has_the_same_bytes_as_the_standards(value):
    assert plain(value) == rfc8785.dumps(value)


numbers = st.floats(allow_nan=False) | st.floats(-100, 100).map(lambda one: round(one, 3)) | st.integers()
any_leaves = st.none() | st.booleans() | numbers | st.text()
any_json = st.recursive(any_leaves, lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner), max_leaves=20)


@given(any_json, st.booleans())
@settings(max_examples=times(80, 3000))
def test_a_text_taken_the_quick_way_has_the_standards_bytes_too(value, ascii_only):
    raw = json.dumps(value, ensure_ascii=ascii_only).encode(errors="surrogatepass")
    assert _or_refused(lambda: canonical_text(raw)) == _or_refused(lambda: canonical(msgspec.json.decode(raw)))


# Each would go wrong on the quick way: 3.0, exponents, numbers past 2^53, letters that UTF-16 sorts before others.
UNUSUAL = [
    "[3.0, -0.0, 1e3, 1E-7, 0.00001, 123456789.123456789]",
    "[9007199254740993]",
    r'{"\ufb33": 1, "\ud83d\ude00": 2}',
    '{"ﬀ": 1, "😀": 2}',
]


@pytest.mark.parametrize("text", UNUSUAL)
def test_what_only_the_library_writes_right_goes_its_way(text):
    raw = text.encode()
    assert _or_refused(lambda: canonical_text(raw)) == _or_refused(lambda: canonical(msgspec.json.decode(raw)))


def test_one_name_of_the_outermost_object_can_be_left_out():
    assert canonical_text(b'{"sig": "x", "b": {"sig": 1.0}, "a": 2}', without="sig") == b'{"a":2,"b":{"sig":1}}'


def _or_refused(work):
    try:
        return work()
    except ValueError:
        return "refused"


def test_quantities_have_four_decimals_at_most_so_that_no_exponent_is_ever_needed():
    # Python and msgspec write 1e-05, ECMAScript and so RFC 8785 write 0.00001.
    assert quantity(Decimal("0.00001")) == 0
    assert quantity(Decimal("0.00005")) == 0.0001
    assert plain({"short": quantity(Decimal("0.0001"))}) == b'{"short":0.0001}'
    assert plain({"short": quantity(Decimal("2.0"))}) == b'{"short":2}'


def test_an_id_with_an_e_before_its_hyphen_is_not_taken_for_a_number():
    value = {"id": "0197000e-1e-05", "note": ":1e-05,"}
    assert plain(value) == canonical(value)
