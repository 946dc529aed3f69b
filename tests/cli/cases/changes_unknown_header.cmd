cat > tune.changes <<'END'
colour: blue
| G7 | C |
END
insideline analyze "$DATA/no_chords.musicxml" --changes tune.changes --json solo.json
