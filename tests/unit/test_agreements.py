"""Who pays, what runs out: the tables of event.toml, and every fault in them."""

from datetime import date
from decimal import Decimal

import pytest

from shuntbook.kit.errors import BadSetup
from shuntbook.setup.agreements import Agreement
from shuntbook.setup.event import Event, read_event
from shuntbook.setup.faults import Faults
from shuntbook.setup.folder import read_setup

HEAD = 'event = "small-2026"\n[[cars]]\ncar = "41"\n[[cars]]\ncar = "42"\n'
TERMS = """[[agreements]]
agreement = "hire-42"
car = "42"
customer = "Lena"
drivers = ["p-rens"]
excess = 1500.00
excess_per = "event"
cap = 4000
share_percent = 50
wear_excluded = ["mud-flap"]
included = {tyre = 4}
part_worn = false
labour_per_hour = 0
consumables_percent = 5
recovery = "included"
deposit = 2000
tax_percent = 20
later_findings_days = 14
text = "As signed."
"""
RATES = {
    "rates/operations.csv": b"component,condition,action,minutes_best,minutes_likely,minutes_worst,mechanics,access,"
    b"parts,must_do,value\n",
    "rates/access.csv": b"step,per,minutes_open,minutes_close,mechanics\n",
    "rates/parts.csv": b"part,description,unit_cost\ntyre,Tyre,180.00\n",
    "rates/rates.toml": b'currency = "EUR"\nlabour_per_hour = 60.00\ntax_percent = 20\n'
    b"inspect_minutes = [1, 2, 4]\nassess_minutes = [5, 10, 20]\n",
}


def read(text: str) -> Event:
    faults = Faults()
    event = read_event((HEAD + text).encode(), faults)
    faults.raise_if_any()
    assert event is not None
    return event


def test_every_term_of_an_agreement_is_read() -> None:
    event = read(TERMS)
    assert event.agreement_of("41") is None
    assert event.agreement_of("42") == Agreement(
        "hire-42", "42", "Lena", ("p-rens",), Decimal(1500), "event", Decimal(4000), Decimal(50), ("mud-flap",),
        {"tyre": Decimal(4)}, False, Decimal(0), Decimal(5), "included", Decimal(2000), Decimal(20), 14, "As signed.",
    )  # fmt: skip


def test_what_is_not_said_leaves_all_of_the_damage_to_the_customer_at_the_tables_rate() -> None:
    read_one = read('[[agreements]]\nagreement = "hire"\ncar = "42"\ncustomer = "Lena"\n').agreement_of("42")
    assert read_one == Agreement("hire", "42", "Lena")
    assert (read_one.excess, read_one.cap, read_one.labour_per_hour) == (None, None, None)


def test_what_runs_out_is_read() -> None:
    event = read('[[dated]]\ncar = "41"\nitem = "harness"\nplace = "driver"\nexpires = 2027-05-31\nseal = "A-10"\n')
    [item] = event.dated
    assert (item.car, item.item, item.place, item.expires, item.seal) == (
        "41", "harness", "driver", date(2027, 5, 31), "A-10",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("was", "now", "column"),
    [
        ('car = "42"', 'car = "7"', "agreements.car"),
        ('excess_per = "event"', 'excess_per = "day"', "agreements.excess_per"),
        ("share_percent = 50", "share_percent = 101", "agreements.share_percent"),
        ("included = {tyre = 4}", "included = 4", "agreements.included"),
        ("excess = 1500.00", 'excess = "much"', "agreements.excess"),
        ("later_findings_days = 14", "later_findings_days = 1.5", "agreements.later_findings_days"),
    ],
)
def test_a_fault_in_an_agreement_names_its_term(was: str, now: str, column: str) -> None:
    # The last of the text: "car" stands in the head of the file, too.
    before, _, after = TERMS.rpartition(was)
    with pytest.raises(BadSetup) as refused:
        read(before + now + after)
    assert column in [fault.column for fault in refused.value.faults]
    assert all(fault.row > 5 for fault in refused.value.faults)


def test_a_day_in_quotes_is_a_fault() -> None:
    with pytest.raises(BadSetup, match="without quotes"):
        read('[[dated]]\ncar = "41"\nitem = "harness"\nexpires = "2027-05-31"\n')


@pytest.mark.parametrize(
    ("was", "now", "said"),
    [("1500.00", "1500.005", "more decimals than EUR"), ("tyre", "tire", "'tire' is not in parts.csv")],
)
def test_terms_are_held_against_the_rate_table(was: str, now: str, said: str) -> None:
    files = {"event.toml": (HEAD + TERMS.replace(was, now, 1)).encode(), **RATES}
    with pytest.raises(BadSetup, match=said):
        read_setup(files)
    assert read_setup({**files, "event.toml": (HEAD + TERMS).encode()}).event.agreement_of("42")


@pytest.mark.parametrize(
    ("line", "column", "said"),
    [
        (
            'excluded = ["mudflap"]',
            "excluded",
            "'mudflap' is neither in the car map nor in operations.csv; did you mean",
        ),
        ('wear_excluded = ["mudflap"]', "wear_excluded", "did you mean mud-flap?"),
        ('drivers = ["p-dorr"]', "drivers", "'p-dorr' is not a person of this event; did you mean p-dorra?"),
        ('wear = "charge"', "wear", "'charge' is not one of excluded, charged"),
        ("exces = 100", "exces", "'exces' is not a key of agreements; did you mean excess?"),
    ],
)
def test_a_slip_in_an_agreement_is_asked_about_and_a_stored_set_up_is_read_as_it_was_taken(
    line: str, column: str, said: str
) -> None:
    people = '[[people]]\nperson = "p-dorra"\nroles = ["driver"]\n'
    text = f'{HEAD}{people}[[agreements]]\nagreement = "hire"\ncar = "42"\ncustomer = "Lena"\n{line}\n'
    files = {"event.toml": text.encode(), **RATES}
    with pytest.raises(BadSetup) as refused:
        read_setup(files)
    [fault] = refused.value.faults
    assert (fault.file, fault.row, fault.column) == ("event.toml", text.count("\n"), f"agreements.{column}")
    assert said in fault.what
    stored = read_setup(files, stored=True)
    assert [warning.column for warning in stored.warnings] == [f"agreements.{column}"]
    assert stored.event.agreement_of("42")


def test_what_release_0_1_0_called_wear_excluded_is_excluded_for_good() -> None:
    text = '[[agreements]]\nagreement = "hire"\ncar = "42"\ncustomer = "Lena"\n{}\n'
    older = read(text.format('wear_excluded = ["mud-flap"]\nexcluded = ["arch-liner"]')).agreement_of("42")
    assert older and older.never_charged == {"mud-flap", "arch-liner"}
