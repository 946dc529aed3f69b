printf "| C7 | F7 |\n" > plain.changes && insideline drill --changes plain.changes --all-keys -o sheet.mid
