"""A good lesson of each kind of problem, to make mistakes in."""

HEAD = "lesson   Lantern Parade\nformat   1\npi       3.14\n\n"

BASES = {
    "solve": HEAD + "problem  Hoop\n"
    "  ask      The hoop is bent from {C} of cane. How far is it to the middle?\n"
    "  figure   circle, radius r, circumference C\n"
    "  formula  C = 2 pi r\n"
    "  given    C = 53.38 cm\n"
    "  find     r in cm\n"
    "  round    to 1 place\n",
    "vary": HEAD + "problem  Hoop\n"
    "  vary     r from 4 to 9 step 0.5\n"
    "  where    r != 5\n"
    "  ask      The hoop is bent from {C} of cane. How far is it to the middle?\n"
    "  formula  C = 2 pi r\n"
    "  given    C = 2 * 3.14 * r cm\n"
    "  find     r in cm\n",
    "equation": HEAD + "problem  Paper\n"
    "  vary     a from 2 to 6\n"
    "  vary     k from 3 to 9\n"
    "  ask      Each of {a} teams cuts n strips, and 15 are ready.\n"
    "  equation {a}n + 15 = {a k + 15}\n"
    "  find     n\n",
    "pieces": HEAD + "problem  Lantern\n"
    "  ask      How much paper covers the four walls?\n"
    "  piece    front = L H\n"
    "  piece    side = W H\n"
    "  formula  S = 2 front + 2 side\n"
    "  given    L = 30 cm\n"
    "  given    W = 20 cm\n"
    "  given    H = 40 cm\n"
    "  find     S in cm^2\n",
    "parts": HEAD + "problem  Banner\n"
    "  ask      A banner is L = {L} long and W = {W} wide.\n"
    "  formula  A = L W\n"
    "  formula  P = 2 L + 2 W\n"
    "  given    L = 90 cm\n"
    "  given    W = 40 cm\n"
    "  part     How much cloth is it?\n"
    "  find     A in cm^2\n"
    "  part     How long is its hem?\n"
    "  find     P in cm\n",
    "choose": HEAD + "problem  Cut\n"
    "  ask      A box is cut straight down. Which shape has the cut?\n"
    "  choose   triangle, rectangle, circle\n"
    "  answer   rectangle\n",
    "word": HEAD + "problem  Once round\n"
    "  word     circumference\n"
    "  means    the way once round a circle\n"
    "  also     perimeter of a circle\n"
    "  near     radius, diameter, chord\n"
    "  choose   words\n",
    "triangle": HEAD + "problem  Struts\n"
    "  ask      Can the struts make a triangle?\n"
    "  triangle 4 cm, 6 cm, 9 cm\n",
    "many": HEAD + "problem  Frames\n"
    "  ask      How many different triangles are there?\n"
    "  many     triangles\n"
    "  given    a = 5 cm\n"
    "  given    b = 6 cm\n"
    "  given    C = 50°\n",
    "draw": HEAD + "problem  Kite\n"
    "  ask      Draw it and measure the other sides.\n"
    "  draw     triangle\n"
    "  given    A = 50°\n"
    "  given    B = 60°\n"
    "  given    c = 6 cm\n"
    "  find     a and b in cm\n"
    "  within   2 mm and 2°\n",
    "write": HEAD + "problem  Sail\n"
    "  ask      Write the formula for the area of a triangle.\n"
    "  formula  A = b h / 2\n"
    "  write    A\n",
    "show": HEAD + "problem  Strip\n"
    "  ask      Why is the strip πr long?\n"
    "  formula  C = 2 pi r\n"
    "  formula  P = C / 2\n"
    "  show     P = pi r\n"
    "  reason   The strip is half of the hoop.\n",
    "settings": "lesson   Lantern Parade\nformat   1\ngrade    7\nsteps    formula, label\nmarks    when handed in\n"
    "correct  fresh numbers\nmissed   when a line breaks\nhints    on\n\n"
    "problem  Paper\n  ask      Solve it.\n  equation 2x = 6\n  find     x\n",
}
