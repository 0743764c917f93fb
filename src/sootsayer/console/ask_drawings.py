"""Small pictures in plain characters, of hoses and ports; ours, ASCII, at most 44 columns.

They stand here and not in packs: a pack's text is folded like any sentence, and a picture must
not be. Each is named by the signals that it helps to read.
"""

from __future__ import annotations

from sootsayer.catalogue import say

PORTS = r"""
           sensor
          F|    |R
           |    |
 ==========+####+==========>
 from      |    |       to the
 engine  front rear   tailpipe
         port  port
      #### is the filter
"""
VACUUM = r"""
 hand pump >--------( hose )--------X closed
   -200..-300 mbar, wait 30 to 60 s:
   it must hold
"""
BLOW = r"""
      sensor (hose off here)
        .
        |  blow this way, toward the exhaust,
        v  never into the sensor
 =======+####====>
"""
APPLIED = r"""
  hand pump >---+-----> front port [sensor]
                |       rear port: open
              gauge
            100 mbar  (water: 102 cm)
"""
COMPARED = r"""
           sensor
          F|    |R
   gauge>--+    +--<gauge      T-pieces
           |    |
 ==========+####+==========>
"""
AHEAD = r"""
    gauge
      |   port of a sensor before the catalyst
 =====+===[catalyst]==[filter]====>
"""
FLUID = r"""
      port
        |  fluid must run this way -->
 turbo==+=====[ filter ]=====>
        <-- never back to the turbo
"""
VOLTS = r"""
  plug of the sensor, plugged in
  [ supply ]--V--[ ground ]   4.8 to 5.2 V
  [ signal ]--V--[ ground ]   key on, stopped
"""
REST = r"""
  key on, engine stopped, 30 s
 =====[ filter ]=====  | extractor
   no flow: about 0    | pulled off
"""

_BY_SLOT: dict[str, str] = {
    "hose-look": PORTS,
    "hose-hisses": PORTS,
    "hoses-traced": PORTS,
    "hose-holds-vacuum": VACUUM,
    "hose-blows-through": BLOW,
    "dp@applied": APPLIED,
    "dp@rest": REST,
    "sensor-against-gauge": COMPARED,
    "gauge-zero-in-air": COMPARED,
    "pressure-ahead": AHEAD,
    "fluid-port": FLUID,
    "sensor-volts": VOLTS,
    "supply-volts": VOLTS,
}


def drawing_for(slot: str) -> list[str]:
    """The rows of the picture for a slot, [] where none is meant."""
    text = _BY_SLOT.get(slot) or _BY_SLOT.get(slot.partition("@")[0], "")
    return say(text).strip("\n").split("\n") if text else []
