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
insideline analyze tunes.abc --csv - | cut -d, -f10
insideline analyze tunes.abc --tune pier --csv - | cut -d, -f10
insideline analyze tunes.abc --tune 3
