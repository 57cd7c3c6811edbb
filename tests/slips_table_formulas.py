"""The table of wrong formulas and wrong units: an example of each with its source.

Of the published table these are the kinds: formula, unit. What is not typed as in the table is said
beside its row; what no line can show stands in ``LEFT_OUT``.
"""

from slips_table import Row

# fmt: off
TABLE = (
    # -- formula
    Row("perimeter-given-for-area", ("32*20", "2*32 + 2*20"), "Tan Sisman & Aksu 2016, Int. J. Sci. Math. Educ. 14(7):1293-1319, abstract, 445 grade-6 students; Machaba 2016 Pythagoras 37(1) a304"),
    Row("area-given-for-perimeter", ("2*32 + 2*20", "32*20"), "Tan Sisman & Aksu 2016, Int. J. Sci. Math. Educ. 14(7):1293-1319, abstract, 445 grade-6 students; Machaba 2016"),
    Row("two-sides-only-perimeter", ("2*8 + 2*5", "8 + 5"), "common practice with no source"),
    Row("sides-added-for-area", ("8*5", "8 + 5"), "Kidman & Cooper 1997, PME-21 (additive area judgements, grades 4-8); from memory"),
    Row("triangle-half-forgotten", ("11*8/2", "11*8"), "Cavanagh 2007; Durmaz & Isiksal Bostan 2022; from memory"),
    Row("slant-side-as-height", ("6*4/2", "6*5/2"), "Durmaz & Isiksal Bostan 2022, EJSME 10(2):208-224, abstract: most triangle-area misconceptions concern the height"),
    Row("trapezoid-half-forgotten", ("6*(14 + 11)/2", "6*(14 + 11)"), "common practice with no source"),
    Row("trapezoid-one-base", ("6*(14 + 11)/2", "6*14"), "common practice with no source"),
    Row("diameter-used-as-radius", ("3.14*5^2", "3.14*10^2"), "common practice with no source"),
    Row("radius-used-as-diameter", ("3.14*10", "3.14*5"), "common practice with no source"),
    Row("circumference-given-for-area", ("3.14*5^2", "2*3.14*5"), "common practice with no source"),
    Row("area-given-for-circumference", ("2*3.14*5", "3.14*5^2"), "common practice with no source"),
    Row("radius-doubled-not-squared", ("3.14*3^2", "3.14*2*3"), "common practice with no source"),
    Row("volume-given-for-surface-area", ("2*14*9 + 2*14*17 + 2*9*17", "14*9*17"), "Tan Sisman & Aksu 2016, Int. J. Sci. Math. Educ. 14(7):1293-1319, abstract, 445 grade-6 students"),
    Row("surface-faces-not-doubled", ("2*14*9 + 2*14*17 + 2*9*17", "14*9 + 14*17 + 9*17"), "Tan Sisman & Aksu 2016 (category); pattern ours; from memory"),
    Row("volume-as-visible-faces", ("3*2*4", "3*2 + 3*4 + 2*4"), "Ben-Chaim, Lappan & Houang 1985 (read in a summary)"),
    Row("volume-as-visible-faces-doubled", ("3*2*4", "2*(3*2 + 3*4 + 2*4)"), "Ben-Chaim, Lappan & Houang 1985 (read in a summary)"),
    Row("dimensions-added-for-volume", ("30*25*20", "30 + 25 + 20"), "Battista & Clements 1996; from memory"),
    Row("cone-third-forgotten", ("3.14*2^2*6/3", "3.14*2^2*6"), "common practice with no source"),
    Row("sphere-power-wrong", ("4/3*3.14*6^3", "4/3*3.14*6^2"), "common practice with no source"),
    Row("cylinder-one-base-only", ("2*3.14*3^2 + 2*3.14*3*5", "3.14*3^2 + 2*3.14*3*5"), "common practice with no source"),
    Row("area-scales-like-length", ("6*3^2", "6*3"), "De Bock, Van Dooren, Janssens & Verschaffel 2002, Educ. Studies in Math. 50, abstract; Shindo & Magara 2011 abstract: area of a rectangle thought to grow k times when sides grow k times"),
    Row("volume-scales-like-length", ("24*2^3", "24*2"), "De Bock, Verschaffel & Janssens 1999, abstract (12-16-year-olds; lengths, area and/or volume)"),
    Row("leg-squares-added-for-leg", ("13^2 - 5^2", "13^2 + 5^2"), "common practice with no source"),
    Row("supplement-to-90", ("180 - 40", "90 - 40"), "Biber, Tuna & Korkmaz 2013 EJSME 1(2):50-59 (angle errors, grade 8; category READ); from memory"),
    Row("complement-to-180", ("90 - 40", "180 - 40"), "Biber, Tuna & Korkmaz 2013; from memory"),
    Row("vertical-angles-added-to-180", ("65", "180 - 65"), "Biber, Tuna & Korkmaz 2013; from memory"),
    Row("triangle-sum-360", ("180 - 55 - 82", "360 - 55 - 82"), "common practice with no source"),
    Row("protractor-wrong-scale", ("24", "156"), "Open University OpenLearn, Teaching mathematics, sect. 3.1 Using a protractor (24 read as 156)"),
    Row("triangle-inequality-equal-allowed", ("3 + 4 >= 7", "yes"), "common practice with no source"),  # the table tells it in words
    Row("triangle-inequality-one-easy-pair", ("2 + 8 > 3", "yes"), "common practice with no source"),  # the table tells it in words
    # -- unit
    Row("linear-unit-on-area", ("640 m^2", "640 m"), "Math Instruction for Students with Learning Problems, 2nd ed., Routledge 2017, p.378: perimeter/area unit confusion"),
    Row("square-unit-on-volume", ("2142 cm^3", "2142 cm^2"), "Math Instruction ... 2017 p.378; from memory"),
    Row("square-unit-on-length", ("104 m", "104 m^2"), "Tan Sisman & Aksu 2009; from memory"),
    Row("linear-factor-for-square-units", ("1 m^2 = 10000 cm^2", "1 m^2 = 100 cm^2"), "common practice with no source"),
    Row("linear-factor-for-cubic-units", ("1 m^3 = 1000000 cm^3", "1 m^3 = 100 cm^3"), "common practice with no source"),
    Row("convert-the-wrong-way", ("3 ft = 36 in", "3 ft = 0.25 in"), "common practice with no source"),
    Row("mixed-units-multiplied", ("2 ft * 6 in = 144 in^2", "2 ft * 6 in = 12 ft^2"), "common practice with no source"),
)
# fmt: on

LEFT_OUT = {
    "unit-left-off": "a missing unit is no break: the line follows and the units step stays open",
}
