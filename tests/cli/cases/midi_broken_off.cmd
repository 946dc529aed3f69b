insideline analyze "$DATA/broken_off.mid" --changes "$DATA/quay_steps.changes"
