import { sets } from './0001-sets.js';
import { amendments } from './0002-amendments.js';

/** Statements that lead from one schema to the next: the first makes schema 1 out of an empty file. */
export const MIGRATIONS: readonly string[] = [sets, amendments];

/** The schema this program writes. */
export const SCHEMA_VERSION = MIGRATIONS.length;

/** Marks the file as this program's history ("tpof" in ASCII), so that no other database is taken for one. */
export const APPLICATION_ID = 0x74706f66;
