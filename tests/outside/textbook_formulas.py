"""Formulas, measured figures, systems, word problems: printed worked examples; see textbook_style."""

from textbook_style import Row, expression, measured, rearranged, solved

from tutor.quantity.pi import Pi

# fmt: off
LITERAL: tuple[Row, ...] = (
    rearranged("t", "d = rt ; d/r = rt/r ; d/r = t"),
    solved("t", "d = rt ; 520 = 65t ; 520/65 = 65t/65 ; 8 = t"),
    rearranged("r", "d = rt ; d/t = rt/t ; d/t = r ; r = d/t"),
    rearranged("h", "A = 1/2bh ; 2 · A = 2 · 1/2bh ; 2A = bh ; 2A/b = bh/b ; 2A/b = h"),
    solved("h", "A = 1/2 b h ; 90 = 1/2 · 15 · h ; 90 = 15/2 h ; 2/15 · 90 = 2/15 · 15/2 h ; 12 = h"),
    rearranged("W", "P = 2L + 2W ; P − 2L = 2L + 2W − 2L ; P − 2L = 2W ; (P − 2L)/2 = 2W/2 ; (P − 2L)/2 = W"),
    rearranged("L", "P = 2L + 2W ; P − 2W = 2L ; L = (P − 2W)/2"),
    rearranged("L", "P = 2L + 2W ; P − 2W = 2L ; P/2 − W = L"),
    rearranged("h", "V = πr²h ; V/(πr²) = πr²h/(πr²) ; V/(πr²) = h"),
    rearranged("h", "V = 1/3 πr^2h ; 3V = πr^2h ; 3V/(πr^2) = h"),
    rearranged("C", "F = 9/5 C + 32 ; F − 32 = 9/5 C + 32 − 32 ; F − 32 = 9/5 C ; 5/9(F − 32) = 5/9 · 9/5 C ; 5/9(F − 32) = C"),
    rearranged("C", "F = 9/5C + 32 ; F − 32 = 9/5C ; C = 5/9 (F − 32)"),
    rearranged("P", "I = Prt ; I/(rt) = Prt/(rt) ; I/(rt) = P"),
    solved("r", "I = Prt ; 5,600 = 14,000 · r · 5 ; 5,600 = 70,000r ; 0.08 = r ; 8% = r"),
    solved("t", "I = Prt ; 240 = 1,600(0.05)t ; 240 = 80t ; 3 = t"),
    rearranged("y", "3x + 2y = 18 ; 3x − 3x + 2y = 18 − 3x ; 2y = 18 − 3x ; 2y/2 = (18 − 3x)/2 ; y = (18 − 3x)/2"),
    rearranged("y", "3x + 2y = 18 ; 2y = −3x + 18 ; y = −3/2 x + 9"),
    rearranged("y", "4x − y = 7 ; −y = −4x + 7 ; y = 4x − 7"),
    rearranged("y", "6x + 5y = 13 ; 5y = 13 − 6x ; y = 13/5 − 6/5 x"),
    rearranged("b", "a + b + c = 180 ; b + c = 180 − a ; b = 180 − a − c"),
    rearranged("b", "y = mx + b ; y − mx = b ; b = y − mx"),
    rearranged("m", "y = mx + b ; y − b = mx ; (y − b)/x = m"),
    rearranged("B", "A = 1/2 h(b + B) ; 2A = h(b + B) ; 2A/h = b + B ; 2A/h − b = B"),
    rearranged("r", "C = 2πr ; C/(2π) = 2πr/(2π) ; C/(2π) = r"),
    rearranged("d", "C = πd ; C/π = πd/π ; C/π = d"),
    rearranged("h", "V = LWh ; V/(LW) = h"),
    rearranged("a", "x + a = b − 2a ; x + 3a = b ; 3a = b − x ; a = (b − x)/3"),
    solved("s", "A = s^2 ; 81 = s^2 ; √81 = s ; 9 = s"),
)

DISTANCE: tuple[Row, ...] = (
    measured("d", "d = rt ; d = 60(2.5) ; d = 150 miles", "d = rt", "r = 60 mi/h ; t = 2.5 h", unit="miles"),
    measured("t", "d = rt ; 280 = 70t ; 280/70 = 70t/70 ; 4 = t", "d = rt", "d = 280 mi ; r = 70 mi/h"),
    measured("r", "d = rt ; 45 = r · 3 ; 15 = r ; r = 15 mph", "d = r t", "d = 45 mi ; t = 3 h"),
    measured("I", "I = Prt ; I = 2,500(0.03)(4) ; I = 300 ; $300", "I = P r t", "P = $2500 ; r = 3% ; t = 4"),
    measured("I", "I = Prt ; I = ($2,500)(0.03)(4) ; I = $300", "I = P r t", "P = $2500 ; r = 3% ; t = 4", unit="$"),
    measured("C", "C = 5/9(F − 32) ; C = 5/9(95 − 32) ; C = 5/9(63) ; C = 35", "C = 5/9(F − 32)", "F = 95"),
    measured("F", "F = 9/5 C + 32 ; F = 9/5 · 20 + 32 ; F = 36 + 32 ; F = 68", "F = 9/5 C + 32", "C = 20"),
    measured("F", "F = 1.8C + 32 ; F = 1.8(20) + 32 ; F = 68°", "F = 1.8C + 32", "C = 20"),
    measured("d", "d = m/V ; d = 54/20 ; d = 2.7", "d = m/V", "m = 54 ; V = 20"),
)

RECTANGLE: tuple[Row, ...] = (
    measured("P", "P = 2L + 2W ; P = 2(32) + 2(20) ; P = 64 + 40 ; P = 104 m", "P = 2L + 2W", "L = 32 m ; W = 20 m", unit="m"),
    measured("A", "A = LW ; A = 32 · 20 ; A = 640 ; A = 640 m²", "A = L W", "L = 32 m ; W = 20 m", unit="m^2"),
    measured("A", "A = L · W ; A = 32 m · 20 m ; A = 640 square meters", "A = LW", "L = 32 m ; W = 20 m", unit="m^2"),
    measured("L", "P = 2L + 2W ; 50 = 2L + 2(10) ; 50 = 2L + 20 ; 30 = 2L ; 15 = L ; L = 15 inches", "P = 2L + 2W", "P = 50 in ; W = 10 in", unit="in"),
    measured("L", "P = 2L + 2W ; 50 = 2L + 2(10) ; 50 − 20 = 2L + 20 − 20 ; 30 = 2L ; 30/2 = 2L/2 ; 15 = L ; P = 2L + 2W ; 50 = 2(15) + 2(10) ; 50 = 30 + 20 ; 50 = 50 ✓", "P = 2L + 2W", "P = 50 in ; W = 10 in"),
    measured("W", "A = LW ; 168 = 14W ; 168/14 = 14W/14 ; 12 = W ; W = 12 ft", "A = L W", "A = 168 ft^2 ; L = 14 ft", unit="ft"),
    measured("w", "P = 2l + 2w ; 32 = 2(2w + 4) + 2w ; 32 = 4w + 8 + 2w ; 32 = 6w + 8 ; 24 = 6w ; 4 = w", "P = 2l + 2w", "P = 32 ; l = 2w + 4"),
    measured("l w", "P = 2l + 2w ; 32 = 2(2w + 4) + 2w ; 32 = 6w + 8 ; 24 = 6w ; w = 4 ; l = 2w + 4 ; l = 2(4) + 4 ; l = 12", "P = 2l + 2w", "P = 32 ; l = 2w + 4"),
    measured("L W", "W = L − 2 ; 52 = 2L + 2(L − 2) ; 52 = 2L + 2L − 4 ; 52 = 4L − 4 ; 56 = 4L ; 14 = L ; L − 2 ; 14 − 2 ; 12 ; W = 12", "P = 2L + 2W", "P = 52 in ; W = L − 2"),
    solved("w", "2w + 2(w + 15) = 150 ; 2w + 2w + 30 = 150 ; 4w + 30 = 150 ; 4w = 120 ; w = 30"),
    measured("A", "A = s^2 ; A = 7.5^2 ; A = 56.25 cm^2", "A = s^2", "s = 7.5 cm", unit="cm^2"),
    measured("P", "P = 4s ; P = 4(7.5) ; P = 30", "P = 4s", "s = 7.5 cm"),
    measured("W", "A = LW ; 5 1/4 = 3 1/2 · W ; 21/4 = 7/2 W ; 2/7 · 21/4 = W ; 3/2 = W ; W = 1 1/2 ft", "A = L W", "A = 5 1/4 ft^2 ; L = 3 1/2 ft", unit="ft"),
    measured("A", "A = 2 1/2 · 1 3/5 ; A = 5/2 · 8/5 ; A = 40/10 ; A = 4", "A = b h", "b = 2 1/2 ft ; h = 1 3/5 ft"),
    measured("P", "P = 8 + 5 + 8 + 5 ; P = 26", "P = 2L + 2W", "L = 8 ; W = 5"),
)

TRIANGLE: tuple[Row, ...] = (
    measured("A", "A = 1/2 bh ; A = 1/2 · 11 · 8 ; A = 44 square inches", "A = 1/2 b h", "b = 11 in ; h = 8 in", unit="in^2"),
    measured("A", "A = 1/2bh ; A = 1/2(11)(8) ; A = 5.5(8) ; A = 44 in²", "A = 1/2 b h", "b = 11 in ; h = 8 in", unit="in^2"),
    measured("A", "A = bh/2 ; A = (11 · 8)/2 ; A = 88/2 ; A = 44", "A = 1/2 b h", "b = 11 in ; h = 8 in"),
    measured("h", "A = 1/2 bh ; 90 = 1/2 · 15 · h ; 180 = 15h ; 12 = h ; h = 12 m", "A = 1/2 b h", "A = 90 m^2 ; b = 15 m", unit="m"),
    measured("h", "A = 1/2bh ; 90 = 1/2(15)h ; 90 = 7.5h ; 90/7.5 = 7.5h/7.5 ; 12 = h", "A = 1/2 b h", "A = 90 m^2 ; b = 15 m"),
    measured("c", "P = a + b + c ; 24 = 4 + 9 + c ; 24 = 13 + c ; 11 = c ; c = 11 ft", "P = a + b + c", "P = 24 ft ; a = 4 ft ; b = 9 ft", unit="ft"),
    measured("s", "P = 3s ; 93 = 3s ; 93/3 = 3s/3 ; 31 = s", "P = 3s", "P = 93 in"),
    solved("s", "156 = 2s + 60 ; 96 = 2s ; 48 = s"),
    measured("A", "A = 1/2 · 0.8 · 2.5 ; A = 0.4 · 2.5 ; A = 1 m^2", "A = 1/2 b h", "b = 0.8 m ; h = 2.5 m", unit="m^2"),
)

PYTHAGORAS: tuple[Row, ...] = (
    measured("c", "a² + b² = c² ; 3² + 4² = c² ; 9 + 16 = c² ; 25 = c² ; √25 = c ; 5 = c", "a^2 + b^2 = c^2", "a = 3 ; b = 4"),
    measured("c", "a^2 + b^2 = c^2 ; 6^2 + 8^2 = c^2 ; 36 + 64 = c^2 ; 100 = c^2 ; 10 = c ; c = 10 ft", "a^2 + b^2 = c^2", "a = 6 ft ; b = 8 ft", unit="ft"),
    measured("b", "a^2 + b^2 = c^2 ; 5^2 + b^2 = 13^2 ; 25 + b^2 = 169 ; b^2 = 144 ; b = √144 ; b = 12", "a^2 + b^2 = c^2", "a = 5 ; c = 13"),
    measured("b", "b^2 = 13^2 − 5^2 ; b^2 = 169 − 25 ; b^2 = 144 ; b = 12", "a^2 + b^2 = c^2", "a = 5 m ; c = 13 m"),
    measured("c", "c = √(a² + b²) ; c = √(5² + 7²) ; c = √(25 + 49) ; c = √74 ; c ≈ 8.6", "a^2 + b^2 = c^2", "a = 5 ; b = 7"),
    measured("c", "5² + 7² = c² ; 25 + 49 = c² ; 74 = c² ; √74 = c ; 8.6 ≈ c", "a^2 + b^2 = c^2", "a = 5 ; b = 7"),
    measured("d", "d^2 = 8^2 + 15^2 ; d^2 = 64 + 225 ; d^2 = 289 ; d = 17 yd", "d^2 = w^2 + h^2", "w = 8 yd ; h = 15 yd", unit="yd"),
    measured("h", "h^2 + 1.2^2 = 2^2 ; h^2 + 1.44 = 4 ; h^2 = 2.56 ; h = 1.6", "h^2 + b^2 = s^2", "b = 1.2 m ; s = 2 m"),
    measured("c", "c^2 = 2^2 + 3^2 ; c^2 = 13 ; c = √13 ; c ≈ 3.606", "a^2 + b^2 = c^2", "a = 2 ft ; b = 3 ft"),
    measured("a", "a^2 + 24^2 = 25^2 ; a^2 + 576 = 625 ; a^2 + 576 − 576 = 625 − 576 ; a^2 = 49 ; a = 7", "a^2 + b^2 = c^2", "b = 24 cm ; c = 25 cm"),
    measured("c", "c² = a² + b² ; c² = 9² + 12² ; c² = 81 + 144 = 225 ; c = √225 = 15 ; c = 15 in", "a^2 + b^2 = c^2", "a = 9 in ; b = 12 in", unit="in"),
    measured("c", "a^2 + b^2 = c^2 ; 9^2 + 12^2 = c^2 ; 225 = c^2 ; ±15 = c ; 15 = c", "a^2 + b^2 = c^2", "a = 9 in ; b = 12 in"),
)

TRAPEZOID: tuple[Row, ...] = (
    measured("A", "A = 1/2h(b + B) ; A = 1/2 · 6 · (14 + 11) ; A = 1/2 · 6(25) ; A = 3(25) ; A = 75 square inches", "A = 1/2 h (b + B)", "h = 6 in ; b = 14 in ; B = 11 in", unit="in^2"),
    measured("A", "A = 1/2 h(b + B) ; A = 1/2 · 3.4(8.2 + 5.6) ; A = 1/2(3.4)(13.8) ; A = 23.46 yd²", "A = 1/2 h (b + B)", "h = 3.4 yd ; b = 8.2 yd ; B = 5.6 yd", unit="yd^2"),
    measured("A", "A = (b_1 + b_2)/2 · h ; A = (10 + 6)/2 · 5 ; A = 16/2 · 5 ; A = 8 · 5 = 40", "A = 1/2 h (b_1 + b_2)", "h = 5 ; b_1 = 10 ; b_2 = 6"),
    measured("A", "A = 1/2h(b₁ + b₂) ; A = 1/2(5)(10 + 6) ; A = 1/2(5)(16) ; A = 40", "A = 1/2 h (b_1 + b_2)", "h = 5 ; b_1 = 10 ; b_2 = 6"),
    measured("h", "A = 1/2 h(b + B) ; 54 = 1/2 h(7 + 11) ; 54 = 1/2 h(18) ; 54 = 9h ; 6 = h", "A = 1/2 h (b + B)", "A = 54 ; b = 7 ; B = 11"),
    measured("A", "A = bh ; A = 12(7.5) ; A = 90", "A = b h", "b = 12 ; h = 7.5"),
)

CIRCLE: tuple[Row, ...] = (
    measured("C", "C = 2πr ; C ≈ 2(3.14)(2.5) ; C ≈ 15.7 feet", "C = 2 pi r", "r = 2.5 ft", unit="ft", pi=Pi.DECIMAL),
    measured("C", "C = 2πr ; C ≈ 2 · 3.14 · 10 ; C ≈ 62.8 in.", "C = 2 pi r", "r = 10 in", unit="in", pi=Pi.DECIMAL),
    measured("C", "C = 2πr ; C = 2 · π · 10 ; C = 20π ; C ≈ 62.8 cm", "C = 2 pi r", "r = 10 cm", unit="cm", pi=Pi.DECIMAL),
    measured("C", "C = 2πr ; C = 2π(10) ; C = 20π cm", "C = 2 pi r", "r = 10 cm", unit="cm"),
    measured("C", "C = πd ; C ≈ 3.14(4) ; C ≈ 12.56", "C = pi d", "d = 4 ft", pi=Pi.DECIMAL),
    measured("C", "C = πd ; C ≈ 22/7 · 14 ; C ≈ 44 in", "C = pi d", "d = 14 in", unit="in", pi=Pi.FRACTION),
    measured("C", "C = 2πr ; C ≈ 2 · 22/7 · 5/12 ; C ≈ 55/21 ; C ≈ 2 13/21", "C = 2 pi r", "r = 5/12 m", pi=Pi.FRACTION),
    measured("A", "A = πr² ; A ≈ (3.14)(2.5)² ; A ≈ 3.14(6.25) ; A ≈ 19.625 sq ft", "A = pi r^2", "r = 2.5 ft", unit="ft^2", pi=Pi.DECIMAL),
    measured("A", "A = πr^2 ; A ≈ 22/7 (7/15)^2 ; A ≈ 22/7 · 49/225 ; A ≈ 154/225", "A = pi r^2", "r = 7/15 m", pi=Pi.FRACTION),
    measured("A", "A = πr^2 ; A = π(6)^2 ; A = 36π ; A ≈ 113.04", "A = pi r^2", "r = 6 in", pi=Pi.DECIMAL),
    measured("A", "A = πr^2 ; A = π · 6^2 ; A = 36π square inches", "A = pi r^2", "r = 6 in", unit="in^2"),
    measured("d", "C = πd ; 47.1 ≈ 3.14d ; 47.1/3.14 ≈ 3.14d/3.14 ; 15 ≈ d ; d ≈ 15 cm", "C = pi d", "C = 47.1 cm", unit="cm", pi=Pi.DECIMAL),
    measured("r", "C = 2πr ; 47.1 = 2(3.14)r ; 47.1 = 6.28r ; 7.5 = r ; r = 7.5 cm", "C = 2 pi r", "C = 47.1 cm", unit="cm", pi=Pi.DECIMAL),
    measured("r", "A = πr^2 ; 50.24 = 3.14r^2 ; 16 = r^2 ; 4 = r", "A = pi r^2", "A = 50.24 m^2", pi=Pi.DECIMAL),
    measured("r", "A = πr² ; 49π = πr² ; 49 = r² ; 7 = r", "A = pi r^2", "A = 49 pi cm^2"),
    measured("C", "r = d/2 ; r = 18/2 ; r = 9 ; C = 2πr ; C ≈ 2(3.14)(9) ; C ≈ 56.52", "C = 2 pi r ; d = 2 r", "d = 18 cm", pi=Pi.DECIMAL),
    measured("A", "r = 18/2 = 9 ; A = πr² ; A ≈ 3.14 · 9² ; A ≈ 3.14 · 81 ; A ≈ 254.34 cm²", "A = pi r^2 ; d = 2 r", "d = 18 cm", unit="cm^2", pi=Pi.DECIMAL),
    measured("C", "C = 2πr ; C ≈ 2(3.14)(42.5) ; C ≈ 266.9 centimeters", "C = 2 pi r", "r = 42.5 cm", unit="cm", pi=Pi.DECIMAL),
    measured("A", "A = 1/2 πr^2 ; A ≈ 1/2(3.14)(4)^2 ; A ≈ 1/2(3.14)(16) ; A ≈ 25.12", "A = 1/2 pi r^2", "r = 4 ft", pi=Pi.DECIMAL),
)

COMPOSITE: tuple[Row, ...] = (
    measured("A", "A = A_1 + A_2 ; A = 12 · 4 + 2 · 6 ; A = 48 + 12 ; A = 60", "A = A_1 + A_2 ; A_1 = 12*4 ; A_2 = 2*6", ""),
    measured("A", "A = LW + 1/2 bh ; A = 8 · 4 + 1/2 · 3 · 3 ; A = 32 + 4.5 ; A = 36.5 sq. units", "A = L W + 1/2 b h", "L = 8 ; W = 4 ; b = 3 ; h = 3"),
    measured("A", "A = LW + πr^2 ; A ≈ 105(68) + 3.14 · 34^2 ; A ≈ 7140 + 3629.84 ; A ≈ 10,769.84 m^2", "A = L W + pi r^2", "L = 105 m ; W = 68 m ; r = 34 m", unit="m^2", pi=Pi.DECIMAL),
    measured("A", "A = 10^2 − π · 5^2 ; A ≈ 100 − 3.14(25) ; A ≈ 100 − 78.5 ; A ≈ 21.5", "A = s^2 − pi r^2", "s = 10 cm ; r = 5 cm", pi=Pi.DECIMAL),
    measured("A", "A = 9 · 6 − 3 · 2 ; A = 54 − 6 ; A = 48 ft^2", "A = L W − l w", "L = 9 ft ; W = 6 ft ; l = 3 ft ; w = 2 ft", unit="ft^2"),
    expression("12 · 4 = 48 ; 2 · 6 = 12 ; 48 + 12 = 60"),
    expression("8(4) + 1/2(3)(3) ; 32 + 4.5 ; 36.5 square units"),
)

VOLUME: tuple[Row, ...] = (
    measured("V", "V = LWH ; V = 14 · 9 · 17 ; V = 2,142 cubic centimeters", "V = L W H", "L = 14 cm ; W = 9 cm ; H = 17 cm", unit="cm^3"),
    measured("V", "V = Bh ; V = (30 · 25) · 20 ; V = 750 · 20 ; V = 15,000 in³", "V = L W H", "L = 30 in ; W = 25 in ; H = 20 in", unit="in^3"),
    measured("V", "V = Bh ; B = 30 · 25 ; B = 750 ; V = 750(20) ; V = 15,000", "V = B h ; B = L W", "L = 30 in ; W = 25 in ; h = 20 in"),
    measured("H", "V = LWH ; 420 = 10 · 6 · H ; 420 = 60H ; 420/60 = 60H/60 ; 7 = H", "V = L W H", "V = 420 cm^3 ; L = 10 cm ; W = 6 cm"),
    measured("S", "S = 2LH + 2LW + 2WH ; S = 2(14 · 17) + 2(14 · 9) + 2(9 · 17) ; S = 2(238) + 2(126) + 2(153) ; S = 476 + 252 + 306 ; S = 1,034 sq. cm", "S = 2LH + 2LW + 2WH", "L = 14 cm ; W = 9 cm ; H = 17 cm", unit="cm^2"),
    measured("S", "S = 2 · 14 · 9 + 2 · 14 · 17 + 2 · 9 · 17 = 252 + 476 + 306 = 1034", "S = 2LH + 2LW + 2WH", "L = 14 cm ; W = 9 cm ; H = 17 cm"),
    measured("V", "V = s^3 ; V = 2.5^3 ; V = 15.625 cu in", "V = s^3", "s = 2.5 in", unit="in^3"),
    measured("V", "V = s³ ; V = (4.5)³ ; V = 4.5 · 4.5 · 4.5 ; V = 91.125", "V = s^3", "s = 4.5 m"),
    measured("S", "S = 6s² ; S = 6 · (2.5)² ; S = 6(6.25) ; S = 37.5 in²", "S = 6 s^2", "s = 2.5 in", unit="in^2"),
    measured("V", "V = 4/3 πr³ ; V ≈ 4/3 (3.14)6³ ; V ≈ 4/3(3.14)(216) ; V ≈ 904.32 cubic inches", "V = 4/3 pi r^3", "r = 6 in", unit="in^3", pi=Pi.DECIMAL),
    measured("S", "S = 4πr² ; S ≈ 4(3.14)6² ; S ≈ 452.16 sq. in.", "S = 4 pi r^2", "r = 6 in", unit="in^2", pi=Pi.DECIMAL),
    measured("V", "V = πr²h ; V ≈ (3.14)3² · 5 ; V ≈ 141.3 cubic inches", "V = pi r^2 h", "r = 3 in ; h = 5 in", unit="in^3", pi=Pi.DECIMAL),
    measured("V", "V = πr^2h ; V ≈ (3.14)4^2 · 13 ; V ≈ 653.12", "V = pi r^2 h", "r = 4 cm ; h = 13 cm", pi=Pi.DECIMAL),
    measured("S", "S = 2πr^2 + 2πrh ; S ≈ 2(3.14)3^2 + 2(3.14)(3)5 ; S ≈ 56.52 + 94.2 ; S ≈ 150.72", "S = 2 pi r^2 + 2 pi r h", "r = 3 in ; h = 5 in", pi=Pi.DECIMAL),
    measured("V", "V = 1/3 πr^2h ; V ≈ 1/3 (3.14)(2)^2(6) ; V ≈ 25.12 in^3", "V = 1/3 pi r^2 h", "r = 2 in ; h = 6 in", unit="in^3", pi=Pi.DECIMAL),
    measured("V", "V = 1/3 πr^2h ; V ≈ 1/3 · 3.14 · 2.5^2 · 8 ; V ≈ 52.33 cubic inches", "V = 1/3 pi r^2 h", "r = 2.5 in ; h = 8 in", unit="in^3", pi=Pi.DECIMAL),
    measured("V", "V = 1/3Bh ; V = 1/3(36)(7) ; V = 12 · 7 ; V = 84 ft^3", "V = 1/3 B h", "B = 36 ft^2 ; h = 7 ft", unit="ft^3"),
    measured("h", "V = πr^2h ; 628 = 3.14 · 5^2 · h ; 628 = 78.5h ; 8 = h", "V = pi r^2 h", "V = 628 cm^3 ; r = 5 cm", pi=Pi.DECIMAL),
    measured("V", "V = πr²h ; V = π · 3² · 5 ; V = 45π ; V ≈ 141.4", "V = pi r^2 h", "r = 3 in ; h = 5 in"),
    measured("r", "V = 4/3πr^3 ; 36π = 4/3πr^3 ; 36 = 4/3 r^3 ; 27 = r^3 ; 3 = r", "V = 4/3 pi r^3", "V = 36 pi cm^3"),
    measured("s", "V = s^3 ; 343 = s^3 ; ∛343 = s ; 7 = s ; s = 7 in.", "V = s^3", "V = 343 in^3", unit="in"),
)

ANGLES: tuple[Row, ...] = (
    measured("B", "A + B = 180 ; 40 + B = 180 ; B = 140 ; B = 140°", "A + B = 180", "A = 40°", unit="°"),
    measured("B", "m∠A + m∠B = 180 ; 40 + m∠B = 180 ; m∠B = 140", "A + B = 180", "A = 40°"),
    solved("∠C", "m∠A + m∠B + m∠C = 180° ; 55° + 82° + m∠C = 180° ; 137° + m∠C = 180° ; m∠C = 43°"),
    solved("x", "55 + 82 + x = 180 ; 137 + x = 180 ; x = 43"),
    solved("x", "x + 90 + 28 = 180 ; x + 118 = 180 ; x = 62°"),
    solved("a", "a + (a + 20) + 90 = 180 ; 2a + 110 = 180 ; 2a = 70 ; a = 35"),
    solved("a", "a + (a + 30) = 180 ; 2a + 30 = 180 ; 2a = 150 ; a = 75 ; a + 30 = 105"),
    solved("x", "(2x + 10) + (3x − 5) = 90 ; 5x + 5 = 90 ; 5x = 85 ; x = 17"),
    solved("x", "3x° + 60° = 180° ; 3x = 120 ; x = 40"),
    solved("x", "4x = 2x + 50 ; 2x = 50 ; x = 25 ; 4(25) = 100 ; 2(25) + 50 = 100"),
    solved("x", "x + 2x + 3x = 180 ; 6x = 180 ; x = 30 ; 2x = 60 ; 3x = 90"),
)

SYSTEMS: tuple[Row, ...] = (
    measured("x y", "y = 4 − 2x ; x − 2y = −3 ; x − 2(4 − 2x) = −3 ; x − 8 + 4x = −3 ; 5x − 8 = −3 ; 5x = 5 ; x = 1 ; y = 4 − 2(1) ; y = 2", "2x + y = 4 ; x − 2y = −3", ""),
    measured("x y", "2x + y = 7 ; x − 2y = 6 ; y = 7 − 2x ; x − 2(7 − 2x) = 6 ; x − 14 + 4x = 6 ; 5x = 20 ; x = 4 ; 2(4) + y = 7 ; 8 + y = 7 ; y = −1", "2x + y = 7 ; x − 2y = 6", ""),
    measured("x y", "3x = 15 ; x = 5 ; 5 + y = 10 ; y = 5", "x + y = 10 ; 2x − y = 5", ""),
    measured("x y", "x + y = 10 ; x − y = 12 ; 2x = 22 ; x = 11 ; 11 + y = 10 ; y = −1", "x + y = 10 ; x − y = 12", ""),
    measured("x y", "3x − 2y = −2 ; 5x − 6y = 10 ; −3(3x − 2y) = −3(−2) ; −9x + 6y = 6 ; −4x = 16 ; x = −4 ; 3(−4) − 2y = −2 ; −12 − 2y = −2 ; −2y = 10 ; y = −5", "3x − 2y = −2 ; 5x − 6y = 10", ""),
    measured("a c", "a + c = 120 ; 8a + 5c = 780 ; c = 120 − a ; 8a + 5(120 − a) = 780 ; 8a + 600 − 5a = 780 ; 3a + 600 = 780 ; 3a = 180 ; a = 60 ; c = 120 − 60 ; c = 60", "a + c = 120 ; 8a + 5c = 780", ""),
    measured("m n", "m + n = −8 ; m − n = 26 ; 2m = 18 ; m = 9 ; 9 + n = −8 ; n = −17", "m + n = −8 ; m − n = 26", ""),
    measured("x y", "y = 2x + 1 ; y = 3x − 4 ; 2x + 1 = 3x − 4 ; 1 = x − 4 ; 5 = x ; y = 2(5) + 1 ; y = 11", "y = 2x + 1 ; y = 3x − 4", ""),
    measured("x y", "y = 2x + 1 ; 4x − 2y = −2 ; 4x − 2(2x + 1) = −2 ; 4x − 4x − 2 = −2 ; −2 = −2 ; infinitely many solutions", "y = 2x + 1 ; 4x − 2y = −2", ""),
    measured("x y", "y = 3x − 1 ; 3x − (3x − 1) = 5 ; 1 = 5 ; no solution", "y = 3x − 1 ; 3x − y = 5", ""),
)

LETLINES: tuple[Row, ...] = (
    solved("n", "Let n = number ; 2n + 5 = 33 ; 2n = 28 ; n = 14"),
    solved("n", "Let n = the number of boxes. ; 12n = 96 ; n = 8 boxes"),
    solved("c", "Let c = number of child tickets ; 3c + 5(810 − c) = 2,820 ; 3c + 4,050 − 5c = 2,820 ; −2c + 4,050 = 2,820 ; −2c = −1,230 ; c = 615 children tickets"),
    solved("x", "Let x be the price of one banner. ; 4x + 3 = 31 ; 4x = 28 ; x = 7 ; One banner costs $7."),
    solved("p", "Let p = the original price. ; p − 0.25p = 36 ; 0.75p = 36 ; p = 48 ; The original price was $48. ; 48 − 0.25(48) = 36 ; 48 − 12 = 36 ; 36 = 36"),
)

ROWS = {
    "literal": LITERAL,
    "distance": DISTANCE,
    "rectangle": RECTANGLE,
    "triangle": TRIANGLE,
    "pythagoras": PYTHAGORAS,
    "trapezoid": TRAPEZOID,
    "circle": CIRCLE,
    "composite": COMPOSITE,
    "volume": VOLUME,
    "angles": ANGLES,
    "systems": SYSTEMS,
    "letlines": LETLINES,
}
