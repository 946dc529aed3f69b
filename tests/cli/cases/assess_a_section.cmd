insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --section "phrase 999"
