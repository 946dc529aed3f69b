insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o sheet.musicxml >/dev/null
insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --html page.html 2>/dev/null
grep -c "a physician" page.html
