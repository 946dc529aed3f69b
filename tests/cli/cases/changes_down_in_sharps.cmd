printf "Ebb Tide Drill\nkey: C minor\n[A] |: Cm7 Fm7 | Dm7b5 G7alt :|\n" > tide.changes && insideline changes tide.changes --down 1 --spell sharps
