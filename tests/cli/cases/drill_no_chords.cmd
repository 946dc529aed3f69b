printf "| N.C. | %% |\n" > silent.changes
insideline drill --changes silent.changes -o sheet.musicxml
