"""The keys of car_map.toml."""

from shuntbook.setup.keys import PEOPLE, Key, Table, flag, name, names, text, whole, word
from shuntbook.setup.words import CONDITIONS, ZONE_KINDS

FILE = "car_map.toml"
NO_ZONES = ("here", "across")
"""Words that stand for a zone in `checks` and `also`, and so name none."""

CAR_MAP = Table("car_map", FILE, "top", (), (
    names("safety_groups", "Groups that an inspector sees, besides the fixed ones.", unordered=True, seen="all"),
))  # fmt: skip
ZONES = Table("zones", FILE, "named", ("zone",), (
    name("zone", "Its name, without a slash.", plain=True, seen="all"),
    text("label", "What people call it.", None, same="zone", seen="all"),
    word("kind", ZONE_KINDS, "What it is.", default="side", seen="all"),
    whole("people", PEOPLE, "", "How many can work there at once.", least=1, default=1, seen="all"),
    names("components", "What is there.", plain=True, distinct=True, seen="all"),
    text("across", "The same place on the other side.", None, added=True, seen="all"),
))  # fmt: skip
COMPONENTS = Table("components", FILE, "named", ("component",), (
    name("component", "Its name, without a slash.", plain=True, seen="all"),
    text("label", "What people call it.", None, same="component", seen="all"),
    text("group", "Its group.", None, seen="all"),
    names("conditions", "Its own order of conditions, worst last.", among=CONDITIONS, distinct=True, seen="all"),
    flag("sealed", "The scrutineer is called before it comes off.", seen="all"),
    Key("inspect_access", "list", "What an inspection of it needs open, wherever it is.", refers="access.step",
        added=True, seen="all"),
))  # fmt: skip
SYMPTOMS = Table("symptoms", FILE, "named", ("symptom",), (
    name("symptom", "Its name.", plain=True, seen="all"),
    text("label", "What the co-driver reads.", None, same="symptom", seen="all"),
    names("checks", "What it makes the crew check: zone/component.", jobs=True, filled=True, seen="all"),
    text("stop", "What to do at once.", long=True, seen="all"),
))  # fmt: skip
KNOCK_ON = Table("knock_on", FILE, "rows", ("component",), (
    name("component", "What was hit.", plain=True, refers="components.component", seen="all"),
    names("conditions", "In which conditions.", among=CONDITIONS, distinct=True, unordered=True, seen="all"),
    names("same_zone", "What else of its zone is then checked.", seen="all"),
    names("also", "What else is then checked: zone/component.", jobs=True, seen="all"),
))  # fmt: skip

MAP_TABLES = (CAR_MAP, ZONES, COMPONENTS, SYMPTOMS, KNOCK_ON)
