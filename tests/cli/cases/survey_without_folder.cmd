insideline survey
