insideline drill --changes "$CORPUS/lantern-street.changes" --inversion every --rhythm triplets -o sheet.musicxml
