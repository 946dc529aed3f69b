insideline analyze "$DATA/free_time.mid" --changes "$DATA/quay_steps.changes"
