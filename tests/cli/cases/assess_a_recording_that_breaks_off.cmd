insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios up --bars 1-2 -o sheet.musicxml >/dev/null
insideline assess "$DATA/counted_take.ogg" --against sheet.musicxml | sed -n 1,3p
head -c 7000 "$DATA/counted_take.ogg" >cut.ogg
insideline assess cut.ogg --against sheet.musicxml
