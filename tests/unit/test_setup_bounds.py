"""Numbers have bounds and files have sizes: what nobody can mean is a fault with a place, and never a crash."""

from decimal import Decimal

import pytest

from shuntbook.kit.errors import BadSetup, Fault
from shuntbook.setup import csv_file, toml_file
from shuntbook.setup.folder import Setup, read_setup
from shuntbook.setup.keys import MOST
from shuntbook.setup.tables import TABLES
from small_event import EVENT, FILES, small_files, small_setup

KM = b"km = 12.5"
TERMS = """[[agreements]]
agreement = "hire-42"
car = "42"
customer = "Lena"
excess = 1500.00
cap = 4000
labour_per_hour = 0
deposit = 2000
later_findings_days = 14
"""


def faults(**changed: bytes | None) -> list[Fault]:
    with pytest.raises(BadSetup) as caught:
        small_setup(**changed)
    return caught.value.faults


def stored(text: bytes) -> Setup:
    return read_setup({**small_files(), "event.toml": text}, stored=True)


@pytest.mark.parametrize(
    ("number", "what"),
    [
        (b"1e999999999", "more than 12 digits"),
        (b"1e27", "more than 12 digits"),
        (b"9" * 5000, "too long to be read"),
        (b"0x" + b"f" * 5000, "more than 12 digits"),
        (b"1e-999999999", "decimals; round it"),
        (b"inf", "not a number to calculate with"),
        (b"nan", "not a number to calculate with"),
        (b"10001", "above 10000; write 10000 or less"),
        (b"-0.5", "below 0; write 0 or more"),
    ],
)
def test_a_number_that_nobody_can_mean_is_a_fault_on_its_line(number: bytes, what: str) -> None:
    (fault,) = faults(event=EVENT.replace(KM, b"km = " + number))
    assert (fault.file, fault.row) == ("event.toml", EVENT[: EVENT.index(KM)].count(b"\n") + 1)
    assert what in fault.what
    assert len(fault.what) < 200


def test_the_bound_itself_is_taken() -> None:
    assert small_setup(event=EVENT.replace(KM, b"km = 10000")).event.stages[1].km == 10_000


@pytest.mark.parametrize("term", ["excess", "cap", "labour_per_hour", "deposit"])
def test_an_amount_of_an_agreement_has_twelve_digits_at_most(term: str) -> None:
    def event(amount: str) -> bytes:
        lines = [line for line in TERMS.splitlines() if not line.startswith(f"{term} =")]
        return EVENT + "\n".join([*lines, f"{term} = {amount}\n"]).encode()

    assert getattr(small_setup(event=event(str(MOST))).event.agreements[0], term) == MOST
    (fault,) = faults(event=event("1e27"))
    assert (fault.file, fault.column, fault.row) == ("event.toml", f"agreements.{term}", event("1e27").count(b"\n"))


def test_days_that_no_calendar_has_are_a_fault() -> None:
    text = EVENT + TERMS.replace("= 14", "= 99999999999").encode()
    (fault,) = faults(event=text)
    assert (fault.column, fault.what[:27]) == ("agreements.later_findings_days", "99999999999 is above 36500;")


@pytest.mark.parametrize(
    ("word", "old", "new", "column"),
    [
        ("operations", b"wheel,bent,replace,3", b"wheel,bent,replace,1e999999999", "minutes_best"),
        ("parts", b"210.00", b"1e27", "unit_cost"),
        ("parts", b"210.00", b"9" * 5000, "unit_cost"),
        ("access", b"on-stands,car,2", b"on-stands,car,100001", "minutes_open"),
        ("van", b"rim,2", b"rim,1e27", "loaded"),
    ],
)
def test_a_cell_beyond_its_bounds_is_named_by_row_and_column(word: str, old: bytes, new: bytes, column: str) -> None:
    name = next(name for name in FILES if name.split("/")[-1].startswith(f"{word}."))
    assert old in FILES[name]
    (fault,) = faults(**{word: FILES[name].replace(old, new, 1)})
    assert (fault.row, fault.column) == (2, column)
    assert len(fault.what) < 200


@pytest.mark.parametrize("text", [b"deep = " + b"[" * 20_000, b"deep = " + b"{a = " * 20_000])
def test_toml_that_is_nested_without_end_is_a_fault(text: bytes) -> None:
    (fault,) = faults(event=text)
    assert fault.file == "event.toml"
    assert "nested too deep" in fault.what


def test_a_file_beyond_its_size_is_a_fault_before_it_is_read() -> None:
    (toml,) = faults(event=EVENT + b"#" * toml_file.MOST_BYTES)
    (csv,) = faults(van=b"part,loaded\n" + b"\n" * csv_file.MOST_BYTES)
    assert "bytes; a file of this kind has at most" in toml.what
    assert "bytes; a file of this kind has at most" in csv.what


def test_rows_beyond_the_most_are_a_fault_and_are_not_read() -> None:
    rows = b"".join(b"part-%d,x\n" % number for number in range(csv_file.MOST_ROWS + 500))
    found = faults(van=b"part,loaded\n" + rows)
    assert [fault.row for fault in found if "more than 20000 rows" in fault.what] == [csv_file.MOST_ROWS + 2]
    assert max(fault.row for fault in found) == csv_file.MOST_ROWS + 2


@pytest.mark.parametrize("many", [101, 300_000])
def test_columns_beyond_the_most_are_one_fault_and_are_not_read(many: int) -> None:
    (fault,) = faults(van=b"part,loaded" + b",a" * (many - 2))
    assert (fault.file, fault.row) == ("van.csv", 1)
    assert fault.what.startswith(f"has {many} columns; a file has at most 100")


@pytest.mark.parametrize(
    "key", [b".".join([b"a"] * 50_000), b" . ".join([b'"a.b"'] * 21), b"[" + b".".join([b"t"] * 21) + b"]\nk"]
)
def test_a_key_of_dots_without_end_is_a_fault_on_its_line(key: bytes) -> None:
    lines = len(EVENT.splitlines())
    (fault,) = faults(event=EVENT.rstrip() + b"\n" + key + b" = 1\n")
    assert (fault.file, fault.row) == ("event.toml", lines + 1)
    assert "more than 20 parts" in fault.what


def test_dots_in_texts_and_comments_are_no_keys() -> None:
    dots = b".".join([b"a"] * 100)
    texts = b'"%s" \'%s\' """\n%s\n"""' % (dots, dots, dots)
    first, second, third = texts.split(b" ", 2)
    wordy = b"# %s\n" % dots + b"\n".join([b"w.a = " + first, b"w.b = " + second, b"w.c = " + third])
    assert small_setup(event=wordy + b"\n" + EVENT).event.event == small_setup().event.event


def test_so_many_faults_end_the_reading_and_the_last_says_so() -> None:
    rows = b"".join(b"part-%d,x\n" % number for number in range(5000))
    found = faults(van=b"part,loaded\n" + rows)
    assert len(found) == 1001
    assert [fault.what for fault in found if fault.column == ""] == [
        "more than 1000 faults; put these right and look again"
    ]
    operations = next(name for name in FILES if name.endswith("operations.csv"))
    bad = FILES[operations].splitlines()[0] + b"\n" + b"x,y,z,a,b,c,d,e,f,g,h\n" * 5000
    assert {fault.file for fault in faults(operations=bad)} == {operations}, "named as it lies in the folder"


def test_a_set_up_that_is_stored_is_read_as_it_was_taken_with_a_warning() -> None:
    long = EVENT.replace(KM, b"km = 12000")
    assert faults(event=long)
    setup = stored(long)
    assert setup.event.stages[1].km == 12_000
    (warning,) = setup.warnings
    assert (warning.file, warning.column) == ("event.toml", "stages.km")
    assert "above 10000" in warning.what


def test_a_stored_number_that_nothing_can_be_calculated_with_is_held_to_its_bound() -> None:
    setup = stored(EVENT.replace(KM, b"km = 1e999999999"))
    assert setup.event.stages[1].km == Decimal(10_000)
    assert "more than 12 digits" in setup.warnings[0].what


def test_what_release_0_1_0_refused_stays_a_fault_in_a_stored_set_up() -> None:
    with pytest.raises(BadSetup, match="below 0"):
        stored(EVENT.replace(KM, b"km = -3"))


def test_every_number_has_its_bounds_stated() -> None:
    kinds = ("number", "whole", "money", "points", "quantities")
    keys = [key for table in TABLES for key in table.columns if key.kind in kinds]
    assert len(keys) > 40
    assert all(key.least < key.most <= MOST for key in keys)


UNKNOWN = [
    (
        b'[[agreements]]\nagreement = "a"\ncar = "42"\ncustomer = "C"\nexess = 5\n',
        "agreements.exess",
        "did you mean excess?",
    ),
    (
        b'[[agreements]]\nagreement = "a"\ncar = "42"\ncustomer = "C"\n'
        b'[[clauses]]\nagreement = "a"\nclause = "4.2"\nof = "wear"\nclaus = "4"\n',
        "clauses.claus",
        "did you mean clause?",
    ),
    (b'[sender]\nadress = "Quarry Lane"\n', "sender.adress", "did you mean address?"),
    (
        b'[[other_charges]]\ncharge = "fuel"\nprice = 2\npertank = 60\n',
        "other_charges.pertank",
        "did you mean per_tank?",
    ),
]


@pytest.mark.parametrize(("addition", "column", "what"), UNKNOWN)
def test_a_key_that_an_agreement_does_not_have_is_a_fault(addition: bytes, column: str, what: str) -> None:
    (fault,) = faults(event=EVENT + addition)
    assert (fault.column, fault.row) == (column, (EVENT + addition).count(b"\n"))
    assert what in fault.what
    assert stored(EVENT + addition).warnings[0].column == column


@pytest.mark.parametrize(
    ("text", "column", "what"),
    [
        (EVENT.replace(KM, KM + b"\nsurfase = 1"), "stages.surfase", "'surfase' is not a key of stages"),
        (b'emergancy = "112"\n' + EVENT, "emergancy", "did you mean emergency?"),
        (EVENT + b"[[servces]]\nx = 1\n", "servces", "did you mean services?"),
    ],
)
def test_a_key_that_another_table_does_not_have_is_kept_with_a_warning(text: bytes, column: str, what: str) -> None:
    (warning,) = small_setup(event=text).warnings
    assert warning.column == column
    assert what in warning.what


def test_a_column_that_a_csv_file_does_not_have_is_asked_about() -> None:
    (fault,) = faults(van=b"part,loaded,lodaed\nrim,2,3\n")
    assert "did you mean loaded?" in fault.what
