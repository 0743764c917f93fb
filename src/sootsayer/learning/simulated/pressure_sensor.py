"""What the differential pressure sensor shows of true pressures, truthfully or not."""

from __future__ import annotations

from random import Random

from sootsayer.learning.simulated.running import State
from sootsayer.learning.simulated.vehicle import Vehicle

VOLTS_AT_ZERO = 0.5


def shown(vehicle: Vehicle, state: State | None, random: Random) -> float:
    """mbar on the screen at a state, None being at rest."""
    front = 0.0 if state is None else state.drop + state.behind
    if state is not None and vehicle.port_before_catalyst:
        front = state.ahead
    rear = 0.0 if state is None else state.behind
    return _instrument(vehicle, _hoses(vehicle, front, rear), random)


def without_hoses(vehicle: Vehicle, random: Random) -> float:
    """mbar on the screen with both ports open to the air."""
    return _instrument(vehicle, 0.0, random)


def applied(vehicle: Vehicle, pressure: float, random: Random) -> float:
    """mbar on the screen with `pressure` mbar pumped into what is taken for the front port."""
    return _instrument(vehicle, -pressure if vehicle.dp_swapped else pressure, random)


def volts_at_rest(vehicle: Vehicle, random: Random) -> float:
    """V of the signal at rest: no learning hides a zero error in them."""
    zero = vehicle.dp_stuck_at if vehicle.dp_stuck else vehicle.dp_zero
    volts = VOLTS_AT_ZERO + vehicle.volts_per_mbar * zero + random.gauss(0.0, 0.008)
    return min(max(volts, 0.0), 5.0)


def _hoses(vehicle: Vehicle, front: float, rear: float) -> float:
    """mbar between the sensor's ports. A hose that is open lets that share of its pressure out;
    one that is blocked passes the rest and keeps what was trapped."""
    front *= 1.0 - vehicle.front_open
    front = front * (1.0 - vehicle.front_blocked) + vehicle.front_blocked * vehicle.front_trapped
    rear *= 1.0 - vehicle.rear_open
    rear = rear * (1.0 - vehicle.rear_blocked) + vehicle.rear_blocked * vehicle.rear_trapped
    return rear - front if vehicle.dp_swapped else front - rear


def _instrument(vehicle: Vehicle, pressure: float, random: Random) -> float:
    noise = random.gauss(0.0, vehicle.dp_noise)
    value = pressure * vehicle.dp_gain + vehicle.dp_zero + noise
    if vehicle.dp_stuck:
        value = vehicle.dp_stuck_at + noise / 4.0
    if vehicle.dp_clamped:
        value = max(value, 0.0)
    step = vehicle.dp_step
    return min(max(round(value / step) * step, -100.0), 1000.0)
