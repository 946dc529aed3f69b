insideline drill --changes "$CORPUS/lantern-street.changes" --key D# -o sheet.mid
