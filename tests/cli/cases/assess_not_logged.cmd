insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o sheet.musicxml >/dev/null
cp sheet.musicxml take.musicxml
insideline assess take.musicxml --against sheet.musicxml --log log.db --html nowhere/page.html || echo "ended with status $?"
