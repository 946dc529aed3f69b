insideline drill --changes "$DATA/quay_steps.changes" --range double-bass -o bass.mid >plan
insideline analyze bass.mid --changes "$DATA/quay_steps.changes" | head -n 8
