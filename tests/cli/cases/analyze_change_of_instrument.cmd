printf '| C | Am |\n' >tune.changes
insideline analyze "$DATA/../../io/data/change_of_instrument.musicxml" --changes tune.changes --bars 2>/dev/null | sed -n '1,14p'
insideline analyze "$DATA/../../io/data/change_of_instrument.musicxml" --changes tune.changes --csv - 2>/dev/null | cut -d, -f9-11
