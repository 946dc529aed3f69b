insideline drill --changes "$CORPUS/lantern-street.changes" --key Ab --cell "1 2 3 5" -o sheet.musicxml && grep -m1 "<fifths>" sheet.musicxml
