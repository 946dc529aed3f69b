insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --one-mistake-in 1
