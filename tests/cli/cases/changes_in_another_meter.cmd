cat > tune.changes <<'END'
meter: 3/4
| G7 | C |
END
insideline analyze "$DATA/no_chords.musicxml" --changes tune.changes --json solo.json
