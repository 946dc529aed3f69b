insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o sheet.musicxml >/dev/null
insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --range F3-C6 -o click.mid >/dev/null
for take in 1 2 3; do sed "s|<part-list>|<movement-title>Take $take</movement-title><part-list>|" sheet.musicxml >"own-$take.musicxml"; done
insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --log class.log --player Anke --day 2026-10-26 >/dev/null 2>&1
insideline assess own-1.musicxml --against sheet.musicxml --log class.log --player Anke --day 2026-11-02 >/dev/null 2>&1
insideline assess own-2.musicxml --against click.mid --log class.log --player Anke --day 2026-11-09 >/dev/null 2>&1
insideline assess "$DATA/descents_take.mid" --against sheet.musicxml --log class.log --player "O'Brine \"Red\"" --day 2026-11-20 >/dev/null 2>&1
insideline log class.log --player Anke --from 2026-11-01 --to 2026-11-08
