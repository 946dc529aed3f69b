cat > tune.changes <<'END'
key: Eb
| G7 | C |
END
insideline analyze "$DATA/no_chords.musicxml" --changes tune.changes --json solo.json
