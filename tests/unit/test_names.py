"""Names and addresses for the certificate: what a machine says of itself, and what its owner adds."""

import pytest

from shuntbook.kit.errors import NotAllowed
from shuntbook.tls.names import names_of, this_machine
from shuntbook.tls.page import addresses

CARDS = ["192.168.8.10", "fe80::1c2%wlan0", "02:fc:00:00:00:01", "127.0.0.1", "fd00::2", "::1"]


def test_a_machine_is_known_by_its_name_with_local_and_localhost():
    # RFC 6762: a host answers to its first label under .local.
    assert names_of("Van-Laptop.fritz.box", []).dns == (
        "van-laptop.fritz.box",
        "van-laptop",
        "van-laptop.local",
        "localhost",
    )
    assert names_of("van.local", []).dns == ("van.local", "van", "localhost")


def test_addresses_are_those_that_a_phone_can_use_version_4_first_and_loopback_last():
    assert names_of("van", CARDS).addresses == ("192.168.8.10", "fd00::2", "127.0.0.1", "::1")


def test_what_the_owner_names_comes_first_and_is_the_one_to_print():
    names = names_of("van", CARDS, ["Boot.lan", "192.168.9.1"])
    assert names.first == "boot.lan"
    assert names.dns[0] == "boot.lan"
    assert "192.168.9.1" in names.addresses
    assert names_of("van", CARDS, ["192.168.8.10"]).first == "192.168.8.10"


def test_without_a_usable_name_an_address_is_printed_and_last_of_all_localhost():
    assert names_of("van", CARDS).first == "van.local"
    assert names_of("Müllers Rechner", CARDS).first == "192.168.8.10"
    assert names_of("localhost", []).first == "localhost"


@pytest.mark.parametrize("word", ["", "two words", "-van", "van..lan", "http://van.lan", "van.lan/", "*.lan", "x" * 64])
def test_a_word_that_is_no_name_is_refused_with_what_to_write(word):
    with pytest.raises(NotAllowed, match=r"van\.lan"):
        names_of("van", [], [word])


def test_this_machine_has_a_name_and_its_loopback():
    names = this_machine()
    assert "localhost" in names.dns
    assert {"127.0.0.1", "::1"} <= set(names.addresses)


def test_links_hold_ipv6_in_brackets_and_leave_loopback_out():
    where = addresses(names_of("van", CARDS), 8017, 8018)
    assert (where.app, where.page) == ("https://van.local:8017/", "http://van.local:8018/")
    assert where.others == ("https://van:8017/", "https://192.168.8.10:8017/", "https://[fd00::2]:8017/")
