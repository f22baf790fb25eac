import { z } from 'zod';
import type { SetReport } from '../../../analysis/report/setReport.js';
import { Failure } from '../../../core/failure.js';
import type { FilmFacts } from '../../../core/media/film.js';
import type { Database } from '../file/database.js';
import type { History } from '../file/history.js';
import { savedSetSchema } from './exportLines.js';
import type { SetToSave } from './savedSet.js';
import { sameSets } from './saveSet.js';
import { type Identity, insertSet } from './writeSets.js';

export interface ImportOutcome {
  readonly added: number;
  /** Sets that were here in an earlier state. */
  readonly updated: number;
  /** Sets that were here already, as they are in the file or changed since. */
  readonly kept: number;
}

/**
 * Takes in exported lines, all of them or, where one is wrong, none. A set that is here already, by its identity or
 * as the same film and exercise, is replaced only by a state that was changed later: taking the same file in twice
 * changes nothing.
 *
 * @param name of the file, for messages.
 * @throws Failure of kind `usage` naming the first line that is no exported set.
 */
export function importLines(history: History, lines: Iterable<string>, name: string): ImportOutcome {
  return history.write((database) => {
    const outcome = { added: 0, updated: 0, kept: 0 };
    let number = 0;
    for (const line of lines) {
      number += 1;
      if (line.trim() === '') continue;
      outcome[importOne(database, parseLine(line, number, name))] += 1;
    }
    return outcome;
  });
}

interface ReadSet {
  readonly set: SetToSave;
  readonly identity: Identity & { readonly id: number };
}

function importOne(database: Database, { set, identity }: ReadSet): keyof ImportOutcome {
  const here = setsHere(database, set, identity.uid);
  if (here.some((one) => one.changedAt >= identity.changedAt)) return 'kept';
  for (const one of here) database.run('DELETE FROM sets WHERE id = ?', [one.id]);
  const wanted = here[0]?.id ?? identity.id;
  const taken = database.get('SELECT 1 AS found FROM sets WHERE id = ?', [wanted]) !== null;
  insertSet(database, set, { ...identity, id: taken ? null : wanted });
  return here.length > 0 ? 'updated' : 'added';
}

function setsHere(database: Database, set: SetToSave, uid: string) {
  const same = sameSets(database, set);
  const row = database.get('SELECT id, uid, changed_at FROM sets WHERE uid = ?', [uid]);
  if (row === null || same.some((one) => one.uid === uid)) return same;
  return [{ id: Number(row['id']), uid, changedAt: String(row['changed_at']) }, ...same];
}

function parseLine(line: string, number: number, name: string): ReadSet {
  const parsed = savedSetSchema.safeParse(parseJson(line, number, name));
  if (!parsed.success) {
    throw new Failure(
      'usage',
      `${name}, line ${number} is no saved set: ${firstProblem(parsed.error)}. Nothing was taken in.`,
      'Give a file that tempofilm export wrote.',
    );
  }
  const { data } = parsed;
  return {
    identity: { uid: data.uid, savedAt: data.savedAt, changedAt: data.changedAt, id: data.set },
    set: {
      filmKey: data.filmKey,
      fromSeconds: data.fromSeconds,
      toSeconds: data.toSeconds,
      recordedAt: data.recordedAt,
      details: data.details,
      invented: data.invented,
      amendments: data.amendments,
      report: data.report as unknown as SetReport,
      track:
        data.track === null
          ? null
          : {
              request: data.track.request,
              film: data.track.film as unknown as FilmFacts,
              bytes: Buffer.from(data.track.bytes, 'base64'),
            },
    },
  };
}

function parseJson(line: string, number: number, name: string): unknown {
  try {
    return JSON.parse(line);
  } catch (error) {
    throw new Failure(
      'usage',
      `${name}, line ${number} is not JSON. Nothing was taken in.`,
      'Give a file that tempofilm export wrote.',
      error,
    );
  }
}

function firstProblem(error: z.ZodError): string {
  const issue = error.issues[0];
  if (issue === undefined) return 'unknown problem';
  return `${z.core.toDotPath(issue.path) || 'the line'}: ${issue.message}`;
}
