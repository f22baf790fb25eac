import { pathToFileURL } from 'node:url';
import Libsql from 'libsql';

/** The values SQLite's strict tables hold here. */
export type Value = string | number | null | Uint8Array;
export type Row = Readonly<Record<string, unknown>>;

/** A fault of the database file itself, with SQLite's result code (`SQLITE_FULL`, `SQLITE_CORRUPT`, …). */
export class DatabaseFault extends Error {
  readonly code: string;

  constructor(message: string, code: string, cause: unknown) {
    super(message, { cause });
    this.name = 'DatabaseFault';
    this.code = code;
  }
}

/** One open SQLite file. Only this file knows which library reads it. */
export interface Database {
  /** Runs one or more statements without parameters. */
  exec(sql: string): void;
  /** Runs one statement; gives the rows it changed and the key of the last row it put in. */
  run(sql: string, values?: readonly Value[]): { readonly changes: number; readonly lastId: number };
  all(sql: string, values?: readonly Value[]): readonly Row[];
  get(sql: string, values?: readonly Value[]): Row | null;
  /** Rows as arrays in the order of the columns, at half the cost of `all`: for questions with thousands of answers. */
  table<Columns extends readonly unknown[]>(sql: string, values?: readonly Value[]): readonly Columns[];
  /** Number held by a pragma such as `user_version`. */
  pragma(name: string): number;
  /** Runs `work` in one transaction that holds the write lock from its start; undone if `work` throws. */
  transaction<Result>(work: () => Result): Result;
  close(): void;
}

/** Names of primary result codes that a user can do something about (sqlite.org/rescode.html). */
const PRIMARY_CODES: Readonly<Record<number, string>> = {
  3: 'SQLITE_READONLY',
  5: 'SQLITE_BUSY',
  6: 'SQLITE_LOCKED',
  8: 'SQLITE_READONLY',
  10: 'SQLITE_IOERR',
  11: 'SQLITE_CORRUPT',
  13: 'SQLITE_FULL',
  14: 'SQLITE_CANTOPEN',
  26: 'SQLITE_NOTADB',
};

/** How long a write waits for another process to finish its own, milliseconds. */
const BUSY_TIMEOUT_MILLISECONDS = 15_000;

/**
 * Opens a SQLite file where nothing may be written, not even the log's index that other openings make: only its
 * content is read, so nobody may be writing it meanwhile.
 *
 * @throws DatabaseFault
 */
export function openUnwritableDatabase(file: string): Database {
  const address = `${pathToFileURL(file).href}?immutable=1`;
  return wrap(
    guarded(() => new Libsql(address)),
    false,
  );
}

/**
 * Opens (and creates, if need be) a SQLite file with the settings the history relies on.
 *
 * @param recognize looks at the file before anything in it is touched, and throws to leave it alone.
 * @throws DatabaseFault
 */
export function openDatabase(file: string, recognize: (database: Database) => void = () => {}): Database {
  const database = wrap(
    guarded(() => new Libsql(file, { timeout: BUSY_TIMEOUT_MILLISECONDS })),
    true,
  );
  try {
    recognize(database);
    changeToWriteAheadLog(database);
    // FULL makes a commit reach the disk before it is reported.
    database.exec('PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;');
  } catch (error) {
    database.close();
    throw error;
  }
  return database;
}

/** SQLite does not wait for other processes here, however long the time-out, so this does. */
function changeToWriteAheadLog(database: Database): void {
  const lastAttempt = Date.now() + BUSY_TIMEOUT_MILLISECONDS;
  for (;;) {
    try {
      if (database.get('PRAGMA journal_mode')?.['journal_mode'] === 'wal') return;
      database.exec('PRAGMA journal_mode = WAL');
      return;
    } catch (error) {
      const busy = error instanceof DatabaseFault && error.code.startsWith('SQLITE_BUSY');
      if (!busy || Date.now() > lastAttempt) throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
    }
  }
}

function wrap(connection: Libsql.Database, writable: boolean): Database {
  const statements = new Map<string, Libsql.Statement>();
  const prepared = (sql: string): Libsql.Statement => {
    const known = statements.get(sql) ?? connection.prepare(sql);
    statements.set(sql, known);
    return known;
  };
  const database: Database = {
    exec: (sql) => guarded(() => void connection.exec(sql)),
    run: (sql, values = []) =>
      guarded(() => {
        const result = prepared(sql).run(bindable(values));
        return { changes: result.changes, lastId: Number(result.lastInsertRowid) };
      }),
    all: (sql, values = []) => guarded(() => prepared(sql).all(bindable(values)) as Row[]),
    get: (sql, values = []) => database.all(sql, values)[0] ?? null,
    table: <Columns extends readonly unknown[]>(sql: string, values: readonly Value[] = []) =>
      guarded(() => connection.prepare(sql).raw().all(bindable(values)) as Columns[]),
    pragma: (name) => Number(Object.values(database.all(`PRAGMA ${name}`)[0] ?? {})[0]),
    transaction: (work) => {
      database.exec('BEGIN IMMEDIATE');
      try {
        const result = work();
        database.exec('COMMIT');
        return result;
      } catch (error) {
        // A full disk ends the transaction by itself; undoing it again would hide the first fault.
        if (connection.inTransaction) database.exec('ROLLBACK');
        throw error;
      }
    },
    close: () => {
      statements.clear();
      if (writable) emptyWriteAheadLog(connection);
      connection.close();
    },
  };
  return database;
}

/**
 * Brings everything into the one file, since the library leaves the log behind when it closes, and a user may
 * copy the file alone. Where another process is reading, or the file may not be written, the log stays: it is read
 * with the file, so nothing is lost.
 */
function emptyWriteAheadLog(connection: Libsql.Database): void {
  try {
    connection.pragma('wal_checkpoint(TRUNCATE)');
  } catch (error) {
    if (!(asDatabaseFault(error) instanceof DatabaseFault)) throw error;
  }
}

/** One array as the only argument: given one null alone, the library takes it for named parameters. */
function bindable(values: readonly Value[]): unknown[] {
  return values.map((value) => (value instanceof Uint8Array ? Buffer.from(value) : value));
}

function guarded<Result>(work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    throw asDatabaseFault(error);
  }
}

function asDatabaseFault(error: unknown): unknown {
  if (!(error instanceof Error)) return error;
  const code = (error as { code?: unknown }).code;
  if (typeof code === 'string' && code.startsWith('SQLITE_'))
    return new DatabaseFault(error.message, code, error);
  // The library has no name for some extended codes; their lowest byte is the primary one (sqlite.org/rescode.html).
  const extended = /^UNKNOWN_SQLITE_ERROR_(\d+)$/.exec(typeof code === 'string' ? code : '')?.[1];
  const primary = PRIMARY_CODES[Number(extended) & 0xff];
  if (extended !== undefined && primary !== undefined)
    return new DatabaseFault(error.message, primary, error);
  // Opening fails with the numeric result code inside the text only.
  if (/ConnectionFailed/.test(error.message))
    return new DatabaseFault(error.message, 'SQLITE_CANTOPEN', error);
  return error;
}
