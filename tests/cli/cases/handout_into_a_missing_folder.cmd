insideline handout "$CORPUS/ropewalk.musicxml" --output no-such-folder/sheet.pdf
