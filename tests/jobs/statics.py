"""Statics that more than one job is worked by."""
from math import radians, sin


def braked(seats, centre, high, weight, tie):
    """Greatest load of any of three seats, at rest and pushed with 0.8 g forward, 0.5 g any other way, one degree out of level."""
    down, most = weight + 3 * tie, 0.0
    (x1, y1), (x2, y2), (x3, y3) = seats
    for along, across in ((0, 0), (0.8, 0), (-0.5, 0), (0, 0.5), (0, -0.5)):
        lean = [a + (a > 0) * sin(radians(1)) - (a < 0) * sin(radians(1)) for a in (along, across)]
        x = (weight * (centre[0] + high * lean[0]) + tie * (x1 + x2 + x3)) / down
        y = (weight * (centre[1] + high * lean[1]) + tie * (y1 + y2 + y3)) / down
        whole = (x2 - x1) * (y3 - y1) - (x3 - x1) * (y2 - y1)
        second = ((x - x1) * (y3 - y1) - (x3 - x1) * (y - y1)) / whole
        third = ((x2 - x1) * (y - y1) - (x - x1) * (y2 - y1)) / whole
        shares = 1 - second - third, second, third
        assert min(shares) > 0
        most = max(most, down * max(shares))
    return most
