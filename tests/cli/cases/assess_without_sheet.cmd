insideline assess "$DATA/descents_take.mid"
