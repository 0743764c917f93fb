"""The words that columns of live data are recognised by: English, French, German.

Words of the trade and of standards only; no head of any maker or tool. Stems are without
accents and capitals; one of five letters or more also counts inside a longer word (German
compounds), one of four at its beginning, a shorter one alone.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Role:
    """What a column can be.

    `needs`: groups of stems with weights from 0 to 1, one of each group must be there; a stem of
    `whole` stands for all groups. `helps` raise and `against` lower. `dimensions` that its unit
    may have; `unit` it is handled in; `assumed` unit where the log names none, "" where it must
    be said. `possible` in `unit`, where the rulebook has no range. `lively`: it moves with the
    engine, so that a value that stays is frozen. `place`: before or after the filter.
    """

    id: str
    unit: str
    dimensions: tuple[str, ...]
    possible: tuple[float, float]
    needs: tuple[dict[str, float], ...]
    whole: dict[str, float]
    helps: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    assumed: str = ""
    lively: bool = False
    place: str = ""


TIME = "time"
RPM = "engine-speed"
DP = "dp"
AIR = "air"
BEFORE = "exhaust-temperature"
AFTER = "exhaust-after"
COOLANT = "coolant"
SPEED = "road-speed"
PEDAL = "pedal"
LOAD = "load"
BOOST = "boost"
BAROMETER = "barometer"
STATUS = "regeneration-status"
ODOMETER = "odometer"
VOLTS = "sensor-volts"

_PRESSURE = {"pressure": 1, "press": 0.9, "druck": 1, "pression": 1, "pres": 0.8, "p": 0.7}
_DIFFERENCE = {
    "differential": 1, "differenz": 1, "differentiel": 1, "difference": 0.9, "diff": 0.9,
    "delta": 0.9, "diffdruck": 1,
}  # fmt: skip
_TEMPERATURE = {"temperatur": 1, "temperature": 1, "temp": 0.95, "t": 0.6}
_FILTER = ("dpf", "fap", "filter", "filtre", "partikel", "particul", "particle")
_TARGET = ("target", "desired", "specified", "setpoint", "soll", "consigne", "commanded")
_EXHAUST = {"exhaust": 1, "abgas": 1, "echappement": 1, "egt": 1, **dict.fromkeys(_FILTER, 0.95)}
_NOT_EXHAUST = ("turbo", "turbine", "egr", "agr", "manifold", "krummer", "kruemmer", "collecteur")

ROLES: tuple[Role, ...] = (
    Role(
        TIME, "s", ("time",), (-1e12, 1e13),
        ({"time": 1, "zeit": 1, "temps": 1, "heure": 1, "timestamp": 1, "zeitstempel": 1,
          "horodatage": 1, "elapsed": 1, "uhrzeit": 1, "clock": 0.9, "datetime": 1, "date": 0.7,
          "datum": 0.7, "t": 0.8, "seconds": 0.9, "sekunden": 0.9, "secondes": 0.9, "s": 0.7,
          "ms": 0.7, "sec": 0.7},),
        {}, (), ("since", "seit", "depuis", "inject", "einspritz", "regeneration", "duration",
                 "dauer", "duree", "run", "remaining", "rest"), "s",
    ),
    Role(
        RPM, "rpm", ("speed of rotation",), (0, 8000),
        ({"engine": 1, "motor": 1, "moteur": 1, "crank": 0.9, "kurbel": 0.9, "vilebrequin": 0.9},
         {"speed": 1, "drehzahl": 1, "regime": 1, "rotation": 1, "revolution": 1, "vitesse": 0.8}),
        {"rpm": 1, "drehzahl": 0.95, "regime": 0.9, "revs": 0.95, "rev": 0.8},
        (), (*_TARGET, "turbo", "fan", "lufter", "luefter", "getriebe", "gearbox", "wheel",
             "input", "lader", "ralenti", "ventilat", "fahrzeug", "vehicle", "vehicule"),
        "rpm", True,
    ),
    Role(
        DP, "mbar", ("pressure",), (-100, 1000),
        (_PRESSURE, _DIFFERENCE), {"dp": 0.95, "deltap": 0.95, "dpdpf": 0.95},
        (*_FILTER, "exhaust", "abgas", "echappement"),
        (*_TARGET, "fuel", "kraftstoff", "carburant", "oil", "huile", "rail", "boost", "intake",
         "egr", "agr", "lade", "tank", "volt", "spannung", "tension", "brake", "injector"),
        "", True,
    ),
    Role(
        AIR, "kg/h", ("mass flow", "mass per stroke"), (0, 2500),
        ({"air": 1, "luft": 1, "luftmass": 1, "luftmenge": 1},
         {"mass": 1, "masse": 1, "massen": 1, "flow": 0.95, "debit": 1, "strom": 0.95,
          "menge": 0.9, "durchsatz": 1, "massique": 1, "quantity": 0.9, "quantite": 0.9}),
        {"maf": 0.95, "luftmasse": 1, "luftmassenmesser": 1, "debitmetre": 0.9},
        ("intake", "ansaug", "admission", "admis", "meter"),
        (*_TARGET, "temperatur", "temp", "pressure", "druck", "pression", "humid", "ratio",
         "lambda", "filter", "volt", "spannung"),
        "", True,
    ),
    Role(
        BEFORE, "C", ("temperature",), (-40, 1100),
        (_TEMPERATURE, _EXHAUST), {}, (), (*_TARGET, *_NOT_EXHAUST, "recirculation"), "C", True,
        "before",
    ),
    Role(
        AFTER, "C", ("temperature",), (-40, 1100),
        (_TEMPERATURE, _EXHAUST), {}, (), (*_TARGET, *_NOT_EXHAUST, "recirculation"), "C", True,
        "after",
    ),
    Role(
        COOLANT, "C", ("temperature",), (-40, 130),
        (_TEMPERATURE,
         {"coolant": 1, "kuhlmittel": 1, "kuehlmittel": 1, "kuhlwasser": 1, "kuehlwasser": 1,
          "refroidissement": 1, "wasser": 0.85, "water": 0.85, "eau": 0.85}),
        {"ect": 0.9, "coolant": 0.75, "kuhlmittel": 0.75},
        ("engine", "motor", "moteur"), (*_TARGET, "radiator", "kuhler", "oil", "egr"), "C",
    ),
    Role(
        SPEED, "km/h", ("road speed",), (0, 300),
        ({"geschwindigkeit": 1, "vss": 1, "vitesse": 0.85, "speed": 0.75, "tempo": 0.7},), {},
        ("vehicle", "fahrzeug", "vehicule", "road", "fahr"),
        (*_TARGET, "engine", "motor", "moteur", "turbo", "wheel", "cruise", "fan", "rotation"),
        "km/h",
    ),
    Role(
        PEDAL, "%", ("per cent",), (0, 110),
        ({"pedal": 1, "accelerator": 1, "gaspedal": 1, "fahrpedal": 1, "accelerateur": 1,
          "pedale": 1},), {}, ("position", "stellung"),
        ("brake", "brems", "frein", "clutch", "kupplung", "embrayage", "volt"), "%",
    ),
    Role(
        LOAD, "%", ("per cent",), (0, 130),
        ({"load": 1, "last": 0.9, "motorlast": 1, "charge": 0.9},
         {"engine": 1, "motor": 1, "moteur": 1, "calculated": 1, "berechnet": 1, "calculee": 1,
          "absolute": 0.8}), {"motorlast": 1},
        (), (*_FILTER, "soot", "russ", "suie", "air", "luft", "batter"), "%",
    ),
    Role(
        BOOST, "mbar", ("pressure",), (200, 5000),
        (_PRESSURE,
         {"boost": 1, "manifold": 1, "intake": 0.95, "suralimentation": 1, "admission": 0.9,
          "collecteur": 0.9, "saugrohr": 1, "charge": 0.85, "lade": 1, "ladedruck": 1}),
        {"map": 0.85, "ladedruck": 1}, ("absolute", "absolut", "absolue", "abs"),
        (*_TARGET, *_DIFFERENCE, "temperatur", "relative", "relativ", "gauge", "exhaust"), "",
    ),
    Role(
        BAROMETER, "mbar", ("pressure",), (500, 1100),
        (_PRESSURE,
         {"baro": 1, "barometric": 1, "barometr": 1, "ambient": 1, "atmospher": 1,
          "umgebung": 1, "luft": 0.85}),
        {"baro": 0.9, "luftdruck": 0.9, "barometer": 0.95}, (),
        (*_TARGET, *_DIFFERENCE, "boost", "intake", "lade", "tire", "reifen"), "",
    ),
    Role(
        STATUS, "", ("",), (0, 255),
        ({"regeneration": 1, "regen": 0.95, "regenerat": 1},
         {"status": 1, "state": 1, "zustand": 1, "aktiv": 1, "active": 1, "statut": 1, "etat": 1,
          "running": 1, "lauft": 1, "laeuft": 1, "cours": 1}), {}, _FILTER,
        ("distance", "since", "count", "zahler", "zaehler", "compteur", "seit", "depuis", "last",
         "letzte", "derniere", "interrupt", "number", "anzahl", "nombre", "request", "km"),
    ),
    Role(
        ODOMETER, "km", ("length",), (0, 3_000_000),
        ({"odometer": 1, "kilometerstand": 1, "kilometrage": 1, "laufleistung": 1,
          "mileage": 0.95, "gesamtstrecke": 0.9},), {},
        ("total",), ("since", "seit", "depuis", "regen", "trip", "service", "oil"), "km",
    ),
    Role(
        VOLTS, "V", ("voltage",), (-1, 6),
        ({"voltage": 1, "spannung": 1, "tension": 1, "volt": 0.9, "signal": 0.6},
         {**_DIFFERENCE, "dp": 0.9, "differenzdruck": 1}), {}, ("sensor", *_FILTER),
        ("supply", "versorgung", "alimentation"), "", True,
    ),
)  # fmt: skip
BY_ID = {role.id: role for role in ROLES}

FILTER_WORDS = (*_FILTER, "partikelfilter")
BEFORE_WORDS = (
    "before", "upstream", "pre", "inlet", "vor", "amont", "avant", "entree", "eintritt", "ahead",
    "in", "input", "eingang",
)  # fmt: skip
AFTER_WORDS = (
    "after", "downstream", "post", "outlet", "nach", "aval", "apres", "sortie", "austritt",
    "behind", "hinter", "out", "output", "ausgang",
)  # fmt: skip
ELSEWHERE = ("cat", "kat", "katalysator", "catalyst", "catalys", "catalyseur", "doc", "oxi", "scr")

LONG_NAME = {
    "channel": 1.0, "signal": 0.9, "parameter": 1.0, "parametre": 1.0, "name": 0.8, "kanal": 1.0,
    "messgrosse": 1.0, "messgroesse": 1.0, "grosse": 0.9, "groesse": 0.9, "voie": 1.0,
    "canal": 1.0, "grandeur": 1.0, "pid": 0.8, "quantity": 0.7, "measurement": 0.8, "nom": 0.7,
}  # fmt: skip
LONG_VALUE = {
    "value": 1.0,
    "wert": 1.0,
    "valeur": 1.0,
    "messwert": 1.0,
    "reading": 0.9,
    "mesure": 0.8,
}
LONG_UNIT = {"unit": 1.0, "units": 1.0, "einheit": 1.0, "unite": 1.0}

RUNNING_WORDS = frozenset({
    "running", "active", "aktiv", "lauft", "laeuft", "en cours", "on", "yes", "ja", "oui", "1",
    "true", "ein", "actif", "in progress", "regenerating", "an",
})  # fmt: skip
IDLE_WORDS = frozenset({
    "not running", "inactive", "inaktiv", "nicht aktiv", "off", "no", "nein", "non", "0", "false",
    "aus", "inactif", "idle", "none", "not active", "requested", "angefordert", "demandee",
    "locked", "gesperrt", "bloquee", "ended", "aborted", "beendet", "abgebrochen", "terminee",
})  # fmt: skip
