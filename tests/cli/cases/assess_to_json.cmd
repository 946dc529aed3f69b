insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o sheet.musicxml >/dev/null
insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --json - 2>/dev/null | head -n 24
