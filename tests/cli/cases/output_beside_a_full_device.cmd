insideline analyze "$DATA/two_bars.musicxml" --json notes.json --csv /dev/full || echo "exit $?"
insideline analyze "$DATA/two_bars.musicxml" --json "$(printf '%0300d' 1)" || echo "exit $?"
