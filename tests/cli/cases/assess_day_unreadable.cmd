insideline assess take.mid --against sheet.musicxml --log log.db --day 2026-02-30
