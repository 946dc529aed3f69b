insideline survey --report
