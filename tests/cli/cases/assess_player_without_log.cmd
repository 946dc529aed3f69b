insideline assess "$DATA/descents_take.mid" --against "$DATA/descents_take.mid" --player Anke
