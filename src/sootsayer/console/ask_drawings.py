"""Small pictures in plain characters, of hoses and ports; ours, ASCII, at most 44 columns.

They stand here and not in packs: a pack's text is folded like any sentence, and a picture must
not be. Each is named by the signals that it helps to read.
"""

from __future__ import annotations

_PORTS = r"""
           sensor
          F|    |R
           |    |
 ==========+####+==========>
 from      |    |       to the
 engine  front rear   tailpipe
         port  port
      #### is the filter
"""
_VACUUM = r"""
 hand pump >--------( hose )--------X closed
   -200..-300 mbar, wait 30 to 60 s:
   it must hold
"""
_BLOW = r"""
      sensor (hose off here)
        .
        |  blow this way, toward the exhaust,
        v  never into the sensor
 =======+####====>
"""
_APPLIED = r"""
  hand pump >---+-----> front port [sensor]
                |       rear port: open
              gauge
            100 mbar  (water: 102 cm)
"""
_COMPARED = r"""
           sensor
          F|    |R
   gauge>--+    +--<gauge      T-pieces
           |    |
 ==========+####+==========>
"""
_AHEAD = r"""
    gauge
      |   port of a sensor before the catalyst
 =====+===[catalyst]==[filter]====>
"""
_FLUID = r"""
      port
        |  fluid must run this way -->
 turbo==+=====[ filter ]=====>
        <-- never back to the turbo
"""
_VOLTS = r"""
  plug of the sensor, plugged in
  [ supply ]--V--[ ground ]   4.8 to 5.2 V
  [ signal ]--V--[ ground ]   key on, stopped
"""
_REST = r"""
  key on, engine stopped, 30 s
 =====[ filter ]=====  | extractor
   no flow: about 0    | pulled off
"""

_BY_SLOT: dict[str, str] = {
    "hose-look": _PORTS,
    "hose-hisses": _PORTS,
    "hoses-traced": _PORTS,
    "hose-holds-vacuum": _VACUUM,
    "hose-blows-through": _BLOW,
    "dp@applied": _APPLIED,
    "dp@rest": _REST,
    "sensor-against-gauge": _COMPARED,
    "gauge-zero-in-air": _COMPARED,
    "pressure-ahead": _AHEAD,
    "fluid-port": _FLUID,
    "sensor-volts": _VOLTS,
    "supply-volts": _VOLTS,
}


def drawing_for(slot: str) -> list[str]:
    """The rows of the picture for a slot, [] where none is meant."""
    text = _BY_SLOT.get(slot) or _BY_SLOT.get(slot.partition("@")[0], "")
    return text.strip("\n").split("\n") if text else []
