cat > tune.changes <<'END'
| G7 | C |
END
insideline analyze "$DATA/two_bars.musicxml" --changes tune.changes --start-bar 2 --csv - | cut -d, -f4,10,12
