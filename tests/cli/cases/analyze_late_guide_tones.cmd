cat > moorings.abc <<'END'
X:1
T:Two Moorings
M:4/4
L:1/8
K:C
"Dm7" z G E ^C D F A c | "G7" c A ^A B d f B G | "Cmaj7" F ^D E G c2 z2 | "C7" z2 {^d}e g _b g e c | "F7" A2 _e c G B d g |
"Bb6" f4 d4 | "Dm7" F A c d "G7" _d _c _A F | "Cmaj7" E8 |]
END
insideline analyze moorings.abc --bars
