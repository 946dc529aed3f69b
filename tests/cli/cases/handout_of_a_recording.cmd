echo "RIFF" >take.wav
insideline handout take.wav -o sheet.pdf
