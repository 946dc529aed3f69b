cat > tune.changes <<'END'
Quay Song
composer: the evening class
tempo: 160
A: | Dm7, G7 | Cmaj7 - | | (em7 a7) |
END
insideline drill --changes tune.changes -o sheet.musicxml | grep -A 2 -i "tempo"
insideline drill --changes tune.changes --tempo 100 -o sheet.musicxml 2>/dev/null | grep -A 2 -i "tempo"
grep -c '<sound tempo="100"' sheet.musicxml
cat > tune.changes <<'END'
Quay Song
by the evening class
style: swing
key: C
(A) |: C min7 | F 7 |1 Bb maj7 :|2 Bb6 |
| G7 b9 | C m7 | x 2 // both times
END
insideline changes tune.changes --to D
