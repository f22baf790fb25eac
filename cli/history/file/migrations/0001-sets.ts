/** The first schema: one row a set, its bouts' figures, the whole report, and the pose track it came from. */
export const sets = `
CREATE TABLE sets (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  uid TEXT NOT NULL UNIQUE,
  film_key TEXT NOT NULL,
  film_file TEXT NOT NULL,
  from_seconds REAL,
  to_seconds REAL,
  exercise_id TEXT NOT NULL,
  exercise_name TEXT NOT NULL,
  plan TEXT,
  headline TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  recorded_at_source TEXT NOT NULL CHECK (recorded_at_source IN ('film', 'file', 'saved')),
  saved_at TEXT NOT NULL,
  changed_at TEXT NOT NULL,
  lifter TEXT,
  load_value REAL,
  load_unit TEXT CHECK (load_unit IN ('kg', 'lb', 'bodyweight', 'pin')),
  stage_loads TEXT,
  warm_up INTEGER NOT NULL DEFAULT 0 CHECK (warm_up IN (0, 1)),
  note TEXT
) STRICT;
CREATE INDEX sets_by_film ON sets (film_key, exercise_id);
CREATE INDEX sets_by_exercise ON sets (exercise_id, recorded_at);
CREATE INDEX sets_by_date ON sets (recorded_at);

CREATE TABLE bouts (
  set_id INTEGER NOT NULL REFERENCES sets (id) ON DELETE CASCADE,
  number INTEGER NOT NULL,
  side TEXT NOT NULL CHECK (side IN ('left', 'right', 'both')),
  facing TEXT NOT NULL,
  degrees_off_side REAL NOT NULL,
  complete_reps INTEGER NOT NULL,
  partial_reps INTEGER NOT NULL,
  failed_reps INTEGER NOT NULL,
  time_under_tension_seconds REAL NOT NULL,
  delivered_lowering_share REAL,
  delivered_lowering_uncertainty REAL,
  median_eccentric_seconds REAL,
  median_eccentric_uncertainty_seconds REAL,
  median_range_degrees REAL,
  median_range_uncertainty_degrees REAL,
  last_controlled_rep INTEGER,
  first_shortened_rep INTEGER,
  PRIMARY KEY (set_id, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE reports (
  set_id INTEGER PRIMARY KEY REFERENCES sets (id) ON DELETE CASCADE,
  report TEXT NOT NULL
) STRICT;

CREATE TABLE tracks (
  set_id INTEGER PRIMARY KEY REFERENCES sets (id) ON DELETE CASCADE,
  request TEXT NOT NULL,
  film TEXT NOT NULL,
  track BLOB NOT NULL
) STRICT;
`;
