insideline log class.log
