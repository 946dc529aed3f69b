insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --bands 90,75
