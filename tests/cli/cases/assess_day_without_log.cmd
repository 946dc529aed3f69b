insideline assess "$DATA/descents_take.mid" --against "$DATA/descents_take.mid" --day 2026-11-20
