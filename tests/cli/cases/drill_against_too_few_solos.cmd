mkdir few
cp "$CORPUS/fog-signal.musicxml" few/
insideline survey few --db few.db >/dev/null 2>&1
insideline drill --changes "$CORPUS/lantern-street.changes" --gaps "$CORPUS/net-menders.musicxml" --against few.db -o sheet.musicxml
