printf "key: F#\n| F#maj7 | D#m7 G#7 | C#7 | Bmaj7 . . F##dim7 |\n" > sharp.changes && insideline changes sharp.changes --spell flats
