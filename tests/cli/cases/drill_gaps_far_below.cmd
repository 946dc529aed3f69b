insideline drill --changes "$CORPUS/lantern-street.changes" --gaps "$CORPUS/net-menders.musicxml" -o sheet.musicxml | sed -n '/^Why/,/^What/p'
