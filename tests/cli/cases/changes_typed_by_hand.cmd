cat > tune.changes <<'END'
Shed Blues
4/4
1. | F7 x3 | F7/// |
---
5. | Bb7 | ./. | F7 / / / | C7(b9)/// |
END
insideline changes tune.changes --up 2
printf 'A\n| F7 | (C7 | F7) |\n' > letter.changes
insideline changes letter.changes --up 2
printf '(F7 | C7) x2\n' > parenthesis.changes
insideline changes parenthesis.changes --up 2
