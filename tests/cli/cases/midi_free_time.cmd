insideline analyze "$DATA/free_time.mid" --beats "$DATA/free_time.beats" --changes "$DATA/quay_steps.changes" --bars
