insideline drill --changes "$CORPUS/lantern-street.changes" --arpeggios down --from 7 --range tenor-sax --written --degrees --paper letter -o sheet.ly
sed -n "/^line = /,\$p" sheet.ly
