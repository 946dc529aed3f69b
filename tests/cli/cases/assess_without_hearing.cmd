insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o sheet.musicxml >/dev/null
cp sheet.musicxml take.musicxml
echo '1 9 root' >sheet.hearing
insideline assess take.musicxml --against sheet.musicxml || true
insideline assess take.musicxml --against sheet.musicxml --no-hearing | head -n 3
