"""The keys of the rate table (`rates/`) and of van.csv."""

from shuntbook.setup.keys import (
    MINUTES,
    PEOPLE,
    QUANTITY,
    Table,
    flag,
    money,
    name,
    names,
    number,
    points,
    quantities,
    text,
    whole,
    word,
)
from shuntbook.setup.words import ROW_CONDITIONS, ZONE_KINDS

FOLDER = "rates/"
TOML = FOLDER + "rates.toml"
PER = ("car", "zone")
WHEN = ("before-close", "on-ground")
BY = ("anyone", "other", "inspector")
YES = ("true", "yes", "1"), ("false", "no", "0")

THREE = (
    number("minutes_best", MINUTES, "min", "At best.", required=True, above=0, seen="all"),
    number("minutes_likely", MINUTES, "min", "Most likely.", required=True, seen="all"),
    number("minutes_worst", MINUTES, "min", "At worst.", required=True, seen="all"),
)
CREW = flag("crew", "One of its people may be the driver or co-driver.", added=True)

RATES = Table("rates", TOML, "top", (), (
    name("currency", "ISO 4217 code: EUR.", first="EUR", seen="all"),
    money("labour_per_hour", "1/h", "An hour of one mechanic.", required=True, first="0", seen="all"),
    number("tax_percent", 100, "%", "On the sum.", default=0),
    number("consumables_percent", 1_000, "%", "Of the parts used.", default=0),
    points("inspect_minutes", "An inspection.", default=(1, 2, 4), first="1;2;4", seen="all"),
    points("assess_minutes", "Damage without a row of its own.", default=(5, 10, 20), first="5;10;20", seen="all"),
    points("inspect_next_minutes", "Each further inspection in one zone.", added=True, seen="all"),
))  # fmt: skip
BY_GROUP = Table("inspect_minutes_by_group", TOML, "values", ("group",), (
    name("group", "The group of the parts.", refers="components.group", seen="all"),
    points("minutes", "An inspection of one of them.", required=True, seen="all"),
))  # fmt: skip
INSPECT_ACCESS = Table("inspect_access", TOML, "values", ("kind",), (
    name("kind", "The kind of zone.", among=ZONE_KINDS, added=True),
    names("access", "What an inspection there needs open.", refers="access.step", strict=True, added=True),
))  # fmt: skip
OPERATIONS = Table("operations", FOLDER + "operations.csv", "csv", ("component", "condition", "zone"), (
    name("component", "What is repaired.", refers="components.component", seen="all"),
    name("condition", "In which condition.", among=ROW_CONDITIONS, seen="all"),
    name("action", "What is done.", seen="all"),
    *THREE,
    whole("mechanics", PEOPLE, "", "How many people it takes.", least=1, required=True, seen="all"),
    names("access", "Access steps that must be open.", refers="access.step", strict=True, required=True, seen="all"),
    quantities("parts", "What it takes: part*quantity.", refers="parts.part", strict=True, required=True, seen="all"),
    flag("must_do", "Even on a part that is not safety-critical.", required=True, seen="all"),
    number("value", QUANTITY, "", "How much it is worth doing.", default=0, required=True, seen="all"),
    text("zone", "Only there; a row with a zone beats one without.", refers="zones.zone", seen="all"),
    text("skill", "What one of its people must be able to do."),
    names("after", "Components whose jobs come before it."),
    names("then", "Checks that follow it.", refers="checks.check", strict=True),
    flag("ground", "It is done on the ground."),
    flag("fire_risk", "Nothing else is done on the car meanwhile."),
    flag("wear", "The part wears out."),
    whole("max_events", 10_000, "", "After how many events the part is worn out.", least=1),
    CREW,
))  # fmt: skip
ACCESS = Table("access", FOLDER + "access.csv", "csv", ("step",), (
    name("step", "Its name.", seen="all"),
    word("per", PER, "Once for the car, or once a zone.", default=None, required=True, seen="all"),
    number("minutes_open", MINUTES, "min", "To open.", required=True, seen="all"),
    number("minutes_close", MINUTES, "min", "To close.", required=True, seen="all"),
    whole("mechanics", PEOPLE, "", "How many people it takes.", required=True, seen="all"),
    names("needs", "Steps that must be open before.", refers="access.step", strict=True),
    flag("moves_car", "The car goes up or down; where no row says so, by its name: …-on-stands.", None, added=True),
    CREW,
))  # fmt: skip
PARTS = Table("parts", FOLDER + "parts.csv", "csv", ("part",), (
    name("part", "Its name.", seen="all"),
    text("description", "What it is.", required=True, seen="all"),
    money("unit_cost", "", "What one costs.", required=True, seen="all"),
    text("supplier", "Where it comes from."),
))  # fmt: skip
CHECKS = Table("checks", FOLDER + "checks.csv", "csv", ("check",), (
    name("check", "What follows a job: wheel-nut-torque."),
    *THREE,
    whole("mechanics", PEOPLE, "", "How many people it takes.", least=1, required=True),
    word("when", WHEN, "Before the car is closed, or on the ground.", default=None, required=True),
    word("by", BY, "By anybody, by somebody else, by an inspector.", default=None, required=True),
    CREW,
))  # fmt: skip
VAN = Table("van", "van.csv", "csv", ("part",), (
    name("part", "A part.", refers="parts.part"),
    number("loaded", QUANTITY, "", "How many the van was loaded with.", required=True, seen="all"),
))  # fmt: skip

RATE_TABLES = (RATES, BY_GROUP, INSPECT_ACCESS, OPERATIONS, ACCESS, PARTS, CHECKS)
STOCK_TABLES = (VAN,)
OPTIONAL = (CHECKS.file, VAN.file)
"""Files that may be absent."""
