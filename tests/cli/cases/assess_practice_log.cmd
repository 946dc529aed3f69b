insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o sheet.musicxml >/dev/null
insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o own.musicxml >/dev/null
insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --log log.db --day 2026-11-20 >/dev/null 2>&1
insideline assess own.musicxml --against sheet.musicxml --log log.db --day 2026-11-25 --html page.html | sed -n '/^Takes/,$ p'
grep -c "Takes of this sheet so far" page.html
