"""Pure functions of the trade's physics. The modules work in SI units (Pa, m3/s, kg/s, K, kg, m)
with plain numbers; `quantities` is where they meet the units and the errors of the workshop."""
