insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range tenor-sax --written -o sheet.musicxml >/dev/null
sed 's/<step>D</<step>E</' sheet.musicxml >take.musicxml
insideline assess take.musicxml --against sheet.musicxml | sed -n '/^Note by note/,+4p'
insideline assess take.musicxml --against sheet.musicxml --concert | sed -n '/^Note by note/,+4p'
