cat > tunes.abc <<'END'
X:1
T:Quay
K:C
"C" C4 E4 |

X:2
T:Pier
K:F
"F" F4 A4 |
END
insideline changes tunes.abc
insideline changes tunes.abc --tune pier
cp "$DATA/quay_steps.changes" .
insideline changes quay_steps.changes --tune 2
