insideline log class.log --from 2026-11-09 --to 2026-11-02
