insideline analyze "$DATA/free_time.mid" --beats "$DATA/quay_steps.changes" --changes "$DATA/quay_steps.changes"
