import { Failure } from '../../../core/failure.js';
import { backupPath, backupTo } from './backup.js';
import type { Database } from './database.js';
import { APPLICATION_ID, MIGRATIONS, SCHEMA_VERSION } from './migrations/index.js';

/**
 * Brings the file to the schema this program writes, one transaction a step, with a backup before the first.
 *
 * @returns the backup made, or null where nothing had to change.
 */
export function migrate(database: Database, file: string, now: Date): string | null {
  const found = schemaVersion(database, file);
  if (found === SCHEMA_VERSION) return null;
  const backup = found === 0 ? null : backupPath(file, `before-schema-${SCHEMA_VERSION}`, now);
  if (backup !== null) backupTo(database, backup);
  for (let version = found; version < SCHEMA_VERSION; version += 1) step(database, version);
  return backup;
}

/** One step; another process may have taken it since the version was read. */
function step(database: Database, version: number): void {
  database.transaction(() => {
    if (database.pragma('user_version') > version) return;
    database.exec(MIGRATIONS[version]!);
    database.exec(`PRAGMA application_id = ${APPLICATION_ID}; PRAGMA user_version = ${version + 1};`);
  });
}

/**
 * Version of the schema in the file, 0 for an empty file.
 *
 * @throws Failure of kind `history` when the file was written by a newer version or belongs to another program.
 */
export function schemaVersion(database: Database, file: string): number {
  const version = database.pragma('user_version');
  if (version === 0 && isEmpty(database)) return 0;
  if (database.pragma('application_id') !== APPLICATION_ID) {
    throw new Failure(
      'history',
      `${file} is a database of another program.`,
      'Choose another file with --history.',
    );
  }
  if (version > SCHEMA_VERSION) {
    throw new Failure(
      'history',
      `The history ${file} was written by a newer version of tempofilm (schema ${version}; this one knows up to ${SCHEMA_VERSION}).`,
      'Install the newer version, or choose another file with --history. Nothing was changed.',
    );
  }
  return version;
}

function isEmpty(database: Database): boolean {
  return database.get('SELECT 1 AS found FROM sqlite_schema LIMIT 1') === null;
}
