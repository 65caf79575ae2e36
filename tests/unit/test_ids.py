"""UUIDv7 against the sample of RFC 9562, appendix A.6."""

import pytest

from shuntbook.kit.ids import is_uuid7, unix_ms_of, uuid7

# RFC 9562, appendix A.6: made at 1645557742000 ms, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F.
SAMPLE = "017F22E2-79B0-7CC3-98C4-DC0C0C07398F"
SAMPLE_MS = 1645557742000
SAMPLE_BITS = 0xCC3 << 62 | 0x18C4DC0C0C07398F


def test_the_sample_of_the_standard_is_made_from_its_time_and_bits():
    assert uuid7(SAMPLE_MS, SAMPLE_BITS).upper() == SAMPLE


def test_the_sample_of_the_standard_gives_its_time_back():
    assert unix_ms_of(SAMPLE) == SAMPLE_MS


def test_the_sample_of_the_standard_is_a_uuid7_in_either_case():
    assert is_uuid7(SAMPLE)
    assert is_uuid7(SAMPLE.lower())


def test_later_ids_sort_after_earlier_ones():
    assert uuid7(SAMPLE_MS, 2**74 - 1) < uuid7(SAMPLE_MS + 1, 0)


def test_bits_beyond_the_fields_do_not_reach_version_or_variant():
    made = uuid7(2**48 - 1, 2**200 - 1)
    assert made == "ffffffff-ffff-7fff-bfff-ffffffffffff"
    assert is_uuid7(made)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "017F22E2-79B0-4CC3-98C4-DC0C0C07398F",  # version 4
        "017F22E2-79B0-7CC3-C8C4-DC0C0C07398F",  # variant 110
        "017F22E279B07CC398C4DC0C0C07398F",  # no hyphens
        f"{{{SAMPLE}}}",
        f"{SAMPLE}\n",
        SAMPLE[:-1] + "g",
    ],
)
def test_what_is_no_uuid7_is_told_apart(text):
    assert not is_uuid7(text)
