insideline analyze "$DATA/two_bars.musicxml" --grid eighths || echo "exit $?"
insideline handout "$DATA/two_bars.musicxml" --bar-one 4 -o sheet.pdf || echo "exit $?"
insideline assess "$DATA/two_bars.musicxml" --against "$DATA/two_bars.musicxml" --salvage || echo "exit $?"
insideline analyze "$DATA/chord_markers.mid" --chord-track 2 --changes tune.changes || echo "exit $?"
