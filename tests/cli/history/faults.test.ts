import { mkdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { backupPath } from '../../../cli/history/file/backup.js';
import { openDatabase } from '../../../cli/history/file/database.js';
import { openHistory, withHistory } from '../../../cli/history/file/history.js';
import { APPLICATION_ID, SCHEMA_VERSION } from '../../../cli/history/file/migrations/index.js';
import { restoreBackup } from '../../../cli/history/file/restore.js';
import { readEntries } from '../../../cli/history/sets/readEntries.js';
import { saveSet } from '../../../cli/history/sets/saveSet.js';
import { Failure } from '../../../core/failure.js';
import { inventedSet, inventedTrack } from './invented.js';
import { temporaryHistory } from './temporaryHistory.js';

const place = temporaryHistory();

function faultOf(work: () => unknown): Failure {
  try {
    work();
  } catch (error) {
    if (error instanceof Failure) return error;
    throw error;
  }
  throw new Error('no fault');
}

describe('faults of the history file', () => {
  test('no space left: said so, and the set is not half there', () => {
    withHistory(place(), 'writing', (history) => {
      saveSet(history, inventedSet({ film: 'kept.mp4' }));
      history.read((database) => {
        const pages = database.pragma('page_count');
        database.exec(`PRAGMA max_page_count = ${pages + 2}`);
      });
      const track = inventedTrack(new Uint8Array(100_000));
      const fault = faultOf(() => saveSet(history, inventedSet({ film: 'lost.mp4' }, { track })));
      expect(fault.kind).toBe('history');
      expect(fault.message).toMatch(/^No space left to write the history .*; nothing was changed\.$/);
      expect(readEntries(history).map((entry) => entry.filmFile)).toEqual(['kept.mp4']);
      expect(history.read((database) => database.get('PRAGMA integrity_check'))).toMatchObject({
        integrity_check: 'ok',
      });
    });
  });

  test('a newer schema is left alone, byte for byte', () => {
    const file = place();
    const database = openDatabase(file);
    database.exec(
      `CREATE TABLE sets (id INTEGER); PRAGMA application_id = ${APPLICATION_ID};
       PRAGMA user_version = ${SCHEMA_VERSION + 1}; PRAGMA journal_mode = DELETE`,
    );
    database.close();
    const before = readFileSync(file);
    const fault = faultOf(() => openHistory(file, 'writing'));
    expect(fault.kind).toBe('history');
    expect(fault.message).toContain(`newer version of tempofilm (schema ${SCHEMA_VERSION + 1}`);
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test('the database of another program is left alone, byte for byte', () => {
    const file = place();
    const database = openDatabase(file);
    database.exec('CREATE TABLE recipes (name TEXT); PRAGMA journal_mode = DELETE');
    database.close();
    const before = readFileSync(file);
    expect(faultOf(() => openHistory(file, 'writing')).message).toBe(
      `${file} is a database of another program.`,
    );
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test('a damaged file is left alone and the last backup offered', () => {
    const file = place();
    withHistory(file, 'writing', (history) => {
      for (let number = 0; number < 20; number += 1) saveSet(history, inventedSet({ film: `${number}.mp4` }));
      history.backUp(backupPath(file, 'regular', new Date('2026-03-01T10:00:00Z')));
      history.backUp(backupPath(file, 'regular', new Date('2026-03-08T10:00:00Z')));
    });
    const bytes = readFileSync(file);
    bytes.fill(0x5a, 4096, bytes.length - 4096);
    writeFileSync(file, bytes);
    const fault = faultOf(() => withHistory(file, 'reading', (history) => readEntries(history)));
    expect(fault.kind).toBe('history');
    expect(fault.message).toMatch(/is damaged/);
    const backup = fault.remedy!.split(': ')[1]!;
    expect(path.basename(backup)).toBe('history-20260308T100000000Z-regular.sqlite');
    expect(readFileSync(file).equals(bytes)).toBe(true);
    const restored = restoreBackup(file, null, new Date());
    expect(restored).toMatchObject({ backup, sets: 20 });
    expect(readFileSync(restored.setAside!).equals(bytes)).toBe(true);
    expect(withHistory(file, 'reading', (history) => readEntries(history))).toHaveLength(20);
  });

  test('a file that never was a database', () => {
    const file = place();
    writeFileSync(file, 'shopping list\n'.repeat(200));
    const fault = faultOf(() => openHistory(file, 'reading'));
    expect(fault.message).toMatch(/is damaged or is no history; nothing was changed/);
    expect(fault.remedy).toMatch(/There is no backup/);
    expect(readFileSync(file, 'utf8')).toBe('shopping list\n'.repeat(200));
  });

  test('a history that lost its content is not taken for a new one', () => {
    const file = place();
    withHistory(file, 'writing', (history) => {
      saveSet(history, inventedSet());
      history.backUp(backupPath(file, 'regular', new Date()));
    });
    truncateSync(file, 0);
    expect(faultOf(() => openHistory(file, 'writing')).message).toMatch(/is empty, but there is a backup/);
  });

  test('a folder in its place, and a folder that cannot be made', () => {
    const file = place();
    mkdirSync(file);
    expect(faultOf(() => openHistory(file, 'writing')).kind).toBe('history');
    const blocked = path.join(place(), 'history.sqlite');
    writeFileSync(path.dirname(blocked), 'a file where the folder should be');
    expect(faultOf(() => openHistory(blocked, 'writing')).kind).toBe('history');
  });
});
