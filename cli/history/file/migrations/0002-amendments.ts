/** Schema 2: reps a lifter dropped, kept beside the measurement; and sets that are invented for a demonstration. */
export const amendments = `
CREATE TABLE amendments (
  set_id INTEGER NOT NULL REFERENCES sets (id) ON DELETE CASCADE,
  side TEXT NOT NULL CHECK (side IN ('left', 'right', 'both')),
  at_seconds REAL NOT NULL,
  reason TEXT,
  made_at TEXT NOT NULL,
  PRIMARY KEY (set_id, side, at_seconds)
) STRICT, WITHOUT ROWID;

ALTER TABLE sets ADD COLUMN invented INTEGER NOT NULL DEFAULT 0 CHECK (invented IN (0, 1));
`;
