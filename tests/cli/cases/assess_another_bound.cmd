insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o sheet.musicxml >/dev/null
insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --one-mistake-in 5 2>/dev/null | sed -n 2,4p
