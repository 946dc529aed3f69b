printf '| Dm7 | G7 |\n' >sheet-60.mid
insideline drill --changes sheet-60.mid --ladder apart -o sheet.mid
