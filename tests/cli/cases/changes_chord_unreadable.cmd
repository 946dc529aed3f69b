cat > tune.changes <<'END'
| G7 | Hm7 |
END
insideline analyze "$DATA/no_chords.musicxml" --changes tune.changes --json solo.json
