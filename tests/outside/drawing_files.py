def checks(record, sheet, job):
    return []
