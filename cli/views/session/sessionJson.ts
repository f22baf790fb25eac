import type { SessionSlot } from '../../../analysis/session/sessionSlots.js';
import type { SessionReport } from '../../session/sessionReport.js';

/** A workout as data: each film's whole set report, its planned set, the rest before it, and the same set last time. */
export function sessionJson(session: SessionReport): object {
  return {
    ...session,
    missing: session.missing.map(slotJson),
    sets: session.sets.map(({ lastTime, ...set }) => ({
      ...set,
      slot: set.slot === null ? null : slotJson(set.slot),
      lastTime:
        lastTime === null
          ? null
          : {
              set: lastTime.id,
              recordedAt: lastTime.recordedAt.instant,
              load: lastTime.details.load,
              bouts: lastTime.bouts,
              headline: lastTime.headline,
            },
    })),
  };
}

/** A planned set, its exercise by name alone. */
function slotJson({ exercise, planned, setNumber }: SessionSlot): object {
  return { exercise: { id: exercise.id, name: exercise.name }, setNumber, planned };
}
