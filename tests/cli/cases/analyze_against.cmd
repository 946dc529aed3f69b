mkdir solos
cp "$CORPUS"/*.musicxml solos
insideline survey solos --db solos.db >first
insideline analyze "$CORPUS/ropewalk.musicxml" --against solos.db | sed -n '/^Among/,$p'
