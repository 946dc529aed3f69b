insideline drill --changes "$CORPUS/lantern-street.changes" --straight-down -o sheet.musicxml >/dev/null
insideline analyze sheet.musicxml --strict | sed -n '/^Arpeggios/,/^Thirds/p'
