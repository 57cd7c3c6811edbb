"""Further kinds: substituting, intervals, lines in the plane, rates, decimals: printed worked examples; see textbook_style."""

from textbook_style import Row, expression, rearranged, solved

# fmt: off
SUBSTITUTE_EXPR: tuple[Row, ...] = (
    expression("9x − 2 ; 9(5) − 2 ; 45 − 2 ; 43"),
    expression("x² ; 10² ; 100"),
    expression("2x² + 3x + 8 ; 2(4)² + 3(4) + 8 ; 2(16) + 12 + 8 ; 32 + 12 + 8 ; 52"),
    expression("3x + 4y − 6 ; 3(10) + 4(2) − 6 ; 30 + 8 − 6 ; 32"),
    expression("x + 7, x = 3 ; 3 + 7 ; 10"),
    expression("y = 2x − 1 ; y = 2(4) − 1 ; y = 7"),
)

INTERVALS: tuple[Row, ...] = (
    solved("x", "x > −2 and x < 5 ; −2 < x < 5"),
    solved("x", "3x + 1 < 10 and 2x > −4 ; 3x < 9 and x > −2 ; x < 3 and x > −2 ; −2 < x < 3"),
    solved("x", "2x + 1 > 7 or −x > 4 ; 2x > 6 or x < −4 ; x > 3 or x < −4"),
    solved("x", "1 < (x + 3)/2 < 5 ; 2 < x + 3 < 10 ; −1 < x < 7"),
    solved("x", "−1 ≤ 3 − x < 4 ; −4 ≤ −x < 1 ; 4 ≥ x > −1 ; −1 < x ≤ 4"),
)

FUNCTIONS: tuple[Row, ...] = (
    expression("f(x) = 3x − 5 ; f(2) = 3(2) − 5 ; f(2) = 6 − 5 ; f(2) = 1"),
    solved("m", "m = (y₂ − y₁)/(x₂ − x₁) ; m = (−5 − 3)/(4 − 2) ; m = −8/2 ; m = −4"),
    solved("d", "d = √((x₂ − x₁)² + (y₂ − y₁)²) ; d = √((4 − 1)² + (6 − 2)²) ; d = √(3² + 4²) ; d = √(9 + 16) ; d = √25 ; d = 5"),
    solved("d", "d = sqrt((4 − 1)^2 + (6 − 2)^2) ; d = sqrt(9 + 16) ; d = sqrt(25) ; d = 5"),
    rearranged("y", "y − 4 = 2/5 (x − 10) ; y − 4 = 2/5 x − 4 ; y = 2/5 x"),
    solved("b", "y = mx + b ; 3 = 2(−1) + b ; 3 = −2 + b ; 5 = b"),
    rearranged("y", "2x − 3y = 6 ; −3y = −2x + 6 ; −3y/(−3) = (−2x + 6)/(−3) ; y = 2/3 x − 2"),
    solved("y", "5x − 3y = 15 ; 5(0) − 3y = 15 ; −3y = 15 ; y = −5"),
    solved("y", "y = −2x + 3 ; y = −2(0) + 3 ; y = 0 + 3 ; y = 3"),
    solved("k", "y = kx ; 54 = k(6) ; 9 = k ; y = 9x"),
)

WORDPROBLEMS: tuple[Row, ...] = (
    solved("n", "n + (n + 2) + (n + 4) = −45 ; 3n + 6 = −45 ; 3n = −51 ; n = −17 ; n + 2 = −15 ; n + 4 = −13"),
    solved("r", "4r + 4(r + 8) = 448 ; 4r + 4r + 32 = 448 ; 8r + 32 = 448 ; 8r = 416 ; r = 52 mph ; r + 8 = 60 mph"),
    solved("r", "3(r + 12) = 4r ; 3r + 36 = 4r ; 36 = r ; r + 12 ; 36 + 12 ; 48"),
    solved("t", "60t + 45t = 315 ; 105t = 315 ; t = 3 hours"),
    solved("x", "5x + 8(20 − x) = 124 ; 5x + 160 − 8x = 124 ; −3x + 160 = 124 ; −3x = −36 ; x = 12 pounds ; 20 − x ; 20 − 12 ; 8 pounds"),
    solved("n", "0.05n + 0.10(2n − 3) = 2.20 ; 0.05n + 0.20n − 0.30 = 2.20 ; 0.25n − 0.30 = 2.20 ; 0.25n = 2.50 ; n = 10 nickels ; 2n − 3 ; 2(10) − 3 ; 17 dimes"),
    solved("a", "a + 2a = 180 ; 3a = 180 ; a = 60"),
    solved("x", "x + (x + 1) + (x + 2) = 54 ; 3x + 3 = 54 ; 3x = 51 ; x = 17 ; 17 + 18 + 19 = 54"),
    solved("s", "2s + s + s − 4 = 60 ; 4s − 4 = 60 ; 4s = 64 ; s = 16 ; 2(16) = 32 ; 16 − 4 = 12"),
    solved("x", "x/100 · 250 = 40 ; 2.5x = 40 ; x = 16"),
    solved("c", "1.0825c = 86.60 ; c = $80"),
    solved("w", "w(w + 6) = 91 ; w² + 6w = 91 ; w² + 6w − 91 = 0 ; (w − 7)(w + 13) = 0 ; w − 7 = 0 or w + 13 = 0 ; w = 7 or w = −13"),
    solved("x", "x² + (x + 7)² = 13² ; x² + x² + 14x + 49 = 169 ; 2x² + 14x − 120 = 0 ; 2(x² + 7x − 60) = 0 ; 2(x + 12)(x − 5) = 0 ; x + 12 = 0 or x − 5 = 0 ; x = −12 or x = 5"),
    solved("t", "−16t² + 80t + 96 = 0 ; −16(t² − 5t − 6) = 0 ; −16(t − 6)(t + 1) = 0 ; t − 6 = 0 or t + 1 = 0 ; t = 6 or t = −1"),
    solved("t", "1/3 + 1/5 = 1/t ; 15t(1/3 + 1/5) = 15t(1/t) ; 5t + 3t = 15 ; 8t = 15 ; t = 15/8"),
    solved("r", "120/r = 150/(r + 10) ; 120(r + 10) = 150r ; 120r + 1,200 = 150r ; 1,200 = 30r ; 40 = r"),
    solved("d", "$0.20d + $35 = $51 ; 0.20d = 16 ; d = 80 miles"),
)

DECIMALS: tuple[Row, ...] = (
    solved("x", "0.06x + 0.02 = 0.25x − 1.5 ; 100(0.06x + 0.02) = 100(0.25x − 1.5) ; 6x + 2 = 25x − 150 ; 2 = 19x − 150 ; 152 = 19x ; 8 = x"),
    solved("x", "0.7x + 0.4 = 0.6x + 2.4 ; 0.1x + 0.4 = 2.4 ; 0.1x = 2.0 ; x = 20"),
    solved("n", "−4.2n = 25.2 ; −4.2n/−4.2 = 25.2/−4.2 ; n = −6"),
    solved("p", "p − 2.8 = −7.35 ; p = −4.55"),
    solved("z", ".5z = 3.25 ; z = 6.5"),
    solved("c", "c/0.6 = 12 ; 0.6(c/0.6) = 0.6(12) ; c = 7.2"),
    solved("y", "y/−4.7 = −12 ; −4.7(y/−4.7) = −4.7(−12) ; y = 56.4"),
    solved("x", "1.2x − 0.9x = 0.6 ; 0.3x = 0.6 ; x = 2"),
    solved("x", "3.50x + 4.75 = 22.25 ; 3.5x = 17.5 ; x = 5"),
)

RATES: tuple[Row, ...] = (
    expression("15/27 ; 5/9"),
    expression("45/18 = 5/2"),
    expression("0.8/0.05 ; (0.8 · 100)/(0.05 · 100) ; 80/5 ; 16/1"),
    expression("(1 1/4)/(2 3/8) ; (5/4)/(19/8) ; 5/4 ÷ 19/8 ; 5/4 · 8/19 ; 10/19"),
    expression("620 miles/12 hours ; 155 miles/3 hours"),
    expression("455 miles ÷ 14 gallons = 32.5 miles/gallon"),
    expression("1 yd = 3 ft ; 4 yd = 12 ft"),
    expression("10,000 m · 1 km/1,000 m = 10 km"),
    expression("3,200 kg = 3.2 t"),
    expression("2.4 kg · 1,000 g/1 kg ; 2,400 g"),
    expression("1 hour 45 minutes = 105 minutes"),
    expression("5 ft 4 in = 64 in"),
    expression("2 gal = 8 qt = 16 pt"),
    expression("5/9(50 − 32) ; 5/9(18) ; 10"),
    expression("−15 + 8 = −7"),
    expression("9/100 = 0.09 = 9%"),
    expression("137% = 137/100 = 1.37"),
    expression("33 1/3% ; (33 1/3)/100 ; (100/3)/100 ; 100/3 · 1/100 ; 1/3"),
    expression("4.5% = 0.045"),
    expression("0.375 = 37.5%"),
    expression("3/4 = 75/100 = 75%"),
)

DIVISION: tuple[Row, ...] = (
    expression("(18x³ − 36x²)/(6x) ; 18x³/(6x) − 36x²/(6x) ; 3x² − 6x"),
    expression("(x² + 9x + 20) ÷ (x + 5) ; ((x + 4)(x + 5))/(x + 5) ; x + 4"),
    expression("x² − 25 ; x² − 5² ; (x − 5)(x + 5)"),
    expression("3x² + 18x + 24 ; 3(x² + 6x + 8) ; 3(x + 2)(x + 4)"),
    expression("6x² + 7x + 2 ; 6x² + 3x + 4x + 2 ; 3x(2x + 1) + 2(2x + 1) ; (2x + 1)(3x + 2)"),
    expression("9x² − 12x + 4 ; (3x)² − 2 · 3x · 2 + 2² ; (3x − 2)²"),
    expression("8x³ + 27 ; (2x)³ + 3³ ; (2x + 3)(4x² − 6x + 9)"),
    expression("−8a − 32 ; −8 · a + (−8) · 4 ; −8(a + 4)"),
    expression("5(x + 3) + y(x + 3) ; (x + 3)(5 + y)"),
    expression("(x + y)² − (x − y)² ; x² + 2xy + y² − x² + 2xy − y² ; 4xy"),
    expression("(6 × 10^4) ÷ (1.5 × 10^−3) ; (6 ÷ 1.5) × 10^(4 − (−3)) ; 4 × 10^7"),
    expression("(2a − b)(2a + b) ; 4a² − b²"),
    expression("(m^3)^2/m ; m^6/m ; m^5"),
)

FORMULA_FREE: tuple[Row, ...] = (
    solved("A", "A = 1/2bh ; A = 1/2(10)(7) ; A = 35"),
    solved("h", "A = 1/2 bh ; 45 = 1/2(10)h ; 45 = 5h ; 9 = h"),
    solved("A", "A = 1/2h(b + B) ; A = 1/2 · 6 · (14 + 11) ; A = 1/2 · 6 · 25 ; A = 75 square inches"),
    solved("P", "P = 2L + 2W ; P = 2 · 32 + 2 · 20 ; P = 64 + 40 ; P = 104 meters"),
    solved("P", "P = a + b + c ; P = 5 + 8 + 9 ; P = 22 cm"),
    solved("V", "V = πr²h ; V ≈ 3.14(2)²(10) ; V ≈ 3.14(4)(10) ; V ≈ 125.6 cm³"),
    solved("C", "C = πd ; C ≈ (3.14)(12) ; C ≈ 37.68 inches"),
    solved("d", "C = πd ; 47.1 ≈ 3.14d ; 47.1/3.14 ≈ 3.14d/3.14 ; 15 ≈ d"),
    solved("A", "A = πr² ; A ≈ 3.14 · 6² ; A ≈ 3.14 · 36 ; A ≈ 113.04"),
    solved("S", "S = 2LH + 2LW + 2WH ; S = 2(14 · 17) + 2(14 · 9) + 2(9 · 17) ; S = 476 + 252 + 306 ; S = 1,034"),
    solved("V", "V = 1/3πr²h ; V ≈ 1/3(3.14)(2)²(6) ; V ≈ 25.12"),
    solved("V", "V = Bh ; V = (6 · 4) · 3 ; V = 24 · 3 ; V = 72"),
    solved("t", "d = rt ; 90 = 45t ; 2 = t"),
    solved("C", "C = 5/9(F − 32) ; C = 5/9(104 − 32) ; C = 5/9(72) ; C = 40"),
    solved("x", "a + b = 180 ; x + (x + 40) = 180 ; 2x + 40 = 180 ; 2x = 140 ; x = 70"),
    solved("w", "A = lw ; 84 = 12w ; 7 = w"),
    solved("h", "V = lwh ; 120 = 6 · 4 · h ; 120 = 24h ; 5 = h"),
    solved("c", "a² + b² = c² ; 7² + 24² = c² ; 49 + 576 = c² ; 625 = c² ; 25 = c"),
    solved("b", "a² + b² = c² ; 9² + b² = 15² ; 81 + b² = 225 ; b² = 144 ; b² = 12² ; b = 12"),
    solved("r", "I = Prt ; 90 = 600 · r · 3 ; 90 = 1,800r ; 0.05 = r ; 5% = r"),
    solved("h", "V = 1/3 πr²h ; 100 = 1/3(3.14)(25)h ; 300 = 78.5h ; 3.8 ≈ h"),
    solved("B", "∠A + ∠B = 180° ; 65° + ∠B = 180° ; ∠B = 115°"),
    solved("C", "A + B + C = 180 ; 42 + 67 + C = 180 ; 109 + C = 180 ; C = 71"),
    solved("y", "4/3 = 3.2/y ; 4y = 9.6 ; y = 2.4"),
)

ROWS = {
    "substitute expr": SUBSTITUTE_EXPR,
    "intervals": INTERVALS,
    "functions": FUNCTIONS,
    "wordproblems": WORDPROBLEMS,
    "decimals": DECIMALS,
    "rates": RATES,
    "division": DIVISION,
    "formula free": FORMULA_FREE,
}
