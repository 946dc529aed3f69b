printf "no database" >log.db
insideline assess "$DATA/descents_take.mid" --against "$DATA/descents_take.mid" --changes "$CORPUS/lantern-street.changes" --log log.db --day 2026-11-25
