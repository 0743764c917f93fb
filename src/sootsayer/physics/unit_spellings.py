"""How people spell units, and what they write that looks like a unit and is more."""

from __future__ import annotations

SPELLINGS: dict[str, tuple[str, ...]] = {
    "mbar": ("millibar", "millibars"),
    "inH2O": (
        "in H2O",
        "inH₂O",
        "inches of water",
        "inch of water",
        "inwc",
        "inwg",
        "in wc",
        "in wg",
        "in. H2O",
        "in.H2O",
        "in. wc",
        '"H2O',
        '"wc',
        '" H2O',
        '" wc',
    ),
    "cmH2O": ("cm H2O", "cmH₂O", "cm of water", "cmwc"),
    "mmH2O": ("mm H2O", "mmH₂O", "mm of water", "mmwc"),
    "inHg": ("in Hg", "in. Hg", "inches of mercury", '"Hg', '" Hg'),
    "mmHg": ("mm Hg", "mm of mercury"),
    "kg/h": ("kg/hr", "kg/hour", "kgph", "kg/heure"),
    "g/s": ("g/sec",),
    "lb/min": ("lbs/min", "lb/minute"),
    "lb/h": ("lb/hr", "lbs/hr", "lbs/h"),
    "mg/stroke": ("mg/st", "mg/str", "mg/stk", "mg/coup", "mg/cp"),
    "C": ("°C", "ºC", "° C", "℃", "degC", "deg C", "celsius"),
    "F": ("°F", "ºF", "° F", "℉", "degF", "deg F", "fahrenheit"),
    "K": ("kelvin",),
    "g": ("gram", "grams", "gramme", "grammes"),
    "g/L": ("g/l", "g/litre", "g/liter"),
    "%": ("percent", "per cent", "pct", "pour cent"),
    "km": ("kms",),
    "mi": ("mile", "miles"),
    "L": ("l", "litre", "litres", "liter", "liters"),
    "ml": ("mL", "millilitre", "millilitres"),
    "V": ("volt", "volts"),
    "s": ("sec", "second", "seconds", "seconde", "secondes"),
    "min": ("mins", "minute", "minutes"),
    "h": ("hr", "hrs", "hour", "hours", "heure", "heures"),
    "m3/h": ("m³/h", "cbm/h"),
    "L/1000km": ("L/1000 km", "l/1000 km"),
    "g/1000km": ("g/1000 km",),
    "cSt": ("mm2/s", "mm²/s"),
    "rpm": ("r/min", "1/min", "rev/min", "tr/min", "tr/mn", "tours/min"),
}

_PRESSURE = r"(?:m?bar|hpa|kpa|psi|inh2o)"
# psia, bar abs, mbar (a), kPa absolute; psig, bar g, mbar gauge
KIND_OF_PRESSURE = (
    rf"(?P<unit>{_PRESSURE})\s*\(?\s*(?:a|abs|absolute|g|ga|gauge|rel|relative)\.?\)?"
)
POSITION_OR_DUTY = r"(?P<unit>%)\s*\(?\s*(?:duty|pos|position|open|pwm|dc)\.?\)?"
SHARE_OF = r"(?P<unit>%)\s*(?:of\s+.*|soot|full|load(?:ing)?)"
