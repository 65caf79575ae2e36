"""Rate table, access, parts, checks and van: each fault is named by file, row and column; all at once."""

from decimal import Decimal

import pytest

from shuntbook.kit.errors import BadSetup, Fault
from shuntbook.setup.folder import read_setup
from small_event import FILES, NAMES, OPERATIONS, small_files, small_setup

HEADER = OPERATIONS.splitlines()[0].decode()
ROW = "wheel,bent,replace,3,4,8,1,car-on-stands,rim,true,50,"


def faults(**changed: bytes | None) -> list[Fault]:
    with pytest.raises(BadSetup) as caught:
        small_setup(**changed)
    return caught.value.faults


def row(**cells: str) -> bytes:
    """The rate table with one row, some of its cells changed."""
    columns = HEADER.split(",")
    filled = dict(zip(columns, ROW.split(","), strict=True)) | cells
    return f"{HEADER}\n{','.join(filled[column] for column in columns)}\n".encode()


# (cells of the only row, column of the fault, a word of what it says)
CELLS = [
    ({"component": ""}, "component", "must be filled"),
    ({"action": ""}, "action", "must be filled"),
    ({"condition": "dented"}, "condition", "'dented' is not one of"),
    ({"condition": "unknown"}, "condition", "what is unknown is inspected"),
    ({"minutes_best": "-1"}, "minutes_best", "below 0"),
    ({"minutes_best": "0"}, "minutes_best", "not above 0"),
    ({"minutes_best": "5"}, "minutes_likely", "likely 4 is below best 5"),
    ({"minutes_worst": "2"}, "minutes_worst", "worst 2 is below likely 4"),
    ({"minutes_likely": ""}, "minutes_likely", "not a number"),
    ({"minutes_likely": "four"}, "minutes_likely", "'four' is not a number"),
    ({"minutes_likely": "NaN"}, "minutes_likely", "calculate with"),
    ({"minutes_worst": "Infinity"}, "minutes_worst", "calculate with"),
    ({"mechanics": "0"}, "mechanics", "below 1"),
    ({"mechanics": "1.5"}, "mechanics", "not a whole number"),
    ({"access": "lift-up"}, "access", "'lift-up' is not in access.csv"),
    ({"access": "car-on-stands;lift-up"}, "access", "'lift-up' is not in access.csv"),
    ({"parts": "rimm"}, "parts", "'rimm' is not in parts.csv"),
    ({"parts": "rim*two"}, "parts", "'rim*two' is not part*quantity"),
    ({"parts": "rim*0"}, "parts", "quantity above 0"),
    ({"must_do": "perhaps"}, "must_do", "neither true nor false"),
    ({"value": "-5"}, "value", "below 0"),
]


@pytest.mark.parametrize(("cells", "column", "what"), CELLS)
def test_a_bad_cell_of_the_rate_table_is_named_by_row_and_column(cells, column, what):
    (fault,) = faults(operations=row(**cells))
    assert (fault.file, fault.row, fault.column) == ("rates/operations.csv", 2, column)
    assert what in fault.what


# (cells of the only row, the columns and a word of each fault): one fault hides no other
SEVERAL = [
    ({"minutes_best": "0", "minutes_likely": "9"}, [("minutes_best", "above 0"), ("minutes_worst", "below likely 9")]),
    ({"minutes_worst": "x", "minutes_best": "5"}, [("minutes_likely", "below best 5"), ("minutes_worst", "a number")]),
    ({"minutes_likely": "", "minutes_worst": "2"}, [("minutes_likely", "a number"), ("minutes_worst", "below best 3")]),
    ({"access": "lift-up;car-on-stands;ramp"}, [("access", "'lift-up' is not"), ("access", "'ramp' is not")]),
    ({"parts": "rimm*2;hoose"}, [("parts", "'hoose' is not"), ("parts", "'rimm' is not")]),
]  # fmt: skip


@pytest.mark.parametrize(("cells", "told"), SEVERAL)
def test_each_fault_of_a_row_is_named_beside_the_others(cells, told):
    found = faults(operations=row(**cells))
    assert [(fault.row, fault.column) for fault in found] == [(2, column) for column, _ in told]
    assert all(what in fault.what for fault, (_, what) in zip(found, told, strict=True))


def test_a_missing_column_hides_no_fault_of_the_rows_and_makes_none():
    without = b"\n".join(line.rsplit(b",", 1)[0] for line in PARTS.splitlines())
    assert without.startswith(b"part,description\n")
    found = faults(parts=without + b"\nrim,Rim again\n,No name\n,Nor here\n")
    assert [(one.file, one.row, one.column) for one in found] == [
        ("rates/parts.csv", 1, "unit_cost"),
        ("rates/parts.csv", 6, "part"),
        ("rates/parts.csv", 7, "part"),
        ("rates/parts.csv", 8, "part"),
    ]


def test_a_check_that_the_checks_file_lacks_is_a_fault():
    table = f"{HEADER},then\n{ROW},toe-check\n".encode()
    checks = b"check,minutes_best,minutes_likely,minutes_worst,mechanics,when,by\nnuts,1,1,1,1,on-ground,other\n"
    (fault,) = faults(operations=table, checks=checks)
    assert (fault.row, fault.column) == (2, "then")
    assert "'toe-check' is not in checks.csv" in fault.what
    fixed = small_setup(operations=table.replace(b"toe-check", b"nuts"), checks=checks)
    assert fixed.rates.checks["nuts"].by == "other"


PARTS, ACCESS = FILES["rates/parts.csv"], FILES["rates/access.csv"]
CHECKS = b"check,minutes_best,minutes_likely,minutes_worst,mechanics,when,by\nnuts,1,1,1,1,on-ground,other\n"

# (file's word, its bytes, row, column, a word of what it says)
FILES_WITH_A_FAULT = [
    ("operations", OPERATIONS.replace(b",value", b",worth"), 1, "value", "missing"),
    ("operations", OPERATIONS.replace(b",zone\n", b",zone,colour\n"), 1, "colour", "unknown column"),
    ("operations", OPERATIONS.replace(b",zone\n", b",value\n"), 1, "value", "twice"),
    ("operations", OPERATIONS + b"lamp,broken,glue,1,1,1,1,,,,1,\n", 10, "component", "stands in row 7 already"),
    ("operations", OPERATIONS + b"lamp,bent,glue,1,1,1,1,,,,1,,x\n", 10, "", "13 cells, the header 12"),
    ("operations", b'component,"condition\n', 1, "", "not valid CSV"),
    ("operations", b"", 1, "component", "missing"),
    ("operations", b"\xff\xfe", 0, "", "not UTF-8"),
    ("parts", PARTS + b"rim,Rim again,1.00\n", 6, "part", "stands in row 2 already"),
    ("parts", PARTS.replace(b"210.00", b"210.001"), 2, "unit_cost", "more decimals than EUR (2)"),
    ("parts", PARTS.replace(b"210.00", b""), 2, "unit_cost", "not a number"),
    ("parts", PARTS.replace(b"210.00", b"-1"), 2, "unit_cost", "below 0"),
    ("access", ACCESS.replace(b",car,2", b",both,2"), 2, "per", "not one of car, zone"),
    ("access", ACCESS.replace(b"on-stands,car,2", b"on-stands,car,-2"), 2, "minutes_open", "below 0"),
    ("checks", CHECKS.replace(b"on-ground", b"later"), 2, "when",
     "'later' is not one of before-close, on-ground"),
    ("checks", CHECKS.replace(b"other", b"me"), 2, "by",
     "'me' is not one of anyone, other, inspector"),
    ("van", b"part,loaded\nrim,1\nrim,2\n", 3, "part", "stands in row 2 already"),
    ("van", b"part,loaded\nrim,-1\n", 2, "loaded", "below 0"),
    ("van", b"part\nrim\n", 1, "loaded", "missing"),
    ("rates", b'currency = "EUX"\nlabour_per_hour = 60\n', 1, "currency", "not an ISO 4217 currency code"),
    ("rates", b'currency = "EUR"\nlabour_per_hour = 60.005\n', 2, "labour_per_hour", "more decimals than EUR (2)"),
    ("rates", b'currency = "JPY"\nlabour_per_hour = 60.5\n', 2, "labour_per_hour", "more decimals than JPY (0)"),
    ("rates", b'currency = "EUR"\n', 0, "labour_per_hour", "missing"),
    ("rates", b'currency = "EUR"\nlabour_per_hour = 60\ninspect_minutes = [3, 2, 1]\n', 3, "inspect_minutes", "ascend"),
    ("rates", b'currency = "EUR"\nlabour_per_hour = 60\nassess_minutes = [0, 2, 3]\n', 3, "assess_minutes", "above 0"),
    ("rates", b'currency = "EUR"\nlabour_per_hour = 60\ntax_percent = -1\n', 3, "tax_percent", "below 0"),
    ("rates", b'currency = "EUR"\nlabour_per_hour = \n', 2, "", "not valid TOML"),
    ("rates", b"# to be written\n", 0, "currency", "missing"),
]  # fmt: skip


@pytest.mark.parametrize(("word", "data", "place", "column", "what"), FILES_WITH_A_FAULT)
def test_a_faulty_file_names_its_row_and_column(word, data, place, column, what):
    found = [f for f in faults(**{word: data}) if f.file == NAMES[word] and (f.row, f.column) == (place, column)]
    assert len(found) == 1
    assert what in found[0].what


def test_steps_that_need_one_another_in_a_ring_are_named_with_their_rows():
    ring = b"step,per,minutes_open,minutes_close,mechanics,needs\n\ncar-on-stands,car,2,1,2,bonnet-up\n"
    ring += b"wheel-off,zone,1,1,1,\nbonnet-up,car,1,1,1,car-on-stands\n"
    found = faults(access=ring)
    assert [(f.row, f.column) for f in found] == [(3, "needs"), (5, "needs")]
    assert all("needs itself" in f.what for f in found)


def test_a_step_that_needs_one_that_is_not_there_is_named():
    data = FILES["rates/access.csv"].replace(b"mechanics\n", b"mechanics,needs\n\n", 1)
    (fault,) = faults(access=data.replace(b",1,1,1\n", b",1,1,1,ramp\n"))
    assert (fault.file, fault.row, fault.column) == ("rates/access.csv", 4, "needs")


@pytest.mark.parametrize("word", ["rates", "operations", "access", "parts"])
def test_a_rate_table_with_a_file_missing_says_which(word):
    found = [fault for fault in faults(**{word: None}) if fault.file == NAMES[word]]
    assert [fault.what for fault in found] == ["this file is missing; add it to rates/"]


def test_a_file_that_does_not_belong_is_named():
    with pytest.raises(BadSetup) as caught:
        read_setup({**small_files(), "rates/prices.csv": b"x\n"})
    assert [fault.file for fault in caught.value.faults] == ["rates/prices.csv"]


def test_a_file_saved_by_a_spreadsheet_with_bom_and_crlf_reads_the_same():
    spreadsheet = {name: b"\xef\xbb\xbf" + data.replace(b"\n", b"\r\n") for name, data in FILES.items()}
    ours, theirs = small_setup().rates, read_setup(spreadsheet).rates
    assert theirs.operations == ours.operations
    assert theirs.parts == ours.parts
    assert read_setup(spreadsheet).van == small_setup().van


def test_blank_lines_and_quoted_cells_are_read_as_a_spreadsheet_means_them():
    data = b'part,description,unit_cost\n\nrim,"Rim, 15 inch, ""gravel""",210.00\n,,\nhose,Hose,35.55\nlamp,L,80.25\n'
    parts = small_setup(parts=data + b"grille,G,12\n").rates.parts
    assert parts["rim"].description == 'Rim, 15 inch, "gravel"'
    assert list(parts) == ["rim", "hose", "lamp", "grille"]


def test_empty_cells_beyond_the_header_are_no_fault():
    assert small_setup(operations=OPERATIONS + b"lamp,bent,glue,1,1,1,1,,,,1,,,\n").rates.operation("lamp", "bent", "")


def test_two_hundred_faults_are_all_named_at_once():
    rows = "".join(f"part-{n},bent,swap,9,2,1,0,,,maybe,1,\n" for n in range(50))
    found = faults(operations=f"{HEADER}\n{rows}".encode())
    # each row: likely below best, worst below likely, no mechanic, neither true nor false
    assert len(found) == 200
    assert {fault.row for fault in found} == set(range(2, 52))


def test_equal_parts_add_up_and_one_alone_counts_one():
    setup = small_setup(operations=row(parts="rim;hose*2;rim*3;hose*0.5"))
    (operation,) = setup.rates.operations.values()
    assert operation.parts == {"rim": Decimal(4), "hose": Decimal("2.5")}
