insideline drill --changes "$CORPUS/lantern-street.changes" --swing 1.6 --chords comped --click --count-in two -o sheet.mid >/dev/null
insideline analyze sheet.mid --csv notes.csv | head -4
cut -d, -f4-6 notes.csv | sed -n 1,6p
