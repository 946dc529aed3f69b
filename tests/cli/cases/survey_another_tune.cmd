mkdir solos
cat > solos/tunes.abc <<'END'
X:1
T:Quay
K:C
"C" C4 E4 |

X:2
T:Pier
K:F
"F" F4 A4 |
END
insideline survey solos --db solos.db | head -n 1
insideline survey solos --db solos.db --tune 2 | head -n 1
insideline survey solos --db solos.db --tune 2 | head -n 1
