insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o sheet.musicxml >/dev/null
insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --for tenor-sax | sed -n '1,3p;/^Note by note/,/^$/p'
insideline assess "$DATA/descents_take.mid" --free --changes "$CORPUS/lantern-street.changes" --for alto-sax | sed -n '2,12p'
