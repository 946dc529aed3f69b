insideline survey "$CORPUS" --db term.db >/dev/null 2>&1
insideline drill --changes "$CORPUS/lantern-street.changes" --gaps "$CORPUS/early-ferry.musicxml" --against term.db -o sheet.musicxml | head -14
