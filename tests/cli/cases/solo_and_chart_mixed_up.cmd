printf '| C | F |\n' > tune.changes
printf '%%PDF-1.4\n' > page.mid
printf 'noise' > noise.mid
insideline analyze tune.changes --changes "$DATA/chord_markers.mid" || echo "exit $?"
insideline analyze "$DATA/no_chords.musicxml" --changes "$DATA/chord_markers.mid" || echo "exit $?"
insideline analyze page.mid --changes tune.changes || echo "exit $?"
insideline analyze noise.mid --changes tune.changes || echo "exit $?"
