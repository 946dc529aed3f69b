mkdir -p solos/ferry solos/harbour
cp "$CORPUS"/early-ferry.musicxml "$CORPUS"/ropewalk.musicxml "$CORPUS"/net-menders.musicxml solos/ferry
cp "$CORPUS"/lantern-street.musicxml "$CORPUS"/lantern-street.changes "$CORPUS"/slipway-waltz.musicxml "$CORPUS"/tide-table.musicxml solos/harbour
cp "$CORPUS"/lantern-street-take.mid solos/harbour
insideline survey solos --db solos.db --jobs 2
