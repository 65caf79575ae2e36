"""An event's set-up as phones read it."""

from typing import Any

from shuntbook.kit.money import two_decimals
from shuntbook.setup.car_map import CarMap
from shuntbook.setup.dated import Dated
from shuntbook.setup.event import Event, Routine
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import RoadPlace, Service
from shuntbook.setup.looks import looks_in_force
from shuntbook.wire.rates_json import rate_table_json, van_json

Json = dict[str, Any]

SHAPE = "5"
"""Changes whenever set-ups are written in another way: a phone that holds one of an older shape fetches it anew."""


def setup_json(setup: Setup) -> Json:
    """Return one event's set-up: everything that a phone needs to log and read offline."""
    event, rates = setup.event, setup.rates
    return {
        "event": event.event,
        "name": event.name,
        "timezone": event.timezone,
        "kind": event.kind,
        "emergency": event.emergency,
        "currency": rates.currency.code,
        "cars": [{"car": car, "label": event.car_labels.get(car, "")} for car in event.cars],
        "people": [
            {"person": p.person, "name": p.name, "roles": list(p.roles), "skills": list(p.skills)} for p in event.people
        ],
        "stages": [{"stage": stage.stage, "km": two_decimals(stage.km)} for stage in event.stages],
        "places": [_place(place) for place in event.places],
        "services": [_service(service) for service in event.services],
        "regulations": _regulations(event),
        "routine": [_routine(task) for task in event.routine],
        "looks": {group: list(checks) for group, checks in looks_in_force(event.looks).items()},
        "car_map": _car_map(setup.car_map),
        "rates": rates.version,
        "trust": {"signatures": "on" if event.signatures_demanded else "off"},
        "parts": [{"part": part.part, "description": part.description} for part in rates.parts.values()],
        "rate_table": rate_table_json(rates),
        "van": van_json(setup.van),
        "agreements": [{"agreement": a.agreement, "car": a.car, "customer": a.customer} for a in event.agreements],
        "dated": [_dated(item) for item in event.dated],
    }


def _dated(item: Dated) -> Json:
    expires = item.expires.isoformat() if item.expires else None
    return {"car": item.car, "item": item.item, "place": item.place, "expires": expires, "seal": item.seal}


def _place(place: RoadPlace) -> Json:
    return {"stage": place.stage, "km": float(place.km), "lat": float(place.lat), "lon": float(place.lon)}


def _service(service: Service) -> Json:
    return {
        "service": service.service,
        "after": service.after,
        "kind": service.kind,
        "arrive": service.arrive.isoformat() if service.arrive else None,
        "minutes": service.minutes,
        "in_and_out_minutes": two_decimals(service.in_and_out_minutes),
        "parc_ferme_after": service.parc_ferme_after,
    }


def _regulations(event: Event) -> Json:
    rules = event.regulations
    return {
        "late_penalty_s_per_minute": rules.late_penalty_s_per_minute,
        "early_penalty_s_per_minute": rules.early_penalty_s_per_minute,
        "late_limit_minutes": rules.late_limit_minutes,
        "total_late_limit_minutes": rules.total_late_limit_minutes,
        "advice_on_road": rules.advice_on_road,
    }


def _routine(task: Routine) -> Json:
    return {
        "task": task.task,
        "services": list(task.services),
        "minutes": [two_decimals(minutes) for minutes in task.minutes],
        "mechanics": task.mechanics,
        "zone": task.zone,
        "access": list(task.access),
        "must_do": task.must_do,
    }


def _car_map(car_map: CarMap) -> Json:
    return {
        "zones": {
            name: {"label": z.label, "kind": z.kind, "people": z.people, "components": list(z.components)}
            for name, z in car_map.zones.items()
        },
        "components": {name: _component(name, car_map) for name in sorted(_listed(car_map))},
        "symptoms": {
            name: {"label": s.label, "checks": list(s.checks), "stop": s.stop} for name, s in car_map.symptoms.items()
        },
        "knock_on": [
            {
                "component": rule.component,
                "conditions": sorted(rule.conditions),
                "same_zone": list(rule.same_zone),
                "also": list(rule.also),
            }
            for rule in car_map.knock_on
        ],
        "safety_groups": sorted(car_map.safety_groups),
        "fixed": dict(sorted(car_map.fixed.items())),
    }


def _listed(car_map: CarMap) -> set[str]:
    return {name for zone in car_map.zones.values() for name in zone.components} | set(car_map.components)


def _component(name: str, car_map: CarMap) -> Json:
    known = car_map.components.get(name)
    return {
        "label": known.label if known else name,
        "group": car_map.group_of(name),
        "conditions": list(known.conditions) if known else [],
        "sealed": known.sealed if known else False,
    }
