cat > tune.changes <<'END'
| A7 | D |
END
insideline analyze "$DATA/no_chords.musicxml" --changes tune.changes --changes-pitch written --transpose -2 --csv - | cut -d, -f10,11,12,15
