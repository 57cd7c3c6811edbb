"""Tasks of the parade for the tests of wrong formulas and wrong plans."""

from tutor.marking.task import Task
from tutor.quantity.pi import Pi

DISC = Task(("A = pi r^2",), (("r", "5 cm"),), ("A",), ("cm^2",), Pi.DECIMAL)
HOOP = Task(("C = 2 pi r",), (("C", "47.1 cm"),), ("r",), ("cm",), Pi.DECIMAL)
LOOP = Task(("P = 2 s + pi d",), (("P", "150.5 m"), ("d", "25 m")), ("s",), ("m",), Pi.DECIMAL)
BANNER = Task(("A = L W",), (("L", "8 ft"), ("W", "5 ft")), ("A",), ("ft^2",))
EDGE = Task(("P = 2L + 2W",), (("L", "8 ft"), ("W", "5 ft")), ("P",), ("ft",))
FRAME = Task(("F = L + 2b",), (("F", "48 cm"), ("b", "4.5 cm")), ("L",), ("cm",))
PENNANT = Task(("A = 1/2 b h",), (("b", "11 in"), ("h", "8 in")), ("A",), ("in^2",))
CRATE = Task(("SA = 2LW + 2LH + 2WH",), (("L", "14 cm"), ("W", "9 cm"), ("H", "17 cm")), ("SA",), ("cm^2",))
CANDLE = Task(("V = pi r^2 h",), (("r", "3 cm"), ("h", "10 cm")), ("V",), ("cm^3",), Pi.DECIMAL)
