insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios up --bars 1-2 -o sheet.musicxml >/dev/null
insideline assess "$DATA/counted_take.wav" --against sheet.musicxml --heard-midi heard.mid
insideline assess heard.mid --against sheet.musicxml | sed -n '/^Note by note/,+3p'
