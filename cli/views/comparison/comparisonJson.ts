import type { ComparedSet, ComparedSets } from './comparisonWords.js';

const COMPARISON_SCHEMA_ID = 'tempofilm.comparison/1';

/** Two sets compared, as data. Every difference is second minus first. */
export function comparisonJson({ first, second, pairs }: ComparedSets): object {
  return {
    schema: COMPARISON_SCHEMA_ID,
    exercise: first.exercise,
    first: setOf(first),
    second: setOf(second),
    pairs: pairs.map((pair) => ({
      firstSide: pair.first.side,
      secondSide: pair.second.side,
      ...pair.comparison,
    })),
  };
}

function setOf(entry: ComparedSet): object {
  return {
    set: entry.id,
    uid: entry.uid,
    film: entry.filmFile,
    recordedAt: entry.recordedAt.instant,
    load: entry.details.load,
    invented: entry.invented,
    headline: entry.headline,
  };
}
