mkdir solos
cp "$CORPUS"/*.musicxml solos
insideline survey solos --shard 1/2 --db one.db --changes "$CORPUS/lantern-street.changes" | head -n 3
insideline survey solos --shard 2/2 --db two.db --changes "$CORPUS/lantern-street.changes" | head -n 3
insideline merge one.db two.db -o both.db
