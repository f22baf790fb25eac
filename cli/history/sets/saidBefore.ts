import type { SetRequest } from '../../../analysis/analyzeSet.js';
import type { Plan } from '../../../analysis/plan/plan.js';
import type { History } from '../file/history.js';
import { readDetails } from './readEntries.js';
import { type SetDetails, trackRequestSchema } from './savedSet.js';
import { type SetIdentity, sameSets } from './saveSet.js';

/** What was asked and told of a set when it was saved, or edited since. */
export interface SaidBefore extends Partial<Pick<SetRequest, 'side' | 'mirrored' | 'tolerance'>> {
  readonly id: number;
  readonly plan: Plan | null;
  readonly exerciseChosenBy: SetRequest['exerciseChosenBy'];
  readonly details: SetDetails;
}

/** What is known of the set whose place a new one will take; null where it takes none. */
export function readSaidBefore(history: History, set: SetIdentity): SaidBefore | null {
  return history.read((database) => {
    const id = sameSets(database, set)[0]?.id;
    if (id === undefined) return null;
    const row = database.get(
      `SELECT plan, json_extract(report, '$.exercise.chosenBy') AS chosen_by, request
       FROM sets JOIN reports ON reports.set_id = sets.id LEFT JOIN tracks ON tracks.set_id = sets.id
       WHERE sets.id = ?`,
      [id],
    );
    const [plan, request] = [row?.['plan'] ?? null, row?.['request'] ?? null];
    const asked = request === null ? null : trackRequestSchema.parse(JSON.parse(String(request)));
    return {
      id,
      plan: plan === null ? null : (JSON.parse(String(plan)) as Plan),
      exerciseChosenBy: row?.['chosen_by'] === 'recognition' ? 'recognition' : 'user',
      details: readDetails(database, id),
      ...(asked === null ? {} : { side: asked.side, mirrored: asked.mirrored, ...toleranceOf(asked) }),
    };
  });
}

function toleranceOf(asked: Readonly<Record<string, unknown>>): Pick<SetRequest, 'tolerance'> {
  const { tolerance } = asked as Pick<SetRequest, 'tolerance'>;
  return tolerance === undefined ? {} : { tolerance };
}
