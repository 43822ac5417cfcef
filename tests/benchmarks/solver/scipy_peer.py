# SPDX-License-Identifier: MIT
"""One day of the plant with scipy.integrate.solve_ivp and terminal events.

    scipy_peer.py LIBRARY WORLD_FILE REGULATED(0/1) METHOD

The right-hand side and the rule are compiled C++, called through ctypes (scipy_peer.cpp). The
solver is started anew at each knot of the weather, each edge of a draw, each look of a regulated
pump and each switching, as solve_ivp has it. rtol is 1e-6, the absolute tolerance of a cell 1e-5 K.
Prints CPU seconds, kWh to the store, evaluations, and the switchings as pairs of second and 0/1.
"""
import ctypes
import math
import sys
import time

import numpy
from scipy.integrate import solve_ivp

DAY_S = 86400
RTOL = 1e-6
ATOL_K = 1e-5
pointer = ctypes.POINTER(ctypes.c_double)


def load(path):
    library = ctypes.CDLL(path)
    handle = ctypes.c_void_p
    library.peer_open.restype = handle
    library.peer_open.argtypes = [ctypes.c_char_p, ctypes.c_int]
    library.peer_size.argtypes = [handle]
    library.peer_start.argtypes = [handle, pointer, pointer]
    library.peer_drive.restype = ctypes.c_int64
    library.peer_drive.argtypes = [handle, ctypes.c_int64]
    library.peer_rate.argtypes = [handle, ctypes.c_double, pointer, pointer]
    library.peer_crossing_k.restype = ctypes.c_double
    library.peer_crossing_k.argtypes = [handle, pointer]
    library.peer_decide.argtypes = [handle, pointer, ctypes.c_int64]
    library.peer_evaluations.restype = ctypes.c_long
    library.peer_evaluations.argtypes = [handle]
    return library


def doubles(array):
    return array.ctypes.data_as(pointer)


class Day:
    def __init__(self, library, peer, method):
        self.library = library
        self.peer = peer
        self.method = method
        size = library.peer_size(peer)
        self.state = numpy.zeros(size)
        self.kelvin = numpy.zeros(size)
        library.peer_start(peer, doubles(self.state), doubles(self.kelvin))
        self.crossing.__func__.terminal = True

    def rate(self, t, state):
        state = numpy.ascontiguousarray(state)
        answer = numpy.empty_like(state)
        self.library.peer_rate(self.peer, t, doubles(state), doubles(answer))
        return answer

    def crossing(self, _t, state):
        return self.library.peer_crossing_k(self.peer, doubles(numpy.ascontiguousarray(state)))

    def go(self, start, until, events):
        """To `until` or an event; returns when."""
        found = solve_ivp(self.rate, (start, until), self.state, method=self.method, rtol=RTOL,
                          atol=ATOL_K * self.kelvin, events=events)
        if found.status < 0:
            raise RuntimeError(found.message)
        self.state = numpy.ascontiguousarray(found.y[:, -1])
        return found.t[-1]

    def live(self):
        switchings = []
        now = 0
        on = self.library.peer_decide(self.peer, doubles(self.state), now)
        if on:
            switchings += [now, on]
        while now < DAY_S:
            until = self.library.peer_drive(self.peer, now)
            reached = self.go(now, until, self.crossing)
            now = math.ceil(reached - 1e-9)
            if reached < now:
                self.go(reached, now, None)
            if self.library.peer_decide(self.peer, doubles(self.state), now):
                on = 1 - on
                switchings += [now, on]
        return switchings


def main():
    path, world, regulated, method = sys.argv[1:5]
    library = load(path)
    peer = library.peer_open(world.encode(), int(regulated))
    if not peer:
        sys.exit("the world cannot be read")
    day = Day(library, peer, method)
    began = time.process_time()
    switchings = day.live()
    spent = time.process_time() - began
    heat_kwh = day.state[-1] / 3.6e6
    print(spent, heat_kwh, library.peer_evaluations(peer), *switchings)


main()
