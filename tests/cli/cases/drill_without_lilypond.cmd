PATH=${PATH%%:*}
insideline drill --changes "$DATA/quay_steps.changes" -o sheet.pdf
