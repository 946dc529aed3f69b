insideline survey "$CORPUS" --db term.db >/dev/null 2>&1
insideline drill --changes "$CORPUS/lantern-street.changes" --gaps "$CORPUS/net-menders.musicxml" --against term.db -o sheet.musicxml | sed -n '/^Why/,/^What/p'
