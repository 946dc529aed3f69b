# The pickup of half a bar was written as if it began bar 1.
cat > tune.abc <<'END'
X:1
T:Half a bar off
M:4/4
L:1/8
K:C
z z A c D F A c | A F A D B G D F | D G D B E G B c | B G B E A F C _E |
C F C A D ^F A B | A ^F A D E ^G B d | B ^G B E A C E G | E C E A _E G _B _d |
_B G _B _E D F A c | A F A D B G D F | D G D B E G B c | B G B E A F C _E |
C F C A D ^F A B | A ^F A D E ^G B d | B ^G B E A C E G | E C E A _E G _B _d |
_B G _B _E z z z z |
END
printf '| Dm7 | G7 | Cmaj7 | F7 |\n| Bm7 | E7 | Am7 | Eb7 |\n' > tune.changes
insideline analyze tune.abc >/dev/null
