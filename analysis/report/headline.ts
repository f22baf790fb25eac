import type { Exercise } from '../exercises/exercise.js';
import { medianSeconds } from '../scoring/boutSummary.js';
import type { BoutReport } from './setReport.js';

/**
 * The answer in one sentence, for a tired lifter: what was delivered of the plan, where control and range ended; or,
 * without a plan, how many reps at what pace.
 */
export function headline(bouts: readonly BoutReport[], exercise: Exercise): string {
  const sides = new Set(bouts.map((bout) => bout.side));
  if (bouts.length === 1) return sentence(boutInWords(bouts[0]!, exercise));
  if (sides.size === 1) return sentence(severalBouts(bouts, exercise));
  return sentence(bouts.map((bout) => `${bout.side} – ${boutInWords(bout, exercise)}`).join('; '));
}

function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

function severalBouts(bouts: readonly BoutReport[], exercise: Exercise): string {
  const total = bouts.reduce((sum, bout) => sum + bout.summary.completeReps, 0);
  return `${countOf(total, 'rep')} in ${bouts.length} bouts: ${bouts.map((bout) => boutInWords(bout, exercise)).join('; then ')}`;
}

function boutInWords(bout: BoutReport, exercise: Exercise): string {
  const { summary } = bout;
  const tempo = lowering(bout, exercise);
  const parts = [tempo, control(bout, exercise), stageSwitch(bout), range(bout)].filter(
    (part) => part !== null,
  );
  const reps = repsInWords(bout);
  if (summary.completeReps === 0) return `${reps}${parts.length > 0 ? `: ${parts.join(', ')}` : ''}`;
  return `${reps}: ${parts.join(', ')}`;
}

function repsInWords({ summary, reps }: BoutReport): string {
  const cut = reps.filter((rep) => !rep.complete).length;
  const extras = [
    summary.partialReps > 0 ? `${summary.partialReps} partial` : null,
    summary.failedReps > 0 ? `${summary.failedReps} failed` : null,
    cut > 0 ? `${cut} cut off by the film` : null,
  ].filter((part) => part !== null);
  const complete = countOf(summary.completeReps, 'complete rep');
  return extras.length === 0 ? countOf(summary.completeReps, 'rep') : `${complete} (${extras.join(', ')})`;
}

function lowering(bout: BoutReport, exercise: Exercise): string | null {
  const { deliveredLoweringSeconds: done, plannedLoweringSeconds: planned } = bout.summary;
  const noun = exercise.words.eccentric;
  if (typeof done === 'number' && typeof planned === 'number') {
    return `delivered ${Math.round(done)} of ${Math.round(planned)} planned ${noun} seconds`;
  }
  const down = medianSeconds(bout, 'eccentric');
  const up = medianSeconds(bout, 'concentric');
  if (down === null || up === null) return null;
  return `${noun} ${down.toFixed(1)} s, ${exercise.words.concentric} ${up.toFixed(1)} s (medians)`;
}

function control({ summary, reps }: BoutReport, exercise: Exercise): string | null {
  if (summary.deliveredLoweringShare === null) return null;
  if (summary.lastControlledRep !== null)
    return `the last controlled rep was rep ${summary.lastControlledRep}`;
  const judged = reps
    .map((rep) => rep.phases.find((phase) => phase.kind === 'eccentric'))
    .filter((phase) => typeof phase?.plannedSeconds === 'number' && phase.verdict !== null);
  if (judged.length > 0 && judged.every((phase) => phase?.verdict === 'short')) {
    return `every ${exercise.words.eccentric} was quicker than planned`;
  }
  return null;
}

function stageSwitch({ summary }: BoutReport): string | null {
  const first = summary.stageSwitches?.[0];
  if (first === undefined) return null;
  const planned = first.plannedAfterRep;
  const wanted = planned === null || (first.afterRep >= planned.min && first.afterRep <= planned.max);
  const plan = planned === null ? '' : wanted ? ' as planned' : ` (planned after rep ${rangeText(planned)})`;
  return `the pace changed after rep ${first.afterRep}${plan}`;
}

function range({ summary, reps }: BoutReport): string | null {
  const from = summary.firstShortenedRep;
  if (from === null) {
    const known = reps.some((rep) => typeof rep.range?.ofBaseline === 'number');
    return known ? 'range held to the end' : null;
  }
  const share = reps.find((rep) => rep.number === from)?.range?.ofBaseline ?? null;
  const drop =
    share === null || share >= 1 ? '' : ` (${Math.round((1 - share) * 100)} % below the first reps)`;
  return `range shortened from rep ${from}${drop}`;
}

function rangeText({ min, max }: { readonly min: number; readonly max: number }): string {
  return min === max ? `${min}` : `${min}–${max}`;
}

function countOf(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
