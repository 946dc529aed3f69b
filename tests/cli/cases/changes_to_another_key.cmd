insideline changes "$CORPUS/lantern-street.changes" --to D
