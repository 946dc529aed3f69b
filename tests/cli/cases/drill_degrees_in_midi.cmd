insideline drill --changes "$CORPUS/lantern-street.changes" --degrees -o sheet.mid
