"""Instances of wrong sums of angles and of wrong moves with units."""

from collections.abc import Iterator
from random import Random

from slips_formula_instances import Instance, maker, show, sides, two
from slips_round_instances import box, box_task

from tutor.marking.task import Task

# -- angles ---------------------------------------------------------------------------------------


@maker("supplement-to-90")
def _supplement(rng: Random) -> Iterator[Instance]:
    a = rng.randint(10, 80)
    for wrong in (f"90 - {a}", str(90 - a)):
        yield from sides(rng, f"180 - {a}", wrong, "x")
    yield Instance((f"180° − {a}°", f"90° − {a}°"))
    for right, wrong in ((f"x + {a} = 180", f"x + {a} = 90"), (f"180 = {a} + x", f"90 = {a} + x")):
        yield Instance((right, wrong), Task(find=("x",)))
    task = Task(("A + B = 180",), (("A", f"{a}°"),), ("B",), ("°",))
    for line in ("A + B = 90", f"{a} + B = 90", f"B = 90 - {a}", f"B = {90 - a}°"):
        yield Instance((line,), task)
    pair = Task(("A + B = 180",), (("A", f"2x + {a}"), ("B", "x")), ("x",), ("",))
    for line in (f"2x + {a} + x = 90", f"3x + {a} = 90"):
        yield Instance((line,), pair)


@maker("complement-to-180")
def _complement(rng: Random) -> Iterator[Instance]:
    a = rng.randint(10, 80)
    for wrong in (f"180 - {a}", str(180 - a)):
        yield from sides(rng, f"90 - {a}", wrong, "x")
    yield Instance((f"x + {a} = 90", f"x + {a} = 180"), Task(find=("x",)))
    task = Task(("A + B = 90",), (("A", f"{a}°"),), ("B",), ("°",))
    for line in ("A + B = 180", f"{a} + B = 180", f"B = {180 - a}°"):
        yield Instance((line,), task)


@maker("triangle-sum-360")
def _triangle(rng: Random) -> Iterator[Instance]:
    a, b = rng.randint(20, 80), rng.randint(20, 80)
    for right in (f"180 - {a} - {b}", f"180 - ({a} + {b})", f"180 - {a + b}"):
        for wrong in (f"360 - {a} - {b}", f"360 - {a + b}", str(360 - a - b)):
            yield from sides(rng, right, wrong, "x")
    yield Instance((f"x + {a} + {b} = 180", f"x + {a} + {b} = 360"), Task(find=("x",)))
    yield Instance((f"x + {a} + {b} = 180", f"x + {a + b} = 360"), Task(find=("x",)))
    task = Task(("A + B + C = 180",), (("A", f"{a}°"), ("B", f"{b}°")), ("C",), ("°",))
    for line in ("A + B + C = 360", f"{a} + {b} + C = 360", f"C = {360 - a - b}°"):
        yield Instance((line,), task)


@maker("vertical-angles-added-to-180")
def _vertical(rng: Random) -> Iterator[Instance]:
    a = rng.choice([*range(20, 89), *range(92, 160)])
    yield from sides(rng, str(a), f"180 - {a}", "x")
    yield Instance((f"2x + 6 = {a}", f"2x + 6 + {a} = 180"), Task(find=("x",)))
    yield Instance((f"2x + 6 = {a}", f"2x + {a + 6} = 180"), Task(find=("x",)))
    task = Task(("A = B",), (("A", "2x + 6"), ("B", str(a))), ("x",), ("",))
    for line in ("A + B = 180", f"2x + 6 + {a} = 180", f"2x + {6 + a} = 180"):
        yield Instance((line,), task)


@maker("protractor-wrong-scale")
def _protractor(rng: Random) -> Iterator[Instance]:
    a = rng.choice([*range(20, 89), *range(92, 160)])
    yield from sides(rng, str(a), str(180 - a), "x")
    yield Instance((f"{a}°", f"{180 - a}°"))


# -- units ----------------------------------------------------------------------------------------

_SQUARES = (("m", "cm", 100), ("ft", "in", 12), ("cm", "mm", 10), ("yd", "ft", 3), ("km", "m", 1000))


@maker("linear-unit-on-area")
def _length_on_area(rng: Random) -> Iterator[Instance]:
    n, unit = rng.randint(12, 900), rng.choice(("m", "cm", "ft", "in", "yd"))
    yield Instance((f"{n} {unit}^2", f"{n} {unit}"))
    a, b = two(rng)
    task = Task(("A = L W",), (("L", f"{a} {unit}"), ("W", f"{b} {unit}")), ("A",), (f"{unit}^2",))
    yield Instance((f"A = {show(float(a) * float(b))} {unit}",), task)


@maker("square-unit-on-volume")
def _area_on_volume(rng: Random) -> Iterator[Instance]:
    n, unit = rng.randint(12, 900), rng.choice(("m", "cm", "ft", "in"))
    yield Instance((f"{n} {unit}^3", f"{n} {unit}^2"))
    a, b, c = box(rng)
    task = box_task(a, b, c, "V = L W H", "V", "cm^3")
    yield Instance((f"V = {a * b * c} cm²",), task)


@maker("square-unit-on-length")
def _area_on_length(rng: Random) -> Iterator[Instance]:
    n, unit = rng.randint(12, 900), rng.choice(("m", "cm", "ft", "in"))
    yield Instance((f"{n} {unit}", f"{n} {unit}^2"))
    a, b = two(rng)
    task = Task(("P = 2L + 2W",), (("L", f"{a} ft"), ("W", f"{b} ft")), ("P",), ("ft",))
    yield Instance((f"P = {show(2 * (float(a) + float(b)))} ft²",), task)


@maker("linear-factor-for-square-units")
def _square_factor(rng: Random) -> Iterator[Instance]:
    n, (big, small, factor) = rng.randint(1, 9), rng.choice(_SQUARES)
    yield Instance((f"{n} {big}^2 = {n * factor} {small}^2",))
    yield Instance((f"{n * factor} {small}² = {n} {big}²",))
    yield Instance((f"{n} {big}^2", f"{n * factor} {small}^2"))
    yield Instance((f"A = {n} {big}^2", f"A = {n * factor} {small}^2"), Task(find=("A",)))


@maker("linear-factor-for-cubic-units")
def _cubic_factor(rng: Random) -> Iterator[Instance]:
    n, (big, small, factor) = rng.randint(1, 9), rng.choice(_SQUARES)
    yield Instance((f"{n} {big}^3 = {n * factor} {small}^3",))
    yield Instance((f"V = {n} {big}^3", f"V = {n * factor} {small}^3"), Task(find=("V",)))


@maker("convert-the-wrong-way")
def _wrong_way(rng: Random) -> Iterator[Instance]:
    big, small, factor = rng.choice((("ft", "in", 12), ("m", "cm", 100), ("kg", "g", 1000), ("h", "min", 60)))
    n = factor * rng.randint(1, 9)
    yield Instance((f"{n} {big} = {n // factor} {small}",))
    yield Instance((f"{n} {small} = {n * factor} {big}",))
    yield Instance((f"{n} {big}", f"{n // factor} {small}"))
    yield Instance((f"x = {n} {big}", f"x = {n // factor} {small}"), Task(find=("x",)))
    yield Instance((f"3 {big} = {show(3 / factor)} {small}",))


@maker("mixed-units-multiplied")
def _mixed(rng: Random) -> Iterator[Instance]:
    a, b = rng.randint(2, 9), rng.randint(3, 40)
    big, small = rng.choice((("ft", "in"), ("m", "cm"), ("yd", "ft")))
    for unit in (big, small):
        yield Instance((f"{a} {big} * {b} {small} = {a * b} {unit}^2",))
    yield Instance((f"A = {a} {big} · {b} {small}", f"A = {a * b} {big}²"), Task(find=("A",)))
    task = Task(("A = L W",), (("L", f"{a} {big}"), ("W", f"{b} {small}")), ("A",), (f"{big}^2",))
    for line in (f"A = {a}·{b}", f"A = {a * b}", f"A = {a * b} {big}²"):
        yield Instance((line,), task)
