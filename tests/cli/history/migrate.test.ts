import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { openDatabase } from '../../../cli/history/file/database.js';
import { openHistory, withHistory } from '../../../cli/history/file/history.js';
import { backupFolder } from '../../../cli/history/file/location.js';
import { APPLICATION_ID, MIGRATIONS, SCHEMA_VERSION } from '../../../cli/history/file/migrations/index.js';
import { readEntries } from '../../../cli/history/sets/readEntries.js';
import { readReport } from '../../../cli/history/sets/readSets.js';
import { saveSet } from '../../../cli/history/sets/saveSet.js';
import { inventedReport, inventedSet } from './invented.js';
import { temporaryHistory } from './temporaryHistory.js';

const place = temporaryHistory();

/** A history as a program of that schema left it, holding one set. */
function historyOfSchema(version: number): string {
  const file = place();
  const database = openDatabase(file);
  for (const migration of MIGRATIONS.slice(0, version)) database.exec(migration);
  database.exec(`PRAGMA application_id = ${APPLICATION_ID}; PRAGMA user_version = ${version}`);
  const report = inventedReport();
  database.run(
    `INSERT INTO sets (uid, film_key, film_file, exercise_id, exercise_name, plan, headline, recorded_at,
       recorded_at_source, saved_at, changed_at, load_value, load_unit, warm_up, note)
     VALUES ('a', 'k', 'row.mp4', 'single-arm-row', 'Single-arm row', ?, 'h', '2026-03-02T18:04:11.000Z', 'film',
       '2026-03-02T19:00:00.000Z', '2026-03-02T19:00:00.000Z', 12, 'kg', 0, 'from then')`,
    [JSON.stringify(report.plan)],
  );
  database.run('INSERT INTO reports (set_id, report) VALUES (1, ?)', [JSON.stringify(report)]);
  database.run(
    `INSERT INTO bouts (set_id, number, side, facing, degrees_off_side, complete_reps, partial_reps, failed_reps,
       time_under_tension_seconds) VALUES (1, 1, 'left', 'left', 5, 3, 0, 0, 20)`,
  );
  database.close();
  return file;
}

function schemaOf(file: string): number {
  const database = openDatabase(file);
  const version = database.pragma('user_version');
  database.close();
  return version;
}

describe('migrations', () => {
  const earlier = Array.from({ length: SCHEMA_VERSION - 1 }, (_, index) => index + 1);

  test.each(earlier)(
    'a history of schema %i comes to the present one with its sets, and a backup',
    (version) => {
      const file = historyOfSchema(version);
      withHistory(file, 'reading', (history) => {
        expect(history.migrationBackup).not.toBeNull();
        expect(schemaOf(history.migrationBackup!)).toBe(version);
        const [entry] = readEntries(history);
        expect(entry?.details).toMatchObject({ load: { value: 12, unit: 'kg' }, note: 'from then' });
        expect(entry?.invented).toBe(false);
        expect(readReport(history, 1)).toEqual(inventedReport());
        history.write((database) => expect(database.all('PRAGMA foreign_key_check')).toEqual([]));
      });
      expect(schemaOf(file)).toBe(SCHEMA_VERSION);
      withHistory(file, 'writing', (history) => {
        expect(history.migrationBackup).toBeNull();
        saveSet(history, inventedSet({ film: 'new.mp4' }));
        expect(readEntries(history)).toHaveLength(2);
      });
    },
  );

  test('a migration that was released never changes', () => {
    // A history out there was made by these very statements: a changed one would leave it behind.
    const released = ['36f22512839a3eb5', 'a5c4f884feb99594'];
    const digest = (sql: string) => createHash('sha256').update(sql).digest('hex').slice(0, 16);
    expect(MIGRATIONS.slice(0, released.length).map(digest)).toEqual(released);
  });

  test('a migrated history and a new one have the same tables', () => {
    const tables = (file: string) =>
      withHistory(file, 'writing', (history) =>
        history.read((database) => database.all('SELECT name, sql FROM sqlite_schema ORDER BY name')),
      );
    expect(tables(historyOfSchema(1))).toEqual(tables(place()));
  });

  test('a step that fails leaves the file at the schema it had', () => {
    const file = historyOfSchema(1);
    const database = openDatabase(file);
    database.exec('CREATE TABLE amendments (anything TEXT)');
    database.close();
    expect(() => openHistory(file, 'writing')).toThrow(/amendments/);
    expect(schemaOf(file)).toBe(1);
  });

  test('nobody backs up an empty file', () => {
    const file = place();
    openHistory(file, 'writing').close();
    expect(readdirSync(path.dirname(file))).not.toContain(path.basename(backupFolder(file)));
  });
});
