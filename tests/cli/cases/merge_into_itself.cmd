mkdir solos
cp "$DATA/two_bars.musicxml" solos
insideline survey solos --db one.db >first
insideline merge one.db -o one.db
