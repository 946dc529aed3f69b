insideline survey "$DATA/two_bars.musicxml" --db solos.db >/dev/null
insideline log solos.db
