insideline drill --changes "$CORPUS/lantern-street.changes" --cell "1 3 5 7" --seed 3 -o sheet.mid | head -1
