cat > four.abc <<'END'
T:Four Bars at the Quay
M:4/4
L:1/8
K:Bb
"Cm7" z c e g b2 a g | "F7" f e c A F2 G A | "Bbmaj7" B2 d f a g f d | "G7b9" _a f d =B G4 |]
END
insideline analyze four.abc --bars
