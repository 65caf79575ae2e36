"""A small event with round figures, so that a test can calculate by hand what the queue must say.

Labour is 60.00 an hour: a mechanic-minute costs 1.00. A look takes 2 minutes, an assessment 6.
"""

from shuntbook.setup.folder import Setup, read_setup

EVENT = b"""event = "small-2026"
name = "Small Rally"
timezone = "Europe/Vienna"
[[cars]]
car = "41"
[[cars]]
car = "42"
[[people]]
person = "p-toma"
roles = ["co-driver"]
[[people]]
person = "p-bodo"
roles = ["mechanic"]
[[people]]
person = "p-anni"
roles = ["mechanic", "inspector"]
[[people]]
person = "p-odil"
roles = ["inspector"]
[[people]]
person = "p-vera"
roles = ["manager"]
[[stages]]
stage = "SS1"
km = 10
[[stages]]
stage = "SS2"
km = 12.5
[[stages]]
stage = "SS3"
km = 8
[[services]]
service = "A"
after = "SS1"
minutes = 30
[[services]]
service = "B"
after = "SS2"
minutes = 20
[[services]]
service = "C"
after = "SS3"
minutes = 45
"""

CAR_MAP = b"""safety_groups = ["restraint"]
[zones.front-left]
label = "Front left"
kind = "corner"
people = 2
components = ["wheel", "hub", "arm", "brake-hose", "tie"]
[zones.front-right]
label = "Front right"
kind = "corner"
people = 2
components = ["wheel", "brake-hose"]
[zones.front-end]
label = "Front end"
kind = "end"
components = ["bumper", "lamp", "grille", "badge"]
[zones.cabin]
label = "Cabin"
kind = "cabin"
components = ["main-hoop", "harness", "mat"]
[components.wheel]
label = "Wheel"
[components.brake-hose]
label = "Brake hose"
group = "brake"
[components.tie]
label = "Tie"
group = "steering"
conditions = ["marked", "bent", "loose"]
[components.main-hoop]
label = "Main hoop"
group = "cage"
[components.harness]
label = "Harness"
group = "restraint"
[symptoms.long-pedal]
label = "Brake pedal long"
checks = ["front-left/brake-hose", "front-right/brake-hose"]
[[knock_on]]
component = "wheel"
conditions = ["bent", "broken"]
same_zone = ["hub", "brake-hose"]
also = ["front-end/bumper", "front-end/no-such-part"]
[[knock_on]]
component = "hub"
conditions = ["unknown"]
same_zone = ["arm"]
"""

OPERATIONS = b"""component,condition,action,minutes_best,minutes_likely,minutes_worst,\
mechanics,access,parts,must_do,value,zone
wheel,bent,replace,3,4,8,1,car-on-stands,rim,true,50,
wheel,bent,press,6,6,6,1,car-on-stands,,false,50,front-right
brake-hose,leaking,replace,6,6,6,1,car-on-stands;wheel-off,hose*2,true,90,
brake-hose,marked,wrap,1,1,1,1,,,false,5,
bumper,bent,straighten,2,2,2,1,,,false,10,
lamp,broken,replace,1,1,1,2,bonnet-up,lamp,false,20,
grille,missing,replace,3,3,3,1,bonnet-up,grille,false,15,
hub,bent,replace,10,10,10,2,car-on-stands;wheel-off,,false,30,
"""

FILES = {
    "event.toml": EVENT,
    "car_map.toml": CAR_MAP,
    "van.csv": b"part,loaded\nrim,2\nhose,3\nlamp,1\n",
    "rates/rates.toml": b'currency = "EUR"\nlabour_per_hour = 60\ntax_percent = 20\n'
    b"inspect_minutes = [1, 2, 3]\nassess_minutes = [6, 6, 6]\n"
    b"[inspect_minutes_by_group]\ncage = [10, 10, 10]\n",
    "rates/operations.csv": OPERATIONS,
    "rates/access.csv": b"step,per,minutes_open,minutes_close,mechanics\ncar-on-stands,car,2,1,2\n"
    b"wheel-off,zone,1,1,1\nbonnet-up,car,0.5,0.5,1\n",
    "rates/parts.csv": b"part,description,unit_cost\nrim,Rim,210.00\nhose,Hose,35.55\nlamp,Lamp,80.25\n"
    b"grille,Grille,12.00\n",
}


def small_setup(**changed: bytes | None) -> Setup:
    """Return the small event's set-up; `changed` puts files in place of its own, None takes one away."""
    return read_setup(small_files(**changed))


def small_files(**changed: bytes | None) -> dict[str, bytes]:
    """Return the small event's files; event, car_map, van, operations, access, parts, checks, rates name them."""
    files: dict[str, bytes | None] = {**FILES}
    for word, data in changed.items():
        files[NAMES[word]] = data
    return {name: data for name, data in files.items() if data is not None}


NAMES = {
    "event": "event.toml",
    "car_map": "car_map.toml",
    "van": "van.csv",
    "rates": "rates/rates.toml",
    **{name: f"rates/{name}.csv" for name in ("operations", "access", "parts", "checks")},
}
