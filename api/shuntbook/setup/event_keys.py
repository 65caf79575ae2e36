"""The keys of event.toml."""

from shuntbook.kit.speech import LANGUAGES
from shuntbook.setup.keys import (
    MINUTES,
    PEOPLE,
    QUANTITY,
    Key,
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
from shuntbook.setup.words import ROLES

FILE = "event.toml"
EVENT_KINDS = ("rally", "school")
"""What an event is: stages and services, or turns on a loop that are called sessions."""
SIGNATURES = ("on", "off")
"""Whether entries must be signed; an event that does not say demands it."""
PER = ("incident", "event")
RECOVERY = ("charged", "included")
WEAR = ("excluded", "charged")
CLAUSES_OF = (
    "damage", "misuse", "wear", "excluded", "included", "excess", "cap", "share", "recovery", "driver", "later",
    "hand-over", "other",
)  # fmt: skip
"""What a clause of an agreement says, by the terms and by why lines are not charged."""
OTHER_KINDS = ("other", "fuel", "kit", "cleaning", "lateness")
WHEN = ("any", "first", "ground", "last")
AT = ("air", "off", "ground")
SECONDS = 86_400
DAYS = 36_500
"""A hundred years: who means longer means without limit, and leaves the key out."""

EVENT = Table("event", FILE, "top", (), (
    name("event", "Its id, without a slash; it never changes, since entries name it.", plain=True, seen="all"),
    text("name", "What people call it.", None, same="event", seen="all"),
    text("timezone", "The zone of its clocks, of the IANA database: Europe/Vienna.", "UTC", seen="all"),
    word("kind", EVENT_KINDS, "Stages and services, or a school day with sessions on a loop.", seen="all"),
    text("emergency", "The emergency number of the road book.", seen="all"),
    names("languages", "What its papers speak, the usual one first: en, fr.", among=LANGUAGES, added=True, seen="all"),
))  # fmt: skip
CARS = Table("cars", FILE, "rows", ("car",), (
    name("car", "Its number.", plain=True, seen="all"),
    text("label", "What the team calls it.", seen="all"),
), unique=("car",))  # fmt: skip
PEOPLE_OF = Table("people", FILE, "rows", ("person",), (
    name("person", "The person's id, which entries name.", seen="all"),
    text("name", "What others call the person.", None, same="person", seen="all"),
    names("roles", "What the person may do.", among=ROLES, seen="all"),
    names("skills", "Free words that operations may ask for.", seen="all"),
    names("cars", "Of who only drives or co-drives: cars that are shown; all where empty.", refers="cars.car",
          strict=True, added=True, seen="all"),
), unique=("person",))  # fmt: skip
STAGES = Table("stages", FILE, "rows", ("stage",), (
    name("stage", "Its name: SS1.", seen="all"),
    number("km", 10_000, "km", "How long it is.", default=0, seen="all"),
    Key("start", "time", "When the car is due at its start: phones then guess the stage.", added=True, seen="all"),
), unique=("stage",))  # fmt: skip
PLACES = Table("places", FILE, "rows", ("stage", "km"), (
    name("stage", "The stage that it lies on.", refers="stages.stage", strict=True, seen="all"),
    number("km", 10_000, "km", "How far into the stage.", required=True, exact=True, seen="all"),
    number("lat", 90, "°", "Latitude, WGS 84.", least=-90, required=True, exact=True, seen="all"),
    number("lon", 180, "°", "Longitude, WGS 84.", least=-180, required=True, exact=True, seen="all"),
))  # fmt: skip
SERVICES = Table("services", FILE, "rows", ("service",), (
    name("service", "Its name: A.", seen="all"),
    text("after", "The stage before it; none where empty.", refers="stages.stage", strict=True, seen="all"),
    text("kind", "A free word: midday.", seen="all"),
    Key("arrive", "time", "When the car is due in.", seen="all"),
    whole("minutes", MINUTES, "min", "From control to control.", least=1, required=True, seen="all"),
    number("in_and_out_minutes", MINUTES, "min", "Of these, what driving in and out takes.", default=0, seen="all"),
    number("in_minutes", MINUTES, "min", "Driving in alone, with out_minutes.", added=True),
    number("out_minutes", MINUTES, "min", "Driving out alone, with in_minutes.", added=True),
    flag("parc_ferme_after", "Nobody works on the car until the next service.", seen="all"),
), unique=("service",))  # fmt: skip
REGULATIONS = Table("regulations", FILE, "one", (), (
    whole("late_penalty_s_per_minute", SECONDS, "s/min", "For each minute late.", default=10, seen="all"),
    whole("early_penalty_s_per_minute", SECONDS, "s/min", "For each minute early.", default=60, seen="all"),
    whole("late_limit_minutes", MINUTES, "min", "The most at one control.", default=15, seen="all"),
    whole("total_late_limit_minutes", MINUTES, "min", "The most at all controls together.", default=30, seen="all"),
    flag("advice_on_road", "Service may tell the crew how to repair while it is on the road.", seen="all"),
    whole("official_lead_minutes", MINUTES, "min", "Until an official who is called has come.", default=60),
))  # fmt: skip
TRUST = Table("trust", FILE, "one", (), (
    word("signatures", SIGNATURES, "Whether entries must be signed by the device that wrote them.", seen="all"),
    flag(
        "pin", "Inspections and releases with a reason count only with the PIN of who writes them.",
        added=True, seen="all",
    ),
))  # fmt: skip
ROUTINE = Table("routine", FILE, "rows", ("task",), (
    name("task", "What is done whatever happened.", seen="all"),
    names("services", "Services at which it is done; all where empty.", refers="services.service", seen="all"),
    points("minutes", "Best, likely and worst minutes.", required=True, seen="all"),
    whole("mechanics", PEOPLE, "", "How many people it takes.", default=1, seen="all"),
    text("zone", "Where they work; away from the car where empty.", refers="zones.zone", seen="all"),
    names("access", "Access steps that must be open.", refers="access.step", seen="all"),
    flag("must_do", "It comes before what is only worth doing.", seen="all"),
    word("when", WHEN, "Before all else on the car, on the ground, or after all else.", added=True),
    flag("vital", "It comes before the must-do jobs.", added=True),
))  # fmt: skip
PLANNING = Table("planning", FILE, "one", (), (
    number("on_time_percent", 100, "%", "The chance to end in time that is kept.", default=80, added=True),
))  # fmt: skip
RESOURCES = Table("resources", FILE, "rows", ("resource",), (
    name("resource", "Something that the team has so many of: sets of stands."),
    whole("count", QUANTITY, "", "How many.", default=1),
    names("held_by", "Access steps or actions that hold one while they last, or fire-risk.", refers="access.step"),
), unique=("resource",))  # fmt: skip
TOOLS = Table("tools", FILE, "values", ("action",), (
    name("action", "An action of the rate table that the crew may do on the road.", refers="operations.action"),
    names("tools", "What it needs aboard."),
))  # fmt: skip
LOOKS = Table("looks", FILE, "rows", ("group", "check"), (
    name("group", "The group of the parts.", refers="components.group"),
    name("check", "What is gone through.", long=True),
    flag("must", "No pass on a job of the group counts without it.", added=True),
    word("at", ("", *AT), "Car on stands, wheel off, or on the ground.", added=True),
))  # fmt: skip
AGREEMENTS = Table("agreements", FILE, "rows", ("agreement",), (
    name("agreement", "Its id.", seen="all"),
    name("car", "The car that it is about.", refers="cars.car", strict=True, seen="all"),
    name("customer", "Who pays.", seen="all"),
    names("drivers", "Who may drive; anybody where empty.", refers="people.person", strict=True, stricter=True),
    money("excess", "", "What the customer bears at most; all where empty."),
    word("excess_per", PER, "Whether that is of one incident or of the event."),
    money("cap", "", "The most that the customer pays in all."),
    number("share_percent", 100, "%", "The customer's part of the damage of an incident, before excess and cap.",
           default=100),
    names("wear_excluded", "Reads as excluded, of which it is the older name.", refers="components.component",
          strict=True, stricter=True),
    names("excluded", "Components that are never charged, whatever happened.", refers="components.component",
          strict=True, added=True),
    word("wear", WEAR, "Whether what only wore out is charged.", added=True),
    quantities("included", "How many of a part are in the price: tyre*2.", refers="parts.part", strict=True),
    flag("part_worn", "A part is charged less the life that was used.", default=True),
    money("labour_per_hour", "1/h", "Instead of the rate table's; 0 for none."),
    number("consumables_percent", 100, "%", "Instead of the rate table's."),
    word("recovery", RECOVERY, "Whether bringing the car back is charged."),
    money("deposit", "", "What the customer has paid beforehand.", default=0),
    number("tax_percent", 100, "%", "On the sum.", default=0),
    whole("later_findings_days", DAYS, "d", "How long after the return damage may be found; for ever where empty."),
    text("text", "What else was agreed.", long=True),
    text("address", "The customer's address, as it stands on the statement.", added=True),
    Key("signed_on", "day", "The day of the agreement.", added=True),
    Key("hire_from", "time", "When the hire begins.", added=True),
    Key("hire_to", "time", "When the car is due back; who brings it later is late.", added=True),
    word("language", ("", *LANGUAGES), "What the customer's statement speaks; the event's where empty.", added=True),
), unique=("agreement", "car"), closed=True)  # fmt: skip
CLAUSES = Table("clauses", FILE, "rows", ("agreement", "of"), (
    name("agreement", "The agreement that it is in.", refers="agreements.agreement", strict=True, added=True),
    word("of", CLAUSES_OF, "What it says.", added=True, required=True),
    name("clause", "Its number: 4.2.", added=True),
), closed=True)  # fmt: skip
SENDER = Table("sender", FILE, "one", (), (
    text("name", "Who sends the statement.", added=True),
    text("address", "The sender's address.", added=True),
    text("contact", "E-mail, telephone.", added=True),
    text("tax_number", "The sender's tax number; a statement that shows tax bears it.", added=True),
    text("bank", "Where to pay.", added=True),
    text("object_to", "Where whoever does not agree writes to; the contact where empty.", added=True),
    whole("object_days", DAYS, "d", "In how many days.", default=14, added=True),
    whole("due_days", DAYS, "d", "In how many days after it is issued a statement is due.", default=14, added=True),
), closed=True)  # fmt: skip
OTHER_CHARGES = Table("other_charges", FILE, "rows", ("charge",), (
    name("charge", "Its id.", plain=True, added=True),
    word("kind", OTHER_KINDS, "What the two walks tell of it; other: what is only entered by hand.", added=True),
    text("says", "What the statement calls it.", None, same="charge", added=True),
    money("price", "", "What one unit costs, before tax.", required=True, added=True),
    text("unit", "What is counted: l.", added=True),
    number("per_tank", 10_000, "", "For fuel: how many units the tank holds.", added=True),
    text("item", "For kit: the item as the walk names it; any item where empty.", added=True),
    whole("per_minutes", MINUTES, "min", "For lateness: how long one unit is; each begun one counts.", least=1,
          default=60, added=True),
    number("tax_percent", 100, "%", "On this charge; as the agreement says where empty.", added=True),
), unique=("charge",), closed=True)  # fmt: skip
DATED = Table("dated", FILE, "rows", ("car", "item", "place"), (
    name("car", "The car that it is in.", refers="cars.car", strict=True, seen="all"),
    name("item", "What expires or is sealed: harness.", seen="all"),
    text("place", "Where it is.", seen="all"),
    Key("expires", "day", "Its last day.", seen="all"),
    text("seal", "The number on its seal.", seen="all"),
))  # fmt: skip

LIVES = Table("lives", FILE, "rows", ("car", "component", "place"), (
    name("component", "The component that has a life.", refers="components.component", strict=True, added=True,
         seen="all"),
    text("place", "Its zone; each zone that has one where empty.", refers="zones.zone", added=True, seen="all"),
    text("car", "The car; all where empty.", refers="cars.car", strict=True, added=True, seen="all"),
    text("label", "What people call it: Floor guard, middle.", added=True, seen="all"),
    whole("events", 10_000, "", "How many events it lasts.", least=1, added=True, seen="all"),
    number("stage_km", 1_000_000, "km", "How many stage km it lasts.", above=0, added=True, seen="all"),
    whole("days", DAYS, "d", "How many days it lasts from when it was fitted or made.", least=1, added=True,
          seen="all"),
    flag("must_do", "Once due, it comes before what is only worth doing.", added=True, seen="all"),
))  # fmt: skip

EVENT_TABLES = (
    EVENT, CARS, PEOPLE_OF, STAGES, PLACES, SERVICES, REGULATIONS, TRUST, ROUTINE, PLANNING, RESOURCES, TOOLS, LOOKS,
    AGREEMENTS, CLAUSES, SENDER, OTHER_CHARGES, DATED, LIVES,
)  # fmt: skip
