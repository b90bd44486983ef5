"""Records as a phone would write them, made from known signals."""

from math import pi, sqrt

import numpy as np

G = 9.80665


def log(signal, *, seconds=20.0, rate=100.0, jitter=0.2, gravity=True, unit=1.0, tick=1.0, separator=",", comma=False,
         header="time,ax,ay,az", noise=0.02, seed=1, clip=None, drop=None, epoch=0.0):  # fmt: skip
    """A record of a sideways signal in m/s², the phone tilted and turned on the cabinet."""
    chance = np.random.default_rng(seed)
    time = np.arange(0, seconds, 1 / rate)
    time = np.sort(time + chance.uniform(-jitter, jitter, len(time)) / rate)
    down = np.array([0.1, 0.2, 0.97])
    down /= np.linalg.norm(down)
    along = np.cross(np.cross(down, [1, 0.4, 0]), down)
    along /= np.linalg.norm(along)
    accel = np.outer(signal(time), along) + noise * chance.standard_normal((len(time), 3))
    if gravity:
        accel += G * down
    if clip is not None:
        accel = np.clip(accel, -clip, clip)
    table = np.column_stack([(time - time[0] + epoch) * tick, accel * unit])
    if drop:
        table = table[(time < drop[0]) | (time > drop[1])]
    rows = [separator.join(f"{value:.7f}" for value in row) for row in table]
    text = "\n".join([header.replace(",", separator), *rows])
    return text.replace(".", ",") if comma else text


def tone(hertz=7.31, strength=1.2):
    """A single frequency."""
    return lambda time: strength * np.sin(2 * pi * hertz * time + 0.3)


def push(natural=4.7, damping=0.045, at=3.0, strength=2.0):
    """A cabinet that is pushed once and sways out."""
    pace = 2 * pi * natural

    def signal(time):
        since = np.maximum(time - at, 0)
        swing = strength * np.exp(-damping * pace * since) * np.cos(pace * sqrt(1 - damping**2) * since)
        return np.where(time > at, swing, 0)

    return signal


def pushed(*times, natural=4.7, damping=0.045, strengths=None):
    """Several pushes, one after the other."""
    single = [push(natural, damping, at, strength) for at, strength in zip(times, strengths or [2.0] * len(times),
                                                                           strict=True)]  # fmt: skip
    return lambda time: sum(one(time) for one in single)


def rubbing(at=3.0, lasts=4.0, natural=4.7):
    """A push that friction stops: swings that fall along a straight line."""

    def signal(time):
        since = np.maximum(time - at, 0)
        return np.where(time > at, 2 * np.maximum(1 - since / lasts, 0) * np.cos(2 * pi * natural * since), 0)

    return signal


def switched(on, off, hertz=6.0, rise=0.3):
    """A shaker that is switched on and off."""
    return lambda time: (
        np.sin(2 * pi * hertz * time) * np.clip(np.minimum((time - on) / rise, (off - time) / rise), 0, 1)
    )
