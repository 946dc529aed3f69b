printf "key: C minor\n| Dm7b5 | G7alt | Cm7 | C7 |\n" > minor.changes && insideline drill --changes minor.changes --cell "1 9 11 5" -o sheet.musicxml
