insideline log class.log --to tomorrow
