insideline drill --changes "$CORPUS/lantern-street.changes" --like "$DATA/no_chords.musicxml" --solo-changes "$DATA/quay_steps.changes" -o sheet.musicxml | head -12
