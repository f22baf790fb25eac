import type { SessionReport } from '../../history/session/sessionReport.js';

/** A workout as data: each film's whole set report, its planned set, the rest before it, and the same set last time. */
export function sessionJson(session: SessionReport): object {
  return {
    ...session,
    sets: session.sets.map(({ lastTime, ...set }) => ({
      ...set,
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
