insideline assess "$DATA/descents_take.mid" --against "$CORPUS/ropewalk.musicxml" --range alto-sax
