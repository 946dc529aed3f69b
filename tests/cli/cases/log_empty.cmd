: >empty.log
insideline log empty.log
