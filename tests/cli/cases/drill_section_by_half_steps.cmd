insideline drill --changes "$CORPUS/lantern-street.changes" --section b --key F --all-keys half-steps --cell 3-5-7 -o sheet.mid
